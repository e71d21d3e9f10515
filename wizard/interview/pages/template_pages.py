"""The brisk walk of a job begun from a template: neighbours join, and what the template answers becomes one page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import Given, answer_of, given_by
from wizard.interview.page import Page
from wizard.interview.pages.texts import page_text
from wizard.interview.question import Question
from wizard.project.project import Project

AT_ONCE: Final = 8
"""Most questions at once on a page."""
JOINED: Final = {"rails": "floor", "face": "in-hand"}
"""Pages that the next one joins while its questions fit."""
REST: Final = ("watch", "hem", "shop", "washing", "fixing", "allowances", "fullness", "ways")
"""Pages that become one: a row for each, and behind More what else they ask."""


def brisk(pages: tuple[Page, ...], project: Project, waited_for: frozenset[str]) -> tuple[Page, ...]:
    """The same questions on fewer pages."""
    given = given_by(project)
    rest = [each for each in pages if each.id in REST and not _to_choose(each, given)]
    others = [each for each in pages if each not in rest]
    return (*_joined(others), *([_rest(rest, waited_for)] if rest else ()))


def _to_choose(page: Page, given: Given) -> bool:
    """True for a list that is worked out for this job, while nothing is chosen in it."""
    return page.shown and page.fields[0].live and answer_of(page.fields[0], given) is None


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


def _rest(pages: list[Page], waited_for: frozenset[str]) -> Page:
    """At once the first question of each, whether the template answers it or not, so that none moves when it is
    answered; and what is needed, which takes the place of the last ones where there are too many."""

    def is_needed(each: Question) -> bool:
        return not waited_for.isdisjoint(each.file_keys) or (each.usual is None and not each.optional)

    at_once = [each for page in pages for each in page.fields if each == page.fields[0] or is_needed(each)]
    at_once.sort(key=is_needed, reverse=True)
    shown = tuple(each for page in pages for each in page.fields if each in at_once[:AT_ONCE])
    text = page_text("rest", metric=False)
    return Page(
        "rest",
        pages[-1].stage,
        text.title,
        text.words,
        shown,
        tuple(each for page in pages for each in page.questions if each not in shown),
        "fixing",
        confirms=tuple(key for page in pages for key in page.confirms),
    )
