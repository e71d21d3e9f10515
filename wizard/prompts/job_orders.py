"""Everything that can be done in a job besides answering: going about, second thoughts, and the table of all orders."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import Final

from wizard.interview.file_state import COMMENTS
from wizard.interview.job_state import STATE_WORDS, is_done, next_step, place_of
from wizard.interview.outcome import Conflict, Refused, why_not_kept
from wizard.interview.page import Page
from wizard.interview.pages.texts import how_to_type
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.prompts import work_steps
from wizard.prompts.console import (
    HELP,
    Do,
    Interrupted,
    Order,
    answer_in,
    called,
    help_line,
    meant,
    numbered,
    order_in,
    said,
    spoken_length,
)
from wizard.prompts.conversation import (
    Conversation,
    Ending,
    at_page,
    at_question,
    file,
    parting,
    saved,
    sheets,
    template,
)
from wizard.prompts.page_walk import (
    announce,
    aside,
    give,
    go_on,
    goes_to,
    later,
    next_,
    prompt,
    same,
    shown_in,
    take_answer,
    usual,
    would_take,
)
from wizard.prompts.plan_reading import READINGS, plan, why
from wizard.render.figure_text import LEVELS
from wizard.trade.formatting import counted
from wizard.trade.plan_records import Finding

STAY: Final = "Number, or Enter to stay here:"


def _words(session: Session, key: str) -> str:
    """A question or step with its state."""
    question, step = session.question(key), next((each for each in session.steps if place_of(each) == key), None)
    if step is not None:
        look = "please check, changed since you ticked it; " if key in session.upset_places else ""
        return f"{step.title}: {look}{'ticked' if is_done(session.project, step.id) else 'not done'}"
    look = "please check, changed by another answer; " if key in session.upset_places else ""
    return f"{question.title}: {look}{STATE_WORDS[session.state(key)]}" if question else key


def _choose(talk: Conversation, keys: Sequence[str], otherwise: str) -> None:
    """Go to one of several questions and steps; the only one at once."""
    if not keys:
        talk.say(otherwise)
        return
    talk.say(f"{counted(len(keys), 'place')}:")
    picked = talk.lines.choose(STAY, [_words(talk.session, each) for each in keys])
    if picked is not None:
        _to(talk, keys[picked])


def _to(talk: Conversation, key: str) -> bool:
    there = talk.session.go(key)
    if there:
        talk.arrive()
    return there


def go(talk: Conversation, wanted: str) -> None:
    """Go anywhere: by the number of a page, words of a title, or the key in the file; alone, list the pages."""
    session, words = talk.session, wanted.casefold()
    pages = [each for each in session.pages if each.shown]
    page = numbered(wanted, len(pages))
    if not wanted:
        page = talk.lines.choose(STAY, [f"{each.stage}: {each.title}" for each in pages])
    if page is not None:
        _to(talk, pages[page].fields[0].key)
    elif wanted and not _to(talk, wanted):
        each_word = words.split()
        on_page = (each.key for each in session.questions if all(word in each.group.casefold() for word in each_word))
        found = _called(session, [words]) or _called(session, each_word) or [*on_page]
        if not (len(found) == 1 and _to(talk, found[0])):
            _choose(talk, found, said("not called", wanted))


def _called(session: Session, words: Sequence[str]) -> list[str]:
    places = [*(each.key for each in session.questions), *(place_of(each) for each in session.steps)]
    return [each for each in places if all(word in _words(session, each).casefold() for word in words)]


def missing(talk: Conversation, _: str) -> None:
    """List the answers that are missing; go to one."""
    keys = [each.key for each in talk.session.missing()]
    _choose(talk, keys, f"No answer is missing. Next: {talk.session.next_action()}")


def look(talk: Conversation, _: str) -> None:
    """List what to check again after other answers; go to one."""
    _choose(talk, talk.session.upset_places, "There is nothing to check again.")


def ways(talk: Conversation, _: str) -> None:
    """Go to the ways of cutting, and compare them."""
    talk.page = ""
    if talk.session.question("ways.face") is None or not _to(talk, "ways.face"):
        talk.say("There is no cloth to cut yet.")


def work(talk: Conversation, _: str) -> None:
    """Go to the first step that has changed since it was ticked, else to the first that is not ticked."""
    step = (
        talk.session.first_changed()
        or next_step(talk.session.project, talk.session.steps)
        or next(iter(talk.session.steps), None)
    )
    if step is None or not _to(talk, place_of(step)):
        talk.say(said("no steps"), f"Next: {talk.session.next_action()}")


@at_page
def more(talk: Conversation, page: Page, _: str) -> None:
    """List what else can be answered on this page; go to one, and come back after it."""
    fields = aside(page)
    shown = [f"{each.called}: {shown_in(talk.session, each) or 'none'}" for each in fields]
    talk.say("" if fields else "There is nothing more on this page.")
    if fields and (picked := talk.lines.choose(STAY, shown)) is not None:
        talk.aside = talk.aside if talk.session.current() in fields else talk.session.at
        _to(talk, fields[picked].key)


def again(talk: Conversation, _: str) -> None:
    """Read the page, or the step, again."""
    talk.moved, talk.page = True, ""


def back(talk: Conversation, _: str) -> None:
    """Go to the page before, or the step before."""
    _moved(talk, talk.session.previous_page())


def up(talk: Conversation, _: str) -> None:
    """Go to the question before."""
    _moved(talk, talk.session.back())


def _moved(talk: Conversation, moved: bool) -> None:
    talk.arrive() if moved else talk.say("This is the first page.")


def undo(talk: Conversation, _: str) -> None:
    """Undo the last change."""
    _turned(talk, talk.session.undo(), "Undone", "Nothing to undo since you opened this project.")


def redo(talk: Conversation, _: str) -> None:
    """Repeat the change that was undone."""
    _turned(talk, talk.session.redo(), "Redone", "There is nothing to redo.")


def _turned(talk: Conversation, done: bool, said: str, otherwise: str) -> None:
    if done:
        talk.say(f"{said}: {talk.session.turned_words()}.")
        talk.before = None
        talk.arrive()
    else:
        saved(talk, talk.session.file.conflict, otherwise)


def findings(talk: Conversation, _: str) -> None:
    """List what looks wrong, with what to do; go to the answer that settles one."""
    found = talk.session.plan.findings
    for number, each in enumerate(found, 1):
        talk.say(f"{number}. {'Kept' if each.kept else LEVELS[each.level]}: {each.sentence}")
        talk.say(f"What to do: {each.way_out}" if each.way_out else "")
    talk.say("“keep” and its number keeps one as it is." if found else "Nothing looks wrong.")
    picked = talk.lines.pick(STAY, len(found)) if found else None
    if picked is not None and not _to(talk, found[picked].key):
        talk.say("This job does not ask that.")


def keep(talk: Conversation, number: str) -> None:
    """Keep what looks wrong as it is, or ask about it again: what was just read, or its number in the list."""
    found, session = talk.session.plan.findings, talk.session
    picked = numbered(number, len(found))
    chosen = talk.held if not number else () if picked is None else (found[picked],)
    done = [each for each in chosen if _turned_over(talk, each, session.unkeep if each.kept else session.keep)]
    if not chosen:
        talk.say(said("keep which"))
    elif not number and len(done) == len(chosen):
        go_on(talk)


def _turned_over(talk: Conversation, finding: Finding, change: Callable[[str], Conflict | None]) -> bool:
    if finding.level == "stop" and not finding.kept:
        talk.say(why_not_kept(finding))
        return False
    return saved(talk, change(finding.id), f"{'Asked again' if finding.kept else 'Kept'}: {finding.sentence}")


def other(talk: Conversation, _: str) -> None:
    """Go to the other answer, where two do not fit each other."""
    there = next(goes_to(talk), None)
    if there is None or not _to(talk, there.key):
        talk.say(said("no other"))


def remove(talk: Conversation, _: str) -> None:
    """Remove what was added and is asked about here."""
    if talk.session.removable(talk.session.at) is None:
        talk.say(said("not added"))
    elif saved(talk, talk.session.remove(talk.session.at), "Removed. “undo” brings it back."):
        talk.arrive()


@at_question
def take(talk: Conversation, question: Question, number: str) -> None:
    """Take the offered answer with that number."""
    offer = numbered(number, len(talk.offers))
    taken = None if offer is None else talk.offers[offer]
    if taken is None:
        talk.say("There is no offer with that number." if talk.offers else "Nothing is offered here.")
    elif isinstance(taken, str):
        give(talk, question, taken)
    elif saved(talk, talk.session.choose(taken.entries), f"{taken.label}: done. “undo” undoes it."):
        talk.arrive()


@at_question
def empty(talk: Conversation, question: Question, _: str) -> None:
    """Remove the answer: the usual one is used, or the question is left open."""
    give(talk, question, "")


@at_question
def try_(talk: Conversation, question: Question, text: str) -> None:
    """Say how an answer would be understood, without saving it."""
    echo = talk.session.echo(question.key, text)
    if isinstance(echo, Refused):
        talk.say(f"It would not be accepted: {echo.sentence}")
    else:
        talk.say(f"It would be: {spoken_length(echo)}")


def projects(talk: Conversation, _: str) -> None:
    """Go back to the list of projects."""
    talk.ending = "list"


def quit_(talk: Conversation, _: str) -> None:
    """Leave. Every answer is already saved."""
    talk.ending = "leave"


def help_(talk: Conversation, name: str) -> None:
    """Say how to answer and list every command; with a command, say what it does."""
    question = talk.session.current()
    if name in (HELP, ""):
        kind = question.kind if question else "add"
        typed = how_to_type(kind, metric=talk.session.project.is_metric) or said(f"answer {kind}")
        talk.say(*((question.how, typed) if question else (said("how"),)))
        listed = (line for group, orders in GROUPS.items() for line in (f"{group}:", *map(help_line, orders)))
        talk.say(*(said("orders"),) if name else (said("about"), *listed))
    else:
        found = meant(ORDERS, name.lstrip(".").casefold())
        talk.say(found if isinstance(found, str) else help_line(found))


GROUPS: Final[dict[str, tuple[Do[Conversation], ...]]] = {
    "Moving around": (help_, back, up, again, next_, later, more, go, missing, look),
    "Answers": (usual, same, undo, redo, try_, take, empty, findings, keep, other, remove),
    "Reading": (plan, why, *READINGS, ways),
    "The work": (work, work_steps.note, work_steps.untick, work_steps.time, work_steps.hours),
    "The job and its file": (file, sheets, template, projects, quit_),
}
ORDERS: Final = tuple(each for group in GROUPS.values() for each in group)
"""In the order of the help."""
NAMES: Final = frozenset(called(each) for each in ORDERS)


def converse(talk: Conversation) -> Ending:
    """Go through a job until it is left. InputEnded and KeyboardInterrupt leave it as orderly as `quit` does. Before
    comments would be taken out it asks."""
    talk.lines.names = NAMES
    try:
        talk.say(f"Job: {talk.session.project.name or 'no name yet'}", *talk.session.resumed())
        if talk.session.file.comments:
            talk.say(COMMENTS)
            prompt_, *ways = said("comments").split("|")
            talk.ending = "list"
            with suppress(Interrupted):
                talk.ending = None if talk.lines.choose(prompt_, ways) == 0 else "list"
        while talk.ending is None:
            question = talk.session.current()
            if talk.moved:
                work_steps.announce_step(talk) if question is None else announce(talk)
            with suppress(Interrupted):
                take_line(talk, talk.lines.ask("Done?" if question is None else prompt(talk, question)))
            talk.say(*talk.session.file.remarks())
        return talk.ending
    finally:
        parting(talk)


def take_line(talk: Conversation, line: str) -> None:
    """One line that was typed: an order, an answer, or a tick."""
    question, step = talk.session.current(), talk.session.current_step()
    order = order_in(line) or _bare_order(talk, line)
    if order is not None:
        talk.lines.carry_out(order, ORDERS, talk)
    elif question is not None:
        take_answer(talk, question, answer_in(line))
    elif step is not None:
        work_steps.take_at_step(talk, step, answer_in(line))


def _bare_order(talk: Conversation, line: str) -> Order | None:
    """The order in a line without a full stop, where the question would not take the line as its answer. A thing that
    is added may be called `file cabinet`, but not `file`, nor `go` and anything."""
    order, question = order_in(line, NAMES), talk.session.current()
    adds = question is not None and question.kind == "add" and order is not None and (order[0] == "go" or not order[1])
    return order if question is None or adds or not would_take(talk.session, question, line) else None
