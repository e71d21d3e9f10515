"""Every page of the interview, in the order of asking, and every question that applies to a job on one of them; fewer
pages in a job begun from a template."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import Given, answer_of
from wizard.interview.page import Page
from wizard.interview.pages.ask import AT_ONCE, About
from wizard.interview.pages.bed_pages import bed_pages, hem_page, side_pages
from wizard.interview.pages.cloth_pages import cloth_pages, last_shop_page
from wizard.interview.pages.corner_pages import corner_pages
from wizard.interview.pages.cutting_pages import cutting_pages
from wizard.interview.pages.supply_pages import supply_pages
from wizard.interview.pages.texts import page_text
from wizard.interview.question import Question
from wizard.project.project import Project
from wizard.trade.plan_records import Plan

SUBJECTS: Final = (
    *(bed_pages, side_pages, hem_page, corner_pages),
    *(cloth_pages, supply_pages, cutting_pages, last_shop_page),
)
"""What gives the pages of each subject, in the order of asking."""
JOINED: Final = {"rails": "floor", "face": "in-hand"}
"""Pages that the next one joins in a job begun from a template, while its questions fit."""
REST: Final = ("watch", "hem", "shop", "washing", "fixing", "allowances", "fullness", "ways")
"""Pages that become one there: a row for each, and behind More what else they ask."""


def pages_of(project: Project, plan: Plan, given: Given) -> tuple[Page, ...]:
    """Every page that no answer has ruled out; those without fields are only counted. Pure: the same project and plan
    give the same pages. `given`: its answers."""
    about = About(project, plan, "Survey", "")
    all_pages = [_within_eight(each) for pages_about in SUBJECTS for each in pages_about(about)]
    answered = frozenset(key for page in all_pages for each in page.fields for key in each.file_keys)
    pages = tuple(_needed_at_once(each, plan.waits_for, answered) for each in all_pages)
    return _brisk(pages, given, plan.waits_for) if project.began_from else pages


def _within_eight(page: Page) -> Page:
    """The page with what is too much for it behind More: what only adds first, then from the end on."""
    kept = sorted(page.fields, key=lambda each: each.extra)[:AT_ONCE]
    if len(kept) == len(page.fields):
        return page
    fields, rest = ([each for each in page.fields if (each in kept) == at_once] for at_once in (True, False))
    return replace(page, fields=tuple(fields), more=(*rest, *page.more))


def _needed_at_once(page: Page, waited_for: frozenset[str], answered: frozenset[str]) -> Page:
    """The page with what the plan waits for brought out from behind More; what a field answers too may stay empty."""
    more = tuple(replace(each, optional=True) if each.key in answered else each for each in page.more)
    needed = tuple(each for each in more if each.key in waited_for and each.key not in answered)
    taken = needed[: AT_ONCE - len(page.fields)] if page.shown else ()
    return replace(page, fields=page.fields + taken, more=tuple(each for each in more if each not in taken))


def _brisk(pages: tuple[Page, ...], given: Given, waited_for: frozenset[str]) -> tuple[Page, ...]:
    """The same questions on fewer pages, for a job begun from a template: neighbours join, and what it answers becomes
    one page."""
    # While nothing is chosen in a list that is worked out for this job, its page stays one of its own.
    to_choose = [each for each in pages if each.shown and each.fields[0].live and not answer_of(each.fields[0], given)]
    rest = [each for each in pages if each.id in REST and each not in to_choose]
    others = [each for each in pages if each not in rest]
    return (*_joined(others), *([_rest(rest, waited_for)] if rest else ()))


def _joined(pages: Iterable[Page]) -> list[Page]:
    joined = list[Page]()
    for page in pages:
        before = joined[-1] if joined else page
        title = page.title.removeprefix(f"{before.title}: ")
        if JOINED.get(before.id) == page.id and len(before.fields) + len(page.fields) <= AT_ONCE:
            joined[-1] = replace(
                before,
                title=f"{before.title}; {title[:1].lower()}{title[1:]}",
                fields=before.fields + page.fields,
                more=before.more + page.more,
                more_words=page.more_words,
                confirms=before.confirms + page.confirms,
            )
        else:
            joined.append(page)
    return joined


def _rest(pages: list[Page], waited_for: frozenset[str]) -> Page:
    """At once the first question of each, whether the template answers it or not, so that none moves when it is
    answered; and what is needed, which takes the place of the last ones where there are too many."""

    def is_needed(each: Question) -> bool:
        return not waited_for.isdisjoint(each.file_keys) or (each.usual is None and not each.optional)

    at_once = [each for page in pages for each in page.fields if each == page.fields[0] or is_needed(each)]
    at_once.sort(key=is_needed, reverse=True)
    shown = tuple(each for page in pages for each in page.fields if each in at_once[:AT_ONCE])
    title, words, more_words = page_text("rest", metric=False)
    return Page(
        "rest",
        pages[-1].stage,
        title,
        words,
        shown,
        tuple(each for page in pages for each in page.questions if each not in shown),
        more_words,
        "fixing",
        confirms=tuple(key for page in pages for key in page.confirms),
    )
