"""The roll as it is cut: a drawing that is also the cut list, with the running measure down its left edge.

Across it is to scale; down the roll each width takes the same few lines, so that every figure can be read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby, zip_longest

from textual.content import Content

from wizard.screens.figure_words import running
from wizard.screens.literal import cut_to, filled
from wizard.trade.cutting import Layout, Piece
from wizard.trade.formatting import Ruler, shown
from wizard.trade.lengths import ZERO, Length

MARGIN = 10
"""Columns for the running measure."""


class RollPen:
    """Draws the pieces that lie on one stretch in `columns` characters."""

    def __init__(self, across: Length, names: Mapping[str, str], ruler: Ruler, columns: int) -> None:
        self.across = across
        """Usable width for pieces cut across the roll; the used length for lanes along it."""
        self.names = names
        """Strip id -> the section in words."""
        self.ruler = ruler
        self.cells = max(columns - MARGIN - 2, 8)

    def lines(self, pieces: tuple[Piece, ...], lanes: bool) -> Iterator[Content]:
        """The drawing, from the squared end. `lanes`: pieces run along the roll, each lane is one line."""
        rows = [_Row(list(group), lanes) for _, group in groupby(_sorted(pieces, lanes), key=lambda each: each.row)]
        if rows and rows[0].start > ZERO:
            yield self._between(rows[0].start)
        yield self._rule(rows[0].start if rows else ZERO, None, rows[0] if rows else None)
        for row, following in zip_longest(rows, rows[1:]):
            yield self._body(row)
            yield self._under(row)
            if following is not None and following.start > row.end:
                yield self._rule(row.end, row, None)
                yield self._between(following.start - row.end)
                yield self._rule(following.start, None, following)
            else:
                yield self._rule(row.end, row, following)

    def _between(self, lost: Length) -> Content:
        """Cloth before a width that nothing is cut from: damage, or what the pattern loses."""
        return Content.assemble(" " * MARGIN, (f"  {shown(lost, self.ruler)} that nothing is cut from", "$quiet"))

    def _cell(self, at: Length) -> int:
        return min((at / self.across * self.cells).__round__(), self.cells)

    def _edges(self, row: _Row | None) -> set[int]:
        return set() if row is None else {self._cell(row.from_to(each)[1]) for each in row.pieces}

    def _rule(self, at: Length, above: _Row | None, below: _Row | None) -> Content:
        ups, downs = self._edges(above), self._edges(below)
        signs = {(True, True): "┼", (True, False): "┴", (False, True): "┬", (False, False): "─"}
        middle = "".join(signs[(cell in ups, cell in downs)] for cell in range(1, self.cells))
        left = "├" if above and below else "┌" if below else "└"
        right = "┤" if above and below else "┐" if below else "┘"
        measure = cut_to(running(at, self.ruler, MARGIN - 1), MARGIN - 1).rjust(MARGIN - 1)
        return Content.assemble((measure, "bold"), " ", (left + middle + right, "$rule"))

    def _body(self, row: _Row) -> Content:
        return self._line(
            row, [self.names.get(each.strip, each.strip) + f" {each.order}" for each in row.pieces], "bold"
        )

    def _under(self, row: _Row) -> Content:
        long = shown(row.pieces[0].cut, self.ruler)
        words = [shown(each.width, self.ruler) for each in row.pieces]
        words[-1] = f"{words[-1]} × {long}" if row.same_cut else words[-1]
        return self._line(row, words, "")

    def _line(self, row: _Row, words: list[str], style: str) -> Content:
        parts: list[Content | str] = [" " * MARGIN, Content.styled("│", "$rule")]
        at = 0
        for piece, text in zip(row.pieces, words, strict=True):
            start, end = (self._cell(each) for each in row.from_to(piece))
            if start > at:
                parts += [Content.styled("·" * (start - at - 1), "$rule"), Content.styled("│", "$rule")]
            room = max(end - max(start, at) - 1, 0)
            parts += [Content.styled(filled(f" {text}", room), style), Content.styled("│", "$rule")]
            at = end
        if at < self.cells:
            parts += [Content.styled("·" * (self.cells - at - 1), "$rule"), Content.styled("│", "$rule")]
        return Content.assemble(*parts)


class _Row:
    """The pieces of one width (or lane), from its left edge."""

    def __init__(self, pieces: list[Piece], lanes: bool) -> None:
        self.lanes = lanes
        self.pieces = sorted(pieces, key=lambda each: self.from_to(each)[0])
        near = [each.across if lanes else each.start for each in pieces]
        self.start = min(near)
        self.end = max(at + each.cut for at, each in zip(near, pieces, strict=True))
        self.same_cut = len({each.cut for each in pieces}) == 1

    def from_to(self, piece: Piece) -> tuple[Length, Length]:
        """Where the piece begins and ends in the direction that is to scale."""
        start = piece.start if self.lanes else piece.across
        return start, start + piece.width


def _sorted(pieces: tuple[Piece, ...], lanes: bool) -> list[Piece]:
    return sorted(pieces, key=lambda each: (each.row, each.across if lanes else each.start))


def stretches(layout: Layout) -> tuple[str, ...]:
    """The stretches that pieces lie on, in order of use."""
    return tuple(each.stretch for each in layout.uses if each.length > ZERO)
