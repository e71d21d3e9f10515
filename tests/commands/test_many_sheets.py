"""Sheets of many jobs in one command."""

from __future__ import annotations

import io
from contextlib import redirect_stderr
from pathlib import Path

import pytest

from tests.commands.message_texts import message
from tests.commands.running import SMALL
from tests.render.jobs import WHOLE, whole_plan
from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.render.formats import Request, render

BAD = 'format = 1\nsurvay = "?"\n'


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name, text in (("one.toml", WHOLE), ("bad.toml", BAD), ("small.toml", SMALL), ("two/one.toml", WHOLE)):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_bad_file_is_reported_and_the_rest_are_done(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    argv = ["sheet", "one.toml", "bad.toml", "small.toml", "two/one.toml", "--as", "csv", "--out", "new/sheets"]
    assert main(argv) == Exit.BAD_FILE
    assert names(folder / "new" / "sheets") == ["one-2.csv", "one.csv", "small.csv"]
    said = capsys.readouterr()
    assert said.out == ""
    first, last = said.err.splitlines()
    assert first.startswith("bad.toml:2: survay: ")
    assert last == (
        f"railskirt: sheets of 3 jobs written to {Path('new/sheets')}, 1 of them unfinished, 1 file could not be read."
    )


def test_each_file_holds_what_one_command_for_it_alone_would_write(folder: Path) -> None:
    assert main(["sheet", "one.toml", "two/one.toml", "--as", "html", "--date", "2026-03-02", "--out", "s"]) == Exit.OK
    wanted = render(whole_plan(), Request("html", None, "2026-03-02"))
    assert [(folder / "s" / name).read_text(encoding="utf-8") for name in names(folder / "s")] == [wanted, wanted]


def test_a_single_file_goes_into_a_folder_that_is_there(folder: Path) -> None:
    (folder / "sheets").mkdir()
    assert main(["sheet", "one.toml", "--as", "svg", "--out", "sheets"]) == Exit.OK
    assert names(folder / "sheets") == ["one.svg"]


def test_a_project_among_them_is_never_written_over(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "odd.txt").write_text(WHOLE, encoding="utf-8")
    assert main(["sheet", "one.toml", "odd.txt", "--out", "."]) == Exit.NOT_SAVED
    assert (folder / "odd.txt").read_text(encoding="utf-8") == WHOLE
    assert (folder / "one.txt").is_file()
    assert message("the project itself", "odd.txt") in capsys.readouterr().err


class Terminal(io.StringIO):
    """Remarks that somebody watches."""

    def isatty(self) -> bool:
        return True


def test_on_a_terminal_the_remarks_count_the_files_and_leave_no_trace(folder: Path) -> None:
    talk = Terminal()
    with redirect_stderr(talk):
        assert main(["sheet", "one.toml", "bad.toml", "small.toml", "--out", "s"]) == Exit.BAD_FILE
    said = talk.getvalue()
    counts = [each for each in said.replace("\n", "\r").split("\r") if " of 3" in each]
    # Drawn ten times a second at most, and again after a remark.
    assert counts[0] == f"railskirt: [{'#' * 10}{'.' * 20}] 1 of 3"
    assert counts[1] == f"railskirt: [{'#' * 20}{'.' * 10}] 2 of 3"
    # What stays on the lines once everything was written over.
    lines = [line.rsplit("\r", 1)[-1] for line in said.splitlines(keepends=False) if "\r" not in line[-1:]]
    assert lines[-1].startswith("railskirt: sheets of 2 jobs written to s")


def test_no_count_where_nobody_watches(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["sheet", "one.toml", "small.toml", "--out", "s"])
    assert "\r" not in capsys.readouterr().err
