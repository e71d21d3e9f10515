"""At the cutting table: look over, square, cut out, label."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from wizard.trade.cutting import Layout, Piece, Rules, Stretch
from wizard.trade.formatting import shown
from wizard.trade.keynames import first_up
from wizard.trade.lengths import ZERO
from wizard.trade.plan import Layer, Step
from wizard.trade.steps.kit import Kit
from wizard.trade.steps.pattern_matching import matched_lines
from wizard.trade.stock import cloth_in_words


def cutting_steps(kit: Kit) -> Iterator[Step]:
    """All steps at the cutting table, layer by layer, for those that are laid out."""
    for layer in kit.layers:
        if layer.cutting is not None:
            layout = layer.cutting.best
            yield _look_over(kit, layer, layout)
            yield from _square(kit, layer, layout)
            yield _cut(kit, layer, layout)
            yield _label(kit, layer, layout)


def _look_over(kit: Kit, layer: Layer, layout: Layout) -> Step:
    return kit.step(
        "look-over", "Cutting", f"Look over: {layer.name}",
        (
            f"The plan uses {kit.mark(layout.used)} of it in all.",
            "Draw the cloth over a table in good light, right side up; mark every flaw with a thread at the selvedge.",
            *_damage(kit, layer),
            "A flaw that no gather would hide: enter it as damage, or measure on past it, before cutting.",
        ),
        of=(layer.id,), figures=(layer.used.id,), tools=("good light", "bright thread", "tape measure"), minutes=15,
    )  # fmt: skip


def _damage(kit: Kit, layer: Layer) -> Iterator[str]:
    for stretch in layer.stock:
        for start, end in stretch.damage:
            yield f"{_name(stretch)}: no piece may touch it from {kit.mark(start)} to {kit.mark(end)}."


def _name(stretch: Stretch) -> str:
    return first_up(cloth_in_words(stretch))


def _used(layer: Layer, layout: Layout) -> list[Stretch]:
    """Every stretch that is cut from."""
    cut_from = {each.stretch for each in layout.pieces}
    return [each for each in layer.stock if each.id in cut_from]


def _square(kit: Kit, layer: Layer, layout: Layout) -> Iterator[Step]:
    rough = [stretch for stretch in _used(layer, layout) if not stretch.squared]
    if not rough or layer.rules is None:
        return
    yield kit.step(
        "square", "Cutting", f"Square the end: {layer.name}",
        (
            f"Squaring may take {_squaring(kit, layer.rules)} off the end: where a thread can be pulled, pull one.",
            *(f"{_name(each)}: draw a line across, square to the selvedge, and cut on it." for each in rough),
            *(
                f"{_name(each)}: take off just {_exactly(kit, layer.rules)}, for where its damage lies is reckoned "
                "from there."
                for each in rough
                if each.damage and layer.rules.squaring
            ),
            *(f"{_name(each)}: {kit.mark(each.usable)} is left once the selvedges are trimmed." for each in rough),
        ),
        of=(layer.id,), figures=("allowances.squaring", layer.usable.id),
        tools=("set square or long ruler", "chalk", "shears"), minutes=10 * len(rough),
    )  # fmt: skip


def _squaring(kit: Kit, rules: Rules) -> str:
    """How much may go; it is allowed for in cloth as bought, so of cloth that has shrunk since there is less."""
    if not ZERO < rules.squaring * rules.keeps < rules.squaring:
        return _exactly(kit, rules)
    washed = shown(rules.squaring * rules.keeps, kit.ruler, "down")
    return f"{_exactly(kit, rules)} of cloth as bought, {washed} once it is washed,"


def _exactly(kit: Kit, rules: Rules) -> str:
    """The squaring as it was asked for, though it may lie between two marks."""
    return shown(rules.squaring, kit.ruler, "given")


def _cut(kit: Kit, layer: Layer, layout: Layout) -> Step:
    return kit.step(
        "cut", "Cutting", f"Cut out: {layer.name}",
        (
            *(line for stretch in _used(layer, layout) for line in _list(kit, layout, stretch)),
            "Chalk an arrow for the way up on the wrong side of every piece as it is cut.",
            *_nap(kit, layer),
            *_matched(kit, layer),
        ),
        of=(layer.id,), figures=(layer.usable.id, *_sizes(layer)),
        tools=("shears or rotary cutter and mat", "long ruler", "chalk"), minutes=10 + 3 * len(layout.pieces),
    )  # fmt: skip


def _nap(kit: Kit, layer: Layer) -> Iterator[str]:
    if kit.cloth(layer.id).one_way:
        yield "This cloth is one-way: every arrow points the same way along the roll."


def _matched(kit: Kit, layer: Layer) -> Iterator[str]:
    if layer.rules is not None and layer.rules.repeat is not None:
        level = kit.ledger.read(f"cloth.{layer.id}.match_from").value or "hem"
        yield from matched_lines(layer, level, kit.ruler)


def _list(kit: Kit, layout: Layout, stretch: Stretch) -> Iterator[str]:
    """The cut list of one stretch, with the running measure from its squared end."""
    across = layout.way == "cross-cut"
    yield f"{_name(stretch)}, measured {'' if across else 'from its left edge and '}from its squared end:"
    pieces = sorted((each for each in layout.pieces if each.stretch == stretch.id), key=lambda each: each.row)
    write = {"along": _lane, "cross-cut": _width}.get(layout.way, _beside)
    yield from _rips(kit, layout, pieces)
    for row, group in groupby(pieces, key=lambda each: each.row):
        yield write(kit, row, list(group))


def _width(kit: Kit, row: int, pieces: Sequence[Piece]) -> str:
    """One width across the roll: where it begins and ends, and what it is cut into."""
    start = min(each.start for each in pieces)
    end = max(each.start + each.cut for each in pieces)
    across = sorted(pieces, key=lambda each: (each.across, each.start))
    cuts = "; ".join(f"{_piece(kit, each)}, {kit.cut(each.width)} wide{_shorter(kit, each, end)}" for each in across)
    return f"Width {row}, {kit.mark(start)} to {kit.mark(end)}: {cuts}."


def _shorter(kit: Kit, piece: Piece, end: object) -> str:
    return "" if piece.start + piece.cut == end else f", cut down to {kit.cut(piece.cut)} long"


def _rips(kit: Kit, layout: Layout, pieces: Sequence[Piece]) -> Iterator[str]:
    """Where slit cloth is ripped lengthwise before anything is cut across it."""
    if layout.way == "slit":
        rows = groupby(pieces, key=lambda each: each.row)
        lanes = sorted({min(each.across for each in group) for _, group in rows} - {ZERO})
        yield f"Rip it lengthwise at {', '.join(kit.mark(each) for each in lanes)} from its left edge, all along."


def _beside(kit: Kit, row: int, pieces: Sequence[Piece]) -> str:
    """A width that lies beside others: where it lies both ways, and what it is cut into."""
    left = min(each.across for each in pieces)
    right = max(each.across + each.width for each in pieces)
    return f"{_width(kit, row, pieces)[:-1]}, between {kit.mark(left)} and {kit.mark(right)} across."


def _lane(kit: Kit, row: int, pieces: Sequence[Piece]) -> str:
    """One lane along the roll: its place across the roll, and what it is cut into."""
    left = min(each.across for each in pieces)
    right = max(each.across + each.cut for each in pieces)
    down = sorted(pieces, key=lambda each: (each.start, each.across))
    cuts = "; ".join(
        f"{_piece(kit, each)}, {kit.mark(each.start)} to {kit.mark(each.start + each.width)} along" for each in down
    )
    return f"Lane {row}, {kit.mark(left)} to {kit.mark(right)} across: {cuts}."


def _piece(kit: Kit, piece: Piece) -> str:
    names = {each.id: each.name for each in kit.parts}
    return f"{names.get(piece.strip, piece.strip)} piece {piece.order}"


def _label(kit: Kit, layer: Layer, layout: Layout) -> Step:
    return kit.step(
        "label", "Cutting", f"Label: {layer.name}",
        (
            "Pin a label to every piece: layer, section, number, arrow up.",
            "Piece 1 is at the section's left end, seen from the room.",
            *(_pieces(part.name, layout, part.id) for part in kit.parts),
            "Lay each section's pieces together in order.",
        ),
        of=(layer.id,), figures=_sizes(layer), tools=("labels", "pins"), minutes=len(layout.pieces),
        written=(f"{_piece(kit, each)}: {kit.cut(each.width)} by {kit.cut(each.cut)}" for each in layout.pieces),
    )  # fmt: skip


def _sizes(layer: Layer) -> tuple[str, ...]:
    """The figures that every piece's size follows from."""
    return tuple(each.id for sizes in (layer.cut_lengths, layer.cut_widths) for each in sizes.values())


def _pieces(name: str, layout: Layout, part: str) -> str:
    count = sum(each.strip == part for each in layout.pieces)
    return f"{name}: 1 piece." if count == 1 else f"{name}: pieces 1 to {count}."
