"""The cut list for a spreadsheet: one row a piece, every length as the sheet says it and in millimetres exactly.

RFC 4180: commas, quotes, lines that end in CR LF, UTF-8. No cell begins with a sign that a spreadsheet runs.
"""

from __future__ import annotations

import csv
import io
from typing import Final

from wizard.render.plain_text import literal
from wizard.render.sheet_header import header_of
from wizard.trade.formatting import Ruler, number, ruler_of, shown
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import CutPiece, cut_pieces, part_names, stretch_name

LENGTHS: Final = ("from", "to", "across", "wide", "long")
HEADS: Final = (
    "project", "plan mark", "layer", "cloth", "cut from", "no.", "section", "piece", "of",
    *LENGTHS, "rip", "pattern row", *(f"{each} in mm" for each in LENGTHS), "changed since it was cut",
)  # fmt: skip
RUN_BY_SPREADSHEETS: Final = "=+-@\t\r\n|%＝＋－＠"
"""A cell that begins with one of these may be taken for a formula or a command."""
KEPT_TEXT: Final = "'"
"""Stands before such a cell; a spreadsheet takes the rest for text."""


def cut_list_csv(plan: Plan) -> str:
    """The pieces of every layer in cutting order, under one line of heads. The same plan, the same text."""
    stream = io.StringIO(newline="")
    rows = csv.writer(stream)
    rows.writerow(HEADS)
    header, ruler, names = header_of(plan), ruler_of(plan.job), part_names(plan)
    changed = {each.id: " ".join(each.sentences) for each in plan.changed}
    for layer in plan.layers:
        whose = (header.name, header.mark, layer.id, layer.name)
        since = changed.get(f"cut:{layer.id}", "")
        for each in cut_pieces(plan.layers, layer):
            rows.writerow([safe(cell) for cell in (*whose, *_piece(each, names, ruler), since)])
    return stream.getvalue()


def _piece(each: CutPiece, names: dict[str, str], ruler: Ruler) -> tuple[str, ...]:
    piece = each.piece
    section = names.get(piece.strip, piece.strip)
    lengths = (*each.place, piece.width, piece.cut)
    return (
        *(stretch_name(piece.stretch), str(each.number), section, str(piece.order), str(each.of)),
        *(shown(length, ruler) for length in lengths),
        *("" if piece.rip_side == "none" else piece.rip_side, each.begins or ""),
        *(number(length.mm) for length in lengths),
    )


def safe(text: str) -> str:
    """`text` literally, with a mark before it where a spreadsheet would run it; readable all the same."""
    words = literal(text)
    return f"{KEPT_TEXT}{words}" if words.lstrip().startswith(tuple(RUN_BY_SPREADSHEETS)) else words
