"""The help: how to answer the question in hand, and every key."""

from __future__ import annotations

from typing import Final

from wizard.questions.question import Kind, Question
from wizard.screens.deeds import DEEDS, Deed, Room, deeds_in
from wizard.screens.field_help import help_for
from wizard.screens.glyphs import BEGUN, CAUTION, CHANGED, DONE, NOT_YET

ANSWERS: Final[dict[Kind, str]] = {
    "length": "Type a length as you read it: 12 1/8, 6' 8 1/2\", 11.5 in, 29,2 cm, 2 1/4 yd. "
    "Without a unit it is in the unit of the job.",
    "length or zero": "Type a length as you read it: 1/2, 1.5 cm, or 0 for none.",
    "choice": "The arrow keys move, Enter takes the line in hand. A figure goes to the line of that number.",
    "choices": "The arrow keys move, Space marks and unmarks, Enter takes what is marked, none too.",
    "yes-no": "The arrow keys move, Enter takes the line in hand.",
    "number": "Type a plain number: 2.5, 2 1/2.",
    "percent": "Type a percentage: 3, 3 %, 2.5 %.",
    "money": "Type a sum: 18.50.",
    "whole": "Type a whole number: 1000.",
    "text": "Type any words.",
    "add": "Type a name to add one; leave it empty to go on. {take_out} takes an added one out again.",
}

MOVES: Final = (
    ("Enter", "Takes the answer and goes on."),
    ("Tab, Shift+Tab", "Goes between the answer, the plan so far and the buttons."),
    ("PgUp, PgDn", "Scrolls what stands above the answer."),
)

SIGNS: Final = (
    (f"{DONE} {BEGUN} {NOT_YET}", "Done, begun, not yet: a stage, a question or a step."),
    (CHANGED, "What the last answer changed: a figure, or what is to look at again."),
    (CAUTION, "Take care: read it before you go on."),
)
"""The signs of the screens, and what each says."""

COLUMNS: Final = 16


def answering(kind: Kind, table: tuple[Deed, ...] = DEEDS) -> str:
    """How a question of a kind is answered."""
    return ANSWERS[kind].replace("{take_out}", next(each.shown for each in table if each.id == "take_out"))


def help_words(question: Question | None, room: Room, table: tuple[Deed, ...] = DEEDS, focus: str | None = None) -> str:
    """All of the help, in lines. `question`: the one being answered, else `focus`: the id of what has the focus."""
    parts: list[str] = []
    if question is not None:
        parts += [question.title, question.how, answering(question.kind, table), ""]
    elif focus is not None:
        parts += [help_for(focus), ""]
    parts += ["Keys", *(_line(keys, says) for keys, says in MOVES)]
    inside = [each for each in table if each.room == "roll" and room == "job"]
    parts += [_line(each.shown, f"{each.words}. {each.says}") for each in (*deeds_in(room, table), *inside)]
    parts += ["", "Signs", *(_line(sign, says) for sign, says in SIGNS)]
    parts += ["", "Whatever is answered is in the file at once. Hold Shift to mark text with the mouse."]
    return "\n".join(each for each in parts if each or parts)


def _line(keys: str, says: str) -> str:
    return f"{keys:<{COLUMNS}}{says}"
