"""What every part of the job screen shares: the session, the widgets around it, and what is shown."""

from __future__ import annotations

import gc
import shlex
from collections.abc import Callable, Iterator
from contextlib import suppress
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, Final, Literal, Self

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical
from textual.css.query import NoMatches
from textual.errors import NoWidget
from textual.widget import Widget
from textual.worker import get_current_worker

from wizard.interview.job_state import is_done, times
from wizard.interview.outcome import Refused
from wizard.interview.session import Session
from wizard.interview.step_timer import StepTimer
from wizard.render.figure_text import counted
from wizard.screens.actions import bindings
from wizard.screens.base_screen import FullScreen
from wizard.screens.figure_words import known_words
from wizard.screens.panes import PANES, Aside, Pane, View, pane_of
from wizard.screens.panes.question_pane import QuestionPane
from wizard.screens.panes.side_panel import Row, SidePanel, anything_known, rows
from wizard.screens.panes.work_words import Kept
from wizard.screens.screen_text import one_line
from wizard.screens.widgets.footer import ActionFooter
from wizard.screens.widgets.header import Heading, StageBar
from wizard.trade.plan_records import Finding, Plan, Stage, Step

if TYPE_CHECKING:
    from wizard.screens.panes.work_pane import WorkPane


SELDOM: Final = 8
"""Collections of the youngest generation for one of the next; and as many of that one for a full collection."""

_turns = count(1)


def collect_garbage() -> None:
    """Clear away what showing an answer left behind: some milliseconds' worth, before the next key comes.

    Left to itself the interpreter does it in the middle of some tenth answer, for a tenth of a second.
    """
    turn = next(_turns)
    gc.collect(2 if turn % SELDOM**2 == 0 else 1 if turn % SELDOM == 0 else 0)


STAGE_OF: dict[View, Stage] = {"cutting": "Cutting", "roll": "Cutting", "fullness": "Fullness"}
"""The stage of what is neither a question nor a step."""

REMARK = 30
"""Seconds that a remark on the file stays: it is given once."""
SOON = 0.5
"""Seconds after which what was typed is kept beside the project: longer than a key takes, shorter than a thought."""

Ending = Literal["list", "leave"]
"""What the app does when the screen is done."""


class JobBase(FullScreen[Ending]):
    """The widgets of one job, shown as the session has it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("job"),
        Binding("pagedown", "scroll_text(1)", show=False),
        Binding("pageup", "scroll_text(-1)", show=False),
    ]

    def __init__(self, session: Session, path: Path) -> None:
        super().__init__()
        self.session = session
        self.path = path
        self.cutting = False
        """True while the cutting plan is shown over the current question or step."""
        self.glancing = False
        """True when the cutting plan was opened by its key: Back leads to the question or step."""
        self.aside: Aside | None = None
        """What else is shown over the current question or step."""
        self.timing = StepTimer(session, session.now)
        self.held: str | None = None
        """Key whose answer raised a finding that is being shown: the next Next goes on."""
        self._keeping = False
        """True while what is typed waits to be kept."""
        self.changed: tuple[str, ...] = ()
        self.was: dict[str, str] = {}

    def anew(self) -> Self:
        """Another screen of the same job, at the same place."""
        screen = type(self)(self.session, self.path)
        screen.timing = self.timing
        return screen

    def inside(self) -> ComposeResult:
        """Top, middle, foot."""
        yield Heading(id="heading")
        yield StageBar(id="stages")
        with HorizontalGroup(id="middle"):
            with Vertical(id="body"):
                for each in dict.fromkeys(("question", *self.needed)):
                    # Its styles are then worked once.
                    yield pane_of(each).set_class(each in self.needed, "-shown")
            yield SidePanel(id="so-far")
        yield ActionFooter("job")

    @property
    def view(self) -> View:
        """What is looked at."""
        if self.aside:
            return self.aside
        if self.cutting:
            return "cutting"
        return "question" if self.session.current() is not None else "work"

    @property
    def needed(self) -> tuple[Pane, ...]:
        """What has to be there to show what is looked at. A pane is put up when it is first looked at."""
        return (self.view,)

    @property
    def pane(self) -> QuestionPane:
        """The pane that asks."""
        return self.query_one(QuestionPane)

    @property
    def work(self) -> WorkPane:
        """The pane of the checklist."""
        from wizard.screens.panes.work_pane import WorkPane

        return self.query_one(WorkPane)

    def show(self) -> None:
        """Show everything as the session has it; the focus goes to the answer."""
        # The toolkit tells a pane its size only where it was not on its map before: that map has to be of before.
        with suppress(NoWidget):
            self.find_widget(self.query_one("#body"))
        there, wanted = self._panes(), {PANES[each] for each in self.needed}
        if not wanted <= there.keys():
            self._put_up()
            return
        for id, pane in there.items():
            pane.set_class(id in wanted, "-shown")
        {
            "question": self._show_question,
            "cutting": self.show_cutting,
            "work": self.show_work,
            "fullness": self.show_fullness,
            "roll": self.show_roll,
        }[self.view]()
        # What is asked is seen first; what follows from the answer comes a frame later.
        self.call_after_refresh(self._show_around_if_there)

    def _panes(self) -> dict[str | None, Widget]:
        """What has been put up so far, by id."""
        return {each.id: each for each in self.query_one("#body").children}

    def _put_up(self) -> None:
        """Put up what is not there yet, then show it."""
        if not self.coming:
            self.coming = True
            self.call_next(self._putting_up)

    async def _putting_up(self) -> None:
        missing = [each for each in self.needed if PANES[each] not in self._panes()]
        await self.query_one("#body").mount_all(pane_of(each).add_class("-shown") for each in missing)
        self.coming = False
        self.show()

    def _show_around_if_there(self) -> None:
        self._tell_if_there(self.show_around)
        self.call_after_refresh(collect_garbage)

    def show_around(self) -> None:
        """Show what is around the pane."""
        self.query_one(Heading).tell(self.session.project.name or "No name yet", self._state())
        here = STAGE_OF[self.view] if self.view in STAGE_OF else self.session.stage()
        self.query_one(StageBar).tell(self.session.stages, here)
        for each in self.session.file.remarks():
            self.notify(each, markup=False, severity="warning", timeout=REMARK)
        rows = self.rows()
        self.query_one(SidePanel).tell(rows)
        self.query_one(SidePanel).set_class(self.view == "question" and anything_known(rows), "-shown")
        self.query_one(ActionFooter).count("findings", len(self.open_findings()))

    def rows(self) -> tuple[Row, ...]:
        """The plan so far."""
        return rows(self.session.plan, self.changed, self.was)

    def open_findings(self) -> tuple[Finding, ...]:
        """Findings that were not kept."""
        return tuple(each for each in self.session.plan.findings if not each.kept)

    def note_changes(self, before: Plan, changed: tuple[str, ...]) -> None:
        """Mark what the last answer changed, beside what it was."""
        self.changed = changed
        self.was = known_words(changed, before)

    def tell(self, text: str) -> None:
        """Say something in passing, in place of what was said before."""
        self.hush()
        self.notify(text, markup=False)

    def hush(self) -> None:
        """Remove the notifications: they no longer hold."""
        self.app.clear_notifications()

    def leaving(self) -> str:
        """What leaving now would leave behind."""
        self.session.keep_pending()
        left = self.session.pending.left(self.session.at)
        lost = f"\n\n{left}" if left else ""
        conflict = self.session.file.conflict
        if conflict:
            return f"Not saved: {conflict.sentence}\n\nWhat was saved before is in {self.path}.{lost}"
        return f"Every answer taken is saved in {self.path}.{lost}"

    def close_job(self) -> str:
        """Keep the place, and the minutes of a step that is timed; says where the job is, or what was not saved."""
        self.timing.end()
        self.session.leave()
        path, conflict = one_line(str(self.path)), self.session.file.conflict
        go_on = f"To go on: railskirt {one_line(shlex.quote(str(self.path)))}"
        if conflict is None:
            return f"Saved in {path}. {go_on}"
        lost = f"Not saved: {one_line(conflict.sentence)}"
        # The list prints nothing at the end, and may come next.
        self.tell(lost)
        return f"{lost}\nWhat was saved before is in {path}. {go_on}"

    def keep_soon(self) -> None:
        """Have what is typed outlast the program, whatever ends it: not at every key, but at most SOON after it."""
        if not self._keeping:
            self._keeping = True
            self.set_timer(SOON, self._keep_typed)

    def _keep_typed(self) -> None:
        self._keeping = False
        self.session.keep_pending()

    def on_unmount(self) -> None:
        """However the screen ends, what is typed is kept."""
        self.session.keep_pending()

    def from_thread(self, group: str, found: Iterator[Callable[[], object]]) -> None:
        """Work `found` out in a thread, in place of what that group is still at, and do here what each item says."""

        def work() -> None:
            worker = get_current_worker()
            for tell in found:
                if worker.is_cancelled:
                    return
                self.app.call_from_thread(self._tell_if_there, tell)

        self.run_worker(work, thread=True, exclusive=True, group=group)

    def _tell_if_there(self, tell: Callable[[], object]) -> None:
        # A screen that is left loses its widgets one by one, and this may come in between.
        with suppress(NoMatches):
            tell()

    def show_cutting(self) -> None:
        """The cutting plan."""
        raise NotImplementedError

    def show_roll(self) -> None:
        """The roll to scale."""
        raise NotImplementedError

    def show_fullness(self) -> None:
        """The chart of the fullness steps."""
        raise NotImplementedError

    def prefetch(self, text: str) -> None:
        """Work out beside the screen what `text` as the answer would lead to."""
        raise NotImplementedError

    def show_beside(self) -> None:
        """What goes with the question in hand."""
        raise NotImplementedError

    @property
    def in_sight(self) -> Plan:
        """The plan whose figures are shown."""
        return self.session.plan

    def show_work(self) -> None:
        """The checklist, standing on the step in hand."""
        work, project = self.work, self.session.project
        ticked = {each.id: self.when(each.id) or "" for each in self.session.plan.work if is_done(project, each.id)}
        step = self.session.current_step()
        stale = frozenset(self.session.stale())
        work.tell(self.session.plan.work, ticked, stale, step.id if step else "", times(project, self.session.plan))
        if step is not None:
            work.tell_step(step, self.kept(step))
        work.take_focus()

    def kept(self, step: Step) -> Kept:
        """What file and clock know of a step."""
        table = self.session.project.work.get(step.id)
        return Kept(
            done=self.when(step.id),
            note=table.note if table else None,
            taken=self.timing.taken(step.id),
            runs=self.timing.step == step.id,
            changed=self.session.changed_since(step.id),
        )

    def when(self, step_id: str) -> str | None:
        """When a step was ticked, in words; None when it is not."""
        kept = self.session.project.work.get(step_id)
        return f"{kept.done.astimezone():%d %B %Y, %H:%M}" if kept and kept.done else None

    def _show_question(self) -> None:
        question = self.session.current()
        if question is None:
            return
        self.pane.ask(question, self.session.text(question.key), self.session.plan)
        pending, key = self.session.pending, question.key
        stands = self.session.state(key) == "answered" and key not in pending
        whole = key in pending.offered and not isinstance(self.session.echo(key, pending[key]), Refused)
        if (stands and question.kind != "text") or whole:
            # One comes back to a reading or a choice to give another one; a name is rather added to, and so is a
            # reading that was half typed. A reading taken again after a week must not be written behind a whole one.
            self.pane.box.mark_all()
        self.show_beside()
        self.pane.box.take_focus()
        self.prefetch(self.pane.box.text())

    def _state(self) -> tuple[str, ...]:
        """Whether it is saved, and what is left to do: all of it first, then less and less."""
        upset, saved, left = len(self.session.upset_places), self.session.file.saved_at, self._left()
        again = (f"{upset} to look at again",) if upset else ()
        first = ("NOT SAVED",) if self.session.file.conflict else ()
        when = (f"saved {saved.astimezone():%H:%M}",) if saved and not first else ()
        shorter = ((*first, *again),) if again else ()
        return tuple(" · ".join(each) for each in ((*first, *when, left, *again), (*first, left, *again), *shorter))

    def _left(self) -> str:
        """What is left to do: answers first, then steps."""
        answers, work = len(self.session.missing()), self.session.plan.work
        steps = sum(not is_done(self.session.project, each.id) for each in work)
        if answers or not work:
            return f"{counted(answers, 'answer')} to go" if answers else "nothing missing"
        return f"{counted(steps, 'step')} to go" if steps else "every step is ticked"
