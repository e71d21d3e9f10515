"""On request: what looks wrong, every measure and reading, every position, every figure with its why."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Final

from wizard.render.choosing_sheet import cloth_in_hand, half_drop_rules, pattern_notes, ways_of_cutting
from wizard.render.document import Block, Heading, Note, Pairs, Para, Table, headed, paras, points
from wizard.render.figure_text import (
    LEVELS,
    length_text,
    ratio_text,
    saving_text,
    shop_text,
    unitless,
    unitless_row,
)
from wizard.render.hanging_sheet import fixing_lists
from wizard.render.plan_rows import full_title
from wizard.render.table_sheet import joining, layer_title, offcuts, pieces_text, roll_drawings, why_not
from wizard.trade.cautions import SOURCE, care_of
from wizard.trade.cutting import Layout
from wizard.trade.figures import Explanation, Need, explained
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Finding, Layer, Part, Plan, Reading
from wizard.trade.steps.cut_order import CutPiece, cut_pieces, stretch_name


def workings(plan: Plan) -> list[Block]:
    """All that the sheets for the work leave out; nothing while nothing is known."""
    ruler = ruler_of(plan.job)
    if not plan.figures:
        return []
    return [
        *headed("Findings", 1, [*map(_finding, plan.findings)]),
        *headed("Still to answer", 1, needs(plan.missing)),
        *headed("To find out", 1, needs(plan.later)),
        *section_measures(plan),
        *(each for layer in plan.layers for each in _layer(plan, layer, ruler)),
        *fixing_lists(plan),
        *_care(plan),
        *ways_of_cutting(plan),
        *headed("Every figure", 1, [_why(plan, id, explained(each, ruler)) for id, each in plan.figures.items()]),
    ]


def needs(missing: tuple[Need, ...]) -> list[Block]:
    """What is missing, with its key in the file."""
    return points("missing", (f"{each.words} ({each.key})" for each in missing))


def _why(plan: Plan, id: str, reason: Explanation) -> Note:
    """A figure with its why."""
    # What was given has its own name for a formula: it is not worked from others.
    lines = () if reason.formula == reason.title else (reason.formula, reason.values)
    return Note(full_title(plan, id, reason.title), reason.result, lines, f"{reason.says} ({reason.source})")


def _finding(each: Finding) -> Note:
    level = "Checked and kept" if each.kept else LEVELS[each.level]
    return Note(level, each.sentence, (each.way_out,) if each.way_out else (), f"in the file: {each.key}")


HEADS: Final = ("section", "run", "gathered", "drop", "flat", "fullness", "tape cut")


def section_measures(plan: Plan) -> list[Block]:
    """One row a part, then the readings of each."""
    ruler = ruler_of(plan.job)
    rows = tuple(_row(part, ruler) for part in plan.parts)
    readings = [each for part in plan.parts for each in _readings(part, ruler)]
    return headed("Measures", 1, [Table(HEADS, rows), *readings] if rows else [])


def _row(part: Part, ruler: Ruler) -> tuple[str, ...]:
    flat = part.flat_made if part.flat_made.value else part.flat
    lengths = unitless_row(ruler, part.run.value, part.gathered.value, part.drop.value, flat.value)
    return part.name, *lengths, ratio_text(part.fullness.value), unitless(part.tape.value, ruler, "up")


def _readings(part: Part, ruler: Ruler) -> list[Block]:
    """Where the drop was read, what it was, what the cloth finishes at there and the gap under it."""
    hem = "the hem follows the floor" if part.follows_floor else "level hem"
    title = f"{part.name}: {hem}, measured from the {part.left_is}"
    rows = tuple(_reading(each, ruler) for each in part.readings)
    return headed(title, 2, [Table(("at", "reading", "drop", "gap under hem"), rows, ())] if rows else [])


def _reading(each: Reading, ruler: Ruler) -> tuple[str, ...]:
    at, reading, *others = unitless_row(ruler, each.at, each.reading, each.finished, each.gap)
    return at, "between" if each.between else reading, *others


def _layer(plan: Plan, layer: Layer, ruler: Ruler) -> list[Block]:
    """What a cloth takes, whether that is the least, and every offcut."""
    if layer.cutting is None:
        return []
    best = layer.cutting.best
    return [
        *headed(layer_title(layer), 1, [Pairs((*_cut_sizes(plan, layer, ruler), *amounts(plan, layer, best)))]),
        *headed("Left over", 2, paras(offcuts(layer, best, ruler, ZERO))),
    ]


def _cut_sizes(plan: Plan, layer: Layer, ruler: Ruler) -> Iterator[tuple[str, str]]:
    for part in plan.parts:
        length, width = layer.cut_lengths.get(part.id), layer.cut_widths.get(part.id)
        if length is not None and width is not None:
            long, wide = length_text(length, ruler, "up"), length_text(width, ruler, "up")
            yield part.name, f"{long} long × {wide} wide (flat cut width without seams)"


LEAST_CLOTH: Final = "Is this the least cloth?"
"""The question that `proof_text` answers."""


def amounts(plan: Plan, layer: Layer, best: Layout) -> tuple[tuple[str, str], ...]:
    """What a layer that is laid out takes, what to buy of it, and whether that is the least."""
    ruler = ruler_of(plan.job)
    return (
        ("usable width", length_text(layer.usable, ruler, "down")),
        ("cut", pieces_text(best)),
        ("cloth used", length_text(layer.used, ruler, "up")),
        ("from the roll", length_text(layer.roll, ruler, "sum")),
        ("to buy", shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value)),
        (LEAST_CLOTH, proof_text(best, ruler)),
    )


def proof_text(layout: Layout, ruler: Ruler) -> str:
    """Whether any other way of cutting uses less, by which rules; or the most it could save. Then the lower bound."""
    proof, across = layout.proof, "along" if layout.way == "along" else "across"
    _, _, rules = proof.among.partition(", ")
    within = f" ({rules})" if rules else ""
    minimum = f" Theoretical minimum: {shown(layout.area_bound, ruler, 'down')}."
    if not proof.least:
        return f"perhaps not: another plan{within} could {saving_text(layout, ruler)}.{minimum}"
    joins = ", and none of this length has fewer joins" if proof.fewest_joins else ""
    return f"yes, cut {across} the roll: no other plan uses less{within}{joins}.{minimum}"


LANES: Final = "The cloth is cut lengthwise into lanes. The length of a piece is measured across the cloth."
"""Explains lanes that run along the roll."""


def cutting_plan(plan: Plan, layer: Layer, alone: str) -> Iterator[Block | CutPiece]:
    """A cloth as screens and plain lines tell it, its pieces in cutting order. `alone`: what the cloth in hand gives by
    itself, where that is known."""
    yield Heading(layer_title(layer))
    if layer.cutting is None:
        yield Para(why_not(layer))
        return
    best = layer.cutting.best
    yield Pairs(amounts(plan, layer, best))
    pieces = cut_pieces(plan.layers, layer)
    for length, own in groupby(pieces, key=lambda each: each.piece.stretch):
        yield Heading(f"Cut list: {stretch_name(length)}", 2)
        yield from own
    yield from [Para(LANES)] if best.way == "along" else []
    yield from joining(plan, pieces)
    yield from roll_drawings(plan, layer, best)
    yield from cloth_in_hand(plan, layer, alone)
    yield from half_drop_rules(plan, layer)
    yield from pattern_notes(plan, layer)


PROCESSES: Final = {
    "wash": "washing",
    "bleach": "bleaching",
    "dry": "drying",
    "iron": "ironing",
    "professional": "cleaning",
}


def _care(plan: Plan) -> list[Block]:
    """Why the care label says what it says."""
    rows = tuple((PROCESSES[each.process], "; ".join(each.because)) for each in care_of(plan.job)) if plan.parts else ()
    return headed(f"Care: {SOURCE}", 1, [Pairs(rows)] if rows else [])
