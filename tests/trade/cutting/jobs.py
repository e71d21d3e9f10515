"""Jobs for the cutting tests: small ones in inches, and random ones in ticks of a quarter of an inch, from a seed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random
from typing import Any, NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Cutting, Layout, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length, round_up

SIXTEENTH = Length(Fraction(1, 16))
ROLL = Stretch("roll", None, Length(54))


def strips_of(*sizes: tuple[str | int | Fraction, str | int | Fraction]) -> list[Strip]:
    """Strips named a, b, c... from (flat, cut)."""
    return [
        Strip(chr(97 + place), chr(97 + place), "face", round_up(inches(flat), SIXTEENTH), inches(cut))
        for place, (flat, cut) in enumerate(sizes)
    ]


def rules_of(**changed: Any) -> Rules:
    """The trade's defaults: half-inch joins, least piece 6 in, 1/16 in marks, eighths of a yard."""
    given: dict[str, Any] = {
        "join_cost": Length(1),
        "least_piece": Length(6),
        "mark": SIXTEENTH,
        "squaring": Length(1),
        "step": Length(Fraction(9, 2)),
    }
    return Rules(**(given | changed))


def cutting(strips: Sequence[Strip], rules: Rules, stock: Sequence[Stretch] = (ROLL,)) -> Cutting:
    """The plan; fails the test when it is refused."""
    answer = lay_out(strips, stock, rules)
    assert isinstance(answer, Cutting), answer
    return answer


def best(strips: Sequence[Strip], rules: Rules, stock: Sequence[Stretch] = (ROLL,)) -> Layout:
    """The plan to follow."""
    return cutting(strips, rules, stock).best


class Held(NamedTuple):
    """A stretch of cloth in ticks: how long (None: the roll), how much of its width is usable, where it is damaged."""

    length: int | None
    usable: int
    damage: tuple[int, int] | None = None


class Run(NamedTuple):
    """Sound cloth: on which stretch, from where, how long (None: as long as it takes), how wide."""

    stretch: int
    start: int
    length: int | None
    usable: int


class Sample(Struct, frozen=True):
    """A job in ticks."""

    sizes: tuple[tuple[int, int], ...]
    """Flat and cut length of each strip."""
    usable: int
    join: int
    least: int
    stock: tuple[Held, ...] = ()
    """Empty: a roll alone."""
    spans: tuple[tuple[tuple[int, int], ...], ...] = ()
    """Of each strip, where no join may fall."""

    def strips(self) -> list[Strip]:
        spans = self.spans or ((),) * len(self.sizes)
        return [
            Strip(
                f"s{i}", f"s{i}", "face", quarter(flat), quarter(cut), tuple((quarter(a), quarter(b)) for a, b in clear)
            )
            for i, ((flat, cut), clear) in enumerate(zip(self.sizes, spans, strict=True))
        ]

    def rules(self, **more: Any) -> Rules:
        return replace(Rules(quarter(self.join), quarter(self.least), quarter(1), effort=20_000), **more)

    def roll(self) -> Stretch:
        return Stretch("roll", None, quarter(self.usable))

    def stretches(self) -> list[Stretch]:
        held = [
            Stretch(
                f"owned{n}" if length else "roll", quarter(length) if length else None, quarter(usable), squared=True,
                damage=((quarter(damage[0]), quarter(damage[1])),) if damage else (),
            )
            for n, (length, usable, damage) in enumerate(self.stock)
        ]  # fmt: skip
        return held or [self.roll()]

    def runs(self) -> list[Run]:
        """The sound runs between ends and damage."""
        out = []
        for n, (length, usable, damage) in enumerate(self.stock or (Held(None, self.usable),)):
            first, last = damage or (0, 0)
            out += [Run(n, 0, first, usable)] if first else []
            out += [Run(n, last, None if length is None else length - last, usable)] if length != last else []
        return out

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


def owned(random: Random, damaged: bool) -> Sample:
    """A small job with one or two lengths in hand, more than half of them with a roll beside them."""
    job = sample(random, 3, 2)
    lengths = tuple(random.randint(60, 240) for _ in range(random.randint(1, 2)))
    held = [
        Held(
            length, job.usable, (at := random.randint(1, length - 30), at + random.randint(1, 29)) if damaged else None
        )
        for length in lengths
    ]
    return replace(job, stock=(*held, Held(None, job.usable)) if random.random() < 0.6 else tuple(held))


def in_lanes(random: Random) -> Sample:
    """One to three strips for lanes on one or two lengths in hand, some damaged, half with a roll beside them."""
    join, usable = random.choice([0, 2, 4]), random.randint(40, 100)
    cuts = [random.randint(14, 40) for _ in range(random.choice([1, 1, 2, 3]))]
    sizes = tuple((random.randint(20, 260), random.choice(cuts)) for _ in range(random.randint(1, 3)))
    stock = []
    for _ in range(random.randint(1, 2)):
        length, at = random.randint(40, 160), random.randint(10, 60)
        narrow = random.choice([0, 0, 8])
        stock.append(
            Held(length, usable - narrow, (at, at + 4) if random.random() < 0.4 and at + 10 < length else None)
        )
    if random.random() < 0.5:
        stock.append(Held(None, usable))
    return Sample(sizes, usable, join, join + random.choice([2, 6, 20]), tuple(stock))


def spanned(random: Random, most_strips: int = 3) -> Sample:
    """A small job; most strips have one or two spans kept clear of joins, as a pocket or a slit would ask."""
    job = sample(random, most_strips, 2)
    spans = tuple(
        tuple(
            (at := random.randint(0, flat), at + random.randint(4, random.choice([70, 160])))
            for _ in range(random.choice([0, 1, 2, 3]))
        )
        for flat, _ in job.sizes
    )
    return replace(job, spans=spans)


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
