"""Taking answers. One that cannot be read stays in its field; one that looks wrong is asked about once, when saved."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Final

from wizard.interview.outcome import Accepted, Conflict, Refused, other_of, rests_on
from wizard.interview.question import Question
from wizard.project.value_faults import with_example
from wizard.screens.job_context import JobContext
from wizard.screens.pages.field_view import FieldView, finding_at
from wizard.screens.pages.page_hand import Button, PageHand
from wizard.trade.plan_records import Finding

ALIKE: Final = "The {} had the same answers until now. The top row of this page, or of its own page, changes it too."
NEEDED: Final = "This is needed for the plan. {}, or press Enter again to leave it open for now."


class Answering:
    """Takes what is in hand, or the whole page."""

    def __init__(self, job: JobContext, hand: PageHand, go_on: Callable[[], object]) -> None:
        self.job, self.session, self.hand = job, job.session, hand
        self._go_on = go_on

    def take(self, question: Question, view: FieldView, text: str) -> None:
        """Enter: `text` is the answer; of a table with nothing typed, the row in hand."""
        key, now, pending = question.key, self.session.text(question.key), question.key in self.session.pending
        answered = self.session.state(key) == "answered" and question.kind != "add"
        if view.row is not None and not pending:
            if self.take_row(view):
                self._go_on()
        elif text == now and (self.hand.held or (answered and not pending)):
            self._go_on()
        elif not text.strip() and not self.hand.held and _needed(question):
            self.hand.held = True
            self.hand.say(NEEDED.format("Choose one" if view.choices or view.table else "Type it"), "ask")
            self.job.show()
        elif not text.strip() and (answered or _needed(question)) and question.usual is None and not question.optional:
            self._go_on()
        else:
            outcome = self._given(partial(self.session.answer, key, text))
            if outcome and outcome.asks and self.session.question(key) is not None:
                self._hold(outcome.asks[0])
            elif outcome:
                self._go_on()

    def take_row(self, view: FieldView) -> bool:
        """Take what the row in hand answers. False where that could not be saved."""
        row = view.row
        if row is None or (row.in_use and self.session.state(view.key) == "answered"):
            return True
        return self.job.change(lambda: self.session.choose(row.entries))

    def take_page(self) -> bool:
        """F8: what is typed and all that is usual. True where one may go on."""
        held, outcome = self.hand.held, self._given(self.session.accept)
        self.hand.aside = ""
        if outcome is None:
            return False
        page = self.session.page()
        pairs = ((asked, each) for asked in outcome.asks for each in (page.questions if page else ()))
        for asked, question in pairs:
            if rests_on(asked, question) and not held:
                self.session.go(question.key)
                self._hold(asked)
                return False
        return True

    def leave(self) -> None:
        """Take what is typed where it can be read; what cannot stays in its field. Of a choice that is answered, the
        line that is only lit is let go of."""
        key = self.session.at
        text, question = self.session.pending.get(key), self.session.question(key)
        if text is None or question is None or isinstance(self.session.echo(key, text), Refused):
            return
        if question.kind in ("choice", "yes-no") and not self.hand.written and self.session.state(key) == "answered":
            del self.session.pending[key]
        else:
            self._given(partial(self.session.answer, key, text))

    def look(self) -> None:
        """Say what looks wrong at the field in hand."""
        finding = finding_at(self.session.current(), self.session)
        if finding is not None:
            self._speak(finding)

    def _given(self, give: Callable[[], Accepted | Refused | Conflict]) -> Accepted | None:
        """Give an answer and mark what it changed. None for one that was not taken, which is said where one is."""
        before, outcome = self.session.plan, give()
        if isinstance(outcome, Conflict):
            self.job.met(outcome)
        elif isinstance(outcome, Refused):
            self.hand.follow()
            readings = ((each, partial(self._put, each)) for each in outcome.offers[:3])
            self.hand.say(with_example(outcome.sentence, outcome.example), "refused", *readings)
            self.job.show()
        else:
            if self.session.plan is not before:
                self.job.note_changes(before, outcome.changed)
            if outcome.alike:
                self.job.tell(ALIKE.format(outcome.alike))
            return outcome
        return None

    def _put(self, text: str) -> None:
        """A reading that was offered goes into the field."""
        self.hand.pend(text)
        self.hand.aside, self.hand.edited = "", False
        self.job.show()

    def _hold(self, finding: Finding) -> None:
        """Stay for once: the answer is saved, and what looks wrong is said under it."""
        self.hand.follow()
        self._speak(finding)
        self.hand.hold()
        self.job.show()

    def _speak(self, finding: Finding) -> None:
        offers: list[Button] = [(each.label, partial(self._mend, each.entries)) for each in finding.offers]
        if finding.level != "stop":
            offers.append(("Keep as it is", partial(self._keep, finding.id)))
        other = other_of(finding, self.session.current())
        if self.session.question(other) is not None:
            offers.append(("Go to the other", partial(self.job.go, other)))
        self.hand.say(f"{finding.sentence} {finding.way_out}", finding.level, *offers)

    def _keep(self, finding: str) -> None:
        if not self.job.met(self.session.keep(finding)):
            self._go_on()

    def _mend(self, entries: Mapping[str, str]) -> None:
        """Take a way out that was offered."""
        self.job.do(lambda: self.session.choose(entries), f"{self.job.key('undo')} undoes it.")


def _needed(question: Question) -> bool:
    """True for what the plan waits for, and nothing is usual for."""
    spared = question.optional or question.later or question.extra or question.kind == "add"
    return question.usual is None and not spared
