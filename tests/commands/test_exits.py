"""Every exit status, met as it is documented; results on standard output, remarks on standard error."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.commands.message_texts import message
from tests.commands.running import SMALL, environment, railskirt, within
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


@pytest.mark.parametrize(
    ("argv", "status"),
    [
        (["sheet", "whole.toml"], Exit.OK),
        (["sheet", "small.toml"], Exit.UNFINISHED),
        (["sheet", "bad.toml"], Exit.BAD_FILE),
        (["sheet", "not-there.toml"], Exit.BAD_FILE),
        (["sheet", "."], Exit.BAD_FILE),
        (["sheet", "whole.toml", "--out", "whole.toml"], Exit.NOT_SAVED),
        (["sheet", "whole.toml", "--out", "not-there/sheet.txt"], Exit.NOT_SAVED),
        (["sheet", "whole.toml", "--out", "."], Exit.OK),
        (["sheet", "whole.toml", "small.toml", "--as", "json"], Exit.USAGE),
        (["sheet", "whole.toml", "small.toml", "--out", "sheets"], Exit.UNFINISHED),
        (["sheet", "whole.toml", "bad.toml", "--out", "sheets"], Exit.BAD_FILE),
        (["sheet", "whole.toml", "small.toml", "--out", "whole.toml"], Exit.NOT_SAVED),
        (["sheet", "whole.toml", "--as", "csv", "--only", "cutting"], Exit.USAGE),
        (["sheet", "whole.toml", "--as", "json", "--only", "cutting"], Exit.OK),
        (["sheet", "whole.toml", "--only", "song"], Exit.USAGE),
        (["sheet", "whole.toml", "--only", "shop"], Exit.OK),
        (["sheet", "whole.toml", "--date", "today"], Exit.USAGE),
        (["sheet"], Exit.USAGE),
        (["sheet", "whole.toml", "--columns", "12"], Exit.USAGE),
        (["sheet", "whole.toml", "--columns", "1e2"], Exit.USAGE),
        (["sheet", "whole.toml", "--as", "song"], Exit.USAGE),
        (["--unknown"], Exit.USAGE),
        (["check", "small.toml"], Exit.UNFINISHED),
        (["check", "whole.toml"], Exit.FOUND),
        (["check", "small.toml", "bad.toml", "whole.toml"], Exit.BAD_FILE),
        (["check", "small.toml", "whole.toml"], Exit.FOUND),
        (["whole.toml"], Exit.NOT_A_TERMINAL),
        (["open", "whole.toml"], Exit.NOT_A_TERMINAL),
        (["."], Exit.NOT_A_TERMINAL),
        (["--plain", "."], Exit.OK),
        (["open", "not-there.toml"], Exit.BAD_FILE),
        (["shet"], Exit.BAD_FILE),
        (["list", "not-there"], Exit.BAD_FILE),
        (["list"], Exit.BAD_FILE),
        (["new", "whole"], Exit.NOT_SAVED),
        (["new", " "], Exit.USAGE),
        (["new", "x", "--from", "not-there"], Exit.BAD_FILE),
        (["new", "x", "--from", "bad.toml"], Exit.BAD_FILE),
        (["new", "x", "--folder", "not-there"], Exit.NOT_SAVED),
        (["new", "x"], Exit.OK),
        (["schema"], Exit.OK),
        (["serve", "not-there.toml"], Exit.BAD_FILE),
        (["serve", "--port", "many"], Exit.USAGE),
        (["serve", "--address", "0.0.0.0"], Exit.NOT_SERVED),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, list) else each.name,
)
def test_a_command_ends_with_its_documented_status(argv: list[str], status: Exit, folder: Path) -> None:
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    run = within(*argv, folder=folder)
    assert run.returncode == status, run.stderr
    assert "Traceback" not in run.stderr
    assert {name: (folder / name).read_bytes() for name in before} == before
    said = run.stdout if argv[0] == "check" else run.stderr
    assert status is Exit.OK or said.strip(), "a refusal says why"


@pytest.mark.parametrize(
    ("argv", "status"), [(["schema"], Exit.OK), (["check", "bad.toml"], Exit.BAD_FILE), (["new", " "], Exit.USAGE)]
)
def test_a_shell_gets_the_status(argv: list[str], status: Exit, folder: Path) -> None:
    assert railskirt(*argv, folder=folder).returncode == status


def test_results_go_to_standard_output_and_remarks_to_standard_error(folder: Path) -> None:
    run = railskirt("sheet", "small.toml", folder=folder)
    assert run.stdout.startswith("Juniper loft\n")
    missing = [need.words for need in plan_of(project_of(SMALL)).missing]
    assert run.stderr == message("unfinished", len(missing), "; ".join(missing[:3]), len(missing) - 3)
    assert railskirt("sheet", "whole.toml", folder=folder).stderr == ""


def test_a_file_without_a_terminal_is_answered_with_what_to_do_instead(folder: Path) -> None:
    run = railskirt("whole.toml", folder=folder)
    assert run.stdout == ""
    assert run.stderr == message("no terminal")


def test_a_mistyped_command_is_guessed_at(folder: Path) -> None:
    run = railskirt("shet", folder=folder)
    assert run.stderr == message("mistyped command")


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


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is always full here")
@pytest.mark.parametrize("argv", [["sheet", "whole.toml"], ["--help"]], ids=" ".join)
def test_an_output_that_takes_nothing_more_is_said_without_a_traceback(argv: list[str], folder: Path) -> None:
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [sys.executable, "-m", "wizard", *argv], cwd=folder, env=environment(), stdout=full,
            stderr=subprocess.PIPE, text=True, timeout=120, check=False,
        )  # fmt: skip
    assert run.returncode == Exit.NOT_SAVED
    assert run.stderr == message("disk full")


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        ("sheet whole.toml", Exit.NOT_SAVED, message("output closed")),
        ("schema", Exit.NOT_SAVED, message("output closed")),
        ("--help", Exit.NOT_SAVED, message("output closed")),
        ("--version", Exit.NOT_SAVED, message("output closed")),
        ("--plain whole.toml", Exit.NOT_SAVED, message("output closed")),
        ("whole.toml", Exit.NOT_A_TERMINAL, message("no terminal")),
    ],
)
def test_a_closed_output_is_said_without_a_traceback(argv: str, status: Exit, said: str, folder: Path) -> None:
    run = subprocess.run(
        ["/bin/sh", "-c", f"{sys.executable} -m wizard {argv} >&-"], cwd=folder, env=environment(), text=True,
        stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, timeout=120, check=False,
    )  # fmt: skip
    assert (run.returncode, run.stderr) == (status, said)


def test_what_is_said_to_a_closed_error_output_is_no_result(folder: Path) -> None:
    run = subprocess.run(
        ["/bin/sh", "-c", f"{sys.executable} -m wizard sheet small.toml 2>&-"], cwd=folder, env=environment(),
        text=True, stdout=subprocess.PIPE, timeout=120, check=False,
    )  # fmt: skip
    assert run.returncode == Exit.UNFINISHED
    assert "railskirt: unfinished" not in run.stdout


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is always full here")
@pytest.mark.parametrize(
    ("argv", "status"),
    [
        ("sheet small.toml", Exit.UNFINISHED),
        ("sheet bad.toml", Exit.BAD_FILE),
        ("list", Exit.BAD_FILE),
        ("whole.toml", Exit.NOT_A_TERMINAL),
        ("shet", Exit.BAD_FILE),
        ("--unknown", Exit.USAGE),
        ("sheet whole.toml small.toml --out sheets", Exit.UNFINISHED),
    ],
)
def test_remarks_that_cannot_be_written_change_no_status(argv: str, status: Exit, folder: Path) -> None:
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [sys.executable, "-m", "wizard", *argv.split()], cwd=folder, env=environment(), stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=full, timeout=120, check=False,
        )  # fmt: skip
    assert run.returncode == status


@pytest.mark.parametrize("argv", ["--plain whole.toml", "--plain ."])
def test_an_interrupt_of_the_plain_mode_ends_it_with_its_status(argv: str, folder: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "wizard", *argv.split()], cwd=folder, env=environment(), text=True,
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    with process:
        assert process.stdout is not None
        while process.stdout.read(1) not in (">", ":"):
            pass
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=60)
    assert (process.returncode, said) == (Exit.INTERRUPTED, "\nrailskirt: stopped.\n")


LONG = "a" * 50_000


@pytest.mark.parametrize(
    "text",
    [
        f"format = 1\n{LONG} = 1\n",
        f'format = 1\n[survey.section.{LONG}]\nside = "left"\n',
        f'format = 1\nshow = "{LONG}"\n',
        f'format = 1\n[kept]\n{LONG} = "x"\n[work.{LONG}]\ndone = 1\n',
    ],
    ids=["key", "section", "value", "kept"],
)
def test_an_id_of_any_length_is_cut_short_in_a_message(text: str, folder: Path) -> None:
    (folder / "long.toml").write_text(text, encoding="utf-8")
    said = within("check", "long.toml", folder=folder).stdout
    assert "…" in said
    assert all(len(line) < 1000 for line in said.splitlines())


@pytest.mark.parametrize(
    "argv",
    [
        [LONG], ["open", LONG], ["check", LONG], ["sheet", LONG], ["list", LONG], ["serve", LONG],
        ["sheet", "whole.toml", "--as", LONG], ["sheet", "whole.toml", "--only", LONG], ["keys", "--keys", LONG],
        ["completion", LONG],
    ],
    ids=lambda argv: " ".join(each[:8] for each in argv),
)  # fmt: skip
def test_a_name_of_any_length_on_the_command_line_is_cut_short_too(argv: list[str], folder: Path) -> None:
    run = within(*argv, folder=folder)
    said = run.stdout + run.stderr
    assert run.returncode in (Exit.USAGE, Exit.BAD_FILE)
    assert "…" in said
    assert len(said) < 2000


@pytest.mark.parametrize("form", ["html", "svg", "json"])
def test_a_sheet_in_few_letters_still_says_the_same(form: str, folder: Path) -> None:
    (folder / "loft.toml").write_text('format = 1\nname = "Löft ✓ 𝟙"\n', encoding="utf-8")
    few = railskirt("sheet", "loft.toml", "--as", form, folder=folder, PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    many = railskirt("sheet", "loft.toml", "--as", form, folder=folder)
    assert few.stdout.isascii()
    if form == "json":
        assert json.loads(few.stdout) == json.loads(many.stdout)
    else:
        assert "L&#246;ft &#10003; &#120793;" in few.stdout
        assert re.sub(r"&#(\d+);", lambda each: chr(int(each[1])), few.stdout) == re.sub(
            r"&#(\d+);", lambda each: chr(int(each[1])), many.stdout
        )


def test_ctrl_c_ends_the_run_with_a_word_and_no_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def pressed(argv: list[str]) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "_run", pressed)
    assert cli.main(["list"]) == Exit.INTERRUPTED
    assert capsys.readouterr().err == "\nrailskirt: stopped.\n"


def test_an_output_with_few_letters_gets_plain_signs(folder: Path) -> None:
    (folder / "loft.toml").write_text('format = 1\nname = "Löft"\n', encoding="utf-8")
    run = railskirt("sheet", "loft.toml", folder=folder, PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    assert run.returncode == Exit.UNFINISHED
    assert run.stdout.isascii()
    assert run.stdout.splitlines()[:2] == ["L\\xf6ft", "-" * 80]


def test_a_fault_of_the_program_is_said_in_a_sentence_with_the_details_in_a_file(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    def broken(argv: list[str]) -> int:
        raise ValueError("never meant to be")

    monkeypatch.setattr(cli, "_run", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    assert cli.main(["schema"]) == Exit.FAULT
    [details] = tmp_path.iterdir()
    assert capsys.readouterr().err == (
        "railskirt: Something went wrong in railskirt (ValueError). Every answer you gave is in the project's file. "
        f"For a bug report: {details}\n"
    )
    assert "ValueError: never meant to be" in details.read_text()
