"""A project with hundreds of notes, opened and saved; and how much memory a session of thousands of answers holds.

    python -m tests.benchmarks.long_session
    python -m tests.benchmarks.long_session --notes 500 --edits 10000

Opening and saving are the medians of eleven, beside `tomllib` reading the same file. The answers of the session change
one length to and fro, each saved to the file and planned; memory is what the process holds after a tenth of them and
after all: flat means that the last nine tenths add less than a tenth. Ends with status 1 where it is not flat.
"""

from __future__ import annotations

import argparse
import sys
import time
import tomllib
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from msgspec.structs import replace

from tests.render.jobs import WHOLE
from wizard.interview.file_state import clock
from wizard.interview.outcome import Accepted
from wizard.interview.session import Session
from wizard.project.problems import Problems
from wizard.project.store import Held, Store

TIMES = 11
KEY = "survey.section.left.run.1"


def seconds(call: Callable[[], object]) -> float:
    """The median of some calls."""
    took = []
    for _ in range(TIMES):
        began = time.perf_counter()
        call()
        took.append(time.perf_counter() - began)
    return median(took)


def with_notes(path: Path, count: int) -> None:
    """A job with so many notes."""
    notes = [f'[work."hem:face:part-{n}"]\nnote = "A slub in width {n}, turned inside."\n' for n in range(count)]
    path.write_text("\n".join([WHOLE, *notes]), encoding="utf-8")


def notes(path: Path, count: int) -> None:
    """Time a file with so many notes, and print."""
    with_notes(path, count)
    parsed = seconds(lambda: tomllib.loads(path.read_text(encoding="utf-8")))
    opened = seconds(lambda: Store(path).open())
    store = Store(path)
    found = store.open()
    assert not isinstance(found, Problems)
    changes = iter(range(10**6))

    def save() -> None:
        assert isinstance(store.save(replace(found.project, name=f"Juniper loft {next(changes)}")), Held)

    saved = seconds(save)
    print(
        f"{count} notes: tomllib {parsed * 1000:.1f} ms, opening {opened * 1000:.1f} ms ({opened / parsed:.1f} x), "
        f"saving {saved * 1000:.1f} ms ({saved / parsed:.1f} x)"
    )


def held() -> float:
    """MiB that this process holds now."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * 4096 / 2**20


def edits(path: Path, count: int) -> bool:
    """So many answers in one session; True where memory stays flat."""
    path.write_text(WHOLE, encoding="utf-8")
    session = Session.resume(Store(path), clock)
    assert not isinstance(session, Problems)
    first, began = 0.0, time.perf_counter()
    for number in range(1, count + 1):
        answered = session.answer(KEY, f"{70 + number % 7} {1 + number % 7}/16 in")
        assert isinstance(answered, Accepted), answered
        if number == max(1, count // 10):
            first = held()
    last = held()
    each = (time.perf_counter() - began) / count * 1000
    print(f"{count} edits, {each:.1f} ms each: {first:.0f} MiB after a tenth, {last:.0f} MiB after all")
    return last < first * 1.1


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--notes", type=int, default=500)
    parser.add_argument("--edits", type=int, default=10_000)
    asked = parser.parse_args()
    with TemporaryDirectory() as folder:
        notes(Path(folder) / "notes.toml", asked.notes)
        return 0 if edits(Path(folder) / "edits.toml", asked.edits) else 1


if __name__ == "__main__":
    sys.exit(main())
