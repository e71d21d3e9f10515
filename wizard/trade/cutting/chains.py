"""Strips cut one after the other from matched cloth.

A join matches only where both its edges are selvedges. So a joined strip has a head, whose right edge is a selvedge,
full widths, and a tail, whose left edge is one; a width that two strips share holds the tail of one on its left, the
head of the next on its right, and between them at most strips that need no join. The plan is a string of strips.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct

from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.tally import spend
from wizard.trade.cutting.ticks import Need, fewest_widths

KEPT = 8
"""Ways kept for each set of strips cut so far."""

STRUNG = 8
"""So many strips are strung in every order; more in a few plain ones."""


class State(Struct, frozen=True):
    """Strips cut so far: cloth stepped over (in the parts of `step`), pieces, and the width still open."""

    cost: int
    pieces: int
    cut: int
    """Length of the open width."""
    held: int
    """What is taken from its left."""
    strip: int = -1
    widths: tuple[int, ...] = ()
    """The pieces of the last strip, head first."""
    shares: bool = False
    """True when its first piece lies in the width that was open before it."""
    before: State | None = None


def string(needs: Sequence[Need], usable: int, join: int, step: Callable[[int], int]) -> State | None:
    """The shortest string of all the strips that is found, `step` being how far apart widths of one length start.

    None where a strip cannot be joined with its inner widths whole and no end under the least piece.
    """
    if len(needs) > STRUNG:
        found = [strung_in(order, needs, usable, join, step) for order in plain_orders(needs)]
        return min([each for each in found if each], key=lambda state: (state.cost, state.pieces), default=None)
    order = sorted(range(len(needs)), key=lambda place: -needs[place].cut)
    ways: dict[int, list[State]] = {0: [State(0, 0, 0, usable)]}
    for done in range(1 << len(order)):
        for place in order:
            if not done >> place & 1:
                held = ways.setdefault(done | 1 << place, [])
                for state in ways[done]:
                    for further in added(state, place, needs[place], usable, join, step):
                        keep(held, further)
        del held[KEPT:]
        ways[done] = ways[done] if done == (1 << len(order)) - 1 else []
    return min(ways[(1 << len(order)) - 1], key=lambda state: (state.cost, state.pieces), default=None)


def plain_orders(needs: Sequence[Need]) -> list[list[int]]:
    """The longest cut first; of one cut length as they are, the widest first, the narrowest first, both in turn."""
    places = range(len(needs))
    wide = sorted(places, key=lambda place: -needs[place].flat)
    turns = [place for pair in zip(wide, wide[::-1], strict=True) for place in pair][: len(wide)]
    orders = dict.fromkeys(map(tuple, (places, wide, wide[::-1], turns)))
    return [sorted(order, key=lambda place: -needs[place].cut) for order in orders]


def strung_in(
    order: Sequence[int], needs: Sequence[Need], usable: int, join: int, step: Callable[[int], int]
) -> State | None:
    """The shortest string in one order."""
    ways = [State(0, 0, 0, usable)]
    for place in order:
        held: list[State] = []
        for state in ways:
            for further in added(state, place, needs[place], usable, join, step):
                keep(held, further)
        ways = held
    return min(ways, key=lambda state: (state.cost, state.pieces), default=None)


def keep(held: list[State], state: State) -> None:
    """Note a way unless another is as good in all."""
    if any(as_good(each, state) for each in held):
        return
    held[:] = sorted((each for each in held if not as_good(state, each)), key=lambda each: (each.cost, each.pieces))[
        :KEPT
    ]
    held.append(state)


def as_good(one: State, other: State) -> bool:
    """True when nothing that follows can make `other` the better."""
    return one.cost <= other.cost and one.pieces <= other.pieces and one.held <= other.held and one.cut >= other.cut


def added(state: State, strip: int, need: Need, usable: int, join: int, step: Callable[[int], int]) -> Iterator[State]:
    """Every way of cutting one more strip: whole or joined, in the open width or from a new one."""
    spend(18)
    longer = max(state.cut, need.cut)
    open_cost = state.cost + (step(longer) - step(state.cut) if state.cut else 0)
    room = usable - state.held if state.cut else 0
    if need.flat <= room:
        yield State(open_cost, state.pieces + 1, longer, state.held + need.flat, strip, (need.flat,), True, state)
    if need.flat <= usable:
        yield State(
            state.cost + step(need.cut), state.pieces + 1, need.cut, need.flat, strip, (need.flat,), False, state
        )
    fewest = max(2, fewest_widths(need, usable, join) or 2)
    for count in range(fewest, min(fewest + 1, need.most) + 1):
        for shares, space in ((True, room), (False, usable)):
            widths = joined(need, count, usable, join, space)
            if widths:
                cost = (open_cost if shares else state.cost) + (count - shares) * step(need.cut)
                yield State(cost, state.pieces + count, need.cut, widths[-1], strip, widths, shares, state)


def joined(need: Need, count: int, usable: int, join: int, space: int) -> tuple[int, ...]:
    """A strip in `count` pieces, its head at most `space` wide and its tail as narrow as that leaves it; or nothing."""
    ends = need.flat + join * (count - 1) - (count - 2) * usable
    head = clear(need, min(space, ends - need.least), count, usable, join)
    if head < need.least or not need.least <= ends - head <= usable:
        return ()
    return (head, *[usable] * (count - 2), ends - head)


def clear(need: Need, head: int, count: int, usable: int, join: int) -> int:
    """The widest head, at most `head`, with which no join of a strip of so many pieces falls in a span."""
    moved = True
    while moved and head >= need.least:
        moved = False
        for place in range(count - 1):
            at = head - join + place * (usable - join)
            for first, last in need.spans:
                if first <= at <= last:
                    head, moved = head - (at - first + 1), True
                    at = first - 1
    return head


def rows_of_string(state: State, needs: Sequence[Need], usable: int) -> list[Row]:
    """The widths of a string, in order, each with its pieces from left to right."""
    strung: list[State] = []
    at: State | None = state
    while at and at.strip >= 0:
        strung.insert(0, at)
        at = at.before
    parts: list[list[tuple[int, int, int]]] = []
    for each in strung:
        for order, width in enumerate(each.widths, 1):
            piece = (each.strip, width, order)
            if order == 1 and each.shares:
                parts[-1].append(piece)
            else:
                parts.append([piece])
    return [matched_row(row, needs, usable) for row in parts]


def matched_row(parts: list[tuple[int, int, int]], needs: Sequence[Need], usable: int) -> Row:
    """A width with its pieces' orders; a head that is to be joined lies at the right edge."""
    return Row(
        max(needs[strip].cut for strip, _, _ in parts),
        tuple((strip, width) for strip, width, _ in parts),
        usable=usable,
        orders=tuple(order for _, _, order in parts),
        right=parts[-1][2] == 1 and parts[-1][1] < needs[parts[-1][0]].flat,
    )
