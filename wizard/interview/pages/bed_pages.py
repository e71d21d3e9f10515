"""The pages about the job and the bed, each side and what is in its way, and the hem line over an uneven floor."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Copy, Page
from wizard.interview.pages.ask import About, Ask, asked, counted, page, yes
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.project.encode import plain_value
from wizard.project.project import Project
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import first_up, obstacle_name
from wizard.trade.fields import lengths
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.job_fields import BedSize, Obstacle, ObstacleKind, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.missing import SLATTED_SIDES
from wizard.trade.sections import (
    ENDS,
    SIDES,
    End,
    at_the_end,
    is_on,
    place_round_bed,
    section_name,
    sections_on,
    side_of,
)

MOST_DROPS: Final = 12
"""Most drop readings asked for in one section."""


def bed_pages(about: About) -> Iterator[Page]:
    """The job, then what is true of the whole bed."""
    several = len(sections_on(about.job)) > 1
    yield page("job", about, THE_JOB, HOW_SHOWN)
    yield page("sides", about, WHICH_SIDES, (ANOTHER_SECTION,), "bed")
    alike = (RAILS_ALIKE,) if several else ()
    yield page("rails", about, RAILS, alike, "rail", confirms=tuple(each.leaf for each in alike))
    yield page("floor", about, FLOOR, (), "floor")
    yield page("watch", about, (WATCH,))


THE_JOB: Final = (Ask("name", example="Juniper loft"), Ask("standard", usual=lambda about: "inches", stands=yes))
HOW_SHOWN: Final = (
    Ask("client", optional=yes, example="Rowan House"), Ask("show"), Ask("ruler"),
    Ask("currency", optional=yes, example="$"),
)  # fmt: skip


USUAL_SIDES: Final = ("left", "foot", "right")


def _sides(about: About) -> list[str]:
    """Ids to tick: the four sides, and what else was added, round the bed."""
    sections = about.job.survey.section
    ids = dict.fromkeys((*SIDES, *sections))
    return sorted(ids, key=lambda each: place_round_bed(each, sections.get(each, Section())))


def _side_choices(about: About) -> tuple[Choice, ...]:
    usual = {each.value: each for each in choices()["sides"]}
    return tuple(usual.get(each) or Choice(each, section_name(about.job, each)) for each in _sides(about))


def _usual_sides(about: About) -> str | None:
    """Most beds have their head at the wall; a section that was entered is there unless it was switched off."""
    entered = about.job.survey.section
    on = [each for each in _sides(about) if each in (*USUAL_SIDES, *entered)]
    return ", ".join(each for each in on if is_on(entered.get(each, Section()))) or None


def _sizes(about: About) -> tuple[Choice, ...]:
    """Those of the job's own system first."""
    metric, offered = about.project.is_metric, choices(metric=about.project.is_metric)[BedSize]
    return tuple(sorted(offered, key=lambda each: each.value.startswith("US") == metric))


WHICH_SIDES: Final = (
    Ask(
        "sides.on",
        compound="ticks",
        keys=lambda about: tuple(f"survey.section.{each}.on" for each in _sides(about)),
        choices=_side_choices,
        usual=_usual_sides,
        stands=lambda about: bool(sections_on(about.job)),
    ),
    Ask("survey.bed_size", optional=yes, choices=_sizes),
)
ANOTHER_SECTION: Final = Ask("survey.section", optional=yes, example="by the desk")


def _on_a_ledger(about: About) -> list[str]:
    """Ids of the sections whose tape goes on a rail face along which slats lie on a ledger."""
    slatted, sections = about.holds_at("survey.slatted"), sections_on(about.job)
    inner = [(id, each) for id, each in sections if each.fixing_face != "lower back edge"]
    return [id for id, each in inner if slatted and side_of(id, each) in SLATTED_SIDES]


RAILS: Final = (
    Ask("survey.rail"),
    Ask("survey.rail_thickness"),
    Ask("survey.slatted"),
    Ask(
        "rails.free_height",
        when=lambda about: bool(_on_a_ledger(about)),
        compound="same",
        keys=lambda about: tuple(f"survey.section.{id}.free_height" for id in _on_a_ledger(about)),
        later=True,
    ),
)
RAILS_ALIKE: Final = Ask("progress.rails_alike", usual=lambda about: "yes", stands=yes)


def _gap_offered(about: About) -> str | None:
    """Nothing on carpet; on a hard floor between 1/8 and 1/2 in."""
    offered = GAPS.get(about.value("survey.floor") or "")
    return about.text(*offered) if offered else None


GAPS: Final = {"carpet": (ZERO, ZERO), "hard floor": lengths("1/4 in", "1/2 cm")}
FLOOR: Final = (Ask("survey.floor"), Ask("survey.floor_gap", usual=_gap_offered), Ask("survey.raised"))
WATCH: Final = Ask("survey.watch", usual=lambda about: "none")


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
        Ask("side", when=lambda about: about.section not in SIDES),
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
        Ask("free_height", when=lambda about: about.section in _on_a_ledger(about), optional=yes, later=True),
        *(ask for end in ENDS for ask in _at_the_end(end)),
    )
    copy = _copy(about, section_id, section)
    return page(f"side.{section_id}", about, at_once, more, "side", section_id, copy=copy)


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
    return (
        Ask(
            f"{end}_post",
            when=lambda about: about.value(f"{end}_end") != "stops short",
            optional=yes,
            example="middle leg",
        ),
        Ask(f"{end}_hook", optional=yes, later=True),
    )


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
        (*SIZES_OF_A_THING, *(kind if unclear else ()), *WHAT_TO_DO),
        (Ask("name", optional=yes, example="centre leg"), *(() if unclear else kind)),
        "thing",
        f"{section_id}.{thing_id}",
    )


OVERLAP: Final = lengths("2 in", "5 cm")
"""Enough for two gathered parts to read as one."""
SIZES_OF_A_THING: Final = (Ask("at"), Ask("width"), Ask("height", optional=yes))
WHAT_TO_DO: Final = (
    Ask("do", usual=lambda about: "no fixing"),
    Ask("overlap", when=lambda about: about.value("do") == "split here", usual=lambda about: about.text(*OVERLAP)),
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
    hem = replace(HEM, keys=lambda about: keys, says={"spread": _by(about, spreads[worst])})
    own = (each for id in uneven for each in asked((Ask("hem_line", optional=yes),), about_section(about, id)))
    each = ", ".join(f"{section_name(about.job, id)} by {_by(about, spreads[id])}" for id in uneven)
    yield page("hem", about, (hem,), own, "hem", worst, says={"uneven": each})


HEM: Final = Ask("hem.line", usual=lambda about: "level", compound="same")


def _by(about: About, spread: Length | None) -> str:
    return "some" if spread is None else shown(spread, ruler_of(about.job))


def mirrored_readings(project: Project, section_id: str, prefix: str) -> dict[str, object]:
    """The runs and drops of a section as those of the side across the bed, whose left is its right: drops in the other
    order, each as far from the other end. `prefix`: the table they go into, with a dot at its end."""
    section = project.survey.section[section_id]
    run = [plain_value(each) for each in section.run]
    entries: dict[str, object] = {
        f"{prefix}run": run,
        f"{prefix}drop": [plain_value(each) for each in section.drop[::-1]],
    }
    unit, length = ruler_of(project).unit, section.run[0] if section.run else None
    if section.drop_at and length is not None and None not in section.drop_at:
        entries[f"{prefix}drop_at"] = [exact(length - at, unit) for at in section.drop_at[::-1] if at is not None]
    return entries if run and section.drop else {}


_KINDS: Final[dict[str, ObstacleKind]] = {
    "leg": "centre leg",
    "bracket": "bracket",
    "bolt": "bed-bolt cover",
    "drawer": "drawer",
    "heater": "heater",
    "radiator": "heater",
    "vent": "vent",
    "socket": "socket",
    "outlet": "socket",
    "lead": "socket",
}
"""A word in the name of a thing -> what it is."""


def kind_named(name: str) -> ObstacleKind | None:
    """What a thing is by its name, where the name says it: `oil heater` is a heater."""
    words = re.findall(r"[a-z]+", name.casefold())
    return next((kind for word in words for called, kind in _KINDS.items() if word in (called, f"{called}s")), None)
