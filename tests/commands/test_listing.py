"""`railskirt list`, and `railskirt` alone without a terminal."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.commands.running import SMALL, railskirt
from tests.sheets.jobs import WHOLE
from wizard.commands.exits import Exit

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
    assert run.stderr == "railskirt: no projects in . yet. Begin one: railskirt new NAME\n"


def test_a_broken_project_is_told_and_the_others_are_listed(folder: Path) -> None:
    (folder / "broken.toml").write_text("format = 1\nnam = 1\n", encoding="utf-8")
    run = railskirt("list", folder=folder)
    assert run.returncode == Exit.BAD_FILE
    assert run.stderr.startswith("broken.toml:2: nam: ")
    assert "whole.toml" in run.stdout
