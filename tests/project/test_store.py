"""Keeping a project in its file: whole or not at all, and never over somebody else's change."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.project.processes import open_folder, unprivileged
from tests.project.refusal_texts import refusal_text
from wizard.project.encode import encode
from wizard.project.marks import marked
from wizard.project.problems import Problem, Problems
from wizard.project.project import Project, put
from wizard.project.store import Held, NotSaved, Opened, Store

LOFT = Project(name="Juniper loft")
ATTIC = put(LOFT, "name", "Juniper attic")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A saved project, alone in its folder."""
    target = tmp_path / "juniper.toml"
    target.write_bytes(encode(marked(LOFT)))
    return target


def opened(path: Path) -> Store:
    kept = Store(path)
    assert isinstance(kept.open(), Opened)
    return kept


def names(folder: Path) -> list[str]:
    return sorted(each.name for each in folder.iterdir())


def test_a_new_project_is_saved_and_opened_again(tmp_path: Path) -> None:
    path = tmp_path / "juniper.toml"
    assert Store(path).save(LOFT) == Held()
    assert Store(path).open() == Opened(LOFT, has_comments=False)
    assert names(tmp_path) == ["juniper.toml"]


def test_a_save_keeps_what_was_there_before_once(path: Path) -> None:
    kept = opened(path)
    assert isinstance(kept.save(ATTIC), Held)
    assert isinstance(kept.save(put(ATTIC, "currency", "$")), Held)
    assert names(path.parent) == [".juniper.toml.last", "juniper.toml"]
    assert (path.parent / ".juniper.toml.last").read_bytes() == encode(marked(ATTIC))


def test_saving_what_is_there_already_writes_nothing(path: Path) -> None:
    before = path.stat()
    assert isinstance(opened(path).save(LOFT), Held)
    assert path.stat() == before
    assert names(path.parent) == ["juniper.toml"]


def test_a_file_changed_by_somebody_else_is_left_as_they_left_it(path: Path) -> None:
    kept = opened(path)
    theirs = path.read_bytes() + b'currency = "EUR"\n'
    path.write_bytes(theirs)
    assert kept.save(ATTIC) == NotSaved(refusal_text("file changed", "", "juniper.toml"), by_hand=True)
    assert path.read_bytes() == theirs
    assert names(path.parent) == ["juniper.toml"]


def test_a_file_changed_between_two_saves_is_left_too(path: Path) -> None:
    kept = opened(path)
    kept.save(ATTIC)
    path.write_bytes(encode(marked(LOFT)))
    assert getattr(kept.save(put(ATTIC, "currency", "$")), "by_hand", False)
    assert path.read_bytes() == encode(marked(LOFT))


def test_a_file_opened_again_after_a_change_can_be_saved(path: Path) -> None:
    kept = opened(path)
    path.write_bytes(encode(ATTIC))
    assert isinstance(kept.open(), Opened)
    assert isinstance(kept.save(LOFT), Held)
    assert path.read_bytes() == encode(marked(LOFT))


def test_a_new_project_never_goes_over_a_file_that_is_there(path: Path) -> None:
    assert Store(path).save(ATTIC) == NotSaved(refusal_text("file exists", "", "juniper.toml"), by_hand=True)
    assert path.read_bytes() == encode(marked(LOFT))


def test_a_file_taken_away_meanwhile_is_written_again(path: Path) -> None:
    kept = opened(path)
    path.unlink()
    assert isinstance(kept.save(ATTIC), Held)
    assert path.read_bytes() == encode(marked(ATTIC))


def test_a_link_stays_a_link_and_the_file_it_leads_to_is_saved(path: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.toml"
    link.symlink_to(Path("..") / path.name)
    assert isinstance(opened(link).save(ATTIC), Held)
    assert link.is_symlink()
    assert path.read_bytes() == encode(marked(ATTIC))
    assert names(link.parent) == ["link.toml"]


def test_who_may_read_a_file_stays_as_it_was(path: Path) -> None:
    path.chmod(0o640)
    opened(path).save(ATTIC)
    assert path.stat().st_mode & 0o777 == 0o640
    assert (path.parent / ".juniper.toml.last").stat().st_mode & 0o777 == 0o640


def test_what_stood_there_is_kept_on_a_disk_without_second_names_too(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    kept = opened(path)
    monkeypatch.setattr(os, "link", fail)
    assert isinstance(kept.save(ATTIC), Held)
    assert path.read_bytes() == encode(marked(ATTIC))
    assert (path.parent / ".juniper.toml.last").read_bytes() == encode(marked(LOFT))
    assert names(path.parent) == [".juniper.toml.last", "juniper.toml"]


def test_a_second_name_left_by_a_save_that_was_killed_is_no_hindrance(path: Path) -> None:
    last = path.parent / ".juniper.toml.last"
    os.link(path, last)
    assert isinstance(opened(path).save(ATTIC), Held)
    assert path.read_bytes() == encode(marked(ATTIC))
    assert last.read_bytes() == encode(marked(LOFT))
    assert names(path.parent) == [".juniper.toml.last", "juniper.toml"]


def test_who_may_read_a_new_file_is_this_computers_habit(tmp_path: Path) -> None:
    Store(tmp_path / "juniper.toml").save(LOFT)
    (tmp_path / "plain").touch()
    assert (tmp_path / "juniper.toml").stat().st_mode == (tmp_path / "plain").stat().st_mode


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
    path: Path, monkeypatch: pytest.MonkeyPatch, where: str, number: int, reason: str
) -> None:
    def fail(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    kept = opened(path)
    with monkeypatch.context() as patch:
        patch.setattr(os, where, fail)
        assert kept.save(ATTIC) == NotSaved(
            f"“juniper.toml” could not be saved: {reason}. The file is as it was before."
        )
    assert path.read_bytes() == encode(marked(LOFT))
    assert names(path.parent) == ["juniper.toml"]
    assert isinstance(kept.save(ATTIC), Held)


def test_a_file_that_may_only_be_read_is_not_replaced(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = opened(path)
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert kept.save(ATTIC) == NotSaved(
        "“juniper.toml” could not be saved: you may not write there. The file is as it was before."
    )
    assert path.read_bytes() == encode(marked(LOFT))


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
def test_where_nothing_can_be_saved_it_is_said_why(tmp_path: Path, name: str, reason: str) -> None:
    (tmp_path / "plain").touch()
    (tmp_path / "folder.toml").mkdir()
    os.mkfifo(tmp_path / "pipe.toml")
    saved = Store(tmp_path / name).save(LOFT)
    assert isinstance(saved, NotSaved)
    assert f"could not be saved: {reason}. " in saved.sentence
    assert names(tmp_path) == ["folder.toml", "pipe.toml", "plain"]


def test_temporary_files_of_the_long_dead_are_cleared_away_and_no_others(path: Path) -> None:
    old, fresh, other, typed = (
        path.with_name(f".{name}.new")
        for name in ("juniper.toml.0", "juniper.toml.1", "fir.toml.2", "juniper.toml.typed.3")
    )
    for each in (old, fresh, other, typed):
        each.touch()
    for each in (old, other, typed):
        os.utime(each, (0, 0))
    opened(path).save(ATTIC)
    assert names(path.parent) == [".fir.toml.2.new", ".juniper.toml.1.new", ".juniper.toml.last", "juniper.toml"]


def problem(path: Path) -> Problem:
    found = Store(path).open()
    assert isinstance(found, Problems)
    (only,) = found.all
    return only


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
def test_what_is_no_project_file_is_told_so_and_left_alone(tmp_path: Path, name: str, sentence: str) -> None:
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "plain").touch()
    (tmp_path / "circle.toml").symlink_to("circle.toml")
    os.mkfifo(tmp_path / "pipe.toml")
    with (tmp_path / "huge.toml").open("wb") as huge:
        huge.truncate(3_000_000_000)
    before = names(tmp_path)
    assert problem(tmp_path / name) == Problem("", None, sentence)
    assert names(tmp_path) == before


def test_a_file_that_may_not_be_read_is_told_so(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: Path) -> bytes:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert problem(path).sentence == "The file cannot be read: it belongs to somebody else, or you may not read it."


COMMENTED = b'# measured on Sunday\nformat = 1\nname = "Juniper loft"\n'


def test_comments_are_seen_and_the_commented_file_is_kept_beside(path: Path) -> None:
    path.write_bytes(COMMENTED)
    kept = Store(path)
    assert kept.open() == Opened(LOFT, has_comments=True)
    assert kept.keep_original() == path.with_name("juniper.toml.before")
    assert isinstance(kept.save(ATTIC), Held)
    assert path.with_name("juniper.toml.before").read_bytes() == COMMENTED
    assert path.read_bytes() == encode(marked(ATTIC))


def test_a_commented_file_is_never_kept_over_another_one(path: Path) -> None:
    path.with_name("juniper.toml.before").write_bytes(b"# mine\n")
    path.write_bytes(COMMENTED)
    kept = opened(path)
    assert kept.keep_original() == path.with_name("juniper.toml.before-2")
    assert kept.keep_original() == path.with_name("juniper.toml.before-2")
    assert path.with_name("juniper.toml.before").read_bytes() == b"# mine\n"


def test_a_commented_file_that_cannot_be_kept_says_why(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    kept = opened(path)
    monkeypatch.setattr(os, "fsync", fail)
    assert isinstance(kept.keep_original(), NotSaved)
    assert names(path.parent) == ["juniper.toml"]


# What fails after the new file is in its place: it is saved, that is what is said, and the next answer saves too.
CELLAR = put(LOFT, "name", "Juniper cellar")


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
    assert Store(path).save(LOFT) == NotSaved(refusal_text("file exists", "", "juniper.toml"), by_hand=True)
    assert path.read_bytes() == encode(marked(ATTIC))


def test_a_new_file_on_a_disk_without_second_names_is_never_put_over_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise fault(errno.EPERM)

    monkeypatch.setattr(os, "link", fail)
    path = tmp_path / "juniper.toml"
    assert isinstance(Store(path).save(LOFT), Held)
    assert getattr(Store(path).save(ATTIC), "by_hand", False)
    assert path.read_bytes() == encode(marked(LOFT))
    assert [each.name for each in tmp_path.iterdir()] == ["juniper.toml"]
