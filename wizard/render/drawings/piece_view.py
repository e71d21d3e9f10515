"""One piece laid flat, with what it allows for: a letter at each allowance, which the page repeats beside its field."""

from __future__ import annotations

from string import ascii_lowercase
from typing import Final

from wizard.render.drawings.page_sketch import PageSketch, ends_in
from wizard.render.drawings.scene import Scene

WIDEST: Final = 60
"""Columns that the piece takes at most."""


class _Piece:
    """The places of a piece, in cells: raw edges, seams and hems."""

    def __init__(self, sketch: PageSketch) -> None:
        self.left, self.right = 8, min(sketch.right, WIDEST) - 14
        self.end_hem, self.seam = self.left + 5, self.right - 5
        self.top, self.bottom = 1, sketch.bottom - (0 if sketch.low else 1)
        self.drop_line = self.top + (1 if sketch.low else 2)
        self.fold, self.hem = self.bottom - 1, self.bottom - (2 if sketch.low else 3)
        self.inner = self.hem - 1
        self.middle = (self.drop_line + self.hem) // 2

        beside, under = self.right + 8, self.right - 12
        self.allowances: dict[str, tuple[int, int, int, int]] = {
            "allowances.join": (self.seam, self.middle, self.right, self.middle),
            "allowances.end_hem": (self.left, self.middle, self.end_hem, self.middle),
            "allowances.top": (beside, self.top, beside, self.drop_line),
            "hem": (beside, self.hem, beside, self.bottom),
            "hem_turn": (under, self.fold, under, self.bottom),
            "setback": (under - 6, self.inner, under - 6, self.hem),
            "setbacks": (under - 6, self.inner, under - 6, self.hem),
            "end_setback": (self.left, self.middle + 1, self.end_hem, self.middle + 1),
            "lap": (self.seam, self.middle + 1, self.right, self.middle + 1),
            "trim": (self.right, self.inner, self.right + 5, self.inner),
            "allowances.least_piece": (self.left, 0, self.right, 0),
            "tape.width": (self.left - 3, self.top, self.left - 3, self.drop_line),
            "allowances.squaring": (self.left - 3, self.fold, self.left - 3, self.bottom),
        }
        """End of a key -> from where to where its allowance goes."""


def pieces_view(sketch: PageSketch, _: str) -> Scene:
    """The piece, wrong side up, with the allowance in hand picked out."""
    piece = _Piece(sketch)
    drawn = [each for each in sketch.keys if any(ends_in(each, leaf) for leaf in piece.allowances)]
    sketch.letters.update(zip(drawn, ascii_lowercase, strict=False))
    sketch.box(piece.left, piece.top, piece.right, piece.bottom)
    for y in (piece.drop_line, piece.hem, piece.fold):
        sketch.line(piece.left, y, piece.right, y, "fine")
    for x in (piece.end_hem, piece.seam):
        sketch.line(x, piece.top, x, piece.bottom, "fine")
    sketch.label(piece.end_hem + 2, piece.drop_line, " drop line ", "start")
    sketch.label(piece.end_hem + 2, piece.hem, " hem ", "start")
    for leaf, (x1, y1, x2, y2) in piece.allowances.items():
        beside = [letter for key, letter in sketch.letters.items() if ends_in(key, leaf)]
        if beside:
            sketch.line(x1, y1, x2, y2, sketch.pen(leaf), "both")
            sketch.label(x2 + 2, (y1 + y2) // 2, " ".join(beside), "start", pen=sketch.pen(leaf))
    return sketch.scene("one piece flat, wrong side up")
