"""The pieces in cutting order, with the running measure along each length of cloth."""

from __future__ import annotations

from typing import Final

from wizard.sheets.cut_order import Numbered, in_cutting_order, on_stretch
from wizard.sheets.drawings.roll import stretch_name
from wizard.sheets.figure_text import bare
from wizard.sheets.matter import Heading, Matter, Pairs, Para, Table
from wizard.trade.cutting import Layout, Stretch
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Layer, Part, Plan

HEADS: Final = ("no.", "piece", "from", "to", "across", "wide", "long", "rip")
ROW: Final = "row"
"""One more head for a half-drop: the row of the pattern that a piece begins with, A or B."""
AFAR: Final = (0, 5, 6)
"""Number and size of a piece: what is asked for again and again while cutting."""


def cut_list(plan: Plan, layer: Layer, layout: Layout, ruler: Ruler) -> list[Matter]:
    """A table for each length that is cut, in the order of the stock."""
    names = {part.id: part.name for part in plan.parts}
    numbered = in_cutting_order(layer, layout)
    matter: list[Matter] = []
    for stretch in layer.stock:
        here = on_stretch(numbered, stretch.id)
        if here:
            rows = tuple(_row(each, names, ruler) for each in here)
            heads = HEADS if here[0].begins is None else (*HEADS, ROW)
            matter += [
                Heading(f"Cut list: {stretch_name(stretch.id)}", 2),
                Para(_square(stretch, layer, ruler) + _chalk(here, layout.way == "cross-cut", ruler)),
                Table(heads, rows, (1, 7), AFAR),
            ]
    return [*matter, Para(_LEGEND)] if matter else []


_LEGEND = (
    "From and to: along the cloth from its squared end. Across: from the left edge of the usable width. Rip: the edges "
    "that are cut, not selvedge. Put an arrow for way up on every piece: in the drawing it points to the edge that "
    "goes to the rail. Hatched there: no piece."
)


def _square(stretch: Stretch, layer: Layer, ruler: Ruler) -> str:
    squaring = layer.rules.squaring if layer.rules is not None and not stretch.squared else ZERO
    return f"Square the end ({bare(squaring, ruler, 'given')}). " if squaring > ZERO else ""


def _chalk(here: tuple[Numbered, ...], across: bool, ruler: Ruler) -> str:
    """Every mark to chalk, measured from the squared end, never from the mark before."""
    marks = sorted((_row_ends(here) if across else _all_ends(here)) - {ZERO})
    chalk = f"Chalk from the squared end: {_listed(marks, ruler)}."
    rips = sorted((set() if across else _ripped(here)) - {ZERO})
    return f"{chalk} Rip along the roll, from the left edge, at {_listed(rips, ruler)}." if rips else chalk


def _listed(lengths: list[Length], ruler: Ruler) -> str:
    return ", ".join(bare(each, ruler) for each in lengths)


def _row_ends(here: tuple[Numbered, ...]) -> set[Length]:
    """Where the cloth is cut right across: where each width begins, and where its longest piece ends."""
    rows = {each.piece.row: [one for one in here if one.piece.row == each.piece.row] for each in here}
    return {at for row in rows.values() for at in (row[0].piece.start, max(each.end for each in row))}


def _ripped(here: tuple[Numbered, ...]) -> set[Length]:
    """Where the cloth is ripped along the roll: both edges of every lane, or where widths lie beside each other."""
    if any(each.lane for each in here):
        return {at for each in here for at in (each.piece.across, each.piece.across + each.wide)}
    rows = {each.piece.row: each.piece.across for each in reversed(here)}
    return set(rows.values())


def _all_ends(here: tuple[Numbered, ...]) -> set[Length]:
    return {at for each in here for at in (each.piece.start, each.end)}


def _row(each: Numbered, names: dict[str, str], ruler: Ruler) -> tuple[str, ...]:
    rip = "" if each.piece.rip_side == "none" else each.piece.rip_side
    return (
        str(each.number),
        piece_name(each, names),
        *(bare(length, ruler) for length in measures_of(each)),
        rip,
        *_begins(each),
    )


def _begins(each: Numbered) -> tuple[str, ...]:
    return () if each.begins is None else (each.begins,)


def piece_name(each: Numbered, names: dict[str, str]) -> str:
    """A piece in words: `window side 2/4`."""
    return f"{names.get(each.piece.strip, each.piece.strip)} {each.piece.order}/{each.of}"


def measures_of(each: Numbered) -> tuple[Length, Length, Length, Length, Length]:
    """From, to, across, wide and long, as the cut list has them."""
    piece = each.piece
    return (piece.start, each.end, piece.across, piece.width, piece.cut)


def joined_up(plan: Plan, layer: Layer, layout: Layout, ruler: Ruler) -> list[Matter]:
    """For each part the numbers of its pieces from its left end on, as they are joined."""
    numbered = in_cutting_order(layer, layout)
    rows: list[tuple[str, str]] = []
    for part in plan.parts:
        own = sorted((each for each in numbered if each.piece.strip == part.id), key=lambda each: each.piece.order)
        if own:
            rows.append((part.name, _joined(part, own, ruler)))
    return [Heading("Joining, each section from its left end, seen from the room", 2), Pairs(tuple(rows))]


def _joined(part: Part, own: list[Numbered], ruler: Ruler) -> str:
    pieces = " + ".join(f"no. {each.number} ({bare(each.piece.width, ruler)})" for each in own)
    return f"{part.left_is}: {pieces}" if len(own) > 1 else f"{pieces}, no join"
