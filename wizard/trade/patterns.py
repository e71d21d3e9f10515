"""Matched cloth in words: where the first cut lies, what is level, what is lost, what the rules in print would buy."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.cutting.laid import as_cut, bought
from wizard.trade.cutting.repeats import printed_rules
from wizard.trade.cutting.strips import Layout, Piece, Stretch
from wizard.trade.keynames import first_up
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import Layer
from wizard.trade.printing import Ruler, listed, shown
from wizard.trade.stock import cloth_in_words

WHY_OURS = (
    "Ours counts the half repeat where the phase really changes, puts the widths in the order that takes least, and "
    "gives the last width its cut length only."
)


A_AND_B = ("A", "B")
"""The two rows of a half-drop that come to the level edge: the one of the first piece, and half a repeat from it."""


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
    layout, half_drop = layer.cutting.best, layer.rules.repeat.phase == "half-drop"
    repeat = shown(layer.rules.repeat.length, ruler)
    other, up = ("top", "away from") if level == "hem" else ("hem", "towards")
    yield (
        f"Every piece begins, at its nearer mark, with its {level} edge, and its arrow points {up} the squared end: "
        f"so the pattern lies level along the {level} from section to section, all round the bed."
    )
    if half_drop:
        yield from _two_rows(layer, layout, level, ruler)
    else:
        yield f"The row of the pattern at the squared end lies along every {level}. {_ANOTHER.format(repeat=repeat)}"
    for wanted, found in _to_find(layer, layout):
        row = f"row {wanted}" if half_drop else f"the row of the pattern that lies along every {level}"
        yield (
            f"On {listed(found)} first find {row}: it comes within {repeat} of the squared end. The measures there "
            f"hold where it comes last; where it comes sooner, move all of them back by as much. The plan allows for "
            f"the whole {repeat}."
        )
    yield f"Where drops differ, what differs shows along the {other}."
    yield f"Lost to the pattern: {shown(lost_to_pattern(layout), ruler, 'up')}."


_ANOTHER = "Another row is put there by beginning further in, by up to a repeat of {repeat}, which is not in the plan."


def rows_begun(layer: Layer, layout: Layout) -> tuple[str | None, ...]:
    """Which row of a half-drop each piece begins with, `A` or `B`, so that it meets its neighbours; None for other
    cloth."""
    rules = layer.rules
    if rules is None or rules.repeat is None or rules.repeat.phase != "half-drop" or rules.along or not layout.pieces:
        return (None,) * len(layout.pieces)
    first = _first_piece(layer, layout)
    return tuple(A_AND_B[(each.phase - first.phase) % 2] for each in layout.pieces)


def _first_piece(layer: Layer, layout: Layout) -> Piece:
    """The one that sets the level: at the squared end of a length on which nothing is set aside to find it."""
    ids = [each.id for each in layer.stock]
    finds = {each.id for each in layer.stock if _level_is_found_on(each, layout)}
    return min(layout.pieces, key=lambda each: (each.stretch in finds, ids.index(each.stretch), each.start))


def _two_rows(layer: Layer, layout: Layout, level: str, ruler: Ruler) -> Iterator[str]:
    """A half-drop: what the two rows are, and which widths begin with which."""
    repeat = layer.rules.repeat.length if layer.rules and layer.rules.repeat else ZERO
    first = _first_piece(layer, layout).stretch
    where = next(cloth_in_words(each) for each in layer.stock if each.id == first)
    yield (
        f"A half-drop meets at a join where one piece begins half a repeat, {shown(repeat / 2, ruler)}, further on in "
        f"the pattern than the other. So two rows of it lie along the {level}, turn and turn about: A, the row at the "
        f"squared end of {where}, and B, half a repeat on. {_ANOTHER.format(repeat=shown(repeat, ruler))}"
    )
    for stretch in layer.stock:
        begun = {each.row: row for each, row in _on(stretch, layer, layout)}
        told = [_widths(row, [str(width) for width, each in begun.items() if each == row]) for row in A_AND_B]
        if begun:
            yield f"{first_up(cloth_in_words(stretch))}: {'; '.join(each for each in told if each)}."


def _widths(row: str, widths: list[str]) -> str:
    return f"{row} for width{'s' * (len(widths) > 1)} {listed(widths)}" if widths else ""


def _on(stretch: Stretch, layer: Layer, layout: Layout) -> list[tuple[Piece, str | None]]:
    """The pieces of a length along it, each with the row it begins with."""
    begun = zip(layout.pieces, rows_begun(layer, layout), strict=True)
    return sorted((each for each in begun if each[0].stretch == stretch.id), key=lambda each: each[0].start)


def _to_find(layer: Layer, layout: Layout) -> Iterator[tuple[str | None, list[str]]]:
    """Which row is looked for first on which lengths."""
    found: dict[str | None, list[str]] = {}
    for stretch in layer.stock:
        if _level_is_found_on(stretch, layout):
            found.setdefault(_on(stretch, layer, layout)[0][1], []).append(cloth_in_words(stretch))
    yield from found.items()


def _level_is_found_on(stretch: Stretch, layout: Layout) -> bool:
    """True where a repeat is set aside before the first piece of a length."""
    first = min((each.start for each in layout.pieces if each.stretch == stretch.id), default=None)
    before = [each for each in layout.offcuts if each.stretch == stretch.id and each.kind == "repeat"]
    return any(each.start + each.along == first for each in before)
