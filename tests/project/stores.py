"""A project in its file, a disk that fails, and doing something in a process of its own without any rights."""

from __future__ import annotations

import os
import pickle
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from types import ModuleType
from typing import Any, TypeVar

import pytest

from wizard.project.encode import encode
from wizard.project.marks import marked
from wizard.project.project import Project
from wizard.project.store import Opened, Store

T = TypeVar("T")
NOBODY = 65534
"""A user and a group that own nothing."""
LOFT, ATTIC, CELLAR = (Project(name=f"Juniper {each}") for each in ("loft", "attic", "cellar"))


def written(path: Path, project: Project = LOFT, mode: int = 0o644) -> Path:
    """The file of a project, as a save leaves it."""
    path.write_bytes(encode(marked(project)))
    path.chmod(mode)
    return path


def opened(path: Path) -> Store:
    """A store that has read the file."""
    store = Store(path)
    assert isinstance(store.open(), Opened)
    return store


def holds(path: Path, project: Project) -> bool:
    """True where the file is that project, whole."""
    return path.read_bytes() == encode(marked(project))


def names(folder: Path) -> list[str]:
    """What is in a folder."""
    return sorted(each.name for each in folder.iterdir())


def failing(
    patch: pytest.MonkeyPatch,
    trouble: int | BaseException,
    function: str,
    when: Callable[..., object] = lambda *_: True,
    of: ModuleType = os,
) -> None:
    """From now on a function of the system fails, with a number of its own, `when` it is called with such arguments."""
    really = getattr(of, function)
    raised = OSError(trouble, os.strerror(trouble)) if isinstance(trouble, int) else trouble

    def call(*given: Any, **other: Any) -> Any:
        if when(*given):
            raise raised
        return really(*given, **other)

    patch.setattr(of, function, call)


def forked() -> int:
    """The number of a new process that goes on from here too; 0 in that one. It may not return to the test run."""
    with warnings.catch_warnings():
        # The child does a few things to files and ends: threads of the test run do not matter to it.
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def unprivileged(deed: Callable[[], T]) -> T:
    """What `deed` gives in a process of its own, that of nobody where this one is root's."""
    reading, writing = os.pipe()
    child = forked()
    if not child:
        try:
            if os.geteuid() == 0:
                os.setgroups([])
                os.setresgid(NOBODY, NOBODY, NOBODY)
                os.setresuid(NOBODY, NOBODY, NOBODY)
            os.write(writing, pickle.dumps(deed()))
        except BaseException as fault:
            os.write(writing, pickle.dumps(AssertionError(repr(fault))))
        finally:
            os._exit(0)
    os.close(writing)
    with open(reading, "rb") as pipe:
        given: T | AssertionError = pickle.load(pipe)
    os.waitpid(child, 0)
    if isinstance(given, AssertionError):
        raise given
    return given


@contextmanager
def open_folder(mode: int) -> Iterator[Path]:
    """A folder that any user can reach, of that mode; the tests' own folders are theirs alone."""
    with TemporaryDirectory() as above:
        os.chmod(above, 0o755)
        folder = Path(above) / "folder"
        folder.mkdir()
        if os.geteuid() == 0:
            os.chown(folder, NOBODY, NOBODY)
        folder.chmod(mode)
        yield folder
        folder.chmod(0o700)
