"""The plan so far in rows: the figures that matter, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from wizard.prompts.speech import counted, with_capital
from wizard.render.figure_text import length_text, money_text, ratio_text, shop_text
from wizard.trade.formatting import how_shown, ruler_of
from wizard.trade.plan import Layer, Part, Plan


class Row(Struct, frozen=True):
    """One figure in words."""

    group: str
    """What it is a figure of: `left section`, `face cloth`."""
    label: str
    value: str
    figure: str | None
    """Its id; None for what has no reason of its own."""


def rows(plan: Plan) -> tuple[Row, ...]:
    """What is known so far: sections, then cloth, then what else is bought."""
    return tuple(each for part in plan.parts for each in _of_part(part, plan)) + tuple(
        each for each in (*_of_layers(plan), *_bought(plan))
    )


def words_by_figure(plan: Plan) -> Mapping[str, str]:
    """Figure id -> its words, for every row."""
    return {each.figure: each.value for each in rows(plan) if each.figure}


def _of_part(part: Part, plan: Plan) -> Iterator[Row]:
    ruler = ruler_of(plan.job)
    floor = ", follows the floor" if part.follows_floor else ""
    for label, figure, more in (("run", part.run, ""), ("drop", part.drop, floor), ("gathered", part.gathered, "")):
        if figure.value is not None:
            yield Row(part.name, label, length_text(figure, ruler) + more, figure.id)
    if part.flat_made.value is not None:
        yield Row(part.name, "flat", length_text(part.flat_made, ruler), part.flat_made.id)
    if part.fullness.value is not None:
        yield Row(part.name, "fullness", ratio_text(part.fullness.value), part.fullness.id)
    if part.tape.value is not None:
        yield Row(part.name, "tape", length_text(part.tape, ruler, "up"), part.tape.id)


def _of_layers(plan: Plan) -> Iterator[Row]:
    for layer in plan.layers:
        yield from _of_layer(layer, plan)


def _of_layer(layer: Layer, plan: Plan) -> Iterator[Row]:
    ruler = ruler_of(plan.job)
    if layer.cutting is not None:
        best = layer.cutting.best
        widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
        yield Row(layer.name, "cut", f"{widths}, {counted(best.joins, 'join')}", None)
    for label, figure in (("used", layer.used), ("from the roll", layer.roll)):
        if figure.value is not None:
            yield Row(layer.name, label, length_text(figure, ruler, how_shown(figure.id)), figure.id)
    if layer.buy.value is not None:
        yield Row(layer.name, "to buy", shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value), layer.buy.id)
    if layer.cost.value is not None:
        yield Row(layer.name, "cost", money_text(plan.job, layer.cost.value), layer.cost.id)


def _bought(plan: Plan) -> Iterator[Row]:
    for each in plan.purchases:
        if not each.id.startswith("cloth:"):
            yield Row("also to buy", each.what, each.amount, each.figures[0] if each.figures else None)


def so_far_lines(plan: Plan, changed: tuple[str, ...], was: Mapping[str, str]) -> Iterator[str]:
    """The rows with their numbers, a heading for each group; what the last answer changed says so."""
    group = ""
    for number, row in enumerate(rows(plan), 1):
        if row.group != group:
            group = row.group
            yield f"{with_capital(group)}:"
        yield f"{number}. {with_capital(row.label)}: {row.value}{_news(row, changed, was)}"


def _news(row: Row, changed: tuple[str, ...], was: Mapping[str, str]) -> str:
    if row.figure is None or row.figure not in changed:
        return ""
    before = was.get(row.figure)
    return f", changed, was {before}" if before is not None and before != row.value else ", new" if not before else ""
