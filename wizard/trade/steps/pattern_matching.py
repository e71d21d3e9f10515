"""Matched cloth in words: where the first cut is, what is level, what is lost, what the rules in print would buy."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from wizard.trade.cutting import Layout, Offcut, Piece, Stretch, as_cut, bought, printed_rules
from wizard.trade.field_names import first_up
from wizard.trade.formatting import Ruler, listed, shown
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan_records import Layer
from wizard.trade.stock import cloth_in_words

WHY_OURS: Final = (
    "Ours counts the half repeat only where the row of the pattern changes. It puts the widths in the order that takes "
    "least, and gives the last width only its cut length."
)
A_AND_B: Final = ("A", "B")
"""The two rows of a half-drop that run along the level edge: the first piece's, and the one half a repeat on."""
ANOTHER: Final = (
    "To put another row there, start further in, by up to a repeat of {repeat}; the plan does not include that."
)


def _is_half_drop(layer: Layer) -> bool:
    """True for cloth that is matched on a half-drop across the roll."""
    rules = layer.rules
    return rules is not None and rules.repeat is not None and rules.repeat.phase == "half-drop" and not rules.along


class Ruled(Struct, frozen=True):
    """What a half-drop takes by one rule."""

    name: str
    used: Length
    buy: Length


def ruled_in_print(layer: Layer) -> tuple[Ruled, ...]:
    """What each half-drop rule found in print would take for the same widths; none where none applies.

    They are rules for one order from the roll, so owned cloth and lanes along the roll have none.
    """
    cutting, rules = layer.cutting, layer.rules
    roll = next((each for each in layer.stock if each.length is None), None)
    if cutting is None or rules is None or roll is None or not _is_half_drop(layer):
        return ()
    if {use.stretch for use in cutting.best.uses} != {roll.id}:
        return ()
    by_rule = printed_rules(widths_of(cutting.best), _repeat_of(layer))
    return tuple(Ruled(name, used, bought(rules, as_cut(rules, roll, used))) for name, used in by_rule.items())


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
    layout = layer.cutting.best
    other, up = ("top", "away from") if level == "hem" else ("hem", "towards")
    yield (
        f"Cut each piece {level} end first, with its arrow pointing {up} the squared end. Then the pattern is level "
        f"along the {level} all round the bed."
    )
    spot, another = _spot(layer, layout, ruler), ANOTHER.format(repeat=shown(_repeat_of(layer), ruler))
    if _is_half_drop(layer):
        yield (
            f"Half-drop: at a join one piece starts half a repeat, {shown(_repeat_of(layer) / 2, ruler)}, further on "
            f"than the other. So two rows of the pattern alternate along the {level}: A is the row at "
            f"{spot}, B is half a repeat further on. {another}"
        )
        yield from _rows_by_width(layer, layout)
    else:
        yield f"The row of the pattern at {spot} runs along every {level}. {another}"
    for stretch in layer.stock:
        if _level_is_found_on(stretch, layer, layout):
            yield from _found(layer, layout, stretch, level, ruler)
    yield f"Differences in drop are taken up at the {other}."
    yield f"Pattern waste: {shown(lost_to_pattern(layout), ruler, 'up')}."


def rows_begun(layer: Layer, layout: Layout) -> tuple[str | None, ...]:
    """Which row of a half-drop each piece begins with, `A` or `B`, so that it meets its neighbours; None for other
    cloth."""
    if not _is_half_drop(layer) or not layout.pieces:
        return (None,) * len(layout.pieces)
    first = _first_piece(layer, layout)
    return tuple(A_AND_B[(each.phase - first.phase) % 2] for each in layout.pieces)


def _first_piece(layer: Layer, layout: Layout) -> Piece:
    """The one that sets the level: at the squared end of a length on which nothing is set aside to find it."""
    ids = [each.id for each in layer.stock]
    finds = {each.id for each in layer.stock if _level_is_found_on(each, layer, layout)}
    return min(layout.pieces, key=lambda each: (each.stretch in finds, ids.index(each.stretch), each.start))


def _rows_by_width(layer: Layer, layout: Layout) -> Iterator[str]:
    """Which widths of each length begin with which row of a half-drop."""
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


def _spot(layer: Layer, layout: Layout, ruler: Ruler) -> str:
    """Where the first piece begins: `the squared end`, with the length's name where there are several."""
    piece = _first_piece(layer, layout)
    stretch = next(each for each in layer.stock if each.id == piece.stretch)
    of = f" of {cloth_in_words(stretch)}" if len(layer.stock) > 1 else ""
    return f"the squared end{of}" if piece.start == ZERO else f"{shown(piece.start, ruler)} from the squared end{of}"


def _found(layer: Layer, layout: Layout, stretch: Stretch, level: str, ruler: Ruler) -> Iterator[str]:
    """How the first row is found on one length, and what follows from where it comes."""
    repeat, (first, row) = shown(_repeat_of(layer), ruler), _on(stretch, layer, layout)[0]
    named = f"row {row}" if row else f"the row of the pattern that runs along every {level}"
    start = first.start - _repeat_of(layer)
    past = "the squared end" if start == ZERO else f"{shown(start, ruler)}, past the damage,"
    yield (
        f"On {cloth_in_words(stretch)} first find {named}: it is within {repeat} of {past} there. The plan allows for "
        f"the whole {repeat}. If you find it sooner, move every measure on this length back by the difference."
    )
    if any(each.start > first.start for each in _waste(layout, stretch, "damage")):
        yield (
            f"If a piece of {cloth_in_words(stretch)} would then touch the damage, start it and all after it {repeat} "
            f"further on: there is enough cloth."
        )


def _repeat_of(layer: Layer) -> Length:
    """The repeat on the cloth that is cut; ZERO for cloth that is not matched."""
    return layer.rules.repeat.length if layer.rules and layer.rules.repeat else ZERO


def _waste(layout: Layout, stretch: Stretch, kind: str) -> list[Offcut]:
    """The waste of one kind on a length."""
    return [each for each in layout.offcuts if (each.stretch, each.kind) == (stretch.id, kind)]


def _level_is_found_on(stretch: Stretch, layer: Layer, layout: Layout) -> bool:
    """True where a whole repeat is set aside before the first piece of a length; less is known beforehand."""
    first = min((each.start for each in layout.pieces if each.stretch == stretch.id), default=None)
    repeat = _repeat_of(layer)
    before = _waste(layout, stretch, "repeat")
    return any(each.along == repeat and each.start + each.along == first for each in before)
