"""Where an answer is typed or picked. It holds text only; the session says what the text means."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from msgspec import Struct
from textual import on
from textual.app import ComposeResult
from textual.containers import HorizontalGroup, Vertical
from textual.geometry import Size
from textual.message import Message
from textual.reactive import Reactive
from textual.widgets import Button, Input, Static

from wizard.interview.question import Question
from wizard.project.parse.misread import quoted
from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.screen_text import update_if_changed, words
from wizard.screens.widgets.option_lists import ChoiceList, nobody, pickable


class Field(Input):
    """Tells at once what is typed and taken.

    The toolkit's own messages are heard only after the keys that wait behind them: on a slow machine Enter would then
    take what was typed after it, and the next question would get the text of the last.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)
    """How far the text reaches: the field itself stays as large as it is, and nothing has to be laid out anew."""
    typed: Callable[[str], None] = staticmethod(nobody)
    taken: Callable[[str], None] = staticmethod(nobody)

    def put(self, text: str) -> None:
        """Show `text` without telling anybody."""
        typed, self.typed = self.typed, nobody
        self.value = text
        self.typed = typed
        self.cursor_position = len(text)

    def watch_value(self, text: str) -> None:
        """Tell what is in the field."""
        self.typed(text)

    async def action_submit(self) -> None:
        """Enter."""
        self.taken(self.value)


OFFERS = 3
"""Buttons there is room for beside a refusal or a finding."""


class Offer(Struct, frozen=True):
    """A button beside what is said of an answer: its label, and what the screen is told when it is pressed."""

    label: str
    value: str


SEVERAL = "Space marks, Enter takes what is marked."
"""Stands under a list that takes any number of choices."""


class AnswerBox(Vertical):
    """The field or the list of choices, the echo under it, and what is said of the answer."""

    @dataclass
    class Offered(Message):
        """The button of an offer was pressed."""

        value: str

    def __init__(self) -> None:
        super().__init__(id="answer")
        self.picking = False
        self.echoed = ""
        self.offers: tuple[Offer, ...] = ()

    def listen(self, typed: Callable[[str], None], taken: Callable[[str], None]) -> None:
        """Have `typed` told of every change, and `taken` of what Enter takes: at once, before any later key."""
        field, picks = self.query_one(Field), self.query_one(ChoiceList)
        field.typed, field.taken = typed, taken
        picks.moved, picks.chosen, picks.strayed = typed, taken, self._strayed

    def compose(self) -> ComposeResult:
        """Every part but the buttons is there from the start and shown when it is wanted: the focus is never lost."""
        yield Field(id="field", select_on_focus=False)
        yield ChoiceList(id="picks", free=True)
        yield Static(id="echo")
        yield Static(id="said")
        yield HorizontalGroup(id="offers")

    def ask(self, question: Question, text: str) -> None:
        """Show the place to answer `question`, with `text` in it."""
        field, picks = self.query_one(Field), self.query_one(ChoiceList)
        self.picking = pickable(question)
        field.display, picks.display = not self.picking, self.picking
        if self.picking:
            picks.offer(question, text)
        else:
            field.put(text)
            field.placeholder = _placeholder(question)
        self.say("", "")
        self.echo("")

    def text(self) -> str:
        """The present answer."""
        return self.query_one(ChoiceList).text() if self.picking else self.query_one(Field).value

    def in_short(self) -> tuple[str, str]:
        """The present answer and its echo; a choice in its words, which need none."""
        return (self.query_one(ChoiceList).in_short(), "") if self.picking else (self.text(), self.echoed)

    def take_focus(self) -> None:
        """Put the focus on the field or the list."""
        # Now, not when the toolkit comes to it: keys may be waiting.
        self.screen.set_focus(self.query_one(ChoiceList if self.picking else Field))

    def put(self, text: str) -> None:
        """Type `text` into the field in place of what is there."""
        self.query_one(Field).value = text

    def put_back(self, text: str) -> None:
        """Have `text` in the field again, as if nothing had been typed."""
        self.query_one(Field).put(text)

    def mark_all(self) -> None:
        """Have what is typed next replace the whole answer."""
        if self.picking:
            self.query_one(ChoiceList).anew = True
        else:
            self.query_one(Field).select_all()

    def echo(self, text: str) -> None:
        """How the text is understood."""
        place, written = self.query_one("#echo", Static), self._written()
        update_if_changed(place, words(" ".join(each for each in (written, f"= {text}" if text else "") if each)))
        place.display = not self.picking or bool(written)
        self.echoed = text

    def say(self, text: str, level: str, offers: tuple[Offer, ...] = ()) -> None:
        """A refusal or a finding under the field; `level` is its class in the style sheet. Nothing for no text."""
        said = self.query_one("#said", Static)
        update_if_changed(said, words(text))
        said.display = bool(text)
        said.set_classes(level)
        typing = not self.picking and (bool(self.echoed) or not text)
        self.query_one("#echo").display = typing or bool(self._written())
        self.offers = offers[:OFFERS]
        place = self.query_one("#offers")
        place.display = bool(self.offers)
        there = list(place.query_children(Button).results(Button))
        for button in there[len(self.offers) :]:
            button.display = False
        for number, offer in enumerate(self.offers):
            if number < len(there):
                there[number].display = True
                relabel(there[number], words(offer.label))
            else:
                place.mount(plain_button(offer.label, f"offer-{number}"))

    def _written(self) -> str:
        """What is typed at a list, where no field shows it; of one that takes several, how they are marked."""
        picks = self.query_one(ChoiceList)
        if not self.picking:
            return ""
        return SEVERAL if picks.several else picks.written

    def _strayed(self, letter: str) -> None:
        lines = len(self.query_one(ChoiceList).choices)
        self.say(f"Found {quoted(letter)}: a number from 1 to {lines} goes to its line.", "refused")

    @on(Button.Pressed)
    def _offered(self, event: Button.Pressed) -> None:
        event.stop()
        number = int((event.button.id or "").rpartition("-")[2])
        self.post_message(self.Offered(self.offers[number].value))


def _placeholder(question: Question) -> str:
    if question.usual is not None:
        return f"{question.usual} (usual)"
    if question.optional or question.kind == "add":
        return "leave it empty to go on"
    return f"such as {question.example}" if question.example else ""
