"""A page a cloth for the cutting table: what it is, what to do, the cut list, the whole roll, and what is left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, TrueScale, headed
from wizard.render.drawings.roll_view import rolls_on_paper
from wizard.render.figure_text import length_text, shop_text, unitless, unitless_row
from wizard.render.merged_steps import work
from wizard.trade.compare_ways import cloth_value
from wizard.trade.cutting import Layout
from wizard.trade.formatting import Ruler, counted, listed, number, ruler_of, shown
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.cut_order import (
    OFFCUT_KINDS,
    CutPiece,
    CutStretch,
    cut_pieces,
    cut_stretches,
    first_number,
    part_names,
    pieces_of,
    stretch_name,
)
from wizard.trade.stock import ROLL


def table(plan: Plan) -> list[Block]:
    """Every cloth that is laid out on a page of its own; of another, what it waits for."""
    return [each for layer in plan.layers for each in _page(plan, layer)]


def layer_title(layer: Layer) -> str:
    """`Face: slate ticking`, or the layer in words where the maker gave it no name."""
    name = layer.id.capitalize()
    return name if layer.name.casefold().startswith(layer.id) else f"{name}: {layer.name}"


def _page(plan: Plan, layer: Layer) -> list[Block]:
    steps = [each for each in plan.work if each.id.partition(":")[2] == layer.id or each.id == _measured(plan, layer)]
    heading = Heading(layer_title(layer), new_page=True)
    if layer.cutting is None:
        return [heading, Para(why_not(layer)), *work(plan, steps, bare=True)]
    best, ruler = layer.cutting.best, ruler_of(plan.job)
    return [
        heading,
        Pairs(tuple(_head(plan, layer, best, ruler))),
        *work(plan, steps, bare=True),
        *cut_lists(plan, layer, best),
        *roll_drawings(plan, layer, best),
        TrueScale(),
    ]


def _measured(plan: Plan, layer: Layer) -> str:
    """The step *measure once more* belongs to the cloth whose end is squared next."""
    ids = [each.id for each in plan.work]
    at = ids.index("measure") + 1 if "measure" in ids else len(ids)
    return "measure" if at < len(ids) and ids[at].endswith(f":{layer.id}") else ""


def _head(plan: Plan, layer: Layer, best: Layout, ruler: Ruler) -> Iterator[tuple[str, str]]:
    yield "usable width", length_text(layer.usable, ruler, "down")
    shrinks = [cloth_value(plan, layer, each) or Fraction(0) for each in (Cloth.warp_shrink, Cloth.weft_shrink)]
    along, across = (f"{number(each * 100)} %" for each in shrinks)
    yield "shrinkage", f"{along} along the roll, {across} across it" if any(shrinks) else "none allowed for"
    yield "takes", f"{shown(best.used, ruler, 'up')}: {pieces_text(best)}"
    idle = [stretch_name(each.id) for each in layer.stock if each.id not in {use.stretch for use in best.uses}]
    if own := [each for each in idle if each != stretch_name(ROLL)]:
        yield "not needed", listed(own)
    if layer.buy.value:
        yield "to buy", shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value)


def pieces_text(best: Layout) -> str:
    """`3 widths, 5 pieces, 2 joins`."""
    widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
    return f"{widths}, {counted(len(best.pieces), 'piece')}, {counted(best.joins, 'join')}"


def why_not(layer: Layer) -> str:
    """Why a layer is not laid out, in a sentence."""
    if layer.refused is not None:
        return "It cannot be cut with these answers: see the findings."
    needed = "; ".join(each.words for each in layer.needs) or "what the other layers need"
    return f"There is no cutting plan yet. Still needed: {needed}."


HEADS: Final = ("no.", "section", "long × wide", "from", "to", "slit at", "row")
"""The last one for a half-drop only: the row of the pattern that a piece begins with, A or B."""
LARGE: Final = (0, 2)
"""Number and size of a piece: what is asked for again and again while cutting."""
LEGEND: Final = (
    "“From” and “to” are measured along the cloth from its squared end, the heavy line; slits across it from its left "
    "edge, the upper one here. Hatched: left over. Arrows point to the top of a piece, the edge at the rail."
)


def cut_lists(plan: Plan, layer: Layer, best: Layout) -> list[Block]:
    """A table for each length that is cut, in the order of the stock."""
    names, ruler = part_names(plan), ruler_of(plan.job)
    blocks: list[Block] = []
    for each in cut_stretches(layer, best, first_number(plan.layers, layer)):
        rows = tuple(_cut_row(piece, each, names, ruler) for piece in each.pieces)
        boxes = tuple(f"piece:{piece.number}" for piece in each.pieces)
        listed = Table(HEADS[: len(rows[0])], rows, (1, 2, 5), LARGE, boxes)
        blocks += [Heading(f"Cut list: {each.name}", 2), listed]
    return blocks


def _cut_row(each: CutPiece, cut: CutStretch, names: Mapping[str, str], ruler: Ruler) -> tuple[str, ...]:
    long, wide = (unitless(size, ruler, "up") for size in each.size)
    start, end, _ = unitless_row(ruler, *each.place)
    slit = ", ".join(unitless_row(ruler, *each.slit_at(cut.stretch)))
    begins = () if each.begins is None else (each.begins,)
    return str(each.number), each.name(names), f"{long} × {wide}", start, end, slit, *begins


COLUMN: Final = 36
"""Lines that a drawing as tall as it is wide takes in characters."""


HALVED: Final = Fraction(1, 14)
"""The narrowest piece takes at least this much of a drawing beside another: else its number would not fit."""


def roll_drawings(plan: Plan, layer: Layer, best: Layout) -> list[Block]:
    """Each length that is cut in one drawing to scale, or in as many as it needs."""
    level = cloth_value(plan, layer, Cloth.match_from) or "hem"
    scenes = rolls_on_paper(layer, best, level, first_number(plan.layers, layer))
    legend = (*offcuts(layer, best, ruler_of(plan.job)), LEGEND)
    longest, pieces = max(each.width for each in scenes), cut_pieces(plan.layers, layer)
    half = len(scenes) > 1 and min(each.along for each in pieces) >= longest * HALVED
    return [
        Drawing(each, max(5, round(each.height / each.width * COLUMN)), legend if each is scenes[-1] else (), half)
        for each in scenes
    ]


WORTH_KEEPING: Final = Length(2)
"""An offcut narrower than this either way is not on the sheet for the table."""


def offcuts(layer: Layer, layout: Layout, ruler: Ruler, least: Length = WORTH_KEEPING) -> list[str]:
    """What is left of each length and no smaller than `least`, in a sentence, from the squared end on."""
    return [said for each in cut_stretches(layer, layout) if (said := _left(each, ruler, least))]


def _left(cloth: CutStretch, ruler: Ruler, least: Length) -> str:
    alike: dict[tuple[str, str], list[str]] = {}
    for each in sorted(cloth.offcuts, key=lambda each: (each.start, each.across)):
        if min(each.along, each.width) >= least:
            long = unitless(each.along, ruler, "given" if each.kind == "squaring" else "nearest")
            across = f", {unitless(each.across, ruler)} across" if each.across else ""
            what = f"{long} × {unitless(each.width, ruler)}", f"{across} ({OFFCUT_KINDS[each.kind]})"
            alike.setdefault(what, []).extend([] if each.start < ZERO else [unitless(each.start, ruler)])
    kept = [f"{size}{f' from {listed(starts)}' if starts else ''}{of}" for (size, of), starts in alike.items()]
    return f"Left over of {cloth.name}, long × wide: {'; '.join(kept)}." if kept else ""


def joining(plan: Plan, pieces: Sequence[CutPiece]) -> list[Block]:
    """For each part the numbers of its pieces from its left end on, as they are joined."""
    parts = ((part.name, pieces_of(part.id, pieces)) for part in plan.parts)
    rows = tuple((name, " + ".join(str(each.number) for each in own)) for name, own in parts if own)
    return headed("Joining, each section from its left end, seen from the room", 2, [Pairs(rows)] if rows else [])
