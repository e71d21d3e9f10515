"""Sheets are written from the plain mode: the very ones the shell writes, asked about before a file is replaced."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

from tests.prompts.talks import job_at, told_of
from wizard.commands.sheet import Asked, run


def test_the_sheets_written_are_those_of_the_shell_and_nothing_is_replaced_unasked(tmp_path: Path) -> None:
    path = job_at(tmp_path)
    target = tmp_path / "cut it.txt"
    said = told_of(path, ".sheets", "2", "3, 2", "cut it.txt")
    assert f"Written: {target}\nAny editor or printer takes it." in said
    out = io.StringIO()
    run(Asked((path,), only=("buying", "cutting"), date=date.today().isoformat()), out, io.StringIO())
    assert target.read_text() == out.getvalue()
    target.write_text("mine")
    assert "Nothing was written." in told_of(path, ".sheets", "2", "99", "3", "cut it.txt", "no")
    assert target.read_text() == "mine"


def test_an_order_is_carried_out_wherever_sheets_are_asked_about(tmp_path: Path) -> None:
    path = job_at(tmp_path)
    before = {each.name for each in tmp_path.iterdir()}
    for lines in ((".file",), ("1", ".file"), ("1", "", ".file")):
        said = told_of(path, ".sheets", *lines)
        assert f"File: {path}" in said
        assert "Nothing was written." not in said
    assert {each.name for each in tmp_path.iterdir()} == before


def test_the_project_itself_is_never_written_over(tmp_path: Path) -> None:
    path = job_at(tmp_path)
    before = path.read_bytes()
    said = told_of(path, ".sheets", "5", "job.toml", "yes")
    assert "is the project itself; give the sheets another name." in said.replace("\n", " ")
    assert path.read_bytes() == before
