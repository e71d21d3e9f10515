"""How long planning takes, beside HiGHS on the same jobs in the same run.

    python -m tests.benchmarks.cutting_speed
    python -m tests.benchmarks.cutting_speed --jobs 100 --no-milp

All layers (three) of jobs of three, eight and twelve sections, sixteenths of an inch, 54 in cloth: median and 99th
percentile of the plan that comes at once and the share of it proven least, and the share proven once it is improved off
the keystroke's path for half a second at most.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from random import Random
from statistics import median, quantiles

from msgspec.structs import replace

from tests.trade.cutting.model import cross_cut
from wizard.trade.cut_plans import EFFORTS, settled
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip, lay_out
from wizard.trade.cutting.grid_units import fewest_widths
from wizard.trade.cutting.lay_out import job_of
from wizard.trade.lengths import Length

LAYERS = (0, 24, 40)
"""How much shorter each layer's cuts are, in ticks."""

HALF = 0.5
"""Seconds an improved plan may take."""

MARK = Length(1) / 16
RULES = Rules(join_cost=Length(1), least_piece=Length(6), mark=MARK, squaring=Length(1), step=Length(9) / 2)
ROLL = Stretch("roll", None, Length(54))


def job(random: Random, sections: int) -> list[list[Strip]]:
    """Sections of 30 to 200 in flat, two or three different drops, in three layers."""
    cuts = [random.randint(160, 240) for _ in range(random.choice([1, 2, 3]))]
    sizes = [(random.randint(480, 3200), random.choice(cuts)) for _ in range(sections)]
    return [
        [Strip(f"s{n}", f"s{n}", str(less), MARK * flat, MARK * (cut - less)) for n, (flat, cut) in enumerate(sizes)]
        for less in LAYERS
    ]


def planned(layers: list[list[Strip]]) -> bool:
    """Plan every layer; True when all are proven least."""
    answers = [lay_out(strips, [ROLL], RULES) for strips in layers]
    return all(isinstance(each, Cutting) and each.best.proof.least for each in answers)


def proven_within(layers: list[list[Strip]], seconds: float) -> bool:
    """True when every layer is proven, cloth and joins, by the first plan or by improving it in this time."""
    start, open_layers = time.perf_counter(), layers
    for effort in (RULES.effort, *EFFORTS):
        answers = [(strips, lay_out(strips, [ROLL], replace(RULES, effort=effort))) for strips in open_layers]
        open_layers = [strips for strips, each in answers if not (isinstance(each, Cutting) and settled(each))]
        if not open_layers or time.perf_counter() - start > seconds:
            break
    return not open_layers and time.perf_counter() - start <= seconds


def modelled(layers: list[list[Strip]]) -> bool:
    """The same by the mixed-integer model."""
    solved = True
    for strips in layers:
        job = job_of(strips, (), RULES)
        widths = sum(fewest_widths(demand, 864, job.join) or 1 for demand in job.demands)
        solved &= cross_cut([(demand.flat, demand.cut) for demand in job.demands], 864, job.join, 96, widths).solved
    return solved


def timed(name: str, jobs: list[list[list[Strip]]], plan: Callable[[list[list[Strip]]], bool]) -> list[float]:
    """Print the median, the 99th percentile and the share settled; give what each job took, in milliseconds."""
    took, settled = [], 0
    for layers in jobs:
        start = time.perf_counter()
        settled += plan(layers)
        took.append((time.perf_counter() - start) * 1000)
    high = quantiles(took, n=100)[-1] if len(took) > 1 else took[0]
    print(f"  {name}: median {median(took):.1f} ms, 99th percentile {high:.1f} ms, settled {settled} of {len(jobs)}")
    return took


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--jobs", type=int, default=100)
    parser.add_argument("--milp-jobs", type=int, default=15)
    parser.add_argument("--no-milp", action="store_true")
    asked = parser.parse_args()
    for sections in (3, 8, 12):
        jobs = [job(Random(f"{sections} {n}"), sections) for n in range(asked.jobs)]
        print(f"{sections} sections, three layers")
        planned(jobs[0])
        ours = timed("this engine", jobs, planned)
        proven_within(jobs[0], HALF)
        print(f"  proven within half a second: {sum(proven_within(each, HALF) for each in jobs)} of {len(jobs)}")
        if not asked.no_milp:
            count = asked.jobs if sections == 3 else asked.milp_jobs
            theirs = timed("HiGHS, 10 s a layer", jobs[:count], modelled)
            print(f"  {median(theirs) / median(ours[:count]):.0f} times as long in the median of the same jobs")


if __name__ == "__main__":
    main()
