"""One question: what is asked, how to measure it, the place to answer. Parts are changed in place, never rebuilt.

The words come first and whole: whoever holds the tape wrong measures wrong. The drawing takes the space they leave.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, Static

from wizard.interview.added_entries import there_already
from wizard.interview.answer_text import options
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.render.plain_text import with_capital
from wizard.screens.dialogs.base_dialogs import plain_button
from wizard.screens.figure_words import value_words
from wizard.screens.panes.fullness_words import roll_words
from wizard.screens.panes.side_panel import joins_words
from wizard.screens.screen_text import in_lines, plain, update_if_changed, words
from wizard.screens.widgets.answer_box import AnswerBox
from wizard.screens.widgets.option_lists import OPEN, pickable
from wizard.screens.widgets.question_drawing import Drawing
from wizard.trade.formatting import number
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.plan_records import Plan


def beside_question(question: Question, session: Session, steps: Sequence[FullnessStep] = ()) -> Content | None:
    """The lines, or None where there are none. `steps`: the fullness steps found so far, for what asks about them."""
    lines = list(_added(question, session) if question.kind == "add" else _steps(steps, session.plan))
    return Content("\n").join(lines) if lines else None


def _added(question: Question, session: Session) -> Iterator[Content]:
    there = there_already(question, session.plan.job)
    if there:
        yield Content.styled("There already", "bold")
        for id, each in there.items():
            yield Content(f"  {plain(_name(id, each, session.plan))}")


def _name(id: str, thing: object, plan: Plan) -> str:
    length = getattr(thing, "length", None)
    return str(getattr(thing, "name", None) or (value_words(length, plan) if length is not None else id))


def _steps(steps: Sequence[FullnessStep], plan: Plan) -> Iterator[Content]:
    if not steps:
        return
    yield Content.styled("How full, for each length of roll", "bold")
    for step in steps:
        yield _step(step, plan)


def _step(step: FullnessStep, plan: Plan) -> Content:
    cost = "" if step.cost is None else f"   {value_words(step.cost, plan)}"
    return Content.assemble(
        f"  {roll_words(step, plan):<10}",
        (f"{number(step.handy):<8}", "bold"),
        (f"{joins_words(step.joins)}{cost}", "$quiet"),
    )


BESIDE = 44
"""Columns of the words in a window of 80, beside the plan so far."""
MOST_CHOICES = 9
"""Lines of choices that are seen at once."""
FIELD = 4
"""Lines of the field and its echo."""
ROOM = 11
"""Lines that a window of 24 has for words and answer, with blank lines between them and a drawing in sight."""


class QuestionPane(Vertical):
    """Title above, answer below; between them what scrolls: words, how to measure, drawing."""

    asked = ""
    """The title of the question in hand, without what it is about."""
    reminder = 0
    """Lines that tell where the work stopped."""
    along: Button | None = None
    """Leads to the chart of the fullness steps; put up when there are some."""

    def compose(self) -> ComposeResult:
        """All parts, in their places for good."""
        yield Static(id="question-title")
        with VerticalScroll(id="question-body", can_focus=False):
            yield Static(id="resumed", classes="note")
            yield Static(id="question-words")
            yield Static(id="question-how", classes="quiet")
            yield Drawing()
            # Below the drawing, which it would push out of a small window.
            yield Static(id="worked", classes="quiet")
            yield Static(id="beside")
        yield AnswerBox()

    @property
    def box(self) -> AnswerBox:
        """The place to answer."""
        return self.query_one(AnswerBox)

    @property
    def drawing(self) -> Drawing:
        """The drawing."""
        return self.query_one(Drawing)

    @property
    def _body(self) -> VerticalScroll:
        """What scrolls."""
        return self.query_one("#question-body", VerticalScroll)

    def ask(self, question: Question, text: str, plan: Plan) -> None:
        """Show `question` with `text` in the field, from its beginning."""
        about, self.asked = _titles(question)
        title = Content.assemble((plain(about), "$quiet"), "\n", (plain(self.asked), "bold"))
        update_if_changed(self.query_one("#question-title", Static), title)
        update_if_changed(self.query_one("#question-words", Static), words(question.words))
        self._put("#question-how", question.how)
        self._put("#worked", "")
        self.drawing.draw(question, plan)
        scarce = self.reminder + _lines_around(question) > ROOM
        # Not on what holds them: the styles of all that is in it would be worked anew.
        for each in ("#question-title", "#question-how"):
            self.query_one(each).set_class(scarce, "-scarce")
        self.box.ask(question, text)
        self._body.scroll_home(animate=False)

    def tell_worked(self, more: str) -> None:
        """What was worked out meanwhile for the question in hand."""
        self._put("#worked", more)

    def redraw(self, question: Question, plan: Plan) -> None:
        """The drawing with what is known now."""
        self.drawing.draw(question, plan)

    def enlarge(self) -> None:
        """Show the present answer in large figures."""
        from wizard.screens.panes.large_view import LargeAnswer

        if not self.query(LargeAnswer):
            self.mount(LargeAnswer(), before=self.box)
        self.query_one(LargeAnswer).tell(self.asked, *self.box.in_short())

    def remind(self, lines: tuple[str, ...]) -> None:
        """Say where the work stopped; nothing for no lines."""
        self._put("#resumed", "\n".join(lines))
        self.reminder = sum(len(in_lines(each, BESIDE - 2)) for each in lines)

    def put_beside(self, text: Content | None, *, along: bool = False) -> None:
        """What goes with the question besides the drawing: the fullness steps, or what is there already.

        `along`: there is a chart of them to move along.
        """
        place = self.query_one("#beside", Static)
        if along and self.along is None:
            self.along = plain_button("Move along the steps", "along", "screen.fullness")
            self._body.mount(self.along)
        if self.along is not None:
            self.along.display = along
        update_if_changed(place, text or Content())
        place.display = text is not None

    def _put(self, place: str, text: str) -> None:
        widget = self.query_one(place, Static)
        update_if_changed(widget, words(text))
        widget.display = bool(text)


def _lines_around(question: Question) -> int:
    """How many lines the words and the answer take, at the narrowest of a usual window."""
    words_taken = sum(len(in_lines(each, BESIDE)) for each in (question.words, question.how))
    if not pickable(question):
        return words_taken + FIELD
    choices = sum(len(in_lines(f"{OPEN} {each.words}", BESIDE - 2)) for each in options(question))
    return words_taken + min(choices, MOST_CHOICES)


def _titles(question: Question) -> tuple[str, str]:
    """What it is about, and what is asked."""
    group, _, rest = question.title.rpartition(": ")
    return (group, with_capital(rest)) if group else (question.group.capitalize(), question.title)
