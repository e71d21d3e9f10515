"""The top of the job's screen: the project and its stage, whether it is saved, and how far it is."""

from __future__ import annotations

from dataclasses import dataclass

from textual import events
from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from wizard.interview.page import Position
from wizard.render.plain_text import cell_len
from wizard.screens.glyphs import AHEAD, AT, FINISHED
from wizard.screens.screen_text import cut_to, one_line

NAME = 16
"""Columns that a name has at least, where it needs them."""


class Bar(Static):
    """A sign a page: finished, here, to come. A click goes to the page."""

    @dataclass
    class Chosen(Message):
        """A page was clicked, by its number from 0."""

        page: int

    def on_click(self, event: events.Click) -> None:
        """Go there."""
        event.stop()
        self.post_message(self.Chosen(event.x))


def bar(position: Position) -> str:
    """`┴┴┴▲··`: the finished pages, the one in hand, those to come."""
    done = FINISHED * position.done + AHEAD * (position.of - position.done)
    return done[: position.number - 1] + AT + done[position.number :] if position.number else done


class Heading(HorizontalGroup):
    """The project and its stage at the left; at the right whether all is saved, and how far it is."""

    def __init__(self) -> None:
        super().__init__(id="heading")
        self.names = ("", "")
        self.states: tuple[str, ...] = ("",)
        self.position = Position(0, 0, 0)

    def compose(self) -> ComposeResult:
        """Three pieces of text."""
        yield Static(id="job-name")
        yield Static(id="job-state")
        yield Bar(id="job-bar")

    def tell(self, name: str, stage: str, states: tuple[str, ...], position: Position) -> None:
        """Show all. `states`: the same in more and in fewer words, the most first."""
        self.names, self.states, self.position = (one_line(name), stage), states, position
        self.on_resize()

    def on_resize(self) -> None:
        """As much of the state as leaves the name room, then the bar."""
        name, stage = self.names
        space = self.size.width - min(cell_len(name), NAME) - len(stage) - 4
        state = next((each for each in self.states if cell_len(each) <= space), self.states[-1])
        signs = bar(self.position) if self.position.number else ""
        shown = signs if cell_len(state) + 1 + len(signs) <= space else ""
        self.query_one("#job-bar", Static).update(Content(f" {shown}" if shown else ""))
        self.query_one("#job-state", Static).update(Content(state))
        left = self.size.width - cell_len(state) - len(shown) - 2 - len(stage) - 3
        title = Content.assemble((cut_to(name, max(left, 1)), "bold"), (f" · {stage}", "$quiet"))
        self.query_one("#job-name", Static).update(title)
