"""Help for what has the focus: what can be done there, in a sentence or two. Questions have help of their own."""

from __future__ import annotations

from typing import Final

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
