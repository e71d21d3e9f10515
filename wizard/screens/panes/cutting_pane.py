"""The cutting plan of every layer: what it takes, the roll as it is cut, each section's pieces, the ways of cutting.

The roll is drawn to scale across it; along it each width takes the same few lines, so that every figure can be read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby, zip_longest
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from wizard.screens.dialogs.base_dialogs import plain_button
from wizard.screens.figure_words import running, value_words
from wizard.screens.panes import cutting_words
from wizard.screens.panes.cutting_words import comparison_lines, pattern_lines
from wizard.screens.screen_text import cut_to, filled, in_lines, plain
from wizard.trade.compare_ways import Comparison
from wizard.trade.cutting import Layout, Piece
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Plan

MARGIN = 10
"""Columns for the running measure."""


class RollPen:
    """Draws the pieces of one length of cloth in `columns` characters."""

    def __init__(self, across: Length, names: Mapping[str, str], ruler: Ruler, columns: int) -> None:
        self.across = across
        """Usable width for pieces cut across the roll; the used length for lanes along it."""
        self.names = names
        """Strip id -> the section in words."""
        self.ruler = ruler
        self.cells = max(columns - MARGIN - 2, 8)

    def lines(self, pieces: tuple[Piece, ...], lanes: bool) -> Iterator[Content]:
        """The drawing, from the squared end. `lanes`: pieces run along the roll, each lane is one line."""
        rows = [_Width(list(group), lanes) for _, group in groupby(_sorted(pieces, lanes), key=lambda each: each.row)]
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

    def _edges(self, row: _Width | None) -> set[int]:
        return set() if row is None else {self._cell(row.from_to(each)[1]) for each in row.pieces}

    def _rule(self, at: Length, above: _Width | None, below: _Width | None) -> Content:
        ups, downs = self._edges(above), self._edges(below)
        signs = {(True, True): "┼", (True, False): "┴", (False, True): "┬", (False, False): "─"}
        middle = "".join(signs[(cell in ups, cell in downs)] for cell in range(1, self.cells))
        left = "├" if above and below else "┌" if below else "└"
        right = "┤" if above and below else "┐" if below else "┘"
        measure = cut_to(running(at, self.ruler, MARGIN - 1), MARGIN - 1).rjust(MARGIN - 1)
        return Content.assemble((measure, "bold"), " ", (left + middle + right, "$rule"))

    def _body(self, row: _Width) -> Content:
        return self._line(
            row, [self.names.get(each.strip, each.strip) + f" {each.order}" for each in row.pieces], "bold"
        )

    def _under(self, row: _Width) -> Content:
        long = shown(row.pieces[0].cut, self.ruler)
        words = [shown(each.width, self.ruler) for each in row.pieces]
        words[-1] = f"{words[-1]} × {long}" if row.same_cut else words[-1]
        return self._line(row, words, "")

    def _line(self, row: _Width, words: list[str], style: str) -> Content:
        parts: list[Content | str] = [" " * MARGIN, Content.styled("│", "$rule")]
        at = 0
        for piece, text in zip(row.pieces, words, strict=True):
            start, end = (self._cell(each) for each in row.from_to(piece))
            if start > at:
                parts += [Content.styled("·" * (start - at - 1), "$rule"), Content.styled("│", "$rule")]
            space = max(end - max(start, at) - 1, 0)
            parts += [Content.styled(filled(f" {text}", space), style), Content.styled("│", "$rule")]
            at = end
        if at < self.cells:
            parts += [Content.styled("·" * (self.cells - at - 1), "$rule"), Content.styled("│", "$rule")]
        return Content.assemble(*parts)


class _Width:
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
    """The lengths of cloth that pieces are cut from, in order of use."""
    return tuple(each.stretch for each in layout.uses if each.length > ZERO)


Found = Mapping[str, Comparison]
"""Layer id -> its ways, for the layers compared so far."""
WAITING = "Ways of cutting: working them out…"
LANES = "Each lane runs along the cloth. The lengths at the left are across it, from the left edge."
"""Explains lanes that run along the roll."""
BUTTONS = {"ways": "Ways of cutting", "roll": "Roll to scale", "fullness": "Fullness steps"}
"""Action that the pane leads to -> its button."""


class CuttingBox(Vertical):
    """The cutting plan over its buttons."""

    def compose(self) -> ComposeResult:
        """The plan, and what it leads to."""
        yield CuttingPane(id="cutting")
        with HorizontalGroup(id="cutting-buttons"):
            for action, words in BUTTONS.items():
                yield plain_button(words, f"to-{action}", f"screen.{action}")


class CuttingPane(VerticalScroll):
    """Scrolled by the arrow keys; written anew for each width."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "screen.ways", show=False),
        Binding("plus,equals_sign", "screen.roll", show=False),
    ]

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.plan: Plan | None = None
        self.found: Found = {}
        self.alone = ""

    def compose(self) -> ComposeResult:
        """One long text."""
        yield Static(id="cutting-text")

    def tell(self, plan: Plan, found: Found, alone: str) -> None:
        """Show the cutting plan of `plan`. `found`: the ways, for the layers that are compared already; `alone`: what
        the cloth in hand gives by itself, once that is known."""
        self.plan, self.found, self.alone = plan, found, alone
        self._write()

    def on_resize(self, event: events.Resize) -> None:
        """The roll is drawn for the new width."""
        self._write()

    def _write(self) -> None:
        if self.plan is not None and self.size.width:
            columns = self.scrollable_content_region.width - 1
            lines = cutting_lines(self.plan, self.found, self.alone, columns)
            self.query_one("#cutting-text", Static).update(Content("\n").join(lines))


def cutting_lines(plan: Plan, found: Found, alone: str, columns: int) -> Iterator[Content]:
    """The whole cutting plan in lines for a place of `columns`."""
    for layer in plan.layers:
        yield cutting_words.heading(layer)
        yield from cutting_words.holes(layer)
        yield from cutting_words.summary(layer, plan, columns)
        yield Content("")
        if layer.cutting is None:
            continue
        yield from _titled("Cloth in hand", cutting_words.in_hand(layer, plan, alone, columns))
        yield from _rolls(layer, layer.cutting.best, plan, columns)
        yield from _titled(
            "Pieces, from the left end as seen from the room", cutting_words.sections(layer, plan, columns)
        )
        yield from _titled("The pattern", pattern_lines(plan, layer, columns))
        yield from _ways(found.get(layer.id), plan, layer, columns)
        yield Content("")


def _ways(found: Comparison | None, plan: Plan, layer: Layer, columns: int) -> Iterator[Content]:
    if found is None:
        yield Content.styled(WAITING, "$quiet")
    else:
        yield from comparison_lines(found, plan, layer, columns)


def _titled(title: str, lines: Iterator[Content]) -> Iterator[Content]:
    found = list(lines)
    if found:
        yield Content.styled(title, "bold")
        yield from found
        yield Content("")


def _rolls(layer: Layer, layout: Layout, plan: Plan, columns: int) -> Iterator[Content]:
    ruler = ruler_of(plan.job)
    names = {part.id: part.name for part in plan.parts}
    lanes = layout.way == "along"
    for stretch in stretches(layout):
        stock = next(each for each in layer.stock if each.id == stretch)
        use = next(each for each in layout.uses if each.stretch == stretch)
        yield Content.assemble((_stretch_words(stretch, layer, plan, lanes), "bold"))
        for line in in_lines(LANES, columns) if lanes else ():
            yield Content.styled(line, "$quiet")
        across = use.length if lanes else stock.usable
        pieces = tuple(each for each in layout.pieces if each.stretch == stretch)
        yield from RollPen(across, names, ruler, columns).lines(pieces, lanes)
        yield Content("")


def _stretch_words(stretch: str, layer: Layer, plan: Plan, lanes: bool) -> str:
    stock = next(each for each in layer.stock if each.id == stretch)
    squared = layer.rules.squaring if layer.rules and not stock.squared else ZERO
    first = f"square the end first ({shown(squared, ruler_of(plan.job), 'given')}), then " if squared > ZERO else ""
    measure = f"{first}measure{' along it' if lanes else ''} from the squared end"
    if stock.length is None:
        return f"The roll: {measure}"
    return f"Owned {plain(stretch)}, {value_words(stock.length, plan)} long: {measure}"
