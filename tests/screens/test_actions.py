"""One table of what can be done feeds keys, buttons, the list of all actions and the help."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.jobs import job_file
from tests.screens.pilots import job, opened
from wizard.screens.actions import ACTIONS, BUTTONS, Action, Context, action_string, actions_in
from wizard.screens.app import SkirtApp
from wizard.screens.dialogs.search_dialog import more_dialog
from wizard.screens.help_text import help_words
from wizard.screens.job_screen import JobScreen
from wizard.screens.list_screen import ListScreen
from wizard.screens.panes.roll_pane import RollView
from wizard.screens.screen_text import BEGUN, CAUTION, CHANGED, DONE, NOT_YET

CONTEXTS: tuple[Context, ...] = ("list", "job")
HOMES = {"job": JobScreen, "list": ListScreen, "roll": RollView, "anywhere": SkirtApp}


@pytest.mark.parametrize("action", ACTIONS, ids=lambda each: each.id)
def test_every_action_is_bound_to_its_keys(action: Action) -> None:
    bindings = vars(HOMES[action.context])["_merged_bindings"].key_to_bindings
    bound = {key for key, each in bindings.items() for one in each if one.action == action_string(action)}
    assert bound == set(action.keys.split(","))


async def test_every_action_is_done_somewhere(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        homes = {**HOMES, "job": job(pilot), "roll": job(pilot)}
        assert [
            each.id for each in ACTIONS if not callable(getattr(homes[each.context], f"action_{each.id}", None))
        ] == []


@pytest.mark.parametrize("context", CONTEXTS)
def test_no_key_does_two_things_in_one_room(context: Context) -> None:
    keys = [key for action in actions_in(context) for key in action.keys.split(",") if key]
    assert len(keys) == len(set(keys))


def test_no_action_takes_a_key_that_one_types_with() -> None:
    keys = [key for action in ACTIONS if action.context != "roll" for key in action.keys.split(",")]
    assert [key for key in keys if len(key) == 1 or key in ("space", "enter", "tab", "backspace", "delete")] == []


def test_no_action_takes_the_first_key_of_a_terminal_multiplexer() -> None:
    keys = {key for action in ACTIONS for key in action.keys.split(",")}
    assert keys.isdisjoint({"ctrl+a", "ctrl+b"})


def test_the_help_says_what_the_signs_mean() -> None:
    signs = help_words(None, "job").partition("\nSigns\n")[2]
    assert [sign for sign in (DONE, BEGUN, NOT_YET, CHANGED, CAUTION) if sign not in signs] == []


@pytest.mark.parametrize("context", CONTEXTS)
def test_every_action_stands_in_the_help_and_in_the_list_of_actions(context: Context) -> None:
    help_text = help_words(None, context)
    listed = {each.id: f"{each.title} {each.said}" for each in more_dialog(context).entries}
    for action in actions_in(context):
        assert f"{action.shown:<16}{action.words}. {action.says}" in help_text
        if action.id != "more":
            told = listed[action_string(action)]
            assert action.words in told
            assert action.shown in told
            assert action.says in told


@pytest.mark.parametrize("context", CONTEXTS)
def test_every_action_is_reached_with_the_mouse_by_the_foot_or_by_the_list_that_a_button_of_the_foot_opens(
    context: Context,
) -> None:
    foot = [each.id for each in actions_in(context) if each.button]
    assert BUTTONS[0] == "more"
    assert "more" in foot
    assert set(foot) <= set(BUTTONS)
    listed = {each.id for each in more_dialog(context).entries}
    assert {action_string(each) for each in actions_in(context) if each.id != "more"} <= listed
