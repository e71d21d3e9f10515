"""Small jobs in lanes on several runs of cloth, and an exact model of them solved by HiGHS, written from the rules
alone: it knows nothing of the engine."""

from __future__ import annotations

from random import Random

import numpy as np
from msgspec import Struct

from tests.trade.cutting.model import Model
from tests.trade.cutting.random_jobs import quarter
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip


class Runs(Struct, frozen=True):
    """A job in quarters of an inch."""

    sizes: tuple[tuple[int, int], ...]
    """Flat and cut length of each strip."""
    join: int
    least: int
    stock: tuple[tuple[int | None, int, tuple[int, int] | None], ...]
    """Each stretch: its length (None: the roll), its usable width, and where it is damaged."""

    def strips(self) -> list[Strip]:
        return [
            Strip(f"s{i}", f"s{i}", "face", quarter(flat), quarter(cut)) for i, (flat, cut) in enumerate(self.sizes)
        ]

    def stretches(self) -> list[Stretch]:
        return [
            Stretch(
                f"owned{n}" if length else "roll",
                quarter(length) if length else None,
                quarter(usable),
                squared=True,
                damage=() if bad is None else ((quarter(bad[0]), quarter(bad[1])),),
            )
            for n, (length, usable, bad) in enumerate(self.stock)
        ]

    def rules(self, effort: int = 400) -> Rules:
        return Rules(quarter(self.join), quarter(self.least), quarter(1), along=True, effort=effort)

    def runs(self) -> list[tuple[int, int, int]]:
        """(Stretch, start, length) of every sound run; the roll is as long as all strips end to end."""
        out = []
        for n, (length, _, bad) in enumerate(self.stock):
            end = length or sum(flat for flat, _ in self.sizes)
            out += [(n, 0, end)] if bad is None else [(n, 0, bad[0]), (n, bad[1], end - bad[1])]
        return [each for each in out if each[2] > 0]


def runs_job(random: Random) -> Runs:
    """One to three strips on one or two lengths in hand, some damaged, half of them with a roll beside them."""
    join, usable = random.choice([0, 2, 4]), random.randint(40, 100)
    cuts = [random.randint(14, 40) for _ in range(random.choice([1, 1, 2, 3]))]
    sizes = tuple((random.randint(20, 260), random.choice(cuts)) for _ in range(random.randint(1, 3)))
    stock: list[tuple[int | None, int, tuple[int, int] | None]] = []
    for _ in range(random.randint(1, 2)):
        length, at = random.randint(40, 160), random.randint(10, 60)
        narrow = random.choice([0, 0, 8])
        stock.append((length, usable - narrow, (at, at + 4) if random.random() < 0.4 and at + 10 < length else None))
    if random.random() < 0.5:
        stock.append((None, usable, None))
    return Runs(sizes, join, join + random.choice([2, 6, 20]), tuple(stock))


class Lanes:
    """The model: any strip may have a piece in any lane of any run."""

    def __init__(self, job: Runs) -> None:
        self.job, self.model, self.runs = job, Model(), job.runs()
        self.depths = sorted({cut for _, cut in job.sizes}, reverse=True)
        self.held: list[dict[int, int]] = []
        self.width: list[dict[int, int]] = []
        self.ends = [self.model.column(0, 10_000, True) for _ in job.stock]
        for run in self.runs:
            self.lay(*run)
        self.make_strips()

    def lay(self, stretch: int, start: int, length: int) -> None:
        """The lanes of one run, the deepest first."""
        model, usable, before = self.model, self.job.stock[stretch][1], dict[int, float]()
        across: dict[int, float] = {}
        for _ in range(usable // self.depths[-1]):
            deep = [model.column(0, 1, True) for _ in self.depths]
            model.row(dict.fromkeys(deep, 1.0), 0, 1)
            depth = {each: float(cut) for each, cut in zip(deep, self.depths, strict=True)}
            across |= depth
            if before:
                model.row(before | {each: -cut for each, cut in depth.items()}, 0, np.inf)
            before = depth
            self.lane(deep, stretch, start, length)
        if across:
            model.row(across, 0, usable)

    def lane(self, deep: list[int], stretch: int, start: int, length: int) -> None:
        """One lane: what lies in it, and how far its stretch is then used."""
        model, held, width = self.model, dict[int, int](), dict[int, int]()
        for i, (flat, cut) in enumerate(self.job.sizes):
            held[i], width[i] = model.column(0, 1, True), model.column(0, flat, True)
            reach = {each: -1.0 for each, long in zip(deep, self.depths, strict=True) if long >= cut}
            model.row({held[i]: 1.0} | reach, -np.inf, 0)
            model.row({width[i]: 1.0, held[i]: -float(min(flat, length))}, -np.inf, 0)
            model.row({width[i]: 1.0, held[i]: -float(min(self.job.least, flat))}, 0, np.inf)
            ends = dict.fromkeys(width.values(), 1.0) | {held[i]: float(start), self.ends[stretch]: -1.0}
            model.row(ends, -np.inf, 0)
        model.row(dict.fromkeys(width.values(), 1.0), 0, length)
        for i in held:
            model.row(
                dict.fromkeys(width.values(), 1.0) | {held[i]: float(start), self.ends[stretch]: -1.0}, -np.inf, 0
            )
        self.held.append(held)
        self.width.append(width)

    def make_strips(self) -> None:
        """Every strip is made from its pieces, or cut whole where it is under the least piece."""
        for i, (flat, _) in enumerate(self.job.sizes):
            terms = {width[i]: 1.0 for width in self.width} | {held[i]: -float(self.job.join) for held in self.held}
            self.model.row(terms, flat - self.job.join, flat - self.job.join)
            if flat < self.job.least:
                self.model.row({held[i]: 1.0 for held in self.held}, 1, 1)

    def score(self, seconds: float) -> tuple[str, tuple[int, ...]]:
        """What is bought, then what is used of the owned, then the pieces: each the least with those before it."""
        rolls = [end for end, (length, *_) in zip(self.ends, self.job.stock, strict=True) if length is None]
        owned = [end for end, (length, *_) in zip(self.ends, self.job.stock, strict=True) if length is not None]
        out: list[int] = []
        for columns in (rolls, owned, [each for held in self.held for each in held.values()]):
            self.model.cost = [float(n in set(columns)) for n in range(len(self.model.cost))]
            status, x = self.model.answer(seconds)
            if status == 2 and not out:
                return "impossible", ()
            if status != 0 or x is None:
                return "not solved", tuple(out)
            out.append(round(sum(x[each] for each in columns)))
            if columns:
                self.model.row(dict.fromkeys(columns, 1.0), 0, out[-1])
        return "solved", tuple(out)


def score_of(answer: Cutting) -> tuple[int, int, int]:
    """What a plan takes, in ticks."""
    uses = {use.stretch: int(use.length / quarter(1)) for use in answer.best.uses}
    rolled = uses.get("roll", 0)
    return rolled, sum(uses.values()) - rolled, len(answer.best.pieces)
