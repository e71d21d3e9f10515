"""The dialogs that others build on, each typed by its answer. Esc closes each with the answer that changes nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Final, Generic, Literal, TypeVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Button, Input, OptionList, Static

from wizard.interview.outcome import Conflict
from wizard.screens.actions import key_binding, quiet_keys
from wizard.screens.dialog_host import close_screen
from wizard.screens.option_lists import Hanging
from wizard.screens.screen_text import alike, words

T = TypeVar("T")

LOW = 22
"""A window of fewer lines is low: boxes use all of it, without blank lines. As in the app's breakpoints."""


class Dialog(ModalScreen[T], Generic[T]):
    """A box over the screen. `unchanged` is the answer of somebody who closes it; each button runs the action of its
    id."""

    BINDINGS: ClassVar[list[BindingType]] = [*quiet_keys("escape=close"), key_binding("help")]
    LONG: ClassVar[dict[str, int]] = {".reading": 100}
    """What may be too long for the window and scrolls then: selector -> its share of the space, in hundredths."""
    AROUND: ClassVar[int] = 6
    """Lines of the box that are not long: its border, heading and buttons with a blank line each."""

    def __init__(
        self, title: str, unchanged: T, buttons: Mapping[str, str] | None = None, close: str = "Close", text: str = ""
    ) -> None:
        """`buttons`: id -> label of those before the one that closes, whose label is `close`. `text`: what is read."""
        super().__init__()
        self.heading = title
        self.unchanged = unchanged
        self.buttons = {**(buttons or {}), "close": close}
        self.text = text

    def answer(self, answer: T) -> None:
        """Close, and give `answer`; only the first one counts."""
        close_screen(self, answer)

    def compose(self) -> ComposeResult:
        """The box: heading, what the dialog holds, its buttons."""
        with Vertical(classes="box"):
            yield Static(words(self.heading), classes="heading")
            yield from self.inside()
            with HorizontalGroup(classes="buttons"):
                for id, label in self.buttons.items():
                    yield plain_button(label, id, f"screen.{id}")

    def on_resize(self, event: events.Resize) -> None:
        """Nothing in the box grows so long that the buttons would leave the window."""
        low = event.size.height < LOW
        space = event.size.height - self.AROUND + 2 if low else event.size.height * 9 // 10 - self.AROUND
        for selector, share in self.LONG.items():
            self.query_one(selector).styles.max_height = max(space * share // 100, 2)

    def inside(self) -> ComposeResult:
        """What is between heading and buttons: the text, scrolled by the arrow keys."""
        with VerticalScroll(classes="reading", can_focus=len(self.buttons) == 1):
            yield Static(Hanging(words(self.text), apart=True))

    def action_close(self) -> None:
        """Give the answer that changes nothing."""
        self.answer(self.unchanged)


def plain_button(label: str, id: str, action: str) -> Button:
    """A button of one line with a literal label, which runs `action`."""
    return Button(words(label), id=id, action=action, compact=True)


def relabel(button: Button, label: Content) -> None:
    """Another label on a button, which becomes as wide as it needs."""
    # Past the toolkit's comparison, for which labels of one text in other colours are the same.
    if not alike(button.label, label):
        button.set_reactive(Button.label, label)
        button.refresh(layout=True)


class ListDialog(Dialog[T]):
    """A field over a list: the arrow keys move in the list while the focus is in the field."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys(
        "up=move('cursor_up') down=move('cursor_down') pageup=move('page_up') pagedown=move('page_down')"
    )
    lines: OptionList

    def action_move(self, how: str) -> None:
        """Move in the list."""
        getattr(self.lines, f"action_{how}")()


class ConfirmDialog(Dialog[bool]):
    """A sentence and two ways on; the first is the one Enter takes."""

    def __init__(self, title: str, sentence: str, yes: str, no: str) -> None:
        super().__init__(title, False, {"yes": yes}, no, sentence)

    def action_yes(self) -> None:
        """Yes."""
        self.answer(True)


class InputDialog(Dialog[str | None]):
    """Asks for one line of text. None when it was closed."""

    LONG: ClassVar[dict[str, int]] = {}

    def __init__(self, title: str, sentence: str, value: str, take: str) -> None:
        super().__init__(title, None, {"take": take}, "Cancel", sentence)
        self.value = value

    def inside(self) -> ComposeResult:
        """The sentence and the field."""
        yield Static(words(self.text), classes="quiet")
        yield Input(self.value, id="line")

    @on(Input.Submitted)
    def action_take(self) -> None:
        """Enter, or the button."""
        self.answer(self.query_one(Input).value)


class MessageDialog(Dialog[None]):
    """Something to read, as long as it needs to be. Its only button closes it, and so does Enter anywhere."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys("enter=close")

    def __init__(self, title: str, text: str) -> None:
        super().__init__(title, None, text=text)


BY_HAND: Final = {"theirs": "Read the file again", "mine": "Write my answer over it"}
"""What can be done about a file that somebody else changed; the way that loses nothing of theirs comes first."""
AGAIN: Final = {"mine": "Try again"}
CORRECT: Final = "\n\nYour answer is kept here. Correct that outside railskirt, then try again."
Whose = Literal["mine", "theirs"]


class ConflictDialog(Dialog[Whose | None]):
    """Answers whose change wins; None leaves both as they are, and the answer unsaved."""

    def __init__(self, conflict: Conflict) -> None:
        ways, more = (BY_HAND, "") if conflict.by_hand else (AGAIN, CORRECT)
        super().__init__("Not saved", None, ways, text=f"{conflict.sentence}{more}")

    def action_mine(self) -> None:
        """Over what is there."""
        self.answer("mine")

    def action_theirs(self) -> None:
        """What is there."""
        self.answer("theirs")
