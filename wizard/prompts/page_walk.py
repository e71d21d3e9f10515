"""Walking the pages of the interview: a page read out once, its fields asked in order, what is typed taken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from wizard.interview.answer_text import NONE, answer_of, given_by, options, picked, words_for
from wizard.interview.outcome import Accepted, Conflict, Refused, Upset, other_of
from wizard.interview.page import Page
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.progress import ANSWER
from wizard.interview.question import Question
from wizard.interview.read_answer import there_already
from wizard.interview.session import Session
from wizard.project.finished_steps import changed_in_words
from wizard.project.project import put_many
from wizard.prompts.console import said, spoken_length
from wizard.prompts.conversation import Conversation, at_page, at_question, saved
from wizard.prompts.drawing_words import drawing_lines
from wizard.prompts.plan_reading import changed_words, words_by_name
from wizard.render.figure_text import LEVELS
from wizard.render.plan_rows import rows
from wizard.trade.compare_ways import offers_of_ways
from wizard.trade.field_names import first_up
from wizard.trade.first_figures import line_text, plan_line
from wizard.trade.formatting import counted, exact, ruler_of
from wizard.trade.fullness_offers import offer_words, offers_of_fullness
from wizard.trade.plan_records import Finding, Offer, Offers, Plan
from wizard.trade.sections import SIDES

MOST_TOLD: Final = 3
"""Most questions named one by one that an answer brought up on a page behind."""


def announce(talk: Conversation) -> None:
    """Read out the page in hand, once, and its question."""
    page, question = talk.session.page(), talk.session.current()
    talk.moved = False
    if page is not None and talk.page != page.id:
        talk.page = page.id
        talk.tables.clear()
        talk.lines.put([""])
        talk.say(*_page_lines(talk, page))
    if question is not None:
        if question.live and question.key not in talk.tables:
            talk.say(*_offer_lines(talk, question))
        talk.say(*_question_lines(talk, question))


def _page_lines(talk: Conversation, page: Page) -> Iterator[str]:
    """How far it is, its title, its sentences and its drawing, then what takes it as a whole and what else is on it."""
    session, position = talk.session, talk.session.position()
    yield f"Page {position.number} of about {position.of}. {page.stage}: {page.title}"
    # The key that the screens take a page with is a word here.
    yield page.words.replace("F8", "“usual”")
    yield from drawing_lines(session.plan, page)
    yield f"{page.copy.words}? “same” copies its answers." if page.copy else ""
    yield _usual_offer(session, page)
    yield said("more", counted(len(aside(page)), "answer")) if aside(page) else ""
    if waiting := len(session.upset_places):
        yield from talk.once(said("look", waiting))
    yield from talk.once(said("enter"))


def _usual_offer(session: Session, page: Page) -> str:
    """That the whole page can be taken, where every field is answered or has a usual answer."""
    fields = [each for each in page.fields if not each.extra]
    asked = (each for each in fields if each.usual is None and each.kind != "add")
    if len(fields) < 2 or any(session.state(each.key) == "missing" for each in asked):
        return ""
    if all(each.usual is None or session.state(each.key) == "answered" for each in fields):
        return said("answered", _listed(session, fields))
    return said("usual", _listed(session, fields))


def _listed(session: Session, fields: list[Question]) -> str:
    """`rail: solid wood; slats: no`."""
    return "; ".join(f"{each.called}: {text}" for each in fields if (text := shown_in(session, each)))


def shown_in(session: Session, question: Question) -> str:
    """What Enter takes at a question: its answer, else its usual one, in words; empty where there is none."""
    if question.kind == "add":
        return ", ".join(_there(session, question))
    answered = session.state(question.key) == "answered"
    text = answer_of(question, given_by(session.project)) if answered else question.usual
    offered = options(question)
    if text is None or not offered:
        return text or ""
    values = text.split(", ") if question.kind == "choices" else [text]
    return ", ".join(words_for(offered, each).partition(":")[0] for each in values if each) or NONE


def _there(session: Session, question: Question) -> Iterator[str]:
    """What was added already, for the question that adds."""
    unit = ruler_of(session.plan.job).unit
    for key, each in there_already(question, session.plan.job).items():
        length = getattr(each, "length", None)
        if key not in SIDES:
            yield getattr(each, "name", None) or (exact(length, unit) if length else key)


def prompt(talk: Conversation, question: Question) -> str:
    """`Run at the rail [76 5/8 in]:`; in brackets is what an empty line takes."""
    shown, adds = shown_in(talk.session, question), question.kind == "add"
    if adds:
        shown = "no more" if shown else "none"
    elif shown and talk.session.state(question.key) != "answered":
        shown = f"usual: {shown}"
    elif not shown:
        shown = "find out later" if question.later else "none" if question.optional else ""
    return f"{first_up(question.called)}{f' [{shown}]' if shown else ''}:"


def _question_lines(talk: Conversation, question: Question) -> Iterator[str]:
    """The question, its choices, what looks wrong at it, what was typed before."""
    session, typed = talk.session, talk.session.pending.get(question.key)
    talk.offers = (typed,) if typed and not options(question) else ()
    yield f"Typed before, not entered: {typed}. “take 1” enters it." if talk.offers else ""
    yield question.words
    if question.kind == "add" and (there := shown_in(session, question)):
        yield f"Already here: {there}"
    rows = _offered(session, question, talk.tables[question.key]) if question.live else {}
    for number, choice in enumerate(options(question), 1):
        figures = rows.get(choice.value)
        yield f"{number}. {first_up(choice.short if figures else choice.words)}{f': {figures}' if figures else ''}"
    yield from talk.once(said("commas")) if question.kind == "choices" else ()
    yield from talk.once(said("dots")) if question.kind == "text" and would_take(session, question, "back") else ()
    yield said("may be later") if question.later else ""
    here = (each for each in session.plan.findings if each.key in question.file_keys and not each.kept)
    yield from _findings(talk, [each for each in here if each not in talk.held])


def _offer_lines(talk: Conversation, question: Question) -> Iterator[str]:
    """The rows worked out for a list, the recommended one named first. Those of a list without choices have no number:
    what is typed there is a number itself."""
    plan, full = talk.best_plan(), question.compound == "fullness"
    *_, table = offers_of_fullness(plan) if full else offers_of_ways(plan, plan.layers[0])
    talk.tables[question.key] = table
    yield table.waits
    yield offer_words(plan) if full else ""
    best = next((each for each in table.rows if each.recommended), None)
    yield f"Recommended: {best.name}. {table.reason}" if best else ""
    choices = {each.value for each in options(question)}
    rows = _offered(talk.session, question, table)
    yield from (f"{first_up(name)}: {words}" for name, words in rows.items() if name not in choices)


def _offered(session: Session, question: Question, table: Offers) -> Mapping[str, str]:
    """Answer -> what it takes and how it looks, for each row of a table."""
    found = COMPOUNDS[question.compound]
    return {
        found.read(question.keys, put_many(session.project, dict(row.entries))) or "": _row_words(row, table)
        for row in table.rows
    }


def _row_words(row: Offer, table: Offers) -> str:
    cells = [f"{head} {cell}" for head, cell in zip(table.heads[1:], row.cells[1:], strict=True) if cell]
    marks = ["in use"] * row.in_use + ["recommended"] * row.recommended
    return f"{', '.join(each for each in (*cells, row.note, *marks) if each)}. {row.said}".rstrip()


def would_take(session: Session, question: Question, text: str) -> bool:
    """True where a question would take a text as its answer, so that it is no order there."""
    offered = {each.value for each in options(question)}
    if offered:
        return all(picked(question, each.strip()) in offered for each in text.split(","))
    return not (question.later and text == "later") and not isinstance(session.echo(question.key, text), Refused)


def take_answer(talk: Conversation, question: Question, text: str) -> None:
    """What was typed at a question. An empty line keeps the answer there is, else takes the usual one; where there is
    none it says so once, then leaves the question open."""
    answered = question.kind != "add" and talk.session.state(question.key) == "answered"
    if not text and (talk.held or answered):
        go_on(talk)
    elif text or question.usual is not None or question.optional or question.later:
        give(talk, question, text)
    elif not talk.once(question.key):
        later(talk, "")
    else:
        talk.say(said("needed", question.example), said("open for now"))


@at_question
def later(talk: Conversation, question: Question, _: str) -> None:
    """Leave the question open, to find out later. Text that was refused there is dropped."""
    talk.session.pending.pop(question.key, None)
    says = said("left for later" if question.later else "left open")
    if talk.session.state(question.key) != "missing" or saved(talk, talk.session.postpone(), says):
        go_on(talk)


def next_(talk: Conversation, text: str) -> None:
    """Go on without answering."""
    go_on(talk) if talk.session.current() is None else later(talk, text)


def give(talk: Conversation, question: Question, text: str) -> None:
    """Give an answer, and go on when nothing looks wrong."""
    before, outcome = talk.session.plan, talk.session.answer(question.key, text)
    talk.held, talk.offers = (), ()
    _taken(talk, before, outcome, "" if isinstance(outcome, Accepted) else text)


@at_page
def usual(talk: Conversation, page: Page, _: str) -> None:
    """Take the whole page: what is answered on it, and the usual answer for the rest."""
    before, outcome = talk.session.plan, talk.session.accept()
    talk.arrive()
    if isinstance(outcome, Accepted):
        fields = [each for each in page.fields if not each.extra]
        now = [each for each in map(talk.session.question, (one.key for one in fields)) if each]
        open_ = [each for each in now if talk.session.state(each.key) == "missing"]
        still = ", ".join(each.called for each in open_)
        taken = _listed(talk.session, [each for each in now if each not in open_])
        talk.say(f"Accepted: {taken}" if taken else "", f"Left open: {still}." if still else "")
    _taken(talk, before, outcome, "")


def _taken(talk: Conversation, before: Plan, outcome: Accepted | Refused | Conflict, text: str) -> None:
    """Say what came of an answer or a page, and go on where nothing is left to say about it."""
    if isinstance(outcome, Conflict):
        saved(talk, outcome)
    elif isinstance(outcome, Refused):
        talk.offers = outcome.offers
        talk.say(f"Not accepted: {outcome.sentence}")
        talk.say(f"For example: {outcome.example}" if outcome.example and not outcome.offers else "")
        talk.say(*(f"“take {number}” gives: {each}" for number, each in enumerate(outcome.offers, 1)))
        talk.say(said("stuck") if text.replace(" ", "").isalpha() else "")
    else:
        talk.say(f"Accepted: {spoken_length(outcome.echo)}" if outcome.echo else "")
        talk.before = words_by_name(before)
        _changed(talk, outcome.upset)
        known = (each for each in outcome.findings if each.level == "note" and _ahead(talk.session, each.key) <= 0)
        talk.say(*_findings(talk, known))
        talk.say(said("alike", outcome.alike) if outcome.alike else "")
        talk.held = outcome.asks
        _ask_again(talk) if talk.held else go_on(talk)


@at_page
def same(talk: Conversation, page: Page, _: str) -> None:
    """Copy the answers of the page that this one names."""
    if page.copy is None:
        talk.say("There is nothing to copy here.")
    elif saved(talk, talk.session.copy(), f"{page.copy.words}: copied. “undo” undoes it."):
        talk.page = ""
        talk.arrive()


def go_on(talk: Conversation) -> None:
    """To the next field; from one behind *More* back to where it was asked for; after the last page, what to buy."""
    session, page, question = talk.session, talk.session.page(), talk.session.current()
    talk.held = ()
    if page and question in aside(page) and talk.aside in {each.key for each in page.fields}:
        session.go(talk.aside)
    elif not session.next():
        following = session.next_action().removeprefix(ANSWER)
        talk.say("This is the end for now.", f"Next: {following}", _still_missing(session))
        return
    if question is not None and session.current() is None:
        bought = (f"To buy, {each.group}: {each.value}" for each in rows(talk.best_plan()) if each.label == "to buy")
        talk.say("The questions are done.", _still_missing(session), *bought, said("read on"))
    talk.arrive()


def _still_missing(session: Session) -> str:
    missing = len(session.missing())
    return said("missing", counted(missing, "answer")) if missing else ""


def aside(page: Page) -> tuple[Question, ...]:
    """What going on passes by: fields that only add, and what is behind *More*."""
    return (*(each for each in page.fields if each.extra), *page.more)


def _ahead(session: Session, key: str) -> int:
    """How many pages on a key is asked for; negative on a page behind, 0 where it is not asked."""
    pages = {each.key: number for number, page in enumerate(session.pages) for each in page.questions}
    question = session.question(key)
    return pages[question.key] - pages.get(session.at, 0) if question else 0


def _changed(talk: Conversation, upset: Upset) -> None:
    """What the answer made known or changed: the plan in a line, finished steps, questions and figures."""
    session, known, page = talk.session, rows(talk.session.plan), talk.session.page()
    line = line_text(plan_line(session.plan, page.subject if page and page.picture == "side" else None))
    talk.say(f"Plan so far: {line}" if line and line != talk.line else "")
    talk.line = line
    talk.say(*changed_in_words(each for each in session.changed_steps if each.id in upset.steps))
    behind = [each for each in session.questions if each.key in upset.questions and _ahead(session, each.key) < 0]
    talk.say(*(f"New question: {each.title}" for each in behind[:MOST_TOLD]))
    others = len(behind[MOST_TOLD:])
    talk.say(said("asked more", counted(others, "question")) if others else "")
    changed = sum(changed_words(talk, row).startswith(", was") for row in known)
    gone = len((talk.before or {}).keys() - words_by_name(session.plan).keys())
    talk.say(said("changed", counted(changed, "figure")) if changed else "")
    talk.say(said("not known", counted(gone, "figure")) if gone else "")


def _findings(talk: Conversation, found: Iterable[Finding]) -> Iterator[str]:
    """What looks wrong, with what helps; what can be taken as it is, and is not asked here anyway, gets a number."""
    question = talk.session.current()
    here = question.file_keys if question else ()
    for finding in found:
        yield f"{LEVELS[finding.level]}: {finding.sentence} {finding.way_out}"
        for each in finding.offers:
            if not {*each.entries} <= {*here}:
                talk.offers = (*talk.offers, each)
                yield f"“take {len(talk.offers)}” does it: {each.label}."


def _ask_again(talk: Conversation) -> None:
    """Stay for once: the answer is saved, and what looks wrong is said."""
    keep = "" if all(each.level == "stop" for each in talk.held) else said("keep")
    there = next(goes_to(talk), None)
    talk.say(*_findings(talk, talk.held), said("saved", f" {keep}").rstrip())
    talk.say(f"“other” goes to: {there.title}." if there else "")


def goes_to(talk: Conversation) -> Iterator[Question]:
    """The questions that what looks wrong is held against, other than the one in hand."""
    keys = (other_of(each, talk.session.current()) for each in talk.held or talk.session.plan.findings)
    return (question for key in keys if key and (question := talk.session.question(key)))
