"""What the screens say, by its key: the one place where the tests word it, with the words of every face."""

from __future__ import annotations

from tests.interview.interview_texts import TEXTS as OF_EVERY_FACE

TEXTS = {
    **OF_EVERY_FACE,
    # Questions.
    "system": "Do you work in inches",
    "usual in inches": "seams of 1/2 in",
    "usual in metric": "seams of 1.5 cm",
    "name": "What is this project called?",
    "sides": "Which sides get a section?",
    "drop in the middle": "in the middle?",
    "drop at the foot": "at the foot end?",
    "rail": "How thick is the rail of this section?",
    "way of cutting": "How is the face cloth cut?",
    "owned": "do you already have some",
    # Pages.
    "needed": "This is needed for the plan",
    "needed choice": "Choose one, or press Enter again",
    "no choice": "Found “{0}”: that is not one of the choices.",
    "same, by space": "Same as the {0}: Space copies it",
    "same, from below": "Same as the {0}: ↑, then Space copies it",
    "not added": "Nothing here was added",
    "worked out once": "Needed first: ",
    "typed already": "You can already type a number, 1 or more.",
    "longer than the left": "{0} longer than the left",
    "keep": "Keep as it is",
    "measure both": "Measure both again",
    "go to the other": "Go to the other",
    "go to the question": "Go to the question",
    "nothing to undo": "Nothing to undo since you opened this project.",
    # The plan beside the page.
    "plan so far": "Plan so far: {0}",
    "choose a figure": "Why? Choose a figure of the plan so far",
    "usual cut": "left section cut length {0} (usual)",
    "first figures": "about {0}, {1} wide",
    "usual allowances": " in, usual allowances",
    "least cloth": "Is this the least cloth?",
    "still needed": "Still needed",
    "large figures on": "Large figures are on for pages and steps.",
    "large figures off": "Large figures are off.",
    # The work.
    "not complete": "The plan is not complete yet: {0}.",
    "more to come": "more steps follow once nothing is missing",
    "steps done": "{0} of {0} done",
    "steps done of": "{0} of {1} done",
    "not done": "Not done yet.",
    "waits": "What this step says waits until",
    "all ticked": "Every step is ticked.",
    "it hangs": "The skirt is finished",
    "look again": "{0} to check again",
    "look again, any": " to check again",
    "ticked as it was": "since you ticked it, ticked",
    "look over": "Look over: {0}",
    "timer running": "30 min of about 1 h, timer running",
    "time of cloth": "Cloth  {0} of about 1 h",
    "no minutes": "Minutes are a whole number up to 9999, for example: 25",
    # Dialogs.
    "actions": "Menu: what can be done here",
    "search": "type to filter",
    "enter says why": "Enter says why a figure is what it is.",
    "tab goes": "Tab goes to",
    "no name": "It needs a name.",
    "no name of a file": "The file needs a name. For example: {0}",
    "file there": "{0} is there already: a text file, not a",
    "a folder given": "That is a folder. The file goes into it under this name.",
    "no such folder": "No such file or directory.",
    "unfinished": "Unfinished: 1 answer is missing: {0}.",
    # The file.
    "to go on": "To go on: railskirt {0}",
    "saved before": "What was saved before is in",
    "not saved": "Not saved: {0}",
    "changed by another": "was changed by another program",
    "no right": "may not write there",
    "not confirmed": "is saved, but the disk did not confirm it",
    "comments": "comments written by hand",
    "comments first": "Comments in the file",
    "unreadable": "cannot be read",
    "no project": "No project here yet",
    "next drop": "drop in the middle",
    "one project": "Only this project is open here.",
    "one template": "so you cannot save a template",
    # Copying.
    "copied": "Copied: {0}. If you cannot paste it: {1} prints the same.",
    "copied, seen": "Copied: {0}",
    "no clipboard": "This terminal has no clipboard. {0} prints the same.",
    "long to copy": "long for some terminals",
    # Faults, and a window too small.
    "fault": "Something went wrong",
    "fault, whole": (
        "Something went wrong in railskirt ({0}). Every answer you gave is in the project's file. For a bug report:"
    ),
    "fault, named": "Something went wrong in railskirt ({0}).",
    "too small": "Make the window",
    # Keys.
    "typed into fields": "'{0}' is typed into fields",
    "use ctrl": "'{0}' is typed into fields: use Ctrl with a letter.",
    "moves or edits": "'{0}' already moves or edits in every field.",
    "sent as tab": "'{0}' is sent as Tab by every terminal.",
    "edits": "'{0}' edits in the field.",
    "arrives bare": "'{0}' arrives as the bare 't', which is typed into fields.",
    "not by every terminal": "'{0}' moves or edits in the field, or is not sent by every terminal.",
    "not sent": "'{0}' is not a key that a terminal sends.",
    "not a key": "'{0}' is not a key: give one key, or one with Ctrl, Shift or Alt.",
    "line": "Line {0}: {1}",
    "for example": "For example: {0}",
    "no such action": "There is no action “{0}”. The nearest one is {1}.",
    "no keys": "{0} has no keys: an action has 1 to 4.",
    "no text": "Found the number {0} for {1}: write a key in quotes, or several between square brackets.",
    "key taken": (
        "{0} is the key of {1} already, so {2} keeps its usual one. "
        "Give {1} another key too, or choose a free one, such as Shift+F1."
    ),
    "other lines": "All other lines work.",
    "usual keys": "The usual keys apply.",
    "huge": "The file is longer than 65536 bytes: is it the right one?",
    "no keys file": "there is no such file",
    "print the keys": "cannot be read: there is no such file. railskirt keys prints one to start from.",
}
"""Key -> the sentence, or as much of it as stands in one line of a small window; what is named in it is numbered."""


def worded(key: str, *named: object) -> str:
    """The sentence."""
    return TEXTS[key].format(*named)
