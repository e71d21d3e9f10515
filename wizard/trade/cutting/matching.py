"""Matched cloth: where each width starts, so that the pattern meets at every join.

From one width to the next at the same phase: `V * ceil(C / V)`. From one phase to the other of a half-drop:
`V * (ceil(C / V - 1/2) + 1/2)`. The last width takes `C`. Phases are ordered for the shorter total.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product

from msgspec.structs import replace

from wizard.trade.cutting.rows import Row
from wizard.trade.lengths import ceiling

FLIPS = 6
"""Groups of strips whose phase is tried both ways; any further ones take turns."""


MANY = 60
"""Rows beyond which the groups simply take turns."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """The repeat in ticks."""

    length: Fraction
    half_drop: bool
    known: dict[tuple[int | Fraction, bool], Fraction] = field(default_factory=dict, compare=False, repr=False)
    """Steps worked already: there are few, and they are asked for over and over."""

    def step(self, cut: int | Fraction, change: bool = False) -> Fraction:
        """From the start of a width to where the next may start."""
        if (cut, change) not in self.known:
            self.known[cut, change] = self.work_out(cut, change)
        return self.known[cut, change]

    def work_out(self, cut: int | Fraction, change: bool) -> Fraction:
        """By the rule at the head of this file."""
        repeats = cut / self.length
        if change:
            return self.length * (ceiling(repeats - Fraction(1, 2)) + Fraction(1, 2))
        return self.length * ceiling(repeats)

    def least_step(self, cut: int) -> Fraction:
        """The shorter of the two steps the pattern allows."""
        return min(self.step(cut), self.step(cut, True)) if self.half_drop else self.step(cut)


def linked(rows: Sequence[Row]) -> list[set[int]]:
    """Strips that are tied to one another by shared widths."""
    groups: list[set[int]] = []
    for row in rows:
        strips = {strip for strip, _ in row.parts}
        met = [group for group in groups if group & strips]
        groups = [group for group in groups if not group & strips] + [strips.union(*met)]
    return groups


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
    """The rows by phase, each group of linked strips turned the way that makes the whole shorter."""
    if not pattern.half_drop:
        return [list(rows), []]
    first, groups = phases(rows), linked(rows)
    best: list[list[Row]] = []
    least: Fraction | None = None
    steps = [pattern.least_step(row.cut) for row in rows]
    floor = sum(steps) - max(step - row.cut for step, row in zip(steps, rows, strict=True))
    tried = min(len(groups), FLIPS) if len(rows) <= MANY else 0
    # To turn them all is to start from the other phase, which is tried with every order: the first stays as it is.
    for flips in product((0,), *[(0, 1)] * (tried - 1)) if tried else [()]:
        turned = {strip: (flips[n] if n < tried else n) for n, group in enumerate(groups) for strip in group}
        halves: list[list[Row]] = [[], []]
        for row in rows:
            strip = row.parts[0][0]
            halves[(first[strip] + row.orders[0] - 1 + turned[strip]) % 2].append(row)
        length = length_of(matched(halves, pattern))
        if least is None or length < least:
            best, least = halves, length
        if least <= floor:
            break
    return best


def matched(halves: Sequence[Sequence[Row]], pattern: Pattern) -> list[Row]:
    """Rows of two phases in the order that takes least, each with the cloth lost after it."""
    return spaced(in_turn(halves, pattern), pattern)


def length_of(rows: Sequence[Row]) -> Fraction:
    """From the start of the first width to the end of the last."""
    return Fraction(sum(row.cut + row.after for row in rows))


def in_turn(halves: Sequence[Sequence[Row]], pattern: Pattern) -> list[tuple[Row, int]]:
    """Rows of two phases in one order: changing where a change is short, keeping the phase where it is not; the width
    that wastes most comes last."""
    candidates = []
    for start in (0, 1):
        for last in (0, 1):
            order = one_turn(
                [sorted(half, key=lambda row: waste(row, pattern)) for half in halves], start, last, pattern
            )
            if order:
                candidates.append(order)
    return min(candidates, key=lambda order: length_of(spaced(order, pattern)))


def waste(row: Row, pattern: Pattern) -> Fraction:
    """What a width leaves before the next of its phase."""
    return pattern.step(row.cut) - row.cut


def one_turn(halves: list[list[Row]], phase: int, last: int, pattern: Pattern) -> list[tuple[Row, int]]:
    """One order, from the given phase to the given last one where it has a row."""
    kept = halves[last].pop() if halves[last] else None
    order: list[tuple[Row, int]] = []
    while halves[0] or halves[1]:
        phase = phase if halves[phase] else 1 - phase
        gains = [row for row in halves[phase] if pattern.step(row.cut, True) < pattern.step(row.cut)]
        stays = [row for row in halves[phase] if row not in gains]
        other = bool(halves[1 - phase])
        row = (gains or stays)[0] if other and gains else (stays or gains)[0]
        halves[phase].remove(row)
        order.append((row, phase))
        if pattern.half_drop and row in gains and other:
            phase = 1 - phase
    return [*order, (kept, last)] if kept else order


def spaced(order: Sequence[tuple[Row, int]], pattern: Pattern) -> list[Row]:
    """Each row with the cloth lost between it and the next; none after the last."""
    out = []
    for (row, phase), (_, following) in zip(order, [*order[1:], (None, None)], strict=True):
        step = row.cut if following is None else pattern.step(row.cut, phase != following)
        out.append(replace(row, after=Fraction(step) - row.cut, phase=phase))
    return out
