"""Questions about tape, thread and what holds the skirt to the rail."""

from __future__ import annotations

from typing import Final

from wizard.interview.ask import About, Ask, yes
from wizard.interview.choices import CHOICES, words_for
from wizard.interview.question import Choice
from wizard.trade.findings.fixing_findings import COMES_OFF, SUITS
from wizard.trade.fixings import IN_A_ROW, SPACINGS
from wizard.trade.job_fields import FixingKind, SoldBy
from wizard.trade.sections import sections_on

BY_THE_LENGTH: Final = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings that are sold by the length and run along the whole tape."""
DRIVEN: Final = ("staples", "tacks")
"""Fixings with a leg that goes into the rail."""


def _no_prices(about: About) -> bool:
    """Who left the price of the cloth empty is not asked for the others."""
    return about.value("cloth.face.price") is None


def _kind(about: About) -> str | None:
    kind: str | None = about.value("cloth.fixing.kind")
    return kind


def fixings_offered(about: About) -> tuple[Choice, ...]:
    """What suits every rail, or else any of them; what comes off again first where the skirt is to come off often."""
    rails = {section.rail or about.job.survey.rail for _, section in sections_on(about.job)} | {about.job.survey.rail}
    suited = [SUITS[rail] for rail in rails if rail is not None]
    together = [each for each in CHOICES[FixingKind] if all(each.value in some for some in suited)]
    offered = together or [each for each in CHOICES[FixingKind] if any(each.value in some for some in suited)]
    if about.value("survey.taken_off") == "often":
        offered.sort(key=lambda each: each.value not in COMES_OFF)
    return tuple(offered)


def _unit(about: About) -> str:
    """The unit that hook-and-loop is sold by, in words."""
    return words_for(CHOICES[SoldBy], about.holds("cloth.fixing.sold_by")).removeprefix("the ")


def _price_of_fixings(about: About) -> str:
    return f"What does {'a pack of them' if _kind(about) in IN_A_ROW else f'one {_unit(about)} of it'} cost?"


def _spacing(about: About) -> str | None:
    pair = SPACINGS.get(_kind(about) or "")
    return None if pair is None else about.text(pair[0 if about.standard == "inches" else 1])


TAKEN_OFF: Final = Ask(
    "survey.taken_off",
    "How often is the skirt to come off for cleaning?",
    "It decides what it should be fixed with: staples are pulled out one by one.",
)

FIXING: Final = (
    Ask(
        "cloth.fixing.kind",
        "What is to hold the tape to the rail?",
        "Offered is what suits the rail, and how often the skirt comes off. Staples, tacks, glue, magnets, upholstery"
        " pins or hook-and-loop may be typed all the same; a finding then says what is against it.",
        choices=fixings_offered,
        usual=lambda about: fixings_offered(about)[0].value,
        drawing="top",
    ),
    Ask(
        "cloth.fixing.pack",
        "How many are there in a pack?",
        "It says how many packs to buy. Leave it empty if it does not matter.",
        when=lambda about: _kind(about) in IN_A_ROW,
        optional=yes,
        quiet=_no_prices,
    ),
    Ask(
        "cloth.fixing.price",
        _price_of_fixings,
        "Leave it empty if the cost does not matter.",
        when=lambda about: _kind(about) in (*IN_A_ROW, *BY_THE_LENGTH),
        optional=yes,
        quiet=_no_prices,
    ),
    Ask(
        "cloth.fixing.sold_by",
        "What is the hook-and-loop sold by?",
        "The unit that its price is for.",
        when=lambda about: _kind(about) in BY_THE_LENGTH,
        quiet=yes,
    ),
    Ask(
        "cloth.fixing.step",
        "In what steps is it cut?",
        "What is to be bought is rounded up to a whole number of these.",
        when=lambda about: _kind(about) in BY_THE_LENGTH,
        quiet=yes,
    ),
)

TAPE: Final = (
    Ask(
        "cloth.tape.sold_by",
        "What is the tape sold by?",
        "The unit that its price is for. The tape is a flat twill tape, folded over the raw top edge of the skirt.",
        quiet=yes,
        drawing="top",
    ),
    Ask(
        "cloth.tape.step",
        "In what steps is the tape cut?",
        "What is to be bought is rounded up to a whole number of these.",
        quiet=yes,
    ),
    Ask(
        "cloth.tape.price",
        "What does the tape cost, for one unit it is sold by?",
        "Leave it empty if the cost does not matter.",
        optional=yes,
        quiet=_no_prices,
    ),
)

THREAD: Final = (
    Ask(
        "cloth.thread.spool",
        "How much thread is there on a spool?",
        "It stands on its end.",
        quiet=yes,
    ),
    Ask(
        "cloth.thread.price",
        "What does a spool cost?",
        "Leave it empty if the cost does not matter.",
        optional=yes,
        quiet=_no_prices,
    ),
)

NOTIONS: Final = (TAKEN_OFF, *FIXING, *TAPE, *THREAD)
SPACING: Final = Ask(
    "cloth.fixing.spacing",
    "How far apart may fixings be at most?",
    "Closer holds better and takes longer. The true spacing is evened out and never more than this.",
    when=lambda about: _spacing(about) is not None,
    usual=_spacing,
    stands=yes,
    drawing="top",
)
"""Asked with the allowances."""
