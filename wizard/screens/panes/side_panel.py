"""The plan so far, beside the questions: the figures that matter. Enter on a figure asks why."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard.render.figure_text import counted
from wizard.render.plain_text import NO_BREAK_SPACE, cell_len
from wizard.screens.figure_words import NOT_YET, figure_words, value_words
from wizard.screens.option_lists import LineList
from wizard.screens.screen_text import CHANGED, in_lines, plain
from wizard.trade.figures import Figure
from wizard.trade.first_figures import FirstFigures, SectionFigures, estimate_words, first_figures
from wizard.trade.lengths import ZERO
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
    found = [*_all(plan)]
    for place, row in enumerate(found):
        if row.figure in changed:
            before = (was or {}).get(row.figure or "")
            found[place] = replace(row, changed=True, was=before if before != row.value else None)
    return tuple(found)


def anything_known(rows: Collection[Row]) -> bool:
    """False while every line would only say that nothing is known yet."""
    return any(each.label.startswith(" ") for each in rows)


def _all(plan: Plan) -> Iterator[Row]:
    first = first_figures(plan)
    early = {each.part: each for each in first.sections}
    usual = ", usual allowances" if first.usual_allowances and not plan.complete else ""
    for part in plan.parts:
        yield from _part_rows(part, early.get(part.id), usual, plan)
    for layer in plan.layers:
        yield from _layer_rows(layer, plan, first if layer.id == "face" else None)
    others = [each for each in plan.purchases if not each.id.startswith("cloth:")]
    yield from [Row("Also to buy")] if others else []
    yield from (Row(f"  {each.what}", each.amount, each.figures[0] if each.figures else None) for each in others)


def _part_rows(part: Part, early: SectionFigures | None, usual: str, plan: Plan) -> Iterator[Row]:
    figures: dict[str, Figure[Any]] = {"run": part.run, "drop": part.drop}
    if early is not None:
        figures |= {"cut length": early.cut_length, "cut width": early.cut_width, "widths": early.widths}
    figures |= {"gathered": part.gathered, "flat": part.flat_made, "fullness": part.fullness, "tape": part.tape}
    more = {
        "drop": ", follows the floor" if part.follows_floor else "",
        "cut length": usual,
        "cut width": ", without seams",
    }
    known = [*_known(figures, plan, more)]
    # The drops read so far, in order, while not all of them are.
    section = plan.job.survey.section.get(part.section)
    read = ["?" if each is None else value_words(each, plan) for each in (section.drop if section else ())]
    yield Row(part.name.capitalize(), None if known or read else NOT_YET)
    yield from [Row("  readings", ", ".join(read))] if read and part.drop.value is None else []
    yield from known


def _known(figures: Mapping[str, Figure[Any]], plan: Plan, more: Mapping[str, str]) -> Iterator[Row]:
    """The figures with a value, each with its words and what more is said of it."""
    for label, each in figures.items():
        if each.value is not None:
            yield Row(f"  {label}", figure_words(each, plan) + more.get(label, ""), each.id)


def _layer_rows(layer: Layer, plan: Plan, first: FirstFigures | None) -> Iterator[Row]:
    cutting = layer.cutting
    figures: dict[str, Figure[Any]] = {"used": layer.used, "roll": layer.roll, "to buy": layer.buy, "cost": layer.cost}
    known = [*_known(figures, plan, {})]
    if layer.buy.value == ZERO:
        known = [replace(each, value="nothing") if each.label == "  to buy" else each for each in known]
    if cutting is not None:
        widths = f"{sum(each.rows for each in cutting.best.uses)}, {counted(cutting.best.joins, 'join')}"
        known = [Row("  widths", widths), *known]
    elif first is not None and first.estimate is not None:
        known = [Row("  in all", estimate_words(plan, first), first.estimate.id)]
    yield Row(TITLES[layer.id], None if known else NOT_YET)
    yield from known


LABEL = 13
"""Least columns of the labels, so that most values are aligned."""


def line_of(row: Row, columns: int) -> Content:
    """A row, as high as it needs: a label that leaves its value too little space is above it."""
    if not row.label.startswith(" "):
        value = Content.styled(f"  {plain(row.value)}", "$quiet") if row.value else ""
        return Content.assemble((plain(row.label), "bold"), value)
    value = f"{plain(row.value or '')}{f'{NO_BREAK_SPACE}{CHANGED}' if row.changed else ''}"
    label, begin = plain(row.label), max(LABEL, cell_len(row.label) + 1)
    if begin > LABEL and begin + cell_len(value) > columns:
        label, begin = f"\n{UNDER}".join(in_lines(label.strip(), columns - len(UNDER))), len(UNDER) + 2
        label = f"  {label}\n{' ' * begin}"
    told = Content.styled(_going_on(value, begin, columns), "bold $accent" if row.changed else "")
    was = f"\n{' ' * begin}{_going_on(f'was {plain(row.was)}', begin, columns)}" if row.was else ""
    return Content.assemble((label.ljust(begin), "$quiet"), told, (was, "$quiet"))


UNDER = "    "
"""Before what goes on under a label."""


def _going_on(text: str, begin: int, columns: int) -> str:
    """`text` from the column `begin` on, and from there again where it is longer than its place."""
    return f"\n{' ' * begin}".join(in_lines(text, columns - begin))


USUAL = 28
"""Columns of its lines until its place is known."""


class SidePanel(LineList):
    """The figures, changed ones marked. Headings cannot be selected."""

    def __init__(self, id: str) -> None:
        super().__init__(id=id, markup=False)
        self.rows: Sequence[Row] = ()
        self.columns = USUAL

    def tell(self, rows: Sequence[Row]) -> None:
        """Show `rows`. The selected line stays on its figure. The panel scrolls only where the first change would be
        out of sight."""
        if rows == self.rows:
            return
        in_hand, self.rows = self.figure_in_hand() if self.has_focus else None, rows
        wanted = [place for place, each in enumerate(rows) if in_hand and each.figure == in_hand]
        wanted += [place for place, each in enumerate(rows) if each.changed]
        self._write(wanted[0] if wanted else None)

    def on_resize(self) -> None:
        """Laid out for another width."""
        # The bar that scrolls comes and goes: its column is left free.
        columns = self.size.width - 1 - self.get_component_styles("option-list--option").padding.width
        if columns > 0 and columns != self.columns:
            self.columns = columns
            self._write(self.highlighted)

    def figure_in_hand(self) -> str | None:
        """Id of the figure of the selected line."""
        return None if self.highlighted is None else self.rows[self.highlighted].figure

    def _write(self, in_hand: int | None) -> None:
        """Lay the rows out, with one selected."""
        top = self.scroll_offset.y
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(Option(line_of(each, self.columns), disabled=each.figure is None) for each in self.rows)
            self.scroll_to(y=top, animate=False, force=True, immediate=True)
            self.highlighted = in_hand
