"""The top of the job's screen: what it is, what is saved, how far along each stage is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from textual import events
from textual.app import ComposeResult
from textual.containers import HorizontalGroup
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from wizard.render.plain_text import cell_len
from wizard.screens.glyphs import BEGUN, DONE, NOT_YET, SEWN, TO_SEW
from wizard.screens.screen_text import one_line, update_if_changed, words
from wizard.trade.plan_records import STAGES, Stage

Tally = tuple[int, int]
"""Answered and asked."""


NAME = 16
"""Columns that a name has at least, where it needs them."""


class Heading(HorizontalGroup):
    """The project's name at the left, what is saved at the right."""

    def compose(self) -> ComposeResult:
        """Two pieces of text."""
        yield Static(id="job-name")
        yield Static(id="job-state")

    name_told = ""
    states: tuple[str, ...] = ("",)

    def tell(self, name: str, states: tuple[str, ...]) -> None:
        """Show both. `states`: the same in more and in fewer words, the most first."""
        self.name_told, self.states = one_line(name), states
        update_if_changed(self.query_one("#job-name", Static), words(self.name_told))
        self.on_resize()

    def on_resize(self) -> None:
        """As much of the state as leaves the name room."""
        space = self.size.width - min(cell_len(self.name_told), NAME) - 1
        fitting = (each for each in self.states if cell_len(each) <= space)
        update_if_changed(self.query_one("#job-state", Static), words(next(fitting, self.states[-1])))


class StageMark(Static):
    """One stage: its state, its name, and under it a line that is sewn as far as the stage is done."""

    @dataclass
    class Chosen(Message):
        """The stage was clicked."""

        stage: Stage

    def __init__(self, stage: Stage) -> None:
        super().__init__(classes="stage")
        self.stage: Stage = stage

    def tell(self, tally: Tally, here: bool) -> None:
        """Show how far it is, and whether it is the current stage."""
        self.set_class(here, "-here")
        label = f"{mark_of(tally)} {self.stage}"
        done = sewn(tally, len(label))
        tape = Content.assemble((SEWN * done, "$accent"), (TO_SEW * (len(label) - done), "$rule"))
        update_if_changed(self, Content.assemble(Content.styled(label, "bold" if here else ""), "\n", tape))

    def on_click(self, event: events.Click) -> None:
        """Go there."""
        event.stop()
        self.post_message(self.Chosen(self.stage))


def mark_of(tally: Tally) -> str:
    """Done, begun or not yet."""
    answered, asked = tally
    if asked and answered >= asked:
        return DONE
    return BEGUN if answered else NOT_YET


def sewn(tally: Tally, cell_len: int) -> int:
    """How many of `cells` are sewn: all only when all is done, none only when nothing is."""
    answered, asked = tally
    if not asked or not answered:
        return 0
    return cell_len if answered >= asked else min(max(cell_len * answered // asked, 1), cell_len - 1)


class StageBar(HorizontalGroup):
    """The six stages in the order of the work."""

    def compose(self) -> ComposeResult:
        """A mark for each."""
        for stage in STAGES:
            yield StageMark(stage)

    def tell(self, tallies: Mapping[Stage, Tally], here: Stage) -> None:
        """Show all of them."""
        for mark in self.query_children(StageMark):
            mark.tell(tallies.get(mark.stage, (0, 0)), mark.stage == here)
