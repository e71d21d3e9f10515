"""How long the JSON of a job takes, fullness steps included, beside a cold plan of it with its improvements.

    python -m tests.benchmarks.json_against_plan --jobs 200 --seed 0

Random jobs of one to twelve sections; in one process, the median of seven, by the clock: run it on a quiet machine.
Each time all that is remembered of layouts is forgotten, the job is planned to its best, and that plan is written. Told
are the worst ratios, what they spread over, and how many jobs have all of their steps. Ends with status 1 where one
takes more than five times as long. A plan that takes longer than --seconds is passed over, and counted.
"""

from __future__ import annotations

import functools
import gc
import signal
import sys
import time
import tomllib
from random import Random
from statistics import median

import tomli_w
from msgspec import Struct

from tests.benchmarks.measuring import options, spread
from tests.record.jobs import random_job
from tests.render.jobs import project_of
from wizard.project.plan_of_project import at_best, job_of
from wizard.render.json_sheet import plan_json
from wizard.trade.make_plan import make_plan

TIMES, GOAL, SHOWN, MOST_SECTIONS = 7, 5, 12, 12


class Took(Struct, frozen=True):
    """One job: its seed, seconds of the plan and of the JSON, steps listed and what was stopped."""

    seed: int
    plan: float
    json: float
    steps: int
    stopped: tuple[str, ...]

    @property
    def ratio(self) -> float:
        return self.json / self.plan


class TooLongError(Exception):
    """A plan took too long."""


def many_sections(seed: int) -> str:
    """A random job with more of its sections, each of another length."""
    random, tables = Random(f"sections {seed}"), tomllib.loads(random_job(seed))
    sections = tables["survey"]["section"]
    for number in range(random.randint(0, MOST_SECTIONS - len(sections))):
        like = random.choice([*sections])
        run = f"{random.randint(20 * 16, 80 * 16)}/16 in"
        sections[f"more-{number}"] = {"side": like, **sections[like], "run": [run, run]}
    return tomli_w.dumps(tables)


def forget() -> None:
    """As in a process that has planned nothing yet; what is known of the declarations is the same for every job."""
    declared = ("wizard.trade.fields", "wizard.trade.job_fields")
    remembered = (each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper))
    for each in remembered:
        if each.__module__.startswith("wizard.trade") and each.__module__ not in declared:
            each.cache_clear()


def took(seed: int, longest: int) -> Took | None:
    """The median of seven; None where a plan takes too long."""

    def ring(*_: object) -> None:
        raise TooLongError

    signal.signal(signal.SIGALRM, ring)
    plans, sheets = [], []
    try:
        for _ in range(TIMES):
            # A job keeps what was read of it: each plan is of a new one.
            job = job_of(project_of(many_sections(seed)))
            forget()
            signal.setitimer(signal.ITIMER_REAL, longest)
            began = time.perf_counter()
            plan = at_best(make_plan(job))
            planned = time.perf_counter()
            signal.setitimer(signal.ITIMER_REAL, 0)
            made = plan_json(plan)
            plans.append(planned - began)
            sheets.append(time.perf_counter() - planned)
    except TooLongError:
        return None
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    return Took(seed, median(plans), median(sheets), len(made["fullness_steps"]), tuple(made["stopped"]))


def main() -> int:
    asked = options(__doc__, jobs=200, seed=0, seconds=10)
    found = [took(seed, asked.seconds) for seed in range(asked.seed, asked.seed + asked.jobs)]
    known = sorted((each for each in found if each is not None), key=lambda each: -each.ratio)
    for each in known[:SHOWN]:
        stopped = f"; stopped: {', '.join(each.stopped)}" if each.stopped else ""
        times = f"plan {each.plan * 1000:7.1f} ms, JSON {each.json * 1000:8.1f} ms, {each.ratio:5.2f} x"
        print(f"seed {each.seed:<6}{times}, {each.steps} steps{stopped}")
    print(f"{len(known)} jobs, times as long: {spread([each.ratio for each in known])}")
    whole = sum(not each.stopped for each in known)
    print(f"nothing stopped in {whole} of them; {len(found) - len(known)} whose plan takes too long passed over")
    return 0 if known[0].ratio <= GOAL else 1


if __name__ == "__main__":
    sys.exit(main())
