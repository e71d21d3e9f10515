"""What the process behind a page may write: project files inside what is served, each with its own backup, lock and
project. Nothing else, whichever part of the program tries.

The interpreter reports each file that is opened, renamed, linked or removed to a hook, which can refuse. It holds back
our own mistakes and whatever a person types; it is no cage for foreign code, and none runs here.
"""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path
from typing import Any, Final

_WRITES: Final = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_AT_A_NAME: Final = frozenset({"os.remove", "os.rename", "os.link"})
"""Events that change the name itself, not what a link of that name leads to. `os.replace` is an `os.rename` too."""
_THROUGH_A_NAME: Final = frozenset({"os.chmod", "os.chown", "os.truncate", "os.utime", "os.setxattr", "os.removexattr"})
_NEVER: Final = frozenset(
    {"os.mkdir", "os.rmdir", "os.symlink", "os.system", "os.exec", "os.posix_spawn", "os.spawn", "subprocess.Popen"}
)


class Confinement:
    """The project file `served`, or those of the folder `served`; no folder inside it."""

    def __init__(self, served: Path) -> None:
        real = os.path.realpath(served)
        folder = os.path.isdir(real)
        self._folder: Final = real if folder else os.path.dirname(real)
        name = r"[^./][^/]*\.toml" if folder else re.escape(os.path.basename(real))
        bare = name if folder else re.escape(os.path.basename(real).lstrip("."))
        self._ours: Final = re.compile(rf"{name}(\.before(-\d+)?)?|\.{{1,2}}{bare}\.[^/]+", re.DOTALL)

    def audit(self, event: str, args: tuple[Any, ...]) -> None:
        """Raise PermissionError for what would write outside, or read through a link that leads outside."""
        if event == "open":
            self._opened(args[0], args[2])
        elif event in _THROUGH_A_NAME:
            self._led_to(args[0])
        elif event in _AT_A_NAME:
            for each in args[: 1 if event == "os.remove" else 2]:
                self._named(_text(each))
        elif event in _NEVER:
            raise _refused(str(args[0]))

    def _opened(self, path: Any, flags: int) -> None:
        if isinstance(path, int) or path == os.devnull:
            return
        if flags & _WRITES or os.path.dirname(os.path.abspath(_text(path))) == self._folder:
            self._led_to(path)

    def _led_to(self, path: Any) -> None:
        if not isinstance(path, int):
            self._named(os.path.realpath(_text(path)))

    def _named(self, path: str) -> None:
        folder, name = os.path.split(os.path.abspath(path))
        if os.path.realpath(folder) != self._folder or not self._ours.fullmatch(name):
            raise _refused(path)


def confine(served: Path) -> None:
    """Let this process write nothing outside `served`, until it ends."""
    # Writing bytecode would be refused, once for each module.
    sys.dont_write_bytecode = True
    sys.addaudithook(Confinement(served).audit)


def _text(path: Any) -> str:
    return os.fsdecode(os.fspath(path))


def _refused(path: str) -> PermissionError:
    return PermissionError(1, "it is not part of what is served", path)
