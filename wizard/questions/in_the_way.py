"""Questions about things in the way along a section."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.questions import choices
from wizard.questions.asking import About, Ask, asked, no, yes
from wizard.questions.question import Question
from wizard.trade.field_names import obstacle_name
from wizard.trade.lengths import Length
from wizard.trade.model import Section
from wizard.trade.sections import side_of


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
        "text",
        optional=yes,
        quiet=yes,
        example="centre leg",
    ),
    Ask(
        "kind",
        "What is {thing}?",
        "Heaters, vents and sockets bring their caution; the others only change where fixings go.",
        "choice",
        choices=choices.OBSTACLES,
        drawing="elevation",
        picked="in_the_way",
    ),
    Ask(
        "at",
        "Where along the run is its middle, measured from {from}?",
        "{thing}: along the rail, from {from} to the middle of it.",
        "length or zero",
        drawing="elevation",
        picked="in_the_way",
    ),
    Ask(
        "width",
        "How wide is it, along the run?",
        "{thing}: from one side of it to the other.",
        "length",
        drawing="elevation",
        picked="in_the_way",
    ),
    Ask(
        "height",
        "How high does it reach above the floor?",
        "{thing}: up to its top. Leave it empty if it does not matter.",
        "length or zero",
        optional=yes,
        drawing="elevation",
        picked="in_the_way",
    ),
    Ask(
        "do",
        "What is to be done about it?",
        "{thing}: the cloth can hang past it with no fixing there, be split in two parts that lie over each other,"
        " or be"
        " kept clear of it.",
        "choice",
        choices=choices.TO_DO,
        usual=lambda about: "no fixing",
        stands=no,
        drawing="elevation",
        picked="in_the_way",
    ),
    Ask(
        "overlap",
        "How far are the two parts to lie over each other?",
        "{thing}: enough that no gap shows when the cloth moves.",
        "length or zero",
        when=lambda about: about.value("do") == "split here",
        usual=_overlap_offered,
        stands=no,
        drawing="elevation",
        picked="in_the_way",
    ),
)

ONE_MORE: Final = Ask(
    "in_the_way",
    "Is there {more} in the way along this section? Name it, or leave it empty to go on.",
    "A centre leg, a bracket, the cover of a bed bolt, a drawer, a heater, a vent, a socket: all that the cloth"
    " would hang"
    " against, or that keeps a fixing from its place.",
    "add",
    title="{section}: in the way",
    optional=yes,
    drawing="elevation",
    picked="in_the_way",
)
