"""`railskirt list`, and `railskirt` alone without a terminal."""

from __future__ import annotations

import io
import os
from contextlib import redirect_stderr, redirect_stdout
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.commands.message_texts import message
from tests.commands.running import SMALL, railskirt, within
from tests.render.jobs import WHOLE
from wizard.commands import listing
from wizard.commands.exits import Exit
from wizard.project.folder import Candidate, Found, project_in

MARCH = datetime(2026, 3, 2, 10, 42, tzinfo=UTC).timestamp()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text, age in (("whole", WHOLE, 0), ("small", SMALL, 60), ("other", "[tool.things]\nx = 1\n", 0)):
        path = tmp_path / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        os.utime(path, (MARCH - age, MARCH - age))
    return tmp_path


def test_the_projects_are_listed_with_stage_last_change_and_next_action(folder: Path) -> None:
    run = railskirt("list", folder=folder, TZ="UTC")
    assert run.returncode == Exit.OK
    assert run.stderr == ""
    lines = run.stdout.splitlines()
    assert lines[0] == "whole.toml"
    assert lines[1] == "  Juniper loft"
    assert lines[2].endswith(", last changed 2026-03-02 10:42")
    assert lines[3].startswith("  next: ")
    assert lines[4] == "small.toml"
    assert lines[6] == "  Survey, last changed 2026-03-02 10:41"
    assert len(lines) == 8


def test_alone_without_a_terminal_it_lists_too(folder: Path) -> None:
    assert railskirt(folder=folder).stdout == railskirt("list", folder=folder).stdout


def test_the_projects_folder_is_looked_in_where_there_is_one(folder: Path) -> None:
    (folder / "projects").mkdir()
    (folder / "projects" / "inside.toml").write_text(SMALL, encoding="utf-8")
    names = [line for line in railskirt("list", folder=folder).stdout.splitlines() if not line.startswith(" ")]
    assert [Path(name) for name in names] == [Path("projects/inside.toml")]
    names = [line for line in railskirt("list", ".", folder=folder).stdout.splitlines() if not line.startswith(" ")]
    assert names == ["whole.toml", "small.toml"]


def test_an_empty_folder_says_how_to_begin(tmp_path: Path) -> None:
    run = railskirt("list", folder=tmp_path)
    assert (run.returncode, run.stdout) == (Exit.OK, "")
    assert run.stderr == message("nothing here", ".")


def test_a_broken_project_is_told_and_the_others_are_listed(folder: Path) -> None:
    (folder / "broken.toml").write_text("format = 1\nnam = 1\n", encoding="utf-8")
    run = railskirt("list", folder=folder)
    assert run.returncode == Exit.BAD_FILE
    assert run.stderr.startswith("broken.toml:2: nam: ")
    assert "whole.toml" in run.stdout


def test_no_plan_is_worked_for_the_list(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def worked(*_: object) -> object:
        raise AssertionError("a plan was worked")

    monkeypatch.setattr("wizard.project.plan_of_project.make_plan", worked)
    run = within("list", folder=folder)
    assert run.returncode == Exit.OK
    assert "  next: Nothing is left to answer: start the work." in run.stdout.splitlines()


class Pipe(io.StringIO):
    """Whatever is written, and how much of it when the second file was read."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal, self.early = terminal, ""

    def isatty(self) -> bool:
        return self.terminal


def test_a_row_is_written_before_the_next_file_is_read(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out, seen = Pipe(False), list[str]()

    def watched(each: Candidate) -> Found | None:
        seen.append(out.getvalue())
        return project_in(each)

    monkeypatch.setattr(listing, "project_in", watched)
    with redirect_stdout(out):
        assert listing.run(folder) == Exit.OK
    # `other` and `whole` were changed at the same moment; `small`, the last one, a minute before.
    assert [each.count("next: ") for each in seen] == [0, 0, 1]


@pytest.mark.parametrize("terminal", [True, False])
def test_how_far_it_is_stands_on_a_terminal_only(folder: Path, terminal: bool) -> None:
    out, talk = Pipe(False), Pipe(terminal)
    with redirect_stdout(out), redirect_stderr(talk):
        listing.run(folder)
    shown = talk.getvalue()
    assert ("] 1 of 3" in shown) is terminal
    assert shown.endswith("\r") is terminal
    assert "of 3" not in out.getvalue()


def test_a_row_never_stands_on_the_line_of_the_bar(folder: Path) -> None:
    both = Pipe(True)
    with redirect_stdout(both), redirect_stderr(both):
        listing.run(folder)
    lines = both.getvalue().split("\n")
    assert len([line for line in lines if line.rpartition("\r")[2].startswith("  next: ")]) == 2
