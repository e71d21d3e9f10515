"""The order in which one goes through a job: the questions, then the steps of the work."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from msgspec.structs import replace

from wizard.project.project import Project
from wizard.questions.question import Question
from wizard.questions.work import place_of
from wizard.trade.plan import Plan


def places(questions: Sequence[Question], plan: Plan) -> tuple[str, ...]:
    """Every place one can stand at: keys of questions, and `work.STEP` for the steps."""
    return (*(each.key for each in questions), *(place_of(each) for each in plan.work))


def placed(draft: Project, place: str) -> Project:
    """The draft with its place noted. A place is ours, so nothing has to be checked anew."""
    return replace(draft, progress=replace(draft.progress, at=place))


def passed_over(questions: Sequence[Question]) -> frozenset[str]:
    """The places that next and back go past."""
    return frozenset(each.key for each in questions if each.quiet)


def neighbour(order: Sequence[str], skip: frozenset[str], at: str, by: int) -> str | None:
    """The nearest place behind (`by` 1) or before (`by` -1) `at` that is not passed over; None at the end."""
    if at not in order:
        return None
    here = order.index(at)
    way = order[here + 1 :] if by > 0 else order[:here][::-1]
    return next((each for each in way if each not in skip), None)


def landing(old: Sequence[str], new: Sequence[str], skip: frozenset[str], at: str) -> str:
    """Where one stands when the places changed under one: where one stood, else the nearest that is left before it."""
    if at in new:
        return at
    before = old[: old.index(at)][::-1] if at in old else ()
    left = next((each for each in before if each in new and each not in skip), None)
    return left or next((each for each in new if each not in skip), "")


def leads_to(given: Collection[str], key: str, order: Sequence[str], skip: frozenset[str]) -> str | None:
    """Where an answer at `key`, which put something in at the keys `given`, leads: into the table it made, else to the
    next place."""
    tables = {each.rpartition(".")[0] + "." for each in given if each != key and each.startswith(key + ".")}
    made = (each for each in order if each not in skip and each not in given and each.startswith(tuple(tables)))
    return next(made, None) or neighbour(order, skip, key, 1)


def nearest(order: Sequence[str], key: str) -> str | None:
    """The place at `key`; else the first below it (`drop` -> `drop.1`); else the one above it; else None."""
    if key in order:
        return key
    below = (each for each in order if each.startswith(key + "."))
    above = (each for each in order if key.startswith(each + "."))
    return next(below, None) or next(above, None)
