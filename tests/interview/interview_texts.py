"""What the interview says on every face, by its key: the one place where the tests word it."""

from __future__ import annotations

TEXTS = {
    # Resuming, and a job in a line of a list.
    "done so far": "Done so far: {0}.",
    "done so far, seen": "Done so far: ",
    "next": "Next: {0}.",
    "stopped at": "Stopped at: {0}.",
    "unticked before": "1 step before it is not ticked.",
    "edited by hand": "Edited by hand since you left: {0}.",
    "template changed": (
        "Its template “{0}” has changed since; the job keeps what it copied. It now differs in currency, top allowance."
    ),
    "changed since ticked": "Changed since you ticked",
    "find out first": "Find out first: {0}",
    "start the work": "All answered: start the work.",
    "go on with the work": "Continue the work: {0}.",
    "last step": "The last step is done: {0}.",
    "all done": "Nothing: every step is done.",
    "sides asked": "Which sides get a section",
    "rail asked": "What the rail is made of",
    "floor asked": "What the floor is",
    "system asked": "Usual values, inches or metric",
    "corners asked": "At the foot corners",
    "width asked": "Face cloth: width",
    "run asked": "Left section: run at the rail",
    "run near the floor asked": "Left section: run near the floor",
    "allowances taken": "Allowances",
    "put off": "what is to be asked",
    # What is typed and not entered.
    "typed here": "Typed here but not entered: {0}",
    "typed elsewhere": "Typed at “{0}” but not entered: {1}",
    "not entered": "Not entered yet: {0}.",
    "offered again": "It is offered again when you open the project.",
    "lost": "Not entered, and lost when you leave: {0}",
    # Answers.
    "looked up": "The unit is looked up when you press Enter.",
    "wide apart": "“{0}” can be read in two ways. It can be 1/64 in to 40 in.",
    "too much of a run": "“{0}” is too much for a run. It can be 1/2 in to 200 ft.",
    "too little of a run": "“{0}” is too little for a run. It can be 1/2 in to 200 ft.",
    "stays": "This stops the plan, so you cannot keep it.",
    "a folder": "a folder has that name",
    "two lines": "that may be “stops at the post” or “stops short: something is there",
    "price goes": "the price of {0} was for another kind or unit",
    "taken out": "and is removed",
    "same there": "The same on the {0}",
    "same as": "Same as the {0}",
    # Cloth.
    "along, not strips": "The lining is cut along the roll; {0} needs it cut across. Choose across first.",
    "along, no better": "The lining is cut along the roll, where least cloth already has the fewest joins.",
    "across for strips": "The lining is cut slit, which needs it cut across. Choose another way first.",
    "no damage": "For none, leave both empty.",
    "light": "This light cloth: 2.5 to 3.",
    "light over more": "This light cloth with these inner layers: 2.",
    "left over": "At 2, left over of the face cloth: ",
    "without buying": "Without buying any face cloth, the skirt can be {0} full",
    "hard to gather": "Above 3 cloth is hard to gather.",
}
"""Key -> the sentence, or as much of it as is told on every face; what is named in it is numbered."""


def worded(key: str, *named: object) -> str:
    """The sentence."""
    return TEXTS[key].format(*named)
