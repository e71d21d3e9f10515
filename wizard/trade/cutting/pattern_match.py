"""Matched cloth: where each width starts, so that the pattern meets at every join.

From one width to the next at the same phase: `V * ceil(C / V)`. From one phase to the other of a half-drop: `V *
(ceil(C / V - 1/2) + 1/2)`. The last width takes `C`. Phases are ordered for the shorter total. `printed_rules` has the
rules found in print beside ours.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cache
from itertools import accumulate, product

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting.piece_widths import Row
from wizard.trade.cutting.work_budget import spend
from wizard.trade.lengths import Length, ceiling, round_up, total

FLIPS = 6
"""Groups of strips whose phase is tried both ways; further ones alternate."""


MANY = 60
"""With more rows than this the groups simply alternate."""


class Pattern:
    """The repeat in grid units. Steps are whole numbers of `parts` of a unit, so that thousands of orders add up
    fast."""

    def __init__(self, length: Fraction, half_drop: bool) -> None:
        self.length, self.half_drop = length, half_drop
        self.parts = length.denominator * 2
        """The parts of a grid unit in which half a repeat is a whole number."""
        self.in_parts = cache(self.step_in_parts)

    def step_in_parts(self, cut: int | Fraction, change: bool = False) -> int:
        """From the start of a width to where the next may start, by the rule at the head of this file; in parts.
        `in_parts` remembers it: there are few such steps, and they are needed again and again."""
        repeats, whole = cut / self.length, self.length.numerator * 2
        return ceiling(repeats - Fraction(1, 2)) * whole + whole // 2 if change else ceiling(repeats) * whole

    def step(self, cut: int | Fraction, change: bool = False) -> Fraction:
        """The same in grid units."""
        return Fraction(self.in_parts(cut, change), self.parts)

    def least_in_parts(self, cut: int) -> int:
        """The shorter of the two steps the pattern allows, in parts."""
        return min(self.in_parts(cut), self.in_parts(cut, True)) if self.half_drop else self.in_parts(cut)

    def least_step(self, cut: int) -> Fraction:
        """The same in grid units."""
        return Fraction(self.least_in_parts(cut), self.parts)


def grouped(sets: Iterable[set[int]]) -> list[set[int]]:
    """Sets merged as long as any two have something in common."""
    out: list[set[int]] = []
    for each in sets:
        met = [other for other in out if other & each]
        out = [*(other for other in out if not other & each), each.union(*met)]
    return out


def phases(rows: Sequence[Row]) -> dict[int, int]:
    """For each strip the phase of its first piece, taking the first strip of each group of linked ones as 0."""
    first: dict[int, int] = {}
    waiting = list(rows)
    while waiting:
        ready = [row for row in waiting if any(strip in first for strip, _ in row.parts)] or waiting[:1]
        for row in ready:
            known = [first[s] + order - 1 for (s, _), order in zip(row.parts, row.orders, strict=True) if s in first]
            here = known[0] if known else row.orders[0] - 1
            for (strip, _), order in zip(row.parts, row.orders, strict=True):
                first.setdefault(strip, (here - order + 1) % 2)
        waiting = [row for row in waiting if row not in ready]
    return first


def phased(rows: Sequence[Row], pattern: Pattern) -> list[list[Row]]:
    """The rows by phase, each group of linked strips turned the way that makes the total shorter."""
    if not pattern.half_drop:
        return [list(rows), []]
    best: list[list[Row]] = []
    least: Fraction | None = None
    steps = [pattern.least_step(row.cut) for row in rows]
    floor = sum(steps) - max(step - row.cut for step, row in zip(steps, rows, strict=True))
    for halves in turned_both_ways(rows):
        length = least_turn(halves, pattern).length
        if least is None or length < least:
            best, least = halves, length
        if least <= floor:
            break
    return best


def turned_both_ways(rows: Sequence[Row]) -> Iterator[list[list[Row]]]:
    """The rows by phase, each group of linked strips turned either way; of very many groups the further ones
    alternate."""
    first, groups = phases(rows), grouped({strip for strip, _ in row.parts} for row in rows)
    tried = min(len(groups), FLIPS) if len(rows) <= MANY else 0
    # To turn them all is to start from the other phase, which is tried with every order: the first stays as it is.
    for flips in product((0,), *[(0, 1)] * (tried - 1)) if tried else [()]:
        turned = {strip: (flips[n] if n < tried else n) for n, group in enumerate(groups) for strip in group}
        halves: list[list[Row]] = [[], []]
        for row in rows:
            strip = row.parts[0][0]
            halves[(first[strip] + row.orders[0] - 1 + turned[strip]) % 2].append(row)
        yield halves


def matched(halves: Sequence[Sequence[Row]], pattern: Pattern) -> list[Row]:
    """Rows of two phases in the order that takes least, each with the cloth lost between it and the next."""
    out, order = list[Row](), in_turn(halves, pattern)
    for (row, phase), (_, following) in zip(order, [*order[1:], (None, None)], strict=True):
        step = row.cut if following is None else pattern.step(row.cut, phase != following)
        out.append(replace(row, after=Fraction(step) - row.cut, phase=phase))
    return out


class Turn(Struct, frozen=True):
    """One order of the rows of two phases: which phase comes last, how often each phase begins, and which row of its
    phase is last (rows are sorted by what a change of phase after them gains, most first)."""

    length: Fraction
    end: int
    visits: tuple[int, int]
    last: int


class Ranked:
    """The rows of one phase, sorted by what a change of phase after them gains, most first; lengths in parts."""

    def __init__(self, half: Sequence[Row], pattern: Pattern) -> None:
        spend(3 * len(half))
        self.rows = sorted(half, key=lambda row: (-gain(row, pattern), row.cut))
        self.gained = [0, *accumulate(gain(row, pattern) for row in self.rows)]
        lasts = {row.cut: place for place, row in enumerate(self.rows)}
        self.lasts = [(place, pattern.in_parts(cut) - cut * pattern.parts) for cut, place in lasts.items()]
        """The last row of each cut length, and the cloth it leaves before the next of its phase."""

    def most(self, changes: int, last: int | None = None) -> int:
        """The most that this many changes gain, none of them after the row that is last."""
        if last is None or last >= changes:
            return self.gained[changes]
        return self.gained[changes + 1] - (self.gained[last + 1] - self.gained[last])


def least_turn(halves: Sequence[Sequence[Row]], pattern: Pattern) -> Turn:
    """The order that takes least. Each row costs its step to the next of its phase, or to the next of the other phase
    where the phase changes after it; the last one costs its cut length. Every count of phase changes is tried with
    every row that may be last; the changes come after the rows that gain most by them, or lose least."""
    ranked = [Ranked(half, pattern) for half in halves]
    best: tuple[int, int, tuple[int, int], int] | None = None
    for end in (0, 1):
        for here, there in visits(len(halves[end]), len(halves[1 - end])):
            gained = ranked[1 - end].most(there)
            spend(1 + len(ranked[end].lasts))
            for last, wasted in ranked[end].lasts:
                saved = wasted + gained + ranked[end].most(here - 1, last)
                if best is None or saved > best[0]:
                    best = saved, end, (here, there) if end == 0 else (there, here), last
    stays = sum(pattern.in_parts(row.cut) for half in halves for row in half)
    saved, end, counts, last = best or (0, 0, (0, 0), 0)
    return Turn(Fraction(stays - saved, pattern.parts), end, counts, last)


def visits(ending: int, other: int) -> Iterator[tuple[int, int]]:
    """How often the last phase and the other phase may begin, with this many rows of each."""
    if not other:
        yield from [(1, 0)] if ending else []
        return
    for here in range(1, ending + 1):
        yield from ((here, there) for there in (here - 1, here) if 0 < there <= other)


def gain(row: Row, pattern: Pattern) -> int:
    """What a change of phase after a row saves, in parts; negative where it takes more."""
    return pattern.in_parts(row.cut) - pattern.in_parts(row.cut, True) if pattern.half_drop else 0


def in_turn(halves: Sequence[Sequence[Row]], pattern: Pattern) -> list[tuple[Row, int]]:
    """The rows in the order that takes least, each with its phase: rows without a change after them come with the first
    of theirs."""
    turn = least_turn(halves, pattern)
    rows = [Ranked(half, pattern).rows for half in halves]
    last = [(rows[turn.end].pop(turn.last), turn.end)] if rows[turn.end] else []
    changes = [count - (phase == turn.end) for phase, count in enumerate(turn.visits)]
    phase = turn.end if changes[0] == changes[1] else 1 - turn.end
    order: list[tuple[Row, int]] = []
    while max(changes) > 0:
        order += [(row, phase) for row in rows[phase][changes[phase] :]]
        order.append((rows[phase][0], phase))
        rows[phase] = rows[phase][1 : changes[phase]]
        changes[phase] -= 1
        phase = 1 - phase
    return [*order, *((row, turn.end) for row in rows[turn.end]), *last]


def printed_rules(cuts: Sequence[Length], repeat: Length) -> dict[str, Length]:
    """What the rules in print ask for these widths of a half-drop, by name. They know one cut length only; widths of
    several are counted one by one."""
    whole, widths = total(round_up(cut, repeat) for cut in cuts), len(cuts)
    return {
        "half a repeat an order": whole + repeat / 2,
        "a repeat for every other width": whole + repeat * (widths // 2),
        "half a repeat a width, and a repeat if they are odd": total(cuts) + repeat / 2 * (widths + widths % 2 * 2),
    }
