"""The plain mode as the shell starts it: in a real pseudo-terminal, through pipes, by wish and by need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.running import ended, environment, railskirt, terminal
from tests.prompts.talks import FILE
from wizard.commands.exits import Exit

FIRST = "Do you work in inches or in metric?"
CTRL_D = "\x04"


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
        child.expect_exact("On which sides")
        heard += str(child.before)
        child.sendline("quit")
        child.expect_exact(f"Saved in: {FILE}")
        heard += str(child.before)
        assert ended(child) == Exit.OK
    assert "\x1b" not in heard
    assert 'standard = "inches"' in (tmp_path / FILE).read_text(encoding="utf-8")


def test_ctrl_d_leaves_with_everything_saved(tmp_path: Path) -> None:
    with terminal(tmp_path, "--plain") as child:
        child.sendline("new Juniper loft")
        child.expect_exact(FIRST)
        child.expect_exact("Usual values")
        child.sendline("metric")
        child.expect_exact("Sections on [")
        child.send(CTRL_D)
        child.expect_exact(f"Saved in: {FILE}")
        assert ended(child) == Exit.OK
    assert 'standard = "metric"' in (tmp_path / FILE).read_text(encoding="utf-8")


def test_ctrl_c_leaves_with_everything_saved_and_tells_the_shell(tmp_path: Path) -> None:
    with terminal(tmp_path, "--plain") as child:
        child.sendline("new Juniper loft")
        child.expect_exact(FIRST)
        child.expect_exact("Usual values")
        child.sendline("metric")
        child.expect_exact("Sections on [")
        child.sendintr()
        child.expect_exact(f"Saved in: {FILE}")
        child.expect_exact("railskirt: stopped.")
        assert ended(child) == Exit.INTERRUPTED
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


@pytest.mark.parametrize("argv", [["--plain", "job.toml"], ["job.toml", "--plain"], ["open", "--plain", "job.toml"]])
def test_plain_stands_before_or_behind_the_file(argv: list[str], tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    run = railskirt(*argv, folder=tmp_path)
    assert (run.returncode, run.stderr) == (Exit.OK, "")
    assert "Job: Juniper loft\n" in run.stdout


def test_a_file_that_cannot_be_read_has_its_exit_status(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('format = 1\nshow = "ell"\n', encoding="utf-8")
    assert railskirt("--plain", "job.toml", folder=tmp_path).returncode == Exit.BAD_FILE
    assert railskirt("--plain", "none.toml", folder=tmp_path).returncode == Exit.BAD_FILE


def test_without_a_terminal_a_mere_wish_changes_nothing_for_scripts(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    for more in ({"ACCESSIBLE": "1"}, {"TERM": "dumb"}):
        assert railskirt(folder=tmp_path, **more).stdout == railskirt(folder=tmp_path).stdout
        assert railskirt("job.toml", folder=tmp_path, **more).returncode == Exit.NOT_A_TERMINAL


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
def test_nothing_of_the_screens_toolkit_is_loaded(argv: list[str], tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    code = f"import sys; from wizard.cli import main; main({argv!r}); sys.exit('textual' in sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", code],
        stdin=subprocess.DEVNULL, capture_output=True, cwd=tmp_path, env=environment(), timeout=120, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
