"""A session with one job: its answers, moves, finished steps and file, and the history for undo."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.interview import progress
from wizard.interview.answer_text import differing, measures
from wizard.interview.file_state import Clock, FileState, Pending, text_at
from wizard.interview.job_state import (
    PLACE,
    JobState,
    State,
    as_ticked,
    is_answered,
    landing,
    leads_to,
    missing,
    neighbour,
    placed,
    state_of,
    work_out,
)
from wizard.interview.outcome import (
    Accepted,
    Conflict,
    PendingReview,
    Refused,
    Upset,
    changed_figures,
    kept,
    new_findings,
    rests_on,
    upset_by,
)
from wizard.interview.page import Page, Position
from wizard.interview.pages.bed_pages import ACROSS
from wizard.interview.progress import ChangedSince, since
from wizard.interview.question import Question
from wizard.interview.read_answer import Entries, answer_at, postponed, read_answer, removable, taken_out
from wizard.project.finished_steps import ticked, unticked
from wizard.project.parse.length_text import waits
from wizard.project.plan_of_project import plan_of
from wizard.project.problems import Problems
from wizard.project.project import Project, Unfit, put_many
from wizard.project.store import Store
from wizard.trade.plan_records import STAGES, ChangedStep, Plan, Stage, Step
from wizard.trade.sections import section_name

ROUNDS: Final = 3
"""Most times that a page is read again for questions which its own answers brought up."""
MOST_KEPT: Final = 1000
"""Most changes that undo can take back, so that a long session does not keep growing."""


class Moment(Struct, frozen=True):
    """An earlier project, and the place to show with it."""

    project: Project
    at: str


class Session:
    """A session with one job. Make one with `begin` or `resume`."""

    def __init__(
        self, store: Store, project: Project, clock: Clock, *, comments: bool = False, news: ChangedSince | None = None
    ) -> None:
        self._since = news or ChangedSince()
        self.file = FileState(store, clock, comments=comments)
        """What is saved, what is not, and why."""
        self.now = clock
        """The time by the clock of this session."""
        self._before, self._after = list[Moment](), list[Moment]()
        """The states before this one, and those undone; newest last."""
        self._following: str | None = None
        self._state = as_ticked(work_out(project))
        self._foreseen: tuple[JobState, str, str, JobState] | None = None
        """A state, a key, a text typed there, and the state it would lead to."""
        self._pages = len(self._state.pages)
        self.pending = Pending(store)
        """Text that was typed and is not an answer yet, by key. Never in the file."""
        self._upset = Upset()
        """The effects of the last change on answers, figures and steps elsewhere."""
        self.turned: tuple[str, ...] = ()
        """Keys of what `undo` or `redo` changed last."""
        self.at = progress.where_stopped(self._state)
        """The current place: the key of a question, or `work.STEP`."""
        self._review = PendingReview()
        self._review.look(self.at, self._state)

    @classmethod
    def begin(cls, store: Store, project: Project, clock: Clock) -> Session | Conflict:
        """A new job, its file written at once."""
        session = cls(store, project, clock)
        conflict = session.file.save(project, session.at)
        if conflict is None:
            # Text typed into an earlier job of this name does not belong to this one.
            session.keep_pending()
        return conflict or session

    @classmethod
    def resume(cls, store: Store, clock: Clock) -> Session | Problems:
        """The job in the store's file, where the work stopped, with what was typed and not entered. Writes nothing."""
        opened = store.open()
        if isinstance(opened, Problems):
            return opened
        session = cls(store, opened.project, clock, comments=opened.has_comments, news=since(store, opened))
        session._stand_at(session.pending.offer(session._state) or session.at)
        return session

    # The present state.

    @property
    def project(self) -> Project:
        return self._state.project

    @property
    def plan(self) -> Plan:
        return self._state.plan

    def take(self, plan: Plan) -> bool:
        """Replace the plan by a better one of the same job; False when the job has changed."""
        if plan.job != self.plan.job:
            return False
        old, self._state = self._state, work_out(self.project, replace(self._state, plan=plan))
        # A better plan may not have the current step.
        self.at = landing(old.places, self._state.places, self._state.skip, self.at)
        return True

    @property
    def questions(self) -> tuple[Question, ...]:
        """Every question that applies, quiet ones too, in the order of asking."""
        return self._state.questions

    @property
    def pages(self) -> tuple[Page, ...]:
        """Every page that no answer has ruled out, in order; those not `shown` are only counted."""
        return self._state.pages

    def page(self) -> Page | None:
        """The current page; None at a step of the work."""
        return self._state.page_at(self.at)

    def position(self) -> Position:
        """How far the interview is: which of the pages shown, of all that may be. The number of pages rises only where
        the maker added something, took something out, or took a change back."""
        of, shown = self._pages, [each for each in self.pages if each.shown]
        number = sum(each.shown for each in self.pages[: self._state.number(self.at)])
        # Behind the last answer, what may stay empty was not passed yet.
        last = max((at for at, page in enumerate(shown) if self._state.passed(page)), default=-1)
        return Position(min(number, of), of, tuple(map(self._state.finished, shown[: last + 1])))

    def question(self, key: str) -> Question | None:
        """The question at a key, or None when it does not apply."""
        return self._state.question(key)

    def current(self) -> Question | None:
        """The current question; None at a step of the work."""
        return self.question(self.at)

    def current_step(self) -> Step | None:
        """The current step of the work; None at a question."""
        return self._state.step_at(self.at)

    @property
    def steps(self) -> tuple[Step, ...]:
        """The work in the order of doing."""
        return self._state.steps

    def stage(self) -> Stage:
        """The current stage; the first where there is no such place."""
        here = self.current() or self.current_step()
        return here.stage if here else STAGES[0]

    def state(self, key: str) -> State:
        """The state of a question. Raises KeyError for a key that is not asked."""
        question = self._state.question(key)
        if question is None:
            raise KeyError(key)
        return state_of(question, self._state.given)

    def text(self, key: str) -> str:
        """The text of the field: what was being typed, else the answer as typed, else nothing."""
        return self.pending.get(key, text_at(key, self._state))

    def missing(self) -> tuple[Question, ...]:
        """The questions that have to be answered before the plan is complete."""
        return missing(self.questions, self._state.given)

    def next_action(self) -> str:
        """What to do next, in one sentence."""
        return progress.next_action(self._state)

    def find_out_first(self, step: Step) -> str:
        """What was left to find out later and matters at a step, in a sentence; empty for nothing."""
        return progress.find_out_first(self._state, step)

    def first_wanted(self) -> tuple[str | None, str]:
        """What must be answered before there are steps: its place, if it has one, and a sentence."""
        return progress.first_wanted(self._state)

    def turned_words(self) -> str:
        """The names of what `undo` or `redo` changed last."""
        return progress.turned_words(self.turned, self._state)

    def resumed(self, *, brief: bool = False) -> tuple[str, ...]:
        """At most three lines: what was done, what is next, what changed since. `brief`: what is next is left out where
        one stands at it."""
        here, typed = self._state, self.pending.words(self._state, self.at)
        return progress.resumed(here, self._since, brief=brief, typed=typed)

    @property
    def changed_steps(self) -> tuple[ChangedStep, ...]:
        """The finished steps that have changed since they were ticked."""
        return self._state.changed_steps

    def stale(self) -> tuple[str, ...]:
        """Their ids."""
        return self._state.stale

    def first_changed(self) -> Step | None:
        """The first of them that still has its place in the work."""
        stale = self.stale()
        return next((each for each in self.steps if each.id in stale), None)

    def changed_since(self, step_id: str) -> tuple[str, ...]:
        """What has changed in a step since it was ticked, a sentence each; none where nothing has."""
        return next((each.sentences for each in self.changed_steps if each.id == step_id), ())

    @property
    def upset_places(self) -> tuple[str, ...]:
        """What any answer upset elsewhere, in order: ticked steps that have changed since, until they are ticked again;
        questions that came up before others that are answered, until one stood there."""
        return self._review.places(self._state)

    # Answers.

    def type(self, key: str, text: str) -> None:
        """Keep what is being typed, to show it again on return. Empty text, or the answer itself, is not kept."""
        self.pending.type(key, text, self._state)

    def keep_pending(self) -> bool:
        """Save what is typed beside the file, for the next `resume`. False when it cannot be saved."""
        return self.pending.keep(self._state, self.at)

    def echo(self, key: str, text: str, *, typing: bool = False) -> str | Refused:
        """How `text` would be understood. Saves and keeps nothing.

        While `typing` the result comes at once or not at all: an unknown unit is then explained only if a unit was
        looked up before.
        """
        question = self.question(key) if typing else None
        if question is not None and measures(question) and waits(text):
            return Refused("The unit is looked up when you press Enter.", question.example)
        read = answer_at(key, text, self._state)
        return read if isinstance(read, Refused) else read.echo

    def answer(self, key: str, text: str) -> Accepted | Refused | Conflict:
        """Take an answer and save it. Empty text takes the usual answer, or leaves an optional one out.

        A refused text stays in `pending`, and so does one that could not be saved.
        """
        old, read = self._state, answer_at(key, text, self._state)
        if isinstance(read, Refused):
            self.type(key, text)
            return read
        ahead = self._foreseen
        known = ahead is not None and ahead[0] is old and ahead[1:3] == (key, text)
        conflict = self._change(read.entries, key, ahead[3] if ahead and known else work_out(read.project, old))
        if conflict:
            self.pending[key] = text
            return conflict
        self.pending.pop(key, None)
        return self._accepted(read.echo, key, old)

    def _accepted(self, echo: str, key: str, old: JobState) -> Accepted:
        """The outcome of an answer at a key, compared with the state before it."""
        state, before = self._state, old.plan
        findings = new_findings(before, state.plan)
        here = state.number(key)
        asks = [each for each in findings if each.level != "note" and state.number_of(each.key) <= here]
        asks.sort(key=lambda each: not rests_on(each, state.question(key)))
        was, newly = (each.project.progress.unlinked for each in (old, state))
        alike = section_name(state.plan.job, ACROSS[newly]) if newly and newly != was else ""
        figures = changed_figures(before, state.plan)
        return Accepted(echo, figures, findings, tuple(asks), self._upset, alike)

    def foresee(self, key: str, text: str) -> None:
        """Work out the result of an answer ahead of time, so that `answer` has it at once. Safe in a worker thread."""
        if isinstance(self.echo(key, text, typing=True), Refused):
            return
        here, read = self._state, answer_at(key, text, self._state)
        if not isinstance(read, Refused):
            self._foreseen = here, key, text, work_out(read.project, here)

    def would(self, answers: Mapping[str, str]) -> Plan:
        """The plan as it would be with `answers`, values of the file by key, given too. Saves and keeps nothing.

        Raises Unfit for a value that is not fit. Safe in a worker thread: it changes nothing here.
        """
        state = self._state
        return plan_of(put_many(state.project, dict(answers)), state.plan, state.better)

    def choose(self, answers: Mapping[str, str]) -> Conflict | None:
        """Save answers that belong together, values of the file by key, as one change for `undo`.

        The current place stays. Raises Unfit for a value that is not fit.
        """
        return self._aside(dict(answers))

    def accept(self) -> Accepted | Refused | Conflict:
        """Accept the current page as one change: what is typed on it, and the usual answer of everything else.

        What has no usual answer stays open. Refused, with nothing saved, for a text that is not an answer: `at` is then
        its question. A change leads to the page after this one.
        """
        page, old = self.page(), self._state
        if page is None:
            return Accepted("")
        new, entries, seen = old, dict[str, object](), set[str]()
        for _ in range(ROUNDS):
            taken = self._page_entries(page.id, new, seen)
            if isinstance(taken, Refused):
                return taken
            if not taken:
                break
            entries |= taken
            new = work_out(put_many(old.project, entries), old)
        last = page.fields[-1].key
        following = neighbour(new.places, new.skip, page.questions[-1].key, 1)
        self.at = last
        conflict = self._save(new.elsewhere(placed(new.project, following or last)), last) if entries else None
        if conflict:
            return conflict
        self._following = following
        for each in page.questions:
            self.pending.pop(each.key, None)
        return self._accepted("", last, old)

    def _page_entries(self, page_id: str, here: JobState, seen: set[str]) -> dict[str, object] | Refused:
        """What the fields of a page put into the file that is not there yet. `seen`: keys of the questions read before;
        read twice, one that adds would add twice."""
        page = next((each for each in here.pages if each.id == page_id), None)
        entries = dict[str, object]()
        for each in page.questions if page else ():
            typed = self.pending.get(each.key)
            aside = each.extra or each.by_change or (page is not None and each in page.more)
            quiet = aside or each.usual is None or is_answered(each, here.given)
            if each.key in seen or (typed is None and quiet):
                continue
            seen.add(each.key)
            read = read_answer(each, typed or "", here)
            if isinstance(read, Refused):
                self.at = each.key
                return read
            entries |= read.entries
        return entries | (here.unconfirmed(page) if page else {})

    def copy(self) -> Conflict | None:
        """Copy the answers that the current page offers, as one change. Does nothing where it offers none."""
        page = self.page()
        return self._aside(dict(page.copy.entries)) if page and page.copy else None

    def previous_page(self) -> bool:
        """Go to the first question of the page before; at a step, to the step before. False at the very beginning."""
        page, pages = self.page(), [each for each in self.pages if each.shown]
        if page is None:
            first = bool(self.steps) and self.at == PLACE + self.steps[0].id
            return self._move(pages[-1].fields[0].key) if first else self.back()
        before = pages.index(page) - 1
        return before >= 0 and self._move(pages[before].fields[0].key)

    def postpone(self) -> Conflict | None:
        """Mark the current question as to find out later, as one change. Does nothing where it cannot wait."""
        question = self.current()
        return self._aside(postponed(question, self._state)) if question and question.later else None

    def undo(self) -> bool:
        """Undo the last change, and go where it was made. False when there is none, or it cannot be saved."""
        return self._turn(back=True)

    def redo(self) -> bool:
        """Redo the change that was undone last. False when there is none, or it cannot be saved."""
        return self._turn(back=False)

    def removable(self, key: str) -> str | None:
        """The key of the added thing that `key` is part of; None for what cannot be removed."""
        return removable(key, self._state.given)

    def remove(self, key: str) -> Conflict | None:
        """Remove the added section, thing in the way, owned length or further reading that `key` is part of.

        KeyError when `key` is part of none (`removable` says so).
        """
        entries = taken_out(key, self._state.given)
        if entries is None:
            raise KeyError(key)
        return self._aside(entries)

    # Moves. No answer ever blocks one.

    def next(self) -> bool:
        """Go on: to what the last answer leads to, else to the next place. False at the very end."""
        confirmed = self._state.confirmed_by(self.at)
        if confirmed:
            self._aside(confirmed)
        return self._move(self._following or neighbour(self._state.places, self._state.skip, self.at, 1))

    def back(self) -> bool:
        """Go back to the place before. False at the very beginning."""
        return self._move(neighbour(self._state.places, self._state.skip, self.at, -1))

    def go(self, key: str) -> bool:
        """Go to a question or to `work.STEP`; for a key above or below a question's, to the nearest. False for none."""
        return self._move(self._state.nearest(key))

    # Second thoughts, and the work.

    def keep(self, finding_id: str) -> Conflict | None:
        """Keep a finding until its values change. KeyError for an unknown one, Unfit for one that stops the plan."""
        return self._aside(kept(finding_id, self.plan))

    def unkeep(self, finding_id: str) -> Conflict | None:
        """Ask about a kept finding again."""
        return self._aside({f"kept.{finding_id}": None})

    def tick(self, step_id: str, minutes: int | None = None) -> Conflict | None:
        """Tick a step now; `minutes` it took, if known. KeyError for a step that is not there."""
        step = self._state.step_at(PLACE + step_id)
        if step is None:
            raise KeyError(step_id)
        given = ticked(step, self.plan, self.file.now(), minutes)
        if self.at != PLACE + step_id:
            return self._aside(given)
        return self._change(given, self.at, work_out(put_many(self.project, given), self._state))

    def untick(self, step_id: str) -> Conflict | None:
        """Remove the tick of a step. Its note stays."""
        return self._aside(unticked(step_id))

    def spend(self, step_id: str, minutes: int | None) -> Conflict | None:
        """Record how many minutes a step took; None removes them."""
        return self._aside({f"{PLACE}{step_id}.minutes": minutes or None})

    def note(self, step_id: str, text: str) -> Refused | Conflict | None:
        """Write a note to a step; empty text removes it. Refused when it is too long, or cannot be shown."""
        try:
            return self._aside({f"{PLACE}{step_id}.note": text.strip() or None})
        except Unfit as unfit:
            return Refused(unfit.sentence, unfit.example)

    # The file.

    def reload(self) -> Problems | None:
        """Load the file as it is now, and drop the change that could not be saved. Undo brings it back."""
        opened = self.file.read_again()
        if isinstance(opened, Problems):
            return opened
        self._changed(Moment(self.project, self.at))
        self._adopt(as_ticked(work_out(opened.project, self._state, step=False)))
        return None

    def overwrite(self) -> Conflict | None:
        """Save the change that could not be saved, over the other program's; `file.kept` says where that is kept."""
        held_back = self.file.held_back
        conflict = self.file.save_over()
        if conflict or held_back is None:
            return conflict
        project, key = held_back
        self._changed(Moment(self.project, key))
        self.pending.pop(key, None)
        self._adopt(work_out(project, self._state))
        return None

    def leave(self) -> None:
        """Keep the place, and what is typed, for the next opening. The project is only written if it was since this."""
        self.keep_pending()
        if self.file.saved_at and not self.file.conflict and self.project.progress.at != self.at:
            self.file.save(placed(self.project, self.at), self.at)

    # Inside.

    def _change(self, entries: Entries, key: str, new: JobState) -> Conflict | None:
        """Save what was given at `key`, and make `new`, which follows from it, the state."""
        following = leads_to(entries, key, new.places, new.skip)
        conflict = self._save(new.elsewhere(placed(new.project, following or key)), key)
        if conflict is None:
            self._following = following if key == self.at else None
        return conflict

    def _aside(self, entries: Entries) -> Conflict | None:
        """Save a change made elsewhere: the current place, and where it leads, stay."""
        following = self._following
        conflict = self._save(work_out(put_many(self.project, entries), self._state), self.at)
        if conflict is None and following in self._state.places:
            self._following = following
        return conflict

    def _save(self, new: JobState, key: str) -> Conflict | None:
        conflict = self.file.save(new.project, key)
        if conflict is None:
            # Leaving an open question open changes nothing that could be undone.
            if differing(self._state.given, new.given):
                self._changed(Moment(self.project, key))
            self._adopt(new)
        return conflict

    def _changed(self, old: Moment) -> None:
        """Record that a change was saved over `old`; what was undone can no longer be redone."""
        self._before.append(old)
        del self._before[:-MOST_KEPT]
        self._after.clear()

    def _turn(self, *, back: bool) -> bool:
        source, target = (self._before, self._after) if back else (self._after, self._before)
        if not source:
            return False
        moment, given = source[-1], self._state.given
        project = placed(moment.project, moment.at)
        if self.file.save(project, moment.at):
            return False
        source.pop()
        target.append(Moment(self.project, moment.at))
        self.pending.pop(moment.at, None)
        self._adopt(work_out(project, self._state, step=False), moment.at)
        self.turned = differing(given, self._state.given)
        return True

    def _adopt(self, state: JobState, at: str | None = None) -> None:
        """Go to what follows from a change."""
        old, self._state, self._following = self._state, state, None
        anew = at is not None or state.parts != old.parts
        self._pages = len(state.pages) if anew else min(self._pages, len(state.pages))
        self._upset = upset_by(old, state)
        self._review.note(self._upset, state)
        self._stand_at(landing(old.places, state.places, state.skip, at or self.at))

    def _stand_at(self, place: str) -> None:
        self.at = place
        self._review.look(place, self._state)

    def _move(self, to: str | None) -> bool:
        if to is None:
            return False
        self._stand_at(to)
        self._following = None
        return True
