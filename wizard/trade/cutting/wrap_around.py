"""Wrap-around plans: any number of strips cut one after the other, each beginning in what its forerunner left.

No search over sets of strips is needed, so this holds for as many as there are. A strip cut whole, or begun in a width
of its own, starts a new connected group, so every grouping of strips that stand beside each other in an order is among
the plans of that order. Strips stand in order of their cut lengths, longest first: a width is as long as its first
piece. Orders tried: a few plain ones, then the most promising ones of all, kept from strip to strip (a beam).
McNaughton's rule for preemptive scheduling, with the cost of a join and the least piece added.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from heapq import nsmallest
from itertools import chain
from typing import NamedTuple

from wizard.trade.cutting.chains import joined, plain_orders
from wizard.trade.cutting.grouping import PATIENCE, PATIENT, Choice, Cloth
from wizard.trade.cutting.parting import chained
from wizard.trade.cutting.seams import Seams
from wizard.trade.cutting.sharing import Shape
from wizard.trade.cutting.ticks import Need

KEPT = 4
"""Plans kept from strip to strip in one order."""

EFFORT_EACH = 100
"""What of the effort each order takes that is kept from strip to strip."""

LOOKED_AT = 60_000
"""Orders kept, times the strips squared: about as many plans are looked at."""


class Strung(NamedTuple):
    """Some strips cut one after the other. All in ticks; the lesser of two that hold the same strips is the better."""

    length: int
    joins: int
    taken: int
    """What is taken of the open width."""
    cut: int
    """The length of the open width."""
    area: int
    """Of the strips themselves."""
    done: int = 0
    """The strips, as a bit mask."""
    strip: int = -1
    widths: int = 0
    """Widths begun for the last strip."""
    shares: bool = False
    """True when it has a piece in the width that was open before it."""
    before: Strung | None = None


def wrap_around(needs: Sequence[Need], cloth: Cloth, effort: int, bound: int) -> Choice | None:
    """The shortest plan found, then that of fewest joins; None where there is none. One of length `bound` is enough."""
    wrapping = Wrapping(needs, cloth)
    # A few strips of several cut lengths are searched exactly once there is time: until then the plain orders do.
    searched = len(needs) > PATIENT or effort >= PATIENCE or len({need.cut for need in needs}) == 1
    best: Choice | None = None
    for strung in chain(wrapping.in_plain_orders(), wrapping.in_best_orders(effort) if searched else ()):
        if best is None or (strung.length, strung.joins) < best.key:
            best = wrapping.choice(strung) or best
        if best and best.cost == bound:
            break
    return best


class Wrapping:
    """Strips on a roll, cut one after the other."""

    def __init__(self, needs: Sequence[Need], cloth: Cloth) -> None:
        self.needs, self.usable, self.join = needs, cloth.usable, cloth.join
        self.least = min([need.least for need in needs])
        self.start = Strung(0, 0, self.usable, 0, 0)

    def in_plain_orders(self) -> Iterator[Strung]:
        """The best plan in each of a few orders."""
        yield from filter(None, (self.in_order(order) for order in plain_orders(self.needs)))

    def in_order(self, order: Sequence[int]) -> Strung | None:
        """The best plan in one order."""
        held = [self.start]
        for place in order:
            further = [each for state in held for each in self.added(state, place)]
            held = undominated(further)[:KEPT] if len(further) > 1 else further
        return held[0] if held else None

    def in_best_orders(self, effort: int) -> Iterator[Strung]:
        """The best plan of the orders that lose least from strip to strip."""
        most = max(min(effort // EFFORT_EACH, LOOKED_AT // len(self.needs) ** 2), 1)
        held = [self.start]
        for _ in self.needs:
            further: dict[tuple[int, int, int], Strung] = {}
            for state in held:
                for place in self.next_places(state.done):
                    for each in self.added(state, place):
                        known = further.setdefault((each.done, each.length, each.taken), each)
                        if each.joins < known.joins:
                            further[each.done, each.length, each.taken] = each
            held = nsmallest(most, further.values(), key=self.rank)
        yield from sorted(held)[:1]

    def rank(self, state: Strung) -> tuple[int, int]:
        """Less is better: the area that is in no strip and too narrow to be in one, then joins."""
        room = self.usable - state.taken
        open_area = room * state.cut if room >= self.least else 0
        return state.length * self.usable - state.area - open_area, state.joins

    def next_places(self, done: int) -> Iterable[int]:
        """The strips that may come next: those of the longest cut left, of strips that are alike the first."""
        left = [place for place in range(len(self.needs)) if not done >> place & 1]
        longest = max([self.needs[place].cut for place in left])
        return {self.needs[p]: p for p in reversed(left) if self.needs[p].cut == longest}.values()

    def added(self, state: Strung, place: int) -> list[Strung]:
        """Every way of cutting one more strip: whole or joined, in the open width or from a new one."""
        need, room = self.needs[place], self.usable - state.taken
        if need.flat <= room:
            return [self.further(state, place, 0, 0, state.taken + need.flat, True)]
        begun = self.joined(state, place, room, True) if room >= need.least else []
        if need.flat <= self.usable:
            return [*begun, self.further(state, place, 1, 0, need.flat, False)]
        return [*begun, *self.joined(state, place, self.usable, False)]

    def joined(self, state: Strung, place: int, space: int, shares: bool) -> list[Strung]:
        """A strip in several pieces, the first in so much space: the others in the fewest widths."""
        need, width = self.needs[place], self.usable - self.join
        left = need.net - space + self.join
        more = -(-left // width)
        if need.spans:
            counts = range(more + 1, min(more + 2, need.most) + 1)
            ways = [joined(need, count, self.usable, self.join, space) for count in counts]
            return [self.further(state, place, len(w) - shares, len(w) - 1, w[-1], shares) for w in ways if w]
        # The last piece may have to take more than is left: those before it are then so much narrower.
        tail = max(left - (more - 1) * width + self.join, need.least)
        return [self.further(state, place, more + (not shares), more, tail, shares)] if more < need.most else []

    def further(self, state: Strung, place: int, widths: int, joins: int, taken: int, shares: bool) -> Strung:
        """A plan with one strip more, in so many new widths."""
        need = self.needs[place]
        return Strung(
            state.length + widths * need.cut, state.joins + joins, taken, need.cut if widths else state.cut,
            state.area + need.flat * need.cut, state.done | 1 << place, place, widths, shares, state,
        )  # fmt: skip

    def choice(self, strung: Strung) -> Choice | None:
        """A plan by its connected groups; None where the joins of one cannot be kept clear after all."""
        groups = [self.shaped(widths) for widths in grouped(strung)]
        for mask, shape in groups:
            needs = [self.needs[place] for place in places_of(mask)]
            spanned = any([need.spans for need in needs])
            if spanned and not Seams(needs, shape.shared, shape.pure, self.usable, self.join).solve():
                return None
        return chained(groups)

    def shaped(self, widths: Sequence[Sequence[int]]) -> tuple[int, Shape]:
        """A connected group from the strips in each of its widths."""
        mask = sum({1 << place for width in widths for place in width})
        at = {place: number for number, place in enumerate(places_of(mask))}
        shared = tuple([sum([1 << at[place] for place in width]) for width in widths if len(width) > 1])
        pure = [0] * len(at)
        for width in widths:
            if len(width) == 1:
                pure[at[width[0]]] += 1
        length = sum([max([self.needs[place].cut for place in width]) for width in widths])
        return mask, Shape((length, sum(map(len, widths)) - len(at)), shared, tuple(pure))


def undominated(states: Iterable[Strung]) -> list[Strung]:
    """Those that no other matches in length, joins and room together, shortest first."""
    out: list[Strung] = []
    for state in sorted(states):
        if not any([each.joins <= state.joins and each.taken <= state.taken for each in out]):
            out.append(state)
    return out


def grouped(strung: Strung) -> list[list[list[int]]]:
    """For each connected group of a plan, the strips in each of its widths."""
    strips: list[Strung] = []
    at: Strung | None = strung
    while at and at.strip >= 0:
        strips.insert(0, at)
        at = at.before
    groups: list[list[list[int]]] = []
    for each in strips:
        if each.shares:
            groups[-1][-1].append(each.strip)
            groups[-1] += [[each.strip] for _ in range(each.widths)]
        else:
            groups.append([[each.strip] for _ in range(each.widths)])
    return groups


def places_of(mask: int) -> list[int]:
    """The strips of a set."""
    return [place for place in range(mask.bit_length()) if mask >> place & 1]
