"""Random jobs against the exact mixed-integer model, one kind at a time, solved by HiGHS through SciPy.

    python -m tests.benchmarks.cutting_against_milp --jobs 1000 --processes 2
    python -m tests.benchmarks.cutting_against_milp --jobs 100 --kind owned

Kinds: roll (one to five sections, a third with unequal cut lengths, a third with a least piece that matters), owned,
damaged, spans, lanes, half, whole. Cases HiGHS does not finish within --seconds are counted by their number of strips;
its own bound must not exceed the engine's cloth there either. Ends with status 1 when anything differs.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable
from multiprocessing import Pool
from random import Random

from tests.trade.cutting.comparing import (
    compare_lanes,
    compare_owned,
    compare_policy,
    compare_roll,
    compare_spanned,
)
from tests.trade.cutting.random_jobs import owned, sample, spanned
from wizard.trade.cutting import Policy

Case = tuple[str, int, float]
"""Kind, seed and seconds for HiGHS."""


def roll(random: Random, seconds: float) -> tuple[int, str, object]:
    job = sample(random)
    return len(job.sizes), compare_roll(job, seconds), job


def in_hand(damaged: bool) -> Callable[[Random, float], tuple[int, str, object]]:
    def compared(random: Random, seconds: float) -> tuple[int, str, object]:
        job = owned(random, damaged)
        return len(job.job.sizes), compare_owned(job, seconds), job

    return compared


def spans(random: Random, seconds: float) -> tuple[int, str, object]:
    job = spanned(random)
    return len(job.job.sizes), compare_spanned(job, seconds), job


def along(random: Random, seconds: float) -> tuple[int, str, object]:
    job = sample(random, 4, 3)
    return len(job.sizes), compare_lanes(job, seconds), job


def policy(name: Policy) -> Callable[[Random, float], tuple[int, str, object]]:
    def compared(random: Random, seconds: float) -> tuple[int, str, object]:
        job = sample(random)
        return len(job.sizes), compare_policy(job, name, seconds), job

    return compared


KINDS = {
    "roll": roll,
    "owned": in_hand(False),
    "damaged": in_hand(True),
    "spans": spans,
    "lanes": along,
    "half": policy("half widths"),
    "whole": policy("whole widths"),
}


def one(case: Case) -> tuple[int, str, object]:
    """One job compared: its strips, what was said, and the job."""
    kind, seed, seconds = case
    return KINDS[kind](Random(f"{kind} {seed}"), seconds)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--jobs", type=int, default=1000)
    parser.add_argument("--kind", choices=sorted(KINDS), default="roll")
    parser.add_argument("--seconds", type=float, default=10)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--first", type=int, default=0, help="the first seed")
    asked = parser.parse_args()
    cases = [(asked.kind, asked.first + n, asked.seconds) for n in range(asked.jobs)]
    said: Counter[str] = Counter()
    unsolved: Counter[int] = Counter()
    with Pool(asked.processes) as pool:
        for strips, words, job in pool.imap(one, cases):
            known = words in ("equal", "gap stated", "not solved")
            said[words if known else "different"] += 1
            if words == "not solved":
                unsolved[strips] += 1
            elif words != "equal":
                print(words, job)
    print(f"{asked.kind}: {dict(said)}; not solved by HiGHS, by strips: {dict(sorted(unsolved.items()))}")
    return 1 if said["different"] else 0


if __name__ == "__main__":
    sys.exit(main())
