"""The first figures of a job that is still being answered, and the one line that says them.

From the third drop of a section on its cut length is known, with usual allowances where none were chosen; its width and
the number of widths follow with a usual fullness and cloth; and from a bed size alone about how much face cloth it
takes. The plan itself presumes nothing: once it knows a figure, that one is shown.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from msgspec import Struct

from wizard.trade.figures import DEFAULT, PRESUMED, Figure, Rule, value_at
from wizard.trade.first_figures.estimate import early_figures
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.job_fields import Cloth, usual_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Plan

LAID_OUT = Rule("widths laid out", "{value}")


class SectionFigures(Struct, frozen=True):
    """One part: its figures have no value before they are known, or follow from what was read and what is usual."""

    part: str
    """Part id: `left`, or `left/1`."""
    name: str
    cut_length: Figure[Length]
    cut_width: Figure[Length]
    widths: Figure[int]
    """Of cloth, whole or in part, for this part alone; its rule is LAID_OUT once the plan says it."""


class FirstFigures(Struct, frozen=True):
    """What can be said so far."""

    sections: tuple[SectionFigures, ...]
    """In the order of the plan; only those whose cut length is known."""
    whole: bool
    """True when they are all sections there are."""
    widths: Figure[int]
    """Of face cloth, for all sections together; its rule is LAID_OUT once the plan says it."""
    buys: tuple[tuple[Layer, Figure[Length]], ...]
    """The layers whose cloth to buy is known, zero for nothing."""
    estimate: Figure[Length] | None
    """Face cloth in all, in hand or not, until the plan knows what to buy."""
    usual_width: Length | None
    """Of the face cloth, which the estimate takes while its width is not known; None once it is."""
    usual_allowances: bool
    """True while a cut length here goes by an allowance that nobody chose."""


class Segment(Struct, frozen=True):
    """Some words of the line, and the figure that answers *why?* about them."""

    words: str
    figure: Figure[Any] | None = None


def first_figures(plan: Plan) -> FirstFigures:
    """What can be said of a job so far; of one without a hole, the plan's own figures."""
    early, face = early_figures(plan.job, plan.figures.get("fullness")), plan.layers[0]
    parts = {part.id: part.name for part in plan.parts}
    found = [
        SectionFigures(
            id, name, _better(face.cut_lengths[id], early.cut_lengths[id]),
            _better(face.cut_widths[id], early.cut_widths[id]), _laid_out(face, id) or _measured(early.widths[id]),
        )
        for id, name in parts.items()
    ]  # fmt: skip
    known = tuple(each for each in found if each.cut_length.value is not None)
    bought = tuple((each, each.buy) for each in plan.layers if each.buy.value is not None)
    width = early.ledger.read(Cloth.width, "cloth.face")
    settled = face.buy.value is not None or face.refused is not None
    return FirstFigures(
        sections=known,
        whole=bool(known) and len(known) == len(found),
        widths=_laid_out(face) or _measured(early.in_all),
        buys=bought,
        estimate=None if settled or early.estimate.value is None else early.estimate,
        usual_width=width.value if width.rule is PRESUMED else None,
        usual_allowances=any(_usual_allowance(each.cut_length) for each in known),
    )


def _better(planned: Figure[Length], early: Figure[Length]) -> Figure[Length]:
    """The plan's own where it has one; else the early one, as far as it rests on what was read."""
    return planned if planned.value is not None else _measured(early)


def _measured(figure: Figure[Any]) -> Figure[Any]:
    """The figure, without its value where a run or a drop under it was not read."""
    read = all(each.rule is not PRESUMED or not _is_reading(each.id) for each in _under(figure))
    return figure if read else Figure(figure.id, figure.title, None, figure.needs, figure.rule, figure.inputs)


def _is_reading(key: str) -> bool:
    return key.split(".")[3:4] in (["run"], ["drop"])


def _under(figure: Figure[Any]) -> Iterator[Figure[Any]]:
    """The figure and all it is made of."""
    yield figure
    for _, each in figure.inputs:
        yield from _under(each)


def _usual_allowance(cut: Figure[Length]) -> bool:
    return any(each.rule is DEFAULT and each.id.startswith(("allowances.", "cloth.")) for each in _under(cut))


def _laid_out(face: Layer, part: str | None = None) -> Figure[int] | None:
    """The widths that the cutting plan cuts across the roll, those of one part where it is given; without a value where
    it cuts along the roll. None while there is no cutting plan."""
    if face.cutting is None:
        return None
    best, id = face.cutting.best, f"layer.face.widths{f'.{part}' if part else ''}"
    pieces = [each for each in best.pieces if part in (None, each.strip)]
    number = len(pieces if part else {(each.stretch, each.row) for each in pieces})
    return Figure(id, LAID_OUT.id, None if best.way == "along" else number, (), LAID_OUT)


def plan_line(plan: Plan, section: str | None = None, *, chosen: bool = False) -> tuple[Segment, ...]:
    """The plan so far in one line, with its pauses; empty while nothing can be said.

    `section`: id of the one in hand, named first. `chosen`: the allowances were gone through, so that it need not be
    said any more that they are the usual ones.
    """
    first = first_figures(plan)
    sized = tuple(_sized(plan, first, section))
    if sized and first.usual_allowances and not (chosen or plan.complete):
        sized = (sized[0], Segment(" (usual)"), *sized[1:])
    cloth = tuple(_cloth(plan, first))
    return (*sized, *([Segment("; ")] if sized and cloth else []), *cloth)


def line_text(segments: Sequence[Segment]) -> str:
    """The line as text."""
    return "".join(each.words for each in segments)


def _sized(plan: Plan, first: FirstFigures, section: str | None) -> Iterator[Segment]:
    """How long the pieces are, and how many widths they take."""
    here = [each for each in first.sections if each.part.partition("/")[0] == section] or list(first.sections)
    if not here:
        return
    longest = max((each.cut_length for each in here), key=_length)
    alike = all(_length(each.cut_length) == _length(longest) for each in here)
    named = here[0].name if len(here) == 1 else "pieces" if alike else "longest piece"
    long = "" if named == "longest piece" else " long"
    yield Segment(f"{named} {shown(_length(longest), ruler_of(plan.job), 'up')}{long}", longest)
    widths = first.widths if first.whole else here[0].widths if len(here) == 1 else None
    if widths is not None and widths.value is not None:
        about = "" if widths.rule is LAID_OUT else "about "
        in_all = " in all" if first.whole and len(here) < len(first.sections) else ""
        yield Segment(f", {about}{widths.value} width{'' if widths.value == 1 else 's'}{in_all}", widths)


def _length(figure: Figure[Length]) -> Length:
    return figure.value or ZERO


def _cloth(plan: Plan, first: FirstFigures) -> Iterator[Segment]:
    """What to buy, or about how much cloth it takes."""
    if first.estimate is not None:
        yield Segment(estimate_words(plan, first, " face cloth"), first.estimate)
        return
    bought = [(layer, figure) for layer, figure in first.buys if figure.value]
    for number, (layer, figure) in enumerate(bought):
        before = "buy " if not number else " and " if number == len(bought) - 1 else ", "
        yield Segment(f"{before}{_by_the(plan, layer, figure)} {layer.name}", figure)
    if not bought and len(first.buys) == len(plan.layers):
        yield Segment("nothing to buy", first.buys[0][1])


def estimate_words(plan: Plan, first: FirstFigures, cloth: str = "") -> str:
    """`about 4 1/2 yd, 54 in wide`; the width only where it is taken as usual. Empty without an estimate."""
    if first.estimate is None:
        return ""
    wide = "" if first.usual_width is None else f", {shown(first.usual_width, ruler_of(plan.job))} wide"
    return f"about {_by_the(plan, plan.layers[0], first.estimate)}{cloth}{wide}"


def _by_the(plan: Plan, layer: Layer, figure: Figure[Length]) -> str:
    """A length of cloth in the unit that it is sold by."""
    unit = value_at(plan.job, key := f"cloth.{layer.id}.sold_by") or usual_of(key, plan.job.standard or "inches")
    return exact(_length(figure), str(unit))
