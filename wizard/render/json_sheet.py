"""The whole plan as JSON. The same plan gives the same JSON, byte for byte.

Kinds of values
    length      {"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}: exact fractions, and as the ruler reads it
    ratio       {"exact": "5/2", "text": "2.5"}
    money       "18.50"
    null        not known yet; the figure of that name under "figures" says what it needs

Some sheets only
    Every key is there whichever sheets --only names; what is on none of them is null.
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

from wizard.project.plan_mark import plan_mark
from wizard.render.json_parts import Json, object_json, section_json, value_json, with_choosing, without_choosing
from wizard.render.sheet_names import TITLES, SheetId
from wizard.trade.explain import explained
from wizard.trade.figures import Figure
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.plan_records import Plan, Step

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
"""Sheet -> the keys of what it shows, besides those of choosing."""
ALWAYS: Final = ("changed", "missing")
"""The keys that are filled whichever sheets are asked for."""


def plan_json(plan: Plan, date: str | None = None, only: Collection[SheetId] | None = None) -> Json:
    """The plan as described above: dictionaries, lists, text, whole numbers, true, false and null only.

    `only`: the sheets asked for, else all; keys that none of them shows are null.
    """
    ruler, asked = ruler_of(plan.job), frozenset(TITLES if only is None else only)
    filled = {*ALWAYS, *(key for sheet in asked for key in KEYS[sheet])}
    parts = {key: make(plan, ruler) if key in filled else None for key, make in PARTS.items()}
    if "choosing" in asked:
        layers, fullness = with_choosing(plan, ruler, by_name=only is not None)
    else:
        layers, fullness = without_choosing(plan, ruler)
    return {
        "format": FORMAT,
        "plan_mark": plan_mark(plan.job),
        "date": date,
        "name": plan.job.name,
        "unit": ruler.unit,
        "ruler": value_json(ruler.mark, ruler),
        "currency": plan.job.currency,
        "complete": plan.complete,
        "sections": parts.pop("sections"),
        "layers": layers if "layers" in filled else None,
        **fullness,
        **parts,
    }


def _figure(figure: Figure[Any], ruler: Ruler) -> Json:
    return {
        "title": figure.title,
        "value": value_json(figure, ruler),
        **object_json(explained(figure, ruler), "result formula values rule=says source", ruler),
        "needs": [object_json(each, "key words", ruler) for each in figure.needs],
    }


def _objects(part: str, fields: str) -> Callable[[Plan, Ruler], list[Json]]:
    """What makes the objects of a part of the plan."""
    return lambda plan, ruler: [object_json(each, fields, ruler) for each in getattr(plan, part)]


def _step(step: Step, ruler: Ruler) -> Json:
    return {
        **object_json(step, "id stage title section lines tools settings minutes taken done note figures", ruler),
        "cautions": [each.id for each in step.cautions],
        "changed": list(step.changed),
    }


PARTS: Final[dict[str, Callable[[Plan, Ruler], Any]]] = {
    "sections": lambda plan, ruler: [section_json(plan, part, ruler) for part in plan.parts],
    "purchases": _objects("purchases", "id what amount cost figures"),
    "work": lambda plan, ruler: [_step(each, ruler) for each in plan.work],
    "changed": _objects("changed", "id title sentences"),
    "findings": _objects("findings", "id level key sentence way_out kept"),
    "cautions": _objects("cautions", "id sentence"),
    "missing": _objects("missing", "key words"),
    "figures": lambda plan, ruler: {id: _figure(each, ruler) for id, each in plan.figures.items()},
}
"""Key -> what makes its value, in the order in which they are written."""
