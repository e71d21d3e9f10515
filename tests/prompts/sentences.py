"""What plain mode says, by what it is about: the one place where the tests word it."""

from __future__ import annotations

from typing import Final

SAID: Final = {
    # Pages and questions.
    "page": "Page {0} of about {1}. {2}: {3}",
    "enter": "Enter takes what is in brackets. “quit” leaves, “back” goes to the page before, “?” helps.",
    "usual": "All as usual? {0}. “usual” takes it all.",
    "more": "“more” lists {0} answers that few jobs need.",
    "same": "Same as the left section? “same” copies its answers.",
    "taken over": "Same as the left section: copied. “undo” undoes it.",
    "alike": "The {0} had the same answers until now. Type “same” here, or on its own page, to change it too.",
    "commas": "For several, type their numbers with commas between, such as 1, 3.",
    "dots": "Any text is an answer here: put a full stop before a command, as in .back",
    "beginning": "This is the first page.",
    "end": "This is the end for now.",
    "questions done": "The questions are done. To buy, face cloth: {0} “buy” reads the buying list",
    # Answers.
    "taken": "Accepted: {0}",
    "left open": "Left open: {0}.",
    "refused": "Not accepted: {0}",
    "example": "For example: {0}",
    "stuck": "“quit” leaves, “back” goes to the page before, “?” helps.",
    "needed": "An answer is needed here. For example: {0} Enter again leaves it open for now.",
    "later": "Left open. The survey sheet lists it, and so does “missing”.",
    "open": "Left open. “missing” lists it.",
    "may be later": "If you cannot know it yet, “later” leaves it open.",
    "warning": "Warning: {0}",
    "saved": "Saved. Type another answer, or Enter to go on. “keep” stops asking about it.",
    "other": "“other” goes to: {0}.",
    "kept": "Kept: {0}",
    "asked again": "Asked again: {0}",
    "plan so far": "Plan so far: {0}",
    "changed": "Changed: {0} figures. “plan” reads them.",
    "not known": "Not known for now: {0} figures. “missing” lists what is needed.",
    "look": "1 to check again after other answers. “look” lists them.",
    "typed before": "Typed before, not entered: {0}. “take 1” enters it.",
    "undone": "Undone: {0}.",
    "removed": "Removed. “undo” brings it back.",
    # Lists and orders.
    "not in the list": "Not in the list: “{0}”. Type a number from 1 to {1}. Enter alone leaves the list.",
    "no order": "There is no command “{0}” here. “help” lists them all.",
    "several orders": "Several commands begin like that: {0}. Type one more letter.",
    "not called": "Nothing is called “{0}” in this job. “go” alone lists the pages.",
    "no figure": "There is no figure “{0}”. “plan” lists them.",
    # Orders that find nothing to do.
    "nothing wrong": "Nothing looks wrong.",
    "keep which": "Type “keep” and a number from the list that “findings” reads.",
    "no other": "Nothing here conflicts with another answer. “findings” lists what looks wrong.",
    "no undo": "Nothing to undo since you opened this project.",
    "no redo": "There is nothing to redo.",
    "no offer": "Nothing is offered here.",
    "no look": "There is nothing to check again.",
    "no missing": "No answer is missing. Next: {0}",
    "no more": "There is nothing more on this page.",
    "no copy": "There is nothing to copy here.",
    "a step": "This is a step of the work, with nothing to answer.",
    "no step": "This is only for a step of the work. “work” goes to the steps.",
    "not added": "Nothing here was added. Only added sections, things, lengths and drops can be removed.",
    "no timer": "No timer is running. “start” starts one.",
    # The work.
    "step": "Step {0} of {1}: {2}",
    "ticked": "Ticked: {0}",
    "ticked already": "Ticked already. “untick” removes the tick.",
    "unticked": "Not ticked any more: {0}",
    "not understood": "Not understood: “{0}”. “done” ticks the step",
    "timer": "Timer started.",
    "timer stopped": "Timer stopped: {0} {1}",
    "step changed": "Changed since you ticked it: {0}",
    # The file.
    "read again": "Read again from the file. “undo” brings your change back.",
    "written over": "Saved: your change is in the file. The file as it was before is kept as {0}.",
    "try again": "1. Try again, once that is corrected.",
    "no project": "No project here yet.",
    "begin": "Not in the list: “{0}”. To start a project of that name: new {0}",
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
