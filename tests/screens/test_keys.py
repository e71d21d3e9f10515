"""One table of what can be done feeds keys, buttons, lists and help; a file of one's own changes its keys."""

from __future__ import annotations

import tomllib
from contextlib import suppress
from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.widgets import Button, Input, OptionList

from tests.screens.jobs import job_file
from tests.screens.pilots import loft
from tests.screens.screen_texts import worded
from tests.screens.terminals import Terminal
from wizard.cli import main, with_command
from wizard.commands.exits import Exit
from wizard.screens import launch
from wizard.screens.actions import ACTIONS, BUTTONS, Context, action_string, actions_in, shown_key
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.search_dialog import menu_dialog
from wizard.screens.help_text import FIELD_HELP, help_words
from wizard.screens.job_screen import JobScreen
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
from wizard.screens.list_screen import ListScreen
from wizard.screens.panes.roll_pane import RollView
from wizard.screens.screen_text import BEGUN, CAUTION, CHANGED, DONE, NOT_YET

MIDDLE = "survey.section.left.drop.2"
TEMPLATE = Path(__file__).parents[2] / "projects" / "template-workroom.toml"


@pytest.mark.parametrize(
    ("name", "key"),
    [
        *(("F7", "f7"), ("f12", "f12"), ("Ctrl+G", "ctrl+g"), (" control + g ", "ctrl+g"), ("Shift+F9", "shift+f9")),
        *(("Alt+F2", "alt+f2"), ("Esc", "escape"), ("Ins", "insert"), ("Ctrl+Up", "ctrl+up")),
        ("Alt+PgDn", "alt+pagedown"),
    ],
)
def test_keys_go_by_the_names_on_keyboards(name: str, key: str) -> None:
    assert toolkit_key(name) == key
    assert toolkit_key(shown_key(key)) == key


@pytest.mark.parametrize(
    ("why", "names"),
    [
        ("use ctrl", ("n", "7")),
        ("moves or edits", ("Enter", "PgUp")),
        ("sent as tab", ("Ctrl+I",)),
        ("edits", ("Ctrl+A",)),
        ("arrives bare", ("Alt+T",)),
        ("not by every terminal", ("Shift+Left",)),
        ("not sent", ("Ctrl+1", "F13")),
        ("not a key", ("Hyper+F1", "Ctrl+Alt+F1", "", "++")),
    ],
)
def test_a_key_that_cannot_be_given_away_says_why(why: str, names: tuple[str, ...]) -> None:
    for name in names:
        with pytest.raises(NoKey) as refused:
            toolkit_key(name)
        assert str(refused.value) == worded(why, name)


def test_no_key_that_can_be_given_away_has_work_in_a_field_or_a_list() -> None:
    bound = [vars(each)["_merged_bindings"] for each in (Input, OptionList, VerticalScroll)]
    busy = {key for each in bound for key in each.key_to_bindings}
    moving = ("up", "down", "left", "right", "home", "end", "pageup", "pagedown")
    bases = [*"abcdefghijklmnopqrstuvwxyz0123456789", *moving]
    names = [f"{held}{base}" for held in ("", "ctrl+", "shift+", "alt+") for base in bases]
    given: list[str] = []
    for name in names:
        with suppress(NoKey):
            given.append(toolkit_key(name))
    assert "ctrl+g" in given
    assert busy & set(given) == set()


def keys_from(folder: Path, text: str) -> Keys:
    path = folder / "keys.toml"
    path.write_text(text, encoding="utf-8")
    return read_keys(path)


def test_the_printed_table_changes_nothing_nor_does_an_empty_one_and_keys_may_be_swapped(tmp_path: Path) -> None:
    text = keys_toml(ACTIONS)
    assert list(tomllib.loads(text)) == [each.id for each in ACTIONS if each.keys]
    for each, changed in (
        (text, {}),
        ("\n", {}),
        ('more = "Ctrl+Up"\n', {"menu": "ctrl+up"}),  # As it was called before.
        ('undo = "F6"\nredo = ["F5", "Ctrl+Up"]\n', {"undo": "f6", "redo": "f5,ctrl+up"}),
    ):
        keys = keys_from(tmp_path, each)
        assert (keys.mistakes, keys.changed) == ((), changed)


def mistake(number: int, sentence: str, example: str) -> str:
    return f"{worded('line', number, sentence)} {worded('for example', example)}"


def test_every_mistake_is_a_sentence_with_its_line_and_an_example_and_the_rest_works(tmp_path: Path) -> None:
    keys = keys_from(
        tmp_path, '# mine\nwy = "F1"\nstep_next = "n"\nredo = []\nlarge = 7\nhelp = "F3"\n\nwork = "Ctrl+Up"\n'
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
    # A wish that gives way gives its usual key back.
    keys = keys_from(tmp_path, 'undo = "F2"\nwhy = "F3"\n')
    assert ([each[:7] for each in keys.mistakes], keys.changed) == (["Line 1:", "Line 2:"], {})


@pytest.mark.parametrize("text", ['why = "F2\n', "why = 1979-05-27 07\n", "[why]\nkey = 'F1'\n", "\x00", "why = \xff"])
def test_a_broken_file_is_told_and_the_usual_keys_hold(tmp_path: Path, text: str) -> None:
    keys = keys_from(tmp_path, text)
    assert keys.actions == ACTIONS
    assert keys.mistakes
    assert mistakes_told(keys).endswith(worded("usual keys"))
    assert keys_from(tmp_path, "#" * 70_000).mistakes == (worded("huge"),)


def test_the_file_is_looked_for_where_settings_are_kept() -> None:
    mine = Path("/home/me/.config/railskirt/keys.toml")
    for settings, place in ((None, mine), ("/etc/mine", Path("/etc/mine/railskirt/keys.toml")), ("mine", mine)):
        assert usual_place({"HOME": "/home/me", **({"XDG_CONFIG_HOME": settings} if settings else {})}) == place


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
    with pytest.raises(NoKeysError, match=worded("no keys file")):
        launch.run(tmp_path, keys_file=tmp_path / "none.toml")


@pytest.mark.parametrize(
    ("argv", "end"),
    [
        (["--no-mouse", "--keys", "k.toml", "job.toml"], ["open", "job.toml"]),
        (["--keys=k.toml", "list"], ["--keys=k.toml", "list"]),
        (["--keys", "k.toml"], ["--keys", "k.toml"]),
    ],
)
def test_options_may_stand_before_a_file(argv: list[str], end: list[str]) -> None:
    assert with_command(argv)[-2:] == end


async def test_changed_keys_do_their_deeds_and_stand_in_foot_help_list_and_buttons(tmp_path: Path) -> None:
    given = 'why = "F5"\nundo = ["Shift+F2", "F2"]\nhelp = "Ctrl+G"\ngo_to = "F1"\ncopy = "n"\nzoom_in = "Ctrl+Up"\n'
    async with loft(tmp_path, MIDDLE, (120, 40), keys=keys_from(tmp_path, given)) as it:
        await it.over()
        await it.sees(worded("line", 5, worded("typed into fields", "n")))
        await it.press("escape", at=MIDDLE, sees="F5 Why")
        assert "^G Help" in it.seen
        await it.press("f2", sees=worded("nothing to undo"))
        await it.press("f5", sees=worded("choose a figure"))
        await it.press("ctrl+g", sees=worded("enter says why"))
        assert "Shift+F2" in it.seen
        await it.press("escape", "escape", "ctrl+p", sees=worded("actions"))
        assert "Shift+F2" in it.seen
        await it.press("escape")
        await it.on_the_job()
    async with loft(tmp_path, "ways.face", (60, 20), keys=keys_from(tmp_path, given)) as it:
        await it.over()
        await it.press("escape", at="ways.face")
        await it.press("shift+f7", focus="roll-view", sees="Ctrl+Up")
        await it.press("ctrl+up")
        await it.until(lambda: it.job.query_one(RollView).zoom > 0)


def test_the_mouse_is_left_to_the_terminal_when_that_is_asked(tmp_path: Path) -> None:
    job_file(tmp_path / "loft.toml", MIDDLE)
    for options, reported in (((), True), (("--no-mouse",), False)):
        with Terminal(*options, "loft.toml", cwd=tmp_path) as terminal:
            terminal.sees(worded("drop in the middle"))
            assert (b"\x1b[?1000h" in terminal.raw) is reported


async def test_the_foot_names_its_keys_at_every_width_and_a_notice_goes_with_the_next_key(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (60, 20)) as it:
        await it.sees("Esc Back F8 Next F2 Why F3 Go F4 Findings 1 ^P Menu F1 Help")
        await it.pilot.resize_terminal(40, 12)
        await it.sees("Esc Back F8 Next F2 Why ^P Menu F1 Help")
        await it.pilot.resize_terminal(120, 40)
        await it.sees("^Q Leave")
        await it.press("ctrl+r", sees=worded("not added"))
        await it.press("tab")
        await it.sees_no(worded("not added"))


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
    async with loft(tmp_path, None, (120, 40)) as it:
        met = set[str | None]()

        def here() -> set[str | None]:
            return {each.id for each in it.top.focus_chain if not isinstance(each, Button)}

        async def shows(ids: set[str]) -> None:
            await it.until(lambda: ids <= here())
            met.update(here())

        for place, box in (("survey.rail", "page-body"), ("survey.section.left.run.1", "field")):
            await it.shows(place)
            await shows({box, "so-far"})
        for keys, ids in OPENED:
            await it.press(*keys)
            await shows(ids)
        assert met == {*FIELD_HELP, "field"}


# The table.
CONTEXTS: tuple[Context, ...] = ("list", "job")
HOMES = {"job": JobScreen, "list": ListScreen, "roll": RollView, "anywhere": SkirtApp}


async def test_every_action_is_bound_to_its_keys_and_done_somewhere(tmp_path: Path) -> None:
    for action in ACTIONS:
        bindings = vars(HOMES[action.context])["_merged_bindings"].key_to_bindings
        bound = {key for key, each in bindings.items() for one in each if one.action == action_string(action)}
        assert bound == set(action.keys.split(",")), action.id
    async with loft(tmp_path, "survey.rail") as it:
        homes = {**HOMES, "job": it.job, "roll": it.job}
        done = {each.id: getattr(homes[each.context], f"action_{each.id}", None) for each in ACTIONS}
    assert [id for id, action in done.items() if not callable(action)] == []


def test_no_action_takes_a_key_that_one_types_with_or_the_first_key_of_a_terminal_multiplexer() -> None:
    keys = {key: action.context for action in ACTIONS for key in action.keys.split(",")}
    typing = ("space", "enter", "tab", "backspace", "delete")
    assert [key for key in keys if keys[key] != "roll" and (len(key) == 1 or key in typing)] == []
    assert keys.keys().isdisjoint({"ctrl+a", "ctrl+b"})


@pytest.mark.parametrize("context", CONTEXTS)
def test_every_action_has_keys_of_its_own_and_stands_in_the_help_and_the_list(context: Context) -> None:
    keys = [key for action in actions_in(context) for key in action.keys.split(",") if key]
    assert len(keys) == len(set(keys))
    foot = {each.id for each in actions_in(context) if each.id in BUTTONS}
    assert BUTTONS[0] == "menu"
    assert {"menu"} <= foot <= set(BUTTONS)
    help_text = help_words(None, context)
    listed = {each.id: f"{each.mark} {each.title} {each.said}" for each in menu_dialog(context).entries}
    for action in actions_in(context):
        assert f"{action.shown:<16}{action.words}. {action.says}" in help_text
        if action.id != "menu":
            told = listed[action_string(action)]
            assert [each for each in (action.words, action.shown, action.says) if each not in told] == []


def test_the_help_says_what_the_signs_mean() -> None:
    signs = help_words(None, "job").partition("\nSigns\n")[2]
    assert [sign for sign in (DONE, BEGUN, NOT_YET, CHANGED, CAUTION) if sign not in signs] == []
