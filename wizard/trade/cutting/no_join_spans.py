"""Joins kept out of the spans where none may fall.

Along the joined-up flat, in net measure, the k-th join is where the first k pieces end. The pieces of a strip may be
joined in any order, so the places that can be reached are worked out over sets of pieces, as intervals. In a plan whose
shared widths form a tree, every strip takes as little as it can from the width it shares with its parent. A width that
closes a loop is split where a span or a least piece suggests it, so a plan may be missed there; nor does a strip get
two pieces in one width, though spans can make that the shorter plan. So a plan that keeps joins clear counts as the
least only where it takes no more than the least without spans.

`clear_order` only changes the order of pieces, where that alone keeps joins out of spans they should avoid.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate
from operator import mul
from typing import TypeVar

from msgspec import Struct

from wizard.trade.cutting.grid_units import Demand, fewest_widths, members

Intervals = list[tuple[int, int]]


class Kind(Struct, frozen=True):
    """Pieces of a strip that are alike: their greatest width, and how many there are."""

    widest: int
    count: int


Cut = tuple[tuple[int, int], ...]
"""The pieces of a strip from its left end: (kind, cut width). Kind -1 is the piece that is kept narrow."""


class Reach:
    """The places where the joins of a strip can fall, from its left end, for every choice of pieces."""

    def __init__(self, demand: Demand, join: int, kinds: Sequence[Kind], spans: Sequence[tuple[int, int]]) -> None:
        self.demand, self.join, self.kinds, self.spans = demand, join, kinds, spans
        self.places: dict[tuple[int, ...], Intervals] = {tuple(0 for _ in kinds): [(0, 0)]}
        # From every choice of pieces to those with one more, fewest first.
        layer = list(self.places)
        while layer:
            further: dict[tuple[int, ...], Intervals] = {}
            for used in layer:
                for kind, each in enumerate(self.kinds):
                    if used[kind] < each.count:
                        more = tuple(n + (place == kind) for place, n in enumerate(used))
                        # Where one more piece can end.
                        slim, widest = self.demand.slim, each.widest - self.join
                        ends = [(low + slim, high + widest) for low, high in self.places[used] if widest >= slim]
                        further.setdefault(more, []).extend(ends)
            for used, found in further.items():
                self.places[used] = self.allowed(found, sum(used) == sum(kind.count for kind in self.kinds))
            layer = list(further)

    def allowed(self, found: Intervals, last: bool) -> Intervals:
        """Intervals merged, kept within the strip and out of the spans; with all pieces used, the end of the strip is
        allowed."""
        out: Intervals = []
        for low, high in sorted((low, min(high, self.demand.net)) for low, high in found if low <= self.demand.net):
            if out and low <= out[-1][1] + 1:
                out[-1] = (out[-1][0], max(out[-1][1], high))
            else:
                out.append((low, high))
        ends = [(low, high) for low, high in out if last and low <= self.demand.net <= high]
        for first, stop in self.spans:
            out = [part for low, high in out for part in ((low, min(high, first - 1)), (max(low, stop + 1), high))
                   if part[0] <= part[1]]  # fmt: skip
        return out + [(self.demand.net, self.demand.net)] * bool(ends)

    def trace(self, used: tuple[int, ...], end: int) -> list[tuple[int, int]]:
        """Pieces (kind, cut width) that end at a reachable place, the widest last."""
        pieces: list[tuple[int, int]] = []
        while any(used):
            used, piece, end = self.back(used, end)
            pieces.insert(0, piece)
        return pieces

    def back(self, used: tuple[int, ...], end: int) -> tuple[tuple[int, ...], tuple[int, int], int]:
        """The last piece that leads to `end`, and what is before it."""
        for kind, each in enumerate(self.kinds):
            if not used[kind]:
                continue
            before = tuple(n - (place == kind) for place, n in enumerate(used))
            for low, high in self.places[before]:
                start = max(low, end - (each.widest - self.join))
                if start <= min(high, end - self.demand.slim):
                    return before, (kind, end - start + self.join), start
        raise AssertionError("a place that was reached cannot be traced")


def cut_all(demand: Demand, join: int, kinds: Sequence[Kind]) -> Cut | None:
    """Pieces of these kinds that make up a strip with every join where one may fall; None where there are none."""
    counts = tuple(kind.count for kind in kinds)
    if sum(counts) == 1:
        widest = next(kind.widest for kind in kinds if kind.count)
        return ((counts.index(1), demand.flat),) if demand.flat <= widest else None
    reach = Reach(demand, join, kinds, demand.spans)
    if not any(low <= demand.net <= high for low, high in reach.places.get(counts, [])):
        return None
    return tuple(reach.trace(counts, demand.net))


def cut_narrow(demand: Demand, join: int, kinds: Sequence[Kind], widest: int) -> tuple[int, Cut] | None:
    """The same with one piece more, as narrow as possible and at most `widest`: its cut width, and all pieces."""
    counts = tuple(kind.count for kind in kinds)
    if not sum(counts):
        return (demand.flat, ((-1, demand.flat),)) if demand.flat <= widest else None
    mirrored = [(demand.net - stop, demand.net - first) for first, stop in demand.spans]
    left, right = Reach(demand, join, kinds, demand.spans), Reach(demand, join, kinds, mirrored)
    best: tuple[int, tuple[int, ...], int, tuple[int, ...]] | None = None
    for used, places in left.places.items():
        rest = tuple(count - n for count, n in zip(counts, used, strict=True))
        for low, high in places:
            for other_low, other_high in right.places.get(rest, []):
                narrow = max(demand.slim, demand.net - other_high - high)
                if narrow <= demand.net - other_low - low and (best is None or narrow < best[0]):
                    best = (narrow, used, max(low, demand.net - other_high - narrow), rest)
    if best is None or best[0] + join > widest:
        return None
    narrow, used, start, rest = best
    after = right.trace(rest, demand.net - start - narrow)[::-1]
    return narrow + join, (*left.trace(used, start), (-1, narrow + join), *after)


class JoinPlacement:
    """The piece widths of a shape, with every join where one may fall."""

    def __init__(
        self, demands: Sequence[Demand], shared: Sequence[int], pure: Sequence[int], usable: int, join: int
    ) -> None:
        self.demands, self.shared, self.pure, self.usable, self.join = demands, shared, pure, usable, join
        self.pieces: dict[int, list[tuple[int, int]]] = {}
        """The pieces of each strip from its left end, as (shared width or -1, cut width)."""
        self.waiting: set[int] = set()
        self.loops = looping(shared)
        self.fixed: dict[int, list[tuple[int, int]]] = {}
        """What each strip gets of the widths that close a loop, as (width, cut width)."""

    def solve(self) -> bool:
        """True when the shape can be cut. Exact where the shared widths form a tree; a width of two strips that closes
        a loop is split at each place that a span or a least piece suggests."""
        if not self.loops:
            return self.as_tree({})
        if len(self.loops) > 1 or self.shared[self.loops[0]].bit_count() > 2:
            return False
        loop = self.loops[0]
        one, other = members(self.shared[loop])
        ways = ({one: [(loop, left)], other: [(loop, self.usable - left)]} for left in self.splits(one, other))
        return any(map(self.as_tree, ways))

    def splits(self, one: int, other: int) -> list[int]:
        """What the first of two strips could get of a width, from what suits either."""
        suits = {*useful_widths(self.demands[one], self.usable, self.join)}
        suits |= {self.usable - each for each in useful_widths(self.demands[other], self.usable, self.join)}
        most = self.usable - self.demands[other].least
        return sorted([each for each in suits if self.demands[one].least <= each <= most])

    def as_tree(self, fixed: dict[int, list[tuple[int, int]]]) -> bool:
        """The same where no width closes a loop, or its split is fixed."""
        self.fixed, self.pieces, self.waiting = fixed, {}, set(range(len(self.demands)))
        while self.waiting:
            if self.strip(min(self.waiting), -1) is None:
                return False
        return True

    def strip(self, strip: int, parent: int) -> int | None:
        """Cut one strip after those beyond it. Returns its width in its parent's (0 without one); None where it cannot
        be cut."""
        self.waiting.discard(strip)
        beyond = {*self.loops, parent}
        rows = [n for n, mask in enumerate(self.shared) if mask >> strip & 1 and n not in beyond]
        rooms = [self.room(row, strip) for row in rows]
        kinds = [Kind(room, 1) for room in rooms if room is not None]
        if len(kinds) < len(rooms):
            return None
        for loop, given in self.fixed.get(strip, ()):
            rows.append(loop)
            kinds.append(Kind(given, 1))
        kinds.append(Kind(self.usable, self.pure[strip]))
        demand, width = self.demands[strip], 0
        if parent < 0:
            cut = cut_all(demand, self.join, kinds)
        else:
            width, cut = cut_narrow(demand, self.join, kinds, self.usable) or (0, None)
        if cut is None:
            return None
        rows.append(-1)
        self.pieces[strip] = [(parent if kind < 0 else rows[kind], each) for kind, each in cut]
        return width

    def room(self, row: int, strip: int) -> int | None:
        """What the others in a row leave for a strip, each taking as little as it can."""
        left = self.usable
        for other in range(len(self.demands)):
            if other == strip or not self.shared[row] >> other & 1:
                continue
            width = self.strip(other, row) if other in self.waiting else None
            if width is None:
                return None
            left -= width
        return left


def looping(shared: Sequence[int]) -> list[int]:
    """The shared widths that connect strips which earlier ones connect already."""
    tied: tuple[int, ...] = ()
    twice: list[int] = []
    for number, mask in enumerate(shared):
        tied, loops = tied_with(tied, mask)
        twice += [number] if loops else []
    return twice


def tied_with(tied: Sequence[int], mask: int) -> tuple[tuple[int, ...], int]:
    """Disjoint sets of connected strips with one set more, and how many connections that makes twice."""
    met = sum([part for part in tied if part & mask]) | mask
    return (*[part for part in tied if not part & mask], met), loops_of(tied, mask)


def loops_of(tied: Sequence[int], mask: int) -> int:
    """How many connections a set of strips makes twice."""
    loops = 0
    for part in tied:
        both = part & mask
        if both & (both - 1):
            loops += both.bit_count() - 1
    return loops


def useful_widths(demand: Demand, usable: int, join: int) -> list[int]:
    """Piece widths that could matter to a strip: the least, and those that end at the edge of a span, or a piece or
    some full widths away from it, from either end."""
    edges = [0, demand.net, *[edge for first, stop in demand.spans for edge in (first - 1, stop + 1)]]
    steps = [0, demand.slim, *[count * (usable - join) for count in range(1, demand.most)]][:5]
    between = {abs(one - other) for one in edges for other in edges}
    return sorted({demand.least, *[abs(each - step) + join for each in between for step in steps]})


def fewest_alone(demand: Demand, usable: int, join: int) -> int | None:
    """The fewest widths that give a strip on its own with every join where one may fall."""
    fewest = 1 if demand.flat <= usable else -(-demand.net // max(usable - join, 1))
    counts = range(fewest, min(demand.most, fewest + 2 * len(demand.spans) + 2) + 1)
    return next((count for count in counts if cut_all(demand, join, [Kind(usable, count)])), None)


def can_be_cut(demand: Demand, usable: int, join: int) -> bool:
    """True when a strip can be cut from widths of this size at all."""
    count = fewest_widths(demand, usable, join)
    joins = not demand.spans or fewest_alone(demand, usable, join) is not None
    return joins and count is not None and count <= demand.most


T = TypeVar("T")

LOOKED_AT = 2_000
"""Choices of pieces looked at for one strip."""

Spans = Sequence[tuple[int, int]]
"""Places (first, last) in net measure, where each piece counts its width less a join, that joins should avoid."""


def clear_order(pieces: Sequence[T], net: Callable[[T], int], spans: Spans) -> list[T]:
    """The pieces from the left end in the first order whose joins avoid the spans: as given, reversed, or any other. As
    given where no order does."""
    for order in (list(pieces), list(pieces)[::-1]):
        if clears([net(each) for each in order], spans):
            return order
    widths = list(dict.fromkeys(net(each) for each in pieces))
    counts = tuple(sum(net(each) == width for each in pieces) for width in widths)
    dead: set[tuple[int, ...]] = set()

    def after(used: tuple[int, ...]) -> list[int] | None:
        """The widths that follow those used already; where a join falls depends only on how many of each these are."""
        if used == counts:
            return []
        for kind, width in enumerate(widths):
            more = tuple(n + (place == kind) for place, n in enumerate(used))
            if more[kind] > counts[kind] or more in dead or len(dead) > LOOKED_AT:
                continue
            end = sum(map(mul, widths, more))
            rest = after(more) if more == counts or not in_span(end, spans) else None
            if rest is not None:
                return [width, *rest]
            dead.add(more)
        return None

    found = after((0,) * len(widths))
    left = {width: [each for each in pieces if net(each) == width] for width in widths}
    return [left[width].pop(0) for width in found] if found else list(pieces)


def clears(nets: Sequence[int], spans: Spans) -> bool:
    """True when pieces of these net widths, in their order, have no join in a span."""
    return not any(in_span(at, spans) for at in accumulate(nets[:-1]))


def in_span(at: int, spans: Spans) -> bool:
    """True for a place where no join should fall."""
    return any(first <= at <= last for first, last in spans)


def head_and_tail(demand: Demand, count: int, usable: int, join: int, space: int) -> tuple[int, ...]:
    """A strip in `count` pieces, its head at most `space` wide and its tail as narrow as that allows; or nothing."""
    ends = demand.flat + join * (count - 1) - (count - 2) * usable
    head = clear(demand, min(space, ends - demand.least), count, usable, join)
    if head < demand.least or not demand.least <= ends - head <= usable:
        return ()
    return (head, *[usable] * (count - 2), ends - head)


def clear(demand: Demand, head: int, count: int, usable: int, join: int) -> int:
    """The widest head, at most `head`, with which no join of a strip of `count` pieces falls in a span."""
    moved = True
    while moved and head >= demand.least:
        moved = False
        for place in range(count - 1):
            at = head - join + place * (usable - join)
            for first, last in demand.spans:
                if first <= at <= last:
                    head, moved = head - (at - first + 1), True
                    at = first - 1
    return head
