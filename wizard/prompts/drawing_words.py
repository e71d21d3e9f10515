"""The drawing of a page in words: what it shows, and what is measured on it so far."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise, zip_longest
from typing import Final

from wizard.interview.page import Page, Picture
from wizard.prompts.console import said
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import first_up, in_words, obstacle_name
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.fullness_offers import in_hand_lines
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan
from wizard.trade.sections import ENDS, end_in_words, section_name, sections_on, short_read, side_of, stops_short
from wizard.trade.steps.cut_order import part_names

NOT_YET: Final = "not read yet"
WITHOUT_WORDS: Final[tuple[Picture, ...]] = ("fullness", "ways", "none")
"""Drawings of what the rows beside them say."""


def drawing_lines(plan: Plan, page: Page) -> Iterator[str]:
    """The drawing in sentences; nothing for a page without one."""
    if page.picture in FROM_JOB:
        yield from FROM_JOB[page.picture](plan, page.subject.partition(".")[0])
    elif page.picture not in WITHOUT_WORDS:
        yield said(f"drawn {page.picture}")


def _bed(plan: Plan, _: str) -> Iterator[str]:
    """The bed from above, with every section to make."""
    yield said("drawn bed")
    for section_id, section in sections_on(plan.job):
        run = section.run[0] if section.run else None
        yield f"Along the rail: {section_name(plan.job, section_id)}{f', {_told(plan.job, run)}' if run else ''}."
        yield from _short(plan.job, section_id, section)


def _side(plan: Plan, section_id: str) -> Iterator[str]:
    """A section from the room: ends, run, every drop, the slope of the floor, what is in the way."""
    job = plan.job
    section = job.survey.section.get(section_id, Section())
    name, (left, right) = section_name(job, section_id), _ends(section_id, section)
    yield f"{first_up(name)}, seen from the room: the {left} at the left, the {right} at the right."
    if section.run and section.run[0] is not None:
        yield f"Run at the rail: {_told(job, section.run[0])}."
    yield from _short(job, section_id, section)
    yield from _drops(job, section_id, section)
    for thing_id, thing in section.in_the_way.items():
        at = NOT_YET if thing.at is None else f"at {_told(job, thing.at)}"
        reaches = f", {_told(job, thing.width)} wide" if thing.width is not None else ""
        does = f": {thing.do}" if thing.do else ""
        yield f"In the way: {obstacle_name(thing_id, thing)}, its middle {at}{reaches}{does}."


def _drops(job: Job, section_id: str, section: Section) -> Iterator[str]:
    """The drops, once any was read, and the slope of the floor where all are known."""
    name, (left, right) = section_name(job, section_id), _ends(section_id, section)
    said = []
    for number, (drop, place) in enumerate(zip_longest(section.drop, section.drop_at[: len(section.drop)]), 1):
        words = in_words(f"survey.section.{section_id}.drop.{number}", job).removeprefix(f"{name}: ")
        at = "" if place is None else f", {_told(job, place)} from the {left}"
        said.append(f"{words} {_told(job, drop)}{at}")
    if said:
        yield f"{first_up('; '.join(said))}."
    known = [each for each in section.drop if each is not None]
    if len(known) == len(section.drop) >= LEAST_READINGS:
        slopes = ", then ".join(_slope(job, later - earlier) for earlier, later in pairwise(known))
        yield f"The floor, from the {left} to the {right}: {slopes}."


def _hem(plan: Plan, _: str) -> Iterator[str]:
    """Every section whose floor is not level."""
    for section_id, section in sections_on(plan.job):
        if len(set(section.drop)) > 1:
            yield f"{first_up(section_name(plan.job, section_id))}:"
            yield from _drops(plan.job, section_id, section)


def _ends(section_id: str, section: Section) -> tuple[str, str]:
    side = side_of(section_id, section)
    return end_in_words(side, "left"), end_in_words(side, "right")


def _slope(job: Job, more: Length) -> str:
    if more == ZERO:
        return "level"
    return f"{'falls' if more > ZERO else 'rises'} {_told(job, abs(more))}"


def _short(job: Job, section_id: str, section: Section) -> Iterator[str]:
    """Where a section stops short of its post, and by how much."""
    for end in ENDS:
        if stops_short(section, end):
            where = end_in_words(side_of(section_id, section), end)
            yield f"At the {where} it stops {_told(job, short_read(section, end))} short of the post."


def _told(job: Job, length: Length | None) -> str:
    return NOT_YET if length is None else shown(length, ruler_of(job), "given")


def _owned(plan: Plan, layer_id: str) -> Iterator[str]:
    """Every owned length of a layer: what is cut from it, what is left."""
    for layer in plan.layers:
        if layer.id == (layer_id or "face"):
            yield from in_hand_lines(plan.job, layer, part_names(plan), ruler_of(plan.job))


FROM_JOB: Final[dict[Picture, Callable[[Plan, str], Iterator[str]]]] = {
    "bed": _bed,
    "side": _side,
    "thing": _side,
    "hem": _hem,
    "owned": _owned,
}
"""Drawings that show what is known of this job."""
