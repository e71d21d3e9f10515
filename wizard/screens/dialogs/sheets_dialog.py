"""Writing the sheets: which, in what form, into which file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar, Final, get_args

from msgspec import Struct
from textual import on, work
from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.widgets import Button, Input, Static

from wizard.interview.question import Choice
from wizard.render.plain_text import with_capital
from wizard.render.sheet_files import FORM_WORDS, Target, named_target, usual_target
from wizard.render.sheet_names import TITLES, USUAL, WITH_SHEETS, Format, SheetId
from wizard.screens.dialogs.base_dialogs import Dialog, relabel
from wizard.screens.screen_text import one_line, words
from wizard.screens.widgets.option_lists import ChoiceList

FORMS: Final = tuple(Choice(form, says) for form, says in FORM_WORDS.items())
SHEETS: Final = tuple(Choice(sheet, title) for sheet, title in TITLES.items())


class Order(Struct, frozen=True):
    """What to write, and where."""

    form: Format
    only: tuple[SheetId, ...] | None
    """None for the forms that are always whole."""
    named: Target | None
    """None where it goes to the person's own device."""


class SheetsDialog(Dialog[Order | None]):
    """Gives what was written, or None. `write` gives the sentence that says why it could not be written."""

    LONG: ClassVar[dict[str, int]] = {"#which": 100}
    AROUND: ClassVar[int] = 13

    def __init__(self, project: Path, write: Callable[[Order], str | None], *, to_file: bool = True) -> None:
        self._verb = "Write" if to_file else "Download"
        super().__init__("Sheets", None, {"write": self._verb})
        self.project, self.write, self.to_file = project, write, to_file
        self.named = ""
        """The name this dialog put into the field; another one was typed."""
        self.may_replace: Path | None = None

    def inside(self) -> ComposeResult:
        """Forms and sheets beside each other, the file under them."""
        with HorizontalGroup(id="which"):
            yield ChoiceList(id="form")
            yield ChoiceList(id="sheets")
        if self.to_file:
            yield Input(id="target", compact=True)
        yield Static(id="sheets-said")

    def on_mount(self) -> None:
        """Stand on the form that most want; the usual sheets are marked."""
        self.query_one("#form", ChoiceList).put(FORMS, FORMS[0].value, several=False)
        self.query_one("#sheets", ChoiceList).put(SHEETS, ", ".join(USUAL), several=True)
        self._name_it()
        self.say("")
        form, sheets = self.query_one("#form", ChoiceList), self.query_one("#sheets", ChoiceList)
        form.moved = self._picked
        form.chosen = sheets.chosen = lambda _: self._entered()
        form.focus()

    def say(self, sentence: str) -> None:
        """What keeps it from being written, or that it is being written."""
        self.query_one("#sheets-said", Static).update(words(sentence))

    def _picked(self, _: str) -> None:
        self._name_it()
        self.query_one("#sheets").disabled = self.form not in WITH_SHEETS

    @on(Input.Submitted)
    def _entered(self) -> None:
        self.pressed("write")

    @on(Input.Changed)
    def _retyped(self) -> None:
        self._let_go()

    @property
    def form(self) -> Format:
        """The form in hand."""
        text = self.query_one("#form", ChoiceList).text()
        return next(each for each in get_args(Format) if each == text)

    def order(self) -> Order | str:
        """What to write, or a sentence with what is missing."""
        marked = self.query_one("#sheets", ChoiceList).marked
        only = tuple(each for each in TITLES if each in marked) if self.form in WITH_SHEETS else None
        if only == ():
            return "No sheet is marked. Space marks one."
        if not self.to_file:
            return Order(self.form, only, None)
        name = self.query_one("#target", Input).value.strip()
        if not name:
            return f"The file needs a name. For example: {usual_target(self.project, self.form).name}"
        target = named_target(self.project, self.form, name)
        return target if isinstance(target, str) else Order(self.form, only, target)

    def pressed(self, button: str) -> None:
        """Write it; ask once more where another file would be replaced."""
        order = self.order() if button == "write" else None
        if order is None:
            self.answer(None)
        elif isinstance(order, str):
            self.say(order)
        elif first := self._to_be_sure(order.named):
            self.say(first)
        else:
            self.say("Writing…")
            self._work(order)

    def _to_be_sure(self, named: Target | None) -> str:
        """What to look at before it is written there; empty when it was looked at, or there is nothing."""
        if named is None:
            return ""
        if named.in_folder:
            self.query_one("#target", Input).value = str(named.path)
            return "That is a folder: the file goes into it, by this name."
        if named.there is None or self.may_replace == named.path:
            return ""
        self._may_replace(named.path)
        return f"{one_line(named.path.name)} is there already: {named.there.words}. Replace it?"

    @work(thread=True, exclusive=True)
    def _work(self, order: Order) -> None:
        trouble = self.write(order)
        self.app.call_from_thread(self._written, order, trouble)

    def _written(self, order: Order, trouble: str | None) -> None:
        if not self.is_attached:
            return
        if trouble is None:
            self.answer(order)
        else:
            self._let_go()
            self.say(with_capital(trouble))

    def _let_go(self) -> None:
        self._may_replace(None)

    def _may_replace(self, target: Path | None) -> None:
        self.may_replace = target
        relabel(self.query_one("#write", Button), words("Replace it" if target else self._verb))

    def _name_it(self) -> None:
        """The usual name of the form in hand, unless another was typed."""
        self.say("")
        if not self.to_file:
            return
        field = self.query_one("#target", Input)
        if field.value == self.named:
            self.named = field.value = usual_target(self.project, self.form).name
        self._let_go()
