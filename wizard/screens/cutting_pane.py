"""The cutting plan of every layer: what it takes, the roll as it is cut, each section's pieces, the ways of cutting."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Static

from wizard.screens import cutting_words
from wizard.screens.breaking import in_lines
from wizard.screens.dialogs import plain_button
from wizard.screens.figure_words import value_words
from wizard.screens.literal import plain
from wizard.screens.roll import RollPen, stretches
from wizard.screens.ways_words import comparison_lines, pattern_lines
from wizard.trade.compare_ways import Comparison
from wizard.trade.cutting import Layout
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer, Plan

Found = Mapping[str, Comparison]
"""Layer id -> its ways, for the layers compared so far."""
WAITING = "Ways of cutting: working them out…"
LANES = "Each lane runs along the cloth. The lengths at the left are across it, from the left edge."
"""What is said of strips that lie along the roll."""
BUTTONS = {"ways": "Ways of cutting", "roll": "Roll to scale", "fullness": "Fullness steps"}
"""What the room leads to: deed -> its button."""


class CuttingRoom(Vertical):
    """The cutting plan over its buttons."""

    def compose(self) -> ComposeResult:
        """The plan, and what it leads to."""
        yield CuttingPane(id="cutting")
        with HorizontalGroup(id="cutting-buttons"):
            for deed, words in BUTTONS.items():
                yield plain_button(words, f"to-{deed}")

    @on(Button.Pressed)
    async def _lead(self, event: Button.Pressed) -> None:
        event.stop()
        await self.screen.run_action((event.button.id or "").removeprefix("to-"))


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
