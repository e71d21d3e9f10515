"""Choosing a way of cutting: every layer's ways beside each other; Enter follows one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.screens.dialogs.base_dialogs import Dialog
from wizard.screens.panes.live_rows import Columns
from wizard.screens.screen_text import plain
from wizard.screens.widgets.option_lists import LineList
from wizard.trade.compare_ways import Comparison, Way, table_of_ways
from wizard.trade.plan_records import Plan


class WaysDialog(Dialog[Way | None]):
    """Gives the way to follow, or None."""

    LONG: ClassVar[dict[str, int]] = {"#ways": 100}

    def __init__(self, plan: Plan, found: Mapping[str, Comparison]) -> None:
        super().__init__("Ways of cutting", None, {"take": "Follow it"})
        self.plan, self.found = plan, found
        self.ways: list[Way | None] = []
        """The way of each line; None for headings."""

    def inside(self) -> ComposeResult:
        """The list."""
        yield LineList(id="ways", markup=False)

    def on_mount(self) -> None:
        """Stand on the way that is followed."""
        self.query_one("#ways", LineList).focus()
        self.call_after_refresh(self._fill)

    def _fill(self) -> None:
        lines = self.query_one("#ways", LineList)
        self.ways.clear()
        lines.set_options(self._options(max(lines.scrollable_content_region.width - 4, 24)))
        followed = (place for place, way in enumerate(self.ways) if way is not None and way.followed)
        lines.highlighted = next(followed, None)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter, or a click."""
        event.stop()
        self.pressed("take")

    def pressed(self, button: str) -> None:
        """The way in hand, or None."""
        at = self.query_one("#ways", LineList).highlighted
        self.answer(self.ways[at] if button == "take" and at is not None else None)

    def _options(self, columns: int) -> Iterator[Option]:
        for layer in self.plan.layers:
            found = self.found.get(layer.id)
            if found is None:
                continue
            yield self._line(Content.styled(plain(layer.name), "bold $accent"), None)
            offers = table_of_ways(self.plan, layer, found.ways, whole=True)
            table = Columns(offers, columns)
            for way, row in zip(found.ways, offers.rows, strict=True):
                yield self._line(table.line(row, in_hand=False), way)

    def _line(self, content: Content, way: Way | None) -> Option:
        self.ways.append(way)
        return Option(content, disabled=way is None)
