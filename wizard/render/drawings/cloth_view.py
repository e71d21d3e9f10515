"""Cloth laid flat: its width, its pattern, and one piece with a letter at each allowance that the page repeats."""

from __future__ import annotations

from string import ascii_lowercase
from typing import Final

from wizard.render.drawings.scene import Scene
from wizard.render.drawings.sketch import PageSketch, ends_in
from wizard.trade.figures import value_at


def cloth_view(sketch: PageSketch, layer: str) -> Scene:
    """The cloth of `layer` laid flat, its width from selvedge to selvedge."""
    left, right = _selvedges(sketch)
    sketch.level("width", left + 1, right - 1, sketch.bottom // 3, "width")
    return sketch.scene(f"{layer} cloth laid flat")


def _selvedges(sketch: PageSketch) -> tuple[int, int]:
    left, right = 0, sketch.right - 10
    for x, inside in ((left, left + 3), (right, right - 3)):
        sketch.line(x, 0, x, sketch.bottom, "heavy")
        sketch.line(inside, 0, inside, sketch.bottom, "fine")
    sketch.line(left, sketch.bottom, right, sketch.bottom)
    sketch.label(right + 1, sketch.bottom * 2 // 3, " selvedge", "start")
    return left, right


def pattern_view(sketch: PageSketch, layer: str) -> Scene:
    """Two widths side by side with their motifs; the next width's half a repeat lower where it drops."""
    left, right = _selvedges(sketch)
    join = left + max((right - left) // 2, 30)
    first, second = sketch.bottom // 5, sketch.bottom * 4 // 5
    sketch.line(join, 0, join, sketch.bottom)
    half_drop = value_at(sketch.job, f"cloth.{layer}.repeat_kind") == "half-drop"
    middle = (first + second) // 2
    x = left + 9
    for motif, rows in ((x, (first, second)), (join + 7, (middle,) if half_drop else (first, second))):
        for y in rows:
            sketch.box(motif - 4, y - 1, motif + 4, y + 1, sketch.pen("repeat_kind"))
    sketch.upright("repeat", x, first, second, "repeat")
    return sketch.scene(f"{layer} cloth with its pattern")


WIDEST: Final = 60
"""Columns that the piece takes at most."""


class _Piece:
    """The places of a piece, in cells: raw edges, seams and hems."""

    def __init__(self, sketch: PageSketch) -> None:
        self.left, self.right = 8, min(sketch.right, WIDEST) - 16
        self.end_hem, self.seam = self.left + 5, self.right - 5
        self.top, self.bottom = 1, sketch.bottom - (0 if sketch.low else 1)
        self.drop_line = self.top + (1 if sketch.low else 2)
        self.fold, self.hem = self.bottom - 1, self.bottom - (2 if sketch.low else 3)
        self.inner = self.hem - 1
        # A row of its own for what is read across, where there are few.
        self.middle = self.fold if sketch.low else (self.drop_line + self.hem) // 2

        beside, under = self.right + 10, self.right - 8
        self.allowances: dict[str, tuple[int, int, int, int]] = {
            "allowances.join": (self.seam, self.middle, self.right, self.middle),
            "allowances.end_hem": (self.left, self.middle, self.end_hem, self.middle),
            "allowances.top": (beside, self.top, beside, self.drop_line),
            "hem": (beside, self.hem, beside, self.bottom),
            "hem_turn": (under, self.fold, under, self.bottom),
            "setback": (under - 3, self.inner, under - 3, self.hem),
            "setbacks": (under - 3, self.inner, under - 3, self.hem),
            "end_setback": (self.left, self.hem, self.end_hem, self.hem),
            "lap": (self.seam, self.hem, self.right, self.hem),
            "trim": (self.right, self.drop_line, self.right + 5, self.drop_line),
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
    sketch.label(piece.end_hem + 5, piece.drop_line, " drop line ", "start")
    sketch.label(piece.end_hem + 5, piece.hem, " hem ", "start")
    for leaf, (x1, y1, x2, y2) in piece.allowances.items():
        beside = [letter for key, letter in sketch.letters.items() if ends_in(key, leaf)]
        if beside:
            sketch.line(x1, y1, x2, y2, sketch.pen(leaf), tips=True)
            sketch.label(x2 + 2, (y1 + y2) // 2, " ".join(beside), "start", pen=sketch.pen(leaf))
    return sketch.scene("one piece flat, wrong side up")
