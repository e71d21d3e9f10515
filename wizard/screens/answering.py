"""Taking answers and moving on. An answer that cannot be read stops Next, never Back.

Whoever types stops to look at what was typed: in that pause the answer is worked out before Enter asks for it.
"""

from __future__ import annotations

from functools import partial
from time import monotonic
from typing import Final

from textual import on
from textual.geometry import Size
from textual.timer import Timer

from wizard.interview.job_state import next_step, place_of
from wizard.interview.outcome import Accepted, Conflict, Refused
from wizard.interview.pending_review import other_of
from wizard.interview.question import Question
from wizard.project.value_faults import with_example
from wizard.screens.actions import key_shown
from wizard.screens.job_dialogs import JobDialogs
from wizard.screens.widgets.answer_box import AnswerBox, Offer
from wizard.screens.widgets.question_drawing import Drawing
from wizard.trade.plan_records import Finding

PAUSE: Final = 0.04
"""Seconds without another key; while keys come faster nothing is worked out beside them."""


PICK = "Nothing is picked yet: go to a line with the arrow keys, then Enter. Next leaves it for later."
KEEP = "keep:"
"""Before the id of a finding in the value of an offer: keep it as it is."""
GO = "go:"
"""Before the key of the other answer that a finding rests on: go there."""
HEED = 0.3
"""Seconds without a key after which a finding counts as seen."""
UNSEEN = "What was typed before this could be seen is left out."


class Answering(JobDialogs):
    """Takes answers and moves; works an answer out before Enter, without showing or saving anything."""

    _pause: Timer | None = None

    def prefetch(self, text: str) -> None:
        """Work out `text` as the answer to the question in hand, once no key has come for a moment."""
        if self._pause is not None:
            self._pause.stop()
        question = self.session.current()
        if question is not None:
            self._pause = self.set_timer(PAUSE, partial(self._look_ahead, self.pane.drawing, question.key, text))

    def _look_ahead(self, drawing: Drawing, key: str, text: str) -> None:
        look = partial(self._prefetch_in_thread, drawing, drawing.size, key, text)
        self.run_worker(look, thread=True, exclusive=True, group="ahead", exit_on_error=False)

    def _prefetch_in_thread(self, drawing: Drawing, space: Size, key: str, text: str) -> None:
        """Beside the screen."""
        found = self.session.prefetch(key, text)
        if found and found.ahead:
            drawing.prepare(found.ahead, found.state.plan, space)

    unseen_until = 0.0
    """Until then, by the clock that never goes back, what is typed was meant for the next question."""
    _stood = ""
    """What was in the field when the finding came."""

    def typed(self, text: str) -> None:
        """Say how the text would be understood; an unfinished one is kept for coming back to."""
        question = self.session.current()
        if question is None:
            return
        if self._typed_ahead():
            self.pane.box.put_back(self._stood)
            return
        self.held = None
        self.session.type(question.key, text)
        self.keep_soon()
        echo = self.session.echo(question.key, text, typing=True) if text.strip() else None
        box = self.pane.box
        box.echo("" if echo is None or isinstance(echo, Refused) else echo.text)
        box.say("", "")
        self.prefetch(text)

    def taken(self, text: str) -> None:
        """Enter: this is the answer."""
        question = self.session.current()
        if question is None or self._typed_ahead():
            return
        if self.pane.box.picking and not text and not question.optional:
            self.pane.box.say(PICK, "refused")
        else:
            self._answer(question, text)

    @on(AnswerBox.Offered)
    def _offered(self, event: AnswerBox.Offered) -> None:
        """A reading that was offered goes into the field; a finding is kept, or its other answer gone to."""
        if event.value.startswith(KEEP):
            if not self.met(self.session.keep(event.value.removeprefix(KEEP))):
                self._go_on()
            return
        if event.value.startswith(GO):
            self.held = None
            self.session.go(event.value.removeprefix(GO))
            self.pane.remind(())
            self.show()
            return
        self.pane.box.put(event.value)
        self.pane.box.take_focus()

    def action_step_next(self) -> None:
        """Take the answer and go on; an empty one is left for later.

        The roll is a closer look at the cutting plan, and goes on as that does; opened over a question or a step it is
        only left, for what lies under it is not in sight.
        """
        if self.view == "question":
            question = self.session.current()
            text = self.pane.box.text()
            # Left empty, an answer that is needed stays as it is.
            may_be_empty = question is not None and (question.optional or question.usual is not None)
            if question is not None and (
                text.strip() or (may_be_empty and self.session.state(question.key) != "missing")
            ):
                self._answer(question, text)
            else:
                self._go_on()
        elif self.cutting:
            self._to_work()
        elif self.view == "roll":
            self.action_step_back()
        else:
            self._go_on()

    def action_step_back(self) -> None:
        """Go back one place; what is typed stays for coming back to."""
        was_work = self.view == "work"
        if self.cutting:
            self.cutting = False
            if self.session.current() is None and not self.glancing:
                self.session.back()
        elif not self.session.back():
            self.tell("This is the beginning.")
        self.cutting = was_work and self.view == "question"
        self.glancing = False
        self.held = None
        self.pane.remind(())
        self.show()

    def action_scroll_text(self, pages: int) -> None:
        """Scroll what does not have the focus."""
        if self.scrolled:
            place = self.query_one(self.scrolled)
            (place.scroll_page_down if pages > 0 else place.scroll_page_up)()

    @property
    def scrolled(self) -> str | None:
        """Selector of the text that the page keys scroll; None where there is none."""
        return {"question": "#question-body", "cutting": "#cutting", "work": "#step-body"}.get(self.view)

    def _answer(self, question: Question, text: str) -> None:
        key = question.key
        unchanged = text == self.session.text(key) and key not in self.session.pending
        # Adding nothing more is an answer of its own, whatever was added before.
        stands = question.kind != "add" and self.session.state(key) == "answered"
        if unchanged and (self.held == key or stands):
            self._go_on()
            return
        before = self.session.plan
        outcome = self.session.answer(key, text)
        if isinstance(outcome, Refused):
            self._refuse(outcome)
        elif isinstance(outcome, Conflict):
            self.met(outcome)
        else:
            self.note_changes(before, outcome.changed)
            self._accept(key, outcome)

    def _refuse(self, refused: Refused) -> None:
        offers = tuple(Offer(each, each) for each in refused.offers)
        self.pane.box.say(with_example(refused.sentence, refused.example), "refused", offers)
        self.pane.box.take_focus()

    def _accept(self, key: str, accepted: Accepted) -> None:
        asks = [each for each in accepted.findings if each.level != "note"]
        if not asks:
            self._go_on()
            return
        self.held = key
        self.show_around()
        # What rests on this very answer is told first: read again, it may settle the others.
        first = next((each for each in asks if key in (each.key, each.other)), asks[0])
        self._ask_again(key, first, len(asks) - 1)

    def _ask_again(self, key: str, finding: Finding, more: int) -> None:
        """Stay for once: the answer is saved, and what looks wrong is said under it."""
        question = self.session.question(key)
        if question is None:
            self._go_on()
            return
        self.pane.redraw(question, self.session.plan)
        if self.pane.box.picking:
            # The mark is where the file has it, whatever is typed and taken back after this.
            self.pane.box.ask(question, self.session.text(key))
        offers = [] if finding.level == "stop" else [Offer("Keep as it is", KEEP + finding.id)]
        other = other_of(finding, key)
        if self.session.question(other) is not None:
            offers.append(Offer("Go to the other", GO + other))
        others = f" {key_shown(self.app, 'findings')} tells {more} more." if more else ""
        self.pane.box.say(
            f"{finding.sentence} {finding.way_out} Saved; Enter goes on.{others}", finding.level, tuple(offers)
        )
        self.pane.box.take_focus()
        self._stood, self.unseen_until = self.pane.box.text(), monotonic() + HEED
        self._mark_when_seen(key)

    def _typed_ahead(self) -> bool:
        """True for a key that was pressed before the finding could be seen. It was meant for the next question: behind
        the answer in the field, `79 1/2` and `76` would be 79 1/276."""
        if self.held is None or self.pane.box.picking or monotonic() >= self.unseen_until:
            return False
        self.unseen_until = monotonic() + HEED
        self.tell(UNSEEN)
        return True

    def _mark_when_seen(self, key: str) -> None:
        """Once the finding was seen, what is typed replaces the answer in the field."""
        left = self.unseen_until - monotonic()
        if self.held != key or self.view != "question":
            return
        if left > 0:
            self.set_timer(left, partial(self._mark_when_seen, key))
        else:
            self.pane.box.mark_all()

    def _go_on(self) -> None:
        asking = self.session.current() is not None
        self.held = None
        if not self.session.next():
            self._at_the_end()
        self.cutting = asking and self.session.current() is None
        self.pane.remind(())
        self.show()

    def _at_the_end(self) -> None:
        self.tell(self.session.next_action())

    def _to_work(self) -> None:
        """From the cutting plan to the first step that is not ticked, or to what is missing."""
        self.cutting, self.aside = False, None
        step = next_step(self.session.project, self.session.plan) or next(iter(self.session.plan.work), None)
        if step is not None:
            self.session.go(place_of(step))
        else:
            missing = self.session.missing()
            if missing:
                self.session.go(missing[0].key)
            self.tell(self.session.next_action())
        self.show()
