"""The command line in a real pseudo-terminal: what opens, what asks first, how it is left."""

from __future__ import annotations

from pathlib import Path

import pexpect
import pytest

from tests.commands.message_texts import text_of
from tests.commands.running import SMALL, data, ended, name, terminal
from wizard.commands.exits import Exit

CTRL_Q = "\x11"


def leave(child: pexpect.spawn[str], *, asked: bool = True) -> int | None:
    """Leave by keys, as the foot of the screen says, and give the exit status; only with a job open is one asked."""
    child.send(CTRL_Q)
    if asked:
        child.expect_exact("Leave?")
        child.send("\r")
    return ended(child)


MINE = data() + b"\n[kept]\n"


@pytest.mark.parametrize(("earlier", "answer", "held"), [(MINE, "n", MINE), (MINE, "y", data()), (None, "", data())])
def test_the_demo_asks_before_it_replaces_a_copy_and_opens(
    tmp_path: Path, earlier: bytes | None, answer: str, held: bytes
) -> None:
    if earlier:
        (tmp_path / name()).write_bytes(earlier)
    with terminal(tmp_path, "demo") as child:
        if earlier:
            child.expect_exact(f"{text_of('replace the copy', name())} [y/N]")
            assert (tmp_path / name()).read_bytes() == earlier
            child.sendline(answer)
        child.expect_exact("Gannet Stair")
        assert (tmp_path / name()).read_bytes() == held
        assert leave(child) == Exit.OK


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
        assert ended(child) == Exit.INTERRUPTED
    assert (tmp_path / name()).read_bytes() == b"mine"


@pytest.mark.parametrize("argv", [[], ["loft.toml"], ["open", "loft.toml"]], ids=["alone", "file", "open"])
def test_on_a_terminal_it_opens_in_full_screen_and_leaves_with_a_clear_status(argv: list[str], tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, *argv) as child:
        # The other screen of the terminal: what stood there before comes back at the end.
        child.expect_exact("\x1b[?1049h")
        child.expect_exact("Juniper loft")
        assert leave(child, asked=bool(argv)) == Exit.OK


def test_a_sheet_on_a_terminal_is_as_wide_as_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    with terminal(tmp_path, "sheet", "loft.toml") as child:
        child.expect_exact("═" * 100)
        child.expect_exact("Still open")
        assert ended(child) == Exit.UNFINISHED


def test_a_file_that_cannot_be_read_is_told_and_nothing_opens(tmp_path: Path) -> None:
    file, text = tmp_path / "odd.toml", 'format = 1\n[survey.section.left]\nrum = ["80 in"]\n'
    file.write_text(text, encoding="utf-8")
    with terminal(tmp_path, "odd.toml") as child:
        child.expect_exact("odd.toml:3: survey.section.left.rum: There is no key")
        assert ended(child) == Exit.BAD_FILE
    assert file.read_text(encoding="utf-8") == text
