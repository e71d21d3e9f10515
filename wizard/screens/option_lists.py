"""Lists of lines to choose from."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from textual.content import Content
from textual.css.styles import RulesMap
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual
from textual.widgets import OptionList

from wizard.screens.screen_text import words

IN_HAND = "option-list--option-highlighted"
FIRST_COLUMN: Final = re.compile(r"\S.*?  +")


class LineList(OptionList):
    """The toolkit leaves *reverse* out of the styles of a list's lines; here it comes through, for plain terminals."""

    beside = ""
    """Selector of the text that PgUp and PgDn scroll in place of the list."""

    def action_page_up(self) -> None:
        """A page up; in a window too small to show any line there are no pages."""
        if self.beside:
            self.screen.query_one(self.beside).scroll_page_up(animate=False)
        elif self.scrollable_content_region:
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        """A page down."""
        if self.beside:
            self.screen.query_one(self.beside).scroll_page_down(animate=False)
        elif self.scrollable_content_region:
            super().action_page_down()  # type: ignore[no-untyped-call]

    def get_visual_style(self, *component_classes: str, partial: bool = False) -> Style:
        """The toolkit's style, reversed where the sheet says so."""
        style = super().get_visual_style(*component_classes, partial=partial)
        if IN_HAND in component_classes and self.get_component_styles(IN_HAND).text_style.reverse:
            return style + Style(reverse=True)
        return style


class PickList(LineList):
    """The line in hand is picked: it has a mark, for plain terminals and while something else has the focus."""

    def __init__(self, lines: Sequence[str], id: str) -> None:
        self.texts = lines  # Before the toolkit picks the first.
        super().__init__(*lines, id=id, markup=False)

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Mark it."""
        super().watch_highlighted(highlighted)
        for number, each in enumerate(self.texts):
            self.replace_option_prompt_at_index(number, words(f"{'(•)' if number == highlighted else '( )'} {each}"))


class Hanging(Visual):
    """Text that goes on under itself, not under the sign in front of it. `apart`: each of its paragraphs does so,
    one of two columns under its second; else only the first begins at the left."""

    def __init__(self, content: Content, indent: int = 0, *, apart: bool = False) -> None:
        self.content, self.indent, self.apart = content, indent, apart

    def _laid(self, width: int) -> Content:
        lines = list[Content]()
        for line in self.content.split(allow_blank=True):
            column = FIRST_COLUMN.match(line.plain)
            indent = column.end() if self.apart and column else self.indent
            sign = line[: indent if self.apart or not lines else 0]
            first, *others = line[len(sign) :].wrap(max(width - max(indent, sign.cell_length), 1))
            # One piece of the line, not two put together: its words stay whole for whoever reads the terminal.
            begun = line[: len(sign) + len(first)] if sign else first.pad_left(indent)
            lines += [begun, *(each.pad_left(indent) for each in others)]
        return Content("\n").join(lines)

    def render_strips(self, width: int, height: int | None, style: Style, options: RenderOptions) -> list[Strip]:
        """The lines in a width."""
        return self._laid(width).render_strips(width, height, style, options)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        """As wide as its text."""
        return self.content.get_optimal_width(rules, container_width)

    def get_height(self, rules: RulesMap, width: int) -> int:
        """Its lines in a width."""
        return self._laid(width).get_height(rules, width)
