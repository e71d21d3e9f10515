"""What fails after the new file is in its place: it is saved, that is what is said, and the next answer saves too."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.project.processes import open_folder, unprivileged
from wizard.project.encode import encode
from wizard.project.hand_edits import marked
from wizard.project.project import Project, put
from wizard.project.store import Changed, Held, NotSaved, Opened, Store

LOFT = Project(name="Juniper loft")
ATTIC = put(LOFT, "name", "Juniper attic")
CELLAR = put(LOFT, "name", "Juniper cellar")


@pytest.fixture
def store(tmp_path: Path) -> Store:
    path = tmp_path / "juniper.toml"
    path.write_bytes(encode(marked(LOFT)))
    store = Store(path)
    assert isinstance(store.open(), Opened)
    return store


def fault(number: int) -> OSError:
    return OSError(number, os.strerror(number))


def failing_folder_sync(patch: pytest.MonkeyPatch, trouble: BaseException) -> None:
    sync = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise trouble
        sync(handle)

    patch.setattr(os, "fsync", fsync)


def failing_folder_open(patch: pytest.MonkeyPatch, trouble: BaseException) -> None:
    really = os.open

    def open_(path: Any, flags: int, *more: Any, **other: Any) -> int:
        if flags & os.O_DIRECTORY:
            raise trouble
        return really(path, flags, *more, **other)

    patch.setattr(os, "open", open_)


def failing_removal(patch: pytest.MonkeyPatch, trouble: BaseException) -> None:
    def fail(*_: Any, **__: Any) -> None:
        raise trouble

    patch.setattr(Path, "unlink", fail)
    patch.setattr(os, "unlink", fail)


def failing_look_around(patch: pytest.MonkeyPatch, trouble: BaseException) -> None:
    def fail(_: Any) -> None:
        raise trouble

    patch.setattr(os, "scandir", fail)


@pytest.mark.parametrize("number", [errno.EINVAL, errno.EACCES, errno.EIO])
@pytest.mark.parametrize("fail", [failing_folder_sync, failing_folder_open, failing_removal, failing_look_around])
def test_a_fault_after_the_file_is_in_place_is_no_failed_save(
    store: Store,
    monkeypatch: pytest.MonkeyPatch,
    fail: Callable[[pytest.MonkeyPatch, BaseException], None],
    number: int,
) -> None:
    with monkeypatch.context() as patch:
        fail(patch, fault(number))
        assert isinstance(store.save(ATTIC), Held)
        assert store.path.read_bytes() == encode(marked(ATTIC))
        assert isinstance(store.save(CELLAR), Held)
    assert store.path.read_bytes() == encode(marked(CELLAR))


def test_a_disk_that_does_not_confirm_a_save_is_told_of(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    failing_folder_sync(monkeypatch, fault(errno.EIO))
    held = store.save(ATTIC)
    assert isinstance(held, Held)
    assert held.remarks == (
        "“juniper.toml” is saved, but the disk did not confirm it: Input/output error. "
        "If the power fails now, the last answer may be lost.",
    )


@pytest.mark.parametrize("number", [errno.EINVAL, errno.EACCES])
def test_a_folder_that_can_never_be_synced_is_nothing_to_tell(
    store: Store, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    failing_folder_sync(monkeypatch, fault(number))
    held = store.save(ATTIC)
    assert isinstance(held, Held)
    assert held.remarks == ()


def test_a_disk_that_reports_a_failure_but_did_it_has_saved(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    replace = os.replace

    def replaced(source: Any, target: Any) -> None:
        replace(source, target)
        if Path(target) == store.path:
            raise fault(errno.EIO)

    monkeypatch.setattr(os, "replace", replaced)
    assert isinstance(store.save(ATTIC), Held)
    assert isinstance(store.save(CELLAR), Held)


def test_a_save_interrupted_after_the_file_is_in_place_is_not_taken_for_another_programs(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        failing_folder_sync(patch, KeyboardInterrupt())
        with pytest.raises(KeyboardInterrupt):
            store.save(ATTIC)
    assert isinstance(store.save(CELLAR), Held)
    assert store.path.read_bytes() == encode(marked(CELLAR))


def test_a_folder_that_may_be_written_but_not_read_takes_every_save() -> None:
    def saved_twice(path: Path) -> tuple[object, ...]:
        store = Store(path)
        return store.save(LOFT), store.save(ATTIC), store.save(CELLAR)

    with open_folder(0o300) as folder:
        held = unprivileged(lambda: saved_twice(folder / "juniper.toml"))
        assert [type(each) for each in held] == [Held] * 3
        assert (folder / "juniper.toml").read_bytes() == encode(marked(CELLAR))


def test_a_new_file_that_cannot_be_saved_is_not_said_to_be_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise fault(errno.ENOSPC)

    monkeypatch.setattr(os, "fsync", fail)
    saved = Store(tmp_path / "juniper.toml").save(LOFT)
    assert saved == NotSaved("“juniper.toml” could not be saved: the disk is full. No file was made.")
    assert list(tmp_path.iterdir()) == []


def test_a_new_file_that_cannot_be_saved_at_first_is_not_another_programs_then(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Store(tmp_path / "juniper.toml")
    with monkeypatch.context() as patch:
        patch.setattr(os, "link", lambda *_: (_ for _ in ()).throw(fault(errno.EPERM)))
        patch.setattr(os, "replace", lambda *_: (_ for _ in ()).throw(fault(errno.EIO)))
        assert isinstance(store.save(LOFT), NotSaved)
        assert list(tmp_path.iterdir()) == []
    assert isinstance(store.save(LOFT), Held)


def test_of_two_that_begin_one_file_at_once_the_second_is_told_there_is_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, link = tmp_path / "juniper.toml", os.link

    def late(source: Any, target: Any) -> None:
        """The other program is through in the very moment before this one."""
        monkeypatch.setattr(os, "link", link)
        assert isinstance(Store(path).save(ATTIC), Held)
        link(source, target)

    monkeypatch.setattr(os, "link", late)
    assert Store(path).save(LOFT) == Changed(
        "There is a file “juniper.toml” already, and it was left as it is: give the project another name."
    )
    assert path.read_bytes() == encode(marked(ATTIC))


def test_a_new_file_on_a_disk_without_second_names_is_never_put_over_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise fault(errno.EPERM)

    monkeypatch.setattr(os, "link", fail)
    path = tmp_path / "juniper.toml"
    assert isinstance(Store(path).save(LOFT), Held)
    assert isinstance(Store(path).save(ATTIC), Changed)
    assert path.read_bytes() == encode(marked(LOFT))
    assert [each.name for each in tmp_path.iterdir()] == ["juniper.toml"]
