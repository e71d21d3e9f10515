"""Random walks over the real program in a real pseudo-terminal: no key ends it, no screen stays blank, no file is lost.

    python -m tests.endurance.walks --walks 500 --keys 200 --seed 0 --from 120 --processes 2 --details FOLDER

A walk presses keys one by one and in bursts, clicks, turns the wheel, pastes and resizes the window. A walk that leaves
by choice is opened again until all its keys are sent; one that goes to the shell is called back. At its end something
is on the screen, the help opens, the program ends when it is told to, and every project loads. Prints a line for each
walk and a summary, and writes what each failed walk left into the folder for details; the status is 1 where one failed.
Walk K is made from seed + K: `--from 138 --walks 139` walks number 138 again.
"""

from __future__ import annotations

import os
import re
import select
import shutil
import signal
import sys
import termios
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from contextlib import closing, suppress
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

import pexpect
import pyte
from msgspec import Struct

from tests.benchmarks.options import options
from tests.commands.running import kill
from tests.endurance.walk_steps import Start, Step, Walk, walk_of
from tests.screens.jobs import NOON, job_file
from wizard.commands.exits import Exit
from wizard.interview.session import Session
from wizard.project.folder import find_projects
from wizard.project.project import Project, put
from wizard.project.store import Store

PATIENCE: Final = 30.0
"""Seconds without a sign of life after which the program counts as hung."""
QUIET: Final = 0.5
"""Seconds without a new letter on the screen after which the program waits for keys: it is given time to run."""
HELP: Final = re.compile(r"│ +Help +│")
"""The heading of the help in its box."""
READY: Final = b"\x1b[?1004h"
"""Written once keys are read raw."""
KEYS: Final = {
    **{f"f{n}": f"\x1bO{letter}" for n, letter in enumerate("PQRS", 1)},
    **{f"f{n}": f"\x1b[{code}~" for n, code in zip(range(5, 13), (15, 17, 18, 19, 20, 21, 23, 24), strict=True)},
    **{f"ctrl+{letter}": chr(ord(letter) - 96) for letter in "abcdefghijklmnopqrstuvwxyz"},
    **{"up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D", "home": "\x1b[H", "end": "\x1b[F"},
    **{"pageup": "\x1b[5~", "pagedown": "\x1b[6~", "delete": "\x1b[3~", "backspace": "\x7f", "tab": "\t"},
    **{"shift+tab": "\x1b[Z", "enter": "\r", "space": " "},
    **{"shift+f7": "\x1b[18;2~", "shift+f8": "\x1b[19;2~", "shift+f9": "\x1b[20;2~"},
    # Not the bare sign: in a burst it would be read as the beginning of the next key.
    "escape": "\x1b[27u",
}


class Result(Struct, frozen=True):
    """How a walk ended. `fault`: what was wrong, empty for nothing."""

    seed: int
    start: Start
    seconds: float
    fault: str = ""
    details: str = ""


class Failed(Exception):  # noqa: N818  what it carries is told in the walk's line
    """What was wrong."""


class Window:
    """The program in a pseudo-terminal; what it wrote since the last resize is kept, to be looked at in the end."""

    def __init__(self, walk: Walk, folder: Path) -> None:
        self.folder, self.size = folder, walk.size
        self.arguments = [] if walk.start == "the list of projects" else ["loft.toml"]
        self.open()

    def open(self) -> None:
        """Start the program, and wait until it reads keys."""
        columns, lines = self.size
        here = {"HOME": str(self.folder), "TMPDIR": str(self.folder / "faults"), "PYTHONPATH": str(Path.cwd())}
        self.child = pexpect.spawn(
            sys.executable, ["-m", "wizard", *self.arguments], dimensions=(lines, columns), cwd=str(self.folder),
            env={"PATH": os.environ["PATH"], "TERM": "xterm-256color", "LANG": "C.UTF-8", **here},
        )  # fmt: skip
        self.written = b""
        end = time.monotonic() + PATIENCE
        while READY not in self.written:
            if not self.read(0.5) or time.monotonic() > end:
                raise Failed(f"did not open: {self.written[-300:]!r}")

    def read(self, seconds: float) -> bool:
        """Take in what is written within `seconds`, until nothing comes for a while. False when the program ended."""
        if select.select([self.child.child_fd], [], [], seconds)[0]:
            try:
                data = os.read(self.child.child_fd, 1 << 16)
            except OSError:
                return False
            self.written += data
            return bool(data)
        return True

    def settle(self, quiet: float, longest: float = PATIENCE) -> bool:
        """Read until nothing came for `quiet` seconds. False when the program ended."""
        end = time.monotonic() + longest
        while time.monotonic() < end:
            before = len(self.written)
            if not self.read(quiet):
                return False
            if len(self.written) == before and not self.called_back():
                return True
        return True

    def called_back(self) -> bool:
        """Have the program go on where it is the terminal that holds it. True where it was held.

        It may have gone to the shell, which calls it back by `fg`. Or it has left, and Ctrl+S among the keys that came
        after it stopped the terminal until Ctrl+Q.
        """
        with suppress(OSError, termios.error):
            if Path(f"/proc/{self.child.pid}/stat").read_text().rpartition(")")[2].split()[0] == "T":
                self.child.kill(signal.SIGCONT)
                return True
            if termios.tcgetattr(self.child.child_fd)[3] & termios.ICANON:
                os.write(self.child.child_fd, b"\x11")
                return True
        return False

    def send(self, text: str) -> bool:
        """Write to the program, reading meanwhile what it writes. False when it ended."""
        data = text.encode()
        end = time.monotonic() + PATIENCE
        while data:
            readable, writable, _ = select.select([self.child.child_fd], [self.child.child_fd], [], 1.0)
            if readable and not self.read(0):
                return False
            try:
                data = data[os.write(self.child.child_fd, data[:512]) :] if writable else data
            except OSError:
                return False
            if time.monotonic() > end:
                raise Failed("takes no keys any more")
        return True

    def do(self, step: Step) -> bool:
        """One step of a walk. False when the program ended."""
        if step.size:
            self.resize(*step.size)
        keys = "".join(KEYS.get(each, each) for each in step.keys)
        pasted = f"\x1b[200~{step.paste}\x1b[201~" if step.paste else ""
        if not self.send(keys + pasted + (self._mouse(step.click, step.wheel) if step.click else "")):
            return False
        end = time.monotonic() + step.pause
        while (left := end - time.monotonic()) > 0:
            if not self.read(left):
                return False
        self.called_back()
        return self.read(0)

    def resize(self, columns: int, lines: int) -> None:
        """All that was written before is painted over."""
        self.size, self.written = (columns, lines), b""
        self.child.setwinsize(lines, columns)

    def _mouse(self, at: tuple[float, float], wheel: int) -> str:
        x, y = (int(part * cells) + 1 for part, cells in zip(at, self.size, strict=True))
        if wheel:
            return f"\x1b[<{64 if wheel < 0 else 65};{x};{y}M"
        return f"\x1b[<35;{x};{y}M\x1b[<0;{x};{y}M\x1b[<0;{x};{y}m"

    def text(self) -> list[str]:
        """What a person sees now, line by line."""
        screen = pyte.Screen(*self.size)
        pyte.ByteStream(screen).feed(self.written)
        return list(screen.display)

    def status(self) -> int:
        """Exit status; negative for a death by signal. Fails where the program does not end."""
        end = time.monotonic() + PATIENCE
        while self.read(0.5):
            if time.monotonic() > end:
                raise Failed("does not end")
        self.child.wait()
        self.child.close()
        return self.child.exitstatus if self.child.exitstatus is not None else -(self.child.signalstatus or 0)

    def close(self) -> None:
        """End what still runs."""
        kill(self.child)


def furnish(folder: Path, start: Start) -> None:
    """The files that a walk starts with."""
    (folder / "faults").mkdir()
    if start == "an empty job":
        begin(folder / "loft.toml", "Juniper loft")
        return
    job_file(folder / "loft.toml")
    if start == "the list of projects":
        begin(folder / "gannet.toml", "Gannet [b]stair[/b]")
        job_file(folder / "moor.toml", "fullness.how")
        shutil.copy(Path("projects") / "template-workroom.toml", folder)


def begin(path: Path, name: str) -> None:
    """A job with nothing in it but its name."""
    session = Session.begin(Store(path), put(Project(), "name", name), lambda: NOON)
    assert isinstance(session, Session)
    session.leave()


def walked(seed: int, keys: int) -> Result:
    """Walk once."""
    walk, began, fault = walk_of(seed, keys), time.monotonic(), ""
    with TemporaryDirectory(prefix="walk-") as name:
        folder = Path(name)
        furnish(folder, walk.start)
        try:
            with closing(Window(walk, folder)) as window:
                go(window, walk)
                look(window)
                leave(window, folder)
        except Failed as failed:
            fault = str(failed)
        kept = sorted((folder / "faults").iterdir())
        details = "\n".join(each.read_text() for each in kept)
        if kept and not fault:
            # The name and words of a fault stand behind where it came from.
            last = details.strip().rpartition("\n")[2]
            fault = f"{len(kept)} faults came through and were survived: {last}"
        return Result(seed, walk.start, time.monotonic() - began, fault, details)


def go(window: Window, walk: Walk) -> None:
    """Every step; opened again where it leaves by choice."""
    for step in walk.steps:
        while not window.do(step):
            reopen(window)
            if not step.size:
                break  # The step itself may have left: it is not done twice.


def look(window: Window) -> None:
    """Something is on the screen, and the help opens. Where a key that was still waiting leaves, it is opened again."""
    if not window.settle(QUIET):
        reopen(window)
        window.settle(QUIET)
    end = time.monotonic() + PATIENCE
    while not "".join(window.text()).strip():
        if time.monotonic() > end:
            raise Failed("blank screen")
        window.settle(QUIET)
    window.resize(81, 25)
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        for key in (KEYS["escape"], KEYS["f1"]):
            if not (window.send(key) and window.settle(QUIET)):
                reopen(window)
        if HELP.search("\n".join(window.text())):
            return
    raise Failed("no help:\n" + "\n".join(window.text()))


def reopen(window: Window) -> None:
    """Open the program again, which left. Fails where that was not by choice: Ctrl+C is one, typed at the shell too."""
    if (status := window.status()) not in (Exit.OK, Exit.INTERRUPTED):
        raise Failed(f"exit {status}")
    window.open()


def leave(window: Window, folder: Path) -> None:
    """It ends when it is told to, and every project loads."""
    window.child.kill(signal.SIGTERM)
    if (status := window.status()) != 128 + signal.SIGTERM:
        raise Failed(f"exit {status} where it was told to end")
    broken = [found.path.name for found in find_projects(folder) if not isinstance(found.project, Project)]
    if broken:
        raise Failed(f"no longer loads: {', '.join(broken)}")


def main() -> int:
    """Walk, and print how it went: a line for each, and a file of its own where it failed."""
    asked = vars(options(__doc__, walks=500, keys=200, seed=0, **{"from": 0}, processes=1, details=""))
    began, failed, walks = time.monotonic(), Counter[str](), range(asked["from"], asked["walks"])
    with ProcessPoolExecutor(asked["processes"]) as pool:
        for result in pool.map(partial(walked, keys=asked["keys"]), (asked["seed"] + each for each in walks)):
            said = result.fault.partition("\n")[0]
            number = result.seed - asked["seed"]
            print(f"{number:5}  {result.seconds:5.1f} s  {result.start:<21} {said or 'ok'}", flush=True)
            failed += Counter([said] if said else [])
            if said and asked["details"]:
                kept = Path(asked["details"]) / f"walk-{result.seed}.txt"
                kept.parent.mkdir(parents=True, exist_ok=True)
                kept.write_text(f"{result.fault}\n\n{result.details}")
    took = time.monotonic() - began
    print(f"\n{len(walks)} walks of {asked['keys']} keys in {took:.0f} s: {failed.total()} failed")
    for fault, times in failed.most_common():
        print(f"{times:5}  {fault}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
