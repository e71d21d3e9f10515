"""`railskirt sheet`."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest

from tests.commands.message_texts import message, text_of
from tests.render.jobs import WHOLE, whole_plan
from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.render.json_sheet import plan_json
from wizard.render.plain_text import cell_len
from wizard.render.sheet_files import existing_at
from wizard.render.sheet_names import Format


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
    assert max(cell_len(line) for line in capsys.readouterr().out.splitlines()) == columns


def test_text_to_a_pipe_is_eighty_wide(job: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(["sheet", job])
    assert max(cell_len(line) for line in capsys.readouterr().out.splitlines()) == 80


@pytest.mark.parametrize("form", ["text", "json"])
def test_out_writes_the_same_bytes_to_a_file(
    job: str, form: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["sheet", job, "--as", form])
    printed = capsys.readouterr().out
    target = tmp_path / "sheet.out"
    target.write_text("", encoding="utf-8")
    assert main(["sheet", job, "--as", form, "--out", str(target)]) == Exit.OK
    assert target.read_text(encoding="utf-8") == printed
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == message("written", target)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["sheet.out", "whole.toml"]


def test_out_never_writes_over_the_project(job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    link = tmp_path / "link.toml"
    link.symlink_to(job)
    assert main(["sheet", job, "--out", str(link)]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == message("the project itself", link)
    assert Path(job).read_text(encoding="utf-8") == WHOLE


def test_out_never_writes_over_another_project(job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = tmp_path / "other.TOML"
    other.write_text(WHOLE, encoding="utf-8")
    assert main(["sheet", job, "--out", str(other)]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == message("maybe a project", other)
    assert other.read_text(encoding="utf-8") == WHOLE


FORMS: tuple[Format, ...] = ("text", "html", "svg", "json", "csv")


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [WHOLE, f'format = 1\nname = "{"long " * 23}"\n'], ids=["whole", "empty, long name"])
def test_an_earlier_sheet_is_replaced_and_its_mode_stays(form: Format, text: str, tmp_path: Path) -> None:
    path, target = tmp_path / "job.toml", tmp_path / "sheet.out"
    path.write_text(text, encoding="utf-8")
    for columns in ("60", "97", "240"):
        main(["sheet", str(path), "--as", form, "--columns", columns, "--out", str(target)])
        there = existing_at(target)
        assert there is not None
        assert (there.words, there.expendable) == (text_of("earlier sheet"), True)
    target.chmod(0o600)
    assert main(["sheet", str(path), "--as", "json", "--out", str(target)]) in (Exit.OK, Exit.UNFINISHED)
    assert json.loads(target.read_text(encoding="utf-8"))["plan_mark"]
    assert stat.S_IMODE(target.stat().st_mode) == 0o600


OTHERS = {
    ".bashrc": (b"alias ll='ls -l'\n", 0o600, "a hidden text file"),
    "notes.txt": (b"plan mark GRJ4-Q7K3: buy more\n", 0o644, "a text file"),
    "pay.sh": (b"#!/bin/sh\n", 0o755, "a text file that can be run as a program"),
    "bed.png": (b"\x89PNG\r\n\x1a\n\0\0", 0o644, "a file that is not text"),
    "prices.csv": (b"project,price\n", 0o644, "a text file"),
    "page.html": (b"<!DOCTYPE html>\n<html lang='en'>\n", 0o644, "a text file"),
}
"""Name -> what it holds, its mode, and what it is called."""


@pytest.mark.parametrize("name", OTHERS)
def test_a_file_that_is_no_sheet_is_told_by_its_kind_and_replaced_only_when_asked_to(
    name: str, job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    held, mode, kind = OTHERS[name]
    target = tmp_path / name
    target.write_bytes(held)
    target.chmod(mode)
    assert main(["sheet", job, "--out", str(target)]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == message("sheet exists", target, text_of("no sheet", kind))
    assert target.read_bytes() == held
    assert main(["sheet", job, "--out", str(target), "--replace"]) == Exit.OK
    assert target.read_text(encoding="utf-8").startswith("Juniper")
    assert stat.S_IMODE(target.stat().st_mode) == mode


def test_of_many_sheets_one_that_would_replace_another_file_is_left_out(
    job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sheets").mkdir()
    mine = tmp_path / "sheets" / "whole.csv"
    mine.write_text("my own list\n", encoding="utf-8")
    assert main(["sheet", job, "--as", "csv", "--out", str(tmp_path / "sheets")]) == Exit.NOT_SAVED
    assert text_of("no sheet", "a text file") in capsys.readouterr().err
    assert mine.read_text(encoding="utf-8") == "my own list\n"


def test_a_link_at_out_stays_a_link(job: str, tmp_path: Path) -> None:
    earlier, link = tmp_path / "sheet.txt", tmp_path / "latest.txt"
    link.symlink_to(earlier)
    for _ in range(2):
        assert main(["sheet", job, "--out", str(link)]) == Exit.OK
        assert link.is_symlink()
        assert not earlier.is_symlink()
