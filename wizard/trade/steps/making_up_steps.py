"""From cut pieces to a taped section: join, hem, layers together, rows, marks, drawn up, stitched to the tape."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.trade.job_fields import Allowances, Cloth, Tape
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.notions import LOOPED
from wizard.trade.plan_records import Layer, Mark, Part, Step
from wizard.trade.steps.cut_order import cut_pieces, numbers_in_words, pieces_of
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
    key = f"cloth.{layer.id}"
    laps = write.value(Cloth.join, key) == "lap"
    takes = write.ledger.read(Cloth.lap, key) if laps else write.ledger.read(Allowances.join)
    matched = bool(write.length(Cloth.repeat, key)) and write.value(Cloth.match, key)
    along = layer.cutting.best.way == "along"
    values = {
        "pieces": numbers_in_words(pieces_of(part.id, cut_pieces(write.layers, layer))),
        "taken": write.mark(takes.value or ZERO),
        "lap": laps,
        "seam": not laps,
        "meets": matched and not along,
        "never_meets": matched and along,
        "wide": write.mark(dict(layer.cutting.best.flats).get(part.id, ZERO)),
    }
    minutes = 5 * (len(pieces) - 1) + minutes_for(total(each.cut for each in pieces[1:]), 10)
    figures = (takes.id, flat_made(part, layer))
    yield write.step("join", values, layer=layer, part=part, figures=figures, stitch="join", minutes=minutes)


def _hem(write: StepWriter, part: Part, layer: Layer) -> Iterator[Step]:
    flat, hem, drop = flat_made(part, layer), f"layer.{layer.id}.hem", part.drop.value
    if not write.knows(flat, hem) or drop is None or (part.follows_floor and not part.marks):
        return
    end, wide = write.length(Allowances.end_hem), write.worked(flat)
    # A hem along the floor has no one depth from the raw top.
    depth = write.length(Allowances.top) + drop - _setback(write, layer)
    key = f"cloth.{layer.id}"
    single = write.value(Cloth.hem_kind, key) == "single"
    values = {
        "half_end": write.mark(end / 2),
        "end": write.mark(end),
        "follows": part.follows_floor,
        "places": list(_along_floor(write, part, layer)) if part.follows_floor else (),
        "start": from_where(part),
        "top": write.mark(write.length(Allowances.top)),
        "less": ", less the setback" if _setback(write, layer) else "",
        "depth": write.mark(write.length(Cloth.hem, key)),
        "taken": write.mark(write.worked(hem)),
        "single": single,
        "double": not single,
        "turn": write.mark(write.length(Cloth.hem_turn, key)) if single else "",
        "wide": write.mark(wide),
        "deep": "" if part.follows_floor else write.mark(depth),
    }
    yield write.step(
        "hem", values, layer=layer, part=part, stitch="join",
        figures=("allowances.end_hem", hem, part.drop.id, "allowances.top", flat),
        minutes=minutes_for(wide, 5) + (2 * len(part.marks) if part.follows_floor else 0),
    )  # fmt: skip


def _setback(write: StepWriter, layer: Layer) -> Length:
    return ZERO if layer.id == "face" else write.length(Cloth.setback, f"cloth.{layer.id}")


def _along_floor(write: StepWriter, part: Part, layer: Layer) -> Iterator[dict[str, str]]:
    """Where the hem is folded at each mark, measured down from the raw top."""
    top, back = write.length(Allowances.top), _setback(write, layer)
    for place, mark in _places(write, part, layer):
        if mark.drop is not None:
            yield {"place": write.mark(place), "down": write.mark(top + mark.drop - back)}


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
        figures = [f"cloth.{each.id}.{leaf}" for each in inner for leaf in ("setback", "end_setback")]
        values: dict[str, object] = {"inner": [_inner(write, each) for each in inner]}
        yield write.step("layers", values, part=part, figures=figures, minutes=minutes_for(flat, 20))
    through = " through all layers" if len(write.layers) > 1 else ""
    values, minutes = {"row": write.mark(write.worked("rows.stay")), "through": through}, minutes_for(flat, 20)
    yield write.step("stay", values, part=part, figures=("rows.stay",), stitch="join", minutes=minutes)
    if write.gathers(part):
        values = {
            "row": write.mark(write.worked("rows.gathering")),
            "below": write.mark(write.worked("rows.below")),
            "joins": _has_joins(write, part),
            "long": part.gathered.value is not None and part.gathered.value >= LONG_RUN,
        }
        rows, minutes = ("rows.gathering", "rows.below"), minutes_for(flat, 15)
        yield write.step("gather", values, part=part, figures=rows, stitch="gathering", minutes=minutes)


def _inner(write: StepWriter, layer: Layer) -> dict[str, str]:
    key = f"cloth.{layer.id}"
    ends, below = (write.mark(write.length(each, key)) for each in (Cloth.end_setback, Cloth.setback))
    return {"name": layer.name, "ends": ends, "below": below}


def _has_joins(write: StepWriter, part: Part) -> bool:
    layouts = [each.cutting.best for each in write.layers if each.cutting is not None]
    return any(piece.strip == part.id and piece.order > 1 for layout in layouts for piece in layout.pieces)


def _on_the_tape(write: StepWriter, part: Part, length: Length, tape: Length) -> Iterator[Step]:
    """Tape and skirt marked, drawn up, stitched together, and the tape folded over."""
    figures, minutes = (part.gathered.id,), minutes_for(length, 5)
    yield _mark(write, part, length, tape)
    if write.gathers(part):
        yield _draw_up(write, part, length)
    if part.id == write.parts[0].id and part.readings:
        yield _try_on(write, part)
    values = {
        "top": write.mark(write.length(Allowances.top)),
        "fold": write.mark(write.worked("tape.fold")),
        "length": write.mark(length),
    }
    yield write.step("tape", values, part=part, figures=("allowances.top", *figures), stitch="tape", minutes=minutes)
    yield write.step("fold", values, part=part, figures=("tape.fold", *figures), stitch="tape", minutes=minutes)
    if write.job.cloth.fixing.kind in LOOPED:
        values = {"length": write.cut(length)}
        yield write.step("loop", values, part=part, figures=figures, stitch="tape", minutes=minutes)


def _mark(write: StepWriter, part: Part, length: Length, tape: Length) -> Step:
    id, marks, folds = f"part.{part.id}", list(_marks(write, part, length)), (part.marks_in or 0) > 1
    on_tape, on_flat = _spacings(write, part) if folds else ("", "")
    values = {
        "tape": write.cut(tape),
        "turn": write.mark(write.length(Tape.turn_under)),
        "length": write.mark(length),
        # Both spacings: the quick check that tape and skirt are marked alike.
        "folds": part.marks_in if folds else 0,
        "where": "" if _is_all_gathered(part) else "the gathered part of ",
        "on_tape": on_tape,
        "on_flat": on_flat,
        "start": from_where(part),
        "marks": marks,
    }
    spacings = (f"{id}.marks", f"{id}.mark_spacing_tape", f"{id}.mark_spacing_flat")
    figures = (part.tape.id, "tape.fold", part.gathered.id, *spacings)
    return write.step("mark", values, part=part, figures=figures, minutes=10 + len(part.marks))


def _is_all_gathered(part: Part) -> bool:
    """True where no end is left flat."""
    return part.marks_in == len(part.marks) - 1


def _spacings(write: StepWriter, part: Part) -> tuple[str, str]:
    """From mark to mark on the tape and on the flat skirt."""
    tape, flat = (write.worked(f"part.{part.id}.mark_spacing_{each}") for each in ("tape", "flat"))
    return write.mark(tape), write.mark(flat)


def _marks(write: StepWriter, part: Part, tape: Length) -> Iterator[dict[str, object]]:
    """Every mark between the ends, measured from one end."""
    flat, inner = write.worked(part.flat_made.id), part.marks[1:-1]
    for number, each in enumerate(reversed(inner) if from_right(part) else inner, start=1):
        on_tape, on_flat = (tape - each.tape, flat - each.flat) if from_right(part) else (each.tape, each.flat)
        drop = "" if each.drop is None else f"; the drop there is {write.mark(each.drop)}"
        yield {"number": number, "on_tape": write.mark(on_tape), "on_flat": write.mark(on_flat), "drop": drop}


def _draw_up(write: StepWriter, part: Part, length: Length) -> Step:
    id, (tape, flat) = f"part.{part.id}", _spacings(write, part)
    top = write.mark(write.length(Allowances.top))
    values = {"on_tape": tape, "on_flat": flat, "flat_end": not _is_all_gathered(part), "top": top}
    figures = ("allowances.top", f"{id}.mark_spacing_tape", f"{id}.mark_spacing_flat", f"{id}.marks")
    return write.step("draw-up", values, part=part, figures=figures, minutes=draw_up_minutes(length))


def _try_on(write: StepWriter, part: Part) -> Step:
    """One section held to the rail while its tape is only pinned: the others are made alike."""
    least, most = (pick(each.gap for each in part.readings) for pick in (min, max))
    gap = write.mark(most) if least == most else f"from {write.mark(least)} to {write.mark(most)}"
    values = {"gap": gap if most else "", "touches": not most}
    return write.step("try", values, part=part, figures=(part.drop.id,), minutes=15)


def draw_up_minutes(length: Length) -> int:
    """About half an hour for 80 in of gathered length, and in proportion."""
    return max(1, (length * DRAW_UP_MINUTES / DRAW_UP_INCHES).inches.__ceil__())
