"""A list that typing narrows: go to any place, do any action. What is chosen is the answer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from typing import ClassVar, Final

from msgspec import Struct
from msgspec.structs import replace
from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from wizard.interview.job_state import PLACE, STATE_WORDS, State, is_done, place_of
from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.screens.actions import ACTIONS, Action, Context, action_string, actions_in
from wizard.screens.dialogs.base_dialogs import ListDialog
from wizard.screens.option_lists import Hanging, LineList
from wizard.screens.panes import CUTTING_PLAN
from wizard.screens.screen_text import BEGUN, CHANGED, DONE, HERE, NOT_YET, TICKED, plain
from wizard.trade.plan_records import Step

NOTHING: Final = "Nothing matches."
"""Shown while no line has what was typed."""
NOT_YET_ASKED: Final = f"{NOTHING} Sides, posts, the pattern and inner layers get pages once an answer needs them."
"""The same where more lines may come."""


class Entry(Struct, frozen=True):
    """One line to choose."""

    id: str
    group: str
    """Its heading."""
    mark: str
    """A sign or a key in front; empty for none."""
    title: str
    said: str
    """What is said of it, behind its title."""

    def has(self, search: str) -> bool:
        """True when it has every word of a search."""
        return all(
            each in f"{self.group} {self.mark} {self.title} {self.said}".casefold()
            for each in search.casefold().split()
        )

    def rank(self, search: str) -> int:
        """How well its title answers a search, best first: it begins with it, has it somewhere, has its words in that
        order from the first one on, or not."""
        asked, title = (" ".join(each.casefold().replace(":", "").split()) for each in (search, self.title))
        in_order = re.match(".*".join(map(re.escape, asked.split())), title)
        return 0 if title.startswith(asked) else 1 if asked in title else 2 if in_order else 3


class SearchDialog(ListDialog[str | None]):
    """Gives the id of an entry, or None."""

    LONG: ClassVar[dict[str, int]] = {"#entries": 100}
    AROUND: ClassVar[int] = 9

    def __init__(
        self, title: str, entries: tuple[Entry, ...], at: str, hint: str, take: str, nothing: str = NOTHING
    ) -> None:
        super().__init__(title, None, {"take": take})
        self.entries, self.at, self.hint, self.nothing = entries, at, hint, nothing
        self.lines = LineList(id="entries", markup=False)

    def inside(self) -> ComposeResult:
        """The search and the list."""
        yield Input(placeholder=self.hint, id="search")
        yield self.lines

    def on_mount(self) -> None:
        """The focus is in the search; the current place is selected in the list."""
        self._narrow("")
        self.query_one("#search").focus()
        # Where a line is, is known once the list has its size.
        self.call_after_refresh(self.lines.scroll_to_highlight)

    @on(Input.Changed, "#search")
    def _searched(self, event: Input.Changed) -> None:
        event.stop()
        self._narrow(event.value)

    @on(Input.Submitted, "#search")
    @on(OptionList.OptionSelected, "#entries")
    def action_take(self) -> None:
        """The selected line. Where there is none, the dialog stays open."""
        if line := self.lines.highlighted_option:
            self.answer(line.id)
        else:
            self.query_one("#search").focus()

    def _narrow(self, search: str) -> None:
        found = [each for each in self.entries if each.has(search)]
        best = min(found, key=lambda each: each.rank(search)).id if search.strip() and found else self.at
        none = Option(Content.styled(self.nothing, "$quiet"), disabled=True)
        self.lines.set_options([*_lines(found)] or [none])
        enabled = [number for number, each in enumerate(self.lines.options) if not each.disabled]
        wanted = (number for number in enabled if self.lines.options[number].id == best)
        self.lines.highlighted = next(wanted, enabled[0] if enabled else None)
        self.lines.scroll_to_highlight()


def _lines(entries: list[Entry]) -> Iterator[Option]:
    for group, own in groupby(entries, key=lambda each: each.group):
        if group:
            yield Option(Content.styled(plain(group), "bold $accent"), disabled=True)
        for each in own:
            mark, said = f"{each.mark} " if each.mark else "", f"  {plain(each.said)}" if each.said else ""
            text = Content.assemble(f"{mark}{plain(each.title)}", (said, "$quiet"))
            yield Option(Hanging(text, 4, apart=len(each.mark) > 1), id=each.id)


KEY: Final = 9
"""Columns of the key of an action; a blank more, and the rest of its line hangs under itself."""


def menu_dialog(context: Context, *inside: Context, table: tuple[Action, ...] = ACTIONS) -> SearchDialog:
    """The dialog that gives the action to do; first what can be done `inside` the current view."""
    first = [each for each in table if each.context in inside]
    actions = [*first, *(each for each in actions_in(context, table) if each.id != "menu")]
    entries = tuple(Entry(action_string(each), "", f"{each.shown:<{KEY}}", each.words, each.says) for each in actions)
    return SearchDialog("Menu: what can be done here", entries, "", "type to filter: undo, template…", "Do it")


MARKS: Final[dict[State, str]] = {"answered": DONE, "usual": "·", "missing": NOT_YET, "skipped": " ", "later": BEGUN}


def go_to_dialog(session: Session, at: str) -> SearchDialog:
    """The dialog that gives the place to go to, with `at` selected: each page with all its fields, then the work."""
    upset = session.upset_places
    pages = [_field(each, session) for page in session.pages for each in _by_title(page)]
    plan = Entry(CUTTING_PLAN, "Cutting", HERE, "The cutting plan", "")
    steps = [_step(each, done=is_done(session.project, each.id)) for each in session.steps]
    marked = tuple(_upset(each) if each.id in upset else each for each in (*pages, plan, *steps))
    hint = "type to filter: again, drop, missing…" if upset else "type to filter: drop, missing, lining…"
    return SearchDialog("Go to", marked, at, hint, "Go there", NOT_YET_ASKED)


def _step(step: Step, *, done: bool) -> Entry:
    return Entry(place_of(step), step.stage, TICKED if done else NOT_YET, step.title, "ticked" if done else "")


def _by_title(page: Page) -> list[Question]:
    """Everything on a page, by the pages that it is made of."""
    titles = [each.group for each in page.questions]
    return sorted(page.questions, key=lambda each: titles.index(each.group))


def _upset(entry: Entry) -> Entry:
    """The same, marked as what an answer given elsewhere upset."""
    why = "changed since you ticked it" if entry.id.startswith(PLACE) else "asked now"
    return replace(entry, mark=CHANGED, said=f"check again: {why}, {entry.said}")


def _field(question: Question, session: Session) -> Entry:
    state, adds = session.state(question.key), question.kind == "add"
    said = {"answered": session.text(question.key), "usual": f"{question.usual} (usual)"}.get(state, STATE_WORDS[state])
    if adds:
        state, said = "skipped", ""
    return Entry(question.key, question.group, MARKS[state], question.title, said)
