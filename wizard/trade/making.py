"""The part as it is made and hung: what the layout gave it, its marks and its fixings."""

from __future__ import annotations

from collections.abc import Callable

from wizard.trade.corners import FROM_RIGHT
from wizard.trade.drops import Readings, line_of, within
from wizard.trade.figures import Figure, Ledger
from wizard.trade.fixings import fixings_for
from wizard.trade.gathers import Gathered, fullness_made
from wizard.trade.layers import Laid
from wizard.trade.lengths import ZERO, Length
from wizard.trade.marks import MarkSpan, mark_figures, marks_of
from wizard.trade.parts import Span, run_of
from wizard.trade.plan import FixingPlan, Mark, Part


def made_part(
    ledger: Ledger, part: Gathered, readings: Readings, drop: Figure[Length], flat: Figure[Length], face: Laid
) -> Part:
    """A part with everything that is said of it."""
    span, flat_made = part.span, face.made[part.span.id]
    marks_in = mark_figures(
        ledger, span.id, gathered=part.length, flat=flat_made, left_flat=part.left_flat, right_flat=part.right_flat
    )
    return Part(
        id=span.id,
        section=span.section_id,
        name=span.name,
        side=span.side,
        run=span.run,
        gathered=part.length,
        drop=drop,
        follows_floor=readings.follows,
        readings=within(readings, span.ends),
        flat=flat,
        fullness=fullness_made(ledger, span.id, part.length, flat_made),
        flat_made=flat_made,
        tape=part.tape,
        marks=_marks(part, readings, flat_made),
        marks_in=marks_in.value,
        fixings=_fixings(ledger, part),
        left_is=span.left_is,
        right_is=span.right_is,
    )


def _marks(part: Gathered, readings: Readings, flat_made: Figure[Length]) -> tuple[Mark, ...]:
    """Marks once all they need is known: a hem that follows the floor has its drop at each."""
    left, right = part.left_flat.value, part.right_flat.value
    if part.length.value is None or flat_made.value is None or left is None or right is None:
        return ()
    drop_at = drop_along(part.span, readings) if readings.follows else None
    return marks_of(MarkSpan(part.length.value, flat_made.value, left, right, drop_at))


def drop_along(span: Span, readings: Readings) -> Callable[[Length], Length] | None:
    """Finished drop of the face at a place on the part's tape, from its left end."""
    line, raised, gap = line_of(readings), readings.raised.value, readings.gap.value
    start, extra = _start(span), span.left_extra.value
    if line is None or raised is None or gap is None or start is None or extra is None:
        return None

    def drop_at(place: Length) -> Length:
        return line.at(start + place - extra) + raised - gap

    return drop_at


def _start(span: Span) -> Length | None:
    return ZERO if span.ends is None else span.ends[0].value


def _fixings(ledger: Ledger, part: Gathered) -> FixingPlan | None:
    """The fixings, measured from the head or the bed's left: on the right and at the head from the other end."""
    span, whole = part.span, run_of(ledger, part.span.section_id).value
    start, run, from_right = _start(span), span.run.value, span.side in FROM_RIGHT
    begins = start
    if from_right and whole is not None and start is not None and run is not None:
        begins = whole - start - run
    return fixings_for(
        ledger, span.section_id, run=span.run, gathered=part.length, left_extra=span.left_extra.value,
        measured_from_right=from_right, part=span.id, begins=begins or ZERO, whole_run=whole,
    )  # fmt: skip
