"""The pages about the job and the bed, each side and what is in its way, and the hem line over an uneven floor."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Copy, Page
from wizard.interview.pages.ask import About, Ask, asked, counted, held, page
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.project.encode import plain
from wizard.project.project import Project, Unfit, put_many
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import first_up, obstacle_name
from wizard.trade.fields import lengths
from wizard.trade.fixings import takes_rail
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.job_fields import BedSize, Job, Obstacle, ObstacleKind, Section, Side
from wizard.trade.lengths import ZERO, Length
from wizard.trade.missing import SLATTED_SIDES
from wizard.trade.sections import (
    ENDS,
    SIDES,
    at_the_end,
    is_on,
    place_round_bed,
    section_name,
    sections_on,
    side_of,
)


def bed_pages(about: About) -> Iterator[Page]:
    """The job, then what is true of the whole bed."""
    yield page("job", about, ("name", "standard"), ("client", "show", "ruler", "currency"))
    yield page("sides", about, _which_sides(about), ("survey.section",), "bed")
    heights = tuple(f"survey.section.{id}.free_height" for id in _on_a_ledger(about))
    height = Ask("rails.free_height", when=bool(heights), keys=heights)
    alike = ("progress.rails_alike",) if len(sections_on(about.job)) > 1 else ()
    rails = ("survey.rail", "survey.rail_thickness", "survey.slatted", height)
    yield page("rails", about, rails, alike, "rail", confirms=alike)
    gap = {"carpet": (ZERO, ZERO), "hard floor": lengths("1/4 in", "1/2 cm")}.get(about.job.survey.floor or "")
    usual = about.text(*gap) if gap else ""
    yield page("floor", about, ("survey.floor", Ask("survey.floor_gap", usual=usual), "survey.raised"), (), "floor")
    yield page("watch", about, ("survey.watch",))


USUAL_SIDES: Final = ("left", "foot", "right")


def _which_sides(about: About) -> tuple[Ask, ...]:
    """The four sides and what else was added, round the bed; most beds have their head at the wall, and a section that
    was entered is there unless it was switched off."""
    job, entered = about.job, about.job.survey.section
    metric, named = about.project.is_metric, {each.value: each for each in choices()["sides"]}
    ids = sorted(dict.fromkeys((*SIDES, *entered)), key=lambda id: place_round_bed(id, entered.get(id, Section())))
    on = [id for id in ids if id in (*USUAL_SIDES, *entered) and is_on(entered.get(id, Section()))]
    # Those of the job's own system first.
    sizes = sorted(choices(metric=metric)[BedSize], key=lambda each: each.value.startswith("US") == metric)
    return (
        Ask(
            "sides.on",
            keys=tuple(f"survey.section.{each}.on" for each in ids),
            compound="ticks",
            choices=tuple(named.get(each) or Choice(each, section_name(job, each)) for each in ids),
            usual=", ".join(on),
            stands=bool(sections_on(job)),
        ),
        Ask("survey.bed_size", choices=tuple(sizes)),
    )


def _on_a_ledger(about: About) -> list[str]:
    """Ids of the sections whose tape goes on a rail face along which slats lie on a ledger."""
    slatted, sections = held(about.job, "survey.slatted"), sections_on(about.job)
    inner = [(id, each) for id, each in sections if each.fixing_face != "lower back edge"]
    return [id for id, each in inner if slatted and side_of(id, each) in SLATTED_SIDES]


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
    words = {"section": name, "Section": first_up(name), "id": section_id, "plain": f"{section_id} section"}
    words |= {end: at_the_end(side, end) for end in ENDS}
    foot = "147.5 cm" if about.project.is_metric else "58 1/8 in"
    words["as_long_as"] = foot if _may_lack_a_face(section_id, section) else ""
    prefix = f"survey.section.{section_id}."
    return replace(about, prefix=prefix, section=section_id, words=words, stage="Survey")


def _side(about: About, section_id: str, section: Section) -> Page:
    count = max(len(section.drop), LEAST_READINGS)
    first, further = range(1, LEAST_READINGS + 1), range(LEAST_READINGS + 1, count + 1)
    rail = ("rail", "rail_thickness")
    own_rail, own_face = about.project.progress.rails_alike is False, _may_lack_a_face(section_id, section)
    is_read = all(about.value(leaf) is not None for leaf in ("run.1", "drop.1", "drop.2", "drop.3"))
    # Twelve drops are the most that is asked for in one section.
    another = Ask(f"drop.{count + 1}", "section.another_drop", when=is_read and count < 12)
    at_once = (
        Ask("side", when=section_id not in SIDES),
        *(rail if own_rail else ()),
        *("run.1", "run.2"),
        *(_drop(number, count) for number in first),
        "in_the_way",
        Ask("fixing_face", when=own_face),
        *(ask for number in further for ask in (_drop(number, count), _drop_at(number, about))),
        another,
    )
    more = (
        "name",
        *(_drop_at(number, about) for number in first),
        *("floor_gap", "rug", "raised"),
        *(() if own_rail else rail),
        Ask("fixing_face", when=not own_face),
        Ask("free_height", when=section_id in _on_a_ledger(about)),
        *(Ask("left_post", when=section.left_end != "stops short"), "left_hook"),
        *(Ask("right_post", when=section.right_end != "stops short"), "right_hook"),
    )
    copy = _copy(about, section_id, section)
    return page(f"side.{section_id}", about, at_once, more, "side", section_id, copy=copy)


def _may_lack_a_face(section_id: str, section: Section) -> bool:
    """True at the foot and the head, where the rail may have no inner face to reach."""
    return side_of(section_id, section) in ("foot", "head")


def _copy(about: About, section_id: str, section: Section) -> Copy | None:
    """The side across the bed where it is read and this one is not, or where the two were alike until one was changed;
    on the page of that one, the other way round."""
    job, other, unlinked = about.job, ACROSS.get(section_id, ""), about.project.progress.unlinked
    if other not in job.survey.section:
        return None
    if unlinked == section_id:
        return Copy(f"The same on the {section_name(job, other)}", taken_over(job, section_id, other))
    entries, words = taken_over(job, other, section_id), f"Same as the {section_name(job, other)}"
    if unlinked == other:
        return Copy(words, entries)
    if any((*section.run, *section.drop)) or not is_read(job.survey.section[other]):
        return None
    return Copy(words, {key: value for key, value in entries.items() if value is not None})


def _drop(number: int, count: int) -> Ask:
    """One of the three at the ends and in the middle; where there are more, one of a row."""
    which, where = str(number), f"at reading {number}, counted from {{left}}"
    if count <= LEAST_READINGS:
        which = where = {1: "at {left}", 2: "in the middle"}.get(number, "at {right}")
    return Ask(f"drop.{number}", "section.drop", {"which": which, "where": where}, optional=number > LEAST_READINGS)


def _drop_at(number: int, about: About) -> Ask:
    is_read, says = about.value(f"drop.{number}") is not None, {"number": str(number)}
    return Ask(f"drop_at.{number}", "section.drop_at", says, when=is_read, optional=number <= LEAST_READINGS)


def _thing(about: About, section_id: str, thing_id: str, thing: Obstacle) -> Page:
    """One thing in the way; what it is is asked where its name does not say it."""
    section, name, of = about.job.survey.section[section_id], obstacle_name(thing_id, thing), f"{section_id}.{thing_id}"
    start = "the bed's left" if _may_lack_a_face(section_id, section) else "the head"
    words = {**about.words, "thing": name, "from": start}
    about = replace(about, prefix=f"{about.prefix}in_the_way.{thing_id}.", words=words)
    unclear = kind_named(name) is None
    # Enough for two gathered parts to read as one, and for each to be fixed past what takes up the rail.
    past = thing.width + held(about.job, "cloth.fixing.inset") * 2 if thing.width and takes_rail(thing) else ZERO
    least = (max(each, past) for each in lengths("2 in", "5 cm"))
    overlap = Ask("overlap", when=thing.do == "split here", usual=about.text(*least))
    at_once = ("at", "width", "height", Ask("kind", when=unclear), "do", overlap)
    return page(f"thing.{of}", about, at_once, ("name", Ask("kind", when=not unclear)), "thing", of)


def hem_page(about: About) -> Iterator[Page]:
    """Level or following the floor, for every uneven section; ruled out once every floor is known to be level."""
    sections = sections_on(about.job)
    spreads = {id: about.figure(f"section.{id}.spread") for id, _ in sections}
    tolerance = held(about.job, "allowances.floor_tolerance")
    uneven = [id for id, each in sections if each.hem_line is not None or (spreads[id] or ZERO) > tolerance]
    if not uneven:
        yield from [counted("hem", about)] if not sections or None in spreads.values() else []
        return
    worst = max(uneven, key=lambda id: spreads[id] or ZERO)
    keys = tuple(f"survey.section.{id}.hem_line" for id in uneven)
    hem = Ask("hem.line", keys=keys, says={"spread": _by(about, spreads[worst])})
    own = (each for id in uneven for each in asked(("hem_line",), about_section(about, id)))
    each = ", ".join(f"{section_name(about.job, id)} by {_by(about, spreads[id])}" for id in uneven)
    yield page("hem", about, (hem,), own, "hem", worst, says={"uneven": each})


def _by(about: About, spread: Length | None) -> str:
    return "some" if spread is None else shown(spread, ruler_of(about.job))


ACROSS: Final[dict[str, Side]] = {"left": "right", "right": "left", "foot": "head", "head": "foot"}
"""Side -> the one across the bed."""
SHARED: Final = (
    *("run", "drop", "drop_at", "rail", "rail_thickness", "fixing_face", "free_height", "hem_line", "floor_gap", "rug"),
    *("raised", "returns_flat", "in_the_way"),
)
OF_AN_END: Final = ("end", "return", "short", "hook")
"""What may be the same across the bed. Names are a side's own, as are the posts that it meets and what was read beside
a turned leg."""


def taken_over(job: Job, of: str, to: str) -> dict[str, object]:
    """What makes a side the mirror of the one across the bed, whose left end is its right: key -> value. Drops come in
    the other order, each as far from the other end; things in the way count from the same end of the bed on both."""
    section, there = job.survey.section[of], plain(job.survey.section[of])
    run, places = section.run[0] if section.run else None, section.drop_at[::-1]
    known = [exact(run - at, ruler_of(job).unit) for at in places if run is not None and at is not None]
    if section.drop:
        there["drop"] = there["drop"][::-1]
    if places:
        there["drop_at"] = known if len(known) == len(places) else None
    entries = {leaf: there.get(leaf) for leaf in SHARED}
    for end, across in zip(ENDS, ENDS[::-1], strict=True):
        entries |= {f"{end}_{leaf}": there.get(f"{across}_{leaf}") for leaf in OF_AN_END}
    return {f"survey.section.{to}.{leaf}": value for leaf, value in entries.items()}


def is_read(section: Section) -> bool:
    """True once its run and its drops are there."""
    return bool(section.run) and len(section.drop) >= LEAST_READINGS and None not in (*section.run, *section.drop)


def are_alike(project: Project, of: str, to: str) -> bool:
    """True where both sides are read and each is the mirror of the other: taking it over would change nothing."""
    sections = project.survey.section
    if not all(each in sections and is_read(sections[each]) for each in (of, to)):
        return False
    if sections[of].drop[::-1] != sections[to].drop:
        return False
    try:
        return put_many(project, taken_over(project, of, to)).survey.section[to] == sections[to]
    except Unfit:
        return False


def unlinked_by(old: Project, new: Project) -> Side | None:
    """The side that a change made differ from the one across the bed, of which it was the mirror till then; it stays
    that until they are alike again, or the other is changed too. None for none."""
    before = old.progress.unlinked
    changed = [id for id in ACROSS.values() if old.survey.section.get(id) != new.survey.section.get(id)]
    if len(changed) != 1:
        return None if changed else before
    other = ACROSS[changed[0]]
    if changed[0] == before or are_alike(old, changed[0], other):
        return None if are_alike(new, changed[0], other) else changed[0]
    return None if before == other else before


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
