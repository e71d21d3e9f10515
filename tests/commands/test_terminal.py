"""The command line in a real pseudo-terminal: what opens, what asks first, how it is left."""

from __future__ import annotations

from pathlib import Path

import pexpect
import pytest

from tests.commands.message_texts import text_of
from tests.commands.running import SMALL, data, ended, name, terminal
from wizard.commands.exits import Exit

CTRL_Q = "\x11"


def leave(child: pexpect.spawn[str], *, asked: bool = True) -> int:
    """Leave by keys, as the foot of the screen says, and give the exit status; only with a job open is one asked."""
    child.send(CTRL_Q)
    if asked:
        child.expect_exact("Leave?")
        child.send("\r")
    status = ended(child)
    assert status is not None
    return status


@pytest.mark.parametrize(("answer", "kept"), [("n", True), ("y", False)])
def test_the_demo_asks_before_it_replaces_a_copy_and_opens(tmp_path: Path, answer: str, kept: bool) -> None:
    mine = data() + b"\n[kept]\n"
    (tmp_path / name()).write_bytes(mine)
    with terminal(tmp_path, "demo") as child:
        child.expect_exact(f"{text_of('replace the copy', name())} [y/N]")
        assert (tmp_path / name()).read_bytes() == mine
        child.sendline(answer)
        child.expect_exact("Gannet Stair")
        replaced = (tmp_path / name()).read_bytes()
        assert leave(child) == Exit.OK
    assert replaced == (mine if kept else data())


def test_a_first_demo_opens_at_once(tmp_path: Path) -> None:
    with terminal(tmp_path, "demo") as child:
        child.expect_exact("Gannet Stair")
        assert leave(child) == Exit.OK
    assert (tmp_path / name()).is_file()


@pytest.mark.parametrize("argv", [[], ["loft.toml"], ["open", "loft.toml"]], ids=["alone", "file", "open"])
def test_on_a_terminal_it_opens_in_full_screen_and_leaves_with_a_clear_status(argv: list[str], tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, *argv) as child:
        # The other screen of the terminal: what stood there before comes back at the end.
        child.expect_exact("\x1b[?1049h")
        child.expect_exact("Juniper loft")
        assert leave(child, asked=bool(argv)) == Exit.OK


def test_ctrl_c_at_the_demos_question_is_answered_cleanly(tmp_path: Path) -> None:
    (tmp_path / name()).write_bytes(b"mine")
    with terminal(tmp_path, "demo") as child:
        child.expect_exact("[y/N]")
        # On a busy machine the first may come before the line is read at all, and Python then notices it only with the
        # next key; a person would press again.
        for _ in range(6):
            child.sendintr()
            if child.expect_exact(["railskirt: stopped.", pexpect.TIMEOUT], timeout=10) == 0:
                break
        child.expect(pexpect.EOF)
        child.wait()
        assert child.exitstatus == Exit.INTERRUPTED
    assert (tmp_path / name()).read_bytes() == b"mine"


def test_a_sheet_on_a_terminal_is_as_wide_as_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, "sheet", "loft.toml") as child:
        child.expect_exact("═" * 100)
        child.expect_exact("Still open")
        child.expect(pexpect.EOF)
        child.wait()
        assert child.exitstatus == Exit.UNFINISHED


def test_a_file_that_cannot_be_read_is_told_and_nothing_opens(tmp_path: Path) -> None:
    file = tmp_path / "odd.toml"
    file.write_text('format = 1\n[survey.section.left]\nrum = ["80 in"]\n', encoding="utf-8")
    before = file.read_bytes()
    with terminal(tmp_path, "odd.toml") as child:
        child.expect_exact("odd.toml:3: survey.section.left.rum: There is no key")
        child.expect(pexpect.EOF)
        child.wait()
        assert child.exitstatus == Exit.BAD_FILE
    assert file.read_bytes() == before
