"""Running the command line as the shell does, and in the same process where that is enough."""

from __future__ import annotations

import argparse
import io
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

import pexpect

from wizard.cli import main
from wizard.commands.new_project import shipped
from wizard.commands.parser import build

TOP = Path(__file__).parents[2]
"""The repository."""

COVERAGE = ("COVERAGE_PROCESS_CONFIG", "COVERAGE_PROCESS_START")
"""Variables by which coverage counts programs that the tests start too."""

COMMANDS = next(each for each in build()._actions if isinstance(each, argparse._SubParsersAction)).choices
"""The parser of each command, by its name."""

SMALL = 'format = 1\nname = "Juniper loft"\n'
"""A project with nothing in it yet."""


def environment(**more: str) -> dict[str, str]:
    """What a run is given: the tree to import from, letters enough, and where its coverage is counted."""
    kept = {name: os.environ[name] for name in ("PATH", "SYSTEMROOT", *COVERAGE) if name in os.environ}
    return {**kept, "PYTHONPATH": str(TOP), "PYTHONUTF8": "1", **more}


def uncounted(**more: str) -> dict[str, str]:
    """The same for a server: the processes it starts may write nothing but the project, so no coverage either."""
    return {name: text for name, text in environment(**more).items() if name not in COVERAGE}


def railskirt(*argv: str, folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run `python -m wizard` in `folder`, with no terminal at either end; `more` goes into the environment."""
    return subprocess.run(
        [sys.executable, "-m", "wizard", *argv],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=folder,
        stdin=subprocess.DEVNULL,
        env=environment(**more),
        timeout=120,
        check=False,
    )


@contextmanager
def terminal(folder: Path, *argv: str, **more: str) -> Iterator[pexpect.spawn[str]]:
    """railskirt in a terminal of 100 columns and 30 rows; ended at last, whatever happens. A text that is waited for
    counts as never coming after a minute."""
    child = pexpect.spawn(
        sys.executable, ["-m", "wizard", *argv], cwd=str(folder), dimensions=(30, 100), encoding="utf-8", timeout=60,
        env=environment(**{"TERM": "xterm-256color", "HOME": str(folder), **more}),
    )  # fmt: skip
    try:
        yield child
    finally:
        kill(child)


def kill(child: pexpect.spawn[Any]) -> None:
    """End what still runs in a terminal. The library's own way gives a busy machine half a second for it."""
    if not child.closed and child.isalive():
        child.kill(signal.SIGKILL)
        child.wait()
    child.close()


def ended(child: pexpect.spawn[str]) -> int | None:
    """The exit status, once it has left by itself."""
    child.expect(pexpect.EOF)
    child.wait()
    return child.exitstatus


def leave(child: pexpect.spawn[str], *, asked: bool = True) -> int | None:
    """Leave by keys, as the foot of the screen says, and give the exit status; only with a job open is one asked."""
    child.send("\x11")
    if asked:
        child.expect_exact("Leave?")
        child.send("\r")
    return ended(child)


class Stream(io.TextIOWrapper):
    """A standard stream that is kept, and may be a terminal that somebody watches."""

    def __init__(self, *, watched: bool = False) -> None:
        super().__init__(io.BytesIO(), encoding="utf-8")
        self.watched = watched

    def isatty(self) -> bool:
        """As the commands ask."""
        return self.watched

    def text(self) -> str:
        """All that was written."""
        self.flush()
        assert isinstance(self.buffer, io.BytesIO)
        return self.buffer.getvalue().decode()


def within(
    *argv: str, folder: Path, out: Stream | None = None, err: Stream | None = None
) -> subprocess.CompletedProcess[str]:
    """The same in this process: what a shell would see, without the start of an interpreter each time."""
    out, err = out or Stream(), err or Stream()
    with chdir(folder), redirect_stdout(out), redirect_stderr(err), Path(os.devnull).open() as nothing:
        typed, sys.stdin = sys.stdin, nothing
        try:
            status = main(list(argv))
        except SystemExit as left:
            status = int(left.code or 0)
        finally:
            sys.stdin = typed
    return subprocess.CompletedProcess(list(argv), int(status), out.text(), err.text())


def data() -> bytes:
    """The demo job as it is shipped."""
    return (TOP / "projects" / name()).read_bytes()


def name() -> str:
    """The name of its file."""
    return next(each.name for each in shipped() if each.name.startswith("demo-"))
