"""The fullness steps in lines: a bar for each, what it takes, and what the step in hand would make of the plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from textual.content import Content

from wizard.interview.pending_review import new_findings
from wizard.screens.figure_words import bought_words, figure_words, sold_by, value_words
from wizard.screens.glyphs import DONE, SEWN, TO_SEW
from wizard.screens.panes.side_panel import TITLES
from wizard.screens.screen_text import pair, plain
from wizard.trade.formatting import exact, number, two_decimals
from wizard.trade.fullness_offers import Row
from wizard.trade.fullness_steps import FullnessStep
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Plan


def counted_joins(joins: int) -> str:
    """`no joins`, `1 join`."""
    return f"{joins or 'no'} join{'' if joins == 1 else 's'}"


LEAST, MOST = Fraction(1), Fraction(3)
"""Where a bar begins and where it is full."""
ROLL, FULL, JOINS, COST = 10, 7, 9, 8
"""Columns of the texts beside the bar."""
LEAST_BAR, BAR = 4, 28
"""Shortest and longest useful bar."""
FEW: Final = 2
"""New findings named under the chart; the others are counted."""


def lines_of(rows: Sequence[Row], plan: Plan, columns: int) -> Iterator[Content]:
    """A line for each row: `● 1 5/8 yd   2.5  ━━━━━━╌╌╌  9 joins  $30.06`."""
    space, priced = _space(rows, columns), _priced(rows)
    for row in rows:
        step = row.step
        cost = "" if step.cost is None else value_words(step.cost, plan)
        yield Content.assemble(
            (f"{DONE if row.now else ' '} ", "bold $accent"),
            f"{roll_words(step, plan):<{ROLL}}",
            (f"{two_decimals(step.handy):<{FULL}}", "bold"),
            (_bar(step.handy, space), "$accent" if row.now else "$primary"),
            (f" {counted_joins(step.joins):<{JOINS}}", "$quiet"),
            (cost.rjust(COST) if priced else "", "$quiet"),
        )


def heads(rows: Sequence[Row], columns: int) -> Content:
    """What the columns of `rows` are."""
    bar, cost = "", "cost".rjust(COST) if _priced(rows) else ""
    text = f"  {'buy':<{ROLL}}{'full':<{FULL}}{bar:<{_space(rows, columns)}} {'joins':<{JOINS}}{cost}"
    return Content.styled(text, "$quiet")


def _priced(rows: Sequence[Row]) -> bool:
    """True when there is something in the column of what the steps cost."""
    return any(each.step.cost is not None for each in rows)


def _space(rows: Sequence[Row], columns: int) -> int:
    """How long the bars are; 0 where they would be too short to say anything."""
    space = columns - ROLL - FULL - JOINS - (COST if _priced(rows) else 0) - 3
    return min(space, BAR) if space >= LEAST_BAR else 0


def roll_words(step: FullnessStep, plan: Plan) -> str:
    """The length to buy."""
    return "no roll" if step.roll == ZERO else exact(step.roll, sold_by(plan, "face"))


def _bar(fullness: Fraction, space: int) -> str:
    part = min(max(fullness - LEAST, Fraction(0)) / (MOST - LEAST), Fraction(1))
    full = round(part * space)
    return SEWN * full + TO_SEW * (space - full)


def under(row: Row, plan: Plan, before: Plan, columns: int, *, brief: bool) -> Iterator[Content]:
    """What the plan would be at the selected row, compared with the present one.

    `brief`: the plan so far stands beside it and tells the rest.
    """
    where = "As it is now" if row.now else f"At {number(row.step.handy)}"
    yield Content.assemble((where, "bold"), f"  {_in_all(plan, before)}")
    yield from () if brief else _layers(plan, columns)
    yield from _news(plan, before)


def _layers(plan: Plan, columns: int) -> Iterator[Content]:
    for layer in plan.layers:
        if layer.cutting is None:
            yield pair(TITLES[layer.id], "cannot be laid out so", columns)
            continue
        best = layer.cutting.best
        what = "lanes" if best.way == "along" else "widths"
        cost = "" if layer.cost.value is None else f", {figure_words(layer.cost, plan)}"
        widths = sum(each.rows for each in best.uses)
        buy = bought_words(layer.buy, sold_by(plan, layer.id))
        words = f"{widths} {what}, {counted_joins(best.joins)}, to buy {buy}{cost}"
        yield pair(TITLES[layer.id], words, columns)


def _in_all(plan: Plan, before: Plan) -> str:
    """`in all $100.34, not $91.09`; nothing without prices, and only one sum while the present plan has none."""
    cost, was = (each.figures.get("cost.total") for each in (plan, before))
    if cost is None or cost.value is None:
        return ""
    other = "" if was is None or was.value in (None, cost.value) else f", not {figure_words(was, before)}"
    return f"in all {figure_words(cost, plan)}{other}"


def _news(plan: Plan, before: Plan) -> Iterator[Content]:
    found = [each for each in new_findings(before, plan) if each.level != "note"]
    for each in found[:FEW]:
        yield Content.styled(f"New: {plain(each.sentence)}", "$warning")
    if len(found) > FEW:
        yield Content.styled(f"and {len(found) - FEW} more to look at", "$warning")
