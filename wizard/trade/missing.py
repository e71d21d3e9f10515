"""Which answers a survey and a plan wait for.

`holes` sees it from the job alone, for a list of thousands of jobs, none of which is planned. It says the same as
`Plan.missing`, which follows from figures; the tests hold the two together.
"""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Sequence
from typing import Final

from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.figures import Ledger
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.fullness import ALL_OWNED
from wizard.trade.job_fields import Cloth, Job, Obstacle, Section, Survey, usual_of
from wizard.trade.lengths import Length
from wizard.trade.sections import ENDS, sections_on, side_of
from wizard.trade.stock import cloths_used

SLATTED_SIDES = ("left", "right")
"""Slats rest on the side rails: their ledger runs along these, never along foot or head."""


def survey_asked(ledger: Ledger) -> None:
    """Read what every survey must have, so that what is missing is named."""
    ledger.read(Survey.floor)
    sections = sections_on(ledger.job)
    if not sections:
        ledger.wanting("survey.section")
    for section_id, section in sections:
        ledger.read(Section.rail, f"survey.section.{section_id}", fallback=Survey.rail)
        for thing in section.in_the_way:
            ledger.read(Obstacle.at, f"survey.section.{section_id}.in_the_way.{thing}")
            ledger.read(Obstacle.do, f"survey.section.{section_id}.in_the_way.{thing}")
        if has_ledger(ledger, section_id, section):
            ledger.read(Section.free_height, f"survey.section.{section_id}")


def has_ledger(ledger: Ledger, section_id: str, section: Section) -> bool:
    """True where a ledger or slat cleat runs along the rail face that the tape goes on."""
    on_inside = section.fixing_face != "lower back edge"
    return bool(ledger.read(Survey.slatted).value) and on_inside and side_of(section_id, section) in SLATTED_SIDES


MAY_BE_LATER: Final = re.compile(
    r"survey\.section\.[^.]+\.(free_height|left_hook|right_hook)"
    r"|survey\.post\.[^.]+\.(along_side|along_end|side_set_in|end_set_in)"
    r"|cloth\.(face|interlining|lining)\.(warp_shrink|weft_shrink|repeat)"
)
"""Keys of what a maker often cannot know while measuring: it is behind a mattress, or the cloth is not there yet."""


def may_be_later(key: str) -> bool:
    """True for a key whose answer may be found out later."""
    return MAY_BE_LATER.fullmatch(key) is not None


def holes(job: Job, later: Container[str] = ()) -> Iterator[str]:
    """The file keys of the answers that are missing, in the order of asking, without those that are found out
    `later`."""
    return (key for key in _holes(job) if key not in later or not may_be_later(key))


def _holes(job: Job) -> Iterator[str]:
    """In the order of the pages that ask."""
    sections = sections_on(job)
    if not sections:
        yield "survey.section"
    yield from _bed(job, sections)
    for asked in (_readings, _hem, _ends):
        for section_id, section in sections:
            yield from (f"survey.section.{section_id}.{leaf}" for leaf in asked(job, section_id, section))
    cloths = cloths_used(job)
    for layer, cloth in cloths.items():
        yield from (f"cloth.{layer}.{leaf}" for leaf in _cloth(job, cloth))
    if job.cloth.fixing.kind is None:
        yield "cloth.fixing.kind"
    if job.fullness.aim == ALL_OWNED:
        if not any(cloth.owned for cloth in cloths.values()):
            yield "cloth.face.owned"
    elif job.fullness.want is None:
        yield "fullness.want"


def _bed(job: Job, sections: Sequence[tuple[str, Section]]) -> Iterator[str]:
    rails, floor = ("rail", "rail_thickness"), ("floor", "floor_gap")
    yield from _of_the_whole_bed(job, sections, rails)
    for section_id, section in sections:
        inside = section.fixing_face != "lower back edge" and side_of(section_id, section) in SLATTED_SIDES
        if job.survey.slatted and inside and section.free_height is None:
            yield f"survey.section.{section_id}.free_height"
    yield from _of_the_whole_bed(job, sections, floor)


def _of_the_whole_bed(job: Job, sections: Sequence[tuple[str, Section]], leaves: Sequence[str]) -> Iterator[str]:
    """Each is asked for once, for the whole bed, unless every section has its own."""
    for leaf in leaves:
        wanted = leaf == "floor" or any(getattr(section, leaf) is None for _, section in sections)
        # Only what is driven into the rail must not come out of it.
        idle = leaf == "rail_thickness" and job.cloth.fixing.kind not in ("staples", "tacks")
        if getattr(job.survey, leaf) is None and wanted and not idle:
            yield f"survey.{leaf}"


def _readings(job: Job, section_id: str, section: Section) -> Iterator[str]:
    if side_of(section_id, section) is None:
        yield "side"
    yield from _unread("run", section.run, 2)
    yield from _unread("drop", section.drop, LEAST_READINGS)
    for thing_id, thing in section.in_the_way.items():
        leaves = ("at", "do", "overlap") if thing.do == "split here" else ("at", "do")
        yield from (f"in_the_way.{thing_id}.{leaf}" for leaf in leaves if getattr(thing, leaf) is None)


def _hem(job: Job, section_id: str, section: Section) -> Iterator[str]:
    drops = [each for each in section.drop if each is not None]
    tolerance = job.allowances.floor_tolerance or usual_of("allowances.floor_tolerance", job.standard or "inches")
    read = section.hem_line is None and len(drops) >= max(len(section.drop), LEAST_READINGS)
    if read and isinstance(tolerance, Length) and max(drops) - min(drops) > tolerance:
        yield "hem_line"


def _unread(leaf: str, readings: tuple[object, ...], least: int) -> Iterator[str]:
    padded = (*readings, *(None for _ in range(least - len(readings))))
    return (f"{leaf}.{number}" for number, reading in enumerate(padded, 1) if reading is None)


def _ends(job: Job, section_id: str, section: Section) -> Iterator[str]:
    takes = {"returns": "return", "overlaps": "return", "stops short": "short"}
    for end in ENDS:
        kind = getattr(section, f"{end}_end")
        if kind is None:
            yield f"{end}_end"
        elif kind in takes and getattr(section, f"{end}_{takes[kind]}") is None:
            yield f"{end}_{takes[kind]}"


def _cloth(job: Job, cloth: Cloth) -> Iterator[str]:
    if cloth.width is None:
        yield "width"
    if cloth.weight is None and job.cloth.fixing.kind in IN_A_ROW:
        yield "weight"
    if cloth.kind in (None, "other") and cloth.weight is None:
        yield "kind"
    for owned_id, owned in cloth.owned.items():
        leaves = ["length", *(["washed"] if cloth.wash == "washed first" else [])]
        if (owned.damage_from is None) != (owned.damage_to is None):
            leaves += ["damage_from", "damage_to"]
        yield from (f"owned.{owned_id}.{leaf}" for leaf in leaves if getattr(owned, leaf) is None)
