"""What a unit that is not taken here measures, for the sentence that refuses it. Pint knows; loaded only when asked.

Only a name goes to Pint, looked up as a name; no typed text ever reaches an expression parser.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from pint import UnitRegistry

_NAME: Final = re.compile(r"[A-Za-z\u00b5\u03bc][A-Za-z_\u00b5\u03bc]*")
_METRE: Final = "meter"
"""Pint's name for the one length that takes prefixes: else `5 pins` would be so many picoinches."""

_KINDS: Final[tuple[tuple[str, dict[str, int]], ...]] = (
    ("mass", {"[mass]": 1}),
    ("time", {"[time]": 1}),
    ("temperature", {"[temperature]": 1}),
    ("electric current", {"[current]": 1}),
    ("amount of substance", {"[substance]": 1}),
    ("luminous intensity", {"[luminosity]": 1}),
    ("area", {"[length]": 2}),
    ("volume", {"[length]": 3}),
    ("speed", {"[length]": 1, "[time]": -1}),
    ("force", {"[mass]": 1, "[length]": 1, "[time]": -2}),
    ("energy", {"[mass]": 1, "[length]": 2, "[time]": -2}),
    ("power", {"[mass]": 1, "[length]": 2, "[time]": -3}),
    ("pressure", {"[mass]": 1, "[length]": -1, "[time]": -2}),
    ("angle or number", {}),
)


def kind_of_unit(name: str) -> str:
    """What the unit of that name (its words with spaces between) measures: `length`, `mass`; empty for no unit."""
    under = name.replace(" ", "_")
    prefix, unit = _found(under) if _NAME.fullmatch(under) else ("", "")
    kind = _kind(unit) if unit else ""
    return "" if kind == "length" and prefix and unit != _METRE else kind


def is_loaded() -> bool:
    """True once a name was looked up: the first takes about a second, the others none."""
    return _registry.cache_info().currsize > 0


def _found(name: str) -> tuple[str, str]:
    """Pint's own prefix and name for `name`, as typed or else in small letters; both empty if it knows none."""
    for each in (name, name.lower()):
        for prefix, unit, _ in _registry().parse_unit_name(each):
            return prefix, unit
    return "", ""


def _kind(unit: str) -> str:
    """What `unit` measures, in words."""
    dimensions = dict(_registry().Unit(_registry().UnitsContainer({unit: 1})).dimensionality)
    if dimensions == {"[length]": 1}:
        return "length"
    return next((kind for kind, each in _KINDS if each == dimensions), "another kind")


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Pint's stock units, loaded once."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)
    return registry
