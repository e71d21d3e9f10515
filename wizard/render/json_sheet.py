"""The whole plan as JSON. The same plan gives the same JSON, byte for byte.

Kinds of values
    length      {"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}: exact fractions, and as the ruler reads it
    ratio       {"exact": "5/2", "text": "2.5"}
    money       "18.50"
    null        not known yet; the figure of that name under "figures" says what it needs

Some sheets only
    Every key is there whichever sheets are asked for with --only; what stands on none of them is null.
        overview              sections, findings, cautions
        buying                purchases, work
        cutting               sections, layers, work
        making-up, hanging    sections, work
        marks                 sections
        labels                sections, layers
        care                  cautions
        choosing              layers, and of each its fewest_joins, others, ways, advised, constraints and pattern;
                              fullness_steps, fullness_finds, fullness_in_hand, stopped
        workings              figures
    What is not named here is always there.

Top level
    format      1
    plan_mark   short digest of the job, as on every sheet
    date        as it was asked for, or null
    name, unit, ruler, currency   ruler is a length, the finest mark; unit that of every text
    complete    true when nothing is missing and nothing stops a figure
    sections    what is sewn and hung as one, in order: a section, or a part of a split one
        id, section, name, side, left_end, right_end   the ends in words, as seen from the room
        run, gathered, drop, flat, flat_made, tape     lengths; flat is asked for, flat_made is as cut
        fullness                                       ratio, as made
        follows_floor, readings [{at, reading, finished, gap, between (true where nothing was read)}]
        marks_in, marks [{number, tape, flat, drop}]   from the left end; drop only where the hem follows the floor
        fixings {measured_from, spacing, leg, positions [{order, at}], skipped [length],
                 gaps [{from, to}]} or null
        pieces {layer: [number]}                       layer is face, interlining or lining; numbers of its cut
                                                       list, from the section's left end
    layers      face, then the inner ones in use
        id, name, usable, used, roll, buy, cost
        cut [{section, width, length}]                 before joins, on the ruler mark
        needs [{key, words}], refused (reason or null)
        cutting, or null: a layout, as are fewest_joins (or null) and each of others
            way, widths (how many), joins, used, roll, buy, area_bound
            flats [{section, width}]
            proof {least, by, bound, among, fewest_joins, saves (or null: the most of the roll, beside cloth in hand)}
            uses [{stretch, length, widths}]
            pieces [{number, section, order, of, stretch, row, start, end, across, width, length, rip, pattern_row}]
                                                       pattern_row: A or B of a half-drop, at the start, or null
            offcuts [{kind, stretch, start, across, along, width}]
        ways [{id, title, followed, used, buy, cost, joins, look, answers [{key, value}]}]   beside each other;
                                                       answers are what to answer to follow one
        advised {id, reason} or null
        constraints [{id, sentence, buy, used}]        how much more each takes, against the least without it
        pattern, or null where nothing is matched: {level_from, lost, in_print [{rule, used, buy}]}
                                                       in_print: what the half-drop rules found in print would take
    fullness_steps [{roll, fullness, handy, joins, cost}]   fullness is the greatest, handy one of few decimals a
                                                   little below it that takes the same roll; joins are those of handy
    fullness_finds [text]                          what the steps offer beside the fullness as it is
    fullness_in_hand                               ratio, the greatest without buying of what is in hand, or null
    stopped [key]                                  which of these would take too much work beside the plan:
                                                   ways then holds those found, and constraints those they price;
                                                   fullness_steps then holds those nearest to the fullness as it
                                                   is, without a gap; fullness_in_hand is null. Asked for by name,
                                                   with --only choosing, thirty times as much work goes into them
    purchases   [{id, what, amount, cost, figures [id]}]
    work        [{id, stage, title, section, lines, tools, settings, minutes, taken, done, note,
                figures [id], cautions [id],           taken: minutes it took, or null; done: true once it is ticked
                changed [text]}]                       what is different now from what it told when it was ticked
    changed     [{id, title, sentences [text]}]        the finished steps that have changed, those included that the
                                                       plan no longer has
    findings    [{id, level, key, sentence, way_out, kept}]
    cautions    [{id, sentence}]
    missing     [{key, words}]
    figures     {id: {title, value, result, formula, values, rule, source, needs}}: every figure with its why
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Any, Final

from msgspec.structs import replace

from wizard.project.plan_mark import plan_mark
from wizard.render.json_parts import (
    BESIDE,
    BY_NAME,
    FULLNESS,
    WAYS,
    caution_json,
    figure_json,
    fullness_json,
    layer_json,
    need_json,
    section_json,
    value_json,
    ways_json,
)
from wizard.render.sheet_names import TITLES, SheetId
from wizard.trade.compare_ways import LaidWithin, work_in
from wizard.trade.explain import why
from wizard.trade.figures import Figure
from wizard.trade.formatting import Ruler, length_json, ruler_of
from wizard.trade.plan import Finding, Plan, Purchase, Step

FORMAT: Final = 1
"""Goes up when a key changes its meaning or goes away; a new key does not count."""


KEYS: Final[dict[SheetId, tuple[str, ...]]] = {
    "overview": ("sections", "findings", "cautions"),
    "buying": ("purchases", "work"),
    "cutting": ("sections", "layers", "work"),
    "making-up": ("sections", "work"),
    "hanging": ("sections", "work"),
    "marks": ("sections",),
    "labels": ("sections", "layers"),
    "care": ("cautions",),
    "choosing": ("layers",),
    "workings": ("figures",),
}
"""Sheet -> the keys of what stands on it, besides those of choosing."""


def plan_json(plan: Plan, date: str | None = None, only: Collection[SheetId] | None = None) -> dict[str, Any]:
    """The plan as described above: dictionaries, lists, text, whole numbers, true, false and null only.

    `only`: the sheets asked for, else all; what stands on none of them is null.
    """
    ruler, asked = ruler_of(plan.job), frozenset(TITLES if only is None else only)
    written = {key for sheet in asked for key in KEYS[sheet]}
    made = {key: make(plan, ruler) if key in written else None for key, make in PARTS.items()}
    layers, fullness = _choosing(plan, ruler, by_name=only is not None) if "choosing" in asked else _plain(plan, ruler)
    return {
        "format": FORMAT,
        "plan_mark": plan_mark(plan.job),
        "date": date,
        "name": plan.job.name,
        "unit": ruler.unit,
        "ruler": length_json(ruler.mark, ruler),
        "currency": plan.job.currency,
        "complete": plan.complete,
        "sections": made["sections"],
        "layers": layers if "layers" in written else None,
        **fullness,
        "purchases": made["purchases"],
        "work": made["work"],
        "changed": [{"id": each.id, "title": each.title, "sentences": list(each.sentences)} for each in plan.changed],
        "findings": made["findings"],
        "cautions": made["cautions"],
        "missing": [need_json(each) for each in plan.missing],
        "figures": made["figures"],
    }


def _purchase(each: Purchase, ruler: Ruler) -> dict[str, Any]:
    return {
        "id": each.id,
        "what": each.what,
        "amount": each.amount,
        "cost": value_json(each.cost, ruler),
        "figures": list(each.figures),
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "id": step.id,
        "stage": step.stage,
        "title": step.title,
        "section": step.section,
        "lines": list(step.lines),
        "tools": list(step.tools),
        "settings": list(step.settings),
        "minutes": step.minutes,
        "taken": step.taken,
        "done": step.done,
        "note": step.note,
        "figures": list(step.figures),
        "cautions": [each.id for each in step.cautions],
        "changed": list(step.changed),
    }


def _figure(figure: Figure[Any], ruler: Ruler) -> dict[str, Any]:
    reason = why(figure, ruler)
    return {
        "title": figure.title,
        "value": figure_json(figure, ruler),
        "result": reason.result,
        "formula": reason.formula,
        "values": reason.values,
        "rule": reason.says,
        "source": reason.source,
        "needs": [need_json(each) for each in figure.needs],
    }


def _finding(each: Finding) -> dict[str, Any]:
    return {
        "id": each.id,
        "level": each.level,
        "key": each.key,
        "sentence": each.sentence,
        "way_out": each.way_out,
        "kept": each.kept,
    }


def _choosing(plan: Plan, ruler: Ruler, *, by_name: bool) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """The layers with their ways of cutting, and the keys of fullness."""
    work = work_in(plan) * (BY_NAME if by_name else 1)
    lay = LaidWithin(int(BESIDE * work))
    bounded = [replace(each, cutting=lay.with_ways(each.cutting)) for each in plan.layers]
    layers = [layer_json(each, ruler, choosing=True) | ways_json(plan, each, ruler, lay) for each in bounded]
    return layers, fullness_json(plan, ruler, work, lay)


def _plain(plan: Plan, ruler: Ruler) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """The layers without anything to choose, and no keys of fullness."""
    ways = dict.fromkeys(WAYS)
    return [layer_json(each, ruler, choosing=False) | ways for each in plan.layers], dict.fromkeys(FULLNESS)


PARTS: Final[dict[str, Callable[[Plan, Ruler], Any]]] = {
    "sections": lambda plan, ruler: [section_json(plan, part, ruler) for part in plan.parts],
    "purchases": lambda plan, ruler: [_purchase(each, ruler) for each in plan.purchases],
    "work": lambda plan, _: [_step(each) for each in plan.work],
    "findings": lambda plan, _: [_finding(each) for each in plan.findings],
    "cautions": lambda plan, _: [caution_json(each) for each in plan.cautions],
    "figures": lambda plan, ruler: {id: _figure(each, ruler) for id, each in plan.figures.items()},
}
"""Key -> how what stands under it is made of a plan."""
