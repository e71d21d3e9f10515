"""Every exit status, met as it is documented; results on standard output, remarks on standard error."""

from __future__ import annotations

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.message_texts import message
from tests.commands.running import SMALL, ended, environment, leave, railskirt, terminal, within
from tests.render.jobs import WHOLE, project_of
from wizard import cli
from wizard.commands.exits import Exit
from wizard.project.plan_of_project import plan_of


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "whole.toml").write_text(WHOLE, encoding="utf-8")
    (tmp_path / "small.toml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "bad.toml").write_text('format = 1\nsurvay = "?"\n', encoding="utf-8")
    return tmp_path


STATUSES = {
    "sheet whole.toml": Exit.OK,
    "sheet small.toml": Exit.UNFINISHED,
    "sheet bad.toml": Exit.BAD_FILE,
    "sheet not-there.toml": Exit.BAD_FILE,
    "sheet .": Exit.BAD_FILE,
    "sheet whole.toml --out not-there/sheet.txt": Exit.NOT_SAVED,
    "sheet whole.toml --out .": Exit.OK,
    "sheet whole.toml small.toml --as json": Exit.USAGE,
    "sheet whole.toml small.toml --out sheets": Exit.UNFINISHED,
    "sheet whole.toml bad.toml --out sheets": Exit.BAD_FILE,
    "sheet whole.toml small.toml --out whole.toml": Exit.NOT_SAVED,
    "sheet whole.toml --as csv --only cutting": Exit.USAGE,
    "sheet whole.toml --as json --only cutting": Exit.OK,
    "sheet whole.toml --only song": Exit.USAGE,
    "sheet whole.toml --only shop": Exit.OK,
    "sheet whole.toml --date today": Exit.USAGE,
    "sheet": Exit.USAGE,
    "sheet whole.toml --columns 12": Exit.USAGE,
    "sheet whole.toml --columns 1e2": Exit.USAGE,
    "sheet whole.toml --as song": Exit.USAGE,
    "--unknown": Exit.USAGE,
    "check small.toml bad.toml whole.toml": Exit.BAD_FILE,
    "check small.toml whole.toml": Exit.FOUND,
    "whole.toml": Exit.NOT_A_TERMINAL,
    "open whole.toml": Exit.NOT_A_TERMINAL,
    ".": Exit.NOT_A_TERMINAL,
    "--plain .": Exit.OK,
    "open not-there.toml": Exit.BAD_FILE,
    "shet": Exit.BAD_FILE,
    "./sheet": Exit.BAD_FILE,
    "-- -job.toml": Exit.BAD_FILE,
    "list not-there": Exit.BAD_FILE,
    "new ' '": Exit.USAGE,
    "new x --from bad.toml": Exit.BAD_FILE,
    "schema": Exit.OK,
}
"""What is typed, and the status."""


@pytest.mark.parametrize(("line", "status"), STATUSES.items(), ids=lambda each: each if isinstance(each, str) else "")
def test_a_command_ends_with_its_documented_status(line: str, status: Exit, folder: Path) -> None:
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    run = within(*shlex.split(line), folder=folder)
    assert run.returncode == status, run.stderr
    assert "Traceback" not in run.stderr
    assert {name: (folder / name).read_bytes() for name in before} == before
    said = run.stdout if line.startswith("check") else run.stderr
    assert status is Exit.OK or said.strip(), "a refusal says why"


def shell(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """railskirt with the rest of the line as a shell runs it, what is redirected in it too."""
    return subprocess.run(
        ["/bin/sh", "-c", f"{sys.executable} -m wizard {line}"], cwd=folder, env=environment(), text=True,
        stdin=subprocess.DEVNULL, capture_output=True, timeout=120, check=False,
    )  # fmt: skip


def test_results_go_to_standard_output_and_remarks_to_standard_error(folder: Path) -> None:
    run = shell("sheet small.toml", folder)
    assert run.returncode == Exit.UNFINISHED
    assert run.stdout.startswith("Juniper loft\n")
    missing = [need.words for need in plan_of(project_of(SMALL)).missing]
    assert run.stderr == message("unfinished", len(missing), "; ".join(missing[:3]), len(missing) - 3)
    assert within("sheet", "whole.toml", folder=folder).stderr == ""


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("whole.toml", message("no terminal")),
        ("shet", message("mistyped command")),
        ("sheet whole.toml small.toml --as json", message("needs a folder", "json")),
        ("sheet whole.toml --as csv --only shop", message("not for this form", "csv")),
        ("sheet whole.toml --as svg --together", message("no order list")),
    ],
)
def test_what_cannot_be_done_is_answered_with_what_to_do_instead(line: str, said: str, folder: Path) -> None:
    run = within(*line.split(), folder=folder)
    assert (run.stdout, run.stderr) == ("", said)


@pytest.mark.parametrize("argv", [[], ["loft.toml"], ["open", "loft.toml"]], ids=["alone", "file", "open"])
def test_on_a_terminal_it_opens_in_full_screen_and_leaves_with_a_clear_status(argv: list[str], tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, *argv) as child:
        # The other screen of the terminal: what stood there before comes back at the end.
        child.expect_exact("\x1b[?1049h")
        child.expect_exact("Juniper loft")
        assert leave(child, asked=bool(argv)) == Exit.OK


def test_a_file_that_cannot_be_read_is_told_and_nothing_opens(tmp_path: Path) -> None:
    file, text = tmp_path / "odd.toml", 'format = 1\n[survey.section.left]\nrum = ["80 in"]\n'
    file.write_text(text, encoding="utf-8")
    with terminal(tmp_path, "odd.toml") as child:
        child.expect_exact("odd.toml:3: survey.section.left.rum: There is no key")
        assert ended(child) == Exit.BAD_FILE
    assert file.read_text(encoding="utf-8") == text


def test_a_reader_that_goes_away_ends_the_run_quietly(folder: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "wizard", "sheet", "whole.toml", "--as", "json"],
        cwd=folder, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    with process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.read(1)
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == Exit.PIPE_CLOSED


FULL, CLOSED = message("disk full"), message("output closed")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is always full here")
@pytest.mark.parametrize(
    ("line", "status", "said"),
    [
        ("sheet whole.toml >/dev/full", Exit.NOT_SAVED, FULL),
        ("--help >/dev/full", Exit.NOT_SAVED, FULL),
        ("sheet whole.toml >&-", Exit.NOT_SAVED, CLOSED),
        ("schema >&-", Exit.NOT_SAVED, CLOSED),
        ("--help >&-", Exit.NOT_SAVED, CLOSED),
        ("--version >&-", Exit.NOT_SAVED, CLOSED),
        ("--plain whole.toml >&-", Exit.NOT_SAVED, CLOSED),
        ("whole.toml >&-", Exit.NOT_A_TERMINAL, message("no terminal")),
        # Remarks that cannot be written change no status, and are no result.
        ("sheet small.toml 2>&-", Exit.UNFINISHED, ""),
        ("sheet small.toml 2>/dev/full", Exit.UNFINISHED, ""),
        ("sheet bad.toml 2>/dev/full", Exit.BAD_FILE, ""),
        ("list 2>/dev/full", Exit.BAD_FILE, ""),
        ("whole.toml 2>/dev/full", Exit.NOT_A_TERMINAL, ""),
        ("shet 2>/dev/full", Exit.BAD_FILE, ""),
        ("--unknown 2>/dev/full", Exit.USAGE, ""),
        ("sheet whole.toml small.toml --out sheets 2>/dev/full", Exit.UNFINISHED, ""),
    ],
)
def test_an_output_that_takes_nothing_is_said_without_a_traceback(
    line: str, status: Exit, said: str, folder: Path
) -> None:
    run = shell(line, folder)
    assert (run.returncode, run.stderr) == (status, said)
    assert "railskirt: " not in run.stdout


LONG = "a" * 50_000


@pytest.mark.parametrize(
    "line",
    [
        "{}", "open {}", "check {}", "sheet {}", "list {}", "serve {}", "sheet whole.toml --as {}",
        "sheet whole.toml --only {}", "keys --keys {}", "completion {}",
    ],
)  # fmt: skip
def test_a_name_of_any_length_on_the_command_line_is_cut_short(line: str, folder: Path) -> None:
    run = within(*line.format(LONG).split(), folder=folder)
    said = run.stdout + run.stderr
    assert run.returncode in (Exit.USAGE, Exit.BAD_FILE)
    assert "…" in said
    assert len(said) < 2000


@pytest.mark.parametrize("form", ["text", "html", "svg", "json"])
def test_a_sheet_in_few_letters_still_says_the_same(form: str, folder: Path) -> None:
    (folder / "loft.toml").write_text('format = 1\nname = "Löft ✓ 𝟙"\n', encoding="utf-8")
    run = railskirt("sheet", "loft.toml", "--as", form, folder=folder, PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    few, many = run.stdout, within("sheet", "loft.toml", "--as", form, folder=folder).stdout
    assert few.isascii()
    if form == "text":
        assert few.splitlines()[:2] == ["L\\xf6ft \\u2713 \\U0001d7d9", "-" * 80]
    elif form == "json":
        assert json.loads(few) == json.loads(many)
    else:
        assert "L&#246;ft &#10003; &#120793;" in few
        few, many = (re.sub(r"&#(\d+);", lambda each: chr(int(each[1])), each) for each in (few, many))
        assert few == many


def test_ctrl_c_ends_the_run_with_a_word_and_no_traceback(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def pressed(argv: list[str]) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "_run", pressed)
    run = within("list", folder=tmp_path)
    assert (run.returncode, run.stderr) == (Exit.INTERRUPTED, "\nrailskirt: stopped.\n")


def test_a_fault_of_the_program_is_said_in_a_sentence_with_the_details_in_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(argv: list[str]) -> int:
        raise ValueError("never meant to be")

    monkeypatch.setattr(cli, "_run", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    run = within("schema", folder=tmp_path)
    [details] = tmp_path.iterdir()
    assert (run.returncode, run.stderr) == (
        Exit.FAULT,
        "railskirt: Something went wrong in railskirt (ValueError). Every answer you gave is in the project's file. "
        f"For a bug report: {details}\n",
    )
    assert "ValueError: never meant to be" in details.read_text()
