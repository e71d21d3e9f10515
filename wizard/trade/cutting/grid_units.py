"""Strips in whole grid units, which the search works on. Lengths come in here and go out in `place_pieces`."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import lru_cache
from math import gcd, lcm

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.cut_records import Refusal, Rules, Stretch, Strip
from wizard.trade.lengths import ZERO, Length, ceiling, steps_down, steps_up


class Demand(Struct, frozen=True):
    """One strip in grid units. Cut in `k` pieces it takes `flat + join * (k - 1)` of cut width."""

    flat: int
    cut: int
    least: int
    """Least width of one of its pieces: the rules' least piece, or the whole strip where that is narrower."""
    most: int
    """The most pieces it can be cut in without one under `least`."""
    net: int
    """`flat - join`: what its pieces must give when each gives its width less one join."""
    slim: int
    """`least - join`: the least one piece gives, in the same measure."""
    spans: tuple[tuple[int, int], ...] = ()
    """Places (first, last), in the same measure from its left end, where the pieces before a join may not end."""


ENDLESS = 1 << 60
"""Longer than any length: of a roll, and of what cannot be cut at all."""

MANY_LENGTHS = 20_000
"""How many lengths are remembered."""


class Scale:
    """Grid units to lengths and back. `tick` is the ruler mark, or finer where the join cost is not on a mark."""

    def __init__(self, tick: Length) -> None:
        self.tick = tick
        self.length: Callable[[int | Fraction], Length] = lru_cache(maxsize=MANY_LENGTHS)(tick.__mul__)
        """Grid units as a length, remembered: a layout uses the same ones again and again."""

    def up(self, length: Length) -> int:
        """A length in grid units, rounded up."""
        return steps_up(length, self.tick)

    def down(self, length: Length) -> int:
        """A length in grid units, rounded down."""
        return steps_down(length, self.tick)


class CutJob(Struct, frozen=True):
    """One call of `lay_out`: the question and its measures in grid units."""

    strips: tuple[Strip, ...]
    demands: tuple[Demand, ...]
    stock: tuple[Stretch, ...]
    """Lengths in hand, and at most one roll to be bought."""
    rules: Rules
    scale: Scale
    join: int

    @property
    def roll(self) -> Stretch | None:
        """The roll to be bought; None where only cloth in hand is cut."""
        return next((each for each in self.stock if each.length is None), None)

    @property
    def widest(self) -> int:
        """The usable width of the widest cloth."""
        return max([self.scale.down(each.usable) for each in self.stock])

    @property
    def spanned(self) -> bool:
        """True when some strip has spans where no join may fall."""
        return any([demand.spans for demand in self.demands])

    @property
    def by_size(self) -> list[int]:
        """The strips by number, longest cut first, then widest."""
        return sorted(range(len(self.demands)), key=lambda n: (-self.demands[n].cut, -self.demands[n].flat))

    def part(self, places: Iterable[int], numbers: Iterable[int] | None = None) -> CutJob:
        """The job of some strips alone, and of some stretches where they are given."""
        strips = tuple([self.strips[place] for place in places])
        demands = tuple([self.demands[place] for place in places])
        stock = self.stock if numbers is None else tuple([self.stock[number] for number in numbers])
        return replace(self, strips=strips, demands=demands, stock=stock)


@lru_cache(maxsize=1 << 12)
def members(mask: int) -> tuple[int, ...]:
    """The numbers of a set given as a bit mask."""
    return tuple([place for place in range(mask.bit_length()) if mask >> place & 1])


def sum_over_sets(values: Iterable[int], start: int = 0) -> list[int]:
    """The sum of `values` over every set of places, by bit mask."""
    sums = [start]
    for value in values:
        sums += [each + value for each in sums]
    return sums


def subsets(mask: int) -> list[int]:
    """Every subset of a bit mask, from the empty one to the mask itself."""
    return sum_over_sets([1 << place for place in members(mask)])


@lru_cache(maxsize=16)
def scale_of(mark: Length, join_cost: Length) -> Scale:
    """The coarsest unit in which the ruler mark and the join cost are both whole. Layers cut alike share one scale, and
    so the lengths it has made."""
    ruler, join = mark.inches if mark > ZERO else Fraction(1, 16), abs(join_cost.inches)
    below = lcm(ruler.denominator, join.denominator)
    return Scale(Length(Fraction(gcd(int(ruler * below), int(join * below)), below)))


def demand_of(flat: int, cut: int, least: int, join: int, spans: tuple[tuple[int, int], ...] = ()) -> Demand:
    """A strip in grid units. A piece no wider than a join gives nothing, so `least` is never less than a join."""
    least = min(max(least, join, 1), flat)
    net, slim = flat - join, least - join
    most = 1 if flat <= least else (net // slim if slim > 0 else flat)
    return Demand(flat, cut, least, max(most, 1), net, slim, spans)


def spans_of(lengths: Iterable[tuple[Length, Length]], join: int, scale: Scale) -> tuple[tuple[int, int], ...]:
    """Where no join may fall, as whole places. The line of a join is half a join past the net width before it; it may
    be on the very edge of a span."""
    spans = []
    for one, other in lengths:
        low, high = min(one, other) / scale.tick - Fraction(join, 2), max(one, other) / scale.tick - Fraction(join, 2)
        first, last = low.numerator // low.denominator + 1, ceiling(high) - 1
        spans += [(first, last)] if first <= last else []
    return tuple(sorted(spans))


def without_spans(demands: Iterable[Demand]) -> tuple[Demand, ...]:
    """The same strips with joins allowed anywhere: what they take at the least is a bound."""
    return tuple(replace(demand, spans=()) for demand in demands)


def fewest_widths(demand: Demand, usable: int, join: int) -> int | None:
    """The fewest widths that give the strip on its own; None where no number does."""
    if demand.flat <= usable:
        return 1
    if usable <= join:
        return None
    return -(-demand.net // (usable - join))


def refused(job: CutJob) -> Refusal | None:
    """The first strip that cannot be cut from the widest cloth at all, or fits no lane of it; None where all can."""
    usable, join, scale = job.widest, job.join, job.scale
    for strip, demand in zip(job.strips, job.demands, strict=True):
        if demand.flat <= 0 or demand.cut <= 0:
            return Refusal("piece too narrow", strip.id, scale.tick, min(strip.flat, strip.cut))
        if job.rules.along and demand.cut > usable:
            return Refusal("usable too narrow", strip.id, strip.cut, scale.length(usable))
        count = 1 if job.rules.along else fewest_widths(demand, usable, join)
        if count is None:
            return Refusal("usable too narrow", strip.id, scale.length(join + 1), scale.length(usable))
        if count > demand.most:
            found = scale.length(Fraction(demand.flat + join * (count - 1), count))
            return Refusal("piece too narrow", strip.id, scale.length(demand.least), found)
    return None
