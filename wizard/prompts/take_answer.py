"""Taking an answer: what was understood, what it changed, what looks wrong."""

from __future__ import annotations

from wizard.interview.outcome import Accepted, Conflict, Refused, Upset
from wizard.interview.pending_review import other_of
from wizard.interview.question import Question
from wizard.project.finished_steps import changed_in_words
from wizard.prompts.conversation import Conversation, not_saved
from wizard.prompts.cutting_reading import short_lines
from wizard.prompts.plan_reading import words_by_figure
from wizard.prompts.speech import spoken_length
from wizard.render.figure_text import counted
from wizard.trade.plan_records import Finding, Plan

MOST_TOLD = 3
"""Most questions named one by one that an answer brought up behind one's back."""


def take_answer(talk: Conversation, question: Question, text: str) -> None:
    """What was typed at a question. An empty line keeps the answer there is, else takes the usual one."""
    kept = question.kind != "add" and talk.session.state(question.key) == "answered"
    if not text and (talk.held or kept):
        go_on(talk)
    else:
        give(talk, question, text)


def give(talk: Conversation, question: Question, text: str) -> None:
    """Give an answer, and go on when nothing looks wrong."""
    before = talk.session.plan
    outcome = talk.session.answer(question.key, text)
    talk.held, talk.offers = (), ()
    if isinstance(outcome, Refused):
        _refused(talk, outcome)
    elif isinstance(outcome, Conflict):
        not_saved(talk, outcome)
    else:
        _accepted(talk, before, outcome)


def go_on(talk: Conversation) -> None:
    """To the next place; after the last question, first what to buy."""
    asking = talk.session.current() is not None
    if not talk.session.next():
        end_of_questions(talk)
        return
    if asking and talk.session.current() is None:
        talk.say("The questions are done.", *short_lines(talk.best_plan()), ".cut reads the cutting plan.")
    talk.arrive()


def end_of_questions(talk: Conversation) -> None:
    """Say what to do where nothing follows."""
    talk.held = ()
    missing = len(talk.session.missing())
    talk.say("This is the end for now.", f"Next: {talk.session.next_action()}")
    if missing:
        talk.say(f"{counted(missing, 'answer')} missing. .missing lists them.")


def _refused(talk: Conversation, refused: Refused) -> None:
    talk.say(f"Not taken: {refused.sentence}")
    if refused.example and not refused.offers:
        talk.say(f"For example: {refused.example}")
    talk.offers = refused.offers
    talk.say(*(f".take {number} gives: {each}" for number, each in enumerate(refused.offers, 1)))


def _accepted(talk: Conversation, before: Plan, accepted: Accepted) -> None:
    talk.say(f"Taken: {spoken_length(accepted.echo.text)}")
    talk.changed, talk.was = accepted.changed, words_by_figure(before)
    _bought(talk)
    _upset(talk, accepted.upset)
    asks = tuple(each for each in accepted.findings if each.level != "note")
    talk.say(*(f"Worth knowing: {each.sentence}" for each in accepted.findings if each.level == "note"))
    if asks:
        _ask_again(talk, asks)
    else:
        go_on(talk)


def _bought(talk: Conversation) -> None:
    """Say what to buy of each cloth, where the answer changed it."""
    now = words_by_figure(talk.session.plan)
    for layer in talk.session.plan.layers:
        figure = layer.buy.id
        if figure in talk.changed and figure in now:
            was = f", was {talk.was[figure]}" if figure in talk.was else ""
            talk.say(f"To buy, {layer.name}: {now[figure]}{was}")


def _upset(talk: Conversation, upset: Upset) -> None:
    """What the answer changed of what was settled already."""
    talk.say(*changed_in_words(each for each in talk.session.changed_steps if each.id in upset.steps))
    waiting = talk.session.upset_places
    behind = [each.title for each in talk.session.questions if each.key in upset.questions and each.key in waiting]
    talk.say(*(f"Asked now too: {each}" for each in behind[:MOST_TOLD]))
    if len(behind) > MOST_TOLD:
        talk.say(f"And {counted(len(behind) - MOST_TOLD, 'question')} more. .look lists them.")
    _figures(talk, upset)


def _figures(talk: Conversation, upset: Upset) -> None:
    """Say how many of the figures that .plan reads have changed, and how many are no longer known."""
    now = words_by_figure(talk.session.plan)
    changed = sum(each in now and now[each] != talk.was.get(each) for each in upset.figures)
    gone = sum(each in talk.was and each not in now for each in upset.figures)
    if changed:
        talk.say(f"Changed: {counted(changed, 'figure')}. .plan says which.")
    if gone:
        talk.say(f"Not known for now: {counted(gone, 'figure')}. .missing lists what is asked for.")


def _ask_again(talk: Conversation, asks: tuple[Finding, ...]) -> None:
    """Stay for once: the answer is saved, and what looks wrong is said."""
    talk.held = asks
    for finding in asks:
        talk.say(f"Look again: {finding.sentence}", f"Way out: {finding.way_out}")
    keep = "" if all(each.level == "stop" for each in asks) else " .keep keeps it as it is."
    others = (talk.session.question(other_of(each, talk.session.at)) for each in asks)
    other = next((f" .other goes to: {each.title}." for each in others if each), "")
    talk.say(f"Saved. Give another answer, or an empty line to go on.{keep}{other}")
