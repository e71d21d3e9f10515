"""`railskirt sheet`, for one job and for many."""

from __future__ import annotations

import json
import stat
import subprocess
from pathlib import Path

import pytest

from tests.commands.message_texts import message, text_of
from tests.commands.running import SMALL, Stream, ended, terminal, within
from tests.render.jobs import WHOLE, whole_plan
from wizard.commands.exits import Exit
from wizard.render.formats import Request, render
from wizard.render.json_sheet import plan_json
from wizard.render.plain_text import cell_len
from wizard.render.sheet_names import Format

BAD = 'format = 1\nsurvay = "?"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "whole.toml").write_text(WHOLE, encoding="utf-8")
    return tmp_path


@pytest.fixture
def many(folder: Path) -> Path:
    """More jobs, one of them bad, one empty, two of one name."""
    for name, text in (("one.toml", WHOLE), ("bad.toml", BAD), ("small.toml", SMALL), ("two/one.toml", WHOLE)):
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def sheet(folder: Path, *argv: str) -> subprocess.CompletedProcess[str]:
    return within("sheet", *argv, folder=folder)


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_json_on_standard_output_is_the_plan(folder: Path) -> None:
    run = sheet(folder, "whole.toml", "--as", "json")
    assert run.returncode == Exit.OK
    assert json.loads(run.stdout) == plan_json(whole_plan())


@pytest.mark.parametrize("columns", [60, 80, 120, None])
def test_text_is_as_wide_as_asked_and_eighty_to_a_pipe(folder: Path, columns: int | None) -> None:
    run = sheet(folder, "whole.toml", *(("--columns", str(columns)) if columns else ()))
    assert run.returncode == Exit.OK
    assert max(cell_len(line) for line in run.stdout.splitlines()) == (columns or 80)


def test_a_sheet_on_a_terminal_is_as_wide_as_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, "sheet", "loft.toml") as child:
        child.expect_exact("═" * 100)
        child.expect_exact("Still open")
        assert ended(child) == Exit.UNFINISHED


@pytest.mark.parametrize("form", ["text", "json"])
def test_out_writes_the_same_bytes_to_a_file_and_a_link_there_stays_a_link(folder: Path, form: str) -> None:
    printed = sheet(folder, "whole.toml", "--as", form).stdout
    target, link = folder / "sheet.out", folder / "latest.out"
    link.symlink_to(target)
    for out in ("sheet.out", "latest.out", "latest.out"):
        run = sheet(folder, "whole.toml", "--as", form, "--out", out)
        assert (run.returncode, run.stdout, run.stderr) == (Exit.OK, "", message("written", out))
        assert target.read_text(encoding="utf-8") == printed
        assert (link.is_symlink(), target.is_symlink()) == (True, False)
    assert names(folder) == ["latest.out", "sheet.out", "whole.toml"]


def test_out_never_writes_over_a_project(folder: Path) -> None:
    (folder / "link.toml").symlink_to("whole.toml")
    (folder / "other.TOML").write_text(WHOLE, encoding="utf-8")
    for out, key in (("link.toml", "the project itself"), ("other.TOML", "maybe a project")):
        run = sheet(folder, "whole.toml", "--out", out)
        assert (run.returncode, run.stderr) == (Exit.NOT_SAVED, message(key, out))
        assert (folder / out).read_text(encoding="utf-8") == WHOLE


FORMS: tuple[Format, ...] = ("text", "html", "svg", "json", "csv")


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [WHOLE, f'format = 1\nname = "{"long " * 23}"\n'], ids=["whole", "empty, long name"])
def test_an_earlier_sheet_is_replaced_and_its_mode_stays(form: Format, text: str, tmp_path: Path) -> None:
    target = tmp_path / "sheet.out"
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    for columns in ("60", "97", "240"):
        run = sheet(tmp_path, "job.toml", "--as", form, "--columns", columns, "--out", "sheet.out")
        assert run.returncode in (Exit.OK, Exit.UNFINISHED)
    target.chmod(0o600)
    run = sheet(tmp_path, "job.toml", "--as", "json", "--out", "sheet.out")
    assert run.returncode in (Exit.OK, Exit.UNFINISHED)
    assert json.loads(target.read_text(encoding="utf-8"))["plan_mark"]
    assert stat.S_IMODE(target.stat().st_mode) == 0o600


@pytest.mark.parametrize(
    ("name", "held", "mode", "kind"),
    [
        (".bashrc", b"alias ll='ls -l'\n", 0o600, "a hidden text file"),
        ("notes.txt", b"plan mark GRJ4-Q7K3: buy more\n", 0o644, "a text file"),
        ("pay.sh", b"#!/bin/sh\n", 0o755, "a text file that can be run as a program"),
        ("bed.png", b"\x89PNG\r\n\x1a\n\0\0", 0o644, "a file that is not text"),
        ("prices.csv", b"project,price\n", 0o644, "a text file"),
        ("page.html", b"<!DOCTYPE html>\n<html lang='en'>\n", 0o644, "a text file"),
    ],
)
def test_a_file_that_is_no_sheet_is_told_by_its_kind_and_replaced_only_when_asked_to(
    name: str, held: bytes, mode: int, kind: str, folder: Path
) -> None:
    target = folder / name
    target.write_bytes(held)
    target.chmod(mode)
    run = sheet(folder, "whole.toml", "--out", name)
    assert (run.returncode, run.stderr) == (
        Exit.NOT_SAVED,
        message("sheet exists", name, text_of("no sheet", kind)),
    )
    assert target.read_bytes() == held
    assert sheet(folder, "whole.toml", "--out", name, "--replace").returncode == Exit.OK
    assert target.read_text(encoding="utf-8").startswith("Juniper")
    assert stat.S_IMODE(target.stat().st_mode) == mode


# Many jobs in one command.
def test_a_bad_file_is_reported_and_the_rest_are_done(many: Path) -> None:
    run = sheet(many, "one.toml", "bad.toml", "small.toml", "two/one.toml", "--as", "csv", "--out", "new/sheets")
    assert (run.returncode, run.stdout) == (Exit.BAD_FILE, "")
    assert names(many / "new" / "sheets") == ["one-2.csv", "one.csv", "small.csv"]
    first, last = run.stderr.splitlines()
    assert first.startswith("bad.toml:2: survay: ")
    assert last == "railskirt: sheets of 3 jobs written to new/sheets, 1 of them unfinished, 1 file could not be read."


def test_each_file_holds_what_one_command_for_it_alone_would_write(many: Path) -> None:
    run = sheet(many, "one.toml", "two/one.toml", "--as", "html", "--date", "2026-03-02", "--out", "s")
    assert run.returncode == Exit.OK
    assert "\r" not in run.stderr, "no count where nobody watches"
    wanted = render(whole_plan(), Request("html", None, "2026-03-02"))
    assert [(many / "s" / name).read_text(encoding="utf-8") for name in names(many / "s")] == [wanted, wanted]


def test_a_single_file_goes_into_a_folder_that_is_there_and_replaces_no_other_file_in_it(many: Path) -> None:
    (many / "sheets").mkdir()
    mine = many / "sheets" / "one.csv"
    mine.write_text("my own list\n", encoding="utf-8")
    assert sheet(many, "one.toml", "--as", "svg", "--out", "sheets").returncode == Exit.OK
    run = sheet(many, "one.toml", "--as", "csv", "--out", "sheets")
    assert run.returncode == Exit.NOT_SAVED
    assert text_of("no sheet", "a text file") in run.stderr
    assert mine.read_text(encoding="utf-8") == "my own list\n"
    assert names(many / "sheets") == ["one.csv", "one.svg"]


def test_a_project_among_them_is_never_written_over(many: Path) -> None:
    (many / "odd.txt").write_text(WHOLE, encoding="utf-8")
    run = sheet(many, "one.toml", "odd.txt", "--out", ".")
    assert run.returncode == Exit.NOT_SAVED
    assert message("the project itself", "odd.txt") in run.stderr
    assert (many / "odd.txt").read_text(encoding="utf-8") == WHOLE
    assert (many / "one.txt").is_file()


def test_on_a_terminal_the_remarks_count_the_files_and_leave_no_trace(many: Path) -> None:
    argv = ("sheet", "one.toml", "bad.toml", "small.toml", "--out", "s")
    run = within(*argv, folder=many, err=Stream(watched=True))
    assert run.returncode == Exit.BAD_FILE
    counts = [each for each in run.stderr.replace("\n", "\r").split("\r") if " of 3" in each]
    # Drawn ten times a second at most, and again after a remark.
    assert counts[0] == f"railskirt: [{'#' * 10}{'.' * 20}] 1 of 3"
    assert counts[1] == f"railskirt: [{'#' * 20}{'.' * 10}] 2 of 3"
    # What stays on the lines once everything was written over.
    lines = [line.rsplit("\r", 1)[-1] for line in run.stderr.splitlines(keepends=False) if "\r" not in line[-1:]]
    assert lines[-1].startswith("railskirt: sheets of 2 jobs written to s")
