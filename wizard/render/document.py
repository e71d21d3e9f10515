"""The blocks a sheet is made of: text, paper and a phone's screen are written from the same ones.

Texts are as the maker typed them; each form of output escapes them itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from msgspec import Struct

from wizard.render.drawings.scene import Scene


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
    boxes: tuple[str, ...] = ()
    """One id a row where each has a box to tick; they never change, so that a tick is found again."""
    blank: tuple[int, ...] = ()
    """The columns to write in."""


class Points(Struct, frozen=True):
    """Cautions, what is still to be answered, or finished steps that have changed."""

    kind: Literal["caution", "missing", "changed"]
    items: tuple[str, ...]


class Box(Struct, frozen=True):
    """A box to tick."""

    id: str
    """Never changes, so that a tick is found again."""
    label: str
    """Whose it is, where a step has several; else empty."""
    ticked: bool = False


class WorkStep(Struct, frozen=True):
    """A step of the work, once for all sections that it is done to. It stays on one page with its cautions."""

    title: str
    time: str
    boxes: tuple[Box, ...]
    cautions: tuple[str, ...]
    """In full, before anything is done."""
    as_before: str
    """A few words for each caution that an earlier step of this sheet gave in full."""
    changed: str
    """What has changed since a box was ticked."""
    body: tuple[str | Table, ...]
    """What to do, in order; what differs from section to section as tables with a column for each."""
    notes: tuple[str, ...]
    """The maker's own."""


class Work(Struct, frozen=True):
    """Steps of the work, in the order of doing."""

    items: tuple[WorkStep, ...]


class Note(Struct, frozen=True):
    """A finding with its way out, or a figure with its formula, the values put in, the rule and its source."""

    title: str
    text: str
    lines: tuple[str, ...]
    small: str
    """The key in the file, or the rule and its source."""


class Drawing(Struct, frozen=True):
    """A drawing, in characters and on paper."""

    scene: Scene
    rows: int
    """How many lines it takes in characters."""
    legend: tuple[str, ...] = ()
    """What its signs mean, in words; printed under it or beside it."""
    half: bool = False
    """True where two fit beside each other on paper."""


class Card(Struct, frozen=True):
    """A label to cut out and pin on, or to sew in."""

    title: str
    lines: tuple[str, ...]
    way_up: bool = True
    """True where an arrow shows which end goes up."""


class Cards(Struct, frozen=True):
    """Labels; on paper those of a label sheet where the printer has one in it."""

    items: tuple[Card, ...]


class TrueScale(Struct, frozen=True):
    """Lines of known length, to check that a printer prints at full size; nothing in characters."""


Block = Heading | Para | Pairs | Table | Points | Work | Note | Drawing | Cards | TrueScale


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


MOST_COLUMNS = 6
"""Columns of sections beside each other that a page holds."""


def side_by_side(names: Sequence[str], rows: Iterable[tuple[str, Sequence[str]]]) -> list[Table]:
    """A label and a value for each of `names` in every row, as tables of as many columns as a page holds."""
    kept = list(rows)
    groups = [slice(at, at + MOST_COLUMNS) for at in range(0, len(names), MOST_COLUMNS) if kept]
    made = ((("", *names[group]), tuple((label, *of[group]) for label, of in kept)) for group in groups)
    return [Table(heads, cells, tuple(range(len(heads)))) for heads, cells in made]
