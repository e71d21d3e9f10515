"""The plan so far, beside the questions: the figures that matter. Enter on a figure asks why."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, Final

from msgspec import Struct
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.render.plain_text import NO_BREAK_SPACE, cell_len
from wizard.screens.figure_words import NOT_YET, bought_words, figure_words, sold_by, value_words
from wizard.screens.glyphs import CHANGED
from wizard.screens.screen_text import cut_to, filled, in_lines, plain
from wizard.screens.widgets.option_lists import LineList
from wizard.trade.figures import Figure
from wizard.trade.plan_records import Layer, Part, Plan

TITLES: Final = {"face": "Face cloth", "interlining": "Interlining", "lining": "Lining"}


class Row(Struct, frozen=True):
    """One line. A heading has no value."""

    label: str
    value: str | None = None
    figure: str | None = None
    """Id of the figure it shows."""
    changed: bool = False
    """True when the last answer changed it."""
    was: str | None = None
    """What it was before the last answer; None when it was not known, or has not changed."""


Was = Mapping[str, str]
"""Figure id -> its words before the last answer, for the figures that answer changed."""


def rows(plan: Plan, changed: Collection[str] = (), was: Was | None = None) -> tuple[Row, ...]:
    """The plan so far: sections first, then the cloth, then the rest that is bought."""
    return tuple(_marked(each, changed, was or {}) for each in _all(plan))


def anything_known(rows: Collection[Row]) -> bool:
    """False while every line would only say that nothing is known yet."""
    return any(each.label.startswith(" ") for each in rows)


def _all(plan: Plan) -> Iterator[Row]:
    for part in plan.parts:
        yield from _part_rows(part, plan)
    for layer in plan.layers:
        yield from _layer_rows(layer, plan)
    yield from _bought_rows(plan)


def _part_rows(part: Part, plan: Plan) -> Iterator[Row]:
    figures: tuple[tuple[str, Figure[Any]], ...] = (
        ("run", part.run),
        ("drop", part.drop),
        ("gathered", part.gathered),
        ("flat", part.flat_made),
        ("fullness", part.fullness),
        ("tape", part.tape),
    )
    known = [(label, figure) for label, figure in figures if figure.value is not None]
    read = _readings(part, plan)
    yield Row(part.name.capitalize(), None if known or read else NOT_YET)
    if read and part.drop.value is None:
        yield Row("  readings", read)
    for label, figure in known:
        level = ", follows the floor" if label == "drop" and part.follows_floor else ""
        yield Row(f"  {label}", figure_words(figure, plan) + level, figure.id)


def _readings(part: Part, plan: Plan) -> str:
    """The drops read so far, in order, while not all of them are."""
    section = plan.job.survey.section.get(part.section)
    read = section.drop if section else ()
    return ", ".join("?" if each is None else value_words(each, plan) for each in read)


def _layer_rows(layer: Layer, plan: Plan) -> Iterator[Row]:
    figures = (("used", layer.used), ("roll", layer.roll))
    known = [(label, figure) for label, figure in figures if figure.value is not None]
    yield Row(TITLES[layer.id], None if known else NOT_YET)
    if layer.cutting is not None:
        best = layer.cutting.best
        yield Row("  widths", f"{sum(each.rows for each in best.uses)}, {joins_words(best.joins)}")
    for label, figure in known:
        yield Row(f"  {label}", figure_words(figure, plan), figure.id)
    if layer.buy.value is not None:
        yield Row("  to buy", bought_words(layer.buy, sold_by(plan, layer.id)), layer.buy.id)
    if layer.cost.value is not None:
        yield Row("  cost", figure_words(layer.cost, plan), layer.cost.id)


def joins_words(joins: int) -> str:
    """`no joins`, `1 join`, `8 joins`."""
    return f"{joins or 'no'} join{'' if joins == 1 else 's'}"


def _bought_rows(plan: Plan) -> Iterator[Row]:
    others = [each for each in plan.purchases if not each.id.startswith("cloth:")]
    if others:
        yield Row("Also to buy")
    for each in others:
        yield Row(f"  {each.what}", each.amount, each.figures[0] if each.figures else None)


def _marked(row: Row, changed: Collection[str], was: Was) -> Row:
    if row.figure is None or row.figure not in changed:
        return row
    before = was.get(row.figure)
    return Row(row.label, row.value, row.figure, True, before if before != row.value else None)


LABEL = 11
"""Least columns of the labels, so that the values are aligned."""


def lines_of(rows: Sequence[Row], columns: int) -> Iterator[Content]:
    """One of each row, as high as it needs."""
    for heading, group in _under_headings(rows):
        yield from ([] if heading is None else [_heading(heading)])
        at = _values_at(group, columns)
        yield from (_line(each, at, columns) for each in group)


def _under_headings(rows: Sequence[Row]) -> Iterator[tuple[Row | None, list[Row]]]:
    """Each heading with its rows; None for rows before the first."""
    heading, group = None, list[Row]()
    for row in rows:
        if row.label.startswith(" "):
            group.append(row)
            continue
        if heading is not None or group:
            yield heading, group
        heading, group = row, []
    yield heading, group


def _heading(row: Row) -> Content:
    value = Content.styled(f"  {plain(row.value)}", "$quiet") if row.value else ""
    return Content.assemble((plain(row.label), "bold"), value)


def _values_at(group: Sequence[Row], columns: int) -> int:
    """The column of the values of a group: after the longest label that leaves space for its own value."""
    whole = (cell_len(each.label) + 1 for each in group if cell_len(each.label) + 1 + cell_len(_value(each)) <= columns)
    return max((LABEL, *whole))


def _line(row: Row, at: int, columns: int) -> Content:
    value = _value(row)
    # Where both do not fit the label is cut, and takes what the value leaves.
    begin = max(min(max(at, cell_len(row.label) + 1), columns - cell_len(value)), LABEL)
    label = Content.styled(filled(cut_to(row.label, begin - 1), begin), "$quiet")
    told = Content.styled(_going_on(value, begin, columns), "bold $accent" if row.changed else "")
    was = f"\n{' ' * begin}{_going_on(f'was {plain(row.was)}', begin, columns)}" if row.was else ""
    return Content.assemble(label, told, (was, "$quiet"))


def _value(row: Row) -> str:
    return f"{plain(row.value or '')}{f'{NO_BREAK_SPACE}{CHANGED}' if row.changed else ''}"


def _going_on(text: str, begin: int, columns: int) -> str:
    """`text` from the column `begin` on, and from there again where it is longer than its place."""
    space = max(columns - begin, LABEL)
    lines = in_lines(text, space) if cell_len(text) > space else [text.replace(NO_BREAK_SPACE, " ")]
    return f"\n{' ' * begin}".join(lines)


USUAL = 28
"""Columns of its lines until its place is known."""


class SidePanel(LineList):
    """The figures, changed ones marked. Headings cannot be selected."""

    @dataclass
    class Asked(Message):
        """Why is this figure what it is?"""

        figure: str

    def __init__(self, id: str) -> None:
        super().__init__(id=id, markup=False)
        self.figures: list[str | None] = []
        self.rows: Sequence[Row] = ()
        self.columns = USUAL
        self.brought: tuple[int, int] | None = None
        """From where it was scrolled to show a change, and to where; None when it was not."""

    def tell(self, rows: Sequence[Row]) -> None:
        """Show `rows`. The line in hand stays on its figure; the rest stays in its place unless all that changed would
        be out of sight: then the first of it is scrolled into sight."""
        if rows == self.rows:
            return
        in_hand = self.figure_in_hand() if self.has_focus else None
        self.rows, self.figures = rows, [each.figure for each in rows]
        self._write(self.figures.index(in_hand) if in_hand in self.figures and in_hand is not None else None)

    def on_resize(self) -> None:
        """Laid out for another width."""
        # The bar that scrolls comes and goes: its column is left free.
        columns = self.size.width - 1 - self.get_component_styles("option-list--option").padding.width
        if columns > 0 and columns != self.columns:
            self.columns = columns
            self._write(self.highlighted)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter, or a click."""
        event.stop()
        figure = self.figures[event.option_index]
        if figure is not None:
            self.post_message(self.Asked(figure))

    def figure_in_hand(self) -> str | None:
        """Id of the figure of the line in hand."""
        return None if self.highlighted is None else self.figures[self.highlighted]

    def _write(self, in_hand: int | None) -> None:
        """Lay the rows out and select one of them: the one selected before, else one that changed."""
        lines = list(lines_of(self.rows, self.columns))
        top = self._own_top()
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(
                Option(line, disabled=row.figure is None) for line, row in zip(lines, self.rows, strict=True)
            )
            self.scroll_to(y=top, animate=False, force=True, immediate=True)
            top = self.scroll_offset.y
            ends = list(accumulate(each.plain.count("\n") + 1 for each in lines))
            self.highlighted = self._changed(ends, top) if in_hand is None else in_hand
        self.brought = None if self.scroll_offset.y == top else (top, self.scroll_offset.y)

    def _own_top(self) -> int:
        """The line it is scrolled to, or was before it was scrolled to show a change."""
        now = self.scroll_offset.y
        return self.brought[0] if self.brought is not None and self.brought[1] == now else now

    def _changed(self, ends: Sequence[int], top: int) -> int | None:
        """The first changed row in sight, else the first of all; `ends`: the line behind each row."""
        changed = [place for place, each in enumerate(self.rows) if each.changed]
        begins = [0, *ends]
        in_sight = (each for each in changed if begins[each] >= top and ends[each] <= top + self.size.height)
        return next(in_sight, next(iter(changed), None))
