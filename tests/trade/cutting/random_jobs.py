"""Random jobs, in whole ticks, from a seed: one to five strips, a third with unequal cut lengths, a third with a
least piece that matters."""

from __future__ import annotations

from random import Random

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting import Rules, Stretch, Strip
from wizard.trade.lengths import Length


class Sample(Struct, frozen=True):
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
        return Rules(quarter(self.join), quarter(self.least), quarter(1), effort=20_000)

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


def of_many_joins(random: Random) -> Sample:
    """Three strips of a little over a width and a half: sharing widths saves cloth and takes another join."""
    job = sample(random, 1)
    flats = [job.usable * random.randint(150, 168) // 100 for _ in range(3)]
    return replace(job, least=job.join + 4, sizes=tuple((flat, random.choice([40, 50])) for flat in flats))


class Owned(Struct, frozen=True):
    """A sample with lengths in hand, in ticks, and whether more can be bought."""

    job: Sample
    lengths: tuple[int, ...]
    damage: tuple[tuple[int, int] | None, ...]
    roll: bool

    def stock(self) -> list[Stretch]:
        owned = [
            Stretch(
                f"owned{n}",
                quarter(length),
                quarter(self.job.usable),
                squared=True,
                damage=() if bad is None else ((quarter(bad[0]), quarter(bad[1])),),
            )
            for n, (length, bad) in enumerate(zip(self.lengths, self.damage, strict=True))
        ]
        return [*owned, self.job.roll()] if self.roll else owned

    def runs(self) -> list[tuple[int, int, int]]:
        """(Stretch, start, length) of the sound runs between ends and damage."""
        out = []
        for n, (length, bad) in enumerate(zip(self.lengths, self.damage, strict=True)):
            out += [(n, 0, length)] if bad is None else [(n, 0, bad[0]), (n, bad[1], length - bad[1])]
        return [each for each in out if each[2]]


def owned(random: Random, damaged: bool) -> Owned:
    """A small job with one or two lengths in hand."""
    job = sample(random, 3, 2)
    lengths = tuple(random.randint(60, 240) for _ in range(random.randint(1, 2)))
    damage = tuple(
        (at := random.randint(1, length - 30), at + random.randint(1, 29)) if damaged else None for length in lengths
    )
    return Owned(job, lengths, damage, random.random() < 0.6)


def any_stock(random: Random, usable: int) -> list[Stretch]:
    """Lengths of all sorts: short, narrow, damaged, squared or not, of several lots; mostly with a roll beside them."""
    stock = []
    for n in range(random.randint(0, 3)):
        length = random.randint(40, 400)
        starts = [random.randint(0, length) for _ in range(random.choice([0, 0, 1, 2]))]
        damage = tuple((quarter(at), quarter(min(length, at + random.randint(1, 40)))) for at in starts)
        narrow = quarter(usable - random.choice([0, 0, 0, 20]))
        lot = random.choice([None, None, "A", "B"])
        stock.append(Stretch(f"owned{n}", quarter(length), narrow, random.random() < 0.3, damage, lot))
    return stock if stock and random.random() < 0.3 else [*stock, Stretch("roll", None, quarter(usable))]


class Spanned(Struct, frozen=True):
    """A sample with spans, in ticks, in which no join may fall."""

    job: Sample
    spans: tuple[tuple[tuple[int, int], ...], ...]

    def strips(self) -> list[Strip]:
        return [
            replace(strip, no_join=tuple((quarter(a), quarter(b)) for a, b in spans))
            for strip, spans in zip(self.job.strips(), self.spans, strict=True)
        ]


def spanned(random: Random, most_strips: int = 3) -> Spanned:
    """A small job; most strips have one or two spans kept clear of joins, as a pocket or a slit would ask."""
    job = sample(random, most_strips, 2)
    spans = tuple(
        tuple(
            (at := random.randint(0, flat), at + random.randint(4, random.choice([70, 160])))
            for _ in range(random.choice([0, 1, 2, 3]))
        )
        for flat, _ in job.sizes
    )
    return Spanned(job, spans)
