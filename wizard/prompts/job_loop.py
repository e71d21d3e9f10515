"""Reading out the place in hand: a question with how to answer it, or a step with its caution first."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.interview.added_entries import there_already
from wizard.interview.answer_text import NONE, given_by, options
from wizard.interview.file_state import COMMENTS
from wizard.interview.question import Question
from wizard.prompts.console import answer_in, command_in
from wizard.prompts.conversation import Conversation, Ending
from wizard.prompts.job_commands import carry_out
from wizard.prompts.job_file import parting
from wizard.prompts.take_answer import take_answer
from wizard.prompts.work_steps import announce_step, take_at_step
from wizard.render.plain_text import with_capital
from wizard.trade.formatting import exact, ruler_of
from wizard.trade.fullness_offers import offer_words

QUESTION, STEP = "Answer:", "Done?"


def announce(talk: Conversation) -> None:
    """Read out the current question or step."""
    talk.moved = False
    talk.lines.gap()
    if talk.session.current() is None:
        # A step is ticked as it was read out, and read again from the sheets: it has to read as they do.
        talk.best_plan()
    _stage(talk)
    question, step = talk.session.current(), talk.session.current_step()
    if question is not None:
        typed = talk.session.pending.get(question.key)
        talk.offers = (typed,) if typed else ()
        talk.say(*question_lines(talk, question))
    elif step is not None:
        announce_step(talk, step)


def prompt(talk: Conversation) -> str:
    """The prompt before the line that is typed."""
    return QUESTION if talk.session.current() is not None else STEP


def question_lines(talk: Conversation, question: Question) -> Iterator[str]:
    """Title, question, how to find out, choices, the present answer, what an empty line does."""
    yield question.title
    yield question.words
    if not talk.brief:
        yield question.how
    if question.key == "fullness.how" and (owned := offer_words(talk.session.plan)):
        yield owned
    yield from _there(talk, question)
    for number, choice in enumerate(options(question), 1):
        usual = ", usual" if choice.value == question.usual else ""
        yield f"{number}. {with_capital(choice.words)}{usual}"
    if question.kind == "choices":
        yield "Several: give their numbers with commas between, such as 1, 3."
    if question.stage == "Fullness":
        yield ".full reads how full each length of roll makes it."
    yield from _standing(talk, question)


def _standing(talk: Conversation, question: Question) -> Iterator[str]:
    session, key = talk.session, question.key
    if key in session.pending:
        yield f"Typed before, not entered: {session.pending[key]}"
        yield ".take 1 enters it."
    if session.state(key) == "answered" and question.kind != "add":
        yield f"Answered: {given_by(session.project)[key] or NONE}"
        yield "Empty line: keeps it."
    elif question.usual is not None:
        yield f"Empty line: takes the usual, {question.usual}."
    elif question.optional:
        yield "Empty line: leaves it open." if question.kind != "add" else "Empty line: adds nothing and goes on."
    else:
        yield "Needed. .next leaves it for later."


def _there(talk: Conversation, question: Question) -> Iterator[str]:
    """What was added already, for the question that adds."""
    for key, each in there_already(question, talk.session.plan.job).items():
        length = getattr(each, "length", None)
        unit = ruler_of(talk.session.plan.job).unit
        yield f"There already: {getattr(each, 'name', None) or (exact(length, unit) if length else key)}"


def _stage(talk: Conversation) -> None:
    stage = talk.session.stage()
    if stage != talk.stage:
        talk.stage = stage
        answered, asked = talk.session.stages[stage]
        talk.say(f"Stage: {stage}. {answered} of {asked} done.")
        waiting = len(talk.session.upset_places)
        if waiting:
            talk.say(f"{waiting} to look at again since other answers. .look lists what.")


WAYS = ("1. Go on.", "2. Leave the file alone.")


def converse(talk: Conversation) -> Ending:
    """Go through a job until it is left. InputEnded and KeyboardInterrupt leave it as orderly as .quit does."""
    try:
        _open(talk)
        while talk.ending is None:
            if talk.moved:
                announce(talk)
            take_line(talk, talk.lines.ask(prompt(talk)))
            talk.say(*talk.session.file.remarks())
        return talk.ending
    finally:
        parting(talk)


def take_line(talk: Conversation, line: str) -> None:
    """One line that was typed: an order, an answer, or a tick."""
    order = command_in(line)
    if order is not None:
        carry_out(talk, *order)
        return
    question, step = talk.session.current(), talk.session.current_step()
    if question is not None:
        take_answer(talk, question, answer_in(line))
    elif step is not None:
        take_at_step(talk, step, answer_in(line))


def _open(talk: Conversation) -> None:
    """Say what was done, what is next and what changed since; ask before comments would be taken out."""
    talk.lines.gap()
    talk.say(f"Job: {talk.session.project.name or 'no name yet'}", *talk.session.resumed())
    talk.say("Orders begin with a full stop. .help lists them. .drawing tells a question's drawing in words.")
    if talk.session.file.comments:
        talk.say(*COMMENTS, *WAYS)
        if talk.lines.pick("Number, or an empty line to leave the file alone:", 2) != 0:
            talk.ending = "list"
