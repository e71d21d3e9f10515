"""The plain mode as the shell starts it, in a terminal, through pipes, by wish and by need; and a whole job."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.running import SMALL, ended, environment, railskirt, terminal
from tests.interview.maker import EVERYTHING, SLATTED
from tests.prompts.talks import FILE, told, without_times, worked
from wizard.commands.exits import Exit
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.project.reading import read

FIRST = "Do you work in inches or in metric?"
WAYS = {
    "asked for": (["--plain"], {}),
    "ACCESSIBLE": ([], {"ACCESSIBLE": "1"}),
    "a dumb terminal": ([], {"TERM": "dumb"}),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_job_is_begun_answered_and_left_without_a_single_code_for_the_terminal(way: str, tmp_path: Path) -> None:
    argv, more = WAYS[way]
    with terminal(tmp_path, *argv, **more) as child:
        child.expect_exact("Project:")
        child.sendline("new Juniper loft")
        child.expect_exact(FIRST)
        heard = str(child.before)
        child.sendline("")
        child.expect_exact("Which sides")
        heard += str(child.before)
        child.sendline("quit")
        child.expect_exact(f"Saved in: {FILE}")
        heard += str(child.before)
        assert ended(child) == Exit.OK
    assert "\x1b" not in heard
    assert 'standard = "inches"' in (tmp_path / FILE).read_text(encoding="utf-8")


@pytest.mark.parametrize("key", ["\x04", "\x03"], ids=["Ctrl+D", "Ctrl+C"])
def test_ctrl_d_and_ctrl_c_leave_with_everything_saved_and_the_second_tells_the_shell(key: str, tmp_path: Path) -> None:
    with terminal(tmp_path, "--plain") as child:
        child.sendline("new Juniper loft")
        child.expect_exact(FIRST)
        child.expect_exact("Usual values")
        child.sendline("metric")
        child.expect_exact("Sections on [")
        child.send(key)
        child.expect_exact(f"Saved in: {FILE}")
        if key == "\x03":
            child.expect_exact("railskirt: stopped.")
        assert ended(child) == (Exit.OK if key == "\x04" else Exit.INTERRUPTED)
    assert 'standard = "metric"' in (tmp_path / FILE).read_text(encoding="utf-8")


def test_a_line_typed_before_is_brought_back_by_the_up_key(tmp_path: Path) -> None:
    pytest.importorskip("readline")
    with terminal(tmp_path, "--plain") as child:
        child.expect_exact("Project:")
        child.sendline("new Juniper loft")
        child.expect_exact(FIRST)
        for line in ("file\r", "\x1b[A\r"):
            child.expect_exact("Usual values")
            child.send(line)
            child.expect_exact(f"File: {FILE}")


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """The folder of a project with nothing in it yet."""
    (tmp_path / "job.toml").write_text(SMALL, encoding="utf-8")
    return tmp_path


def test_plain_stands_before_or_behind_the_file_and_one_that_cannot_be_read_has_its_exit_status(small: Path) -> None:
    for argv in (("--plain", "job.toml"), ("job.toml", "--plain"), ("open", "--plain", "job.toml")):
        run = railskirt(*argv, folder=small)
        assert (run.returncode, run.stderr) == (Exit.OK, "")
        assert "Job: Juniper loft\n" in run.stdout
    (small / "job.toml").write_text('format = 1\nshow = "ell"\n', encoding="utf-8")
    for file in ("job.toml", "none.toml"):
        assert railskirt("--plain", file, folder=small).returncode == Exit.BAD_FILE


def test_without_a_terminal_a_mere_wish_changes_nothing_for_scripts(small: Path) -> None:
    usual = railskirt(folder=small).stdout
    for more in ({"ACCESSIBLE": "1"}, {"TERM": "dumb"}):
        assert railskirt(folder=small, **more).stdout == usual
        assert railskirt("job.toml", folder=small, **more).returncode == Exit.NOT_A_TERMINAL


def test_bytes_that_are_no_letters_end_nothing(tmp_path: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "wizard", "--plain"],
        input=b"new Juniper loft\r\n\xff\xfe\n\x00\n.quit\n",
        capture_output=True, cwd=tmp_path, env=environment(), timeout=120, check=False,
    )  # fmt: skip
    assert run.returncode == Exit.OK, run.stderr.decode()
    assert b"Traceback" not in run.stderr
    assert "\\xff\\xfe" in run.stdout.decode()
    assert (tmp_path / FILE).is_file()


@pytest.mark.parametrize("argv", [["--plain"], ["--plain", "job.toml"]])
def test_nothing_of_the_screens_toolkit_is_loaded(argv: list[str], small: Path) -> None:
    code = f"import sys; from wizard.cli import main; main({argv!r}); sys.exit('textual' in sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", code],
        stdin=subprocess.DEVNULL, capture_output=True, cwd=small, env=environment(), timeout=120, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr


# A whole job in plain lines, from an empty folder to the last ticked step.
READING = (".plan", ".measures", ".full", ".cut", ".buy", ".marks", ".hang", ".cautions", ".findings", ".help")


@pytest.fixture(scope="module")
def measured(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, list[str]]:
    """The file that the session makes, and the lines that are to make it."""
    return worked(tmp_path_factory.mktemp("session"))


def test_a_script_makes_the_file_of_the_session_and_hears_only_text(
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
