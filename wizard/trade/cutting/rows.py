"""From a shape to pieces: how wide each piece is and which width of cloth it is cut from."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from wizard.trade.cutting.grouping import Choice, groups_of
from wizard.trade.cutting.seams import Seams
from wizard.trade.cutting.sharing import Shape
from wizard.trade.cutting.ticks import Need


class Row(Struct, frozen=True):
    """One width of cloth, cut across the roll. All in ticks."""

    cut: int
    """Its length along the roll: that of its longest piece."""
    parts: tuple[tuple[int, int], ...]
    """Each piece as (number of the strip, cut width), from the left edge."""
    stretch: int = 0
    usable: int = 0
    start: int = 0
    """Where the run of sound cloth it lies in begins on its stretch."""
    orders: tuple[int, ...] = ()
    """Each piece's place in its strip, where the pattern settles it."""
    right: bool = False
    """True when the last piece lies at the right edge."""
    after: int | Fraction = 0
    """Cloth lost below it to the repeat."""
    phase: int = 0
    """0 or 1: by how many half repeats a half-drop has fallen."""
    before: int | Fraction = 0
    """Cloth lost above it to find the level of the pattern."""


def rows_of(choice: Choice, needs: Sequence[Need], usable: int, join: int) -> list[Row]:
    """Every width of a plan."""
    rows = []
    for mask, shape in groups_of(choice):
        if mask & (mask - 1):
            places = [place for place in range(len(needs)) if mask >> place & 1]
            rows += group_rows(places, [needs[place] for place in places], shape, usable, join)
        else:
            rows += lone_rows(mask.bit_length() - 1, needs[mask.bit_length() - 1], shape, usable, join)
    return rows


def lone_rows(place: int, need: Need, shape: Shape, usable: int, join: int) -> list[Row]:
    """The widths of a strip that shares none."""
    if need.spans:
        return seamed_rows([place], [need], shape, usable, join)
    return pure_rows(place, need, (shape.pure[0], []), usable, join)


def group_rows(places: list[int], needs: list[Need], shape: Shape, usable: int, join: int) -> list[Row]:
    """The widths of two strips or more: the pure ones as full as may be, the shared ones filled from what is left."""
    if any([need.spans for need in needs]):
        return seamed_rows(places, needs, shape, usable, join)
    given = shared_widths(needs, shape, usable, join)
    rows = []
    for mask, widths in zip(shape.shared, given, strict=True):
        members = [i for i in range(len(needs)) if mask >> i & 1]
        cut = max([needs[i].cut for i in members])
        rows.append(Row(cut, tuple([(places[i], widths[i]) for i in members]), 0, usable))
    for i, (need, count) in enumerate(zip(needs, shape.pure, strict=True)):
        taken = [widths[i] for widths in given if i in widths]
        rows += pure_rows(places[i], need, (count, taken), usable, join)
    return rows


def pure_rows(place: int, need: Need, cut: tuple[int, list[int]], usable: int, join: int) -> list[Row]:
    """So many widths of one strip alone, beside its pieces of given width in others."""
    count, taken = cut
    left = need.flat + join * (count + len(taken) - 1) - sum(taken)
    return [Row(need.cut, ((place, width),), 0, usable) for width in even_out(left, count, need.least, usable)]


def seamed_rows(places: list[int], needs: list[Need], shape: Shape, usable: int, join: int) -> list[Row]:
    """The widths of a group in which joins are kept out of some spans, so that the order of pieces is settled."""
    seams = Seams(needs, shape.shared, shape.pure, usable, join)
    if not seams.solve():
        raise AssertionError("a shape the search passed cannot be joined")
    held: list[list[tuple[int, int, int, int]]] = [[] for _ in shape.shared]
    for strip, pieces in seams.pieces.items():
        for order, (row, width) in enumerate(pieces, 1):
            piece = (places[strip], width, order, needs[strip].cut)
            if row < 0:
                held.append([piece])
            else:
                held[row].append(piece)
    return [
        Row(
            max(cut for _, _, _, cut in row),
            tuple((strip, width) for strip, width, _, _ in row),
            usable=usable,
            orders=tuple(order for _, _, order, _ in row),
        )
        for row in held
    ]


def even_out(total: int, count: int, least: int, usable: int) -> list[int]:
    """`total` in `count` pieces from `least` to `usable` wide: full ones first, one part if that is possible."""
    pieces = []
    for left in range(count - 1, -1, -1):
        pieces.append(min(usable, total - left * least))
        total -= pieces[-1]
    return pieces


def shared_widths(needs: list[Need], shape: Shape, usable: int, join: int) -> list[dict[int, int]]:
    """The width of each piece in each shared width: the least, then what each strip lacks sent where there is room."""
    given = [{i: need.least for i, need in enumerate(needs) if mask >> i & 1} for mask in shape.shared]
    for i, (need, count) in enumerate(zip(needs, shape.pure, strict=True)):
        has = [row[i] for row in given if i in row]
        lack = need.flat + join * (count + len(has) - 1) - count * usable - sum(has)
        while lack > 0:
            lack -= push(given, needs, usable, i, lack)
    return given


def push(given: list[dict[int, int]], needs: list[Need], usable: int, strip: int, wanted: int) -> int:
    """Give up to `wanted` more to `strip`, moving others' cloth to other widths where it must; return what it got.

    The shortest such chain is found breadth first; one exists, since the search passed the shape (Hall's condition).
    """
    came: dict[int, tuple[int, int]] = {number: (-1, strip) for number, row in enumerate(given) if strip in row}
    queue = list(came)
    for number in queue:
        row = given[number]
        room = usable - sum(row.values())
        if room > 0:
            return shift(given, needs, came, number, min(room, wanted))
        for other in row:
            if row[other] > needs[other].least:
                further = [n for n, each in enumerate(given) if other in each and n not in came]
                came.update((n, (number, other)) for n in further)
                queue += further
    raise AssertionError("a shape the search passed cannot be cut")


def shift(
    given: list[dict[int, int]], needs: list[Need], came: dict[int, tuple[int, int]], number: int, amount: int
) -> int:
    """Move cloth along the chain that ends at width `number`: as much as every link can spare, at most `amount`."""
    chain = []
    while number >= 0:
        before, strip = came[number]
        chain.append((before, number, strip))
        if before >= 0:
            amount = min(amount, given[before][strip] - needs[strip].least)
        number = before
    for before, after, strip in chain:
        given[after][strip] += amount
        if before >= 0:
            given[before][strip] -= amount
    return amount
