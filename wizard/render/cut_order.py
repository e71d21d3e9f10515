"""Pieces in the order in which they are cut, numbered for the cut list, the roll drawing and the labels."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Final

from msgspec import Struct

from wizard.render.plain_text import literal
from wizard.trade.cutting import Layout, Offcut, Piece, Stretch
from wizard.trade.field_names import owned_in_words
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.pattern_matching import rows_begun
from wizard.trade.stock import ROLL

OFFCUT_KINDS: Final = {
    "side": "offcut",
    "below": "offcut",
    "repeat": "pattern waste",
    "damage": "damaged",
    "before": "offcut before the damage",
    "end": "left at the end",
    "squaring": "squared off",
}
"""What is left of the cloth, in words."""


class CutPiece(Struct, frozen=True):
    """One piece with its number in the cut list, from 1."""

    number: int
    piece: Piece
    of: int
    """How many pieces its strip has."""
    lane: bool
    """True for a lane, cut along the roll: its width runs down the roll and its cut length across."""
    begins: str | None = None
    """The row of a half-drop at its nearer edge, `A` or `B`; None for other cloth."""

    @property
    def rip(self) -> str:
        """The edges that are cut, not selvedge: `left`, `right`, `both` or nothing."""
        return "" if self.piece.rip_side == "none" else self.piece.rip_side

    @property
    def size(self) -> tuple[Length, Length]:
        """How long and how wide it is cut."""
        return self.piece.cut, self.piece.width

    @property
    def place(self) -> tuple[Length, Length, Length]:
        """Where it is on its length of cloth: from, to, across."""
        return self.piece.start, self.end, self.piece.across

    def name(self, names: Mapping[str, str]) -> str:
        """The piece in words: `window side 2/4`. `names`: part id -> what it is called."""
        return f"{names.get(self.piece.strip, self.piece.strip)} {self.piece.order}/{self.of}"

    @property
    def along(self) -> Length:
        """Its size down the roll."""
        return self.piece.width if self.lane else self.piece.cut

    @property
    def wide(self) -> Length:
        """Its size across the roll."""
        return self.piece.cut if self.lane else self.piece.width

    @property
    def end(self) -> Length:
        """Where it ends along its stretch, from the squared end."""
        return self.piece.start + self.along


def in_cutting_order(layer: Layer, layout: Layout) -> tuple[CutPiece, ...]:
    """The layout's pieces: stretch by stretch as they are in stock, along each one, then from its left edge."""
    stretches, lane = [each.id for each in layer.stock], layout.way == "along"
    counts = Counter(piece.strip for piece in layout.pieces)

    def place(each: tuple[Piece, str | None]) -> tuple[int, Length, Length, str, int]:
        piece, _ = each
        return stretches.index(piece.stretch), piece.start, piece.across, piece.strip, piece.order

    ordered = enumerate(sorted(zip(layout.pieces, rows_begun(layer, layout), strict=True), key=place), start=1)
    return tuple(CutPiece(number, piece, counts[piece.strip], lane, begins) for number, (piece, begins) in ordered)


class CutStretch(Struct, frozen=True):
    """One length of cloth that is cut, with its pieces in cutting order and its offcuts."""

    stretch: Stretch
    pieces: tuple[CutPiece, ...]
    offcuts: tuple[Offcut, ...]

    @property
    def name(self) -> str:
        """The length in words."""
        return stretch_name(self.stretch.id)

    @property
    def start(self) -> Length:
        """Where it begins, measured from its squared end: ZERO, or less where something is squared off."""
        return min([ZERO, *(each.start for each in self.offcuts)])

    @property
    def end(self) -> Length:
        """Where its last piece or offcut ends, measured from its squared end."""
        return max([*(each.end for each in self.pieces), *(each.start + each.along for each in self.offcuts)])


def cut_stretches(layer: Layer, layout: Layout) -> list[CutStretch]:
    """The lengths of cloth that a layout cuts, in the order of the stock."""
    pieces, used = in_cutting_order(layer, layout), {each.stretch for each in layout.uses}
    return [
        CutStretch(
            stretch,
            tuple(each for each in pieces if each.piece.stretch == stretch.id),
            tuple(each for each in layout.offcuts if each.stretch == stretch.id),
        )
        for stretch in layer.stock
        if stretch.id in used
    ]


def cut_pieces(layer: Layer) -> tuple[CutPiece, ...]:
    """The pieces of the layout in use; none while the layer is not laid out."""
    return () if layer.cutting is None else in_cutting_order(layer, layer.cutting.best)


def pieces_of(part_id: str, pieces: Iterable[CutPiece]) -> list[CutPiece]:
    """The pieces of one part, from its left end."""
    return sorted((each for each in pieces if each.piece.strip == part_id), key=lambda each: each.piece.order)


def part_names(plan: Plan) -> dict[str, str]:
    """Part id -> what it is called."""
    return {part.id: part.name for part in plan.parts}


def stretch_name(stretch_id: str) -> str:
    """A length of cloth in words."""
    return "the roll to buy" if stretch_id == ROLL else literal(owned_in_words(stretch_id))
