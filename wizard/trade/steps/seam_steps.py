"""Join and hem each layer of a part."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import Layer, Mark, Part, Step
from wizard.trade.steps.kit import Kit, from_right, from_where, minutes_for


def seam_steps(kit: Kit, part: Part) -> Iterator[Step]:
    """Joins and hems of a part, layer by layer."""
    for layer in kit.layers:
        yield from _join(kit, part, layer)
        yield from _hem(kit, part, layer)


def flat_made(kit: Kit, part: Part, layer: Layer) -> str:
    """Id of the flat finished width as made of a part in a layer."""
    return part.flat_made.id if layer.id == "face" else f"layer.{layer.id}.flat_made.{part.id}"


def _join(kit: Kit, part: Part, layer: Layer) -> Iterator[Step]:
    pieces = [] if layer.cutting is None else [each for each in layer.cutting.best.pieces if each.strip == part.id]
    if len(pieces) < 2:
        return
    lap = kit.ledger.read(f"cloth.{layer.id}.join").value == "lap"
    yield kit.step(
        "join", "Making up", f"Join: {layer.name}, {part.name}",
        (
            f"Join pieces 1 to {len(pieces)} in order, arrows up, tops level: {_joins(len(pieces))}.",
            *(_lapped(kit, layer) if lap else _seamed(kit)),
            *_matched(kit, layer),
            f"Joined up it measures {kit.mark(_joined(kit, part, layer))} from raw end to raw end.",
        ),
        of=(layer.id, part.id), section=part.id,
        figures=(f"cloth.{layer.id}.lap" if lap else "allowances.join", flat_made(kit, part, layer)),
        tools=("sewing machine", "pins", "iron"), settings=kit.settings("join", layer.id),
        minutes=5 * (len(pieces) - 1) + minutes_for(total(each.cut for each in pieces[1:]), 10),
    )  # fmt: skip


def _joins(pieces: int) -> str:
    return "1 join" if pieces == 2 else f"{pieces - 1} joins"


def _joined(kit: Kit, part: Part, layer: Layer) -> Length:
    flats = dict(layer.cutting.best.flats) if layer.cutting is not None else {}
    return flats.get(part.id, ZERO)


def _seamed(kit: Kit) -> tuple[str, ...]:
    return (
        f"Right sides together, stitch {kit.mark(kit.read('allowances.join'))} from the edge.",
        "Press each seam flat as sewn, then open.",
    )


def _lapped(kit: Kit, layer: Layer) -> tuple[str, ...]:
    lap = kit.mark(kit.read(f"cloth.{layer.id}.lap"))
    return (f"Lap each edge {lap} over the next, and zigzag down the middle of the lap.", "Press each join flat.")


def _matched(kit: Kit, layer: Layer) -> Iterator[str]:
    if not (kit.read(f"cloth.{layer.id}.repeat") and kit.ledger.read(f"cloth.{layer.id}.match").value):
        return
    if layer.cutting is not None and layer.cutting.best.way == "along":
        yield "Cut along the roll, the pattern does not meet at a join: let the gathers hide it."
    else:
        yield "Match the pattern at the seam line, not at the raw edge, before pinning."


def _hem(kit: Kit, part: Part, layer: Layer) -> Iterator[Step]:
    flat, hem = flat_made(kit, part, layer), f"layer.{layer.id}.hem"
    if not kit.knows(flat, hem) or part.drop.value is None or (part.follows_floor and not part.marks):
        return
    yield kit.step(
        "hem", "Making up", f"Hem: {layer.name}, {part.name}",
        (
            _ends(kit),
            *(_along_floor(kit, part, layer) if part.follows_floor else ()),
            *_below(kit, layer),
            f"Finished: {kit.mark(kit.length(flat))} wide{_deep(kit, part, layer)}. Press.",
        ),
        of=(layer.id, part.id), section=part.id,
        figures=("allowances.end_hem", hem, part.drop.id, "allowances.top", flat),
        tools=("iron", "pins", "sewing machine", "ruler"), settings=kit.settings("join", layer.id),
        minutes=minutes_for(kit.length(flat), 5) + (2 * len(part.marks) if part.follows_floor else 0),
    )  # fmt: skip


def _ends(kit: Kit) -> str:
    end = kit.read("allowances.end_hem")
    return f"At both ends turn in {kit.mark(end / 2)} twice, {kit.mark(end)} altogether, press, and stitch."


def _below(kit: Kit, layer: Layer) -> Iterator[str]:
    depth, taken = kit.read(f"cloth.{layer.id}.hem"), kit.length(f"layer.{layer.id}.hem")
    if kit.ledger.read(f"cloth.{layer.id}.hem_kind").value == "single":
        turn = kit.mark(kit.read(f"cloth.{layer.id}.hem_turn"))
        yield f"Along the bottom turn under {turn}, then up {kit.mark(depth)}, {kit.mark(taken)} altogether, and press."
    else:
        yield f"Along the bottom turn up {kit.mark(depth)} twice, {kit.mark(taken)} altogether, and press."
    yield "Stitch close to the upper fold."


def _setback(kit: Kit, layer: Layer) -> Length:
    return ZERO if layer.id == "face" else kit.read(f"cloth.{layer.id}.setback")


def _deep(kit: Kit, part: Part, layer: Layer) -> str:
    """Depth from the raw top to the hem, which a hem along the floor has at no one place."""
    if part.follows_floor or part.drop.value is None:
        return ""
    depth = kit.read("allowances.top") + part.drop.value - _setback(kit, layer)
    return f", {kit.mark(depth)} from the raw top to the hem"


def _along_floor(kit: Kit, part: Part, layer: Layer) -> Iterator[str]:
    """Where the hem is folded at each mark, measured down from the raw top."""
    top, back = kit.read("allowances.top"), _setback(kit, layer)
    yield (
        f"This hem follows the floor. From {from_where(part)}, along the flat top, measure down from the raw edge: "
        f"{kit.mark(top)} of top allowance and the drop{' less the setback' if back else ''}."
    )
    for place, mark in _places(kit, part, layer):
        if mark.drop is not None:
            yield f"At {kit.mark(place)}: {kit.mark(top + mark.drop - back)} down."
    taken = kit.mark(kit.length(f"layer.{layer.id}.hem"))
    yield f"Join these points with a line, fold on it, and trim the cloth to {taken} below the fold."


def _places(kit: Kit, part: Part, layer: Layer) -> list[tuple[Length, Mark]]:
    """Every mark with its place on this layer's flat top, from the end measured from."""
    wide = kit.length(flat_made(kit, part, layer))
    inset = ZERO if layer.id == "face" else kit.read(f"cloth.{layer.id}.end_setback")
    face = kit.length(part.flat_made.id)
    ordered = reversed(part.marks) if from_right(part) else iter(part.marks)
    places = ((face - each.flat if from_right(part) else each.flat, each) for each in ordered)
    return [(min(max(place - inset, ZERO), wide), mark) for place, mark in places]
