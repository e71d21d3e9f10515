"""A program in a pseudo-terminal, timed at its edge: from the bytes of a key going in to the bytes that answer it.

Standard library only, so that it runs where nothing but the product and its needs is installed.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import termios
import time
from collections.abc import Mapping, Sequence
from typing import Final

COLUMNS, LINES = 120, 40
ESCAPES: Final = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|[\]P_^].*?(?:\x07|\x1b\\)|[ -/]*[0-~])", re.DOTALL)
"""What places, colours or asks, and shows no letter."""
PATIENCE: Final = 20.0
"""Seconds after which something that does not come is a fault of the benchmark."""


class SilentError(RuntimeError):
    """What was waited for did not come."""


class Terminal:
    """One program, from its start to its end. Use it as a context."""

    def __init__(self, argv: Sequence[str], env: Mapping[str, str] | None = None) -> None:
        self.argv = argv
        self.env = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor", **(env or {})}

    def __enter__(self) -> Terminal:
        self.began = time.perf_counter()
        self.process, self.end = pty.fork()
        if self.process == 0:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
            os.execvpe(self.argv[0], list(self.argv), self.env)
        return self

    def __exit__(self, *_: object) -> None:
        os.kill(self.process, signal.SIGTERM)
        try:
            while os.read(self.end, 65536):
                pass
        except OSError:
            pass
        os.waitpid(self.process, 0)
        os.close(self.end)

    def started(self, *wanted: str) -> float:
        """Seconds from the start of the program until all of `wanted` were shown."""
        return max(self._until(wanted)) - self.began

    def type(self, keys: str) -> None:
        """Write `keys` as the keyboard would."""
        os.write(self.end, keys.encode())

    def answered(self, keys: str, *wanted: str) -> float:
        """Seconds from writing `keys` until all of `wanted` were shown after it."""
        return max(self.answered_each(keys, *wanted))

    def answered_each(self, keys: str, *wanted: str) -> list[float]:
        """The same for each of `wanted`."""
        at = time.perf_counter()
        self.type(keys)
        return [each - at for each in self._until(wanted)]

    def settle(self, quiet: float = 0.04) -> None:
        """Read until nothing has come for `quiet` seconds."""
        while select.select([self.end], [], [], quiet)[0]:
            os.read(self.end, 65536)

    def _until(self, wanted: Sequence[str]) -> list[float]:
        """When each of `wanted` was shown."""
        seen: dict[str, float] = {}
        shown, limit = b"", time.perf_counter() + PATIENCE
        while len(seen) < len(set(wanted)):
            if not select.select([self.end], [], [], max(0.0, limit - time.perf_counter()))[0]:
                missing = sorted(set(wanted) - seen.keys())
                raise SilentError(f"{missing} not among {ESCAPES.sub(b'', shown)[-2000:].decode(errors='replace')!r}")
            shown += os.read(self.end, 65536)
            letters, at = ESCAPES.sub(b"", shown), time.perf_counter()
            seen |= {each: at for each in wanted if each not in seen and each.encode() in letters}
        return [seen[each] for each in wanted]


def percentile(times: Sequence[float], part: float) -> float:
    """The time that `part` of all are not above."""
    ordered = sorted(times)
    return ordered[min(len(ordered) - 1, int(part * len(ordered)))]
