"""Units of length beyond our six, and what a unit of another kind is. Pint answers; it is loaded only when asked.

Only a name goes to Pint, looked up as a name; no typed text ever reaches an expression parser.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from pint import Unit, UnitRegistry

_NAME: Final = re.compile(r"[A-Za-z\u00b5\u03bc][A-Za-z_\u00b5\u03bc]*")
UNKNOWN: Final = "is not a unit known here"
"""Said of a name that is no unit, behind the name."""
_METRE: Final = "meter"
"""Pint's name for the one length that takes prefixes here: else `5 pins` would be so many picoinches."""

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


class NoLengthError(ValueError):
    """The name is no unit of length to be used here; `str()` says why, beginning after the name."""


def inches_in(name: str) -> Fraction:
    """Inches in one `name` (words joined by underscores), exact, as Pint has it; NoLengthError for anything else.

    Rods, chains, furlongs and fathoms are counted in today's foot of 0.3048 m, as the US National Institute of
    Standards and Technology has ruled since 2023, and not in the survey foot of before 1959. So that the old foot
    cannot pass for the new one, a unit with `survey` in its name is refused.
    """
    if "survey" in name.lower():
        raise NoLengthError("is counted in the survey foot of before 1959, which is not used here")
    prefix, unit = _found(name) if _NAME.fullmatch(name) else ("", "")
    kind = _kind(unit) if unit else ""
    if not unit or (kind == "length" and prefix and unit != _METRE):
        raise NoLengthError(UNKNOWN)
    if kind != "length":
        raise NoLengthError(f"is a unit of {kind}, not of length")
    return _factor(prefix + unit)


def is_loaded() -> bool:
    """True once a name was looked up: the first takes about a second, the others none."""
    return _registry.cache_info().currsize > 0


def _found(name: str) -> tuple[str, str]:
    """Pint's own prefix and name for `name`, as typed or else in small letters; both empty if it knows none."""
    for each in (name, name.lower()):
        for prefix, unit, _ in _registry().parse_unit_name(each):
            return prefix, unit
    return "", ""


def _factor(unit: str) -> Fraction:
    registry = _registry()
    factor = registry.convert(Fraction(1), _unit(registry.get_name(unit)), _unit("inch"))
    if not isinstance(factor, Fraction):
        raise NoLengthError("has no exact size")
    return factor


def _unit(name: str) -> Unit:
    return _registry().Unit(_registry().UnitsContainer({name: 1}))


def _kind(unit: str) -> str:
    """What `unit` measures, in words."""
    dimensions = dict(_unit(unit).dimensionality)
    if dimensions == {"[length]": 1}:
        return "length"
    return next((kind for kind, each in _KINDS if each == dimensions), "another kind")


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Pint's stock units with exact factors, the survey foot apart; loaded once."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction, on_redefinition="ignore")
    registry.define("survey_foot = foot")
    return registry
