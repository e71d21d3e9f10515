"""Questions about each section: runs, drops, the floor, and what is in the way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About, Ask, asked, no, yes
from wizard.interview.corner_questions import ENDS_OF_A_SECTION, daylight_beside
from wizard.interview.question import Question
from wizard.project.project import Project
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import obstacle_name
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import Length
from wizard.trade.missing import SLATTED_SIDES
from wizard.trade.plan_records import Plan
from wizard.trade.sections import ENDS, SIDES, at_the_end, section_name, sections_on, side_of


def things_in_the_way(about: About, section: Section) -> Iterator[Question]:
    """What is there already, thing by thing, then one more."""
    side = side_of(about.section or "", section)
    start = "the bed's left" if side in ("foot", "head") else "the head"
    for thing_id, thing in section.in_the_way.items():
        words = {**about.words, "thing": obstacle_name(thing_id, thing), "from": start}
        prefix = f"{about.prefix}in_the_way.{thing_id}."
        yield from asked(A_THING, replace(about, prefix=prefix, words=words))
    more = "something else" if section.in_the_way else "something"
    yield from asked((ONE_MORE,), replace(about, words={**about.words, "more": more}))


def _overlap_offered(about: About) -> str:
    """Two inches, or five centimetres: enough for two gathered parts to read as one."""
    return about.text(Length(2) if about.standard == "inches" else Length.of(5, "cm"))


A_THING: Final = (
    Ask(
        "name",
        "What do you call it?",
        "It stands under this name on the sheets.",
        optional=yes,
        quiet=yes,
        example="centre leg",
    ),
    Ask(
        "kind",
        "What is {thing}?",
        "Heaters, vents and sockets bring their caution; the others only change where fixings go.",
        drawing="elevation",
    ),
    Ask(
        "at",
        "Where along the run is its middle, measured from {from}?",
        "{thing}: along the rail, from {from} to the middle of it.",
        drawing="elevation",
    ),
    Ask(
        "width",
        "How wide is it, along the run?",
        "{thing}: from one side of it to the other.",
        drawing="elevation",
    ),
    Ask(
        "height",
        "How high does it reach above the floor?",
        "{thing}: up to its top. Leave it empty if it does not matter.",
        optional=yes,
        drawing="elevation",
    ),
    Ask(
        "do",
        "What is to be done about it?",
        "{thing}: the cloth can hang past it with no fixing there, be split in two parts that lie over each other,"
        " or be"
        " kept clear of it.",
        usual=lambda about: "no fixing",
        drawing="elevation",
    ),
    Ask(
        "overlap",
        "How far are the two parts to lie over each other?",
        "{thing}: enough that no gap shows when the cloth moves.",
        when=lambda about: about.value("do") == "split here",
        usual=_overlap_offered,
        drawing="elevation",
    ),
)

ONE_MORE: Final = Ask(
    "in_the_way",
    "Is there {more} in the way along this section? Name it, or leave it empty to go on.",
    "A centre leg, a bracket, the cover of a bed bolt, a drawer, a heater, a vent, a socket: all that the cloth"
    " would hang"
    " against, or that keeps a fixing from its place.",
    title="{section}: in the way",
    optional=yes,
    drawing="elevation",
)


MOST_DROPS: Final = 12
"""Most drop readings asked for in one section."""

PLUMB: Final = (
    "From the lower edge of the rail straight down to what the hem will touch. Let the tape hang plumb, with the slats"
    " and the mattress on the bed, and read it twice."
)


def about_section(project: Project, plan: Plan, section_id: str) -> About:
    """What the questions about a section may name."""
    section, name = plan.job.survey.section[section_id], section_name(plan.job, section_id)
    side = side_of(section_id, section)
    words = {
        "section": name,
        "plain": f"{section_id} section",
        "left": at_the_end(side, "left"),
        "right": at_the_end(side, "right"),
    }
    return About(project, plan, "Survey", f"survey.section.{section_id}.", name, section_id, words)


def questions_of_sections(project: Project, plan: Plan) -> Iterator[Question]:
    """Every section to make, one after the other."""
    for section_id, section in sections_on(plan.job):
        about = about_section(project, plan, section_id)
        yield from asked((*WHAT_IT_IS, *RUNS, *drops(len(section.drop)), *THE_TOP, *ENDS_OF_A_SECTION), about)
        yield from things_in_the_way(about, section)


def questions_of_daylight(project: Project, plan: Plan) -> Iterator[Question]:
    """The daylight beside turned legs, section by section; asked once the legs are known."""
    for section_id, _ in sections_on(plan.job):
        about = about_section(project, plan, section_id)
        yield from asked(tuple(ask for end in ENDS for ask in daylight_beside(about, end)), about)


def _rail_is_its_own(about: About) -> bool:
    return about.project.progress.rails_alike is False


def _is_side_rail(about: About) -> bool:
    return _side(about.job, about.section or "") in SLATTED_SIDES


def _has_ledger(about: About) -> bool:
    """Slats lie on the side rails; a tape at the lower back edge does not meet their ledger."""
    below = about.value("fixing_face") != "lower back edge"
    return below and bool(about.holds_at("survey.slatted")) and _side(about.job, about.section or "") in SLATTED_SIDES


def _side(job: Job, section_id: str) -> str | None:
    return side_of(section_id, job.survey.section[section_id])


WHAT_IT_IS: Final = (
    Ask(
        "name",
        "What do you call this section?",
        "Leave it empty for “{plain}”. A name such as “window side” helps at the cutting table.",
        optional=yes,
        drawing="plan",
    ),
    Ask(
        "side",
        "On which side of the bed does it hang?",
        "As seen standing at the foot, facing the head.",
        when=lambda about: about.section not in SIDES,
        drawing="plan",
    ),
    Ask(
        "rail",
        "What is the rail of this section made of?",
        "Only where it is not as the whole bed's. It decides what can hold the tape.",
        optional=yes,
        quiet=lambda about: not _rail_is_its_own(about),
        drawing="top",
    ),
    Ask(
        "rail_thickness",
        "How thick is the rail of this section?",
        "Only where it is not as the whole bed's: from the outer face through to the inner face, at the lower edge.",
        optional=yes,
        quiet=lambda about: not _rail_is_its_own(about),
        drawing="top",
    ),
)

RUNS: Final = (
    Ask(
        "run.1",
        "How long is the run at the rail?",
        "The run is how far the skirt goes along the rail, which is what is seen. Lay the tape along the rail itself,"
        " from the face of one post to the face of the next; where the skirt stops short of a post, only as far as it"
        " goes. Two hands are better than one; read it twice. It decides how long the skirt is at its top.",
        drawing="elevation",
    ),
    Ask(
        "run.2",
        "And how long is it near the floor?",
        "The same length, as low as you can reach. A difference shows that a post leans. If you cannot"
        " get at"
        " it at all, give the reading at the rail again.",
        drawing="elevation",
    ),
)


def drops(count: int) -> Iterator[Ask]:
    """Three readings, then one more for as long as more are given; each beyond the third with its place."""
    last = min(max(count, LEAST_READINGS) + 1, MOST_DROPS)
    for number in range(1, last + 1):
        yield _drop(number, count) if number <= LEAST_READINGS else _one_more(number, count)
        yield _drop_at(number)
    yield from HEM


def _drop(number: int, count: int) -> Ask:
    """One of the three at the ends and in the middle; where there are more, one of a row."""
    places = {1: "at {left}", 2: "in the middle", 3: "at {right}"}
    where = places[number] if count <= LEAST_READINGS else f"at reading {number}, counted from {{left}}"
    return Ask(
        f"drop.{number}",
        f"How far is it from the rail to the floor, {where}?",
        PLUMB,
        title=f"{{section}}: drop {where}" if count <= LEAST_READINGS else f"{{section}}: drop, reading {number}",
        drawing="elevation",
    )


def _one_more(number: int, count: int) -> Ask:
    return Ask(
        f"drop.{number}",
        "One more drop reading? Leave it empty if there is none.",
        "Where the floor has a dip or a bump between the readings. " + PLUMB,
        title="{section}: " + ("one more drop" if number > count else f"drop, reading {number}"),
        when=lambda about: all(about.value(leaf) is not None for leaf in ("run.1", "drop.1", "drop.2", "drop.3")),
        optional=yes,
        drawing="elevation",
    )


def _drop_at(number: int) -> Ask:
    further = number > LEAST_READINGS
    return Ask(
        f"drop_at.{number}",
        "Where along the section was that read?",
        "From {left}, along the run. The first three lie at the ends and in the middle unless you say otherwise. The"
        " readings are then put in order along the rail.",
        title=f"{{section}}: place of drop reading {number}",
        when=lambda about: about.value(f"drop.{number}") is not None,
        optional=no if further else yes,
        quiet=no if further else yes,
        drawing="elevation",
    )


def _uneven(about: About) -> bool:
    spread = about.figure(f"section.{about.section}.spread")
    tolerance = about.holds_at("allowances.floor_tolerance")
    return about.value("hem_line") is not None or (spread is not None and spread > tolerance)


def _spread(about: About) -> str:
    spread: Length | None = about.figure(f"section.{about.section}.spread")
    return "what lies between them" if spread is None else shown(spread, ruler_of(about.job))


def _price_of_both(about: About) -> str:
    spread = _spread(about)
    return (
        f"Level: nothing more to do and the hem is straight, but up to {spread} more daylight shows where the floor is"
        f" lowest. Follow the floor: the same daylight all along, but every piece is cut {spread} longer, and the hem"
        f" is"
        " measured from the top, folded and trimmed by hand at every mark."
    )


def _how_uneven(about: About) -> str:
    return f"The floor is uneven here, by {_spread(about)}. Is the hem to be level, or to follow the floor?"


HEM: Final = (
    Ask(
        "hem_line",
        _how_uneven,
        _price_of_both,
        when=_uneven,
        usual=lambda about: "level",
        drawing="elevation",
    ),
    Ask(
        "floor_gap",
        "How much daylight is wanted under the hem of this section?",
        "Only where it is not as under the whole skirt.",
        optional=yes,
        quiet=yes,
        drawing="elevation",
    ),
    Ask(
        "rug",
        "How thick is a rug that will lie under this hem?",
        "Only for one that was not there when you read the drops: the hem then ends higher, by its thickness.",
        "length or zero",
        optional=yes,
        quiet=yes,
        drawing="elevation",
    ),
    Ask(
        "raised",
        "How far above the rail's lower edge is the cloth of this section to begin?",
        "Only where it is not as on the whole bed.",
        optional=yes,
        quiet=yes,
        drawing="top",
    ),
)

THE_TOP: Final = (
    Ask(
        "fixing_face",
        "Where can the tape be fixed to this rail?",
        "Feel behind it. A footboard or a thick panel often has no inner face that one can reach: then the tape goes to"
        " its lower back edge.",
        usual=lambda about: "inner face",
        stands=yes,
        quiet=_is_side_rail,
        drawing="top",
    ),
    Ask(
        "free_height",
        "How high is the free part of the rail's inner face, below the ledger?",
        "From the rail's lower edge up to the ledger or the cleat that carries the slats. The folded tape has to find"
        " room there. Where the ledger stops short of this section, give the whole height of the rail.",
        when=_has_ledger,
        drawing="top",
    ),
)
