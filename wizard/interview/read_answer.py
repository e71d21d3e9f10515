"""What was typed, as an answer that can be taken, or why it cannot; answers that add something, and what removes it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.interview.answer_text import Given, adds_length, as_typed, barred_by, options, understood
from wizard.interview.job_state import JobState
from wizard.interview.outcome import Refused
from wizard.interview.pages.ask import held
from wizard.interview.pages.bed_pages import kind_named
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.question import Question
from wizard.project.keys import new_id, slug
from wizard.project.parse import read_length
from wizard.project.parse.misread import Misread, quoted
from wizard.project.project import Project, Unfit, put_many
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.figures import value_at
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.formatting import Ruler, exact, ruler_of
from wizard.trade.job_fields import Fixing, Job
from wizard.trade.lengths import Length
from wizard.trade.sections import SIDES

Entries = Mapping[str, object]
"""What goes into the file: key -> value as the file has it; None removes it."""

KIND: Final = "cloth.fixing.kind"
PRICE: Final = "cloth.fixing.price"


def with_cascade(entries: Entries, here: JobState) -> Entries:
    """Entries, with those taken out that mean nothing any more:

    - a stretch of damage that no longer begins has no end either;
    - a price is for one kind of fixing, with how it is sold, and for one unit: another kind or unit has its own.
    """
    begins = [key for key, value in entries.items() if value is None and key.endswith(".damage_from")]
    gone = [key for key in _sold_otherwise(entries, here.plan.job) if key in here.given]
    return {**entries, **dict.fromkeys([*(f"{key.removesuffix('from')}to" for key in begins), *gone])}


def price_words(entries: Entries, here: JobState) -> str:
    """That a price was taken out, for what is said of the answer that did it; empty where none was."""
    gone = next((key for key, value in entries.items() if value is None and key.endswith(".price")), "")
    if not gone or gone not in here.given or len(entries) == 1:
        return ""
    price = f"{here.plan.job.currency or ''}{here.given[gone]}"
    return f"; the price of {price} was for another kind or unit and is removed"


def _sold_otherwise(entries: Entries, job: Job) -> Iterator[str]:
    """Keys that no longer say what they said."""
    fixing = job.cloth.fixing
    for key, value in entries.items():
        if key == KIND and fixing.kind not in (None, value):
            yield from (PRICE, "cloth.fixing.pack", "cloth.fixing.sold_by", "cloth.fixing.step")
        elif key == KIND and fixing.kind is None and _priced_otherwise(value, fixing):
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

    echo: str
    """How it is understood."""
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
    """`text` as an answer to `question`. Empty text takes the usual answer, or leaves an optional one out; what may be
    found out later is left so by that word, or by none where it is not optional."""
    words = text.strip() or question.usual or ""
    if question.later and (words.casefold() == "later" or not (words or question.optional)):
        later = postponed(question, here)
        return ReadAnswer("to find out later", later, put_many(here.project, later))
    if not words and not question.optional:
        return Refused("This answer is needed. Type it, or go on and leave it for later.", question.example)
    barred = barred_by(question, words)
    if barred:
        return Refused(barred, next((each.words for each in options(question) if not each.barred), ""))
    try:
        entries = with_cascade(entries_for(question, words, here), here)
        entries = {**entries, **here.confirmed_by(question.key), **_found_out(question, here)}
        # Of several lengths at once, each of them.
        parts, ruler = lengths_in(words) if adds_length(question) else [words], ruler_of(here.plan.job)
        echo = " + ".join(understood(question, each, ruler)[1] for each in parts) if words else "left empty"
        return ReadAnswer(f"{echo}{price_words(entries, here)}", entries, put_many(here.project, entries))
    except (Misread, Unfit) as wrong:
        if question.kind in ("choice", "choices"):
            return _no_such_line(question, words)
        # What may have been meant, else what is likely at this question, else what does anywhere.
        example = wrong.example if wrong.readings else question.example or wrong.example
        return Refused(wrong.sentence, example, wrong.readings)


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


def _no_such_line(question: Question, words: str) -> Refused:
    """Refuse it by the numbers and words of the list, which are not always those of the file."""
    offered = options(question)
    low = " ".join(words.split()).casefold()
    called = [(each, (each.words.casefold(), each.value.casefold())) for each in offered]
    begun = [f"“{each.words}”" for each, names in called if low and any(name.startswith(low) for name in names)]
    if len(begun) > 1:
        either = " or ".join(begun)
        return Refused(f"Found {quoted(words)}: that may be {either}. Type more of one, or its number.", "2")
    numbers = f"its number, 1 to {len(offered)}, or its first letters"
    several = "; for several, put commas between" if question.kind == "choices" else ""
    return Refused(f"Found {quoted(words)}: that is not one of the choices. Type {numbers}{several}.", offered[0].words)


def further_reading(key: str) -> tuple[str, int] | None:
    """(table of the section, number) of a drop reading, or its place, beyond the three that are always taken."""
    match = re.fullmatch(r"(survey\.section\.[^.]+)\.(?:drop|drop_at)\.([0-9]+)", key)
    return (match[1], int(match[2])) if match and int(match[2]) > LEAST_READINGS else None


def places_before(table: str, job: Job) -> Mapping[str, str]:
    """The places of the readings so far, said outright: one more would otherwise move them."""
    drops = value_at(job, f"{table}.drop") or ()
    run: Length | None = value_at(job, f"{table}.run.1")
    if run is None or len(drops) < 2:
        return {}
    unit, gaps = ruler_of(job).unit, len(drops) - 1
    unsaid = (number for number in range(len(drops)) if value_at(job, f"{table}.drop_at.{number + 1}") is None)
    return {f"{table}.drop_at.{number + 1}": exact(run * Fraction(number, gaps), unit) for number in unsaid}


def without(table: str, number: int, given: Given) -> Mapping[str, object]:
    """A reading and its place taken out, those behind it moved up."""
    return {f"{table}.{leaf}": _left(f"{table}.{leaf}", number, given) for leaf in ("drop", "drop_at")}


def in_order(key: str, text: str, job: Job, given: Given) -> Mapping[str, object]:
    """Every reading in the order of its place, once the place at `key` is `text`; only that while others are unsaid."""
    table, leaf, number = key.rsplit(".", 2)
    drops: tuple[Length | None, ...] = value_at(job, f"{table}.drop") or ()
    texts = {each: given.get(f"{table}.{leaf}.{each}", "") for each in range(1, len(drops) + 1)} | {int(number): text}
    unusable = any(f"{table}.{leaf}.{each}" in job.unusable for each in texts if each != int(number))
    if len(texts) > len(drops) or not all(texts.values()) or unusable:
        return {key: text}
    order = sorted(texts, key=lambda each: read_length(texts[each], None, zero=True))
    return {
        f"{table}.drop": [given.get(f"{table}.drop.{each}", "") for each in order],
        f"{table}.{leaf}": [texts[each] for each in order],
    }


def _left(key: str, number: int, given: Given) -> list[str] | None:
    count = max((int(each.rpartition(".")[2]) for each in given if each.startswith(key + ".")), default=0)
    items = [given.get(f"{key}.{each}", "") for each in range(1, count + 1) if each != number]
    return items or None


_ADDED: Final = re.compile(
    r"(survey\.section\.[^.]+\.in_the_way\.[^.]+"
    r"|cloth\.(?:face|interlining|lining)\.owned\.[^.]+"
    r"|survey\.section\.[^.]+\.drop(?:_at)?\.(?:[4-9]|[1-9][0-9])"
    r"|cloth\.fixing\.legs\.[0-9]+"
    rf"|survey\.section\.(?!(?:{'|'.join(SIDES)})(?:\.|$))[^.]+)(\..*)?"
)
"""What was added by name or as one more reading, with any key inside it."""


def there_already(question: Question, job: Job) -> dict[str, object]:
    """What was added to already, by its id, for a question that adds; what was said not to be wanted is not there."""
    there = value_at(job, question.key) if question.kind == "add" else None
    things = there.items() if isinstance(there, Mapping) else ()
    return {id: each for id, each in things if getattr(each, "on", None) is not False}


def entries_for(question: Question, text: str, here: JobState) -> Entries:
    """What an answer puts into the file. Raises Misread when `text` is no answer of its kind."""
    job, given, key = here.plan.job, here.given, question.key
    ruler, further = ruler_of(job), further_reading(key)
    if question.by_change and _is_usual(question, text, ruler):
        return {each: None for each in question.file_keys if each in given}
    if question.compound:
        return _of_several(question, text, here.project, ruler)
    if question.kind == "add":
        return _new_table(question, text, job, ruler)
    if key.endswith((".left_post", ".right_post")) and text:
        return {key: slug(text, "post")}
    if further and not text:
        return without(*further, given)
    if not text and question.kind != "choices":
        return {key: None}
    value, _ = understood(question, text, ruler)
    if re.fullmatch(r"survey\.section\.[^.]+\.drop_at\.[0-9]+", key):
        return in_order(key, str(value), job, given)
    return {**(places_before(further[0], job) if further and key not in given else {}), key: value}


def _is_usual(question: Question, text: str, ruler: Ruler) -> bool:
    """True for an answer that says what holds anyway."""
    given, usual = (understood(question, each, ruler)[1] if each else "" for each in (text, question.usual))
    return not text or given == usual


def _of_several(question: Question, text: str, here: Project, ruler: Ruler) -> Entries:
    """What one answer puts at several keys."""
    if not text:
        return dict.fromkeys(question.keys)
    value, _ = understood(question, text, ruler)
    if question.compound == "same" and as_typed(value) == question.answer:
        # Taken as it is: what was set on its own stays so.
        return {}
    return COMPOUNDS[question.compound].entries(question.keys, value, here)


def taken_out(key: str, given: Given) -> Entries | None:
    """Entries that remove the added thing that `key` is part of; None when it is part of none."""
    table, further = removable(key, given), further_reading(key)
    if table is None:
        return None
    return without(*further, given) if further else {table: None}


def removable(key: str, given: Given) -> str | None:
    """The key of the added thing that `key` is part of; None for what was not added, or is not there yet."""
    match, further = _ADDED.fullmatch(key), further_reading(key)
    if match is None:
        return None
    # A reading and its place are there together.
    there = [f"{further[0]}.{leaf}.{further[1]}" for leaf in ("drop", "drop_at")] if further else [match[1]]
    return match[1] if any(each in given for each in there) else None


def _new_table(question: Question, text: str, job: Job, ruler: Ruler) -> Entries:
    if not text:
        return {}
    taken, entries = dict(value_at(job, question.key) or {}), dict[str, object]()
    if adds_length(question):
        for each in lengths_in(text):
            taken[id := new_id("length", taken, "length")] = None
            entries[f"{question.key}.{id}.length"], _ = understood(question, each, ruler)
        return entries
    if question.key == "survey.section":
        new = f"{question.key}.{new_id(text, {*taken, *SIDES}, 'section')}"
        return {f"{new}.on": True, f"{new}.name": understood(question, text, ruler)[0]}
    for each in re.split(r"\s*\+\s*", text):
        if re.fullmatch(r"[\d\s.,/]*", each):
            raise Misread(f"{quoted(each)} does not say what it is. You measure it on a page of its own.", "centre leg")
        taken[id := new_id(each, taken, "thing")] = None
        kind = kind_named(each)
        entries[f"{question.key}.{id}.name"], _ = understood(question, each, ruler)
        entries |= {f"{question.key}.{id}.kind": kind} if kind else {}
    return entries


def lengths_in(text: str) -> list[str]:
    """The lengths in an answer that adds some: `4 1/2 yd + 3 yd` is two."""
    return [each for each in re.split(r"\s*(?:[+;]|\band\b)\s*", text.strip()) if each]
