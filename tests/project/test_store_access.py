"""A private project stays private: every file made for it has its mode before anything is in it."""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import Any

import pytest

from tests.project.processes import NOBODY, open_folder, unprivileged
from wizard.project import atomic
from wizard.project.encode import encode
from wizard.project.marks import marked
from wizard.project.project import Project, put
from wizard.project.store import Held, NotSaved, Opened, Store
from wizard.render.sheet_files import save_text

LOFT = Project(name="Juniper loft")
ATTIC = put(LOFT, "name", "Juniper attic")
AS_ROOT = pytest.mark.skipif(os.geteuid() != 0, reason="needs a file of another user")


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """A private project, opened."""
    path = tmp_path / "juniper.toml"
    path.write_bytes(encode(marked(LOFT)))
    path.chmod(0o600)
    store = Store(path)
    assert isinstance(store.open(), Opened)
    return store


def modes(folder: Path) -> dict[str, int]:
    return {each.name: stat.S_IMODE(each.stat().st_mode) for each in folder.iterdir()}


@pytest.fixture
def written_with(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, int]]:
    """Name and mode of every file that gets its data by the atomic put, as they are when it is synced."""
    seen: list[tuple[str, int]] = []
    sync = os.fsync

    def fsync(handle: int) -> None:
        about = os.fstat(handle)
        if stat.S_ISREG(about.st_mode):
            assert about.st_size
            seen.append((os.readlink(f"/proc/self/fd/{handle}"), stat.S_IMODE(about.st_mode)))
        sync(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    return seen


def test_what_is_kept_beside_a_private_project_is_private(store: Store, written_with: list[tuple[str, int]]) -> None:
    assert store.keep_original() == store.path.with_name("juniper.toml.before")
    assert isinstance(store.save(ATTIC), Held)
    assert modes(store.path.parent) == {
        "juniper.toml": 0o600,
        "juniper.toml.before": 0o600,
        ".juniper.toml.last": 0o600,
    }
    assert [mode for _, mode in written_with] == [0o600, 0o600]


def test_no_file_is_open_to_others_before_it_has_its_mode(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    really, made = os.open, []

    def open_(path: Any, flags: int, mode: int = 0o777, **other: Any) -> int:
        handle = really(path, flags, mode, **other)
        if flags & os.O_CREAT:
            made.append(stat.S_IMODE(os.fstat(handle).st_mode))
        return handle

    monkeypatch.setattr(os, "open", open_)
    store.path.chmod(0o640)
    store.keep_original()
    assert isinstance(store.save(ATTIC), Held)
    assert made == [0o600, 0o600]
    assert store.path.stat().st_mode & 0o777 == 0o640


def test_a_private_project_made_again_after_it_was_removed_is_private(store: Store) -> None:
    store.path.unlink()
    assert isinstance(store.save(ATTIC), Held)
    assert modes(store.path.parent) == {"juniper.toml": 0o600}


def test_a_copy_on_a_disk_without_second_names_is_private(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    last = store.path.with_name(".juniper.toml.last")
    last.touch(0o644)
    monkeypatch.setattr(os, "link", fail)
    assert isinstance(store.save(ATTIC), Held)
    assert modes(store.path.parent) == {"juniper.toml": 0o600, ".juniper.toml.last": 0o600}


def test_a_sheet_that_is_replaced_keeps_its_mode(tmp_path: Path) -> None:
    sheet = tmp_path / "loft.txt"
    sheet.write_text("old\n", encoding="utf-8")
    sheet.chmod(0o600)
    assert save_text(sheet, "new\n", (), replace=True) is None
    assert sheet.read_text(encoding="utf-8") == "new\n"
    assert modes(tmp_path) == {"loft.txt": 0o600}


@AS_ROOT
def test_root_keeps_owner_and_group(store: Store) -> None:
    os.chown(store.path, NOBODY, NOBODY)
    held = store.save(ATTIC)
    about = store.path.stat()
    assert (about.st_uid, about.st_gid, stat.S_IMODE(about.st_mode)) == (NOBODY, NOBODY, 0o600)
    assert isinstance(held, Held)
    assert held.remarks == ()


@AS_ROOT
def test_an_owner_that_cannot_be_kept_is_told_of_once() -> None:
    with open_folder(0o777) as folder:
        path = folder / "juniper.toml"
        path.write_bytes(encode(marked(LOFT)))
        path.chmod(0o666)

        def saved() -> list[object]:
            store = Store(path)
            return [type(store.open()), store.save(ATTIC), store.save(LOFT)]

        opened, first, second = unprivileged(saved)
        assert opened is Opened
        assert isinstance(first, Held)
        assert first.remarks == (
            "“juniper.toml” has a new owner or group: you may not set user 0 and group 0. "
            "An administrator can: chown 0:0 juniper.toml",
        )
        assert isinstance(second, Held)
        assert second.remarks == ()
        assert path.stat().st_uid == NOBODY


def test_a_group_that_cannot_be_kept_leaves_no_rights_to_another(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """As a user who is not in the file's group."""
    about = store.path.stat()
    others = atomic.Access(0o640, about.st_uid, about.st_gid + 1)

    def fail(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "fchown", fail)
    copy = store.path.with_name("copy.toml")
    assert atomic.put(copy, b"private", access=others) == atomic.Written(owner_kept=False)
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600


@AS_ROOT
def test_a_save_refused_in_a_sticky_folder_leaves_nothing_behind() -> None:
    with open_folder(0o700) as folder:
        os.chown(folder, 0, 0)
        folder.chmod(0o1777)
        path = folder / "juniper.toml"
        path.write_bytes(encode(marked(LOFT)))
        path.chmod(0o666)

        def saved() -> tuple[type, object]:
            store = Store(path)
            return type(store.open()), store.save(ATTIC)

        opened, refused = unprivileged(saved)
        assert opened is Opened
        assert refused == NotSaved(
            "“juniper.toml” could not be saved: you may not write there. The file is as it was before."
        )
        assert [each.name for each in folder.iterdir()] == ["juniper.toml"]
        assert path.read_bytes() == encode(marked(LOFT))


def test_in_a_sticky_folder_nothing_is_begun_that_cannot_be_undone(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As another user, to whom the system would refuse to remove a second name for the file."""
    uid = store.path.stat().st_uid
    monkeypatch.setattr(os, "geteuid", lambda: uid + 1)
    store.path.parent.chmod(0o1777)
    assert isinstance(store.save(ATTIC), NotSaved)
    assert [each.name for each in store.path.parent.iterdir()] == ["juniper.toml"]
    store.path.parent.chmod(0o700)
    assert isinstance(store.save(ATTIC), Held)
