"""One table of what can be done feeds keys, buttons, the list of all actions and the help."""

from __future__ import annotations

import pytest

from wizard.screens.actions import ACTIONS, Action, Context, action_string, actions_in
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.search_dialog import more_dialog
from wizard.screens.glyphs import BEGUN, CAUTION, CHANGED, DONE, NOT_YET
from wizard.screens.help_text import help_words
from wizard.screens.job_screen import JobScreen
from wizard.screens.list_screen import ListScreen
from wizard.screens.panes.roll_pane import RollView
from wizard.screens.widgets.footer import NEEDED

ROOMS: tuple[Context, ...] = ("list", "job")
HOMES = {"job": JobScreen, "list": ListScreen, "roll": RollView, "anywhere": SkirtApp}


@pytest.mark.parametrize("deed", ACTIONS, ids=lambda each: each.id)
def test_every_deed_is_an_action_of_its_room_and_bound_to_its_keys(deed: Action) -> None:
    home = HOMES[deed.room]
    assert callable(getattr(home, f"action_{deed.id}"))
    bindings = vars(home)["_merged_bindings"].key_to_bindings
    bound = {key for key, each in bindings.items() for one in each if one.action == deed.id}
    assert bound == set(deed.keys.split(",")) - {""}


@pytest.mark.parametrize("room", ROOMS)
def test_no_key_does_two_things_in_one_room(room: Context) -> None:
    keys = [key for deed in actions_in(room) for key in deed.keys.split(",") if key]
    assert len(keys) == len(set(keys))


def test_no_deed_takes_a_key_that_one_types_with() -> None:
    keys = [key for deed in ACTIONS if deed.room != "roll" for key in deed.keys.split(",")]
    assert [key for key in keys if len(key) == 1 or key in ("space", "enter", "tab", "backspace", "delete")] == []


def test_no_deed_takes_the_first_key_of_a_terminal_multiplexer() -> None:
    keys = {key for deed in ACTIONS for key in deed.keys.split(",")}
    assert keys.isdisjoint({"ctrl+a", "ctrl+b"})


def test_the_help_says_what_the_signs_mean() -> None:
    signs = help_words(None, "job").partition("\nSigns\n")[2]
    assert [sign for sign in (DONE, BEGUN, NOT_YET, CHANGED, CAUTION) if sign not in signs] == []


@pytest.mark.parametrize("room", ROOMS)
def test_every_deed_stands_in_the_help_and_in_the_list_of_actions(room: Context) -> None:
    help_text = help_words(None, room)
    listed = {each.id: f"{each.title} {each.said}" for each in more_dialog(room).entries}
    for deed in actions_in(room):
        assert f"{deed.shown:<16}{deed.words}. {deed.says}" in help_text
        if deed.id != "more":
            told = listed[action_string(deed)]
            assert deed.words in told
            assert deed.shown in told
            assert deed.says in told


@pytest.mark.parametrize("room", ROOMS)
def test_every_deed_is_reached_with_the_mouse_by_the_foot_or_by_the_list_that_a_button_of_the_foot_opens(
    room: Context,
) -> None:
    foot = [each.id for each in actions_in(room) if each.button]
    assert NEEDED[0] == "more"
    assert "more" in foot
    assert set(foot) <= set(NEEDED)
    listed = {each.id for each in more_dialog(room).entries}
    assert {action_string(each) for each in actions_in(room) if each.id != "more"} <= listed
