"""What stands where nothing is said: the trade's usual allowances, in inches and in metric. Common practice."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.job import Standard
from wizard.trade.lengths import Length


def _inches(numerator: int, denominator: int = 1) -> Length:
    return Length(Fraction(numerator, denominator))


def _cm(numerator: int, denominator: int = 1) -> Length:
    return Length.of(Fraction(numerator, denominator), "cm")


Default = Length | Fraction | bool | str | tuple[Length, ...]

_INNER: dict[str, tuple[Default, Default]] = {
    "use": (False, False),
    "hem": (_inches(3, 2), _cm(4)),
    "setback": (_inches(1, 2), _cm(3, 2)),
    "end_setback": (_inches(1, 2), _cm(3, 2)),
}
_LAYER: dict[str, tuple[Default, Default]] = {
    "trim": (_inches(1, 2), _cm(3, 2)),
    "one_way": (False, False),
    "sideways": (False, False),
    "repeat": (_inches(0), _cm(0)),
    "repeat_kind": ("straight", "straight"),
    "match": (True, True),
    "match_from": ("hem", "hem"),
    "lay": ("across", "across"),
    "way": ("least cloth", "least cloth"),
    "warp_shrink": (Fraction(0), Fraction(0)),
    "weft_shrink": (Fraction(0), Fraction(0)),
    "wash": ("not washed", "not washed"),
    "sold_by": ("yd", "m"),
    "step": (_inches(9, 2), _cm(10)),
    "hem_kind": ("double", "double"),
    "hem_turn": (_inches(1, 4), _cm(1, 2)),
    "join": ("seam", "seam"),
    "lap": (_inches(1, 2), _cm(1)),
}

DEFAULTS: Final[Mapping[str, tuple[Default, Default]]] = {
    "show": ("in", "cm"),
    "ruler": (_inches(1, 16), _cm(1, 10)),
    "survey.raised": (_inches(0), _cm(0)),
    "survey.slatted": (False, False),
    "survey.taken_off": ("now and then", "now and then"),
    "allowances.join": (_inches(1, 2), _cm(3, 2)),
    "allowances.end_hem": (_inches(1), _cm(3, 2)),
    "allowances.top": (_inches(1, 2), _cm(3, 2)),
    "allowances.squaring": (_inches(1), _cm(5, 2)),
    "allowances.least_piece": (_inches(6), _cm(15)),
    "allowances.floor_tolerance": (_inches(1, 4), _cm(6, 10)),
    "allowances.run_tolerance": (_inches(1, 4), _cm(6, 10)),
    **{f"cloth.face.{leaf}": pair for leaf, pair in _LAYER.items()},
    "cloth.face.use": (True, True),
    "cloth.face.hem": (_inches(1, 2), _cm(3, 2)),
    **{f"cloth.interlining.{leaf}": pair for leaf, pair in (_LAYER | _INNER).items()},
    **{f"cloth.lining.{leaf}": pair for leaf, pair in (_LAYER | _INNER).items()},
    "cloth.tape.width": (_inches(2), _cm(5)),
    "cloth.tape.turn_under": (_inches(1), _cm(5, 2)),
    "cloth.tape.sold_by": ("yd", "m"),
    "cloth.tape.step": (_inches(36), _cm(100)),
    "cloth.thread.ratio": (Fraction(5, 2), Fraction(5, 2)),
    "cloth.thread.waste": (Fraction(15, 100), Fraction(15, 100)),
    "cloth.thread.spool": (Length.of(100, "yd"), Length.of(100, "m")),
    "cloth.fixing.inset": (_inches(1, 2), _cm(3, 2)),
    "cloth.fixing.legs": (
        tuple(_inches(n, 16) for n in (4, 5, 6, 8, 9)),
        tuple(Length.of(n, "mm") for n in (6, 8, 10, 12, 14)),
    ),
    "cloth.fixing.sold_by": ("yd", "m"),
    "cloth.fixing.step": (_inches(36), _cm(100)),
    "fullness.aim": ("a number", "a number"),
    "fullness.joins": ("part widths", "part widths"),
    "fullness.surplus": ("trim", "trim"),
}
"""Key of the file -> its value in the inch column and in the metric column. What is not here must be asked."""

SPACINGS: Final[Mapping[str, tuple[Length, Length]]] = {
    "staples": (_inches(2), _cm(5)),
    "tacks": (_inches(3), _cm(15, 2)),
    "upholstery pins": (_inches(3), _cm(15, 2)),
    "magnets": (_inches(3), _cm(15, 2)),
}
"""Greatest spacing of fixings set one by one; the others run the whole length."""


def default_of(key: str, standard: Standard) -> Default | None:
    """The value that stands for `key` when nothing is said, or None when it must be asked."""
    pair = DEFAULTS.get(key)
    return None if pair is None else pair[0 if standard == "inches" else 1]
