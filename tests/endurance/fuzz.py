"""Whatever is typed, and whatever a file holds: a value within its limits or a sentence, in bounded time.

    python -m tests.endurance.fuzz --lengths 100000 --files 10000 --seed 0

What is typed goes to every kind of field in every unit: nothing is raised but a refusal, which is a sentence with an
example that would be taken; every reading it offers is taken; what is taken lies within its limits, and its text reads
back to the same. A file is checked as the command does it, within two seconds of processor time; of those that open one
in ten is written on paper too, within twenty. Number K is made from seed + K. Prints the figures, and each failure with
its seed; the status is 1 where there is one.
"""

from __future__ import annotations

import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from io import StringIO
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import TypeVar

from tests.benchmarks.measuring import options
from tests.endurance.near_misses import damaged, typed
from tests.project.projects import leaves
from wizard.commands.check import run_check
from wizard.project.keys import limits_at, split
from wizard.project.parse import Misread
from wizard.project.parse.field_values import bounds_of, value_within
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.project.reading import read
from wizard.render.formats import Request, render
from wizard.render.sheet_names import Format
from wizard.trade.fields import Limits
from wizard.trade.lengths import UNITS

FIELDS = {
    each.noun: each
    for key, _ in leaves()
    if (each := limits_at(Project, split(key)) or limits_at(Project, split(f"{key}.1")))
}
"""Every kind of field, by what it is called."""
CHECK, PAPER = 2.0, 20.0
"""Seconds of processor time a file may take to be checked, and to be written on paper."""
ON_PAPER = 10
"""One of so many files that open is written on paper."""
FORMS: tuple[Format, ...] = ("html", "text")
T = TypeVar("T")


class SlowError(Exception):
    """It took too long."""


def wrong_with_typed(limits: Limits, text: str, unit: str | None, met: Counter[str]) -> str:
    """What is wrong with how `text` is read at a field; empty for nothing."""
    try:
        value = value_within(limits, text, unit)
        met["taken"] += 1
    except Misread as misread:
        met["asked about" if misread.readings else "refused"] += 1
        return wrong_with_refusal(limits, misread, unit)
    if value_within(limits, value.text) != value:
        return f"{value.text!r} reads back to something else"
    least, most = bounds_of(limits)
    fits = least <= value <= most or (limits.none is not None and not value)
    return "" if fits else f"{value.text!r} is beyond the limits"


def wrong_with_refusal(limits: Limits, misread: Misread, unit: str | None) -> str:
    if not (misread.sentence.isprintable() and misread.sentence.rstrip(" ”")[-1] in ".?!"):
        return f"no sentence: {misread.sentence!r}"
    for each in (*misread.readings, misread.example):
        try:
            value_within(limits, each, unit)
        except Misread as again:
            return f"offers {each!r}, which is refused: {again}"
    return ""


def type_at(seed: int, met: Counter[str]) -> str:
    """Type one text at one field; what is wrong."""
    random = Random(seed)
    limits = FIELDS[random.choice(sorted(FIELDS))]
    unit = random.choice(sorted(set(UNITS) - {"dm"})) if limits.kind == "length" and random.random() < 0.8 else None
    text = typed(random, limits)
    try:
        wrong = wrong_with_typed(limits, text, unit, met)
    except Exception as raised:  # whatever is raised is the finding
        wrong = f"{type(raised).__name__}: {raised}"
    return wrong and f"{limits.noun}: {text!r} in {unit}: {wrong}"


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Raise SlowError once so much processor time was taken."""

    def stop(*_: object) -> None:
        raise SlowError

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def timed(most: float, name: str, met: Counter[str], call: Callable[[], T]) -> T:
    """What a call gives; raises SlowError where it takes more than so many seconds of processor time."""
    began = time.process_time()
    with within(most):
        given = call()
    slowest = f"slowest {name}, ms"
    met[slowest] = max(met[slowest], round((time.process_time() - began) * 1000))
    return given


def check_file(path: Path, seed: int, met: Counter[str]) -> str:
    """Check one file, and write it on paper where it is its turn; what is wrong."""
    data, out = damaged(seed), StringIO()
    path.write_bytes(data)
    try:
        met[timed(CHECK, "check", met, lambda: run_check([path], out)).name] += 1
        if not out.getvalue() or not all(line.isprintable() for line in out.getvalue().splitlines()):
            return "nothing is said, or it cannot be shown"
        project = read(data)
        if isinstance(project, Project) and seed % ON_PAPER == 0:
            timed(PAPER, "on paper", met, lambda: [render(plan_of(project), Request(form)) for form in FORMS])
            met["written on paper"] += 1
    except SlowError:
        return f"more than {PAPER if out.getvalue() else CHECK:g} s"
    except Exception as raised:  # whatever is raised is the finding
        return f"{type(raised).__name__}: {raised}"
    return ""


def main() -> int:
    """Run it, say the figures."""
    given = options(__doc__, lengths=100_000, files=10_000, seed=0)
    found = 0
    with TemporaryDirectory() as folder:
        runs: dict[str, tuple[int, Callable[[int, Counter[str]], str]]] = {
            "typed": (given.lengths, type_at),
            "file": (given.files, partial(check_file, Path(folder) / "job.toml")),
        }
        for name, (count, run) in runs.items():
            met, wrong = Counter[str](), 0
            for number in range(count):
                if fault := run(given.seed + number, met):
                    wrong += 1
                    print(f"{name}, --seed {given.seed + number}: {fault}", flush=True)
                if (number + 1) % 10_000 == 0 or number + 1 == count:
                    print(f"{name} {number + 1} times, {wrong} wrong: {dict(met)}", flush=True)
            found += wrong
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
