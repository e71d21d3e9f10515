"""Writing the sheets: which, in what form, into which file."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import ClassVar

from msgspec import Struct
from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard.render.sheet_files import FORM_WORDS, Target, named_target, usual_target
from wizard.render.sheet_names import TITLES, USUAL, WITH_SHEETS, Format, SheetId
from wizard.screens.actions import quiet_keys
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs.base_dialogs import ConfirmDialog, Dialog
from wizard.screens.option_lists import Hanging, LineList, PickList
from wizard.screens.screen_text import one_line, words
from wizard.trade.field_names import first_up


class Order(Struct, frozen=True):
    """What to write, and where."""

    form: Format
    only: tuple[SheetId, ...] | None
    """None for the forms that are always whole."""
    named: Target | None
    """None where it goes to the person's own device."""


class TickList(LineList):
    """Lines to tick: Space or a click ticks or unticks one, Enter takes the dialog's answer."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys("space=select enter=screen.write")

    def __init__(self, id: str, titles: Mapping[SheetId, str], ticked: Collection[SheetId]) -> None:
        super().__init__(id=id, markup=False)
        self.titles, self.ticked = titles, set(ticked)
        self.add_options(Option(self._line(each)) for each in titles)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Tick or untick it."""
        event.stop()
        sheet = list(self.titles)[event.option_index]
        self.ticked ^= {sheet}
        self.replace_option_prompt_at_index(event.option_index, self._line(sheet))

    def _line(self, sheet: SheetId) -> Hanging:
        return Hanging(words(f"{'[x]' if sheet in self.ticked else '[ ]'} {self.titles[sheet]}"), 4)


class SheetsDialog(Dialog[Order | None]):
    """Gives what was written, or None. `write` gives the sentence that says why it could not be written."""

    LONG: ClassVar[dict[str, int]] = {"#which": 100}
    AROUND: ClassVar[int] = 13

    def __init__(self, project: Path, write: Callable[[Order], str | None], *, to_file: bool = True) -> None:
        super().__init__("Sheets", None, {"write": "Write" if to_file else "Download"}, "Cancel")
        self.project, self.write, self.to_file = project, write, to_file
        self.forms = PickList([*FORM_WORDS.values()], "form")
        self.sheets, self.target = TickList("sheets", TITLES, USUAL), Input(id="target", compact=True)
        self.named = ""
        """The name this dialog put into the field; another one was typed."""

    def inside(self) -> ComposeResult:
        """Forms and sheets beside each other, the file under them."""
        with HorizontalGroup(id="which"):
            yield from (self.forms, self.sheets)
        if self.to_file:
            yield self.target
        yield Static(id="sheets-said")

    def on_mount(self) -> None:
        """Select the form that most people need."""
        self.forms.highlighted = self.sheets.highlighted = 0
        self.forms.focus()

    def say(self, sentence: str) -> None:
        """What keeps it from being written, or that it is being written."""
        self.query_one("#sheets-said", Static).update(words(sentence))

    @on(OptionList.OptionHighlighted, "#form")
    def _picked(self, event: OptionList.OptionHighlighted) -> None:
        """The usual name for the selected form, unless another was typed."""
        event.stop()
        self.say("")
        self.sheets.disabled = self.form not in WITH_SHEETS
        if self.target.value == self.named:
            self.named = self.target.value = usual_target(self.project, self.form).name

    @on(OptionList.OptionSelected, "#form")
    @on(Input.Submitted)
    def action_write(self) -> None:
        """Write it; ask once more where another file would be replaced."""
        order = self.order()
        named = order.named if isinstance(order, Order) else None
        if isinstance(order, str):
            self.say(order)
        elif named is not None and named.in_folder:
            self.target.value = str(named.path)
            self.say("That is a folder. The file goes into it under this name.")
        elif named is not None and named.there is not None:
            there = f"{one_line(named.path.name)} is there already: {named.there.words}."
            ask = ConfirmDialog("Replace it?", there, "Replace it", "Cancel")
            open_screen(self, ask, lambda replace: self._begin(order) if replace else None)
        else:
            self._begin(order)

    @property
    def form(self) -> Format:
        """The selected form."""
        return list(FORM_WORDS)[self.forms.highlighted or 0]

    def order(self) -> Order | str:
        """What to write, or a sentence with what is missing."""
        only = tuple(each for each in TITLES if each in self.sheets.ticked) if self.form in WITH_SHEETS else None
        if only == ():
            return "No sheet is ticked. Space ticks one."
        if not self.to_file:
            return Order(self.form, only, None)
        name = self.target.value.strip()
        if not name:
            return f"The file needs a name. For example: {usual_target(self.project, self.form).name}"
        target = named_target(self.project, self.form, name)
        return target if isinstance(target, str) else Order(self.form, only, target)

    def _begin(self, order: Order) -> None:
        self.say("Writing…")
        self._work(order)

    @work(thread=True, exclusive=True)
    def _work(self, order: Order) -> None:
        self.app.call_from_thread(self._written, order, self.write(order))

    def _written(self, order: Order, trouble: str | None) -> None:
        if self.is_attached and trouble is None:
            self.answer(order)
        elif self.is_attached:
            self.say(first_up(trouble or ""))
