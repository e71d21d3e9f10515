"""Matched cloth in words: where the first cut lies, what is level, what is lost, what the rules in print would buy."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.cutting import Layout, Offcut, Piece, Stretch, as_cut, bought, printed_rules
from wizard.trade.field_names import first_up
from wizard.trade.formatting import Ruler, listed, shown
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import Layer
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
    first = _first_piece(layer, layout)
    if half_drop:
        yield from _two_rows(layer, layout, level, ruler)
    else:
        yield (
            f"The row of the pattern at {_spot(layer, first, ruler)} lies along every {level}. "
            f"{_ANOTHER.format(repeat=repeat)}"
        )
    for row, stretch in _to_find(layer, layout):
        yield from _found(layer, layout, (row, stretch), level, ruler)
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
    finds = {each.id for each in layer.stock if _level_is_found_on(each, layer, layout)}
    return min(layout.pieces, key=lambda each: (each.stretch in finds, ids.index(each.stretch), each.start))


def _two_rows(layer: Layer, layout: Layout, level: str, ruler: Ruler) -> Iterator[str]:
    """A half-drop: what the two rows are, and which widths begin with which."""
    repeat = _repeat_of(layer)
    yield (
        f"A half-drop meets at a join where one piece begins half a repeat, {shown(repeat / 2, ruler)}, further on in "
        f"the pattern than the other. So two rows of it lie along the {level}, turn and turn about: A, the row at "
        f"{_spot(layer, _first_piece(layer, layout), ruler)}, and B, half a repeat on. "
        f"{_ANOTHER.format(repeat=shown(repeat, ruler))}"
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


def _spot(layer: Layer, piece: Piece, ruler: Ruler) -> str:
    """Where a piece begins: `the squared end`, with the length's name where there are several."""
    stretch = next(each for each in layer.stock if each.id == piece.stretch)
    of = f" of {cloth_in_words(stretch)}" if len(layer.stock) > 1 else ""
    return f"the squared end{of}" if piece.start == ZERO else f"{shown(piece.start, ruler)} from the squared end{of}"


def _to_find(layer: Layer, layout: Layout) -> Iterator[tuple[str | None, Stretch]]:
    """Which row is looked for first on which lengths."""
    for stretch in layer.stock:
        if _level_is_found_on(stretch, layer, layout):
            yield _on(stretch, layer, layout)[0][1], stretch


def _found(layer: Layer, layout: Layout, wanted: tuple[str | None, Stretch], level: str, ruler: Ruler) -> Iterator[str]:
    """How a row is found on one length, and what follows from where it comes."""
    row, stretch = wanted
    repeat = shown(_repeat_of(layer), ruler)
    named = f"row {row}" if row else f"the row of the pattern that lies along every {level}"
    pieces = [piece for piece, _ in _on(stretch, layer, layout)]
    start = pieces[0].start - _repeat_of(layer)
    past = "the squared end" if start == ZERO else f"{shown(start, ruler)}, past the damage,"
    yield (
        f"On {cloth_in_words(stretch)} first find {named}: it comes within {repeat} of {past} there. The measures on "
        f"it hold where it comes last; where it comes sooner, move all of them back by as much. The plan allows for "
        f"the whole {repeat}."
    )
    if any(each.start > pieces[0].start for each in layout.offcuts if _is_damage(each, stretch)):
        yield (
            f"Where a piece of {cloth_in_words(stretch)} would so come onto the damage, begin it and all after it "
            f"{repeat} further on: there is room."
        )


def _repeat_of(layer: Layer) -> Length:
    """The repeat as it lies on the cloth that is cut; ZERO for cloth that is not matched."""
    return layer.rules.repeat.length if layer.rules and layer.rules.repeat else ZERO


def _is_damage(each: Offcut, stretch: Stretch) -> bool:
    return (each.stretch, each.kind) == (stretch.id, "damage")


def _level_is_found_on(stretch: Stretch, layer: Layer, layout: Layout) -> bool:
    """True where a whole repeat is set aside before the first piece of a length; less is known beforehand."""
    first = min((each.start for each in layout.pieces if each.stretch == stretch.id), default=None)
    repeat = _repeat_of(layer)
    before = [each for each in layout.offcuts if (each.stretch, each.kind) == (stretch.id, "repeat")]
    return any(each.along == repeat and each.start + each.along == first for each in before)
