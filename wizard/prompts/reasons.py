"""Why a figure is what it is, and what it was worked from, down to what was measured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from wizard.prompts.so_far import rows, so_far_lines
from wizard.prompts.speech import in_lines, spoken_formula, spoken_length
from wizard.prompts.talk import Talk
from wizard.trade.explain import why
from wizard.trade.figures import Figure
from wizard.trade.formatting import ruler_of

Figures = tuple[Figure[Any], ...]
UP = "Number of one for its why, or an empty line to go back up:"
OUT = "Number of one for its why, or an empty line:"


def ask_why(talk: Talk, wanted: str) -> None:
    """The why of a figure: by its number in the plan so far, by words of its title, or picked from the list."""
    plan = talk.best_plan()
    listed = [plan.figures.get(each.figure or "") for each in rows(plan)]
    if wanted.isdecimal() and len(wanted) < 5:
        figure = listed[int(wanted) - 1] if 1 <= int(wanted) <= len(listed) else None
        _explain(talk, figure) if figure else talk.say(f"No figure has the number {wanted}. .plan lists them.")
    elif wanted:
        _search(talk, wanted)
    elif listed:
        talk.say(*so_far_lines(plan, talk.changed, talk.was))
        _pick(talk, tuple(listed), OUT)
    else:
        talk.say("Nothing is known yet.")


def _search(talk: Talk, wanted: str) -> None:
    words = wanted.casefold().split()
    every = talk.session.plan.figures.values()
    found = tuple(each for each in every if all(word in f"{each.title} {each.id}".casefold() for word in words))
    if not found:
        talk.say(f"No figure is called “{wanted}”. .plan lists them.")
    elif len(found) == 1:
        _explain(talk, found[0])
    else:
        talk.lines.put(_numbered(talk, found))
        _pick(talk, found, OUT)


def _pick(talk: Talk, figures: tuple[Figure[Any] | None, ...], words: str) -> None:
    picked = talk.lines.pick(words, len(figures))
    if picked is not None:
        figure = figures[picked]
        _explain(talk, figure) if figure else talk.say("This one is counted, not worked: .cut reads it.")


def _explain(talk: Talk, figure: Figure[Any]) -> None:
    """The reason, then deeper for as long as one asks; an empty line goes back up."""
    path, fresh = [figure], True
    while path and not talk.lines.waiting:
        talk.lines.put(_reason(talk, path[-1]) if fresh else in_lines(f"Back at: {path[-1].title}", talk.lines.columns))
        inputs = tuple(each for _, each in path[-1].inputs)
        picked = talk.lines.pick(UP if len(path) > 1 else OUT, len(inputs)) if inputs else None
        fresh = picked is not None
        path = path[:-1] if picked is None else [*path, inputs[picked]]


def _reason(talk: Talk, figure: Figure[Any]) -> Iterator[str]:
    told = why(figure, ruler_of(talk.session.plan.job))
    columns = talk.lines.columns
    yield from in_lines(f"Why: {told.title}", columns)
    yield from in_lines(f"It is: {spoken_length(told.result)}", columns)
    if figure.inputs:
        yield from in_lines(f"Formula: {spoken_formula(told.formula)}", columns)
        yield from in_lines(f"With figures: {spoken_formula(told.values)}", columns)
    yield from in_lines(f"Rule: {told.says}", columns)
    yield from in_lines(f"From: {told.source}", columns)
    if talk.session.question(figure.id) is not None:
        yield from in_lines(f"Asked for: .go {figure.id} goes to the question.", columns)
    if figure.inputs:
        yield "Worked from:"
        yield from _numbered(talk, tuple(each for _, each in figure.inputs))


def _numbered(talk: Talk, figures: Figures) -> Iterator[str]:
    ruler = ruler_of(talk.session.plan.job)
    for number, each in enumerate(figures, 1):
        told = why(each, ruler)
        yield from in_lines(f"{number}. {told.title}: {spoken_length(told.result)}", talk.lines.columns)
