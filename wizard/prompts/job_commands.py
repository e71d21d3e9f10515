"""Everything that can be done in a job besides answering: one table for reading orders, doing them and helping."""

from __future__ import annotations

from typing import Final

from wizard.interview.question import HOW_TO_TYPE, Kind
from wizard.prompts import corrections, cutting_reading, drawing_words, job_file, navigation, plan_reading, work_steps
from wizard.prompts.console import Command, help_line, help_lines, meant, unclear
from wizard.prompts.conversation import Conversation

HOW_TO_ANSWER: Final[dict[Kind, str]] = {
    **HOW_TO_TYPE,
    "choice": "Type the number of a choice, or its first word.",
    "choices": "Type numbers with commas between, such as 1, 3, or none.",
    "yes-no": "Type yes or no.",
    "add": "Type what it is to add it; an empty line goes on. .remove takes an added one out again.",
}
ABOUT: Final = (
    "What you type is the answer. It is saved at once.",
    "An order begins with a full stop. Its first letters are enough when no other begins so.",
    "In a numbered list type a number, or an empty line to leave the list.",
)


def _help(talk: Conversation, name: str) -> None:
    if name:
        found = meant(JOB_COMMANDS, name.lstrip(".").casefold())
        talk.say(*(help_line(each) for each in found) if found else [unclear(found, name.lstrip("."))])
        return
    question = talk.session.current()
    talk.say(
        HOW_TO_ANSWER[question.kind] if question is not None else work_steps.HOW, *ABOUT, *help_lines(JOB_COMMANDS)
    )


_MOVING, _THINKING, _LOOKING = "Going about", "Second thoughts", "Looking"
_WORKING, _FILE = "The work", "The job and its file"

JOB_COMMANDS: Final[tuple[Command[Conversation], ...]] = (
    Command("help", "ORDER", "Says how to answer, and every order; with an order, that one.", _MOVING, _help),
    Command("again", "", "Reads the question or step in hand again.", _MOVING, navigation.again),
    Command("next", "", "Goes on without answering.", _MOVING, navigation.on),
    Command("back", "", "Goes back a question or step.", _MOVING, navigation.back),
    Command("go", "PLACE", "Goes anywhere: by a list, a word of the title, or the key in the file.",
            _MOVING, navigation.go),
    Command("missing", "", "Lists the answers that are missing; goes to one.", _MOVING, navigation.missing),
    Command("look", "", "Lists what is to look at again since other answers; goes to one.", _MOVING, navigation.look),
    Command("brief", "", "Leaves out how to measure; once more brings it back.", _MOVING, job_file.brief),
    Command("undo", "", "Takes the last change back.", _THINKING, corrections.undo),
    Command("redo", "", "Makes again the change that was taken back.", _THINKING, corrections.redo),
    Command("try", "ANSWER", "Says how an answer would be understood; saves nothing.", _THINKING, corrections.attempt),
    Command("take", "NUMBER", "Gives an answer that was offered.", _THINKING, corrections.take),
    Command("empty", "", "Takes the answer out: the usual one stands, or it is left open.",
            _THINKING, corrections.empty),
    Command("findings", "", "Lists what looks wrong, with the way out of each.", _THINKING, corrections.findings),
    Command("keep", "NUMBER", "Keeps what looks wrong as it is, or asks about it again.", _THINKING, corrections.keep),
    Command("other", "", "Goes to the other answer, where two were held against each other.",
            _THINKING, corrections.other),
    Command("remove", "", "Takes out what was added and is asked about here.", _THINKING, corrections.remove),
    Command("drawing", "", "Tells the drawing that goes with the question, and how to hold the tape.", _LOOKING,
          drawing_words.drawing),
    Command("plan", "", "Reads the plan so far; each figure has a number.", _LOOKING, plan_reading.plan),
    Command("why", "FIGURE", "Says how a figure was worked: by its number in the plan, or its name.",
          _LOOKING, plan_reading.ask_why),
    Command("measures", "", "Reads every section's measures and drops.", _LOOKING, plan_reading.measured),
    Command("full", "", "Reads how full each length of roll makes the skirt.", _LOOKING, plan_reading.full),
    Command("cut", "", "Reads the cutting plan and the cut list.", _LOOKING, plan_reading.cut),
    Command("ways", "", "Compares the ways of cutting; one can be followed.", _LOOKING, cutting_reading.compare_ways),
    Command("buy", "", "Reads the buying list.", _LOOKING, plan_reading.buy),
    Command("marks", "", "Reads the marks on tape and skirt.", _LOOKING, plan_reading.marked),
    Command("hang", "", "Reads where the fixings go, seen from inside the bed.", _LOOKING, plan_reading.hang),
    Command("cautions", "", "Reads every caution of this job.", _LOOKING, plan_reading.cautions),
    Command("work", "", "Goes to the first step that is not ticked.", _WORKING, navigation.work),
    Command("note", "TEXT", "Writes a note to the step in hand.", _WORKING, work_steps.note),
    Command("untick", "", "Takes the tick of the step in hand back.", _WORKING, work_steps.untick),
    Command("time", "", "Times the step in hand from now on, as start does; stop ends it.",
            _WORKING, work_steps.begin_timing),
    Command("hours", "", "Reads the minutes of each stage, expected and taken.", _WORKING, work_steps.hours),
    Command("file", "", "Says where the job is kept, and when it was saved.", _FILE, job_file.file),
    Command("sheets", "", "Writes the sheets to print, or to carry to the bed, into a file.", _FILE, job_file.write),
    Command("template", "NAME", "Keeps the choices as a template for later jobs.", _FILE, job_file.template),
    Command("projects", "", "Goes back to the list of projects.", _FILE, job_file.projects),
    Command("quit", "", "Leaves. Every answer is in the file already.", _FILE, job_file.leave),
)  # fmt: skip
"""In the order of the help."""


def carry_out(talk: Conversation, name: str, after: str) -> None:
    """Do the order called `name`, or say that it means none or several."""
    found = meant(JOB_COMMANDS, name)
    if len(found) == 1:
        found[0].do(talk, after)
    else:
        talk.say(unclear(found, name))
