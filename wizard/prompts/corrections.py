"""Second thoughts: undo and redo, what looks wrong, taking out, an offer taken, an answer only tried."""

from __future__ import annotations

from typing import Final

from wizard.interview.outcome import Refused
from wizard.interview.pending_review import LEVELS, other_of, why_not_kept
from wizard.interview.question import Question
from wizard.interview.session_words import turned_words
from wizard.prompts.console import numbered
from wizard.prompts.conversation import Conversation, not_saved
from wizard.prompts.speech import spoken_length
from wizard.prompts.take_answer import give, go_on
from wizard.trade.field_names import in_words
from wizard.trade.plan_records import Finding

WHICH: Final = "Number of one, or an empty line:"


def undo(talk: Conversation, _: str) -> None:
    """Take the last change back."""
    _turned(talk, talk.session.undo(), "Taken back", "There is nothing to take back.")


def redo(talk: Conversation, _: str) -> None:
    """Make again the change that was taken back."""
    _turned(talk, talk.session.redo(), "Given again", "There is nothing to give again.")


def findings(talk: Conversation, _: str) -> None:
    """What looks wrong, with the way out; each can be gone to, kept, or asked about again."""
    found = talk.session.plan.findings
    if not found:
        talk.say("Nothing looks wrong.")
        return
    for number, each in enumerate(found, 1):
        talk.say(f"{number}. {'Kept' if each.kept else LEVELS[each.level]}: {each.sentence}")
        if each.way_out:
            talk.say(f"Way out: {each.way_out}")
    picked = talk.lines.pick(WHICH, len(found))
    if picked is not None:
        _mend(talk, found[picked])


def keep(talk: Conversation, number: str) -> None:
    """Keep what was just said to look wrong, or a finding by its number in the list, as it is."""
    if number or not talk.held:
        _keep_one(talk, number)
        return
    going_on = True
    for each in talk.held:
        if each.level == "stop":
            talk.say(why_not_kept(each))
            going_on = False
        elif not_saved(talk, talk.session.keep(each.id)):
            return
        else:
            talk.say(f"Kept: {each.sentence}")
    if going_on:
        go_on(talk)


def remove(talk: Conversation, _: str) -> None:
    """Take out what was added here."""
    if talk.session.removable(talk.session.at) is None:
        talk.say("Nothing here was added: only added sections, things, lengths and readings can be taken out.")
    elif not not_saved(talk, talk.session.remove(talk.session.at)):
        talk.say("Taken out. .undo brings it back.")
        talk.arrive()


def take(talk: Conversation, number: str) -> None:
    """Give one of the answers that were offered."""
    question = _asked(talk)
    if question is None:
        return
    offer = numbered(number, len(talk.offers))
    if offer is not None:
        give(talk, question, talk.offers[offer])
    else:
        talk.say("There is no such offer." if talk.offers else "Nothing is offered here.")


def empty(talk: Conversation, _: str) -> None:
    """Answer with nothing: the usual answer holds, or the question is left open."""
    question = _asked(talk)
    if question is not None:
        give(talk, question, "")


def attempt(talk: Conversation, text: str) -> None:
    """Say how an answer would be understood; nothing is saved."""
    question = _asked(talk)
    if question is None:
        return
    echo = talk.session.echo(question.key, text)
    if isinstance(echo, Refused):
        talk.say(f"It would not be taken: {echo.sentence}")
    else:
        talk.say(f"It would be: {spoken_length(echo.text)}")


def _asked(talk: Conversation) -> Question | None:
    question = talk.session.current()
    if question is None:
        talk.say("No question is in hand: this is a step of the work.")
    return question


def _turned(talk: Conversation, done: bool, said: str, otherwise: str) -> None:
    if done:
        talk.say(f"{said}: {turned_words(talk.session)}.")
        talk.changed, talk.was = (), {}
        talk.arrive()
    elif not not_saved(talk, talk.session.file.conflict):
        talk.say(otherwise)


def _keep_one(talk: Conversation, number: str) -> None:
    found = talk.session.plan.findings
    picked = numbered(number, len(found))
    if picked is not None:
        _turn(talk, found[picked])
    else:
        talk.say("Say which: .keep and a number of the list that .findings reads.")


def _mend(talk: Conversation, finding: Finding) -> None:
    keys = [key for key in (finding.key, finding.other) if key]
    turn = "Ask about it again." if finding.kept else "Keep it as it is."
    ways = [*(f"Go to: {_title(talk, key)}" for key in keys), *([] if finding.level == "stop" else [turn])]
    picked = talk.lines.choose("Number, or an empty line to leave it:", ways)
    if picked is None:
        return
    if picked == len(keys):
        _turn(talk, finding)
    elif talk.session.go(keys[picked]):
        talk.arrive()
    else:
        talk.say("That is not asked as the job stands.")


def _title(talk: Conversation, key: str) -> str:
    question = talk.session.question(key)
    return question.title if question else in_words(key, talk.session.plan.job)


def other(talk: Conversation, _: str) -> None:
    """Go to the answer that the last one was held against."""
    keys = (other_of(each, talk.session.at) for each in talk.held or talk.session.plan.findings)
    found = next((key for key in keys if key and talk.session.question(key)), "")
    if found:
        talk.session.go(found)
        talk.arrive()
    else:
        talk.say("What looks wrong here is held against no other answer. .findings lists all there is.")


def _turn(talk: Conversation, finding: Finding) -> None:
    """Keep an open finding; ask about a kept one again."""
    if finding.level == "stop" and not finding.kept:
        talk.say(why_not_kept(finding))
        return
    change = talk.session.unkeep if finding.kept else talk.session.keep
    if not not_saved(talk, change(finding.id)):
        talk.say(f"{'Asked again' if finding.kept else 'Kept'}: {finding.sentence}")
