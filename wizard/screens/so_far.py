"""The plan so far, beside the questions: the figures that matter, in a few lines, each of which answers *why?*"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any, Final

from msgspec import Struct

from wizard.screens.figure_words import NOT_YET, bought_words, figure_words, sold_by, value_words
from wizard.trade.figures import Figure
from wizard.trade.plan import Layer, Part, Plan

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
    """What it was before the last answer; None when it was not known, or is as it was."""


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
