"""What was typed, as an answer that can be taken, or why it cannot."""

from __future__ import annotations

from msgspec import Struct

from wizard.project.parse.misread import Misread, quoted
from wizard.project.project import Project, Unfit, put_many
from wizard.questions.adding import Entries, entries_for
from wizard.questions.answers import barred_by, options, said
from wizard.questions.outcome import Echo, Refused
from wizard.questions.question import Question
from wizard.questions.standing import Standing
from wizard.questions.together import price_words, taken_together
from wizard.trade.formatting import ruler_of


class Understood(Struct, frozen=True):
    """An answer that can be taken."""

    echo: Echo
    entries: Entries
    draft: Project
    """The draft with the answer in it."""


def answer_at(key: str, text: str, here: Standing) -> Understood | Refused:
    """`text` as an answer to the question at `key`, if one is asked there."""
    question = here.by_key.get(key)
    if question is None:
        return Refused(f"Nothing is asked at {quoted(key)} as the job stands.", "survey.section.left.run.1")
    return understood(question, text, here)


def understood(question: Question, text: str, here: Standing) -> Understood | Refused:
    """`text` as an answer to `question`. Empty text takes the usual answer, or leaves an optional one out."""
    words, job = text.strip() or question.usual or "", here.plan.job
    if not words and not question.optional:
        return Refused("This one is needed: answer it, or go on and leave it for later.", question.example)
    barred = barred_by(question, words)
    if barred:
        return Refused(barred, next((each.words for each in options(question) if not each.barred), ""))
    try:
        entries = taken_together(entries_for(question, words, job, here.given), here.given, job)
        echo = said(question, words, ruler_of(job)) if words else "left empty"
        gone = price_words(entries, here.given, job)
        return Understood(Echo(f"{echo}{gone}"), entries, put_many(here.draft, entries))
    except Misread as misread:
        return Refused(misread.sentence, _example(question, misread.example, misread.readings), misread.readings)
    except Unfit as unfit:
        if question.kind in ("choice", "choices"):
            return _no_such_line(question, words)
        return Refused(unfit.sentence, _example(question, unfit.example, unfit.readings), unfit.readings)


def _example(question: Question, usual: str, readings: tuple[str, ...]) -> str:
    """What would do: what may have been meant, else what is likely at this question, else what does anywhere."""
    return usual if readings else question.example or usual


def _no_such_line(question: Question, words: str) -> Refused:
    """The lines are told apart by their numbers and words as they stand there, not by what the file calls them."""
    offered = options(question)
    low = " ".join(words.split()).casefold()
    called = [(each, (each.words.casefold(), each.value.casefold())) for each in offered]
    begun = [f"“{each.words}”" for each, names in called if low and any(name.startswith(low) for name in names)]
    if len(begun) > 1:
        either = " or ".join(begun)
        return Refused(f"Found {quoted(words)}: that may be {either}. Type more of one, or its number.", "2")
    numbers = f"its number, 1 to {len(offered)}, or how it begins"
    several = "; of several with commas between" if question.kind == "choices" else ""
    return Refused(f"Found {quoted(words)}: no line here is called so. Give {numbers}{several}.", offered[0].words)
