"""Random jobs against the exact mixed-integer model, one kind at a time, solved by HiGHS through SciPy.

    python -m tests.benchmarks.cutting_against_milp --jobs 1000 --processes 2
    python -m tests.benchmarks.cutting_against_milp --jobs 100 --kind owned --first 1000

Kinds: roll (one to five sections, a third with unequal cut lengths, a third with a least piece that matters), owned,
damaged, spans, lanes, half, whole. Cases HiGHS does not finish within --seconds are counted by their number of strips;
its own bound must not exceed the engine's cloth there either. Ends with status 1 when anything differs.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable
from multiprocessing import Pool
from random import Random

from tests.benchmarks.options import options
from tests.trade.cutting.jobs import Sample, owned, sample, spanned
from tests.trade.cutting.model import ALIKE, compare_lanes, compare_policy, compare_roll, compare_spanned

KINDS: dict[str, tuple[Callable[[Random], Sample], Callable[[Sample, float], str]]] = {
    "roll": (sample, compare_roll),
    "owned": (lambda random: owned(random, False), compare_roll),
    "damaged": (lambda random: owned(random, True), compare_roll),
    "spans": (spanned, compare_spanned),
    "lanes": (lambda random: sample(random, 4, 3), compare_lanes),
    "half": (sample, lambda job, seconds: compare_policy(job, "half widths", seconds)),
    "whole": (sample, lambda job, seconds: compare_policy(job, "whole widths", seconds)),
}
"""How a job of each kind is made, and compared."""


def one(case: tuple[str, int, float]) -> tuple[int, str, object]:
    """One job compared, by its kind, seed and seconds for HiGHS: its strips, what was said, and the job."""
    kind, seed, seconds = case
    make, compare = KINDS[kind]
    job = make(Random(f"{kind} {seed}"))
    return len(job.sizes), compare(job, seconds), job


def main() -> int:
    asked = options(__doc__, jobs=1000, kind=tuple(KINDS), seconds=10.0, processes=2, first=0)
    cases = [(asked.kind, asked.first + n, asked.seconds) for n in range(asked.jobs)]
    said: Counter[str] = Counter()
    unsolved: Counter[int] = Counter()
    with Pool(asked.processes) as pool:
        for strips, words, job in pool.imap(one, cases):
            said[words if words in ALIKE else "different"] += 1
            if words == "not solved":
                unsolved[strips] += 1
            elif words != "equal":
                print(words, job)
    print(f"{asked.kind}: {dict(said)}; not solved by HiGHS, by strips: {dict(sorted(unsolved.items()))}")
    return 1 if said["different"] else 0


if __name__ == "__main__":
    sys.exit(main())
