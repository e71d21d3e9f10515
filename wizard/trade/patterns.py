"""Matched cloth in words: where the first cut lies, what is level, what is lost, what the rules in print would buy."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.cutting.laid import as_cut, bought
from wizard.trade.cutting.repeats import printed_rules
from wizard.trade.cutting.strips import Layout, Stretch
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import Layer
from wizard.trade.printing import Ruler, listed, shown
from wizard.trade.stock import cloth_in_words

WHY_OURS = (
    "Ours counts the half repeat where the phase really changes, puts the widths in the order that takes least, and "
    "gives the last width its cut length only."
)


class Ruled(Struct, frozen=True):
    """What a half-drop takes by one rule."""

    name: str
    used: Length
    buy: Length


def ruled_in_print(layer: Layer) -> tuple[Ruled, ...]:
    """What each half-drop rule found in print would take for the same widths; none where none applies.

    They are rules for one order from the roll, so cloth in hand and lanes along the roll have none.
    """
    cutting, rules = layer.cutting, layer.rules
    if cutting is None or rules is None or rules.repeat is None or rules.repeat.phase != "half-drop" or rules.along:
        return ()
    roll = next((each for each in layer.stock if each.length is None), None)
    if roll is None or {use.stretch for use in cutting.best.uses} != {roll.id}:
        return ()
    by_rule = printed_rules(widths_of(cutting.best), rules.repeat.length)
    return tuple(Ruled(name, used, _bought(layer, roll, used)) for name, used in by_rule.items())


def _bought(layer: Layer, roll: Stretch, used: Length) -> Length:
    return ZERO if layer.rules is None else bought(layer.rules, as_cut(layer.rules, roll, used))


def widths_of(layout: Layout) -> tuple[Length, ...]:
    """The cut length of every width, each as long as its longest piece."""
    rows: dict[tuple[str, int], Length] = {}
    for piece in layout.pieces:
        where = piece.stretch, piece.row
        rows[where] = max(rows.get(where, ZERO), piece.cut)
    return tuple(rows.values())


def lost_to_pattern(layout: Layout) -> Length:
    """The length of cloth that is left only so that the pattern meets."""
    return total(each.along for each in layout.offcuts if each.kind == "repeat")


def matched_lines(layer: Layer, level: str, ruler: Ruler) -> Iterator[str]:
    """How matched cloth is cut, a sentence each; none where nothing is. `level`: along the `hem` or the `top`."""
    if layer.cutting is None or layer.rules is None or layer.rules.repeat is None or layer.rules.along:
        return
    repeat = shown(layer.rules.repeat.length, ruler)
    other, up = ("top", "away from") if level == "hem" else ("hem", "towards")
    yield (
        f"Every piece begins, at its nearer mark, with its {level} edge, and its arrow points {up} the squared end: "
        f"so the pattern lies level along the {level} from section to section, all round the bed."
    )
    yield (
        f"The row of the pattern at the squared end lies along every {level}. Another row is put there by beginning "
        f"further in, by up to a repeat of {repeat}, which is not in the plan."
    )
    found = [cloth_in_words(each) for each in layer.stock if _level_is_found_on(each, layer.cutting.best)]
    if found:
        yield (
            f"On {listed(found)} first find the row of the pattern that lies along every {level}: it comes "
            f"within {repeat} of the squared end. The measures there hold where it comes last; where it comes sooner, "
            f"move all of them back by as much. The plan allows for the whole {repeat}."
        )
    yield f"Where drops differ, what differs shows along the {other}."
    yield f"Lost to the pattern: {shown(lost_to_pattern(layer.cutting.best), ruler, 'up')}."


def _level_is_found_on(stretch: Stretch, layout: Layout) -> bool:
    """True where a repeat is set aside before the first piece of a length."""
    first = min((each.start for each in layout.pieces if each.stretch == stretch.id), default=None)
    before = [each for each in layout.offcuts if each.stretch == stretch.id and each.kind == "repeat"]
    return any(each.start + each.along == first for each in before)
