"""Everything that can be done in a job besides answering: one table for reading orders, doing them and helping."""

from __future__ import annotations

from typing import Final

from wizard.prompts import closing, drawn, places, reading, reasons, second, sheets, steps, ways
from wizard.prompts.order import Order, help_line, help_lines, meant, unclear
from wizard.prompts.talk import Talk
from wizard.questions.question import Kind

HOW_TO_ANSWER: Final[dict[Kind, str]] = {
    "length": "Type a length as you read it: 12 1/8, 6' 8 1/2\", 11.5 in, 29,2 cm, 2 1/4 yd. "
    "Without a unit it is in the unit of the job.",
    "length or zero": "Type a length as you read it: 1/2, 1.5 cm, or 0 for none.",
    "choice": "Type the number of a choice, or its first word.",
    "choices": "Type numbers with commas between, such as 1, 3, or none.",
    "yes-no": "Type yes or no.",
    "number": "Type a plain number: 2.5, 2 1/2.",
    "percent": "Type a percentage: 3, 3 %, 2.5 %.",
    "money": "Type a sum: 18.50.",
    "whole": "Type a whole number: 1000.",
    "text": "Type any words.",
    "add": "Type what it is to add it; an empty line goes on. .remove takes an added one out again.",
}
ABOUT: Final = (
    "What you type is the answer. It is saved at once.",
    "An order begins with a full stop. Its first letters are enough when no other begins so.",
    "In a numbered list type a number, or an empty line to leave the list.",
)


def _help(talk: Talk, name: str) -> None:
    if name:
        found = meant(JOB_ORDERS, name.lstrip(".").casefold())
        talk.say(*(help_line(each) for each in found) if found else [unclear(found, name.lstrip("."))])
        return
    question = talk.session.current()
    talk.say(HOW_TO_ANSWER[question.kind] if question is not None else steps.HOW, *ABOUT, *help_lines(JOB_ORDERS))


_MOVING, _THINKING, _LOOKING = "Going about", "Second thoughts", "Looking"
_WORKING, _FILE = "The work", "The job and its file"

JOB_ORDERS: Final[tuple[Order[Talk], ...]] = (
    Order("help", "ORDER", "Says how to answer, and every order; with an order, that one.", _MOVING, _help),
    Order("again", "", "Reads the question or step in hand again.", _MOVING, places.again),
    Order("next", "", "Goes on without answering.", _MOVING, places.on),
    Order("back", "", "Goes back a question or step.", _MOVING, places.back),
    Order("go", "PLACE", "Goes anywhere: by a list, a word of the title, or the key in the file.", _MOVING, places.go),
    Order("missing", "", "Lists the answers that are missing; goes to one.", _MOVING, places.missing),
    Order("look", "", "Lists what is to look at again since other answers; goes to one.", _MOVING, places.look),
    Order("brief", "", "Leaves out how to measure; once more brings it back.", _MOVING, closing.brief),
    Order("undo", "", "Takes the last change back.", _THINKING, second.undo),
    Order("redo", "", "Makes again the change that was taken back.", _THINKING, second.redo),
    Order("try", "ANSWER", "Says how an answer would be understood; saves nothing.", _THINKING, second.attempt),
    Order("take", "NUMBER", "Gives an answer that was offered.", _THINKING, second.take),
    Order("empty", "", "Takes the answer out: the usual one stands, or it is left open.", _THINKING, second.empty),
    Order("findings", "", "Lists what looks wrong, with the way out of each.", _THINKING, second.findings),
    Order("keep", "NUMBER", "Keeps what looks wrong as it is, or asks about it again.", _THINKING, second.keep),
    Order("other", "", "Goes to the other answer, where two were held against each other.", _THINKING, second.other),
    Order("remove", "", "Takes out what was added and is asked about here.", _THINKING, second.remove),
    Order("drawing", "", "Tells the drawing that goes with the question, and how to hold the tape.", _LOOKING,
          drawn.drawing),
    Order("plan", "", "Reads the plan so far; each figure has a number.", _LOOKING, reading.plan),
    Order("why", "FIGURE", "Says how a figure was worked: by its number in the plan, or its name.",
          _LOOKING, reasons.ask_why),
    Order("measures", "", "Reads every section's measures and drops.", _LOOKING, reading.measured),
    Order("full", "", "Reads how full each length of roll makes the skirt.", _LOOKING, reading.full),
    Order("cut", "", "Reads the cutting plan and the cut list.", _LOOKING, reading.cut),
    Order("ways", "", "Compares the ways of cutting; one can be followed.", _LOOKING, ways.compare_ways),
    Order("buy", "", "Reads the buying list.", _LOOKING, reading.buy),
    Order("marks", "", "Reads the marks on tape and skirt.", _LOOKING, reading.marked),
    Order("hang", "", "Reads where the fixings go, seen from inside the bed.", _LOOKING, reading.hang),
    Order("cautions", "", "Reads every caution of this job.", _LOOKING, reading.cautions),
    Order("work", "", "Goes to the first step that is not ticked.", _WORKING, places.work),
    Order("note", "TEXT", "Writes a note to the step in hand.", _WORKING, steps.note),
    Order("untick", "", "Takes the tick of the step in hand back.", _WORKING, steps.untick),
    Order("time", "", "Times the step in hand from now on, as start does; stop ends it.", _WORKING, steps.begin_timing),
    Order("hours", "", "Reads the minutes of each stage, expected and taken.", _WORKING, steps.hours),
    Order("file", "", "Says where the job is kept, and when it was saved.", _FILE, closing.file),
    Order("sheets", "", "Writes the sheets to print, or to carry to the bed, into a file.", _FILE, sheets.write),
    Order("template", "NAME", "Keeps the choices as a template for later jobs.", _FILE, closing.template),
    Order("projects", "", "Goes back to the list of projects.", _FILE, closing.projects),
    Order("quit", "", "Leaves. Every answer is in the file already.", _FILE, closing.leave),
)  # fmt: skip
"""In the order of the help."""


def carry_out(talk: Talk, name: str, after: str) -> None:
    """Do the order called `name`, or say that it means none or several."""
    found = meant(JOB_ORDERS, name)
    if len(found) == 1:
        found[0].do(talk, after)
    else:
        talk.say(unclear(found, name))
