"""One job from its opening to leaving it: read out, ask, take, and again."""

from __future__ import annotations

from wizard.prompts.announcing import announce, prompt
from wizard.prompts.answers import take_answer
from wizard.prompts.closing import parting
from wizard.prompts.order import answer_in, order_in
from wizard.prompts.orders import carry_out
from wizard.prompts.steps import take_at_step
from wizard.prompts.talk import Ending, Talk
from wizard.questions.keeping import COMMENTS

WAYS = ("1. Go on.", "2. Leave the file alone.")


def converse(talk: Talk) -> Ending:
    """Go through a job until it is left. InputEnded and KeyboardInterrupt leave it as orderly as .quit does."""
    try:
        _open(talk)
        while talk.ending is None:
            if talk.moved:
                announce(talk)
            take_line(talk, talk.lines.ask(prompt(talk)))
            talk.say(*talk.session.remarks())
        return talk.ending
    finally:
        parting(talk)


def take_line(talk: Talk, line: str) -> None:
    """One line that was typed: an order, an answer, or a tick."""
    order = order_in(line)
    if order is not None:
        carry_out(talk, *order)
        return
    question, step = talk.session.current(), talk.session.current_step()
    if question is not None:
        take_answer(talk, question, answer_in(line))
    elif step is not None:
        take_at_step(talk, step, answer_in(line))


def _open(talk: Talk) -> None:
    """Say what was done, what is next and what changed since; ask before comments would be taken out."""
    talk.lines.gap()
    talk.say(f"Job: {talk.session.draft.name or 'no name yet'}", *talk.session.resumed())
    talk.say("Orders begin with a full stop. .help lists them. .drawing tells a question's drawing in words.")
    if talk.session.comments:
        talk.say(*COMMENTS, *WAYS)
        if talk.lines.pick("Number, or an empty line to leave the file alone:", 2) != 0:
            talk.ending = "list"
