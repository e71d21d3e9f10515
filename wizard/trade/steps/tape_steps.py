"""From flat skirt to taped section: mark, draw up, stitch to the tape, fold it over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.trade.lengths import Length
from wizard.trade.notions import LOOPED
from wizard.trade.plan import Part, Step
from wizard.trade.steps.kit import Kit, from_right, from_where, minutes_for

DRAW_UP_MINUTES: Final = 30
DRAW_UP_INCHES: Final = 80
"""About half an hour to draw up and pin one long side of about 80 in. Common practice."""


def tape_steps(kit: Kit, part: Part) -> Iterator[Step]:
    """Once the part has its marks: tape and skirt marked, drawn up, stitched, folded."""
    length = part.gathered.value
    if length is None or part.tape.value is None or not part.marks:
        return
    yield _mark(kit, part, part.tape.value)
    if kit.gathers(part):
        yield _draw_up(kit, part, length)
    yield _tape(kit, part, length)
    yield _fold(kit, part, length)
    if kit.ledger.job.cloth.fixing.kind in LOOPED:
        yield _loop(kit, part, length)


def _mark(kit: Kit, part: Part, tape: Length) -> Step:
    turn, id = kit.mark(kit.read("cloth.tape.turn_under")), f"part.{part.id}"
    return kit.step(
        "mark", "Making up", f"Tape and marks: {part.name}",
        (
            f"Cut the tape {kit.cut(tape)} long, and press it in half along its length.",
            f"Mark {turn} at each end to turn under: the finished tape lies between, {_finished(kit, part)} long.",
            *_spaces(kit, part),
            *_places(kit, part),
        ),
        of=(part.id,), section=part.id,
        figures=(part.tape.id, "tape.fold", part.gathered.id, f"{id}.marks", f"{id}.mark_spacing_tape",
                 f"{id}.mark_spacing_flat"),
        tools=("tape", "chalk or pins", "tape measure", "iron"), minutes=10 + len(part.marks),
    )  # fmt: skip


def _finished(kit: Kit, part: Part) -> str:
    return kit.mark(kit.length(part.gathered.id))


def _spaces(kit: Kit, part: Part) -> Iterator[str]:
    """Both spacings: the quick check that tape and skirt are marked alike."""
    if (part.marks_in or 0) > 1:
        id, where = f"part.{part.id}", "the gathered part of " if part.marks_in != len(part.marks) - 1 else ""
        tape, flat = (kit.mark(kit.length(f"{id}.mark_spacing_{each}")) for each in ("tape", "flat"))
        yield (
            f"Fold {where}the tape and the flat skirt into {part.marks_in} equal parts: {tape} each on the tape, "
            f"{flat} each on the skirt."
        )


def _places(kit: Kit, part: Part) -> Iterator[str]:
    """Every mark between the ends, measured from one end."""
    tape, flat = kit.length(part.gathered.id), kit.length(part.flat_made.id)
    inner = part.marks[1:-1]
    if inner:
        yield f"Check each mark from {from_where(part)}, never one from the next:"
    for number, each in enumerate(reversed(inner) if from_right(part) else inner, start=1):
        on_tape, on_flat = (tape - each.tape, flat - each.flat) if from_right(part) else (each.tape, each.flat)
        drop = "" if each.drop is None else f"; the drop there is {kit.mark(each.drop)}"
        yield f"Mark {number}: {kit.mark(on_tape)} on the tape, {kit.mark(on_flat)} on the skirt{drop}."


def _draw_up(kit: Kit, part: Part, length: Length) -> Step:
    id = f"part.{part.id}"
    return kit.step(
        "draw-up", "Making up", f"Draw up: {part.name}",
        (
            "Pin the skirt to the tape at both ends and at every mark, the face towards you.",
            "Draw up each part until the tape lies flat: "
            f"{kit.mark(kit.length(f'{id}.mark_spacing_flat'))} of skirt "
            f"on {kit.mark(kit.length(f'{id}.mark_spacing_tape'))} of tape.",
            *(["What is left flat at an end is pinned as it lies."] if part.marks_in != len(part.marks) - 1 else []),
            "Even out the gathers with a pin's head, and pin across them about every 2 in (5 cm).",
            "Wind the thread ends round a pin in a figure of eight, and knot them when all is even.",
        ),
        of=(part.id,), section=part.id, figures=(f"{id}.mark_spacing_tape", f"{id}.mark_spacing_flat", f"{id}.marks"),
        tools=("pins", "large table"), minutes=draw_up_minutes(length),
    )  # fmt: skip


def draw_up_minutes(length: Length) -> int:
    """About half an hour for 80 in of gathered length, and in proportion."""
    return max(1, (length * DRAW_UP_MINUTES / DRAW_UP_INCHES).inches.__ceil__())


def _tape(kit: Kit, part: Part, length: Length) -> Step:
    top = kit.mark(kit.read("allowances.top"))
    return kit.step(
        "tape", "Making up", f"Stitch to the tape: {part.name}",
        (
            f"Lay the skirt on the back half of the tape, the raw top {top} above the tape's lower edge.",
            "Turn the tape's ends under, so that they finish level with the skirt's hemmed ends.",
            "Stitch just above the lower edge, with the gathers on top; take the pins out as they come.",
        ),
        of=(part.id,), section=part.id, figures=("allowances.top", part.gathered.id),
        tools=("sewing machine", "stiletto"),
        settings=kit.settings("tape", *kit.all_layers), minutes=minutes_for(length, 5),
    )  # fmt: skip


def _fold(kit: Kit, part: Part, length: Length) -> Step:
    fold = kit.mark(kit.length("tape.fold"))
    return kit.step(
        "fold", "Making up", f"Fold the tape over: {part.name}",
        (
            f"Fold the tape over the raw top: {fold} on each side, both lower edges on the drop line.",
            "Stitch just above the lower edge through everything, so that both rows are covered, and across both ends.",
            f"Finished, it is {kit.mark(length)} from end to end. Count the pins.",
        ),
        of=(part.id,), section=part.id, figures=("tape.fold", part.gathered.id),
        tools=("sewing machine", "pins", "iron"),
        settings=kit.settings("tape", *kit.all_layers), minutes=minutes_for(length, 5),
    )  # fmt: skip


def _loop(kit: Kit, part: Part, length: Length) -> Step:
    return kit.step(
        "loop", "Making up", f"Sew on the loop side: {part.name}",
        (
            f"Cut {kit.cut(length)} of the soft loop side, and lay it on the back of the tape, inside its edges.",
            "Stitch along both its edges and across its ends.",
        ),
        of=(part.id,), section=part.id, figures=(part.gathered.id,), tools=("sewing machine", "shears"),
        settings=kit.settings("tape", *kit.all_layers), minutes=minutes_for(length, 5),
    )  # fmt: skip
