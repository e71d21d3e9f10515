"""What plain mode says, by what it is about: the one place where the tests word it."""

from __future__ import annotations

from typing import Final

SAID: Final = {
    # Pages and questions.
    "page": "Page {0} of about {1}. {2}: {3}",
    "enter": "Enter takes what is in brackets. “quit” leaves, “back” goes to the page before, “?” helps.",
    "usual": "All as usual? {0}. “usual” takes it all.",
    "more": "“more” lists {0} answers that hardly anybody needs.",
    "same": "Same as the left section? “same” takes its answers over.",
    "taken over": "Same as the left section: taken over. “undo” undoes it.",
    "alike": "The {0} was the same until now. “same” on this page, or on its own, changes it too.",
    "commas": "For several give their numbers with commas between, such as 1, 3.",
    "dots": "Any text is an answer here: an order needs a full stop before it, as in .back",
    "beginning": "This is the beginning.",
    "end": "This is the end for now.",
    "questions done": "The questions are done. To buy, face cloth: {0} “buy” reads the buying list",
    # Answers.
    "taken": "Taken: {0}",
    "left open": "Left open: {0}.",
    "refused": "Not taken: {0}",
    "example": "For example: {0}",
    "stuck": "“quit” leaves, “back” goes to the page before, “?” helps.",
    "needed": "An answer is needed here. For example: {0} Enter again leaves it open for now.",
    "later": "Left open. The survey sheet lists it, and so does “missing”.",
    "open": "Left open. “missing” lists it.",
    "may be later": "If you cannot know it yet, “later” leaves it open.",
    "check": "Please check: {0}",
    "saved": "Saved. Type another answer, or Enter to go on. “keep” stops asking about it.",
    "other": "“other” goes to: {0}.",
    "kept": "Kept: {0}",
    "asked again": "Asked again: {0}",
    "plan so far": "Plan so far: {0}",
    "changed": "Changed: {0} figures. “plan” reads them.",
    "not known": "Not known for now: {0} figures. “missing” lists what is needed.",
    "look": "1 to look at again since other answers. “look” lists them.",
    "typed before": "Typed before, not entered: {0}. “take 1” enters it.",
    "undone": "Undone: {0}.",
    "removed": "Removed. “undo” brings it back.",
    # Lists and orders.
    "not in the list": "Not in the list: “{0}”. Type a number from 1 to {1}. Enter alone leaves the list.",
    "no order": "There is no order “{0}” here. “help” lists them all.",
    "several orders": "Several orders begin so: {0}. Type one letter more.",
    "not called": "Nothing is called “{0}” in this job. “go” alone lists the pages.",
    "no figure": "No figure is called “{0}”. “plan” lists them.",
    # Orders that find nothing to do.
    "nothing wrong": "Nothing looks wrong.",
    "keep which": "Say which: “keep” and a number of the list that “findings” reads.",
    "no other": "Nothing here is held against another answer. “findings” lists what looks wrong.",
    "no undo": "There is nothing to undo.",
    "no redo": "There is nothing to redo.",
    "no offer": "Nothing is offered here.",
    "no look": "There is nothing to look at again.",
    "no missing": "No answer is missing. Next: {0}",
    "no more": "There is nothing more on this page.",
    "no copy": "There is nothing to take over here.",
    "a step": "This is a step of the work, with nothing to answer.",
    "no step": "This goes with a step of the work. “work” goes to the steps.",
    "not added": "Nothing here was added. Only added sections, things, lengths and drops can be removed.",
    "no timer": "No timer is running. “start” starts one.",
    # The work.
    "step": "Step {0} of {1}: {2}",
    "ticked": "Ticked: {0}",
    "ticked already": "Ticked already. “untick” takes the tick back.",
    "unticked": "No longer ticked: {0}",
    "not understood": "Not understood: “{0}”. “done” ticks it",
    "timer": "Timer started.",
    "timer stopped": "Timer stopped: {0} {1}",
    "step changed": "Changed since you ticked it: {0}",
    # The file.
    "read again": "Read again: the job is now as the file says. “undo” brings mine back.",
    "written over": "Saved: my change is in the file. The file as it was is kept as {0}.",
    "try again": "1. Try again, once that is put right.",
    "no project": "No project here yet.",
    "begin": "Not in the list: “{0}”. To begin a project of that name: new {0}",
    "nameless": "It needs a name. For example: new Juniper loft",
    "unreadable": "{0} cannot be read:",
    "unchanged": "Nothing has changed since it was opened.",
}


def said(key: str, *values: object) -> str:
    """A sentence with what is in it."""
    return SAID[key].format(*values)


def heard(key: str, talk: str, *values: object) -> bool:
    """True where a talk, whose lines may end anywhere, has the sentence."""
    return said(key, *values) in " ".join(talk.split())
