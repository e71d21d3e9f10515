"""Every page of the interview, in the order of asking, and every question that applies to a job on one of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Page
from wizard.interview.pages.ask import About
from wizard.interview.pages.bed_pages import bed_pages
from wizard.interview.pages.cloth_pages import cloth_pages, last_shop_page
from wizard.interview.pages.corner_pages import corner_pages
from wizard.interview.pages.cutting_pages import cutting_pages
from wizard.interview.pages.side_pages import hem_page, side_pages
from wizard.interview.pages.supply_pages import supply_pages
from wizard.interview.pages.template_pages import brisk
from wizard.project.project import Project
from wizard.trade.plan_records import Plan

AT_ONCE: Final = 8
"""Most questions at once on a page."""


def pages_of(project: Project, plan: Plan) -> tuple[Page, ...]:
    """Every page that no answer has ruled out; those without fields are only counted. Pure: the same project and plan
    give the same pages."""
    about = About(project, plan, "Survey", "", "the bed")
    all_pages = tuple(map(_within_eight, _pages(about)))
    answered = frozenset(key for page in all_pages for each in page.fields for key in each.file_keys)
    pages = tuple(_needed_at_once(each, plan.waits_for, answered) for each in all_pages)
    return brisk(pages, project, plan.waits_for) if project.began_from else pages


def _pages(about: About) -> Iterator[Page]:
    yield from bed_pages(about)
    yield from side_pages(about)
    yield from hem_page(about)
    yield from corner_pages(about)
    yield from cloth_pages(about)
    yield from supply_pages(about)
    yield from cutting_pages(about)
    yield from last_shop_page(about)


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
