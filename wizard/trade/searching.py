"""The greatest fullness that will do, exactly: cut widths stand on the ruler mark, so only some fullnesses matter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cached_property
from math import lcm

from msgspec import Struct

from wizard.trade.lengths import Length, round_up


class Grows(Struct, frozen=True):
    """A cut width that grows with the fullness: `fullness × gathers + stays`, up to the ruler mark."""

    gathers: Length
    """More than nothing."""
    stays: Length
    """What does not gather: end hems, returns left flat, end setbacks."""

    def at(self, fullness: Fraction, mark: Length) -> Length:
        """The cut width at a fullness."""
        return round_up(self.gathers * fullness + self.stays, mark)


class Ladder(Struct, frozen=True, dict=True):
    """The fullnesses at which some cut width is exactly on the mark: between two of them nothing changes."""

    widths: Sequence[Grows]
    mark: Length

    def marks(self, fullness: Fraction) -> list[int]:
        """The cut widths at a fullness, in ruler marks."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return [-(-(gathers * over + stays * under) // mark) for gathers, stays in self._parts]

    def up(self, fullness: Fraction) -> Fraction:
        """The least rung that is not below `fullness`: every cut width is the same there."""
        return self._rung(self.marks(fullness), 1)

    def under(self, fullness: Fraction) -> Fraction:
        """The greatest rung that is below `fullness`."""
        return self._rung([count - 1 for count in self.marks(fullness)], -1)

    def over(self, fullness: Fraction) -> Fraction:
        """The least rung above `fullness`."""
        over, under = fullness.numerator, fullness.denominator
        mark = self._mark * under
        return self._rung([(gathers * over + stays * under) // mark + 1 for gathers, stays in self._parts], 1)

    def _rung(self, marks: Sequence[int], way: int) -> Fraction:
        """Of the fullnesses at which the widths are so many marks the least, or where `way` is -1 the greatest."""
        best, under = 0, 0
        for count, (gathers, stays) in zip(marks, self._parts, strict=True):
            here = count * self._mark - stays
            # As here / gathers < best / under, or > where the greatest is looked for.
            if not under or way * (here * under - best * gathers) < 0:
                best, under = here, gathers
        return Fraction(best, under)

    def fitting(self, groups: Sequence[tuple[Sequence[int], int]], low: Fraction) -> Fraction:
        """The greatest rung, `low` at the least, at which the widths of each group, by their numbers, take up no more
        than so many marks together."""
        most = min(
            Fraction(room * self._mark - sum(self._parts[n][1] for n in group), sum(self._parts[n][0] for n in group))
            for group, room in groups
        )
        rung = self.under(self.over(max(most, low)))
        while rung > low and not self._fit(groups, rung):
            rung = self.under(rung)
        return max(rung, low)

    def _fit(self, groups: Sequence[tuple[Sequence[int], int]], rung: Fraction) -> bool:
        marks = self.marks(rung)
        return all(sum(marks[n] for n in group) <= room for group, room in groups)

    @cached_property
    def _parts(self) -> list[tuple[int, int]]:
        """How each width grows, in parts of an inch so small that all are whole numbers."""
        return [(int(each.gathers.inches * self._fine), int(each.stays.inches * self._fine)) for each in self.widths]

    @cached_property
    def _mark(self) -> int:
        return int(self.mark.inches * self._fine)

    @cached_property
    def _fine(self) -> int:
        lengths = [self.mark, *(each.gathers for each in self.widths), *(each.stays for each in self.widths)]
        return lcm(*(each.inches.denominator for each in lengths))


def greatest(
    ladder: Ladder,
    least: Fraction,
    most: Fraction,
    will_do: Callable[[Fraction], bool],
    guess: Fraction | None = None,
) -> Fraction | None:
    """The greatest rung from `least` up to and at most over `most` that will do, or None when not even `least` does.

    What will do at some fullness is taken to do at any smaller one: more cloth is never needed for less. A good
    `guess` only saves trials: it and the rung above it are tried first.
    """
    low, top = ladder.up(least), ladder.up(most)
    if not will_do(low):
        return None
    for trial in () if guess is None else (ladder.up(guess), ladder.over(ladder.up(guess))):
        if low < trial <= top and will_do(trial):
            low = trial
        elif low < trial <= top:
            top = ladder.under(trial)
    while low < top:
        middle = ladder.up((low + top) / 2)
        if will_do(middle):
            low = middle
        else:
            top = ladder.under(middle)
    return low
