"""The help: how to answer the question in hand, what to do where the focus is, and every key."""

from __future__ import annotations

from typing import Final

from wizard.interview.question import HOW_TO_TYPE, Kind, Question
from wizard.screens.actions import ACTIONS, Action, Context, actions_in
from wizard.screens.glyphs import BEGUN, CAUTION, CHANGED, DONE, NOT_YET

_LIST: Final = "The arrow keys move, Enter takes the line in hand."
_BUTTONS: Final = "Tab goes to the buttons."

FIELD_HELP: Final = {
    "search": "Type a few letters of what is wanted: the list under it keeps the lines that have them. The arrow keys "
    "move in the list while you type, Enter takes the line in hand.",
    "entries": f"{_LIST} Tab goes to the buttons, Shift+Tab back to the search.",
    "line": "Type one line. Enter takes it, Esc leaves it as it was.",
    "new-name": "Type what the job is called. The file is named after it; the name can be changed later.",
    "templates": f"What the job begins from: a template lends its choices. {_LIST}",
    "form": "In what form the sheets are written. The arrow keys move, Tab goes on.",
    "sheets": "Which sheets are written. The arrow keys move, Space marks and unmarks, Tab goes on.",
    "target": "The file that is written: a name, or a path. It is never written over without asking.",
    "findings": "What looks wrong, the worst first. The arrow keys move; Tab goes to the buttons, which go to the "
    "answer, or keep it as it is. What was kept is asked about again when its values change.",
    "figures": f"The plan so far. The arrow keys move, Enter says why a figure is what it is. {_BUTTONS}",
    "so-far": "The plan so far, beside the question. The arrow keys move, Enter says why a figure is what it is; what "
    "the last answer changed is marked. Tab goes back to the answer.",
    "inputs": f"What the figure was worked from. Enter asks why of each, Esc comes back up. {_BUTTONS}",
    "steps": "The steps of the work. The arrow keys move; Enter ticks the step in hand and goes to the next, Space "
    "ticks or unticks it. Its times stand beside it.",
    "step-body": "The step in hand. The arrow keys scroll, Tab goes to its buttons.",
    "large-body": "One step, a leaf at a time. Enter goes on, and ticks the step from its last leaf; Space ticks or "
    f"unticks it. The arrow keys scroll a long leaf. {_BUTTONS}",
    "cutting": f"The cutting plan. The arrow keys scroll. {_BUTTONS}",
    "roll-view": "The roll to scale. The keys that move over it, come nearer and go farther stand under Keys below. "
    f"{_BUTTONS}",
    "ways": f"Ways of cutting, side by side. The arrow keys move, Enter follows one. {_BUTTONS}",
    "chart": "How full each length of roll makes the skirt. The arrow keys move along the steps, Enter takes one. "
    f"{_BUTTONS}",
    "projects": "The projects of this folder, last changed first. The arrow keys move, Enter opens one.",
}
"""Id of a widget -> its help."""

BUTTON: Final = "Enter presses the button, Tab goes to the next one."


def help_for(id: str | None) -> str:
    """The help of a widget; a button's where it is none that has its own. Empty for nothing at all."""
    return "" if id is None else FIELD_HELP.get(id, BUTTON)


ANSWERS: Final[dict[Kind, str]] = {
    **HOW_TO_TYPE,
    "choice": "The arrow keys move, Enter takes the line in hand. A figure goes to the line of that number.",
    "choices": "The arrow keys move, Space marks and unmarks, Enter takes what is marked, none too.",
    "yes-no": "The arrow keys move, Enter takes the line in hand.",
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


def answering(kind: Kind, table: tuple[Action, ...] = ACTIONS) -> str:
    """How a question of a kind is answered."""
    return ANSWERS[kind].replace("{take_out}", next(each.shown for each in table if each.id == "take_out"))


def help_words(
    question: Question | None, context: Context, table: tuple[Action, ...] = ACTIONS, focus: str | None = None
) -> str:
    """All of the help, in lines. `question`: the one being answered, else `focus`: the id of what has the focus."""
    parts: list[str] = []
    if question is not None:
        parts += [question.title, question.how, answering(question.kind, table), ""]
    elif focus is not None:
        parts += [help_for(focus), ""]
    parts += ["Keys", *(_line(keys, says) for keys, says in MOVES)]
    inside = [each for each in table if each.context == "roll" and context == "job"]
    parts += [_line(each.shown, f"{each.words}. {each.says}") for each in (*actions_in(context, table), *inside)]
    parts += ["", "Signs", *(_line(sign, says) for sign, says in SIGNS)]
    parts += ["", "Whatever is answered is in the file at once. Hold Shift to mark text with the mouse."]
    return "\n".join(each for each in parts if each or parts)


def _line(keys: str, says: str) -> str:
    return f"{keys:<{COLUMNS}}{says}"
