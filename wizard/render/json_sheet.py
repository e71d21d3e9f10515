"""The whole plan as JSON. The same plan gives the same JSON, byte for byte.

Kinds of values
    length      {"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}: exact fractions, and as the ruler reads it
    ratio       {"exact": "5/2", "text": "2.5"}
    money       "18.50"
    null        not known yet; the figure of that name under "figures" says what it needs

Some sheets only
    Every key is there whichever sheets --only names; what is on none of them is null.
        overview              sections, findings, cautions
        shop                  purchases, work
        table                 sections, layers, work
        making-up, hanging    sections, work
        marks, survey         sections
        labels                sections, layers
        care                  cautions
        choosing              layers, and of each its fewest_joins, others, ways, advised, constraints and pattern;
                              fullness_steps, fullness_finds, fullness_in_hand, stopped
        workings              findings, figures
    What is not named here is always there.

Top level
    format      2: since then the numbers of pieces run on over all layers
    plan_mark   short digest of the job, as on every sheet
    cut_mark    short digest of the cut lists, or null
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
        pieces {layer: [number]}                       layer is face, interlining or lining; the pieces' numbers, which
                                                       run on over all layers, from the section's left end
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
    purchases   [{id, what, amount, cost, figures [id], needs, step, unit, price}]   needs and step: length or number
    work        [{id, stage, title, section, lines, listed, tools, settings, minutes, taken, done, note,
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

import re
from collections.abc import Callable, Collection
from decimal import Decimal
from fractions import Fraction
from functools import cache, partial
from operator import attrgetter, itemgetter
from types import NoneType
from typing import Any, Final, cast

from msgspec.structs import replace

from wizard.project.marks import cut_mark, plan_mark
from wizard.render.sheet_names import TITLES, SheetId
from wizard.trade.compare_ways import LaidWithin, LayerPlanner, cloth_value, compare, work_in
from wizard.trade.cutting import Layout, Offcut, measured
from wizard.trade.figures import Figure, explained
from wizard.trade.formatting import How, Ruler, how_shown, length_json, money, number, ruler_of
from wizard.trade.fullness_offers import finds_in_words
from wizard.trade.fullness_steps import in_hand_within, steps_within
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Layer, Part, Plan, Step
from wizard.trade.steps.cut_order import cut_pieces, first_number, in_cutting_order, pieces_of
from wizard.trade.steps.pattern_matching import lost_to_pattern, ruled_in_print

FORMAT: Final = 2
"""Goes up when a key changes its meaning or goes away; a new key does not count."""
SHOWN_ON: Final = {
    "sections": "overview table making-up marks hanging labels survey survey-empty",
    "purchases": "shop",
    "work": "shop table making-up hanging",
    "layers": "table labels choosing",
    "findings": "overview workings",
    "cautions": "overview care",
    "figures": "workings",
}
"""Key -> the sheets that show it, besides those of choosing."""
ALWAYS: Final = ("changed", "missing")
"""The keys that are filled whichever sheets are asked for."""


def plan_json(plan: Plan, date: str | None = None, only: Collection[SheetId] | None = None) -> Json:
    """The plan as described above: dictionaries, lists, text, whole numbers, true, false and null only.

    `only`: the sheets asked for, else all; keys that none of them shows are null.
    """
    ruler, asked = ruler_of(plan.job), frozenset(TITLES if only is None else only)
    filled = {*ALWAYS, *(key for key, sheets in SHOWN_ON.items() if asked.intersection(sheets.split()))}
    parts = {key: make(plan, ruler) if key in filled else None for key, make in PARTS.items()}
    if "choosing" in asked:
        layers, fullness = with_choosing(plan, ruler, by_name=only is not None)
    else:
        layers, fullness = without_choosing(plan, ruler)
    return {
        "format": FORMAT,
        "plan_mark": plan_mark(plan.job),
        "cut_mark": cut_mark(plan) or None,
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
    why = object_json(explained(figure, ruler), "result formula values rule=says source", ruler)
    value = {"title": figure.title, "value": value_json(figure, ruler)}
    return value | why | object_json(figure, "needs(key words)", ruler)


def _objects(part: str, fields: str) -> Callable[[Plan, Ruler], list[Json]]:
    """What makes the objects of a part of the plan."""
    return lambda plan, ruler: [object_json(each, fields, ruler) for each in getattr(plan, part)]


_STEP: Final = "id stage title section lines listed tools settings minutes taken done note figures"


def _step(step: Step, ruler: Ruler) -> Json:
    cautions = [each.id for each in step.cautions]
    return object_json(step, _STEP, ruler) | {"cautions": cautions, "changed": list(step.changed)}


PARTS: Final[dict[str, Callable[[Plan, Ruler], Any]]] = {
    "sections": lambda plan, ruler: [section_json(plan, part, ruler) for part in plan.parts],
    "purchases": _objects("purchases", "id what amount cost figures needs step unit price"),
    "work": lambda plan, ruler: [_step(each, ruler) for each in plan.work],
    "changed": _objects("changed", "id title sentences"),
    "findings": _objects("findings", "id level key sentence way_out kept"),
    "cautions": _objects("cautions", "id sentence"),
    "missing": _objects("missing", "key words"),
    "figures": lambda plan, ruler: {id: _figure(each, ruler) for id, each in plan.figures.items()},
}
"""Key -> what makes its value, in the order in which they are written."""


Json = dict[str, Any]
"""An object of JSON."""
_AS_THEY_ARE: Final = (str, int, NoneType)
"""What JSON holds as it is; true and false are whole numbers to Python."""


def value_json(value: object, ruler: Ruler, how: How = "nearest") -> Any:
    """Any value of a plan; a figure gives its own, rounded as on every sheet. TypeError for one that JSON has not."""
    if isinstance(value, _AS_THEY_ARE):
        return value
    if isinstance(value, Length):
        return length_json(value, ruler, how)
    if isinstance(value, tuple):
        return [value_json(each, ruler, how) for each in value]
    if isinstance(value, Figure):
        return value_json(value.value, ruler, how_shown(value.id))
    if isinstance(value, Fraction):
        return {"exact": str(value), "text": number(value)}
    if isinstance(value, Decimal):
        return money(value)
    raise TypeError(f"no JSON for {type(value).__name__}")


_FIELD: Final = re.compile(r"(\w+)(?:=([\w.]+))?(?::(\w+))?(?:\(((?:[^()]|\([^()]*\))*)\))?")


def object_json(source: object, fields: str, ruler: Ruler, how: How = "nearest") -> Json:
    """An object made of attributes of `source`. `fields` names them, in order: `key`, or `key=attribute` where they
    differ (a number for an item of a tuple); after a colon how a length is rounded in its text if not as `how` says,
    `buy=layout.buy:up`; and in brackets the fields of what is there, or of each item of a list."""
    return {key: _made(get(source), inner, ruler, rounded or how) for key, get, rounded, inner in _parsed(fields)}


def _made(value: object, fields: str, ruler: Ruler, how: How) -> Any:
    if isinstance(value, tuple) and fields:
        return [object_json(each, fields, ruler, how) for each in value]
    return object_json(value, fields, ruler, how) if value is not None and fields else value_json(value, ruler, how)


@cache
def _parsed(fields: str) -> tuple[tuple[str, Callable[[Any], object], How | None, str], ...]:
    """Of each field its key, what reads it, how it is rounded, and the fields inside it."""
    found = []
    for key, name, how, inner in _FIELD.findall(fields):
        get = itemgetter(int(name)) if name.isdecimal() else attrgetter(name or key)
        found.append((key, get, cast("How | None", how or None), inner))
    return tuple(found)


_SECTION: Final = (
    "id section name side left_end=left_is right_end=right_is run gathered drop flat flat_made tape fullness "
    "follows_floor readings(at reading between finished gap) marks_in marks(number tape flat drop) "
    "fixings(measured_from spacing leg positions(order at) skipped gaps(from=0 to=1))"
)


def section_json(plan: Plan, part: Part, ruler: Ruler) -> Json:
    """One part, as described in json_sheet."""
    laid = {each.id: cut_pieces(plan.layers, each) for each in plan.layers if each.cutting is not None}
    pieces = {layer: [each.number for each in pieces_of(part.id, cut)] for layer, cut in laid.items()}
    return object_json(part, _SECTION, ruler) | {"pieces": pieces}


def layer_json(layer: Layer, ruler: Ruler, first: int, *, choosing: bool = True) -> Json:
    """One layer, as described in json_sheet. `first`: the number of its first piece; `choosing` False leaves out the
    layouts it may be chosen from."""
    cutting = layer.cutting
    fewest = cutting.fewest_joins() if cutting and choosing else None
    others = cutting.others() if cutting and choosing else ()
    sizes = ((part_id, layer.cut_widths[part_id], length) for part_id, length in layer.cut_lengths.items())
    return {
        **object_json(layer, "id name usable used roll buy cost", ruler),
        "cut": [object_json(each, "section=0 width=1 length=2", ruler) for each in sizes],
        "needs": [object_json(each, "key words", ruler) for each in layer.needs],
        "refused": layer.refused.reason if layer.refused else None,
        "cutting": _layout(layer, cutting.best, ruler, first) if cutting else None,
        "fewest_joins": _layout(layer, fewest, ruler, first) if fewest else None,
        "others": [_layout(layer, each, ruler, first) for each in others] if choosing else None,
    }


_LAYOUT: Final = (
    "joins used:up roll:sum buy:up area_bound:down flats(section=0 width=1) "
    "proof(least by bound among fewest_joins saves:up) uses(stretch length widths=rows)"
)
_PIECE: Final = (
    "number section=piece.strip order=piece.order of stretch=piece.stretch row=piece.row "
    "start=piece.start end across=piece.across width=piece.width length=piece.cut rip=piece.rip_side pattern_row=begins"
)


def _layout(layer: Layer, layout: Layout, ruler: Ruler, first: int) -> Json:
    return {
        "way": layout.way,
        "widths": sum(each.rows for each in layout.uses),
        **object_json(layout, _LAYOUT, ruler),
        "pieces": [object_json(each, _PIECE, ruler) for each in in_cutting_order(layer, layout, first)],
        "offcuts": [_offcut(each, ruler) for each in layout.offcuts],
    }


def _offcut(each: Offcut, ruler: Ruler) -> Json:
    how: How = "given" if each.kind == "squaring" else "nearest"
    return object_json(each, "kind stretch start across along width", ruler, how)


WAYS: Final = ("ways", "advised", "constraints", "pattern")
"""The keys of a layer that choosing adds."""
FULLNESS: Final = ("fullness_steps", "fullness_finds", "fullness_in_hand", "stopped")
"""The keys of the plan that choosing adds."""
BESIDE: Final = Fraction(3, 2)
"""All that is laid out beside the plan may take this many times the plan's own work, the ways of cutting first."""
IN_HAND: Final = Fraction(1, 2)
"""At least this many times that work goes into the fullness that the cloth in hand allows."""
STEPS: Final = Fraction(1, 4)
"""At least this many times that work goes into the fullness steps."""
BY_NAME: Final = 30
"""All of that is multiplied by this where the sheet is asked for by its name."""


def without_choosing(plan: Plan, ruler: Ruler) -> tuple[list[Json], Json]:
    """The layers with nothing to choose from, and the keys of fullness, all null."""
    bare = (layer_json(each, ruler, first_number(plan.layers, each), choosing=False) for each in plan.layers)
    return [each | dict.fromkeys(WAYS) for each in bare], dict.fromkeys(FULLNESS)


def with_choosing(plan: Plan, ruler: Ruler, *, by_name: bool) -> tuple[list[Json], Json]:
    """The layers with their ways of cutting, and the keys of fullness; as described in json_sheet."""
    work = work_in(plan) * (BY_NAME if by_name else 1)
    lay = LaidWithin(plan, int(BESIDE * work))
    bounded = [replace(each, cutting=lay.with_ways(each.cutting)) for each in plan.layers]
    layers = [
        layer_json(each, ruler, first_number(plan.layers, each)) | _ways(plan, each, ruler, lay) for each in bounded
    ]
    return layers, _fullness(plan, ruler, work, lay)


_WAY: Final = (
    "id title followed used=layout.used:up buy=layout.buy:up cost joins=layout.joins look answers(key=0 value=1)"
)


def _ways(plan: Plan, layer: Layer, ruler: Ruler, lay: LayerPlanner) -> Json:
    found = compare(plan, layer, lay)
    return {
        "ways": [object_json(each, _WAY, ruler) for each in found.ways],
        "advised": None if found.advised is None else {"id": found.advised.id, "reason": found.reason},
        "constraints": [object_json(each, "id sentence buy=bought:up used:up", ruler) for each in found.prices],
        "pattern": _pattern(plan, layer, ruler),
    }


def _pattern(plan: Plan, layer: Layer, ruler: Ruler) -> Json | None:
    if layer.cutting is None or layer.rules is None or layer.rules.repeat is None:
        return None
    return {
        "level_from": cloth_value(plan, layer, Cloth.match_from),
        "lost": length_json(lost_to_pattern(layer.cutting.best), ruler, "up"),
        "in_print": [object_json(each, "rule=name used:up buy:up", ruler) for each in ruled_in_print(layer)],
    }


def _fullness(plan: Plan, ruler: Ruler, work: int, lay: LaidWithin) -> Json:
    """`work`: that of the whole plan. `lay`: what the ways of cutting were laid out with."""
    left = int(BESIDE * work) - lay.taken
    (in_hand, found_out), took = measured(partial(in_hand_within, plan.basis, max(left, int(IN_HAND * work))))
    steps, all_steps = steps_within(plan.basis, max(left - took, int(STEPS * work)))
    whole = {"ways": lay.whole, "fullness_steps": all_steps, "fullness_in_hand": found_out}
    return {
        "fullness_steps": [object_json(each, "roll fullness handy joins cost", ruler) for each in steps],
        "fullness_finds": list(finds_in_words(plan, steps)),
        "fullness_in_hand": value_json(in_hand, ruler),
        "stopped": [key for key, each in whole.items() if not each],
    }
