"""Lists of lines to choose from: the plain one, and the choices of a question."""

from __future__ import annotations

from textual.style import Style
from textual.widgets import OptionList


def nobody(text: str) -> None:
    """Stands for whoever will listen: nobody does yet."""


IN_HAND = "option-list--option-highlighted"


class LineList(OptionList):
    """The toolkit leaves *reverse* out of the styles of a list's lines; here it comes through, for plain terminals."""

    def action_page_up(self) -> None:
        """A page up; in a window too small to show any line there are no pages."""
        if self.scrollable_content_region:
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        """A page down."""
        if self.scrollable_content_region:
            super().action_page_down()  # type: ignore[no-untyped-call]

    def get_visual_style(self, *component_classes: str, partial: bool = False) -> Style:
        """The toolkit's style, reversed where the sheet says so."""
        style = super().get_visual_style(*component_classes, partial=partial)
        if IN_HAND in component_classes and self.get_component_styles(IN_HAND).text_style.reverse:
            return style + Style(reverse=True)
        return style
