"""The real program in a real pseudo-terminal: the whole job by keys, ended roughly and resumed, poor terminals, and how
many pages and keys an ordinary bed takes."""

from __future__ import annotations

import re
import signal
import sys
import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.render.jobs import LOFT
from tests.screens.jobs import job_file
from tests.screens.pilots import kept_beside
from tests.screens.screen_texts import worded
from tests.screens.terminals import KEYS, Terminal
from wizard.commands.exits import Exit
from wizard.interview.session import Session
from wizard.project.plan_of_project import plan_of
from wizard.project.store import Opened, Store
from wizard.trade.plan_records import Plan

MIDDLE = "survey.section.left.drop.2"
TWO = ["11 7/8 in", "12 1/8 in"]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A job that stands at the drop in the middle."""
    return job_file(tmp_path / "loft.toml", MIDDLE)


def drops_in(path: Path) -> list[str]:
    drops: list[str] = tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"]
    return drops


def planned(path: Path) -> Plan:
    opened = Store(path).open()
    assert isinstance(opened, Opened)
    return plan_of(opened.project)


def ticked(path: Path) -> int:
    return sum("done" in each for each in tomllib.loads(path.read_text()).get("work", {}).values())


def test_the_work_is_ticked_off_by_keys_to_the_last_step(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    with Terminal("loft.toml", cwd=tmp_path) as terminal:
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
        terminal.leave()
        assert terminal.ended() == 0


ENDINGS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL)


@pytest.mark.parametrize("ending", ENDINGS, ids=lambda each: each.name)
def test_being_told_to_end_keeps_answers_and_what_was_typed(path: Path, ending: signal.Signals) -> None:
    with Terminal("loft.toml", cwd=path.parent) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8\r")
        terminal.sees(worded("drop at the foot"))
        terminal.type("12 3/16")
        terminal.sees("= 12 3/16 in")
        if ending == signal.SIGKILL:
            terminal.until(lambda: "12 3/16" in kept_beside(path), "what is typed, kept")
            terminal.kill(ending)
        else:
            assert terminal.kill(ending) == 128 + ending
            assert terminal.given_back()
    assert drops_in(path) == TWO
    assert "12 3/16" in kept_beside(path)
    with Terminal("loft.toml", cwd=path.parent) as terminal:
        terminal.sees(worded("typed here", "12 3/16"))
        terminal.press("Enter")
        terminal.until(lambda: drops_in(path) == [*TWO, "12 3/16 in"], "the answer in the file")
        terminal.leave()
        assert terminal.ended() == 0
    assert kept_beside(path) == ""


def test_no_colour_is_written_where_colour_is_refused(path: Path) -> None:
    with Terminal("loft.toml", cwd=path.parent, env={"NO_COLOR": "1"}) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.press("F3")
        terminal.sees("Go there")
        codes = {code for each in re.findall(rb"\x1b\[([0-9;]*)m", terminal.raw) for code in each.split(b";")}
    assert codes <= {b"", b"0", b"1", b"2", b"3", b"4", b"7", b"22", b"23", b"24", b"27", b"39", b"49"}


def test_a_linux_console_gets_only_signs_its_font_has(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "ways.face")
    with Terminal("loft.toml", cwd=tmp_path, env={"TERM": "linux"}) as terminal:
        terminal.sees(worded("way of cutting"))
        for key, text in (("F7", worded("least cloth")), ("F9", "[ ] Buy"), ("F3", "Go there")):
            terminal.press(key)
            terminal.sees(text)
            assert terminal.text().encode("cp437")


def test_keys_typed_ahead_of_a_slow_screen_answer_the_questions_they_were_meant_for(path: Path) -> None:
    with Terminal("loft.toml", cwd=path.parent) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8 lb\r\x01\x0b12 1/8\r12 3/8\r")
        terminal.until(lambda: drops_in(path) == [*TWO, "12 3/8 in"], "the third drop in the file")
        terminal.press("F3")
        terminal.type("right section rail thick\r")
        terminal.sees(worded("rail"))


def shell(folder: Path, **more: str) -> Terminal:
    """A shell, ready for its first line."""
    line = ("/bin/bash", "--norc", "--noprofile", "-i")
    terminal = Terminal(cwd=folder, env={"PS1": "ready: ", **more}, program=line)
    terminal.sees("ready:")
    return terminal


def test_a_storm_of_sizes_and_a_way_to_the_shell_and_back_lose_nothing_that_was_typed(path: Path) -> None:
    with shell(path.parent) as terminal:
        terminal.type(f"{sys.executable} -m wizard loft.toml\r")
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8")
        terminal.sees("= 12 1/8 in")
        for columns, rows in ((40, 12), (300, 100), (10, 3), (60, 20), (39, 11), (120, 40), (80, 24)):
            terminal.child.setwinsize(rows, columns)
            terminal.screen.resize(rows, columns)
            terminal.read()
        terminal.sees("= 12 1/8 in")
        terminal.press("C-z")
        terminal.sees("Stopped")
        assert terminal.given_back()
        terminal.type("echo had $((40 + 2))\r")
        terminal.sees("had 42")
        terminal.type("fg\r")
        terminal.sees("= 12 1/8 in")
        terminal.press("Enter")
        terminal.sees(worded("drop at the foot"))
        terminal.leave()
        terminal.until(lambda: worded("to go on", "loft.toml").encode() in terminal.raw, "how to go on")
    assert drops_in(path) == TWO


BROKEN = """
import sys
from wizard.cli import main
from wizard.screens.job_dialogs import JobDialogs
JobDialogs.go_to = lambda self: {}["gone"]
sys.exit(main(sys.argv[1:]))
"""
"""The program with a fault behind F3."""


@pytest.mark.parametrize("again", [False, True], ids=["once", "again"])
def test_a_fault_of_the_program_is_told_and_the_job_goes_on_until_it_is_there_again(path: Path, again: bool) -> None:
    folder = path.parent
    env, program = {"TMPDIR": str(folder)}, (sys.executable, "-c", BROKEN)
    with Terminal("loft.toml", cwd=folder, env=env, program=program) as terminal:
        terminal.sees(worded("drop in the middle"))
        terminal.type("12 1/8\r")
        terminal.sees(worded("drop at the foot"))
        terminal.press("F3")
        terminal.sees(worded("fault, named", "KeyError"))
        terminal.press("Esc")
        terminal.gone(worded("fault"))
        terminal.sees(worded("drop at the foot"))
        if again:
            terminal.press("F3")
        else:
            terminal.type("12 3/8\r")
            terminal.until(lambda: drops_in(path) == [*TWO, "12 3/8 in"], "the third drop in the file")
            terminal.leave()
        assert terminal.ended() == (Exit.FAULT if again else Exit.OK)
        said = terminal.said()
    found = [*folder.glob("railskirt-fault-*.txt")]
    assert len(found) == 1 + again
    for details in found:
        assert f"railskirt: {worded('fault, whole', 'KeyError')} {details}\r\n" in said
        assert "KeyError: 'gone'" in details.read_text()
    assert "Traceback" not in said
    assert drops_in(path)[:2] == TWO


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


def test_what_was_typed_while_the_wizard_ends_never_reaches_the_shell(path: Path) -> None:
    with shell(path.parent, SLOW_END=SLOW_END) as terminal:
        terminal.type(f'{sys.executable} -c "$SLOW_END" loft.toml; echo ended $?\r')
        terminal.sees(worded("drop in the middle"))
        terminal.leave()
        terminal.until(lambda: b"\x1b[?1049l" in terminal.raw, "the end of the screens")
        terminal.type("touch reached\r")
        terminal.until(lambda: b"touch reached" in terminal.raw, "what is typed")
        (path.parent / "typed").touch()
        terminal.sees("ended 0")
        terminal.type("echo had $((40 + 2))\r")
        terminal.sees("had 42")
    assert not (path.parent / "reached").exists()


# An ordinary bed typed in from an empty start. A key counts that puts no character into a field: Enter, F8, Space,
# arrows, and what picks a choice. The dialog for a new project is a page; the work is none.
MOST_PAGES, MOST_KEYS, FIELDS_TO_THE_FIRST_LENGTH = 22, 100, 20
FIELDS_OF_F8 = {"The bed from above": 2, "The rails": 2, "Floor and top edge": 2}
"""Page -> fields that F8 takes at once on it."""
FIRST_LENGTH = worded("usual cut", "13 1/4 in")


class Maker:
    """Types a script, and counts. `pick:` is a letter or a figure that picks a choice; what is no key is text."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.keys = 0
        self.fields = 0
        self.first_length_at = 0
        self.pages = list[int]()
        self.totals = list[int]()

    def on(self, title: str, script: str) -> None:
        """On the page of that title: the words of a script with commas between."""
        self.terminal.sees(title)
        self._look()
        for each in script.split(", "):
            if each == "length":
                self.terminal.sees(FIRST_LENGTH)
                self.first_length_at = self.fields
                continue
            if each.startswith("pick:"):
                self.terminal.type(each.removeprefix("pick:"))
            elif each in KEYS:
                self.terminal.press(each)
            else:
                self.terminal.type(each)
                self.terminal.sees(each)
                continue
            self.keys += 1
            self.fields += FIELDS_OF_F8.get(title, 1) if each == "F8" else each == "Enter"
            self._look()

    def _look(self) -> None:
        self.terminal.read()
        heading = re.search(r"page (\d+) of about (\d+)", self.terminal.text())
        if heading and (not self.pages or self.pages[-1] != int(heading[1])):
            self.pages.append(int(heading[1]))
            self.totals.append(int(heading[2]))


def script_for_heron() -> Iterator[tuple[str, str]]:
    """Page by page, by somebody who knows F8."""
    yield worded("no project"), "F8"
    yield "A new project", "Heron loft, Enter"
    yield "The bed from above", "F8"
    yield "The rails", "pick:s, Enter, 1 1/8, F8"
    yield "Floor and top edge", "pick:h, Enter, 1/8, F8"
    yield "What to watch", "F8"
    yield (
        "Left section, seen",
        ("76 3/4, Enter, 76 5/8, Enter, 11 7/8, Enter, 12, Enter, 12 1/4, Enter, length, centre leg, Enter"),
    )
    yield "Left section: centre leg", "38, Enter, 3, F8"
    yield "Foot section, seen", "58 1/8, Enter, 58 1/8, Enter, 12, Enter, 12 1/8, Enter, 12 1/16, F8"
    yield "Right section, seen", "77, Enter, 77, Enter, 12 1/4, Enter, 12, Enter, 11 15/16, F8"
    yield "Hem line", "F8"
    yield "The corners", "pick:2, F8"
    yield "The posts, from above", "3, Enter, 3, Enter, 1/2, Enter, 1/2, Enter, pick:y, F8"
    yield "Face cloth", "54, Enter, pick:2, Enter, Enter, Enter, Space, F8"
    yield worded("owned"), "4 1/2 yd + 3 yd, F8"
    yield "Interlining", "45, Enter, pick:5, F8"
    yield "Washing", "F8"
    yield "How it is fixed", "F8"
    yield "Allowances", "F8"
    yield "How full?", "2.5, F8"
    yield "Ways of cutting", "F8"


def test_an_ordinary_bed_takes_few_pages_and_keys_and_the_first_cut_length_comes_soon(tmp_path: Path) -> None:
    with Terminal(cwd=tmp_path) as terminal:
        maker = Maker(terminal)
        for title, script in script_for_heron():
            maker.on(title, script)
        terminal.sees("11 widths")
        typed, kept = (planned(each).layers for each in (tmp_path / "heron-loft.toml", LOFT))
        assert [each.cutting for each in typed] == [each.cutting for each in kept]
        assert len(set(maker.pages) | {1}) <= MOST_PAGES
        assert maker.keys <= MOST_KEYS
        assert 0 < maker.first_length_at <= FIELDS_TO_THE_FIRST_LENGTH
