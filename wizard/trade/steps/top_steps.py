"""The top of a part: layers together, stay-stitching, gathering row."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.trade.lengths import Length
from wizard.trade.plan import Layer, Part, Step
from wizard.trade.steps.kit import Kit, minutes_for

LONG_RUN: Final = Length(36)
"""From here on a part may be gathered over a cord. Common practice."""


def top_steps(kit: Kit, part: Part) -> Iterator[Step]:
    """Once the part is cut: its layers put together and its rows run."""
    if part.flat_made.value is None:
        return
    if len(kit.layers) > 1:
        yield _layers(kit, part, part.flat_made.value)
    yield _stay(kit, part, part.flat_made.value)
    if kit.gathers(part):
        yield _gather(kit, part, part.flat_made.value)


def _layers(kit: Kit, part: Part, flat: Length) -> Step:
    inner = [each for each in kit.layers if each.id != "face"]
    return kit.step(
        "layers", "Making up", f"Layers together: {part.name}",
        (
            "Lay the face wrong side up.",
            *(_inner(kit, each) for each in inner),
            "Smooth from the middle outwards, and pin along the top.",
        ),
        of=(part.id,), section=part.id,
        figures=[f"cloth.{each.id}.{leaf}" for each in inner for leaf in ("setback", "end_setback")],
        tools=("pins", "large table"), minutes=minutes_for(flat, 20),
    )  # fmt: skip


def _inner(kit: Kit, layer: Layer) -> str:
    ends, below = (kit.mark(kit.read(f"cloth.{layer.id}.{each}")) for each in ("end_setback", "setback"))
    return (
        f"Lay the {layer.name} on it, wrong sides together, raw tops level. At both ends it stops {ends} short of the "
        f"face, and its hem lies {below} above the face's."
    )


def _stay(kit: Kit, part: Part, flat: Length) -> Step:
    row, through = kit.mark(kit.length("rows.stay")), " through all layers" if len(kit.layers) > 1 else ""
    return kit.step(
        "stay", "Making up", f"Stay-stitch: {part.name}",
        (f"Stitch {row} from the raw top{through}, from end to end, without stretching it.",),
        of=(part.id,), section=part.id, figures=("rows.stay",), tools=("sewing machine",),
        settings=kit.settings("join", *kit.all_layers), minutes=minutes_for(flat, 20),
    )  # fmt: skip


def _gather(kit: Kit, part: Part, flat: Length) -> Step:
    row, below = kit.mark(kit.length("rows.gathering")), kit.mark(kit.length("rows.below"))
    return kit.step(
        "gather", "Making up", f"Gathering row: {part.name}",
        (
            f"Stitch {row} from the raw top, {below} below the stay-stitching, at the longest stitch.",
            "Loosen the upper tension, and leave long ends of thread.",
            *(["Stop at every join and start again on the other side of it."] if _has_joins(kit, part) else []),
            *(["A run this long may be gathered over a cord: zigzag over it, never into it."] if _long(part) else []),
        ),
        of=(part.id,), section=part.id, figures=("rows.gathering", "rows.below"),
        tools=("sewing machine", "strong thread"),
        settings=kit.settings("gathering", *kit.all_layers), minutes=minutes_for(flat, 15),
    )  # fmt: skip


def _has_joins(kit: Kit, part: Part) -> bool:
    layouts = [each.cutting.best for each in kit.layers if each.cutting is not None]
    return any(piece.strip == part.id and piece.order > 1 for layout in layouts for piece in layout.pieces)


def _long(part: Part) -> bool:
    return part.gathered.value is not None and part.gathered.value >= LONG_RUN
