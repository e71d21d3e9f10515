"""Every page of the interview, in the order of asking, and every question that applies to a job on one of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About
from wizard.interview.bed_pages import bed_pages
from wizard.interview.cloth_pages import cloth_pages, last_shop_page
from wizard.interview.corner_pages import corner_pages
from wizard.interview.cutting_pages import cutting_pages
from wizard.interview.page import Page
from wizard.interview.side_pages import hem_page, side_pages
from wizard.interview.supply_pages import supply_pages
from wizard.interview.template_pages import brisk
from wizard.project.project import Project
from wizard.trade.plan_records import Plan

AT_ONCE: Final = 8
"""Most questions at once on a page."""


def pages_of(project: Project, plan: Plan) -> tuple[Page, ...]:
    """Every page that no answer has ruled out; those without fields are only counted. Pure: the same project and plan
    give the same pages."""
    about = About(project, plan, "Survey", "", "the bed")
    all_pages = tuple(_pages(about))
    answered = {key for page in all_pages for each in page.fields for key in each.file_keys}
    pages = tuple(_needed_at_once(each, plan.waits_for - answered) for each in all_pages)
    return brisk(pages, project) if project.began_from else pages


def _pages(about: About) -> Iterator[Page]:
    yield from bed_pages(about)
    yield from side_pages(about)
    yield from hem_page(about)
    yield from corner_pages(about)
    yield from cloth_pages(about)
    yield from supply_pages(about)
    yield from cutting_pages(about)
    yield from last_shop_page(about)


def _needed_at_once(page: Page, waited_for: frozenset[str]) -> Page:
    """The page with what the plan waits for, and no field answers, brought out from behind More."""
    needed = tuple(each for each in page.more if each.key in waited_for)
    taken = needed[: AT_ONCE - len(page.fields)] if page.shown else ()
    if not taken:
        return page
    return replace(page, fields=page.fields + taken, more=tuple(each for each in page.more if each not in taken))
