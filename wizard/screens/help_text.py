"""The help: how to answer the question in hand, what to do where the focus is, and every key. Its words: help.txt."""

from __future__ import annotations

from typing import Final

from wizard.interview.pages.texts import how_to_type
from wizard.interview.question import Kind, Question
from wizard.screens.actions import ACTIONS, Action, Context, actions_in
from wizard.trade.formatting import text_beside, wordings_in

_WORDINGS: Final = wordings_in(text_beside(__file__, "help.txt"))


def _about(what: str) -> dict[str, str]:
    """The texts of one kind, by their names in order."""
    found = ((id.partition(" "), each.sentence) for id, each in _WORDINGS.items())
    return {name: sentence for (kind, _, name), sentence in found if kind == what}


FIELD_HELP: Final = _about("at")
"""Id of a widget -> its help."""
BUTTON: Final = "Enter presses the button, Tab goes to the next one."
COLUMNS: Final = 16


def help_for(id: str | None) -> str:
    """The help of a widget; a button's where it is none that has its own. Empty for nothing at all."""
    return "" if id is None else FIELD_HELP.get(id, BUTTON)


def answering(kind: Kind, table: tuple[Action, ...] = ACTIONS, *, metric: bool = False) -> str:
    """How a question of a kind is answered."""
    words = how_to_type(kind, metric=metric) or _about("answer")[kind]
    return words.replace("{take_out}", next(each.shown for each in table if each.id == "take_out"))


def help_words(
    question: Question | None,
    context: Context,
    table: tuple[Action, ...] = ACTIONS,
    focus: str | None = None,
    *,
    metric: bool = False,
) -> str:
    """All of the help, in lines. `question`: the one being answered, else `focus`: the id of what has the focus."""
    parts: list[str] = []
    if question is not None:
        parts += [question.title, question.how, answering(question.kind, table, metric=metric), ""]
    elif focus is not None:
        parts += [help_for(focus), ""]
    inside = [each for each in table if each.context == "roll" and context == "job"]
    keys = {each.shown: f"{each.words}. {each.says}" for each in (*actions_in(context, table), *inside)}
    parts += ["Keys", *_lines(_about("key")), *_lines(keys)]
    parts += ["", "Signs", *_lines(_about("sign"))]
    parts += ["", "Every answer is saved at once. Hold Shift to mark text with the mouse."]
    return "\n".join(each for each in parts if each or parts)


def _lines(says: dict[str, str]) -> list[str]:
    return [f"{each:<{COLUMNS}}{sentence}" for each, sentence in says.items()]
