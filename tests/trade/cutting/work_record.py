"""What many jobs take to plan, and how good their plans are: kept, so that neither gets worse unseen.

    python -m tests.trade.cutting.work_record       keep what there is now, after looking at what got worse

Work is counted (`work_budget`), never timed. A bound that rules out less than it could, or a search in a worse order,
still finds the same plan of a small job; but it takes more work, and a large job is then cut short sooner.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from operator import gt
from pathlib import Path
from random import Random
from typing import Any

import msgspec
from msgspec import Struct

from tests.trade.cutting.jobs import Sample, any_stock, of_many_joins, quarter, sample, spanned
from wizard.trade.cutting import Layout, Refusal, Repeat, Rules, Stretch, Strip, lay_out, measured
from wizard.trade.lengths import ZERO

FILE = Path(__file__).with_name("work_record.jsonl")


class Asked(Struct, frozen=True):
    """One call of `lay_out`."""

    strips: tuple[Strip, ...]
    stock: tuple[Stretch, ...]
    rules: Rules


class Found(Struct, frozen=True, array_like=True):
    """What became of it. Lengths are in inches."""

    work: int
    refused: str = ""
    """The reason, where it is refused; the rest is empty then."""
    proven: tuple[bool, bool, str, Fraction, Fraction] = (False, False, "", Fraction(0), Fraction(0))
    """Whether the least cloth is, and the fewest joins with it; by what; the bound, and the most of the roll that
    another plan could save."""
    plans: tuple[tuple[Fraction, Fraction, int], ...] = ()
    """The roll bought, the cloth used and the joins, of the plan in use, the one of fewest joins and the others."""

    def worse_than(self, kept: Found) -> Iterator[str]:
        """In what it is worse, or proven otherwise."""
        if self.work > kept.work:
            yield f"takes {self.work}, took {kept.work}"
        if self.refused != kept.refused:
            yield f"{self.refused or 'planned'}, was {kept.refused or 'planned'}"
        if self.proven != kept.proven:
            yield f"proves {self.proven}, was {kept.proven}"
        if len(self.plans) < len(kept.plans) or any(map(gt, self.plans, kept.plans)):
            yield f"plans {self.plans}, was {kept.plans}"


def found(asked: Asked) -> Found:
    """Plan a job, and its other layouts."""

    def all_of_it() -> tuple[Layout, ...] | Refusal:
        answer = lay_out(asked.strips, asked.stock, asked.rules)
        if isinstance(answer, Refusal):
            return answer
        return answer.best, answer.fewest_joins() or answer.best, *answer.others()

    made, work = measured(all_of_it)
    if isinstance(made, Refusal):
        return Found(work, made.reason)
    proof = made[0].proof
    plans = tuple((each.roll.inches, each.used.inches, each.joins) for each in made)
    proven = (proof.least, proof.fewest_joins, proof.by, proof.bound.inches, (proof.saves or ZERO).inches)
    return Found(work, "", proven, plans)


def of(job: Sample, stock: list[Stretch] | None = None, **rules: Any) -> Asked:
    """A job on its roll, or on this stock."""
    return Asked(tuple(job.strips()), tuple(stock or [job.roll()]), job.rules(**rules))


def any_rules(random: Random, **more: Any) -> dict[str, Any]:
    """Rules that suit any cloth."""
    return {
        "policy": random.choice([*["part widths"] * 4, "half widths", "whole widths"]),
        "surplus": random.choice(["trim", "keep"]),
        "squaring": quarter(random.choice([0, 4])),
        "step": quarter(random.choice([1, 18, 150])),
        "keeps": random.choice([Fraction(1), Fraction(1), Fraction(97, 100)]),
        "effort": random.choice([400, 400, 3000]),
        **more,
    }


def some(random: Random, number: int, few: int) -> Sample:
    """Few strips; of every eighth job so many that they are planned in batches, of others such as have many joins."""
    return of_many_joins(random) if number % 8 == 1 else sample(random, 3 * few if number % 8 == 0 else few, 2)


def some_stock(random: Random, number: int, usable: int) -> list[Stretch]:
    """Lengths of all sorts; of every eighth job nine sound ones, so many that not every way of using them is tried."""
    if number % 8 != 3:
        return any_stock(random, usable)
    lengths = [Stretch(f"owned{n}", quarter(random.randint(40, 200)), quarter(usable)) for n in range(9)]
    return [*lengths, Stretch("roll", None, quarter(usable))]


def on_the_roll(number: int) -> Asked:
    """Plain cloth, to be bought."""
    random = Random(f"roll {number}")
    return of(some(random, number, 7), **any_rules(random))


def on_cloth_in_hand(number: int) -> Asked:
    """Lengths of several widths and lots, damaged and not."""
    random = Random(f"stock {number}")
    job = some(random, number, 5)
    return of(job, some_stock(random, number, job.usable), **any_rules(random))


def clear_of_spans(number: int) -> Asked:
    """Strips with places where no join may fall."""
    random = Random(f"spans {number}")
    job = spanned(random, 5)
    return of(job, some_stock(random, number, job.usable) if number % 3 == 0 else None, **any_rules(random))


def of_a_pattern(number: int) -> Asked:
    """Straight repeats and half-drops, on the roll and on cloth in hand, some with spans."""
    random = Random(f"pattern {number}")
    job = spanned(random, 3) if number % 5 == 0 else some(random, number, 4)
    repeat = Repeat(quarter(random.randint(10, 90)), random.choice(["straight", "half-drop"]))
    return of(job, some_stock(random, number, job.usable) if number % 2 else None, **any_rules(random, repeat=repeat))


def along_the_roll(number: int) -> Asked:
    """Strips laid along the roll."""
    random = Random(f"along {number}")
    job = spanned(random, 3) if number % 5 == 0 else some(random, number, 4)
    rules = any_rules(random, along=True, one_way=random.random() < 0.5, policy="part widths")
    return of(job, some_stock(random, number, job.usable) if number % 2 else None, **rules)


KINDS = {each.__name__: each for each in (on_the_roll, on_cloth_in_hand, clear_of_spans, of_a_pattern, along_the_roll)}
JOBS = 160
"""How many of each kind."""


def found_of(kind: str) -> list[Found]:
    """What becomes of all jobs of a kind."""
    return [found(KINDS[kind](number)) for number in range(JOBS)]


def kept() -> dict[str, list[Found]]:
    """The record as it is kept: a line for each job."""
    lines = iter(FILE.read_bytes().splitlines())
    return {
        kind: [msgspec.json.decode(next(lines), type=Found, dec_hook=lambda of, text: of(text)) for _ in range(JOBS)]
        for kind in KINDS
    }


if __name__ == "__main__":
    written = [msgspec.json.encode(each, enc_hook=str) for kind in KINDS for each in found_of(kind)]
    FILE.write_bytes(b"\n".join([*written, b""]))
