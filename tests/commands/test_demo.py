"""`railskirt demo`."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.commands.message_texts import message, text_of
from tests.commands.running import data, name, railskirt
from wizard.commands import new_project
from wizard.commands.exits import Exit
from wizard.project.problems import Problems
from wizard.project.reading import read


def test_the_demo_is_a_readable_project() -> None:
    assert not isinstance(read(data()), Problems)


def test_without_a_terminal_it_is_copied_and_where_is_said(tmp_path: Path) -> None:
    run = railskirt("demo", folder=tmp_path)
    assert run.returncode == Exit.OK
    assert Path(run.stdout.strip()).name == name()
    assert (tmp_path / name()).read_bytes() == data()


def test_without_a_terminal_an_earlier_copy_stays(tmp_path: Path) -> None:
    (tmp_path / name()).write_bytes(b"mine")
    run = railskirt("demo", folder=tmp_path)
    assert run.returncode == Exit.NOT_SAVED
    assert run.stderr == message("copy exists", name())
    assert (tmp_path / name()).read_bytes() == b"mine"


@pytest.mark.parametrize(("answer", "kept"), [(True, False), (False, True)])
def test_an_earlier_copy_is_replaced_only_after_a_yes(tmp_path: Path, answer: bool, kept: bool) -> None:
    (tmp_path / name()).write_bytes(b"mine")
    asked: list[str] = []

    def ask(question: str) -> bool:
        asked.append(question)
        return answer

    assert new_project.run_demo(tmp_path, ask) == tmp_path / name()
    assert asked == [text_of("replace the copy", name())]
    assert (tmp_path / name()).read_bytes() == (b"mine" if kept else data())


def test_a_first_copy_asks_nothing(tmp_path: Path) -> None:
    def ask(question: str) -> bool:
        raise AssertionError(question)

    assert new_project.run_demo(tmp_path, ask) == tmp_path / name()


@pytest.mark.parametrize(
    ("typed", "yes"), [("y\n", True), ("Yes\n", True), ("n\n", False), ("\n", False), ("", False), ("yess\n", False)]
)
def test_only_a_clear_yes_is_one(
    typed: str, yes: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    assert new_project.confirmed("Replace it?") is yes
    assert capsys.readouterr().err == "Replace it? [y/N] "


def test_a_folder_that_cannot_be_written_to_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert new_project.run_demo(tmp_path / "not-there", None) == Exit.NOT_SAVED
    assert capsys.readouterr().err.startswith("railskirt: could not write ")
