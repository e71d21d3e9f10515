"""Lists of lines to choose from: the plain one, and the choices of a question."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.style import Style
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.interview.answer_text import options
from wizard.interview.question import Choice, Question
from wizard.screens.screen_text import plain
from wizard.trade.job_fields import LONGEST_NAME


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


PICKED, OPEN = "(•)", "( )"
MARKED, UNMARKED = "[x]", "[ ]"
NO_LETTER = "\ufffd"
"""Stands for bytes that are no letter: nobody types them."""
LEFT_OPEN = Choice("", "leave it open")


def pickable(question: Question) -> bool:
    """True for a question answered from a list."""
    return question.kind in ("choice", "choices", "yes-no")


class ChoiceList(LineList):
    """Arrow keys move; of one choice the line in hand is the answer; of several, Space marks and unmarks.

    Of one choice the answer may be typed too, as on a plain line: its number, its beginning, or what is not listed.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "choose", "Take it", show=False),
        Binding("space", "mark", "Mark or unmark", show=False),
        Binding("backspace", "take_back", "Take the last letter back", show=False),
        # The keys that clear a line of text clear it here too.
        Binding("ctrl+u,ctrl+k,ctrl+w,delete", "clear", "Take back what is typed", show=False),
        # A list of choices is short; the words above it may not be.
        Binding("pagedown", "screen.scroll_text(1)", show=False),
        Binding("pageup", "screen.scroll_text(-1)", show=False),
    ]

    moved: Callable[[str], None] = staticmethod(nobody)
    strayed: Callable[[str], None] = staticmethod(nobody)
    """Told of a letter that does nothing here."""
    """Told at once of another answer in hand (see `Field`)."""
    chosen: Callable[[str], None] = staticmethod(nobody)
    """Told at once of the answer: Enter, or a click."""

    def __init__(self, id: str, *, free: bool = False) -> None:
        """`free`: what is on no line may be typed too; whoever takes the answer says whether it will do."""
        super().__init__(id=id, markup=False)
        self.free = free
        self.choices: tuple[Choice, ...] = ()
        self.several = False
        self.usual: str | None = None
        self.marked: set[str] = set()
        self.offered = False
        """True once the list is filled: from then on the maker moves the selection."""
        self.written = ""
        """What is typed in place of going to a line."""
        self.left_at: int | None = None
        """The line in hand before anything was typed."""
        self.stray = ""
        """A letter typed at a list of several, where it does nothing; until it was told at Enter."""
        self.anew = False
        """True where the next letter begins another answer."""

    def offer(self, question: Question, text: str) -> None:
        """List the choices of `question`, with those in `text` picked."""
        several = question.kind == "choices"
        choices = ((LEFT_OPEN,) if question.optional and not several else ()) + options(question)
        self.put(choices, text, several=several, usual=question.usual)

    def put(self, choices: tuple[Choice, ...], text: str, *, several: bool, usual: str | None = None) -> None:
        """List `choices`, with those in `text` picked."""
        self.offered, self.written, self.stray, self.anew = False, "", "", False
        self.several, self.usual, self.choices = several, usual, choices
        self.marked = {each.strip() for each in text.split(",")} if self.several else set()
        self.set_options(Option(self._line(number, False)) for number in range(len(self.choices)))
        self.highlighted = 0 if self.several else self._place_of(text or self.usual or "")
        if self.free and self.highlighted is None and not self.several:
            self.written, self.left_at = text, None
        self.offered = True
        self._write()

    def text(self) -> str:
        """The answer as one would type it."""
        if self.several:
            return ", ".join(each.value for each in self.choices if each.value in self.marked) or "none"
        if self.highlighted is None:
            return self.written
        return self.choices[self.highlighted].value

    def in_short(self) -> str:
        """The answer as it reads in the list, up to what is said of it behind a colon."""
        if self.written and self.highlighted is None:
            return self.written
        in_hand = () if self.highlighted is None else (self.choices[self.highlighted],)
        taken = [each for each in self.choices if each.value in self.marked] if self.several else in_hand
        return ", ".join(each.words.partition(":")[0] for each in taken)

    def action_choose(self) -> None:
        """The answer is given; a letter that did nothing is told first, once."""
        if self.stray:
            self.strayed(self.stray)
            self.stray = ""
        else:
            self.chosen(self.text())

    def action_mark(self) -> None:
        """Mark or unmark the line in hand; of one choice there is nothing to mark."""
        if not self.several or self.highlighted is None:
            return
        self.stray = ""
        self.marked ^= {self.choices[self.highlighted].value}
        self._write()
        self.moved(self.text())

    def action_take_back(self) -> None:
        """Take the last letter back."""
        self._write_on(self.written[:-1])

    def action_clear(self) -> None:
        """Take back all that is typed."""
        self._write_on("")

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A click: picks the one choice, or marks one of several."""
        event.stop()
        if self.several:
            self.action_mark()
        else:
            self.action_choose()

    def watch_highlighted(self, highlighted: int | None) -> None:
        """The mark goes with the line in hand."""
        super().watch_highlighted(highlighted)
        if self.offered and not self.several:
            self.written = ""
            self._write()
            self.moved(self.text())

    def on_key(self, event: events.Key) -> None:
        """A figure goes to the choice of that number, other letters are typed."""
        if not event.is_printable or event.character in (None, NO_LETTER):
            return
        if not self.several:
            event.stop()
            before, self.anew = "" if self.anew else self.written, False
            self._write_on(f"{before}{event.character}".lstrip())
        elif event.character != " ":
            event.stop()
            self.stray = "" if event.character in self._numbers() else event.character or ""
            if self.stray:
                self.strayed(self.stray)
            else:
                self.highlighted = int(event.key) - 1

    def _write_on(self, text: str) -> None:
        """Have `text` typed: the line of that number is in hand, and none where it is no number of a line."""
        if text == self.written or (text and not self.free and text not in self._numbers()):
            return
        if not self.written:
            self.left_at = self.highlighted
        self.written = text[:LONGEST_NAME]
        self.offered = False
        self.highlighted = self._numbered() if self.written else self.left_at
        self.offered = True
        self._write()
        self.moved(self.text())

    def _numbered(self) -> int | None:
        """The line whose number is typed, if it is one."""
        return int(self.written) - 1 if self.written in self._numbers() else None

    def _numbers(self) -> list[str]:
        return [str(number) for number in range(1, len(self.choices) + 1)]

    def _place_of(self, value: str) -> int | None:
        return next((number for number, each in enumerate(self.choices) if each.value == value), None)

    def _write(self) -> None:
        for number in range(len(self.choices)):
            self.replace_option_prompt_at_index(number, self._line(number, number == self.highlighted))

    def _line(self, number: int, in_hand: bool) -> Content:
        choice = self.choices[number]
        signs, on = ((MARKED, UNMARKED), choice.value in self.marked) if self.several else ((PICKED, OPEN), in_hand)
        mark = signs[0 if on else 1]
        usual = "  (usual)" if choice.value and choice.value == self.usual else ""
        return Content(f"{mark} {plain(choice.words)}{usual}")
