"""The staple or tack leg: long enough to hold, short enough not to come through the rail.

Common practice: from tape + layers + 1/4 in, to rail − 1/8 in. What lies under a fixing is an allowance: cloth is
not measured with a gauge at the kitchen table, so each weight class stands for a usual thickness.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.corners import sections_on
from wizard.trade.figures import Figure, Ledger, Rule, merged
from wizard.trade.gathers import fullness_made
from wizard.trade.job import Weight
from wizard.trade.layers import layers_in_use
from wizard.trade.lengths import ZERO, Length, ceiling, total

THICKNESS: Final[Mapping[Weight, Length]] = {
    "sheer": Length(Fraction(1, 128)),
    "light": Length(Fraction(1, 64)),
    "medium": Length(Fraction(1, 32)),
    "heavy": Length(Fraction(1, 16)),
}
"""Thickness allowed for one layer lying flat, pressed down by a fixing. Common practice, on the generous side."""
TAPE_THICKNESS: Final = Length(Fraction(1, 16))
"""Twill tape folded over: two thicknesses of 1/32 in. Common practice."""
HOLD: Final = Length(Fraction(1, 4))
"""What has to go into the rail to hold."""
SPARE: Final = Length(Fraction(1, 8))
"""What must be left of the rail in front of the point."""
USUAL_GATHERS: Final = 3
"""How thick gathered cloth lies where no fullness is known yet."""

GATHERED = Rule(
    "layers under a fixing", "{flat} × {folds}", "Gathered cloth lies over itself, and all of it lies under a fixing."
)
FOLDS = Rule(
    "thickness of gathers", "{fullness}, up to a whole number",
    "Gathered cloth lies over itself as often as its fullness, that of the fullest section where a surplus is kept.",
)  # fmt: skip
USUAL_FOLDS = Rule(
    "usual thickness of gathers", "{value}", "While the fullness is not known, gathers are taken as usual ones."
)
LEAST = Rule(
    "least leg", "1/16 in of tape + {layers} + 1/4 in", "Through tape and layers, and 1/4 in into the rail to hold."
)
MOST = Rule("longest leg", "{rail} − 1/8 in", "The point must stay 1/8 in inside the thinnest rail.")
THINNEST = Rule("thinnest rail", "{value}", "One leg serves the whole bed, so the thinnest rail decides.")
LEG = Rule(
    "leg",
    "the shortest of {legs} from {least} to {most}",
    "The shortest leg that holds is the least likely to come through.",
)


def leg_figure(ledger: Ledger) -> Figure[Length]:
    """The leg to use, `fixing.leg`: the shortest that can be had between `fixing.leg_least` and `fixing.leg_most`.

    No value when none lies between; :func:`wizard.trade.fixing_findings.fixing_findings` says so.
    """
    least = ledger.work("fixing.leg_least", "least leg", LEAST, _least, layers=_layers(ledger))
    most = ledger.work("fixing.leg_most", "longest leg", MOST, _most, rail=thinnest_rail(ledger))
    legs: Figure[tuple[Length, ...]] = ledger.read("cloth.fixing.legs")
    return ledger.work("fixing.leg", "leg", LEG, shortest, legs=legs, least=least, most=most)


def shortest(legs: tuple[Length | None, ...], least: Length, most: Length) -> Length | None:
    """The shortest leg from `least` to `most`, both included; None when none lies between."""
    return min((each for each in legs if each is not None and least <= each <= most), default=None)


def _least(layers: Length) -> Length:
    return TAPE_THICKNESS + layers + HOLD


def _most(rail: Length) -> Length:
    return rail - SPARE


def _layers(ledger: Ledger) -> Figure[Length]:
    weights = {each: ledger.read(f"cloth.{each}.weight") for each in layers_in_use(ledger)}
    rule = Rule(
        "layers lying flat",
        " + ".join(f"{{{each}}}" for each in weights),
        "One layer counts 1/128 in when sheer, 1/64 when light, 1/32 when medium, 1/16 when heavy.",
    )
    flat = ledger.work("fixing.layers_flat", "layers lying flat", rule, _sum, **weights)
    return ledger.work("fixing.layers", "layers under a fixing", GATHERED, _gathered, flat=flat, folds=_folds(ledger))


def _sum(**weights: Weight) -> Length:
    return total(THICKNESS[each] for each in weights.values())


def _folds(ledger: Ledger) -> Figure[int]:
    """From the fullness the skirt is made to, whatever sets it. The leg does not wait for it."""
    id, title, fullness = "fixing.folds", "thickness of gathers", _fullness(ledger)
    if fullness is None or fullness.value is None:
        return ledger.keep(Figure(id, title, USUAL_GATHERS, (), USUAL_FOLDS))
    return ledger.keep(Figure(id, title, ceiling(fullness.value), (), FOLDS, (("fullness", fullness),)))


def _fullness(ledger: Ledger) -> Figure[Fraction] | None:
    """What every part is asked to be, or the fullest part where a surplus is kept; None until it is worked."""
    return max(_as_made(ledger), key=lambda each: each.value or Fraction(0), default=ledger.figures.get("fullness"))


def _as_made(ledger: Ledger) -> list[Figure[Fraction]]:
    """The fullness of each part that comes out wider than was asked, by more than the rounding to the ruler mark."""
    figures, mark = ledger.figures, ledger.read("ruler").value
    made = [
        (id.removeprefix("part.").removesuffix(".flat_made"), figure)
        for id, figure in figures.items()
        if id.startswith("part.") and id.endswith(".flat_made")
    ]
    return [
        fullness_made(ledger, part, figures[f"part.{part}.gathered"], flat)
        for part, flat in made
        if flat.value is not None and flat.value - (figures[f"part.{part}.flat"].value or ZERO) >= mark
    ]


def _gathered(flat: Length, folds: int) -> Length:
    return flat * folds


def thinnest_rail(ledger: Ledger) -> Figure[Length]:
    """The thickness of the thinnest rail among the sections that are made, `fixing.rail`."""
    rails = {
        section: ledger.read(f"survey.section.{section}.rail_thickness", fallback="survey.rail_thickness")
        for section, _ in sections_on(ledger.job)
    }
    known = [each.value for each in rails.values() if each.value is not None]
    needs = merged(each.needs for each in rails.values())
    value = min(known) if known and not needs else None
    return ledger.keep(Figure("fixing.rail", "thinnest rail", value, needs, THINNEST, tuple(rails.items())))
