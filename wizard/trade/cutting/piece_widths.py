"""From a plan to pieces: how wide each piece is and which width of cloth it is cut from.

The pieces of a shape get their widths by a flow of cloth; with whole or half widths each strip gets a fixed number of
them, and the surplus is trimmed off or kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import chain
from itertools import count as counted_from

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.connected_group import Shape
from wizard.trade.cutting.grid_units import CutJob, Demand, fewest_widths, members
from wizard.trade.cutting.no_join_spans import JoinPlacement, Kind, cut_all, fewest_alone, head_and_tail
from wizard.trade.cutting.pareto_partition import Choice


class Row(Struct, frozen=True):
    """One width of cloth, cut across the roll, in grid units."""

    cut: int
    """Its length along the roll: that of its longest piece."""
    parts: tuple[tuple[int, int], ...]
    """Its pieces from the left edge, as (number of the strip, cut width)."""
    stretch: int = 0
    usable: int = 0
    start: int = 0
    """Where its run of sound cloth begins on the stretch."""
    orders: tuple[int, ...] = ()
    """The place of each piece in its strip, where the pattern or spans decide it."""
    right: bool = False
    """True when the last piece is at the right edge."""
    after: int | Fraction = 0
    """Cloth below it that is lost to the repeat."""
    phase: int = 0
    """0 or 1: how many half repeats a half-drop has fallen."""
    before: int | Fraction = 0
    """Cloth above it that is lost in finding the pattern."""

    def renumbered(self, places: Sequence[int], stretch: int | None = None) -> Row:
        """The same width with strip `n` numbered `places[n]`, on another stretch if one is given."""
        parts = tuple([(places[strip], width) for strip, width in self.parts])
        return replace(self, parts=parts, stretch=self.stretch if stretch is None else stretch)


def rows_of(choice: Choice, demands: Sequence[Demand], usable: int, join: int) -> list[Row]:
    """Every width of a plan."""
    groups = [(members(mask), shape) for mask, shape in choice.groups]
    rows = [group_rows(places, [demands[p] for p in places], shape, usable, join) for places, shape in groups]
    return list(chain.from_iterable(rows))


def rows_in_job(job: CutJob, places: Sequence[int], choice: Choice, usable: int) -> list[Row]:
    """Every width of a plan of some strips, with the strips numbered as in the job."""
    rows = rows_of(choice, [job.demands[place] for place in places], usable, job.join)
    return [row.renumbered(places) for row in rows]


def group_rows(places: Sequence[int], demands: list[Demand], shape: Shape, usable: int, join: int) -> list[Row]:
    """The widths of a group: pure ones as full as possible, shared ones with what is left."""
    if any([demand.spans for demand in demands]):
        return seamed_rows(places, demands, shape, usable, join)
    given = shared_widths(demands, shape, usable, join)
    rows = []
    for mask, widths in zip(shape.shared, given, strict=True):
        cut = max([demands[i].cut for i in members(mask)])
        rows.append(Row(cut, tuple([(places[i], widths[i]) for i in members(mask)]), 0, usable))
    for i, (demand, count) in enumerate(zip(demands, shape.pure, strict=True)):
        taken = [widths[i] for widths in given if i in widths]
        left = demand.flat + join * (count + len(taken) - 1) - sum(taken)
        alone = dealt(left, [usable] * count, demand.least)
        rows += [Row(demand.cut, ((places[i], width),), 0, usable) for width in alone]
    return rows


def seamed_rows(places: Sequence[int], demands: list[Demand], shape: Shape, usable: int, join: int) -> list[Row]:
    """The widths of a group whose joins are kept out of spans, so that the order of pieces is decided."""
    placement = JoinPlacement(demands, shape.shared, shape.pure, usable, join)
    if not placement.solve():
        raise AssertionError("a shape the search passed cannot be joined")
    held: list[list[WidthPiece]] = [[] for _ in shape.shared]
    for strip, pieces in placement.pieces.items():
        for order, (row, width) in enumerate(pieces, 1):
            if row < 0:
                held.append([(strip, width, order)])
            else:
                held[row].append((strip, width, order))
    return [row_with(row, demands, places, usable) for row in held]


WidthPiece = tuple[int, int, int]
"""A piece in a width: its strip, its cut width, its place in the strip from the left end."""


def row_with(parts: Sequence[WidthPiece], demands: Sequence[Demand], places: Sequence[int], usable: int) -> Row:
    """A width with its pieces; strip `n` is numbered `places[n]` in the job."""
    cut = max([demands[strip].cut for strip, _, _ in parts])
    named = tuple([(places[strip], width) for strip, width, _ in parts])
    return Row(cut, named, usable=usable, orders=tuple([order for _, _, order in parts]))


def dealt(total: int, rooms: Sequence[int], least: int) -> list[int]:
    """`total` over pieces that are no wider than these rooms and no narrower than `least`: full ones first, with one
    part where that is possible."""
    pieces: list[int] = []
    for after, room in zip(range(len(rooms) - 1, -1, -1), rooms, strict=True):
        pieces.append(min(room, total - sum(pieces) - after * least))
    return pieces


def shared_widths(demands: list[Demand], shape: Shape, usable: int, join: int) -> list[dict[int, int]]:
    """The width of each piece in each shared width: the least piece, then what each strip lacks, sent to where there is
    room."""
    given = [{i: demands[i].least for i in members(mask)} for mask in shape.shared]
    for i, (demand, count) in enumerate(zip(demands, shape.pure, strict=True)):
        has = [row[i] for row in given if i in row]
        lack = demand.flat + join * (count + len(has) - 1) - count * usable - sum(has)
        while lack > 0:
            lack -= augment(given, demands, usable, i, lack)
    return given


def augment(given: list[dict[int, int]], demands: list[Demand], usable: int, strip: int, wanted: int) -> int:
    """Give up to `wanted` more to `strip`, moving cloth of others to other widths where needed; return what it got.

    The shortest such chain is found breadth first; there is one, since the search passed the shape.
    """
    came: dict[int, tuple[int, int]] = {number: (-1, strip) for number, row in enumerate(given) if strip in row}
    queue = list(came)
    for number in queue:
        row = given[number]
        room = usable - sum(row.values())
        if room > 0:
            return move_along_chain(given, demands, came, number, min(room, wanted))
        for other in row:
            if row[other] > demands[other].least:
                further = [n for n, each in enumerate(given) if other in each and n not in came]
                came.update((n, (number, other)) for n in further)
                queue += further
    raise AssertionError("a shape the search passed cannot be cut")


def move_along_chain(
    given: list[dict[int, int]], demands: list[Demand], came: dict[int, tuple[int, int]], number: int, amount: int
) -> int:
    """Move cloth along the chain that ends at width `number`: what every link can spare, at most `amount`."""
    before, strip = came[number]
    if before >= 0:
        spare = given[before][strip] - demands[strip].least
        amount = move_along_chain(given, demands, came, before, min(amount, spare))
        given[before][strip] -= amount
    given[number][strip] += amount
    return amount


def halves(demand: Demand, usable: int, join: int) -> int:
    """The least number of half widths that give a strip; a half is rounded down to the mark."""
    fewest = 1 if demand.flat <= usable // 2 else 2
    return next(number for number in counted_from(fewest) if capacity(number, usable, join) >= demand.flat)


def halves_of(demand: Demand, usable: int, join: int, *, half: bool) -> int:
    """The same where whole widths count as two halves, unless the policy is `half` widths."""
    return halves(demand, usable, join) if half else 2 * (fewest_widths(demand, usable, join) or 1)


def halved(demand: Demand, usable: int, join: int) -> bool:
    """True when the policy can give a strip: no half that is joined to another piece is under the least piece."""
    if usable <= join:
        return demand.flat <= usable
    count = halves(demand, usable, join)
    return count % 2 == 0 or count == 1 or usable // 2 >= demand.least


def capacity(count: int, usable: int, join: int) -> int:
    """The flat width that this many halves give: pairs are whole widths, and each piece but one takes a join."""
    return count // 2 * usable + count % 2 * (usable // 2) - join * (-(-count // 2) - 1)


def fixed_rows(job: CutJob, places: Sequence[int], usable: int, *, matched: bool = False) -> list[Row]:
    """The widths of the strips at `places`, for a policy of whole or half widths on cloth this wide. `matched`: joins
    must meet at selvedges, so only outer pieces are trimmed where that is possible."""
    demands, join, half = job.demands, job.join, job.rules.policy == "half widths"
    rows: list[Row] = []
    odd: list[tuple[int, int]] = []
    for place in places:
        demand = demands[place]
        if demand.spans:
            rows += kept_clear(demand, place, usable, join, matched=matched)
            continue
        count = halves_of(demand, usable, join, half=half)
        whole, part = divmod(count, 2)
        full = [usable] * whole + [usable // 2] * part
        over = capacity(count, usable, join) - demand.flat
        widths = full if job.rules.surplus == "keep" else trimmed(full, over, demand.least)
        rows += [Row(demand.cut, ((place, width),), usable=usable) for width in widths[:whole]]
        odd += [(place, width) for width in widths[whole:]]
    return rows + paired(demands, odd, usable)


def kept_clear(demand: Demand, place: int, usable: int, join: int, *, matched: bool) -> list[Row]:
    """Whole widths for a strip with spans where no join may fall, trimmed to suit them; none where `matched` and
    trimming the outer ones is not enough."""
    if matched:
        widths = outer_trimmed(demand, usable, join)
    else:
        kind = Kind(usable, fewest_alone(demand, usable, join) or 1)
        widths = [width for _, width in cut_all(demand, join, [kind]) or ()]
    return [Row(demand.cut, ((place, width),), usable=usable, orders=(n,)) for n, width in enumerate(widths, 1)]


def outer_trimmed(demand: Demand, usable: int, join: int) -> Sequence[int]:
    """The fewest pieces with every join where one may fall, all but the first and the last of them whole."""
    if demand.flat <= usable:
        return [demand.flat]
    fewest = fewest_widths(demand, usable, join) or 2
    counts = range(max(2, fewest), min(demand.most, fewest + 1) + 1)
    return next(filter(None, (head_and_tail(demand, count, usable, join, usable) for count in counts)), ())


def trimmed(full: list[int], over: int, least: int) -> list[int]:
    """The surplus taken equally off the first and the last piece, but never below the least piece; the rest is taken
    off those between."""
    if len(full) == 1:
        return [full[0] - over]
    last = min(over // 2, full[-1] - least)
    first = min(over - last, full[0] - least)
    inner = full[1:-1]
    between = dealt(sum(inner) + first + last - over, inner, least)[::-1]
    return [full[0] - first, *between, full[-1] - last]


def paired(demands: Sequence[Demand], odd: list[tuple[int, int]], usable: int) -> list[Row]:
    """Odd halves two to a width, the longest together: no other pairing takes less cloth."""
    odd = sorted(odd, key=lambda each: -demands[each[0]].cut)
    pairs = [tuple(odd[at : at + 2]) for at in range(0, len(odd), 2)]
    return [Row(demands[pair[0][0]].cut, pair, usable=usable) for pair in pairs]
