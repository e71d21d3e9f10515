"""The brisk walk of a job begun from a template: neighbours join, and what the template answers becomes one page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import Given, answer_of, given_by
from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.project.project import Project

AT_ONCE: Final = 8
"""Most questions at once on a page."""
JOINED: Final = {"rails": "floor", "face": "in-hand"}
"""Pages that the next one joins while its questions fit."""
REST: Final = ("watch", "hem", "shop", "washing", "fixing", "allowances", "fullness", "ways")
"""Pages that become one, with what the template left open at once and the rest behind More."""


def brisk(pages: tuple[Page, ...], project: Project) -> tuple[Page, ...]:
    """The same questions on fewer pages."""
    given = given_by(project)
    rest = [each for each in pages if each.id in REST and not _to_choose(each, given)]
    others = [each for each in pages if each not in rest]
    return (*_joined(others), *([_rest(rest, given)] if rest else ()))


def _to_choose(page: Page, given: Given) -> bool:
    """True for a list that is worked out for this job, while nothing is chosen in it."""
    return bool(page.live) and answer_of(page.fields[0], given) is None


def _joined(pages: Iterable[Page]) -> Iterator[Page]:
    before: Page | None = None
    for page in pages:
        if before and JOINED.get(before.id) == page.id and len(before.fields) + len(page.fields) <= AT_ONCE:
            before = replace(
                before,
                title=f"{before.title}; {page.title[:1].lower()}{page.title[1:]}",
                fields=before.fields + page.fields,
                more=before.more + page.more,
                confirms=before.confirms + page.confirms,
            )
            continue
        if before:
            yield before
        before = page
    if before:
        yield before


def _rest(pages: list[Page], given: Given) -> Page:
    """What is open at once; of nothing, the fullness."""
    fields = [each for page in pages for each in page.fields]
    shown = [each for each in fields if _is_open(each, given)][:AT_ONCE]
    shown = shown or [each for each in fields if each.key == "fullness.how"] or fields[:1]
    more = [each for page in pages for each in page.questions if each not in shown]
    return Page(
        "rest",
        pages[-1].stage,
        "The rest",
        "Your template answers what is behind More. Answer what is open here.",
        tuple(shown),
        tuple(more),
        "fixing",
        confirms=tuple(key for page in pages for key in page.confirms),
    )


def _is_open(question: Question, given: Given) -> bool:
    return not question.by_change and not question.extra and answer_of(question, given) is None
