"""Keeping a project in its file: whole or not at all, and never over somebody else's change."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.project.refusal_texts import refusal_text
from tests.project.stores import ATTIC, CELLAR, LOFT, failing, holds, names, open_folder, opened, unprivileged, written
from wizard.project.problems import Problem, Problems
from wizard.project.store import Held, NotSaved, Opened, Store

NAME, LAST = "juniper.toml", ".juniper.toml.last"


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return opened(written(tmp_path / NAME))


def not_saved(reason: str, then: str = "The file is as it was before.") -> NotSaved:
    return NotSaved(f"“{NAME}” could not be saved: {reason}. {then}")


def by_another(saved: object) -> bool:
    """True where a save was refused because another program changed or made the file."""
    return isinstance(saved, NotSaved) and saved.by_hand


def test_a_new_project_is_saved_and_opened_again(tmp_path: Path) -> None:
    path = tmp_path / NAME
    assert Store(path).save(LOFT) == Held()
    assert Store(path).open() == Opened(LOFT, has_comments=False)
    assert names(tmp_path) == [NAME]
    (tmp_path / "plain").touch()
    assert path.stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_save_keeps_what_was_there_before_once_and_one_of_the_same_writes_nothing(store: Store) -> None:
    before = store.path.stat()
    assert isinstance(store.save(LOFT), Held)
    assert store.path.stat() == before
    assert names(store.path.parent) == [NAME]
    assert isinstance(store.save(ATTIC), Held)
    assert isinstance(store.save(CELLAR), Held)
    assert names(store.path.parent) == [LAST, NAME]
    assert holds(store.path.with_name(LAST), ATTIC)


def test_a_file_changed_by_somebody_else_is_left_as_they_left_it_until_it_is_opened_again(store: Store) -> None:
    theirs = store.path.read_bytes().replace(b"loft", b"hall")
    store.path.write_bytes(theirs)
    assert store.save(ATTIC) == NotSaved(refusal_text("file changed", "", NAME), by_hand=True)
    assert store.path.read_bytes() == theirs
    assert names(store.path.parent) == [NAME]
    assert isinstance(store.open(), Opened)
    assert isinstance(store.save(ATTIC), Held)
    written(store.path, LOFT)
    assert by_another(store.save(CELLAR))
    assert holds(store.path, LOFT)


def test_a_new_project_never_goes_over_a_file_that_is_there_and_one_taken_away_is_written_again(store: Store) -> None:
    assert Store(store.path).save(ATTIC) == NotSaved(refusal_text("file exists", "", NAME), by_hand=True)
    assert holds(store.path, LOFT)
    store.path.unlink()
    assert isinstance(store.save(ATTIC), Held)
    assert holds(store.path, ATTIC)


def test_a_link_stays_a_link_and_the_file_it_leads_to_is_saved(store: Store, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.toml"
    link.symlink_to(Path("..") / NAME)
    assert isinstance(opened(link).save(ATTIC), Held)
    assert link.is_symlink()
    assert holds(store.path, ATTIC)
    assert names(link.parent) == ["link.toml"]


@pytest.mark.parametrize("disk", ["without second names", "with one left by a save that was killed"])
def test_what_stood_there_is_kept(disk: str, store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    last = store.path.with_name(LAST)
    if disk == "without second names":
        failing(monkeypatch, errno.EPERM, "link")
    else:
        os.link(store.path, last)
    assert isinstance(store.save(ATTIC), Held)
    assert holds(store.path, ATTIC)
    assert holds(last, LOFT)
    assert names(store.path.parent) == [LAST, NAME]


@pytest.mark.parametrize(
    ("number", "reason"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EROFS, "the disk is read-only"),
        (errno.EACCES, "you may not write there"),
        (errno.EIO, os.strerror(errno.EIO)),
    ],
)
@pytest.mark.parametrize("where", ["fsync", "replace"])
def test_a_save_that_fails_half_way_says_why_and_leaves_all_as_it_was(
    store: Store, monkeypatch: pytest.MonkeyPatch, where: str, number: int, reason: str
) -> None:
    with monkeypatch.context() as patch:
        failing(patch, number, where)
        assert store.save(ATTIC) == not_saved(reason)
    assert holds(store.path, LOFT)
    assert names(store.path.parent) == [NAME]
    assert isinstance(store.save(ATTIC), Held)


def test_a_file_that_may_only_be_read_is_not_replaced(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert store.save(ATTIC) == not_saved("you may not write there")
    assert holds(store.path, LOFT)


@pytest.fixture
def odd(tmp_path: Path) -> Path:
    """A folder of what is no project file."""
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "plain").touch()
    (tmp_path / "circle.toml").symlink_to("circle.toml")
    os.mkfifo(tmp_path / "pipe.toml")
    with (tmp_path / "huge.toml").open("wb") as huge:
        huge.truncate(3_000_000_000)
    return tmp_path


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("not-there/juniper.toml", "its folder does not exist"),
        ("plain/juniper.toml", "its folder does not exist"),
        ("folder.toml", "a folder has that name"),
        ("pipe.toml", "it is a pipe or a device"),
        ("n" * 300 + ".toml", "its name is too long"),
    ],
)
def test_where_nothing_can_be_saved_it_is_said_why(odd: Path, name: str, reason: str) -> None:
    before = names(odd)
    saved = Store(odd / name).save(LOFT)
    assert isinstance(saved, NotSaved)
    assert f"could not be saved: {reason}. " in saved.sentence
    assert names(odd) == before


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("folder.toml", "This is a folder: a project is a file whose name ends in .toml"),
        ("not-there.toml", "The file cannot be read: there is no file with that name."),
        ("plain/juniper.toml", "The file cannot be read: there is no file with that name."),
        ("n" * 300, "The file cannot be read: its name is too long."),
        ("nul\0byte", "The file cannot be read: no file can have that name."),
        ("circle.toml", "The file cannot be read: the link leads back to itself."),
        ("pipe.toml", "This is a pipe or a device: a project is a file whose name ends in .toml"),
        ("huge.toml", "The file has 3000000000 bytes: a project has 1000000 at most. Is it the right file?"),
    ],
)
def test_what_is_no_project_file_is_told_so_and_left_alone(odd: Path, name: str, sentence: str) -> None:
    before = names(odd)
    assert Store(odd / name).open() == Problems((Problem("", None, sentence),))
    assert names(odd) == before


def test_a_file_that_may_not_be_read_is_told_so(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: Path) -> bytes:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    found = store.open()
    assert isinstance(found, Problems)
    assert found.all[0].sentence == "The file cannot be read: it belongs to somebody else, or you may not read it."


def test_temporary_files_of_the_long_dead_are_cleared_away_and_no_others(store: Store) -> None:
    old, fresh, other, typed = (
        store.path.with_name(f".{name}.new")
        for name in ("juniper.toml.0", "juniper.toml.1", "fir.toml.2", "juniper.toml.typed.3")
    )
    for each in (old, fresh, other, typed):
        each.touch()
    for each in (old, other, typed):
        os.utime(each, (0, 0))
    store.save(ATTIC)
    assert names(store.path.parent) == [".fir.toml.2.new", ".juniper.toml.1.new", LAST, NAME]


def test_a_commented_file_is_kept_beside_and_never_over_another_one(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    commented = b'# measured on Sunday\nformat = 1\nname = "Juniper loft"\n'
    before, second = (store.path.with_name(f"juniper.toml.before{each}") for each in ("", "-2"))
    store.path.write_bytes(commented)
    assert store.open() == Opened(LOFT, has_comments=True)
    with monkeypatch.context() as patch:
        failing(patch, errno.ENOSPC, "fsync")
        assert isinstance(store.keep_original(), NotSaved)
        assert names(store.path.parent) == [NAME]
    assert store.keep_original() == before
    before.write_bytes(b"# mine\n")
    assert store.keep_original() == store.keep_original() == second
    assert isinstance(store.save(ATTIC), Held)
    assert before.read_bytes() == b"# mine\n"
    assert second.read_bytes() == commented
    assert holds(store.path, ATTIC)


# What fails after the new file is in its place: it is saved, that is what is said, and the next answer saves too.
def is_folder(handle: int) -> bool:
    return stat.S_ISDIR(os.fstat(handle).st_mode)


@pytest.mark.parametrize("number", [errno.EINVAL, errno.EACCES, errno.EIO])
@pytest.mark.parametrize(
    ("function", "when"),
    [
        ("fsync", is_folder),
        ("open", lambda path, flags, *_: flags & os.O_DIRECTORY),
        ("unlink", lambda *_: True),
        ("scandir", lambda *_: True),
    ],
)
def test_a_fault_after_the_file_is_in_place_is_no_failed_save(
    store: Store, monkeypatch: pytest.MonkeyPatch, function: str, when: Callable[..., object], number: int
) -> None:
    with monkeypatch.context() as patch:
        failing(patch, number, function, when)
        held = store.save(ATTIC)
        assert isinstance(held, Held)
        assert holds(store.path, ATTIC)
        assert isinstance(store.save(CELLAR), Held)
    assert holds(store.path, CELLAR)
    unconfirmed = (
        "“juniper.toml” is saved, but the disk did not confirm it: Input/output error. "
        "If the power fails now, the last answer may be lost."
    )
    if function == "fsync":
        # Of the other two a folder can never be synced: that is nothing to tell.
        assert held.remarks == ((unconfirmed,) if number == errno.EIO else ())


def test_a_disk_that_reports_a_failure_but_did_it_has_saved(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    replace = os.replace

    def replaced(source: Any, target: Any) -> None:
        replace(source, target)
        if Path(target) == store.path:
            raise OSError(errno.EIO, os.strerror(errno.EIO))

    monkeypatch.setattr(os, "replace", replaced)
    assert isinstance(store.save(ATTIC), Held)
    assert isinstance(store.save(CELLAR), Held)


def test_a_save_interrupted_after_the_file_is_in_place_is_not_taken_for_another_programs(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        failing(patch, KeyboardInterrupt(), "fsync", is_folder)
        with pytest.raises(KeyboardInterrupt):
            store.save(ATTIC)
    assert isinstance(store.save(CELLAR), Held)
    assert holds(store.path, CELLAR)


def test_a_folder_that_may_be_written_but_not_read_takes_every_save() -> None:
    def saved_thrice(path: Path) -> list[object]:
        store = Store(path)
        return [store.save(each) for each in (LOFT, ATTIC, CELLAR)]

    with open_folder(0o300) as folder:
        assert unprivileged(lambda: saved_thrice(folder / NAME)) == [Held()] * 3
        assert holds(folder / NAME, CELLAR)


# A file that is not there yet.
def test_a_new_file_that_cannot_be_saved_is_not_said_to_be_there_and_not_another_programs_then(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Store(tmp_path / NAME)
    with monkeypatch.context() as patch:
        failing(patch, errno.ENOSPC, "fsync")
        assert store.save(LOFT) == not_saved("the disk is full", "No file was made.")
    with monkeypatch.context() as patch:
        failing(patch, errno.EPERM, "link")
        failing(patch, errno.EIO, "replace")
        assert isinstance(store.save(LOFT), NotSaved)
    assert names(tmp_path) == []
    assert isinstance(store.save(LOFT), Held)


def test_of_two_that_begin_one_file_at_once_the_second_is_told_there_is_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, link = tmp_path / NAME, os.link

    def late(source: Any, target: Any) -> None:
        """The other program is through in the very moment before this one."""
        monkeypatch.setattr(os, "link", link)
        assert isinstance(Store(path).save(ATTIC), Held)
        link(source, target)

    monkeypatch.setattr(os, "link", late)
    assert by_another(Store(path).save(LOFT))
    assert holds(path, ATTIC)


def test_a_new_file_on_a_disk_without_second_names_is_never_put_over_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    failing(monkeypatch, errno.EPERM, "link")
    path = tmp_path / NAME
    assert isinstance(Store(path).save(LOFT), Held)
    assert by_another(Store(path).save(ATTIC))
    assert holds(path, LOFT)
    assert names(tmp_path) == [NAME]
