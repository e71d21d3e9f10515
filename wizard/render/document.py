"""The blocks a sheet is made of: text, paper and a phone's screen are written from the same ones.

Texts are as the maker typed them; each form of output escapes them itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from msgspec import Struct

from wizard.render.drawings.scene import Scene
from wizard.trade.cautions import CAUTIONS
from wizard.trade.plan_records import STAGES, Plan, Stage, Step


class Heading(Struct, frozen=True):
    """A heading inside a sheet; level 2 comes under one of level 1."""

    text: str
    level: Literal[1, 2] = 1
    new_page: bool = False
    """True where a new page begins on paper, so that it can be pinned up by itself."""


class Para(Struct, frozen=True):
    """A paragraph."""

    text: str


class Pairs(Struct, frozen=True):
    """Labels, each with its value beside it."""

    rows: tuple[tuple[str, str], ...]


class Table(Struct, frozen=True):
    """Rows under their heads, as many cells each as there are heads. No page break splits a row."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    left: tuple[int, ...] = (0,)
    """The columns aligned left; the others are aligned right, as figures are."""
    large: tuple[int, ...] = ()
    """The columns printed large, to be read from the far side of the cutting table."""


class Ticks(Struct, frozen=True):
    """Things to tick off: id and text of each. Ids never change, so that a tick is found again."""

    items: tuple[tuple[str, str], ...]


class Points(Struct, frozen=True):
    """Cautions, what is still to be answered, or finished steps that have changed."""

    kind: Literal["caution", "missing", "changed"]
    items: tuple[str, ...]


class Steps(Struct, frozen=True):
    """Steps of the work; the cautions of each come before it and stay with it on one page."""

    items: tuple[Step, ...]


class Note(Struct, frozen=True):
    """A finding with its way out, or a figure with its formula, the values put in, the rule and its source."""

    kind: Literal["finding", "reason"]
    title: str
    text: str
    lines: tuple[str, ...]
    small: str
    """The key in the file, or the rule and its source."""

    @property
    def label(self) -> str:
        """What is printed before the small line."""
        return "in the file: " if self.kind == "finding" else ""


class Notes(Struct, frozen=True):
    """Findings or figures."""

    items: tuple[Note, ...]


class Drawing(Struct, frozen=True):
    """A drawing, in characters and on paper."""

    scene: Scene
    rows: int
    """How many lines it takes in characters."""
    measured: bool = False
    """True for a roll that runs down the page: in characters the running measure is printed beside it."""
    paper: tuple[Scene, ...] = ()
    """Its parts on paper, each of which fits on a page; empty where the scene itself is drawn."""
    legend: str = ""
    """What its signs mean; printed once for all drawings with the same legend."""

    @property
    def on_paper(self) -> tuple[Scene, ...]:
        """What is drawn on paper."""
        return self.paper or (self.scene,)


class Card(Struct, frozen=True):
    """A label to cut out and pin on, or to sew in."""

    title: str
    lines: tuple[str, ...]
    way_up: bool = True
    """True where an arrow shows which end goes up."""


class Cards(Struct, frozen=True):
    """Labels."""

    items: tuple[Card, ...]


Block = Heading | Para | Pairs | Table | Ticks | Points | Steps | Notes | Drawing | Cards


def headed(title: str, level: Literal[1, 2], blocks: Sequence[Block]) -> list[Block]:
    """The blocks under a heading; nothing where there are none."""
    return [Heading(title, level), *blocks] if blocks else []


def points(kind: Literal["caution", "missing", "changed"], texts: Iterable[str]) -> list[Block]:
    """The texts as points of one kind; nothing where there are none."""
    items = tuple(texts)
    return [Points(kind, items)] if items else []


def paras(texts: Iterable[str]) -> list[Block]:
    """A paragraph for each text."""
    return [Para(each) for each in texts]


class CautionedStep(Struct, frozen=True):
    """A step with the cautions before it."""

    step: Step
    before: tuple[str, ...]
    """Cautions in full, then a line that names those given in full before an earlier step."""

    @property
    def changed(self) -> str:
        """What has changed since the step was ticked; "" for nothing."""
        return f"Changed since you ticked it: {' '.join(self.step.changed)}" if self.step.changed else ""

    @property
    def kit(self) -> list[tuple[str, str]]:
        """Tools, settings and the maker's note, each with its label, where there are some."""
        step = self.step
        kit = {"tools": "; ".join(step.tools), "settings": "; ".join(step.settings), "note": step.note or ""}
        return [(label, text) for label, text in kit.items() if text]


def with_cautions(steps: Iterable[Step]) -> Iterator[CautionedStep]:
    """The steps of one stage: a caution in full before the first step of its kind, named before each later one."""
    seen: set[tuple[str, str]] = set()
    for step in steps:
        kind = step.id.partition(":")[0]
        new = [each for each in step.cautions if (kind, each.id) not in seen]
        names = [CAUTIONS[each.id].note for each in step.cautions if (kind, each.id) in seen]
        seen |= {(kind, each.id) for each in new}
        reminder = f"As before: {'; '.join(names)}."
        yield CautionedStep(step, (*(each.sentence for each in new), *([reminder] if names else [])))


def work_blocks(plan: Plan, *stages: Stage) -> list[Block]:
    """The steps of these stages in the order of doing."""
    blocks: list[Block] = []
    for stage in (each for each in STAGES if each in stages):
        steps = tuple(step for step in plan.work if step.stage == stage)
        blocks += headed(f"Work: {stage}", 1, [Steps(steps)] if steps else [])
    return blocks
