"""`railskirt sheet`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.sheets.jobs import WHOLE, whole_plan
from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.sheets.json_sheet import plan_json
from wizard.sheets.plain import cells


@pytest.fixture
def job(tmp_path: Path) -> str:
    path = tmp_path / "whole.toml"
    path.write_text(WHOLE, encoding="utf-8")
    return str(path)


def test_json_on_standard_output_is_the_plan(job: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", job, "--as", "json"]) == Exit.OK
    assert json.loads(capsys.readouterr().out) == plan_json(whole_plan())


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_text_is_as_wide_as_asked(job: str, columns: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", job, "--columns", str(columns)]) == Exit.OK
    assert max(cells(line) for line in capsys.readouterr().out.splitlines()) == columns


def test_text_to_a_pipe_is_eighty_wide(job: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(["sheet", job])
    assert max(cells(line) for line in capsys.readouterr().out.splitlines()) == 80


@pytest.mark.parametrize("form", ["text", "json"])
def test_out_writes_the_same_bytes_to_a_file(
    job: str, form: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["sheet", job, "--as", form])
    printed = capsys.readouterr().out
    target = tmp_path / "sheet.out"
    target.write_text("an older sheet", encoding="utf-8")
    assert main(["sheet", job, "--as", form, "--out", str(target)]) == Exit.OK
    assert target.read_text(encoding="utf-8") == printed
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == f"railskirt: written to {target}\n"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["sheet.out", "whole.toml"]


def test_out_never_writes_over_the_project(job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(job)
    assert main(["sheet", job, "--out", str(link)]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == f"railskirt: {link} is the project itself; give the sheets another name.\n"
    assert Path(job).read_text(encoding="utf-8") == WHOLE


def test_out_never_writes_over_another_project(job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = tmp_path / "other.TOML"
    other.write_text(WHOLE, encoding="utf-8")
    assert main(["sheet", job, "--out", str(other)]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == (
        f"railskirt: {other} may be a project, for its name ends so; give the sheets another name.\n"
    )
    assert other.read_text(encoding="utf-8") == WHOLE
