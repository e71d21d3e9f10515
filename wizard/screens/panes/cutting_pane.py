"""The cutting plan of every layer as its sheet tells it, each cut with its size first, then the ways compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import ClassVar, Final

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from wizard.render.document import Heading
from wizard.render.text_page import Page
from wizard.render.text_sheet import lines_of
from wizard.render.workings_sheet import cutting_plan
from wizard.screens.actions import quiet_keys
from wizard.screens.dialogs.base_dialogs import plain_button
from wizard.screens.panes.live_rows import Columns
from wizard.screens.screen_text import in_lines, plain
from wizard.trade.compare_ways import Comparison, table_of_ways
from wizard.trade.formatting import ruler_of
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.cut_order import CutPiece, cut_words, part_names

Found = Mapping[str, Comparison]
"""Layer id -> its ways, for the layers compared so far."""
BUTTONS: Final = {"ways": "Ways of cutting", "roll": "Roll to scale", "fullness": "Fullness"}
"""Action that the pane leads to -> its button."""
LEAST: Final = 40
"""Fewest columns that the lines are made for."""


class CuttingPane(VerticalScroll):
    """Scrolled by the arrow keys, over its buttons; written anew for each width."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys("enter=screen.step_next plus,equals_sign=screen.roll")

    told: tuple[Plan, Found, str] | None = None

    def compose(self) -> ComposeResult:
        """One long text, and what it leads to."""
        yield Static(id="cutting-text")
        with HorizontalGroup(id="cutting-buttons"):
            for action, words in BUTTONS.items():
                yield plain_button(words, f"to-{action}", f"screen.{action}")

    def tell(self, plan: Plan, found: Found, alone: str) -> None:
        """Show the cutting plan of `plan`. `found`: the ways, for the layers that are compared already; `alone`: what
        the cloth in hand gives by itself, once that is known."""
        self.told = plan, found, alone
        self._write()

    def action_page_down(self) -> None:
        """A page, less the line that the buttons stand on."""
        self.scroll_relative(y=self.scrollable_content_region.height - 1, animate=False)

    def action_page_up(self) -> None:
        """The same back."""
        self.scroll_relative(y=1 - self.scrollable_content_region.height, animate=False)

    def on_resize(self, event: events.Resize) -> None:
        """Written for the new width."""
        self._write()

    def _write(self) -> None:
        if self.told is not None and self.size.width:
            lines = cutting_lines(*self.told, max(self.scrollable_content_region.width - 1, LEAST))
            self.query_one("#cutting-text", Static).update(Content("\n").join(lines))


def cutting_lines(plan: Plan, found: Found, alone: str, columns: int) -> Iterator[Content]:
    """The whole cutting plan in lines for a place of `columns`."""
    ruler = ruler_of(plan.job)
    page = Page(columns, ruler)
    for layer in plan.layers:
        for each in cutting_plan(plan, layer, alone):
            if isinstance(each, Heading):
                yield from [Content("")] if each.level == 2 else ()
                yield Content.styled(plain(each.text), "bold $accent" if each.level == 1 else "bold")
            elif isinstance(each, CutPiece):
                words = cut_words(each, part_names(plan), ruler)
                yield from (Content(line) for line in page.para(words, f"{each.number:>3}  "))
            else:
                yield from (Content(line) for line in lines_of([each], page))
        if layer.cutting is not None:
            yield from _ways(found.get(layer.id), plan, layer, columns)
        yield Content("")


def _ways(found: Comparison | None, plan: Plan, layer: Layer, columns: int) -> Iterator[Content]:
    """The ways of cutting a layer beside each other, the recommended one, and what each constraint costs."""
    yield from (Content(""), Content.styled("Ways of cutting", "bold"))
    if found is None:
        yield Content.styled("Comparing the ways of cutting…", "$quiet")
        return
    offers = table_of_ways(plan, layer, found.ways, whole=True)
    table = Columns(offers, columns)
    yield table.heads()
    yield from (table.line(each, in_hand=False) for each in offers.rows)
    reason = f"Recommended: {found.advised.title}. {found.reason}" if found.advised else ""
    sentences = [*([reason] if reason else []), *(each.sentence for each in found.prices)]
    yield from (Content(line) for line in chain.from_iterable(in_lines(plain(each), columns) for each in sentences))
