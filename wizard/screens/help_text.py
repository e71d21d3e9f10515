"""The help: how to answer the question in hand, what to do where the focus is, and every key."""

from __future__ import annotations

from typing import Final

from wizard.interview.question import HOW_TO_TYPE, Kind, Question
from wizard.screens.actions import ACTIONS, Action, Context, actions_in
from wizard.screens.glyphs import BEGUN, CAUTION, CHANGED, DONE, NOT_YET
from wizard.trade.formatting import in_own_units

_LIST: Final = "The arrow keys move, Enter takes the current line."
_BUTTONS: Final = "Tab goes to the buttons."

FIELD_HELP: Final = {
    "search": "Type a few letters: the list keeps the lines that have them. The arrow keys move in the list while you "
    "type, Enter takes the current line.",
    "entries": f"{_LIST} Tab goes to the buttons, Shift+Tab back to the search.",
    "line": "Type one line. Enter takes it, Esc cancels.",
    "new-name": "Type a name for the job. The file is named after it; you can change the name later.",
    "templates": f"What the job starts from: a template lends its choices. {_LIST}",
    "form": "The form in which the sheets are written. The arrow keys move, Tab goes on.",
    "sheets": "The sheets to write. The arrow keys move, Space ticks, Tab goes on.",
    "target": "The file to write: a name, or a path. You are asked before anything is written over.",
    "findings": "What looks wrong, the worst first. The arrow keys move; Tab goes to the buttons, which go to the "
    "answer, or keep it as it is. You are asked again when a value that you kept changes.",
    "figures": f"The plan so far. The arrow keys move, Enter says why a figure is what it is. {_BUTTONS}",
    "so-far": "The plan so far, beside the page. The arrow keys move, Enter says why a figure is what it is. What the "
    "last answer changed is marked.",
    "inputs": f"What the figure was worked out from. Enter asks why of each, Esc goes back up. {_BUTTONS}",
    "steps": "The steps of the work. The arrow keys move; Enter ticks the current step and goes to the next, Space "
    "ticks or unticks it. Its times are beside it.",
    "step-body": "The current step. The arrow keys scroll, Tab goes to its buttons.",
    "large-body": "One step, a part at a time; the arrow keys turn its parts. Enter goes on, and ticks the step after "
    f"its last part; Space ticks or unticks it, Esc leaves the large figures. {_BUTTONS}",
    "cutting": f"The cutting plan. The arrow keys scroll. {_BUTTONS}",
    "roll-view": f"The roll to scale. The keys that zoom and move are below, under Keys. {_BUTTONS}",
    "projects": "The projects of this folder, last changed first. The arrow keys move, Enter opens one.",
    "page-body": "A page. Tab and the arrow keys go from field to field, Enter takes the field and goes on.",
}
"""Id of a widget -> its help."""

BUTTON: Final = "Enter presses the button, Tab goes to the next one."


def help_for(id: str | None) -> str:
    """The help of a widget; a button's where it is none that has its own. Empty for nothing at all."""
    return "" if id is None else FIELD_HELP.get(id, BUTTON)


ANSWERS: Final[dict[Kind, str]] = {
    **HOW_TO_TYPE,
    "choice": "The arrow keys choose; so does a number, or the first letters. Enter takes the choice and goes on.",
    "choices": "The arrow keys move, Space ticks, Enter takes what is ticked.",
    "yes-no": "The arrow keys choose, or y and n. Enter takes the choice and goes on.",
    "add": "Type it to add one; leave it empty to go on. {take_out} removes an added one.",
}

MOVES: Final = (
    ("Enter", "Takes the field and goes to the next; from the last one, to the next page."),
    ("Tab, Shift+Tab", "Go from field to field, to + rows and to More, round the page."),
    ("Up, Down", "Go to the nearest field; in a list, from line to line."),
    ("PgUp, PgDn", "Scroll the page."),
)

SIGNS: Final = (
    (f"{DONE} {BEGUN} {NOT_YET}", "Done, begun, not yet: a page, a field or a step."),
    (CHANGED, "What the last answer changed: a figure, or what is to look at again."),
    (CAUTION, "A caution: read it before you go on. At a field: it cannot be read."),
    ("?", "Looks wrong: measure again, or keep it."),
)
"""The signs of the screens, and what each says."""

COLUMNS: Final = 16


def answering(kind: Kind, table: tuple[Action, ...] = ACTIONS, *, metric: bool = False) -> str:
    """How a question of a kind is answered."""
    words = in_own_units(ANSWERS[kind], metric=metric)
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
    parts += ["Keys", *(_line(keys, says) for keys, says in MOVES)]
    inside = [each for each in table if each.context == "roll" and context == "job"]
    parts += [_line(each.shown, f"{each.words}. {each.says}") for each in (*actions_in(context, table), *inside)]
    parts += ["", "Signs", *(_line(sign, says) for sign, says in SIGNS)]
    parts += ["", "Every answer is saved at once. Hold Shift to mark text with the mouse."]
    return "\n".join(each for each in parts if each or parts)


def _line(keys: str, says: str) -> str:
    return f"{keys:<{COLUMNS}}{says}"
