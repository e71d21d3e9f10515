"""A program that is killed at any moment leaves a whole project, and nothing that it reported as held is lost.

    python -m tests.endurance.kills --kills 1000 --seed 0

Each time a process opens the project, or begins it, types one answer after another into it and enters it; it reports
what is typed and kept, and what is held. After a random number of reports and a random time it is killed. Then the
project and the file before the last save are read: both are whole, the project holds what was reported last or the
answer after that, and what was typed and not entered is offered again. The processes are forked from one that has
everything loaded. Kill K is made from seed + K. Prints the figures; the status is 1 where something is wrong.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from msgspec import Struct

from tests.benchmarks.options import options
from wizard.interview.file_state import clock
from wizard.interview.outcome import Accepted
from wizard.interview.session import Session
from wizard.project.project import Project
from wizard.project.store import Opened, Store

KEY = "name"
REPORTS = 8
"""Reports at most before a kill."""
WITHIN = 0.012
"""Seconds at most from the last report to the kill: about what typing, keeping, planning and saving take."""
TYPED, HELD = b"t", b"h"


class Told(Struct):
    """What a process reported until it was killed: the numbers of its answers."""

    typed: int = 0
    held: int = 0

    def note(self, report: bytes) -> None:
        """Count a report in."""
        self.typed += report == TYPED
        self.held += report == HELD


def answer_for_ever(path: Path, first: int, pipe: int) -> None:
    """Type, keep and enter `answer N`, counting on from `first`; begins the project where it is not there."""
    session = Session.resume(Store(path), clock) if path.exists() else Session.begin(Store(path), Project(), clock)
    assert isinstance(session, Session), session
    number = first
    while True:
        session.type(KEY, f"answer {number}")
        assert session.keep_pending()
        os.write(pipe, TYPED)
        assert isinstance(session.answer(KEY, f"answer {number}"), Accepted)
        os.write(pipe, HELD)
        number += 1


def killed(path: Path, first: int, random: Random) -> Told:
    """What a process reported before it was killed at a random moment."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        try:
            answer_for_ever(path, first, writing)
        finally:
            os._exit(1)
    os.close(writing)
    told = Told(first - 1, first - 1)
    for _ in range(random.randint(1, REPORTS)):
        told.note(os.read(reading, 1))
    time.sleep(random.uniform(0, WITHIN))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "it ended of itself"
    while report := os.read(reading, 1):
        told.note(report)
    os.close(reading)
    return told


def wrongs(path: Path, told: Told) -> Iterator[str]:
    """What is wrong with the files a killed process left, in words."""
    last = path.with_name(f".{path.name}.last")
    if last.exists() and not isinstance(Store(last).open(), Opened):
        yield "the file before the last save does not load"
    session = Session.resume(Store(path), clock)
    if not isinstance(session, Session):
        yield f"the project does not load: {session.all[0].sentence}"
        return
    number = number_of(session.project)
    if number not in (told.held, told.held + 1):
        yield f"{told.held} was reported as held; the project has {number}"
    if told.typed > number and session.text(KEY) not in (f"answer {told.typed}", f"answer {told.typed + 1}"):
        yield f"{told.typed} was typed and kept, and is not offered"


def number_of(project: Project) -> int:
    """The number of the answer a project holds; 0 for none."""
    return int((project.name or "0").removeprefix("answer "))


def many(folder: Path, kills: int, seed: int) -> bool:
    """Kill as said above, and print what came of it; True when all is right."""
    path, number, found, saves, offered, start = folder / "job.toml", 0, 0, 0, 0, time.monotonic()
    for each in range(seed, seed + kills):
        random = Random(each)
        if random.random() < 0.1:
            path.unlink(missing_ok=True)
            number = 0
        told = killed(path, number + 1, random)
        saves += told.held - number
        for wrong in wrongs(path, told) if path.exists() or told.typed else ():
            found += 1
            print(f"seed {each}: {wrong}", flush=True)
        opened = Store(path).open()
        if not isinstance(opened, Opened):
            path.unlink(missing_ok=True)
        number = number_of(opened.project) if isinstance(opened, Opened) else 0
        offered += told.typed > number
    litter = sum(each.name.endswith(".new") for each in folder.iterdir())
    print(
        f"{kills} kills in {time.monotonic() - start:.0f} s: {found} wrong, {saves} saves reported as held, "
        f"{offered} answers typed and offered again; {litter} temporary files left, which later saves remove"
    )
    return not found


if __name__ == "__main__":
    asked = options(__doc__, kills=1000, seed=0)
    with TemporaryDirectory() as name:
        sys.exit(0 if many(Path(name), asked.kills, asked.seed) else 1)
