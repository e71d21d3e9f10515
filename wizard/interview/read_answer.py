"""What was typed, as an answer that can be taken, or why it cannot."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from msgspec import Struct

from wizard.interview.added_entries import Entries, entries_for, lengths_in
from wizard.interview.answer_text import Given, adds_length, barred_by, options, said
from wizard.interview.job_state import JobState
from wizard.interview.outcome import Echo, Refused
from wizard.interview.pages.ask import held
from wizard.interview.question import Question
from wizard.project.parse.misread import Misread, quoted
from wizard.project.project import Project, Unfit, put_many
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Fixing, Job

KIND: Final = "cloth.fixing.kind"
PRICE: Final = "cloth.fixing.price"
OF_A_KIND: Final = (PRICE, "cloth.fixing.pack", "cloth.fixing.sold_by", "cloth.fixing.step")
"""How fixings of one kind are sold."""


def with_cascade(entries: Entries, given: Given, job: Job) -> Entries:
    """Entries, with those taken out that mean nothing any more:

    - a stretch of damage that no longer begins has no end either;
    - a price is for one kind of fixing, with how it is sold, and for one unit: another kind or unit has its own.
    """
    begins = [key for key, value in entries.items() if value is None and key.endswith(".damage_from")]
    ends: Mapping[str, object] = {key.removesuffix("from") + "to": None for key in begins}
    return {**entries, **ends, **{key: None for key in _sold_otherwise(entries, job) if key in given}}


def price_words(entries: Entries, given: Given, job: Job) -> str:
    """That a price was taken out, for what is said of the answer that did it; empty where none was."""
    gone = next((key for key, value in entries.items() if value is None and key.endswith(".price")), "")
    if not gone or gone not in given or len(entries) == 1:
        return ""
    return f"; the price of {job.currency or ''}{given[gone]} was for another kind or unit and is taken out"


def _sold_otherwise(entries: Entries, job: Job) -> Iterator[str]:
    """Keys that no longer say what they said."""
    for key, value in entries.items():
        if key == KIND and job.cloth.fixing.kind not in (None, value):
            yield from OF_A_KIND
        elif key == KIND and job.cloth.fixing.kind is None and _priced_otherwise(value, job.cloth.fixing):
            yield PRICE
        elif key.endswith(".sold_by") and value != held(job, key):
            yield key.removesuffix("sold_by") + "price"


def _priced_otherwise(kind: object, fixing: Fixing) -> bool:
    """True where a template that names no kind has the price of a pack and this is sold by length, or the other way."""
    if kind in IN_A_ROW:
        return fixing.pack is None and fixing.sold_by is not None
    return fixing.pack is not None


class ReadAnswer(Struct, frozen=True):
    """An answer that can be taken."""

    echo: Echo
    entries: Entries
    project: Project
    """The project with the answer in it."""


def answer_at(key: str, text: str, here: JobState) -> ReadAnswer | Refused:
    """`text` as an answer to the question at `key`, if one is asked there."""
    question = here.question(key)
    if question is None:
        return Refused(f"No question of this job is called {quoted(key)}.", "survey.section.left.run.1")
    return read_answer(question, text, here)


def read_answer(question: Question, text: str, here: JobState) -> ReadAnswer | Refused:
    """`text` as an answer to `question`. Empty text takes the usual answer, or leaves an optional one out."""
    words, job = text.strip() or question.usual or "", here.plan.job
    if not words and question.later and not question.optional:
        later = postponed(question, here)
        return ReadAnswer(Echo("to find out later"), later, put_many(here.project, later))
    if not words and not question.optional:
        return Refused("This one is needed: answer it, or go on and leave it for later.", question.example)
    barred = barred_by(question, words)
    if barred:
        return Refused(barred, next((each.words for each in options(question) if not each.barred), ""))
    try:
        entries = with_cascade(entries_for(question, words, here.project, job, here.given), here.given, job)
        entries = {**entries, **here.confirmed_by(question.key), **_found_out(question, here)}
        echo = _echo(question, words, job) if words else "left empty"
        gone = price_words(entries, here.given, job)
        return ReadAnswer(Echo(f"{echo}{gone}"), entries, put_many(here.project, entries))
    except Misread as misread:
        if question.kind in ("choice", "choices"):
            return _no_such_line(question, words)
        return Refused(misread.sentence, _example(question, misread.example, misread.readings), misread.readings)
    except Unfit as unfit:
        if question.kind in ("choice", "choices"):
            return _no_such_line(question, words)
        return Refused(unfit.sentence, _example(question, unfit.example, unfit.readings), unfit.readings)


def postponed(question: Question, here: JobState) -> Entries:
    """What goes into the file to find something out later."""
    keys = (*here.project.progress.later, *question.file_keys)
    return {LATER: list(dict.fromkeys(keys)), **dict.fromkeys(question.file_keys)}


def _found_out(question: Question, here: JobState) -> Entries:
    """The same once it is found out."""
    later = here.project.progress.later
    left = [each for each in later if each not in question.file_keys]
    return {LATER: left or None} if len(left) < len(later) else {}


LATER: Final = "progress.later"


def _echo(question: Question, words: str, job: Job) -> str:
    """How an answer is understood; of several lengths at once, each of them."""
    parts = lengths_in(words) if adds_length(question) else [words]
    return " + ".join(said(question, each, ruler_of(job)) for each in parts)


def _example(question: Question, usual: str, readings: tuple[str, ...]) -> str:
    """What would do: what may have been meant, else what is likely at this question, else what does anywhere."""
    return usual if readings else question.example or usual


def _no_such_line(question: Question, words: str) -> Refused:
    """Refuse it by the numbers and words of the list, which are not always those of the file."""
    offered = options(question)
    low = " ".join(words.split()).casefold()
    called = [(each, (each.words.casefold(), each.value.casefold())) for each in offered]
    begun = [f"“{each.words}”" for each, names in called if low and any(name.startswith(low) for name in names)]
    if len(begun) > 1:
        either = " or ".join(begun)
        return Refused(f"Found {quoted(words)}: that may be {either}. Type more of one, or its number.", "2")
    numbers = f"its number, 1 to {len(offered)}, or how it begins"
    several = "; of several with commas between" if question.kind == "choices" else ""
    return Refused(f"Found {quoted(words)}: that is not one of the choices. Give {numbers}{several}.", offered[0].words)
