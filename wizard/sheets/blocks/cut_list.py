"""The pieces in cutting order, with the running measure along each length of cloth."""

from __future__ import annotations

from wizard.sheets.cut_order import Numbered, in_cutting_order, on_stretch
from wizard.sheets.drawings.roll import stretch_name
from wizard.sheets.figure_text import bare
from wizard.sheets.page import Page
from wizard.trade.cutting.strips import Layout
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Layer, Part, Plan

HEADS = ("no.", "piece", "from", "to", "across", "wide", "long", "rip")


def cut_list(plan: Plan, layer: Layer, layout: Layout, page: Page) -> list[str]:
    """A table for each length that is cut, in the order of the stock."""
    names = {part.id: part.name for part in plan.parts}
    numbered = in_cutting_order(layer, layout)
    lines: list[str] = []
    for stretch in layer.stock:
        here = on_stretch(numbered, stretch.id)
        if here:
            lines += page.subheading(f"Cut list: {stretch_name(stretch.id)}")
            lines += page.para(_chalk(here, layer, layout.way == "cross-cut", page))
            lines += ["", *page.table(HEADS, [_row(each, names, page) for each in here], (1, 7))]
    return [*lines, "", *page.para(_LEGEND)] if lines else []


_LEGEND = (
    "From and to: along the cloth from its squared end. Across: from the left edge of the usable width. Rip: the edges "
    "that are cut, not selvedge. Put an arrow for way up on every piece."
)


def _chalk(here: tuple[Numbered, ...], layer: Layer, across: bool, page: Page) -> str:
    """Every mark to chalk, measured from the squared end, never from the mark before."""
    squaring = layer.rules.squaring if layer.rules is not None else ZERO
    square = f"Square the end ({bare(squaring, page.ruler)}). " if squaring > ZERO else ""
    marks = sorted((_row_ends(here) if across else _all_ends(here)) - {ZERO})
    chalk = f"{square}Chalk from the squared end: {_listed(marks, page)}."
    rips = sorted(
        {at for each in here if each.lane for at in (each.piece.across, each.piece.across + each.wide)} - {ZERO}
    )
    return f"{chalk} Rip along the roll, from the left edge, at {_listed(rips, page)}." if rips else chalk


def _listed(lengths: list[Length], page: Page) -> str:
    return ", ".join(bare(each, page.ruler) for each in lengths)


def _row_ends(here: tuple[Numbered, ...]) -> set[Length]:
    """Where the cloth is cut right across: where each width begins, and where its longest piece ends."""
    rows = {each.piece.row: [one for one in here if one.piece.row == each.piece.row] for each in here}
    return {at for row in rows.values() for at in (row[0].piece.start, max(each.end for each in row))}


def _all_ends(here: tuple[Numbered, ...]) -> set[Length]:
    return {at for each in here for at in (each.piece.start, each.end)}


def _row(each: Numbered, names: dict[str, str], page: Page) -> tuple[str, ...]:
    piece = each.piece
    lengths: tuple[Length, ...] = (piece.start, each.end, piece.across, piece.width, piece.cut)
    which = f"{names.get(piece.strip, piece.strip)} {piece.order}/{each.of}"
    rip = "" if piece.rip_side == "none" else piece.rip_side
    return (str(each.number), which, *(bare(length, page.ruler) for length in lengths), rip)


def joined_up(plan: Plan, layer: Layer, layout: Layout, page: Page) -> list[str]:
    """For each part the numbers of its pieces from its left end on, as they are joined."""
    numbered = in_cutting_order(layer, layout)
    lines = page.subheading("Joining, each section from its left end, seen from the room")
    for part in plan.parts:
        own = sorted((each for each in numbered if each.piece.strip == part.id), key=lambda each: each.piece.order)
        if own:
            lines += page.pair(part.name, _joined(part, own, page))
    return lines


def _joined(part: Part, own: list[Numbered], page: Page) -> str:
    pieces = " + ".join(f"no. {each.number} ({bare(each.piece.width, page.ruler)})" for each in own)
    return f"{part.left_is}: {pieces}" if len(own) > 1 else f"{pieces}, no join"
