"""A private project stays private, and no two programs are between reading and replacing one file at once."""

from __future__ import annotations

import errno
import fcntl
import os
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from tests.project.stores import (
    ATTIC,
    LOFT,
    NOBODY,
    failing,
    forked,
    holds,
    names,
    open_folder,
    opened,
    unprivileged,
    written,
)
from wizard.project import atomic
from wizard.project.atomic import locked
from wizard.project.store import Held, NotSaved, Store

AS_ROOT = pytest.mark.skipif(os.geteuid() != 0, reason="needs a file of another user")
NAME, BEFORE, LAST = "juniper.toml", "juniper.toml.before", ".juniper.toml.last"


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """A private project, opened."""
    return opened(written(tmp_path / NAME, mode=0o600))


def modes(folder: Path) -> dict[str, int]:
    return {each.name: stat.S_IMODE(each.stat().st_mode) for each in folder.iterdir()}


@pytest.mark.parametrize("mode", [0o600, 0o640])
def test_no_file_beside_a_project_is_open_to_others_before_it_has_its_mode(
    mode: int, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    open_, sync = os.open, os.fsync
    made, synced = list[int](), list[int]()

    def watched_open(path: Any, flags: int, mode: int = 0o777, **other: Any) -> int:
        handle = open_(path, flags, mode, **other)
        if flags & os.O_CREAT:
            made.append(stat.S_IMODE(os.fstat(handle).st_mode))
        return handle

    def watched_sync(handle: int) -> None:
        about = os.fstat(handle)
        if stat.S_ISREG(about.st_mode):
            assert about.st_size
            synced.append(stat.S_IMODE(about.st_mode))
        sync(handle)

    monkeypatch.setattr(os, "open", watched_open)
    monkeypatch.setattr(os, "fsync", watched_sync)
    store.path.chmod(mode)
    assert store.keep_original() == store.path.with_name(BEFORE)
    assert isinstance(store.save(ATTIC), Held)
    assert made == [0o600, 0o600]
    assert synced == [mode, mode]
    assert modes(store.path.parent) == dict.fromkeys((NAME, BEFORE, LAST), mode)


def test_a_private_project_made_again_after_it_was_removed_is_private(store: Store) -> None:
    store.path.unlink()
    assert isinstance(store.save(ATTIC), Held)
    assert modes(store.path.parent) == {NAME: 0o600}


def test_a_copy_on_a_disk_without_second_names_is_private(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    store.path.with_name(LAST).touch(0o644)
    failing(monkeypatch, errno.EPERM, "link")
    assert isinstance(store.save(ATTIC), Held)
    assert modes(store.path.parent) == {NAME: 0o600, LAST: 0o600}


@AS_ROOT
def test_root_keeps_owner_and_group(store: Store) -> None:
    os.chown(store.path, NOBODY, NOBODY)
    assert store.save(ATTIC) == Held()
    about = store.path.stat()
    assert (about.st_uid, about.st_gid, stat.S_IMODE(about.st_mode)) == (NOBODY, NOBODY, 0o600)


@AS_ROOT
def test_an_owner_that_cannot_be_kept_is_told_of_once() -> None:
    with open_folder(0o777) as folder:
        path = written(folder / NAME, mode=0o666)

        def saved() -> list[object]:
            store = opened(path)
            return [store.save(ATTIC), store.save(LOFT)]

        remark = (
            "“juniper.toml” has a new owner or group: you may not set user 0 and group 0. "
            "An administrator can: chown 0:0 juniper.toml"
        )
        assert unprivileged(saved) == [Held((remark,)), Held()]
        assert path.stat().st_uid == NOBODY


def test_a_group_that_cannot_be_kept_leaves_no_rights_to_another(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """As a user who is not in the file's group."""
    about = store.path.stat()
    others = atomic.Access(0o640, about.st_uid, about.st_gid + 1)
    failing(monkeypatch, errno.EPERM, "fchown")
    copy = store.path.with_name("copy.toml")
    assert atomic.put(copy, b"private", access=others) == atomic.Written(owner_kept=False)
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600


@AS_ROOT
def test_a_save_refused_in_a_sticky_folder_leaves_nothing_behind() -> None:
    with open_folder(0o700) as folder:
        os.chown(folder, 0, 0)
        folder.chmod(0o1777)
        path = written(folder / NAME, mode=0o666)
        assert unprivileged(lambda: opened(path).save(ATTIC)) == NotSaved(
            "“juniper.toml” could not be saved: you may not write there. The file is as it was before."
        )
        assert names(folder) == [NAME]
        assert holds(path, LOFT)


def test_in_a_sticky_folder_nothing_is_begun_that_cannot_be_undone(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As another user, to whom the system would refuse to remove a second name for the file."""
    uid = store.path.stat().st_uid
    monkeypatch.setattr(os, "geteuid", lambda: uid + 1)
    store.path.parent.chmod(0o1777)
    assert isinstance(store.save(ATTIC), NotSaved)
    assert names(store.path.parent) == [NAME]
    store.path.parent.chmod(0o700)
    assert isinstance(store.save(ATTIC), Held)


# No two programs are between reading and replacing one file at the same time.
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
        with locked(new):
            os.replace(new, store.path)
            time.sleep(0.05)
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
