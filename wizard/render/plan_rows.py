"""The plan so far, figure by figure in words, for every face: sections first, then the cloth, then the rest."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any, Final, cast

from msgspec import Struct
from msgspec.structs import replace

from wizard.render.figure_text import NOT_YET, money_text, shop_text
from wizard.trade.figures import Figure, spoken
from wizard.trade.first_figures import FirstFigures, SectionFigures, early_figures, estimate_words, first_figures
from wizard.trade.formatting import counted, how_shown, ruler_of, shown
from wizard.trade.job_fields import LayerId
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Layer, Part, Plan
from wizard.trade.sections import section_name
from wizard.trade.steps.cut_order import part_names

TITLES: Final = {"face": "face cloth", "interlining": "interlining", "lining": "lining"}


class Row(Struct, frozen=True):
    """One line."""

    group: str
    """What it is of: `left section`, `face cloth`."""
    label: str = ""
    """Empty for the heading of the group, whose value says that nothing is known yet."""
    value: str = ""
    figure: str | None = None
    """Id of the figure it shows."""
    changed: bool = False
    """True when the last answer changed it."""
    was: str | None = None
    """What it was before the last answer; None when it was not known, or has not changed."""


def figure_words(figure: Figure[Any], plan: Plan) -> str:
    """The figure's value, or that it is not known yet: lengths in the job's unit, at its ruler mark."""
    value, (kind, *names) = figure.value, figure.id.split(".")
    if value is None:
        return NOT_YET
    if kind == "layer" and names[1:] == ["buy"]:
        return shop_text(plan.job, f"cloth.{names[0]}", value)
    if isinstance(value, Length):
        return shown(value, ruler_of(plan.job), how_shown(figure.id))
    return money_text(plan.job, value) if isinstance(value, Decimal) else spoken(value, ruler_of(plan.job))


def full_title(plan: Plan, figure: str, title: str) -> str:
    """The title of a figure, and before it whose it is: `lining, foot section: cut length`."""
    whose = ", ".join(_whose(plan, figure.split(".")))
    return f"{whose}: {title}" if whose and whose not in title else title


def _whose(plan: Plan, names: list[str]) -> Iterator[str]:
    parts = part_names(plan)
    layers = {layer.id: layer.name for layer in plan.layers}
    match names:
        case ["part", part, *_]:
            yield parts.get(part, part)
        case ["section", section, *_]:
            yield section_name(plan.job, section)
        case ["layer", layer, *rest]:
            yield layers.get(cast("LayerId", layer), layer)
            yield from (parts[each] for each in rest if each in parts)


def known_words(figures: Iterable[str], plan: Plan) -> dict[str, str]:
    """Id -> words of those figures whose value is known."""
    known = (plan.figures[each] for each in figures if each in plan.figures)
    return {each.id: figure_words(each, plan) for each in known if each.value is not None}


def figure_of(plan: Plan, id: str) -> Figure[Any]:
    """The plan's own figure; while it has no value, the first figure in its place, worked with what is usual."""
    own = plan.figures.get(id)
    if own is not None and own.value is not None:
        return own
    widths = {each.widths.id: each.widths for each in first_figures(plan).sections}
    early = early_figures(plan.job, plan.figures.get("fullness")).ledger.figures
    return widths.get(id) or early.get(id) or plan.figures[id]


def rows(plan: Plan, changed: Collection[str] = (), was: Mapping[str, str] | None = None) -> tuple[Row, ...]:
    """The plan so far. `changed`: ids of the figures that the last answer changed; `was`: the words of those before."""
    found = [*_all(plan)]
    for place, row in enumerate(found):
        if row.figure in changed:
            before = (was or {}).get(row.figure or "")
            found[place] = replace(row, changed=True, was=before if before != row.value else None)
    return tuple(found)


def _all(plan: Plan) -> Iterator[Row]:
    first = first_figures(plan)
    early = {each.part: each for each in first.sections}
    usual = ", usual allowances" if first.usual_allowances and not plan.complete else ""
    groups = {part.name: [*_of_part(part, early.get(part.id), usual, plan)] for part in plan.parts}
    groups |= {TITLES[each.id]: [*_of_layer(each, plan, first if each.id == "face" else None)] for each in plan.layers}
    for group, own in groups.items():
        yield Row(group, value="" if own else NOT_YET)
        yield from own
    others = [each for each in plan.purchases if not each.id.startswith("cloth:")]
    yield from [Row("also to buy")] if others else []
    yield from (Row("also to buy", each.what, each.amount, next(iter(each.figures), None)) for each in others)


def _of_part(part: Part, early: SectionFigures | None, usual: str, plan: Plan) -> Iterator[Row]:
    section = plan.job.survey.section.get(part.section)
    # The drops read so far, in order, while not all of them are.
    if section and section.drop and part.drop.value is None:
        read = ("?" if each is None else shown(each, ruler_of(plan.job)) for each in section.drop)
        yield Row(part.name, "readings", ", ".join(read))
    figures: dict[str, Figure[Any]] = {"run": part.run, "drop": part.drop}
    if early is not None:
        figures |= {"cut length": early.cut_length, "cut width": early.cut_width, "widths": early.widths}
    figures |= {"gathered": part.gathered, "flat": part.flat_made, "fullness": part.fullness, "tape": part.tape}
    follows = ", follows the floor" if part.follows_floor else ""
    more = {"drop": follows, "cut length": usual, "cut width": ", without seams"}
    yield from _known(part.name, figures, plan, more)


def _known(group: str, figures: Mapping[str, Figure[Any]], plan: Plan, more: Mapping[str, str]) -> Iterator[Row]:
    """The figures with a value, each with its words and what more is said of it."""
    for label, each in figures.items():
        if each.value is not None:
            yield Row(group, label, figure_words(each, plan) + more.get(label, ""), each.id)


def _of_layer(layer: Layer, plan: Plan, first: FirstFigures | None) -> Iterator[Row]:
    group = TITLES[layer.id]
    if layer.cutting is not None:
        best = layer.cutting.best
        yield Row(group, "widths", f"{sum(each.rows for each in best.uses)}, {counted(best.joins, 'join')}")
    elif first is not None and first.estimate is not None:
        yield Row(group, "in all", estimate_words(plan, first), first.estimate.id)
        return
    figures: dict[str, Figure[Any]] = {"used": layer.used, "roll": layer.roll, "to buy": layer.buy, "cost": layer.cost}
    yield from _known(group, figures, plan, {})
