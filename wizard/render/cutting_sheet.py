"""Each layer's cloth: how much it takes, how to cut it piece by piece, whether that is the least, and what is left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from wizard.render.cut_order import (
    OFFCUT_KINDS,
    CutPiece,
    cut_pieces,
    cut_stretches,
    part_names,
    pieces_of,
    stretch_name,
)
from wizard.render.document import Block, Drawing, Heading, Pairs, Para, Table, headed, work_blocks
from wizard.render.drawings.roll_on_paper import rolls_on_paper
from wizard.render.drawings.roll_on_screen import LabelStyle, rolls, way_up
from wizard.render.figure_text import counted, length_text, money_text, saving_text, shop_text, unitless, unitless_row
from wizard.trade.compare_ways import cloth_value
from wizard.trade.cutting import Layout, Offcut, Stretch
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length, ceiling
from wizard.trade.plan_records import Layer, Part, Plan


def cutting(plan: Plan) -> list[Block]:
    """For the cutting table: the steps, then each layer's cut list and drawing."""
    return [*work_blocks(plan, "Cutting"), *layers(plan)]


def layers(plan: Plan) -> list[Block]:
    """All layers, the face first."""
    return [each for layer in plan.layers for each in _layer(plan, layer, ruler_of(plan.job))]


def layer_title(layer: Layer) -> str:
    """`Face: slate ticking`, or the layer in words where the maker gave it no name."""
    name = layer.id.capitalize()
    return name if layer.name.casefold().startswith(layer.id) else f"{name}: {layer.name}"


def _layer(plan: Plan, layer: Layer, ruler: Ruler) -> list[Block]:
    rows = (("usable width", length_text(layer.usable, ruler, "down")), *_cut_sizes(plan, layer, ruler))
    heading = Heading(layer_title(layer), new_page=True)
    if layer.cutting is None:
        return [heading, Pairs(rows), Para(why_not(layer))]
    best = layer.cutting.best
    return [
        heading,
        Pairs((*rows, *amounts(plan, layer, best, ruler))),
        *_cut_lists(layer, best, part_names(plan), ruler),
        *joining(plan, cut_pieces(layer), ruler),
        *drawings(plan, layer, best, ruler),
        *offcut_table(layer, best, ruler),
        *other_ways(plan, layer, ruler),
    ]


def _cut_sizes(plan: Plan, layer: Layer, ruler: Ruler) -> Iterator[tuple[str, str]]:
    for part in plan.parts:
        length, width = layer.cut_lengths.get(part.id), layer.cut_widths.get(part.id)
        if length is not None and width is not None:
            long, wide = length_text(length, ruler, "up"), length_text(width, ruler, "up")
            yield part.name, f"{long} long × {wide} wide (flat cut width without seams)"


def amounts(plan: Plan, layer: Layer, best: Layout, ruler: Ruler) -> tuple[tuple[str, str], ...]:
    """What a layer takes, what to buy of it, and whether that is the least."""
    return (
        ("cut", pieces_text(best)),
        ("cloth used", length_text(layer.used, ruler, "up")),
        ("from the roll", length_text(layer.roll, ruler, "sum")),
        ("to buy", to_buy_text(plan, layer)),
        (LEAST_CLOTH, proof_text(best, ruler)),
    )


def pieces_text(best: Layout) -> str:
    """`3 widths, 5 pieces, 2 joins`."""
    widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
    return f"{widths}, {counted(len(best.pieces), 'piece')}, {counted(best.joins, 'join')}"


def to_buy_text(plan: Plan, layer: Layer) -> str:
    """What is bought of a layer, and its cost where that is known."""
    cost = money_text(plan.job, layer.cost.value) if layer.buy.value else ""
    return shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value) + (f", {cost}" if cost else "")


def why_not(layer: Layer) -> str:
    """Why a layer is not laid out, in a sentence."""
    if layer.refused is not None:
        return "It cannot be laid out with these answers: see Findings."
    needed = "; ".join(each.words for each in layer.needs) or "what the other layers need"
    return f"It cannot be laid out yet. You still need: {needed}."


LEAST_CLOTH: Final = "Is this the least cloth?"
"""The question that `proof_text` answers."""


def proof_text(layout: Layout, ruler: Ruler) -> str:
    """Whether any other way of cutting uses less, by which rules; or the most it could save. Then the lower bound."""
    proof, across = layout.proof, "along" if layout.way == "along" else "across"
    _, _, rules = proof.among.partition(", ")
    within = f" ({rules})" if rules else ""
    minimum = f" Theoretical minimum: {shown(layout.area_bound, ruler, 'down')}."
    if not proof.least:
        return f"perhaps not: another plan{within} could {saving_text(layout, ruler)}.{minimum}"
    joins = ", and none of this length has fewer joins" if proof.fewest_joins else ""
    return f"cut {across} the roll, yes: no other plan uses less{within}{joins}.{minimum}"


def other_ways(plan: Plan, layer: Layer, ruler: Ruler) -> list[Block]:
    """Besides the one in use: the least cloth, fewer joins for the same length to buy, and shorter ways of another
    kind."""
    cutting = layer.cutting
    if cutting is None:
        return []
    found = [("least cloth across the roll", cutting.least), ("fewest joins", cutting.fewest_joins)]
    found += [(each.way.replace("along", "lanes along the roll"), each) for each in cutting.others]
    rows = tuple((name, _way(plan, layer, way, ruler)) for name, way in found if way not in (None, cutting.best))
    return headed("Other ways", 2, [Pairs(rows)] if rows else [])


def _way(plan: Plan, layer: Layer, way: Layout, ruler: Ruler) -> str:
    buys = shop_text(plan.job, f"cloth.{layer.id}", way.buy)
    return f"{shown(way.used, ruler, 'up')} used, {counted(way.joins, 'join')}, {buys} to buy"


HEADS: Final = ("no.", "piece", "long", "wide", "from", "to", "across", "rip", "row")
"""The last one for a half-drop only: the row of the pattern that a piece begins with, A or B."""
LARGE: Final = (0, 2, 3)
"""Number and size of a piece: what is asked for again and again while cutting."""
_LEGEND: Final = (
    "Long and wide are the size to cut. Measure from and to along the cloth from its squared end, and across from the "
    "left edge of the usable width. Rip names the edges you cut; the others are selvedge. Draw an arrow for the way up "
    "on every piece: in the drawing it points to the edge that goes to the rail. Hatched = waste."
)


def _cut_lists(layer: Layer, best: Layout, names: Mapping[str, str], ruler: Ruler) -> list[Block]:
    """A table for each length that is cut, in the order of the stock."""
    blocks: list[Block] = []
    for each in cut_stretches(layer, best):
        rows = tuple(_cut_row(piece, names, ruler) for piece in each.pieces)
        text = Para(square(each.stretch, layer, ruler) + chalk(each.pieces, best, ruler))
        table = Table(HEADS[: len(rows[0])], rows, (1, 7), LARGE)
        blocks += [Heading(f"Cut list: {each.name}", 2), text, table]
    return [*blocks, Para(_LEGEND)] if blocks else []


def _cut_row(each: CutPiece, names: Mapping[str, str], ruler: Ruler) -> tuple[str, ...]:
    begins = () if each.begins is None else (each.begins,)
    return str(each.number), each.name(names), *unitless_row(ruler, *each.size, *each.place), each.rip, *begins


def square(stretch: Stretch, layer: Layer, ruler: Ruler) -> str:
    """What to square off first; nothing where the end is square already."""
    squaring = layer.rules.squaring if layer.rules is not None and not stretch.squared else ZERO
    return f"Square the end ({unitless(squaring, ruler, 'given')}). " if squaring > ZERO else ""


def chalk(here: Sequence[CutPiece], best: Layout, ruler: Ruler) -> str:
    """Every mark to chalk, measured from the squared end, never from the mark before."""
    marks, rips = (_row_ends(here), set()) if best.way == "cross-cut" else (_all_ends(here), _ripped(here))
    marked = f"Chalk from the squared end: {', '.join(unitless_row(ruler, *sorted(marks - {ZERO})))}."
    ripped = ", ".join(unitless_row(ruler, *sorted(rips - {ZERO})))
    return f"{marked} Rip along the roll, from the left edge, at {ripped}." if ripped else marked


def _row_ends(here: Sequence[CutPiece]) -> set[Length]:
    """Where the cloth is cut right across: where each width begins, and where its longest piece ends."""
    rows = {each.piece.row: [one for one in here if one.piece.row == each.piece.row] for each in here}
    return {at for row in rows.values() for at in (row[0].piece.start, max(each.end for each in row))}


def _all_ends(here: Sequence[CutPiece]) -> set[Length]:
    return {at for each in here for at in (each.piece.start, each.end)}


def _ripped(here: Sequence[CutPiece]) -> set[Length]:
    """Where the cloth is ripped along the roll: both edges of every lane, or where two widths meet."""
    if any(each.lane for each in here):
        return {at for each in here for at in (each.piece.across, each.piece.across + each.wide)}
    return set({each.piece.row: each.piece.across for each in reversed(here)}.values())


def joining(plan: Plan, pieces: Sequence[CutPiece], ruler: Ruler) -> list[Block]:
    """For each part the numbers of its pieces from its left end on, as they are joined."""
    parts = ((part, pieces_of(part.id, pieces)) for part in plan.parts)
    rows = tuple((part.name, _joined(part, own, ruler)) for part, own in parts if own)
    return [Heading("Joining, each section from its left end, seen from the room", 2), Pairs(rows)]


def _joined(part: Part, own: Sequence[CutPiece], ruler: Ruler) -> str:
    pieces = " + ".join(f"no. {each.number} ({unitless(each.piece.width, ruler)})" for each in own)
    return f"{part.left_is}: {pieces}" if len(own) > 1 else f"{pieces}, no join"


ROWS_A_PIECE: Final = 3
"""Lines that the shortest piece gets, so that its number fits."""
MOST_ROWS: Final = 160
"""A very long roll is drawn coarser rather than longer than this."""
LEGEND: Final = (
    "In the drawings of the cloth an arrow shows which way up a piece goes: it points to the edge that goes to the "
    "rail. Hatched = waste. The figures beside a drawing are measured along the cloth from its squared end, and across "
    "it from its left edge."
)
"""For drawings without a cut list, which says the same."""


def drawings(plan: Plan, layer: Layer, layout: Layout, ruler: Ruler) -> list[Block]:
    """Each length that is cut, drawn with the pieces' numbers and their way up; offcuts are hatched."""
    level, names = cloth_value(plan, layer, Cloth.match_from) or "hem", part_names(plan)
    shortest = min(each.along for each in cut_pieces(layer))
    blocks: list[Block] = []
    upright = rolls(layer, layout, LabelStyle(names, way_up(layout, level)))
    for scene, paper in zip(upright, rolls_on_paper(layer, layout, names, ruler, level), strict=True):
        rows = max(ROWS_A_PIECE, min(MOST_ROWS, ceiling(scene.height / shortest * ROWS_A_PIECE) + 1))
        blocks += [Heading(scene.title, 2), Drawing(scene, rows, measured=True, paper=paper, legend=LEGEND)]
    return blocks


OFFCUT_HEADS: Final = ("what is left", "long", "wide", "from", "across", "on")


def offcut_table(layer: Layer, layout: Layout, ruler: Ruler) -> list[Block]:
    """Every offcut as a rectangle, stretch by stretch from the squared end on."""
    stretches = [each.id for each in layer.stock]
    left = sorted(layout.offcuts, key=lambda each: (stretches.index(each.stretch), each.start, each.across))
    rows = tuple(_offcut_row(each, ruler) for each in left)
    return headed("Offcuts", 2, [Table(OFFCUT_HEADS, rows, (0, 5))] if rows else [])


def _offcut_row(each: Offcut, ruler: Ruler) -> tuple[str, ...]:
    wide, start, across = unitless_row(ruler, each.width, each.start, each.across)
    long = unitless(each.along, ruler, "given" if each.kind == "squaring" else "nearest")
    start = "before 0" if each.start < ZERO else start
    return OFFCUT_KINDS[each.kind], long, wide, start, across, stretch_name(each.stretch)
