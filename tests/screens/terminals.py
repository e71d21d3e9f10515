"""The real program in a real pseudo-terminal, seen by a terminal emulator. All waits are for text; nothing sleeps."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from time import monotonic
from typing import Self

import pexpect
import pyte

from tests.commands.running import COVERAGE, kill

PATIENCE = 60
"""Seconds until a text that does not come is given up: far more than it takes."""

PROGRAM = (sys.executable, "-m", "wizard")

KEYS = {
    "Enter": "\r", "Esc": "\x1b", "Down": "\x1b[B", "Up": "\x1b[A", "Space": " ", "Tab": "\t",
    "F2": "\x1bOQ", "F3": "\x1bOR", "F5": "\x1b[15~", "F7": "\x1b[18~", "F8": "\x1b[19~", "F9": "\x1b[20~",
    "C-q": "\x11", "C-z": "\x1a",
}  # fmt: skip


class Terminal:
    """One run of the program."""

    def __init__(
        self,
        *arguments: str,
        cwd: Path,
        size: tuple[int, int] = (80, 24),
        env: Mapping[str, str] | None = None,
        program: tuple[str, ...] = PROGRAM,
    ):
        columns, rows = size
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.raw = b""
        base = {name: os.environ[name] for name in ("PATH", "HOME", *COVERAGE) if name in os.environ}
        wanted = {"TERM": "xterm-256color", "LANG": "C.UTF-8", "PYTHONPATH": str(Path.cwd()), **(env or {})}
        self.child: pexpect.spawn[bytes] = pexpect.spawn(
            program[0],
            [*program[1:], *arguments],
            dimensions=(rows, columns),
            cwd=str(cwd),
            env={**base, **wanted},
            timeout=PATIENCE,
        )

    def text(self) -> str:
        """What a person sees now."""
        return "\n".join(self.screen.display)

    def read(self) -> None:
        """Take in what the program has written, waiting for a little."""
        try:
            data = self.child.read_nonblocking(65536, timeout=0.05)
        except pexpect.TIMEOUT:
            return
        self.raw += data
        self.stream.feed(data)

    def until(self, wanted: Callable[..., bool], what: str) -> None:
        """Read until `wanted`; fails with the screen."""
        end = monotonic() + PATIENCE
        while not wanted():
            assert monotonic() < end, f"never came: {what}\n{self.text()}"
            self.read()

    def sees(self, text: str) -> None:
        """Wait for `text`."""
        self.until(lambda: text in self.text(), text)

    def gone(self, text: str) -> None:
        """Wait until `text` is no longer there."""
        self.until(lambda: text not in self.text(), f"the end of {text}")

    def press(self, *keys: str) -> None:
        """Send keys by name."""
        for key in keys:
            self.child.send(KEYS[key])

    def type(self, text: str) -> None:
        """Send text as one types it."""
        self.child.send(text)

    def kill(self, which: signal.Signals) -> int:
        """Send a signal, and give the exit status (negative for a death by signal)."""
        self.child.kill(which)
        return self.ended()

    def ended(self) -> int:
        """Wait for the end."""
        try:
            while True:
                self.raw += self.child.read_nonblocking(65536, timeout=PATIENCE)
        except pexpect.EOF:
            pass
        self.child.close()
        return self.child.exitstatus if self.child.exitstatus is not None else -(self.child.signalstatus or 0)

    def leave(self) -> None:
        """Leave by its key and by Enter."""
        self.press("C-q")
        self.sees("Leave?")
        self.press("Enter")

    def given_back(self) -> bool:
        """True when the shell has its own screen and its cursor again."""
        last = self.raw.rindex
        return last(b"\x1b[?1049l") > last(b"\x1b[?1049h") and last(b"\x1b[?25h") > last(b"\x1b[?25l")

    def said(self) -> str:
        """What was written on the shell's own screen at the end."""
        return self.raw[self.raw.rindex(b"\x1b[?1049l") :].decode()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """End what still runs."""
        kill(self.child)
