"""Keys of one's own: what a file may say, what is said of a mistake, and that the wizard goes by the rest."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.widgets import Button, Input, OptionList

from tests.screens.jobs import job_file
from tests.screens.pilots import at, focused, job, opened, over, seen, sees, until
from tests.screens.screen_texts import worded
from tests.screens.terminals import Terminal
from wizard.cli import main, with_command
from wizard.commands.exits import Exit
from wizard.screens import launch
from wizard.screens.actions import ACTIONS, shown_key
from wizard.screens.app import SkirtApp
from wizard.screens.help_text import FIELD_HELP
from wizard.screens.keymap import (
    Keys,
    NoKey,
    NoKeysError,
    keys_toml,
    mistakes_told,
    read_keys,
    toolkit_key,
    usual_place,
)
from wizard.screens.panes.roll_pane import RollView


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("F7", "f7"),
        ("f12", "f12"),
        ("Ctrl+G", "ctrl+g"),
        (" control + g ", "ctrl+g"),
        ("Shift+F9", "shift+f9"),
        ("Alt+F2", "alt+f2"),
        ("Esc", "escape"),
        ("Ins", "insert"),
        ("Ctrl+Up", "ctrl+up"),
        ("Alt+PgDn", "alt+pagedown"),
    ],
)
def test_keys_go_by_the_names_on_keyboards(name: str, key: str) -> None:
    assert toolkit_key(name) == key
    assert toolkit_key(shown_key(key)) == key


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("n", "use ctrl"),
        ("7", "use ctrl"),
        ("Enter", "moves or edits"),
        ("PgUp", "moves or edits"),
        ("Ctrl+I", "sent as tab"),
        ("Ctrl+A", "edits"),
        ("Alt+T", "arrives bare"),
        ("Shift+Left", "not by every terminal"),
        ("Ctrl+1", "not sent"),
        ("F13", "not sent"),
        ("Hyper+F1", "not a key"),
        ("Ctrl+Alt+F1", "not a key"),
        ("", "not a key"),
        ("++", "not a key"),
    ],
)
def test_a_key_that_cannot_be_given_away_says_why(name: str, why: str) -> None:
    with pytest.raises(NoKey) as refused:
        toolkit_key(name)
    assert str(refused.value) == worded(why, name)


def test_no_key_that_can_be_given_away_has_work_in_a_field_or_a_list() -> None:
    bound = [vars(each)["_merged_bindings"] for each in (Input, OptionList, VerticalScroll)]
    busy = {key for each in bound for key in each.key_to_bindings}
    bases = [
        *"abcdefghijklmnopqrstuvwxyz0123456789",
        "up",
        "down",
        "left",
        "right",
        "home",
        "end",
        "pageup",
        "pagedown",
    ]
    names = [f"{held}{base}" for held in ("", "ctrl+", "shift+", "alt+") for base in bases]
    given: list[str] = []
    for name in names:
        try:
            given.append(toolkit_key(name))
        except NoKey:
            continue
    assert "ctrl+g" in given
    assert busy & set(given) == set()


def keys_from(folder: Path, text: str) -> Keys:
    path = folder / "keys.toml"
    path.write_text(text, encoding="utf-8")
    return read_keys(path)


def test_the_table_that_is_printed_is_a_whole_file_that_changes_nothing(tmp_path: Path) -> None:
    text = keys_toml(ACTIONS)
    assert list(tomllib.loads(text)) == [each.id for each in ACTIONS if each.keys]
    keys = keys_from(tmp_path, text)
    assert (keys.mistakes, keys.changed) == ((), {})


def test_two_deeds_may_change_their_keys_with_each_other(tmp_path: Path) -> None:
    keys = keys_from(tmp_path, 'undo = "F6"\nredo = ["F5", "Ctrl+Up"]\n')
    assert keys.mistakes == ()
    assert keys.changed == {"undo": "f6", "redo": "f5,ctrl+up"}


def mistake(number: int, sentence: str, example: str) -> str:
    return f"{worded('line', number, sentence)} {worded('for example', example)}"


def test_every_mistake_is_a_sentence_with_its_line_and_an_example_and_the_rest_works(tmp_path: Path) -> None:
    keys = keys_from(
        tmp_path,
        '# mine\nwy = "F1"\nstep_next = "n"\nredo = []\nlarge = 7\nhelp = "F3"\n\nwork = "Ctrl+Up"\n',
    )
    assert keys.mistakes == (
        mistake(2, worded("no such action", "wy", "why"), 'why = "F2"'),
        mistake(3, worded("use ctrl", "n"), 'step_next = "F8"'),
        mistake(4, worded("no keys", "redo"), 'redo = "F6"'),
        mistake(5, worded("no text", 7, "large"), 'large = "Ctrl+F"'),
        worded("line", 6, worded("key taken", "F3", "go_to", "help")),
    )
    assert keys.changed == {"work": "ctrl+up"}
    assert mistakes_told(keys).endswith(worded("other lines"))


def test_a_wish_that_gives_way_gives_its_usual_key_back_to_its_deed(tmp_path: Path) -> None:
    keys = keys_from(tmp_path, 'undo = "F2"\nwhy = "F3"\n')
    assert [each.partition(":")[0] for each in keys.mistakes] == ["Line 2", "Line 1"][::-1]
    assert keys.changed == {}


@pytest.mark.parametrize("text", ['why = "F2\n', "why = 1979-05-27 07\n", "[why]\nkey = 'F1'\n", "\x00", "why = \xff"])
def test_a_broken_file_is_told_and_the_usual_keys_hold(tmp_path: Path, text: str) -> None:
    keys = keys_from(tmp_path, text)
    assert keys.actions == ACTIONS
    assert keys.mistakes
    assert mistakes_told(keys).endswith(worded("usual keys"))


def test_an_empty_file_changes_nothing_and_a_huge_one_is_not_read(tmp_path: Path) -> None:
    assert keys_from(tmp_path, "\n").mistakes == ()
    assert keys_from(tmp_path, "#" * 70_000).mistakes == (worded("huge"),)


def test_the_file_is_looked_for_where_settings_are_kept() -> None:
    assert usual_place({"HOME": "/home/me"}) == Path("/home/me/.config/railskirt/keys.toml")
    assert usual_place({"HOME": "/home/me", "XDG_CONFIG_HOME": "/etc/mine"}) == Path("/etc/mine/railskirt/keys.toml")
    assert usual_place({"HOME": "/home/me", "XDG_CONFIG_HOME": "mine"}) == Path("/home/me/.config/railskirt/keys.toml")


def test_the_command_prints_the_keys_in_use_and_says_what_is_wrong(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    assert main(["keys"]) == Exit.OK
    assert 'why = "F2"' in capsys.readouterr().out
    (tmp_path / "railskirt").mkdir()
    (tmp_path / "railskirt" / "keys.toml").write_text('why = "Shift+F2"\nundo = "x"\n')
    assert main(["keys"]) == Exit.BAD_FILE
    told = capsys.readouterr()
    assert 'why = "Shift+F2"' in told.out
    assert 'undo = "F5"' in told.out
    assert worded("line", 2, worded("typed into fields", "x")) in told.err
    assert main(["keys", "--keys", str(tmp_path / "none.toml")]) == Exit.BAD_FILE
    assert worded("print the keys") in capsys.readouterr().err


def test_options_may_stand_before_a_file() -> None:
    assert with_command(["--no-mouse", "--keys", "k.toml", "job.toml"])[-2:] == ["open", "job.toml"]
    assert with_command(["--keys=k.toml", "list"]) == ["--keys=k.toml", "list"]
    assert with_command(["--keys", "k.toml"]) == ["--keys", "k.toml"]


def test_keys_that_were_named_and_are_not_there_keep_the_screens_from_opening(tmp_path: Path) -> None:
    with pytest.raises(NoKeysError, match=worded("no keys file")):
        launch.run(tmp_path, keys_file=tmp_path / "none.toml")


async def test_changed_keys_do_their_deeds_and_stand_in_foot_help_and_list(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    keys = keys_from(tmp_path, 'why = "F5"\nundo = ["Shift+F2", "F2"]\nhelp = "Ctrl+G"\ngo_to = "F1"\ncopy = "n"\n')
    screens = SkirtApp(tmp_path, path, keys)
    async with screens.run_test(size=(120, 40), notifications=True) as pilot:
        await over(pilot)
        await sees(pilot, worded("line", 5, worded("typed into fields", "n")))
        await pilot.press("escape")
        await at(pilot, "survey.section.left.drop.2", "field")
        await sees(pilot, "F5 Why")
        assert "^G Help" in seen(pilot)
        await pilot.press("f2")
        await sees(pilot, worded("nothing to undo"))
        await pilot.press("f5")
        await sees(pilot, worded("choose a figure"))
        await pilot.press("ctrl+g")
        await sees(pilot, worded("enter says why"))
        assert "Shift+F2" in seen(pilot)
        await pilot.press("escape", "escape", "ctrl+p")
        await sees(pilot, worded("actions"))
        assert "Shift+F2" in seen(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: pilot.app.screen is job(pilot))


async def test_changed_keys_stand_in_what_is_told_and_on_the_buttons_of_the_roll(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "ways.face")
    keys = keys_from(tmp_path, 'undo = "Shift+F2"\nzoom_in = "Ctrl+Up"\n')
    async with SkirtApp(tmp_path, path, keys).run_test(size=(60, 20), notifications=True) as pilot:
        await at(pilot, "ways.face", "page-body")
        screen = job(pilot)
        await pilot.press("shift+f7")
        await until(pilot, lambda: focused(pilot) == "roll-view")
        await sees(pilot, "Ctrl+Up")
        await pilot.press("ctrl+up")
        await until(pilot, lambda: screen.query_one(RollView).zoom > 0)
        await pilot.press("f7")
        await until(pilot, lambda: screen.cutting.compared is screen.session.plan and bool(screen.cutting.found))
        await pilot.press("f11")
        await at(pilot, "ways.face", "page-body")


def test_the_mouse_is_left_to_the_terminal_when_that_is_asked(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")
    for options, reported in (((), True), (("--no-mouse",), False)):
        terminal = Terminal(*options, "loft.toml", cwd=tmp_path)
        terminal.sees(worded("drop in the middle"))
        assert (b"\x1b[?1000h" in terminal.raw) is reported
        terminal.close()


async def test_the_foot_names_its_keys_at_every_width(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (60, 20)) as pilot:
        await sees(pilot, "Esc Back F8 Next F2 Why F3 Go F4 Findings 1 ^P More F1 Help")
        await pilot.resize_terminal(40, 12)
        await sees(pilot, "Esc Back F8 Next F2 Why ^P More F1 Help")
        await pilot.resize_terminal(120, 40)
        await sees(pilot, "^Q Leave")


TEMPLATE = Path(__file__).parents[2] / "projects" / "template-workroom.toml"

OPENED: tuple[tuple[tuple[str, ...], set[str]], ...] = (
    (("f2",), {"figures"}),
    (("enter",), {"inputs"}),
    (("escape", "escape", "f3"), {"search", "entries"}),
    (("escape", "f4"), {"findings"}),
    (("escape", "ctrl+s"), {"form", "sheets", "target"}),
    (("escape", "ctrl+t"), {"line"}),
    (("escape", "shift+f7"), {"roll-view"}),
    (("f7",), {"cutting"}),
    (("f9",), {"steps", "step-body"}),
    (("ctrl+f",), {"large-body"}),
    (("ctrl+l",), {"projects"}),
    (("f8",), {"new-name", "templates"}),
)
"""Keys, one after the other, and what can have the focus then besides buttons."""


@pytest.mark.long
async def test_whatever_can_have_the_focus_has_a_help_of_its_own(tmp_path: Path) -> None:
    (tmp_path / TEMPLATE.name).write_bytes(TEMPLATE.read_bytes())
    async with opened(job_file(tmp_path / "loft.toml"), (120, 40)) as pilot:
        screen, met = job(pilot), set[str | None]()

        def here() -> set[str | None]:
            return {each.id for each in pilot.app.screen.focus_chain if not isinstance(each, Button)}

        async def shows(ids: set[str]) -> None:
            await until(pilot, lambda: ids <= here())
            met.update(here())

        for place, box in (("survey.rail", "page-body"), ("survey.section.left.run.1", "field")):
            screen.session.go(place)
            screen.show()
            await shows({box, "so-far"})
        for keys, ids in OPENED:
            await pilot.press(*keys)
            await shows(ids)
        assert met == {*FIELD_HELP, "field"}


async def test_what_is_said_in_passing_goes_with_the_next_key(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await pilot.press("ctrl+r")
        await sees(pilot, worded("not added"))
        await pilot.press("tab")
        await until(pilot, lambda: worded("not added") not in seen(pilot))
