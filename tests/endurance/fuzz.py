"""Whatever is typed, and whatever a file holds: a value within its limits or a sentence, in bounded time.

    python -m tests.endurance.fuzz --lengths 100000 --files 10000 --seed 0

What is typed goes to every kind of field in every unit: nothing is raised but a refusal, which is a sentence with an
example that would be taken; every reading it offers is taken; what is taken lies within its limits, and its text reads
back to the same. A file is checked as the command does it, within two seconds of processor time; of those that open one
in ten is written on paper too, within twenty. Number K is made from seed + K. Prints the figures, and each failure with
its seed; the status is 1 where there is one.
"""

from __future__ import annotations

import re
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
from typing import Final, TypeVar

from tests.benchmarks.options import options
from tests.project.projects import leaves
from tests.render.jobs import random_file
from wizard.commands.check import run_check
from wizard.project.keys import limits_at, split
from wizard.project.parse import Misread
from wizard.project.parse.field_values import bounds_of, value_within
from wizard.project.parse.length_text import WORDS
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.project.reading import read
from wizard.render.formats import Request, render
from wizard.render.sheet_names import Format
from wizard.trade.fields import Limits
from wizard.trade.lengths import UNITS

OTHERS: Final = (
    "M", "Mm", "mM", "am", "fm", "nm", "km", "mi", "parsec", "ly", "bohr", "rods", "hand", "nail", "ell", "thou", "pt",
    "kg", "s", "zork", "x", "×", "%", "per cent", "times", "survey foot", "in in", "fathom of it",
)  # fmt: skip
SPACES: Final = (" ", "", "  ", "-", "\n", "\t", "\u00a0", " - ", ", ")
ODD: Final = "0123456789.,/'\"½⅟ -+~≈°²³€$%x×\n\r\u2028\u00b5[]{}()\\\x1b\u202e٣Ⅷ"
DAMAGE: Final = (
    b"", b"\x00", b"\xff", b"[", b"]", b'"', b"=", b"\n", b"{", b"#", b"'''", b"9" * 30, b"[[a]]\n", b"\\u",
)  # fmt: skip
_QUOTED: Final = re.compile(r'"([^"]*)"')


def number(random: Random) -> str:
    """A number, or nearly one."""
    n, few = random.randint(0, 10 ** random.randint(0, 4)), random.randint(0, 9)
    forms = (
        f"{n}", f"{n} {few}/8", f"{n}½", f"{n}.{few}", f"{n},{few}", f"{few},{random.randint(0, 999):03}", f"0{n}",
        f"00,{random.randint(0, 999):03}", f"{n},{random.randint(0, 9999):04}", f"{few} {random.randint(0, 999):03}",
        f"{n}.{few}.{few}", f"{few}/{random.randint(0, 64)}", f"{n}-{few}/16", "9" * random.randint(1, 40),
        f"0.{'3' * random.randint(1, 30)}", f"1/{10 ** random.randint(0, 20)}", f"-{n}", f"{n}e{few}", f"≈ {n}", ".5",
        f"{n}.", "", f"1.{random.randint(0, 999):03},{few}",
    )  # fmt: skip
    return random.choice(forms if random.random() < 0.5 else forms[:5])


def unit(random: Random) -> str:
    """A unit, one that is none, or one with a letter wrong."""
    word = random.choice([*WORDS, *WORDS, *OTHERS]) if random.random() < 0.8 else ""
    if random.random() < 0.1 and word:
        at = random.randrange(len(word))
        word = word[:at] + random.choice(["", word[at] * 2, random.choice("aeimnst")]) + word[at + 1 :]
    return random.choice([word, word, word.upper(), word.title()])


def typed(random: Random, limits: Limits) -> str:
    """What somebody may type at a field."""
    if random.random() < 0.1:
        scale = random.choice(limits.scales)
        text = random.choice([scale.least, scale.most, scale.example])
    else:
        groups, spaces = random.choice([1, 1, 1, 1, 2, 3]), SPACES[: random.choice([1, 2, 2, len(SPACES)])]
        text = random.choice(spaces).join(number(random) + random.choice(spaces) + unit(random) for _ in range(groups))
    for _ in range(random.choice([0, 0, 0, 0, 0, 1, 2])):
        at = random.randint(0, len(text))
        text = text[:at] + random.choice(ODD) + text[at + random.randint(0, 1) :]
    return text


def damaged(seed: int) -> bytes:
    """A project file with values at and beyond their limits, or with bytes damaged, or both."""
    random = Random(seed)
    text = random_file(random.randrange(10_000))
    kind = random.choice(["extreme", "extreme", "extreme", "damaged", "both"])
    if kind != "damaged":
        text = extreme(random, text, random.choice([1, 1, 2, 5, 20]))
    data = text.encode("utf-8", "surrogatepass")
    for _ in range(0 if kind == "extreme" else random.choice([1, 1, 2, 8])):
        start = random.randint(0, len(data))
        stop = min(len(data), start + random.choice([0, 1, 1, 2, 50, 2000]))
        data = data[:start] + random.choice(DAMAGE) + data[stop:]
    return data


def extreme(random: Random, text: str, count: int) -> str:
    """The file with so many of its values at their limits, beyond them, or nearly typed."""
    lines = text.splitlines()
    fields = [*typed_lines(lines)]
    for at, limits in random.sample(fields, min(count, len(fields))):
        scale = random.choice(limits.scales)
        likely = [scale.least, scale.most, scale.example]
        new = random.choice([*likely * 9, f"9{scale.most}", "5 parsec", typed(random, limits)])
        items = _QUOTED.findall(lines[at])
        items[random.randrange(len(items))] = new.replace("\\", "").replace('"', "in").replace("\n", "\\n")
        name, _, held = lines[at].partition(" = ")
        value = ", ".join(f'"{each}"' for each in items)
        lines[at] = f"{name} = {value}" if held[0] == '"' else f"{name} = [{value}]"
    return "\n".join(lines)


def typed_lines(lines: list[str]) -> Iterator[tuple[int, Limits]]:
    """The lines that hold a typed value, each with its limits."""
    table = ""
    for at, line in enumerate(lines):
        if line.startswith("["):
            table = line.strip("[]") + "."
        name, _, value = line.partition(" = ")
        key = f"{table}{name}"
        limits = limits_at(Project, split(key)) or limits_at(Project, split(f"{key}.1"))
        if limits and value[:1] in ('"', "[") and _QUOTED.search(value):
            yield at, limits


# Whatever is typed, and whatever a file holds: a value within its limits or a sentence, in bounded time.
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
