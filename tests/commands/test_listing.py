"""`railskirt list`, and `railskirt` alone without a terminal."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.commands.message_texts import message
from tests.commands.running import SMALL, Stream, railskirt, within
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


def files(said: str) -> list[str]:
    """The files that are listed."""
    return [line for line in said.splitlines() if not line.startswith(" ")]


def test_the_projects_are_listed_with_stage_last_change_and_next_action(folder: Path) -> None:
    run = railskirt("list", folder=folder, TZ="UTC")
    assert (run.returncode, run.stderr) == (Exit.OK, "")
    lines = run.stdout.splitlines()
    assert lines[:2] == ["whole.toml", "  Juniper loft"]
    assert lines[2].endswith(", last changed 2026-03-02 10:42")
    assert lines[3].startswith("  next: ")
    assert lines[4] == "small.toml"
    assert lines[6] == "  Survey, last changed 2026-03-02 10:41"
    assert len(lines) == 8
    assert railskirt(folder=folder, TZ="UTC").stdout == run.stdout, "alone without a terminal it lists too"


def test_the_projects_folder_is_looked_in_where_there_is_one(folder: Path) -> None:
    (folder / "projects").mkdir()
    (folder / "projects" / "inside.toml").write_text(SMALL, encoding="utf-8")
    assert [Path(each) for each in files(within("list", folder=folder).stdout)] == [Path("projects/inside.toml")]
    assert files(within("list", ".", folder=folder).stdout) == ["whole.toml", "small.toml"]


def test_an_empty_folder_says_how_to_begin(tmp_path: Path) -> None:
    run = within("list", folder=tmp_path)
    assert (run.returncode, run.stdout, run.stderr) == (Exit.OK, "", message("nothing here", "."))


def test_a_broken_project_is_told_and_the_others_are_listed(folder: Path) -> None:
    (folder / "broken.toml").write_text("format = 1\nnam = 1\n", encoding="utf-8")
    run = within("list", folder=folder)
    assert run.returncode == Exit.BAD_FILE
    assert run.stderr.startswith("broken.toml:2: nam: ")
    assert "whole.toml" in run.stdout


def test_no_plan_is_worked_for_the_list_and_a_row_is_written_before_the_next_file_is_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out, seen = Stream(), list[str]()

    def worked(*_: object) -> object:
        raise AssertionError("a plan was worked")

    def watched(each: Candidate) -> Found | None:
        seen.append(out.text())
        return project_in(each)

    monkeypatch.setattr("wizard.project.plan_of_project.make_plan", worked)
    monkeypatch.setattr(listing, "project_in", watched)
    run = within("list", folder=folder, out=out)
    assert run.returncode == Exit.OK
    assert "  next: Nothing is left to answer: start the work." in run.stdout.splitlines()
    # `other` and `whole` were changed at the same moment; `small`, the last one, a minute before.
    assert [each.count("next: ") for each in seen] == [0, 0, 1]


@pytest.mark.parametrize("watched", [True, False])
def test_how_far_it_is_stands_on_a_terminal_only(folder: Path, watched: bool) -> None:
    run = within("list", folder=folder, err=Stream(watched=watched))
    assert ("] 1 of 3" in run.stderr) is watched
    assert run.stderr.endswith("\r") is watched
    assert "of 3" not in run.stdout


def test_a_row_never_stands_on_the_line_of_the_bar(folder: Path) -> None:
    both = Stream(watched=True)
    lines = within("list", folder=folder, out=both, err=both).stdout.split("\n")
    assert len([line for line in lines if line.rpartition("\r")[2].startswith("  next: ")]) == 2
