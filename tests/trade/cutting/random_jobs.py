"""Random jobs, in whole ticks, from a seed: one to five strips, a third with unequal cut lengths, a third with a
least piece that matters."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from wizard.trade.cutting.strips import Rules, Stretch, Strip
from wizard.trade.lengths import Length


@dataclass(frozen=True)
class Sample:
    """A job in ticks of one inch over four."""

    sizes: tuple[tuple[int, int], ...]
    """Flat and cut length of each strip."""
    usable: int
    join: int
    least: int

    def strips(self) -> list[Strip]:
        return [
            Strip(f"s{i}", f"s{i}", "face", quarter(flat), quarter(cut)) for i, (flat, cut) in enumerate(self.sizes)
        ]

    def rules(self) -> Rules:
        return Rules(join_cost=quarter(self.join), least_piece=quarter(self.least), mark=quarter(1))

    def roll(self) -> Stretch:
        return Stretch("roll", None, quarter(self.usable))

    def widths(self) -> int:
        """Widths enough for every strip cut on its own."""
        return sum(
            1 if flat <= self.usable else -(-(flat - self.join) // (self.usable - self.join)) for flat, _ in self.sizes
        )


def quarter(ticks: int) -> Length:
    """Ticks of a quarter of an inch as a length."""
    return Length(ticks) / 4


def sample(random: Random, most_strips: int = 5, most_widths: int = 4) -> Sample:
    """One job. Every strip can be cut on its own: its least piece never forbids it."""
    usable = random.choice([144, 176, 212, 216, 232])
    join = random.choice([0, 2, 4, 4, 4, 6])
    least = random.choice([join + 4, join + 4, random.randint(join + 4, usable // 2 - 1)])
    cuts = [random.randint(30, 80) for _ in range(random.choice([1, 1, 2, 3]))]
    sizes = tuple(
        (random.randint(20, random.choice([1, 2, most_widths]) * usable), random.choice(cuts))
        for _ in range(random.randint(1, most_strips))
    )
    return Sample(sizes, usable, join, least)
