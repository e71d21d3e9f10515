"""How much memory a session of thousands of answers holds.

    python -m tests.benchmarks.long_session --edits 10000

The answers change one length to and fro, each saved to the file and planned; memory is what the process holds after a
tenth of them and after all: flat means that the last nine tenths add less than a tenth. Ends with status 1 where it is
not flat.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.options import options
from tests.render.jobs import WHOLE
from wizard.interview.file_state import clock
from wizard.interview.outcome import Accepted
from wizard.interview.session import Session
from wizard.project.problems import Problems
from wizard.project.store import Store

KEY = "survey.section.left.run.1"


def held() -> float:
    """MiB that this process holds now."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * 4096 / 2**20


def stays_flat(path: Path, edits: int) -> bool:
    """Give so many answers in one session; True where memory stays flat."""
    path.write_text(WHOLE, encoding="utf-8")
    session = Session.resume(Store(path), clock)
    assert not isinstance(session, Problems)
    first, began = 0.0, time.perf_counter()
    for number in range(1, edits + 1):
        answered = session.answer(KEY, f"{70 + number % 7} {1 + number % 7}/16 in")
        assert isinstance(answered, Accepted), answered
        if number == max(1, edits // 10):
            first = held()
    last, each = held(), (time.perf_counter() - began) / edits * 1000
    print(f"{edits} edits, {each:.1f} ms each: {first:.0f} MiB after a tenth, {last:.0f} MiB after all")
    return last < first * 1.1


def main() -> int:
    with TemporaryDirectory() as folder:
        return 0 if stays_flat(Path(folder) / "edits.toml", options(__doc__, edits=10_000).edits) else 1


if __name__ == "__main__":
    sys.exit(main())
