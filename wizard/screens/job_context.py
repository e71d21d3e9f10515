"""What every controller of the job screen may use: the session, what is looked at, and a way to say something."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Final, TypeVar

from textual.app import App
from textual.css.query import NoMatches
from textual.screen import Screen
from textual.worker import get_current_worker

from wizard.interview.outcome import Conflict, changed_figures
from wizard.interview.session import Session
from wizard.project.problems import Problems
from wizard.render.plan_rows import Row, known_words, rows
from wizard.screens.actions import actions_of
from wizard.screens.dialog_host import open_screen
from wizard.screens.dialogs.base_dialogs import ConflictDialog, InputDialog, MessageDialog
from wizard.screens.panes import Aside, View
from wizard.trade.plan_records import Plan

T = TypeVar("T")

SOON: Final = 0.5
"""Seconds after which what was typed is kept beside the project: longer than a key takes, shorter than a thought."""

Show = Callable[[], None]


class JobContext:
    """The job in hand. The controllers share nothing else."""

    def __init__(
        self, session: Session, path: Path, screen: Screen[Any], show: Show, show_around: Show, renew: Show
    ) -> None:
        """`show`: everything as the session has it; `show_around`: what is around the pane; `renew`: the figures of a
        better plan, where nothing moves."""
        self.session, self.path, self._screen = session, path, screen
        self.show, self.show_around, self.renew = show, show_around, renew
        self.over: list[Aside] = []
        """What is shown over the page or step in hand, the last on top."""
        self.large = False
        """True while large figures are on."""
        self.changed: tuple[str, ...] = ()
        """Figures that the last answer changed."""
        self.was: dict[str, str] = {}
        """Their words before it."""
        self.tried: Plan | None = None
        """The plan as it would be with a choice that is lit and not taken yet."""
        self.arrived: Callable[[], object] = lambda: None
        """Told before another place is shown, or after answers were changed elsewhere."""
        self._keeping = False

    @property
    def view(self) -> View:
        """What is looked at."""
        if self.over:
            return self.over[-1]
        return "work" if self.session.page() is None else "page"

    @property
    def app(self) -> App[Any]:
        """The app that the screen belongs to."""
        return self._screen.app

    @property
    def in_sight(self) -> Plan:
        """The plan whose figures are shown: the one being tried, else the present one."""
        return self.tried or self.session.plan

    def rows(self) -> tuple[Row, ...]:
        """The plan so far; of one being tried, what it would change is marked."""
        now, tried = self.session.plan, self.tried
        if tried is None or tried is now:
            return rows(now, self.changed, self.was)
        changed = changed_figures(now, tried)
        return rows(tried, changed, known_words(changed, now))

    def look_at(self, view: Aside) -> None:
        """Show something over the page or step in hand."""
        if view in self.over:
            del self.over[self.over.index(view) :]
        self.over.append(view)
        self.show()

    def close_view(self) -> None:
        """Back to what is under it."""
        self.tried = None
        self.over.pop()
        self.show()

    def go(self, place: str | None) -> bool:
        """Go to a question or step, and look at it. False, with a word about it, where there is no such place."""
        self.over.clear()
        self.arrived()
        found = place is None or self.session.go(place)
        if not found:
            self.tell("This job does not ask that.")
        self.show()
        return found

    def tell(self, text: str) -> None:
        """Say something in passing, in place of what was said before."""
        self.hush()
        self._screen.notify(text, markup=False)

    def hush(self) -> None:
        """Remove what was said: it no longer holds."""
        self.app.clear_notifications()

    def key(self, action: str) -> str:
        """The key of an action, as printed on keyboards."""
        return next(each.shown for each in actions_of(self.app) if each.id == action)

    def open(self, dialog: Screen[T], answered: Callable[[T], object] | None = None) -> None:
        """Open a dialog; `answered` is told its answer."""
        open_screen(self._screen, dialog, answered)

    def ask(self, title: str, sentence: str, value: str, take: str, typed: Callable[[str], object]) -> None:
        """Ask for a line of text; `typed` is told it, unless that was cancelled."""
        self.open(InputDialog(title, sentence, value, take), lambda text: None if text is None else typed(text))

    def note_changes(self, before: Plan, changed: tuple[str, ...]) -> None:
        """Mark what the last answer changed, beside what it was."""
        self.changed, self.was = changed, known_words(changed, before)

    def change(self, change: Callable[[], Conflict | None]) -> bool:
        """Make a change. False where it could not be saved, which is asked about."""
        before = self.session.plan
        if self.met(change()):
            return False
        self.note_changes(before, changed_figures(before, self.session.plan))
        return True

    def do(self, change: Callable[[], Conflict | None], said: str) -> None:
        """Make a change, show the job with it and say so."""
        if self.change(change):
            self.go(None)
            self.tell(said)

    def shown(self, conflict: Conflict | None) -> bool:
        """Show the job with a change. False where that could not be saved, which is asked about."""
        if self.met(conflict):
            return False
        self.show()
        return True

    def met(self, conflict: Conflict | None) -> bool:
        """True when a change could not be saved; it is asked about."""
        if conflict is None:
            return False
        self.show_around()
        self.open(ConflictDialog(conflict), self._settle)
        return True

    def _settle(self, whose: str | None) -> None:
        if whose == "mine":
            kept = None if self.met(self.session.overwrite()) else self.session.file.kept
            if kept is not None:
                self.tell(f"Saved. What was there is kept as {kept.name}.")
        elif whose == "theirs":
            problems = self.session.reload()
            if isinstance(problems, Problems):
                self.open(MessageDialog("The file cannot be read", "\n".join(problems.lines)))
        self.show()

    def keep_soon(self) -> None:
        """Have what is typed outlast the program, whatever ends it: not at every key, but at most SOON after it."""
        if not self._keeping:
            self._keeping = True
            self._screen.set_timer(SOON, self._keep_typed)

    def _keep_typed(self) -> None:
        self._keeping = False
        self.session.keep_pending()

    def from_thread(self, group: str, found: Iterator[Callable[[], object]]) -> None:
        """Work `found` out in a thread, in place of what that group is still at, and do here what each item says."""

        def work() -> None:
            worker = get_current_worker()
            for tell in found:
                if worker.is_cancelled:
                    return
                self.app.call_from_thread(if_there, tell)

        self._screen.run_worker(work, thread=True, exclusive=True, group=group)


def if_there(tell: Callable[[], object]) -> None:
    """Do it, unless the screen is being left: it loses its widgets one by one, and this may come in between."""
    with suppress(NoMatches):
        tell()
