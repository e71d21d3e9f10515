"""The pages about each side, what is in its way, and the hem line over an uneven floor."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.added_entries import mirrored_readings
from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.bed_pages import has_ledger
from wizard.interview.page import Copy, Page
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import first_up, obstacle_name
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.job_fields import Job, Obstacle, Section
from wizard.trade.lengths import Length
from wizard.trade.sections import SIDES, at_the_end, section_name, sections_on, side_of

MOST_DROPS: Final = 12
"""Most drop readings asked for in one section."""
PLUMB: Final = (
    "From the rail's lower edge straight down to what the hem will touch. Let the tape hang plumb, with the slats and"
    " the mattress on the bed, and read it twice."
)


def side_pages(about: About) -> Iterator[Page]:
    """Every section, and after it each thing in its way."""
    for section_id, section in sections_on(about.job):
        of_section = about_section(about, section_id)
        yield _side(of_section, section)
        for thing_id, thing in section.in_the_way.items():
            yield _thing(of_section, thing_id, thing)


def about_section(about: About, section_id: str) -> About:
    """What the questions about a section may name."""
    section, name = about.job.survey.section[section_id], section_name(about.job, section_id)
    side = side_of(section_id, section)
    words = {
        "section": name,
        "plain": f"{section_id} section",
        "left": at_the_end(side, "left"),
        "right": at_the_end(side, "right"),
    }
    return replace(
        about, prefix=f"survey.section.{section_id}.", group=name, section=section_id, words=words, stage="Survey"
    )


def _side(about: About, section: Section) -> Page:
    own_rail, own_face = about.project.progress.rails_alike is False, _has_its_own_face(about)
    count = max(len(section.drop), LEAST_READINGS)
    drops = tuple(_drop(number, count) for number in range(1, count + 1))
    places = tuple(_drop_at(number) for number in range(1, LEAST_READINGS + 1))
    added = tuple(_drop_at(number) for number in range(LEAST_READINGS + 1, count + 1))
    at_once = (
        *((SIDE,) if about.section not in SIDES else ()),
        *(OWN_RAIL if own_rail else ()),
        *RUNS,
        *drops[:LEAST_READINGS],
        *((FIXING_FACE,) if own_face else ()),
        *(each for pair in zip(drops[LEAST_READINGS:], added, strict=True) for each in pair),
        *((_another(count + 1),) if count < MOST_DROPS else ()),
        IN_THE_WAY,
    )
    more = (
        NAME,
        *places,
        *OWN_FLOOR,
        *(() if own_rail else OWN_RAIL),
        *(() if own_face else (FIXING_FACE,)),
        *((FREE_HEIGHT,) if has_ledger(about, section) else ()),
        *POSTS_MET,
        *HOOKS,
    )
    return Page(
        f"side.{about.section}", "Survey", f"{first_up(about.group)}, seen from the room",
        "Lay the tape along the rail from post to post, then near the floor. Drops: from the rail's lower edge straight"
        " down to what the hem will touch.",
        tuple(asked(at_once, about)), tuple(asked(more, about)), "side", about.section or "", _copy(about, section),
    )  # fmt: skip


def _has_its_own_face(about: About) -> bool:
    """True where the tape may have no inner face to go on: at the foot and the head."""
    return side_of(about.section or "", about.job.survey.section[about.section or ""]) in ("foot", "head")


_ACROSS: Final = {"left": "right", "right": "left", "foot": "head", "head": "foot"}


def _copy(about: About, section: Section) -> Copy | None:
    """The side across the bed, mirrored, where it is read and this one is not."""
    other_id = _ACROSS.get(about.section or "")
    other = about.job.survey.section.get(other_id or "")
    if other is None or other_id is None or any((*section.run, *section.drop)) or len(other.drop) < LEAST_READINGS:
        return None
    entries = mirrored_readings(about.project, other_id, about.prefix)
    return Copy(f"Same as the {section_name(about.job, other_id)}", entries) if entries else None


SIDE: Final = Ask("side", "On which side of the bed does it hang?", "As you see it from the foot.", "side")
NAME: Final = Ask(
    "name",
    "What do you call this section?",
    "Leave it empty for “{plain}”. A name such as “window side” helps at the cutting table.",
    "name",
    optional=yes,
    example="window side",
)
OWN_RAIL: Final = (
    Ask("rail", "What is the rail of this section made of?", "Only if it differs from the others.", "rail",
        optional=yes),
    Ask("rail_thickness", "How thick is the rail of this section?", "Only if it differs from the others.",
        "rail thickness", optional=yes),
)  # fmt: skip
RUNS: Final = (
    Ask(
        "run.1",
        "How long is the run at the rail?",
        "The run is how far the skirt goes along the rail, which is what you see. Lay the tape along the rail, from the"
        " face of one post to the face of the next; where the skirt stops short of a post, only as far as it goes.",
        "run at the rail",
    ),
    Ask(
        "run.2",
        "How long is the run near the floor?",
        "The same length, as low as you can reach: a difference shows that a post leans. If you cannot get at it, give"
        " the reading at the rail again.",
        "run near the floor",
    ),
)


def _drop(number: int, count: int) -> Ask:
    """One of the three at the ends and in the middle; where there are more, one of a row."""
    where = {1: "at {left}", 2: "in the middle", 3: "at {right}"}.get(number, "")
    if count > LEAST_READINGS:
        where = f"at reading {number}, counted from {{left}}"
    return Ask(
        f"drop.{number}",
        f"How far is it from the rail to the floor, {where}?",
        PLUMB,
        f"drop {where}" if count <= LEAST_READINGS else f"drop {number}",
        f"{{section}}: drop {where}" if count <= LEAST_READINGS else f"{{section}}: drop, reading {number}",
        optional=lambda about: number > LEAST_READINGS,
    )


def _another(number: int) -> Ask:
    return Ask(
        f"drop.{number}",
        "Another drop reading? Leave it empty if there is none.",
        "Where the floor has a dip or a bump between the readings. " + PLUMB,
        "another drop",
        "{section}: another drop",
        when=lambda about: all(about.value(leaf) is not None for leaf in ("run.1", "drop.1", "drop.2", "drop.3")),
        optional=yes,
        extra=True,
    )


def _drop_at(number: int) -> Ask:
    return Ask(
        f"drop_at.{number}",
        "Where along the section did you read that drop?",
        "From {left}, along the run. The first three are at the ends and in the middle unless you say otherwise. The"
        " readings are then put in order along the rail.",
        f"place of drop {number}",
        f"{{section}}: place of drop reading {number}",
        when=lambda about: about.value(f"drop.{number}") is not None,
        optional=lambda about: number <= LEAST_READINGS,
    )


FIXING_FACE: Final = Ask(
    "fixing_face",
    "Where can you fix the tape to this rail?",
    "Feel behind it. A footboard or a thick panel often has no inner face you can reach: then the tape goes to its"
    " lower back edge.",
    "tape goes on",
    usual=lambda about: "inner face",
    stands=yes,
)
IN_THE_WAY: Final = Ask(
    "in_the_way",
    "Is anything in the way along this section? Type what it is, or leave it empty.",
    "A centre leg, a bracket, the cover of a bed bolt, a drawer, a heater, a vent, a socket: anything the cloth would"
    " hang against, or that keeps a fixing from its place.",
    "in the way along here",
    "{section}: in the way",
    optional=yes,
    example="centre leg",
)
OWN_FLOOR: Final = (
    Ask("floor_gap", "How large is the gap under the hem of this section?", "Only if it differs from the others.",
        "own gap under the hem", optional=yes),
    Ask("rug", "How thick is a rug that will lie under this hem?",
        "Only for one that was not there when you read the drops: the hem then ends higher, by its thickness.",
        "rug to come", optional=yes),
    Ask("raised", "How far above the rail's lower edge does the cloth of this section begin?",
        "Only if it differs from the others.", "own drop line", optional=yes),
)  # fmt: skip
FREE_HEIGHT: Final = Ask(
    "free_height",
    "How high is the rail's inner face below the ledger, on this section?",
    "From the rail's lower edge up to the ledger. Where the ledger stops short of this section, give the whole height"
    " of the rail.",
    "own free height",
    optional=yes,
    later=True,
)
POSTS_MET: Final = tuple(
    Ask(
        f"{end}_post",
        f"Which post does the section meet at {{{end}}}?",
        "Leave it empty for the post at the corner of the bed, or for none where the next section goes on. Name another"
        " where the section ends at a leg in between.",
        f"post at {{{end}}}",
        when=lambda about, end=end: about.value(f"{end}_end") != "stops short",  # type: ignore[misc]
        optional=yes,
        example="middle leg",
    )
    for end in ("left", "right")
)
HOOKS: Final = tuple(
    Ask(
        f"{end}_hook",
        f"How far does a hook plate or bolt reach along the rail at {{{end}}}?",
        "From the end of the run to where the rail is free again: nothing can be fixed there. Empty for none.",
        f"hook plate at {{{end}}}",
        optional=yes,
        later=True,
    )
    for end in ("left", "right")
)


def _thing(about: About, thing_id: str, thing: Obstacle) -> Page:
    """One thing in the way; what it is is asked where its name does not say it."""
    start = "the bed's left" if _has_its_own_face(about) else "the head"
    name = obstacle_name(thing_id, thing)
    of_thing = replace(
        about,
        prefix=f"{about.prefix}in_the_way.{thing_id}.",
        words={**about.words, "thing": name, "from": start},
    )
    unclear = thing.kind is None
    return Page(
        f"thing.{about.section}.{thing_id}", "Survey", f"{first_up(about.group)}: {name}",
        "Measure along the rail to its middle. The cloth can hang past it, be split there, or keep clear of it.",
        tuple(asked((*((KIND,) if unclear else ()), *A_THING), of_thing)),
        tuple(asked((THING_NAME, *(() if unclear else (KIND,))), of_thing)),
        "thing", f"{about.section}.{thing_id}",
    )  # fmt: skip


THING_NAME: Final = Ask(
    "name", "What do you call it?", "It is printed under this name on the sheets.", "name",
    optional=yes, example="centre leg",
)  # fmt: skip
KIND: Final = Ask(
    "kind",
    "What kind of thing is “{thing}”?",
    "Heaters, vents and sockets bring their caution; the others only change where fixings go.",
    "kind",
)


def _overlap_offered(about: About) -> str:
    """Two inches, or five centimetres: enough for two gathered parts to read as one."""
    return about.text(Length(2) if about.standard == "inches" else Length.of(5, "cm"))


A_THING: Final = (
    Ask("at", "Where along the run is its middle, measured from {from}?", "Along the rail, from {from} to its middle.",
        "middle, from {from}"),
    Ask("width", "How wide is it, along the run?", "From one side of it to the other.", "width"),
    Ask("height", "How high does it reach above the floor?", "Up to its top. Leave it empty if it does not matter.",
        "height", optional=yes),
    Ask("do", "What does the skirt do there?",
        "The cloth can hang past it with no fixing there, be split in two parts that overlap, or keep clear of it.",
        "the skirt", usual=lambda about: "no fixing"),
    Ask("overlap", "How far do the two parts overlap?", "Enough that no gap shows when the cloth moves.", "overlap",
        when=lambda about: about.value("do") == "split here", usual=_overlap_offered),
)  # fmt: skip


def hem_page(about: About) -> Page | None:
    """Level or following the floor, for every uneven section; ruled out once every floor is known to be level."""
    sections = sections_on(about.job)
    uneven = [id for id, each in sections if each.hem_line is not None or _is_uneven(about, id)]
    if not uneven:
        read = all(about.figure(f"section.{id}.spread") is not None for id, _ in sections)
        return None if sections and read else Page("hem", "Survey", "Hem line", "", ())
    keys = tuple(f"survey.section.{id}.hem_line" for id in uneven)
    own = (replace(each, words=HEM_WORDS) for id in uneven for each in asked((OWN_HEM,), about_section(about, id)))
    worst = max(uneven, key=lambda id: about.figure(f"section.{id}.spread") or Length(0))
    whole = replace(HEM, words=HEM_WORDS, keys=lambda about: keys, how=_price_of_both(about, worst))
    return Page(
        "hem", "Survey", "Hem line",
        f"The floor is uneven: {_worst_words(about, uneven)}. A level hem looks straight; a hem that follows the floor "
        "keeps the same gap all along.",
        tuple(asked((whole,), about)), tuple(own), "hem", worst,
    )  # fmt: skip


HEM_WORDS: Final = "Is the hem level, or does it follow the floor?"
HEM: Final = Ask("hem.line", "", "", "hem", "level hem, or following the floor", usual=lambda about: "level",
                 compound="same")  # fmt: skip
OWN_HEM: Final = Ask("hem_line", "", "Only if it differs from the others.", "hem of the {plain}", optional=yes)


def _is_uneven(about: About, section_id: str) -> bool:
    spread = about.figure(f"section.{section_id}.spread")
    return spread is not None and spread > about.holds_at("allowances.floor_tolerance")


def _spread(job: Job, spread: Length | None) -> str:
    return "by some" if spread is None else f"by {shown(spread, ruler_of(job))}"


def _worst_words(about: About, uneven: list[str]) -> str:
    return ", ".join(
        f"{section_name(about.job, id)} {_spread(about.job, about.figure(f'section.{id}.spread'))}" for id in uneven
    )


def _price_of_both(about: About, worst: str) -> str:
    spread = _spread(about.job, about.figure(f"section.{worst}.spread")).removeprefix("by ")
    return (
        f"Level: nothing more to do, but the gap is up to {spread} larger where the floor is lowest. Follow the floor: "
        f"every piece is cut {spread} longer, and you measure the hem from the top, fold it and trim it at every mark."
    )
