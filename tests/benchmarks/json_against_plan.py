"""How long the JSON of a job takes, fullness steps included, beside a cold plan of it with its improvements.

    python -m tests.benchmarks.json_against_plan --jobs 200 --seed 0
    python -m tests.benchmarks.json_against_plan juniper-loft.toml

Random jobs of one to twelve sections (tests/benchmarks/random_jobs.py), or the files named; in one process, the
median of seven, by the clock: run it on a quiet machine. Each time all that is remembered of layouts is forgotten,
the job is planned to its best, and that plan is written. Told are the worst ratios, what they spread over, and how
many jobs have all of their steps. Ends with status 1 where one takes more than five times as long. A plan that takes
longer than --seconds is passed over, and counted.
"""

from __future__ import annotations

import argparse
import functools
import gc
import signal
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median, quantiles

from msgspec import Struct

from tests.benchmarks.random_jobs import random_job
from tests.render.jobs import project_of
from wizard.project.plan_of_project import at_best, job_of
from wizard.render.formats import Request, render
from wizard.render.json_sheet import plan_json
from wizard.trade.make_plan import make_plan

TIMES = 7
GOAL = 5
SHOWN = 12


class Took(Struct, frozen=True):
    """One job: its name, seconds of the plan and of the JSON, steps listed and what was stopped."""

    name: str
    plan: float
    json: float
    steps: int
    stopped: tuple[str, ...]

    @property
    def ratio(self) -> float:
        return self.json / self.plan


class TooLongError(Exception):
    """A plan took too long."""


def memories() -> list[functools._lru_cache_wrapper[object]]:
    """All that the trade remembers of jobs by itself; what it knows of the declarations is the same for every job."""
    found = [each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper)]
    declared = ("wizard.trade.fields", "wizard.trade.job_fields")
    return [each for each in found if each.__module__.startswith("wizard.trade") and each.__module__ not in declared]


def forget() -> None:
    """As in a process that has planned nothing yet."""
    for each in memories():
        each.cache_clear()


def took(name: str, text: str, seconds: int) -> Took | None:
    """The median of seven; None where a plan takes too long."""

    def ring(*_: object) -> None:
        raise TooLongError

    signal.signal(signal.SIGALRM, ring)
    plans, sheets = [], []
    try:
        for _ in range(TIMES):
            # A job keeps what was read of it: each plan is of a new one.
            job = job_of(project_of(text))
            forget()
            signal.setitimer(signal.ITIMER_REAL, seconds)
            began = time.perf_counter()
            plan = at_best(make_plan(job))
            planned = time.perf_counter()
            signal.setitimer(signal.ITIMER_REAL, 0)
            render(plan, Request("json"))
            plans.append(planned - began)
            sheets.append(time.perf_counter() - planned)
            made = plan_json(plan)
    except TooLongError:
        return None
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    return Took(name, median(plans), median(sheets), len(made["fullness_steps"]), tuple(made["stopped"]))


def jobs(asked: argparse.Namespace) -> Iterator[tuple[str, str]]:
    """Those named, or random ones."""
    for path in asked.files:
        yield path.stem, path.read_text(encoding="utf-8")
    for seed in range(asked.seed, asked.seed + (0 if asked.files else asked.jobs)):
        yield f"seed {seed}", random_job(seed)


def told(each: Took) -> str:
    stopped = f"; stopped: {', '.join(each.stopped)}" if each.stopped else ""
    times = f"plan {each.plan * 1000:7.1f} ms, JSON {each.json * 1000:8.1f} ms, {each.ratio:5.2f} x"
    return f"{each.name:<36}{times}, {each.steps} steps{stopped}"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("files", type=Path, nargs="*")
    parser.add_argument("--jobs", type=int, default=200)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--seconds", type=int, default=10)
    asked = parser.parse_args()
    found = [took(name, text, asked.seconds) for name, text in jobs(asked)]
    known = sorted((each for each in found if each is not None), key=lambda each: -each.ratio)
    print("\n".join(told(each) for each in known[:SHOWN]))
    ratios, whole = [each.ratio for each in known], sum(not each.stopped for each in known)
    high = quantiles(ratios, n=100)[-1] if len(ratios) > 1 else ratios[0]
    print(f"{len(known)} jobs: median {median(ratios):.2f} x, 99th percentile {high:.2f} x, most {ratios[0]:.2f} x")
    print(f"nothing stopped in {whole} of them; {len(found) - len(known)} whose plan takes too long passed over")
    return 0 if ratios[0] <= GOAL else 1


if __name__ == "__main__":
    sys.exit(main())
