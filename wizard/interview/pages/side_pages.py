"""The pages about each side, what is in its way, and the hem line over an uneven floor."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.added_entries import kind_named, mirrored_readings
from wizard.interview.page import Copy, Page
from wizard.interview.pages.ask import About, Ask, asked, counted, page, yes
from wizard.interview.pages.bed_pages import USUAL_SIDES, has_ledger
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import first_up, obstacle_name
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job_fields import Obstacle, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import ENDS, SIDES, End, at_the_end, section_name, sections_on, side_of

MOST_DROPS: Final = 12
"""Most drop readings asked for in one section."""


def side_pages(about: About) -> Iterator[Page]:
    """Every section, and after it each thing in its way; the usual ones counted while none is chosen."""
    if not about.job.survey.section:
        yield from (counted(f"side.{each}", about) for each in USUAL_SIDES)
    for section_id, section in sections_on(about.job):
        of_section = about_section(about, section_id)
        yield _side(of_section, section_id, section)
        for thing_id, thing in section.in_the_way.items():
            yield _thing(of_section, section_id, thing_id, thing)


def about_section(about: About, section_id: str) -> About:
    """What the questions about a section may name."""
    section, name = about.job.survey.section[section_id], section_name(about.job, section_id)
    side = side_of(section_id, section)
    words = {
        "section": name,
        "Section": first_up(name),
        "id": section_id,
        "plain": f"{section_id} section",
        "left": at_the_end(side, "left"),
        "right": at_the_end(side, "right"),
    }
    prefix = f"survey.section.{section_id}."
    return replace(about, prefix=prefix, group=name, section=section_id, words=words, stage="Survey")


def _side(about: About, section_id: str, section: Section) -> Page:
    own_rail, own_face = about.project.progress.rails_alike is False, _may_lack_a_face(section_id, section)
    count = max(len(section.drop), LEAST_READINGS)
    at_once = (
        *(() if section_id in SIDES else (Ask("side"),)),
        *(OWN_RAIL if own_rail else ()),
        *RUNS,
        *(_drop(number, count) for number in range(1, LEAST_READINGS + 1)),
        IN_THE_WAY,
        *((FIXING_FACE,) if own_face else ()),
        *(ask for number in range(LEAST_READINGS + 1, count + 1) for ask in (_drop(number, count), _drop_at(number))),
        *((_another_drop(count + 1),) if count < MOST_DROPS else ()),
    )
    more = (
        NAME,
        *(_drop_at(number) for number in range(1, LEAST_READINGS + 1)),
        *OWN_FLOOR,
        *(() if own_rail else OWN_RAIL),
        *(() if own_face else (FIXING_FACE,)),
        *((FREE_HEIGHT,) if has_ledger(about, section_id, section) else ()),
        *(ask for end in ENDS for ask in _at_the_end(end)),
    )
    copy = _copy(about, section_id, section)
    return page(f"side.{section_id}", about, asked(at_once, about), asked(more, about), "side", section_id, copy=copy)


def _may_lack_a_face(section_id: str, section: Section) -> bool:
    """True at the foot and the head, where the rail may have no inner face to reach."""
    return side_of(section_id, section) in ("foot", "head")


_ACROSS: Final = {"left": "right", "right": "left", "foot": "head", "head": "foot"}


def _copy(about: About, section_id: str, section: Section) -> Copy | None:
    """The side across the bed, mirrored, where it is read and this one is not."""
    other_id = _ACROSS.get(section_id, "")
    other = about.job.survey.section.get(other_id)
    if other is None or any((*section.run, *section.drop)) or len(other.drop) < LEAST_READINGS:
        return None
    entries = mirrored_readings(about.project, other_id, about.prefix)
    return Copy(f"Same as the {section_name(about.job, other_id)}", entries) if entries else None


NAME: Final = Ask("name", optional=yes, example="window side")
OWN_RAIL: Final = (Ask("rail", optional=yes), Ask("rail_thickness", optional=yes))
RUNS: Final = (Ask("run.1"), Ask("run.2"))
FIXING_FACE: Final = Ask("fixing_face", usual=lambda about: "inner face", stands=yes)
IN_THE_WAY: Final = Ask("in_the_way", optional=yes, example="centre leg")
OWN_FLOOR: Final = (Ask("floor_gap", optional=yes), Ask("rug", optional=yes), Ask("raised", optional=yes))
FREE_HEIGHT: Final = Ask("free_height", optional=yes, later=True)


def _drop(number: int, count: int) -> Ask:
    """One of the three at the ends and in the middle; where there are more, one of a row."""
    which, where = str(number), f"at reading {number}, counted from {{left}}"
    if count <= LEAST_READINGS:
        which = where = {1: "at {left}", 2: "in the middle"}.get(number, "at {right}")
    further = number > LEAST_READINGS
    return Ask(f"drop.{number}", "section.drop", {"which": which, "where": where}, optional=lambda about: further)


def _another_drop(number: int) -> Ask:
    return Ask(f"drop.{number}", "section.another_drop", when=_is_read, optional=yes, extra=True)


def _is_read(about: About) -> bool:
    """True once the run and the three drops are there."""
    return all(about.value(leaf) is not None for leaf in ("run.1", "drop.1", "drop.2", "drop.3"))


def _drop_at(number: int) -> Ask:
    return Ask(
        f"drop_at.{number}",
        "section.drop_at",
        {"number": str(number)},
        when=lambda about: about.value(f"drop.{number}") is not None,
        optional=lambda about: number <= LEAST_READINGS,
    )


def _at_the_end(end: End) -> tuple[Ask, Ask]:
    """The post that is met there, and a hook plate."""

    def meets_one(about: About) -> bool:
        return bool(about.value(f"{end}_end") != "stops short")

    post = Ask(f"{end}_post", when=meets_one, optional=yes, example="middle leg")
    return post, Ask(f"{end}_hook", optional=yes, later=True)


def _thing(about: About, section_id: str, thing_id: str, thing: Obstacle) -> Page:
    """One thing in the way; what it is is asked where its name does not say it."""
    section, name = about.job.survey.section[section_id], obstacle_name(thing_id, thing)
    start = "the bed's left" if _may_lack_a_face(section_id, section) else "the head"
    words = {**about.words, "thing": name, "from": start}
    about = replace(about, prefix=f"{about.prefix}in_the_way.{thing_id}.", words=words)
    kind, unclear = (Ask("kind"),), kind_named(name) is None
    return page(
        f"thing.{section_id}.{thing_id}",
        about,
        asked((*SIZES_OF_A_THING, *(kind if unclear else ()), *WHAT_TO_DO), about),
        asked((Ask("name", optional=yes, example="centre leg"), *(() if unclear else kind)), about),
        "thing",
        f"{section_id}.{thing_id}",
    )


def _overlap_offered(about: About) -> str:
    """Two inches, or five centimetres: enough for two gathered parts to read as one."""
    return about.text(Length(2) if about.standard == "inches" else Length.of(5, "cm"))


SIZES_OF_A_THING: Final = (Ask("at"), Ask("width"), Ask("height", optional=yes))
WHAT_TO_DO: Final = (
    Ask("do", usual=lambda about: "no fixing"),
    Ask("overlap", when=lambda about: about.value("do") == "split here", usual=_overlap_offered),
)


def hem_page(about: About) -> Iterator[Page]:
    """Level or following the floor, for every uneven section; ruled out once every floor is known to be level."""
    sections = sections_on(about.job)
    spreads = {id: about.figure(f"section.{id}.spread") for id, _ in sections}
    tolerance = about.holds_at("allowances.floor_tolerance")
    uneven = [id for id, each in sections if each.hem_line is not None or (spreads[id] or ZERO) > tolerance]
    if not uneven:
        yield from [counted("hem", about)] if not sections or None in spreads.values() else []
        return
    worst = max(uneven, key=lambda id: spreads[id] or ZERO)
    keys = tuple(f"survey.section.{id}.hem_line" for id in uneven)
    hem = replace(HEM, keys=lambda about: keys, how=lambda about: _price_of_both(_by(about, spreads[worst])))
    own = (each for id in uneven for each in asked((Ask("hem_line", optional=yes),), about_section(about, id)))
    each = ", ".join(f"{section_name(about.job, id)} by {_by(about, spreads[id])}" for id in uneven)
    yield page("hem", about, asked((hem,), about), own, "hem", worst, says={"uneven": each})


HEM: Final = Ask("hem.line", usual=lambda about: "level", compound="same")


def _by(about: About, spread: Length | None) -> str:
    return "some" if spread is None else shown(spread, ruler_of(about.job))


def _price_of_both(spread: str) -> str:
    return (
        f"Level: nothing more to do, but the gap is up to {spread} larger where the floor is lowest. Follow the floor: "
        f"every piece is cut {spread} longer, and you measure the hem from the top, fold it and trim it at every mark."
    )
