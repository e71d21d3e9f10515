"""Pieces in the order in which they are cut, numbered through all cloths for cut lists, drawings, labels and steps."""

from __future__ import annotations

from bisect import bisect
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct

from wizard.trade.cutting import Layout, Offcut, Piece, Stretch
from wizard.trade.field_names import owned_in_words
from wizard.trade.formatting import Ruler, listed, shown
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
    """One piece with its number."""

    number: int
    """From 1 on through all cloths: no two pieces of a skirt have the same."""
    piece: Piece
    of: int
    """How many pieces its strip has."""
    lane: bool
    """True for a lane, cut along the roll: its width runs down the roll and its cut length across."""
    begins: str | None = None
    """The row of a half-drop at its nearer edge, `A` or `B`; None for other cloth."""

    @property
    def size(self) -> tuple[Length, Length]:
        """How long and how wide it is cut."""
        return self.piece.cut, self.piece.width

    @property
    def place(self) -> tuple[Length, Length, Length]:
        """Where it is on its length of cloth: from, to, across."""
        return self.piece.start, self.end, self.piece.across

    def slit_at(self, stretch: Stretch) -> list[Length]:
        """Its edges along the cloth that are no edges of the usable width."""
        return [at for at in (self.piece.across, self.piece.across + self.wide) if ZERO < at < stretch.usable]

    def name(self, names: Mapping[str, str]) -> str:
        """The piece in words: `window side, 2 of 4`. `names`: part id -> what it is called."""
        return f"{names.get(self.piece.strip, self.piece.strip)}, {self.piece.order} of {self.of}"

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


def first_number(layers: Sequence[Layer], layer: Layer) -> int:
    """The number of a layer's first piece: those of the layers before it come first."""
    before = layers[: [each.id for each in layers].index(layer.id)]
    return 1 + sum(len(each.cutting.best.pieces) for each in before if each.cutting is not None)


def in_cutting_order(layer: Layer, layout: Layout, first: int = 1) -> tuple[CutPiece, ...]:
    """The layout's pieces: stretch by stretch as they are in stock, along each one, then from its left edge. `first`:
    the number of the first."""
    stretches, lane = [each.id for each in layer.stock], layout.way == "along"
    counts = Counter(piece.strip for piece in layout.pieces)

    def place(each: tuple[Piece, str | None]) -> tuple[int, Length, Length, str, int]:
        piece, _ = each
        return stretches.index(piece.stretch), piece.start, piece.across, piece.strip, piece.order

    ordered = enumerate(sorted(zip(layout.pieces, rows_begun(layer, layout), strict=True), key=place), first)
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


def cut_stretches(layer: Layer, layout: Layout, first: int = 1) -> list[CutStretch]:
    """The lengths of cloth that a layout cuts, in the order of the stock."""
    pieces, used = in_cutting_order(layer, layout, first), {each.stretch for each in layout.uses}
    return [
        CutStretch(
            stretch,
            tuple(each for each in pieces if each.piece.stretch == stretch.id),
            tuple(each for each in layout.offcuts if each.stretch == stretch.id),
        )
        for stretch in layer.stock
        if stretch.id in used
    ]


def cut_pieces(layers: Sequence[Layer], layer: Layer) -> tuple[CutPiece, ...]:
    """The pieces of the layout in use of one of the `layers`; none while it is not laid out."""
    best = None if layer.cutting is None else layer.cutting.best
    return () if best is None else in_cutting_order(layer, best, first_number(layers, layer))


def pieces_of(part_id: str, pieces: Iterable[CutPiece]) -> list[CutPiece]:
    """The pieces of one part, from its left end."""
    return sorted((each for each in pieces if each.piece.strip == part_id), key=lambda each: each.piece.order)


def cut_words(each: CutPiece, names: Mapping[str, str], ruler: Ruler) -> str:
    """`13 3/8 in long × 43 5/16 in wide: left section, 1 of 4, from 0 in to 13 3/8 in, 4 in from the left edge`."""
    long, wide = (shown(size, ruler, "up") for size in each.size)
    start, end, across = (shown(at, ruler) for at in each.place)
    beside = f", {across} from the left edge" if each.piece.across else ""
    row = f", row {each.begins}" if each.begins else ""
    return f"{long} long × {wide} wide: {each.name(names)}, from {start} to {end}{beside}{row}"


def numbers_in_words(pieces: Iterable[CutPiece]) -> str:
    """`no. 4`, or `no. 1, 2 and 5`, in the order given."""
    return f"no. {listed([str(each.number) for each in pieces])}"


def slits(cut: CutStretch, layout: Layout) -> list[Length]:
    """Where the cloth is slit before it is cut across, from its left edge: beside every lane, where no
    piece is wider, or where a length is slit. None for cloth that is cut across first."""
    if layout.way in ("cross-cut", "stacked"):
        return []
    if layout.way == "slit":
        return sorted(set({each.piece.row: each.piece.across for each in reversed(cut.pieces)}.values()) - {ZERO})
    edges = {at for each in cut.pieces for at in each.slit_at(cut.stretch)}
    spoilt = {at for at in edges for each in cut.pieces if each.piece.across < at < each.piece.across + each.wide}
    return sorted(edges - spoilt)


def gaps(cut: CutStretch, layout: Layout) -> Iterator[Length]:
    """How far behind the last end in its lane each piece begins: less than ZERO where pieces lie side by side."""
    edges, ends = slits(cut, layout), dict[int, Length]()
    for each in cut.pieces:
        lane = bisect(edges, each.piece.across)
        end = ends.get(lane, ZERO)
        yield each.piece.start - end
        ends[lane] = max(end, each.end)


def part_names(plan: Plan) -> dict[str, str]:
    """Part id -> what it is called."""
    return {part.id: part.name for part in plan.parts}


def stretch_name(stretch_id: str) -> str:
    """A length of cloth in words."""
    return "the roll to buy" if stretch_id == ROLL else owned_in_words(stretch_id)
