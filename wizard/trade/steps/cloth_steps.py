"""From the shop to labelled pieces: buy, wash, look over, square, cut out, label."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Final

from wizard.trade.cutting import Layout, Piece, Rules, Stretch
from wizard.trade.field_names import first_up, owned_in_words
from wizard.trade.formatting import money, number, shown
from wizard.trade.job_fields import Cloth
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Layer, Purchase, Step
from wizard.trade.steps.pattern_matching import matched_lines
from wizard.trade.steps.step_writer import StepWriter
from wizard.trade.stock import cloth_in_words

ONE_WAY: Final = "This cloth is one-way: point every arrow the same way along the roll."


def cloth_steps(write: StepWriter, purchases: Sequence[Purchase]) -> Iterator[Step]:
    """Buying, washing, and everything at the cutting table, layer by layer, as far as they are laid out."""
    if write.layers and purchases and all(each.cutting is not None for each in write.layers):
        yield _buy(write, purchases)
    for layer in write.layers:
        if write.cloth(layer.id).wash == "washed first":
            yield _wash(write, layer)
    for layer in write.layers:
        if layer.cutting is not None:
            layout = layer.cutting.best
            yield _look_over(write, layer, layout)
            yield from _square(write, layer, layout)
            yield _cut(write, layer, layout)
            yield _label(write, layer, layout)


def _buy(write: StepWriter, purchases: Sequence[Purchase]) -> Step:
    lines = (
        *(_purchase(write, each) for each in purchases),
        "Ask the shop to unroll the cloth, and check it for flaws before it is cut.",
    )
    return write.step("buy", lines, figures=(figure for each in purchases for figure in each.figures), minutes=60)


def _purchase(write: StepWriter, purchase: Purchase) -> str:
    cost = "" if purchase.cost is None else f", {write.job.currency or ''}{money(purchase.cost)}"
    return f"{purchase.what}: {purchase.amount}{cost}."


def _wash(write: StepWriter, layer: Layer) -> Step:
    shrinks = [write.ledger.read(each, f"cloth.{layer.id}") for each in (Cloth.warp_shrink, Cloth.weft_shrink)]
    along, across = (f"{number((share.value or Fraction(0)) * 100)} %" for share in shrinks)
    washed = [first_up(owned_in_words(id)) for id, owned in write.cloth(layer.id).owned.items() if owned.washed]
    lines = (
        "Stitch or pink the cut ends so that they do not fray.",
        "Wash and dry the whole cloth before you cut anything, the way you will wash it later.",
        *(f"{each} is washed already: leave it out." for each in washed),
        f"The plan allows for {along} along the roll and {across} across it. Measure before and after; if it differs, "
        "correct the plan.",
        "Press it along the grain, and let it cool flat.",
    )
    return write.step("wash", lines, layer=layer, figures=[each.id for each in shrinks], minutes=90)


def _look_over(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    lines = (
        f"The plan uses {write.mark(layout.used)} of it altogether.",
        "Draw the cloth over a table in good light, right side up. Mark every flaw with a thread at the selvedge.",
        *(
            f"{_name(stretch)}: no piece may touch the damage from {write.mark(start)} to {write.mark(end)}."
            for stretch in layer.stock
            for start, end in stretch.damage
        ),
        "If you find a flaw that the gathers will not hide, enter it as damage before you cut, or measure on past it.",
    )
    return write.step("look-over", lines, layer=layer, figures=(layer.used.id,), minutes=15)


def _name(stretch: Stretch) -> str:
    return first_up(cloth_in_words(stretch))


def _cut_from(layer: Layer, layout: Layout) -> list[Stretch]:
    """Every stretch that pieces are cut from."""
    used = {each.stretch for each in layout.pieces}
    return [each for each in layer.stock if each.id in used]


def _square(write: StepWriter, layer: Layer, layout: Layout) -> Iterator[Step]:
    rough, rules = [stretch for stretch in _cut_from(layer, layout) if not stretch.squared], layer.rules
    if not rough or rules is None:
        return
    # The squaring as it was asked for, though it may be between two marks.
    squaring = shown(rules.squaring, write.ruler, "given")
    taken, owned = _taken(write, rules, squaring), write.cloth(layer.id).owned
    comma = "," if taken != squaring else ""
    just = {each.id: squaring if each.id in owned and owned[each.id].washed else taken for each in rough}
    lines = (
        f"You may take {taken}{comma} off the end to square it. Pull a thread where you can.",
        *(f"{_name(each)}: draw a line across, square to the selvedge, and cut on it." for each in rough),
        *(
            f"{_name(each)}: take off exactly {just[each.id]}, because its damage is measured from there."
            for each in rough
            if each.damage and rules.squaring
        ),
        *(f"{_name(each)}: trim the selvedges to leave {write.mark(each.usable)}." for each in rough),
    )
    figures = ("allowances.squaring", layer.usable.id)
    yield write.step("square", lines, layer=layer, figures=figures, minutes=10 * len(rough))


def _taken(write: StepWriter, rules: Rules, squaring: str) -> str:
    """What squaring may take; it is allowed for in cloth as bought, so of cloth that has shrunk since there is less."""
    if not ZERO < rules.squaring * rules.keeps < rules.squaring:
        return squaring
    return f"{squaring} of cloth as bought, {shown(rules.squaring * rules.keeps, write.ruler, 'down')} once washed"


def _cut(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    lines = (
        *(line for stretch in _cut_from(layer, layout) for line in _cut_list(write, layout, stretch)),
        "As you cut each piece, chalk an arrow on its wrong side that points up.",
        *([ONE_WAY] if write.cloth(layer.id).one_way else []),
        *(_matched(write, layer) if layer.rules is not None and layer.rules.repeat is not None else ()),
    )
    minutes = 10 + 3 * len(layout.pieces)
    return write.step("cut", lines, layer=layer, figures=(layer.usable.id, *_sizes(layer)), minutes=minutes)


def _matched(write: StepWriter, layer: Layer) -> Iterator[str]:
    return matched_lines(layer, write.value(Cloth.match_from, f"cloth.{layer.id}") or "hem", write.ruler)


def _cut_list(write: StepWriter, layout: Layout, stretch: Stretch) -> Iterator[str]:
    """The cut list of one stretch, with the running measure from its squared end."""
    across = layout.way == "cross-cut"
    yield f"{_name(stretch)}, measured from its squared end{'' if across else ' and its left edge'}:"
    pieces = sorted((each for each in layout.pieces if each.stretch == stretch.id), key=lambda each: each.row)
    rows = {row: list(group) for row, group in groupby(pieces, key=lambda each: each.row)}
    if layout.way == "slit":
        lanes = sorted({min(each.across for each in row) for row in rows.values()} - {ZERO})
        yield f"Slit it from end to end, at {', '.join(write.mark(each) for each in lanes)} from its left edge."
    for at, row in rows.items():
        if layout.way == "along":
            yield f"Lane {at}: {_lane(write, row)}. The lane is {_span(write, _across(row))} from the left edge."
        else:
            cut = _span(write, [(each.start, each.cut) for each in row])
            from_left = _span(write, [(each.across, each.width) for each in row])
            place = "" if across else f" along the cloth, {from_left} from the left edge"
            yield f"Width {at}: {_width(write, row)}. Cut from {cut}{place}."


def _span(write: StepWriter, pieces: Sequence[tuple[Length, Length]]) -> str:
    """From where to where pieces lie, each given as (start, size): `1 in to 14 3/8 in`."""
    start, end = min(start for start, _ in pieces), max(start + size for start, size in pieces)
    return f"{write.mark(start)} to {write.mark(end)}"


def _across(lane: Sequence[Piece]) -> list[tuple[Length, Length]]:
    return [(each.across, each.cut) for each in lane]


def _lane(write: StepWriter, pieces: Sequence[Piece]) -> str:
    """What a lane along the roll is cut into."""
    down = sorted(pieces, key=lambda each: (each.start, each.across))
    return "; ".join(
        f"{_sized(write, each)}, {_span(write, [(each.start, each.width)])} along the cloth" for each in down
    )


def _width(write: StepWriter, pieces: Sequence[Piece]) -> str:
    """What a width across the roll is cut into."""
    return "; ".join(_sized(write, each) for each in sorted(pieces, key=lambda each: (each.across, each.start)))


def _sized(write: StepWriter, piece: Piece) -> str:
    """`left section piece 1, 13 3/8 in long × 43 5/16 in wide`."""
    return f"{_piece(write, piece)}, {write.cut(piece.cut)} long × {write.cut(piece.width)} wide"


def _piece(write: StepWriter, piece: Piece) -> str:
    names = {each.id: each.name for each in write.parts}
    return f"{names.get(piece.strip, piece.strip)} piece {piece.order}"


def _label(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    counts = [(part.name, sum(each.strip == part.id for each in layout.pieces)) for part in write.parts]
    lines = (
        "Pin a label to every piece: layer, section, number, and an arrow that points up.",
        "Piece 1 is at the section's left end as you see it from the room.",
        *(f"{name}: {'1 piece' if count == 1 else f'pieces 1 to {count}'}." for name, count in counts),
        "Lay each section's pieces together in order.",
    )
    sizes = (_sized(write, each) for each in layout.pieces)
    minutes = len(layout.pieces)
    return write.step("label", lines, layer=layer, figures=_sizes(layer), minutes=minutes, written=sizes)


def _sizes(layer: Layer) -> tuple[str, ...]:
    """The figures that every piece's size follows from."""
    return tuple(each.id for sizes in (layer.cut_lengths, layer.cut_widths) for each in sizes.values())
