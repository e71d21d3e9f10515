"""Go anywhere: every question, the cutting plan, every step, with its state; typing narrows the list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from wizard.questions.session import Session
from wizard.questions.states import State
from wizard.questions.work import is_done, place_of
from wizard.screens.dialogs import Dialog, plain_button
from wizard.screens.glyphs import DONE, HERE, NOT_YET, TICKED
from wizard.screens.literal import plain
from wizard.trade.plan import STAGES, Stage

CUTTING_PLAN: Final = "@cutting"
"""The place of the cutting plan, which is neither a question nor a step."""

MARKS: Final[dict[State, str]] = {"answered": DONE, "usual": "·", "missing": NOT_YET, "skipped": " "}


@dataclass(frozen=True)
class Place:
    """Somewhere to go."""

    id: str
    mark: str
    title: str
    said: str
    """Its answer or state in words."""
    stage: Stage

    @property
    def haystack(self) -> str:
        """What a search looks through."""
        return f"{self.stage} {self.title} {self.said}".casefold()


def places_of(session: Session) -> tuple[Place, ...]:
    """Everywhere one can go, stage by stage."""
    return tuple(each for stage in STAGES for each in _places_in(stage, session))


def _places_in(stage: Stage, session: Session) -> Iterator[Place]:
    for question in session.questions:
        if question.stage == stage:
            state = session.state(question.key)
            said = session.text(question.key) if state == "answered" else _state_words(state, question.usual)
            yield Place(question.key, MARKS[state], question.title, said, stage)
    if stage == "Cutting":
        yield Place(CUTTING_PLAN, HERE, "The cutting plan", "", stage)
    for step in session.plan.work:
        if step.stage == stage:
            done = is_done(session.draft, step.id)
            yield Place(place_of(step), TICKED if done else NOT_YET, step.title, "ticked" if done else "", stage)


def _state_words(state: State, usual: str | None) -> str:
    return {"usual": f"{usual} (usual)", "missing": "missing", "skipped": "left empty", "answered": ""}[state]


class GoToDialog(Dialog[str | None]):
    """Gives the place to go to."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move('cursor_up')", show=False),
        Binding("down", "move('cursor_down')", show=False),
        Binding("pageup", "move('page_up')", show=False),
        Binding("pagedown", "move('page_down')", show=False),
    ]

    LONG: ClassVar[dict[str, int]] = {"#places": 100}
    AROUND: ClassVar[int] = 9

    def __init__(self, places: tuple[Place, ...], at: str) -> None:
        super().__init__("Go to", None)
        self.places, self.at = places, at
        self.found: tuple[Place, ...] = ()

    def inside(self) -> ComposeResult:
        """The search and the list."""
        yield Input(placeholder="type to narrow: drop, missing, lining…", id="search")
        yield OptionList(id="places", markup=False)

    def buttons(self) -> ComposeResult:
        """Go, or close."""
        yield plain_button("Go there", "go")
        yield plain_button("Close", "close")

    def on_mount(self) -> None:
        """One types at once; the list stands on the place in hand."""
        self._narrow("")
        self.query_one("#search").focus()

    @on(Input.Changed, "#search")
    def _searched(self, event: Input.Changed) -> None:
        event.stop()
        self._narrow(event.value)

    @on(Input.Submitted, "#search")
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        self.pressed("go")

    @on(OptionList.OptionSelected, "#places")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.pressed("go")

    def action_move(self, how: str) -> None:
        """The arrow keys move in the list while one types."""
        getattr(self.query_one("#places", OptionList), f"action_{how}")()

    def pressed(self, button: str) -> None:
        """The place in hand, or None."""
        line = self.query_one("#places", OptionList).highlighted_option
        self.dismiss(line.id if button == "go" and line is not None else None)

    def _narrow(self, search: str) -> None:
        asked = search.casefold().split()
        self.found = tuple(each for each in self.places if all(word in each.haystack for word in asked))
        options = self.query_one("#places", OptionList)
        options.set_options(self._lines())
        ids = [each.id for each in options.options]
        options.highlighted = ids.index(self.at) if self.at in ids else (1 if self.found else None)
        options.scroll_to_highlight()

    def _lines(self) -> Iterator[Option]:
        stage = None
        for place in self.found:
            if place.stage != stage:
                stage = place.stage
                yield Option(Content.styled(stage, "bold $accent"), disabled=True)
            said = Content.styled(f"  {plain(place.said)}" if place.said else "", "$quiet")
            yield Option(Content.assemble(f"{place.mark} {plain(place.title)}", said), id=place.id)
