"""A list that typing narrows: go to any place, do any action. What is chosen is the answer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar, Final

from msgspec import Struct
from msgspec.structs import replace
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from wizard.interview.job_state import PLACE, State, is_done, place_of
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.screens.actions import ACTIONS, Action, Context, action_string, actions_in
from wizard.screens.dialogs.base_dialogs import Dialog
from wizard.screens.glyphs import CHANGED, DONE, HERE, NOT_YET, TICKED
from wizard.screens.panes import CUTTING_PLAN, FULLNESS_STEPS
from wizard.screens.screen_text import plain
from wizard.screens.widgets.option_lists import LineList
from wizard.trade.plan_records import STAGES, Stage

NOTHING: Final = "Nothing here has those letters."
"""Stands in the list's place while no line has what was typed."""


class Entry(Struct, frozen=True):
    """One line to choose."""

    id: str
    group: str
    """Its heading."""
    mark: str
    """A sign in front; empty for none."""
    title: str
    said: str
    """What is said of it, behind its title."""

    @property
    def haystack(self) -> str:
        """What a search looks through."""
        return f"{self.group} {self.title} {self.said}".casefold()


class SearchDialog(Dialog[str | None]):
    """Gives the id of an entry, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move('cursor_up')", show=False),
        Binding("down", "move('cursor_down')", show=False),
        Binding("pageup", "move('page_up')", show=False),
        Binding("pagedown", "move('page_down')", show=False),
    ]
    LONG: ClassVar[dict[str, int]] = {"#entries": 100}
    AROUND: ClassVar[int] = 9

    def __init__(self, title: str, entries: tuple[Entry, ...], at: str, hint: str, take: str) -> None:
        super().__init__(title, None, {"take": take})
        self.entries, self.at, self.hint = entries, at, hint

    def inside(self) -> ComposeResult:
        """The search and the list."""
        yield Input(placeholder=self.hint, id="search")
        yield LineList(id="entries", markup=False)

    def on_mount(self) -> None:
        """The focus is in the search; the current place is selected in the list."""
        self._narrow("")
        self.query_one("#search").focus()

    @on(Input.Changed, "#search")
    def _searched(self, event: Input.Changed) -> None:
        event.stop()
        self._narrow(event.value)

    @on(Input.Submitted, "#search")
    @on(OptionList.OptionSelected, "#entries")
    def _entered(self, event: Input.Submitted | OptionList.OptionSelected) -> None:
        event.stop()
        self.pressed("take")

    def action_move(self, how: str) -> None:
        """The arrow keys move in the list while the focus is in the search."""
        getattr(self.query_one("#entries", OptionList), f"action_{how}")()

    def pressed(self, button: str) -> None:
        """The line in hand; None for closing. Where there is no line, one stays and types on."""
        line = self.query_one("#entries", OptionList).highlighted_option
        if button != "take":
            self.answer(None)
        elif line is not None:
            self.answer(line.id)
        else:
            self.query_one("#search").focus()

    def _narrow(self, search: str) -> None:
        asked = search.casefold().split()
        found = [each for each in self.entries if all(word in each.haystack for word in asked)]
        options = self.query_one("#entries", OptionList)
        options.set_options(_lines(found))
        ids = [each.id for each in options.options]
        best = _best(found, search) if asked else self.at
        first = next((number for number, each in enumerate(options.options) if not each.disabled), None)
        options.highlighted = ids.index(best) if best and best in ids else first
        options.scroll_to_highlight()


def _best(entries: list[Entry], search: str) -> str | None:
    """The entry whose title begins with what was typed, else one that has it somewhere; None for none."""
    asked = _bare(search)
    holding = [each for each in entries if asked in _bare(each.title)]
    holding.sort(key=lambda each: not _bare(each.title).startswith(asked))
    return holding[0].id if holding else None


def _bare(text: str) -> str:
    """As it is compared: in small letters, without the colon behind what it is about."""
    return " ".join(text.casefold().replace(":", "").split())


def _lines(entries: list[Entry]) -> Iterator[Option]:
    if not entries:
        yield Option(Content.styled(NOTHING, "$quiet"), disabled=True)
    group = ""
    for entry in entries:
        if entry.group != group:
            group = entry.group
            yield Option(Content.styled(plain(group), "bold $accent"), disabled=True)
        mark = f"{entry.mark} " if entry.mark else ""
        said = Content.styled(f"  {plain(entry.said)}" if entry.said else "", "$quiet")
        yield Option(Content.assemble(f"{mark}{plain(entry.title)}", said), id=entry.id)


def more_dialog(context: Context, *inside: Context, table: tuple[Action, ...] = ACTIONS) -> SearchDialog:
    """The dialog that gives the action to do; first what can be done `inside` the room where one is."""
    first = [each for each in table if each.context in inside]
    actions = [*first, *(each for each in actions_in(context, table) if each.id != "more")]
    entries = tuple(
        Entry(action_string(each), "", "", f"{each.words:<17}{each.shown:<10}", each.says) for each in actions
    )
    return SearchDialog("What can be done here", entries, "", "type to narrow: undo, template…", "Do it")


MARKS: Final[dict[State, str]] = {"answered": DONE, "usual": "·", "missing": NOT_YET, "skipped": " "}


def go_to_dialog(session: Session, at: str) -> SearchDialog:
    """The dialog that gives the place to go to, standing on `at`."""
    upset = session.upset_places
    entries = tuple(_upset(each) if each.id in upset else each for stage in STAGES for each in _entries(stage, session))
    hint = "type to narrow: again, drop, missing…" if upset else "type to narrow: drop, missing, lining…"
    return SearchDialog("Go to", entries, at, hint, "Go there")


def _entries(stage: Stage, session: Session) -> Iterator[Entry]:
    for question in session.questions:
        if question.stage == stage:
            yield _question(question, session)
    if stage == "Fullness":
        yield Entry(FULLNESS_STEPS, stage, HERE, "The fullness steps", "")
    if stage == "Cutting":
        yield Entry(CUTTING_PLAN, stage, HERE, "The cutting plan", "")
    for step in session.plan.work:
        if step.stage == stage:
            done = is_done(session.project, step.id)
            yield Entry(place_of(step), stage, TICKED if done else NOT_YET, step.title, "ticked" if done else "")


def _upset(entry: Entry) -> Entry:
    """The same, marked as what an answer given elsewhere upset."""
    why = "changed since you ticked it" if entry.id.startswith(PLACE) else "asked now"
    return replace(entry, mark=CHANGED, said=f"to look at again: {why}, {entry.said}")


def _question(question: Question, session: Session) -> Entry:
    state = session.state(question.key)
    said = {
        "answered": session.text(question.key),
        "usual": f"{question.usual} (usual)",
        "missing": "missing",
        "skipped": "left empty",
    }[state]
    return Entry(question.key, question.stage, MARKS[state], question.title, said)
