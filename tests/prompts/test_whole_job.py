"""A whole job in plain lines, from an empty folder to the last ticked step."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.running import environment
from tests.interview.maker import EVERYTHING, SLATTED
from tests.prompts.talks import FILE, told, without_times, worked
from wizard.commands.exits import Exit
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.project.reading import read

READING = (".plan", ".measures", ".full", ".cut", ".buy", ".marks", ".hang", ".cautions", ".findings", ".help")


@pytest.fixture(scope="module")
def measured(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, list[str]]:
    """The file that the session makes, and the lines that are to make it."""
    return worked(tmp_path_factory.mktemp("session"))


def test_a_script_makes_the_very_file_that_the_session_makes_and_hears_nothing_but_text(
    measured: tuple[bytes, list[str]], tmp_path: Path
) -> None:
    expected, lines = measured
    heard = told(tmp_path, *lines, *READING, ".file", ".quit")
    assert "Every step is ticked." in heard
    assert without_times((tmp_path / FILE).read_bytes()) == without_times(expected)
    drawn = {each for each in heard if (not each.isprintable() and each != "\n") or "\u2190" <= each <= "\u27bf"}
    assert drawn == set()
    assert "≈" not in heard
    assert max(len(each) for each in heard.splitlines() if str(tmp_path) not in each) <= 80


@pytest.mark.long
@pytest.mark.parametrize("script", [SLATTED, EVERYTHING], ids=["slatted", "everything"])
def test_beds_with_much_about_them_go_the_same_way(script: dict[str, str], tmp_path: Path) -> None:
    direct, plain = tmp_path / "session", tmp_path / "plain"
    direct.mkdir()
    plain.mkdir()
    expected, lines = worked(direct, script)
    told(plain, *lines, ".quit")
    assert without_times((plain / FILE).read_bytes()) == without_times(expected)


def test_the_real_program_is_run_to_the_end_through_pipes(measured: tuple[bytes, list[str]], tmp_path: Path) -> None:
    expected, lines = measured
    run = subprocess.run(
        [sys.executable, "-m", "wizard", "--plain"],
        input="".join(f"{each}\n" for each in lines),
        capture_output=True, text=True, encoding="utf-8", cwd=tmp_path, env=environment(), timeout=300, check=False,
    )  # fmt: skip
    assert (run.returncode, run.stderr) == (Exit.OK, "")
    assert without_times((tmp_path / FILE).read_bytes()) == without_times(expected)
    project = read((tmp_path / FILE).read_bytes())
    assert isinstance(project, Project)
    assert {each.id for each in plan_of(project).work} == {step for step, kept in project.work.items() if kept.done}
    assert f"Saved in: {FILE}" in run.stdout.splitlines()
