"""No two programs are between reading and replacing one file at the same time."""

from __future__ import annotations

import errno
import fcntl
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from threading import Thread

import pytest

from tests.project.stores import ATTIC, failing, forked, holds, names
from wizard.project import atomic
from wizard.project.atomic import locked
from wizard.project.store import Held, NotSaved, Store


def test_the_second_of_two_is_told_at_that_save_and_nothing_is_lost(store: Store) -> None:
    saved: list[object] = []
    with locked(store.path) as handle:
        assert handle is not None
        second = Thread(target=lambda: saved.append(store.save(ATTIC)))
        second.start()
        time.sleep(0.05)
        assert saved == []
        os.ftruncate(handle, 0)
        os.pwrite(handle, b"theirs", 0)
    second.join()
    assert isinstance(saved[0], NotSaved)
    assert saved[0].by_hand
    assert store.path.read_bytes() == b"theirs"


def test_who_waited_for_a_file_that_was_replaced_meanwhile_gets_the_new_one(store: Store) -> None:
    saved: list[object] = []
    with locked(store.path):
        second = Thread(target=lambda: saved.append(store.save(ATTIC)))
        second.start()
        new = store.path.with_name("new")
        new.write_bytes(b"theirs")
        os.replace(new, store.path)
        with locked(store.path) as handle:
            time.sleep(0.05)
            assert handle is not None
            assert os.pread(handle, 10, 0) == b"theirs"
            assert saved == []
    second.join()
    assert isinstance(saved[0], NotSaved)
    assert saved[0].by_hand
    assert store.path.read_bytes() == b"theirs"


def test_a_program_that_is_killed_leaves_no_lock_and_no_lock_file(store: Store) -> None:
    reading, writing = os.pipe()
    child = forked()
    if not child:
        with locked(store.path):
            os.write(writing, b".")
            time.sleep(60)
    os.read(reading, 1)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    begun = time.monotonic()
    assert isinstance(store.save(ATTIC), Held)
    assert time.monotonic() - begun < atomic.PATIENCE / 2
    assert names(store.path.parent) == [".juniper.toml.last", "juniper.toml"]


def test_a_program_that_hangs_with_the_lock_is_not_waited_for_for_ever(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(atomic, "PATIENCE", 0.05)
    with locked(store.path):
        assert store.save(ATTIC) == NotSaved(
            "“juniper.toml” could not be saved: another program has it locked. The file is as it was before."
        )
    assert isinstance(store.save(ATTIC), Held)
    with store.path.open("rb") as stream:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)  # It is let go after each save.


def test_a_disk_without_locks_does_without(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    failing(monkeypatch, errno.ENOLCK, "flock", of=fcntl)
    assert isinstance(store.save(ATTIC), Held)
    assert holds(store.path, ATTIC)


# Samples of the long runs: saves of several processes into one project, and programs killed while they save.
SAVES, KILLS = 150, 20


@pytest.mark.parametrize(
    ("module", "count", "told"),
    [("saves", SAVES, f"{SAVES} in one chain, 0 made on a value already replaced"), ("kills", KILLS, ": 0 wrong, ")],
)
def test_nothing_that_was_reported_as_held_is_lost(module: str, count: int, told: str) -> None:
    run = [sys.executable, "-m", f"tests.endurance.{module}", f"--{module}", str(count)]
    done = subprocess.run(run, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    assert told in done.stdout
