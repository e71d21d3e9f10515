"""The greatest fullness that will do, exactly: cut widths stand on the ruler mark, so only some fullnesses matter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from msgspec import Struct

from wizard.trade.lengths import Length, ceiling, round_up


class Grows(Struct, frozen=True):
    """A cut width that grows with the fullness: `fullness × gathers + stays`, up to the ruler mark."""

    gathers: Length
    """More than nothing."""
    stays: Length
    """What does not gather: end hems, returns left flat, end setbacks."""

    def at(self, fullness: Fraction, mark: Length) -> Length:
        """The cut width at a fullness."""
        return round_up(self.gathers * fullness + self.stays, mark)


class Ladder(Struct, frozen=True):
    """The fullnesses at which some cut width is exactly on the mark: between two of them nothing changes."""

    widths: Sequence[Grows]
    mark: Length

    def up(self, fullness: Fraction) -> Fraction:
        """The least rung that is not below `fullness`: every cut width is the same there."""
        return min((each.at(fullness, self.mark) - each.stays) / each.gathers for each in self.widths)

    def under(self, fullness: Fraction) -> Fraction:
        """The greatest rung that is below `fullness`."""
        return max(self._under(each, fullness) for each in self.widths)

    def over(self, fullness: Fraction) -> Fraction:
        """The least rung above `fullness`."""
        return min(self._over(each, fullness) for each in self.widths)

    def _under(self, each: Grows, fullness: Fraction) -> Fraction:
        marks = ceiling((each.gathers * fullness + each.stays) / self.mark) - 1
        return (self.mark * marks - each.stays) / each.gathers

    def _over(self, each: Grows, fullness: Fraction) -> Fraction:
        marks = ((each.gathers * fullness + each.stays) / self.mark).__floor__() + 1
        return (self.mark * marks - each.stays) / each.gathers


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
