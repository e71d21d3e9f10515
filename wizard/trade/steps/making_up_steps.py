"""From cut pieces to a taped section: join, hem, layers together, rows, marks, drawn up, stitched to the tape."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.trade.job_fields import Allowances, Cloth, Tape
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.notions import LOOPED
from wizard.trade.plan_records import Layer, Mark, Part, Step
from wizard.trade.steps.step_writer import StepWriter, from_right, from_where, minutes_for

LONG_RUN: Final = Length(36)
"""From here on a part may be gathered over a cord. Common practice."""
DRAW_UP_MINUTES: Final = 30
DRAW_UP_INCHES: Final = 80
"""About half an hour to draw up and pin one long side of about 80 in. Common practice."""


def making_up_steps(write: StepWriter, part: Part) -> Iterator[Step]:
    """All steps that make up a part, as far as their figures are known."""
    for layer in write.layers:
        yield from _join(write, part, layer)
        yield from _hem(write, part, layer)
    if part.flat_made.value is not None:
        yield from _top(write, part, part.flat_made.value)
    if part.gathered.value is not None and part.tape.value is not None and part.marks:
        yield from _on_the_tape(write, part, part.gathered.value, part.tape.value)


def flat_made(part: Part, layer: Layer) -> str:
    """Id of the flat finished width as made of a part in a layer."""
    return part.flat_made.id if layer.id == "face" else f"layer.{layer.id}.flat_made.{part.id}"


def _join(write: StepWriter, part: Part, layer: Layer) -> Iterator[Step]:
    pieces = [] if layer.cutting is None else [each for each in layer.cutting.best.pieces if each.strip == part.id]
    if layer.cutting is None or len(pieces) < 2:
        return
    joins = "1 join" if len(pieces) == 2 else f"{len(pieces) - 1} joins"
    key = f"cloth.{layer.id}"
    laps = write.value(Cloth.join, key) == "lap"
    takes = write.ledger.read(Cloth.lap, key) if laps else write.ledger.read(Allowances.join)
    taken = write.mark(takes.value or ZERO)
    wide = write.mark(dict(layer.cutting.best.flats).get(part.id, ZERO))
    lines = (
        f"Join pieces 1 to {len(pieces)} in order, arrows up, tops level: {joins}.",
        *(_lapped(taken) if laps else _seamed(taken)),
        *_matched(write, layer, layer.cutting.best.way),
        f"Joined, it measures {wide} from raw end to raw end.",
    )
    minutes = 5 * (len(pieces) - 1) + minutes_for(total(each.cut for each in pieces[1:]), 10)
    figures = (takes.id, flat_made(part, layer))
    yield write.step("join", lines, layer=layer, part=part, figures=figures, stitch="join", minutes=minutes)


def _seamed(allowance: str) -> tuple[str, ...]:
    return f"Right sides together, stitch {allowance} from the edge.", "Press each seam flat as sewn, then open."


def _lapped(lap: str) -> tuple[str, ...]:
    return f"Lap each edge {lap} over the next, and zigzag down the middle of the lap.", "Press each join flat."


def _matched(write: StepWriter, layer: Layer, way: str) -> Iterator[str]:
    key = f"cloth.{layer.id}"
    if not write.length(Cloth.repeat, key) or not write.value(Cloth.match, key):
        return
    if way == "along":
        yield "The pattern does not meet at the joins of cloth cut along the roll: let the gathers hide it."
    else:
        yield "Match the pattern at the seam line, not at the raw edge, before you pin."


def _hem(write: StepWriter, part: Part, layer: Layer) -> Iterator[Step]:
    flat, hem, drop = flat_made(part, layer), f"layer.{layer.id}.hem", part.drop.value
    if not write.knows(flat, hem) or drop is None or (part.follows_floor and not part.marks):
        return
    end, wide = write.length(Allowances.end_hem), write.worked(flat)
    # A hem along the floor has no one depth from the raw top.
    depth = write.length(Allowances.top) + drop - _setback(write, layer)
    deep = "" if part.follows_floor else f", {write.mark(depth)} from the raw top to the hem"
    lines = (
        f"At both ends turn in {write.mark(end / 2)} twice ({write.mark(end)} altogether), press, and stitch.",
        *(_along_floor(write, part, layer) if part.follows_floor else ()),
        _below(write, layer),
        "Stitch close to the upper fold.",
        f"Finished: {write.mark(wide)} wide{deep}. Press.",
    )
    yield write.step(
        "hem", lines, layer=layer, part=part, stitch="join",
        figures=("allowances.end_hem", hem, part.drop.id, "allowances.top", flat),
        minutes=minutes_for(wide, 5) + (2 * len(part.marks) if part.follows_floor else 0),
    )  # fmt: skip


def _below(write: StepWriter, layer: Layer) -> str:
    """How the hem along the bottom is turned."""
    key = f"cloth.{layer.id}"
    depth, taken = write.mark(write.length(Cloth.hem, key)), write.mark(write.worked(f"layer.{layer.id}.hem"))
    if write.value(Cloth.hem_kind, key) != "single":
        return f"Along the bottom turn up {depth} twice ({taken} altogether), and press."
    turn = write.mark(write.length(Cloth.hem_turn, key))
    return f"Along the bottom turn under {turn}, then turn up {depth} ({taken} altogether), and press."


def _setback(write: StepWriter, layer: Layer) -> Length:
    return ZERO if layer.id == "face" else write.length(Cloth.setback, f"cloth.{layer.id}")


def _along_floor(write: StepWriter, part: Part, layer: Layer) -> Iterator[str]:
    """Where the hem is folded at each mark, measured down from the raw top."""
    top, back = write.length(Allowances.top), _setback(write, layer)
    yield (
        f"This hem follows the floor. At each place along the flat top, from {from_where(part)}, measure down from the "
        f"raw edge: {write.mark(top)} of top allowance and the drop{', less the setback' if back else ''}."
    )
    for place, mark in _places(write, part, layer):
        if mark.drop is not None:
            yield f"At {write.mark(place)}: {write.mark(top + mark.drop - back)} down."
    taken = write.mark(write.worked(f"layer.{layer.id}.hem"))
    yield f"Draw a line through these points, fold on it, and trim the cloth to {taken} below the fold."


def _places(write: StepWriter, part: Part, layer: Layer) -> list[tuple[Length, Mark]]:
    """Every mark with its place on this layer's flat top, from the end measured from."""
    wide = write.worked(flat_made(part, layer))
    inset = ZERO if layer.id == "face" else write.length(Cloth.end_setback, f"cloth.{layer.id}")
    face = write.worked(part.flat_made.id)
    ordered = reversed(part.marks) if from_right(part) else iter(part.marks)
    places = ((face - each.flat if from_right(part) else each.flat, each) for each in ordered)
    return [(min(max(place - inset, ZERO), wide), mark) for place, mark in places]


def _top(write: StepWriter, part: Part, flat: Length) -> Iterator[Step]:
    """The top of a part: its layers put together and its rows sewn."""
    inner = [each for each in write.layers if each.id != "face"]
    if len(write.layers) > 1:
        lines = (
            "Lay the face wrong side up.",
            *(_inner(write, each) for each in inner),
            "Smooth from the middle outwards, and pin along the top.",
        )
        figures = [f"cloth.{each.id}.{leaf}" for each in inner for leaf in ("setback", "end_setback")]
        yield write.step("layers", lines, part=part, figures=figures, minutes=minutes_for(flat, 20))
    row, through = write.mark(write.worked("rows.stay")), " through all layers" if len(write.layers) > 1 else ""
    stay = f"Stitch {row} from the raw top{through}, from end to end, without stretching it."
    minutes = minutes_for(flat, 20)
    yield write.step("stay", [stay], part=part, figures=("rows.stay",), stitch="join", minutes=minutes)
    if write.gathers(part):
        yield _gather(write, part, flat)


def _inner(write: StepWriter, layer: Layer) -> str:
    key = f"cloth.{layer.id}"
    ends, below = (write.mark(write.length(each, key)) for each in (Cloth.end_setback, Cloth.setback))
    return (
        f"Lay the {layer.name} on it, wrong sides together, raw tops level. It ends {ends} short of the face at both "
        f"ends, and its hem is {below} above the face's."
    )


def _gather(write: StepWriter, part: Part, flat: Length) -> Step:
    row, below = write.mark(write.worked("rows.gathering")), write.mark(write.worked("rows.below"))
    long = part.gathered.value is not None and part.gathered.value >= LONG_RUN
    lines = (
        f"Stitch {row} from the raw top, {below} below the stay-stitching, with the longest stitch.",
        "Loosen the upper tension, and leave long ends of thread.",
        *(["Stop at every join and start again on the other side of it."] if _has_joins(write, part) else []),
        *(["For a run this long you can gather over a cord: zigzag over it, never into it."] if long else []),
    )
    figures, minutes = ("rows.gathering", "rows.below"), minutes_for(flat, 15)
    return write.step("gather", lines, part=part, figures=figures, stitch="gathering", minutes=minutes)


def _has_joins(write: StepWriter, part: Part) -> bool:
    layouts = [each.cutting.best for each in write.layers if each.cutting is not None]
    return any(piece.strip == part.id and piece.order > 1 for layout in layouts for piece in layout.pieces)


def _on_the_tape(write: StepWriter, part: Part, length: Length, tape: Length) -> Iterator[Step]:
    """Tape and skirt marked, drawn up, stitched together, and the tape folded over."""
    figures, minutes = (part.gathered.id,), minutes_for(length, 5)
    yield _mark(write, part, length, tape)
    if write.gathers(part):
        yield _draw_up(write, part, length)
    top = write.mark(write.length(Allowances.top))
    lines: tuple[str, ...] = (
        f"Lay the skirt on the back half of the tape, the raw top {top} above the tape's lower edge.",
        "Turn the tape's ends under, level with the skirt's hemmed ends.",
        "Stitch just above the lower edge, with the gathers on top. Take each pin out as you come to it.",
    )
    yield write.step("tape", lines, part=part, figures=("allowances.top", *figures), stitch="tape", minutes=minutes)
    lines = (
        f"Fold the tape over the raw top: {write.mark(write.worked('tape.fold'))} on each side, both lower edges on "
        "the drop line.",
        "Stitch through everything just above the lower edge, so that the tape covers both rows, and across both ends.",
        f"Finished, it is {write.mark(length)} from end to end. Count the pins.",
    )
    yield write.step("fold", lines, part=part, figures=("tape.fold", *figures), stitch="tape", minutes=minutes)
    if write.job.cloth.fixing.kind in LOOPED:
        lines = (
            f"Cut {write.cut(length)} of the soft loop side, and lay it on the back of the tape, inside its edges.",
            "Stitch along both its edges and across its ends.",
        )
        yield write.step("loop", lines, part=part, figures=figures, stitch="tape", minutes=minutes)


def _mark(write: StepWriter, part: Part, length: Length, tape: Length) -> Step:
    turn, id = write.mark(write.length(Tape.turn_under)), f"part.{part.id}"
    lines = (
        f"Cut the tape {write.cut(tape)} long, and press it in half along its length.",
        f"Mark {turn} at each end to turn under: between the marks is the finished tape, {write.mark(length)}.",
        *_spaces(write, part),
        *_marks(write, part, length),
    )
    spacings = (f"{id}.marks", f"{id}.mark_spacing_tape", f"{id}.mark_spacing_flat")
    figures = (part.tape.id, "tape.fold", part.gathered.id, *spacings)
    return write.step("mark", lines, part=part, figures=figures, minutes=10 + len(part.marks))


def _is_all_gathered(part: Part) -> bool:
    """True where no end is left flat."""
    return part.marks_in == len(part.marks) - 1


def _spacings(write: StepWriter, part: Part) -> tuple[str, str]:
    """From mark to mark on the tape and on the flat skirt."""
    tape, flat = (write.worked(f"part.{part.id}.mark_spacing_{each}") for each in ("tape", "flat"))
    return write.mark(tape), write.mark(flat)


def _spaces(write: StepWriter, part: Part) -> Iterator[str]:
    """Both spacings: the quick check that tape and skirt are marked alike."""
    if (part.marks_in or 0) > 1:
        (tape, flat), where = _spacings(write, part), "" if _is_all_gathered(part) else "the gathered part of "
        yield (
            f"Fold {where}the tape and the flat skirt into {part.marks_in} equal parts: {tape} each on the tape, "
            f"{flat} each on the skirt."
        )


def _marks(write: StepWriter, part: Part, tape: Length) -> Iterator[str]:
    """Every mark between the ends, measured from one end."""
    flat, inner = write.worked(part.flat_made.id), part.marks[1:-1]
    if inner:
        yield f"Measure every mark from {from_where(part)}, never from the mark before:"
    for number, each in enumerate(reversed(inner) if from_right(part) else inner, start=1):
        on_tape, on_flat = (tape - each.tape, flat - each.flat) if from_right(part) else (each.tape, each.flat)
        drop = "" if each.drop is None else f"; the drop there is {write.mark(each.drop)}"
        yield f"Mark {number}: {write.mark(on_tape)} on the tape, {write.mark(on_flat)} on the skirt{drop}."


def _draw_up(write: StepWriter, part: Part, length: Length) -> Step:
    id, (tape, flat) = f"part.{part.id}", _spacings(write, part)
    lines = (
        "Pin the skirt to the tape at both ends and at every mark, the face towards you.",
        f"Draw up each part until the tape lies flat: {flat} of skirt on {tape} of tape.",
        *([] if _is_all_gathered(part) else ["Pin an end that stays flat as it is."]),
        f"Even out the gathers with the head of a pin, and pin across them about every {write.about('2 in', '5 cm')}.",
        "Wind the thread ends round a pin in a figure of eight, and knot them once the gathers are even.",
    )
    figures = (f"{id}.mark_spacing_tape", f"{id}.mark_spacing_flat", f"{id}.marks")
    return write.step("draw-up", lines, part=part, figures=figures, minutes=draw_up_minutes(length))


def draw_up_minutes(length: Length) -> int:
    """About half an hour for 80 in of gathered length, and in proportion."""
    return max(1, (length * DRAW_UP_MINUTES / DRAW_UP_INCHES).inches.__ceil__())
