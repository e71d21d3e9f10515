"""The real program in a real pseudo-terminal: the whole job by keys, ended roughly and resumed, and poor terminals."""

from __future__ import annotations

import re
import signal
import sys
import tomllib
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.screens.jobs import job_file
from tests.screens.screen_texts import worded
from tests.screens.terminals import Terminal
from wizard.commands.exits import Exit
from wizard.interview.session import Session
from wizard.project.store import Store

MIDDLE = "survey.section.left.drop.2"


def ticked(path: Path) -> int:
    return sum("done" in each for each in tomllib.loads(path.read_text()).get("work", {}).values())


def test_the_work_is_ticked_off_by_keys_to_the_last_step(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    with closing(Terminal("loft.toml", cwd=tmp_path)) as terminal:
        terminal.sees(worded("done so far, seen"))
        terminal.press("F9")
        terminal.sees("[ ] Buy")
        session = Session.resume(Store(path), lambda: datetime.now(UTC))
        assert isinstance(session, Session)
        steps = len(session.plan.work)
        for number in range(steps):
            terminal.press("Enter")
            terminal.until(lambda wanted=number + 1: ticked(path) == wanted, "the tick in the file")
        terminal.sees(worded("steps done", steps))
        terminal.press("C-q")
        terminal.sees("Leave?")
        terminal.press("Enter")
        assert terminal.ended() == 0


@pytest.mark.parametrize("ending", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP], ids=lambda each: each.name)
def test_being_told_to_end_leaves_the_last_answer_and_the_terminal_as_it_was(
    tmp_path: Path, ending: signal.Signals
) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(Terminal("loft.toml", cwd=tmp_path)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8\r")
        terminal.sees(worded("drop at the foot"))
        terminal.type("12 1/")
        terminal.sees("12 1/")
        assert terminal.kill(ending) == 128 + ending
        assert b"\x1b[?1049h" in terminal.raw
        assert terminal.raw.rindex(b"\x1b[?1049l") > terminal.raw.rindex(b"\x1b[?1049h")
        assert terminal.raw.rindex(b"\x1b[?25h") > terminal.raw.rindex(b"\x1b[?25l")
    assert tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"] == ["11 7/8 in", "12 1/8 in"]


def test_no_colour_is_written_where_colour_is_refused(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(Terminal("loft.toml", cwd=tmp_path, env={"NO_COLOR": "1"})) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.press("F3")
        terminal.sees("Go there")
        codes = {code for each in re.findall(rb"\x1b\[([0-9;]*)m", terminal.raw) for code in each.split(b";")}
    assert codes <= {b"", b"0", b"1", b"2", b"3", b"4", b"7", b"22", b"23", b"24", b"27", b"39", b"49"}


def test_a_linux_console_gets_only_signs_its_font_has(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "ways.face")
    with closing(Terminal("loft.toml", cwd=tmp_path, env={"TERM": "linux"})) as terminal:
        terminal.sees(worded("way of cutting"))
        for key, text in (("F7", worded("least cloth")), ("F9", "[ ] Buy"), ("F3", "Go there")):
            terminal.press(key)
            terminal.sees(text)
            assert terminal.text().encode("cp437")


def test_a_storm_of_sizes_loses_nothing_that_was_typed(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(Terminal("loft.toml", cwd=tmp_path)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8")
        terminal.sees("= 12 1/8 in")
        for columns, rows in ((40, 12), (300, 100), (10, 3), (60, 20), (39, 11), (120, 40), (80, 24)):
            terminal.child.setwinsize(rows, columns)
            terminal.screen.resize(rows, columns)
            terminal.read()
        terminal.sees("= 12 1/8 in")
        terminal.press("Enter")
        terminal.sees(worded("drop at the foot"))
    assert tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"] == ["11 7/8 in", "12 1/8 in"]


def test_keys_typed_ahead_of_a_slow_screen_answer_the_questions_they_were_meant_for(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(Terminal("loft.toml", cwd=tmp_path)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8 lb\r\x01\x0b12 1/8\r12 3/8\r")
        terminal.until(lambda: "12 3/8 in" in path.read_text(), "the third drop in the file")
        terminal.press("F3")
        terminal.type("right section rail thick\r")
        terminal.sees(worded("rail"))
    assert tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"] == [
        "11 7/8 in",
        "12 1/8 in",
        "12 3/8 in",
    ]


def test_to_the_shell_and_back_loses_nothing_that_was_typed(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    shell = ("/bin/bash", "--norc", "--noprofile", "-i")
    with closing(Terminal(cwd=tmp_path, env={"PS1": "ready: "}, program=shell)) as terminal:
        terminal.sees("ready:")
        terminal.type(f"{sys.executable} -m wizard loft.toml\r")
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8")
        terminal.sees("= 12 1/8 in")
        terminal.press("C-z")
        terminal.sees("Stopped")
        assert terminal.raw.rindex(b"\x1b[?1049l") > terminal.raw.rindex(b"\x1b[?1049h")
        assert terminal.raw.rindex(b"\x1b[?25h") > terminal.raw.rindex(b"\x1b[?25l")
        terminal.type("echo had $((40 + 2))\r")
        terminal.sees("had 42")
        terminal.type("fg\r")
        terminal.sees("= 12 1/8 in")
        terminal.press("Enter")
        terminal.sees(worded("drop at the foot"))
        terminal.press("C-q")
        terminal.sees("Leave?")
        terminal.press("Enter")
        terminal.until(lambda: worded("to go on", "loft.toml").encode() in terminal.raw, "how to go on")
    assert tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"] == ["11 7/8 in", "12 1/8 in"]


BROKEN = """
import sys
from wizard.cli import main
from wizard.screens.job_dialogs import JobDialogs
JobDialogs.go_to = lambda self: {}["gone"]
sys.exit(main(sys.argv[1:]))
"""
WRONG = worded("fault, whole", "KeyError")


def broken(folder: Path) -> Terminal:
    """The program with a fault behind F3."""
    return Terminal("loft.toml", cwd=folder, env={"TMPDIR": str(folder)}, program=(sys.executable, "-c", BROKEN))


def test_a_fault_of_the_program_is_told_and_the_job_goes_on_where_it_stood(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(broken(tmp_path)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8\r")
        terminal.sees(worded("drop at the foot"))
        terminal.press("F3")
        terminal.sees(worded("fault, named", "KeyError"))
        [details] = tmp_path.glob("railskirt-fault-*.txt")
        terminal.press("Esc")
        terminal.gone(worded("fault"))
        terminal.sees(worded("drop at the foot"))
        terminal.type("12 3/8\r")
        terminal.until(lambda: "12 3/8 in" in path.read_text(), "the third drop in the file")
        terminal.press("C-q")
        terminal.sees("Leave?")
        terminal.press("Enter")
        assert terminal.ended() == Exit.OK
        said = terminal.raw[terminal.raw.rindex(b"\x1b[?1049l") :].decode()
    assert f"railskirt: {WRONG} {details}\r\n" in said
    assert "KeyError: 'gone'" in details.read_text()


def test_a_second_fault_in_the_same_place_gives_the_terminal_back_and_shows_no_page_of_code(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    with closing(broken(tmp_path)) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8\r")
        terminal.sees(worded("drop at the foot"))
        terminal.press("F3")
        terminal.sees(worded("fault"))
        terminal.press("Enter")
        terminal.gone(worded("fault"))
        terminal.press("F3")
        assert terminal.ended() == Exit.FAULT
        said = terminal.raw[terminal.raw.rindex(b"\x1b[?1049l") :].decode()
    assert "Traceback" not in said
    for details in tmp_path.glob("railskirt-fault-*.txt"):
        assert f"railskirt: {WRONG} {details}\r\n" in said
        assert "KeyError: 'gone'" in details.read_text()
    assert tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"] == ["11 7/8 in", "12 1/8 in"]


SLOW_END = """
import sys
from pathlib import Path
from time import sleep
from wizard.cli import main
from wizard.screens.app import SkirtApp
run = SkirtApp.run
def slowly(self, **ways):
    status = run(self, **ways)
    while not Path("typed").exists():
        sleep(0.02)
    return status
SkirtApp.run = slowly
sys.exit(main(sys.argv[1:]))
"""


def test_what_was_typed_while_the_wizard_ends_never_reaches_the_shell(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", MIDDLE)
    shell = ("/bin/bash", "--norc", "--noprofile", "-i")
    with closing(Terminal(cwd=tmp_path, env={"PS1": "ready: ", "SLOW_END": SLOW_END}, program=shell)) as terminal:
        terminal.sees("ready:")
        terminal.type(f'{sys.executable} -c "$SLOW_END" loft.toml; echo ended $?\r')
        terminal.sees(worded("drop in the middle"))
        terminal.press("C-q")
        terminal.sees("Leave?")
        terminal.press("Enter")
        terminal.until(lambda: b"\x1b[?1049l" in terminal.raw, "the end of the screens")
        terminal.type("touch reached\r")
        terminal.until(lambda: b"touch reached" in terminal.raw, "what is typed")
        (tmp_path / "typed").touch()
        terminal.sees("ended 0")
        terminal.type("echo had $((40 + 2))\r")
        terminal.sees("had 42")
    assert not (tmp_path / "reached").exists()
