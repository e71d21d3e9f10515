"""The pages about what holds the skirt to the rail, tape and thread, and the table of allowances."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import words_for
from wizard.interview.page import Page
from wizard.interview.pages.ask import AT_ONCE, About, Ask, asked, keys_of, page, yes
from wizard.interview.pages.cloth_pages import about_layer, is_inner
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.trade.figures import value_at
from wizard.trade.findings.fixing_findings import COMES_OFF, SUITS
from wizard.trade.fixings import IN_A_ROW, SPACINGS
from wizard.trade.job_fields import LAYERS, FixingKind, SoldBy
from wizard.trade.sections import sections_on

BY_THE_LENGTH: Final = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings that are sold by the length and run along the whole tape."""
DRIVEN: Final = ("staples", "tacks")
"""Fixings with a leg that goes into the rail."""


def supply_pages(about: About) -> Iterator[Page]:
    """What holds it, with prices at once where the face cloth has one; then every allowance in one table, the first
    eight that apply at once."""
    notions = replace(about, stage="Cloth", group="notions", words={"what": _what_is_priced(about)})
    priced = about.value("cloth.face.price") is not None
    at_once, more = (PRICES, SOLD) if priced else ((), (*PRICES, *SOLD))
    yield page("fixing", notions, (*FIXING, *at_once), more, "fixing")
    about = replace(about, stage="Cloth", group="allowances")
    layers = [about_layer(about, each) for each in LAYERS]
    used = [each for each in layers if not is_inner(each) or each.value("use")]
    table = [
        *asked(SEAMS, about),
        *(row for each in used for row in asked((HEM,), each)),
        *(row for each in used if is_inner(each) for row in asked(_setbacks(each), each)),
        *asked((TRIM,), used[0]),
        *asked(PIECES, about),
        *(row for each in used for row in asked(OF_A_CLOTH, each)),
        *asked(OF_NOTIONS, about),
    ]
    own = any(value_at(about.project, keys_of(*each)[0]) is not None for each in table)
    whose = "These are your own values." if own else "All of this is common practice and good for nearly every skirt."
    yield page(
        "allowances",
        about,
        table[:AT_ONCE],
        table[AT_ONCE:],
        "pieces",
        says={"Whose": whose},
        confirms=("progress.usual_allowances",),
    )


def _kind(about: About) -> str | None:
    kind: str | None = about.value("cloth.fixing.kind")
    return kind


def fixings_offered(about: About) -> tuple[Choice, ...]:
    """What suits every rail, or else any of them; what comes off again first where the skirt comes off often."""
    rails = {section.rail or about.job.survey.rail for _, section in sections_on(about.job)} | {about.job.survey.rail}
    suited = [SUITS[rail] for rail in rails if rail is not None]
    together = [each for each in choices()[FixingKind] if all(each.value in some for some in suited)]
    offered = together or [each for each in choices()[FixingKind] if any(each.value in some for some in suited)]
    if about.value("survey.taken_off") == "often":
        offered.sort(key=lambda each: each.value not in COMES_OFF)
    return tuple(offered)


def _unit(about: About) -> str:
    """The unit that hook-and-loop is sold by, in words."""
    return words_for(choices()[SoldBy], about.holds("cloth.fixing.sold_by")).removeprefix("the ")


def _what_is_priced(about: About) -> str:
    return "a pack of fixings" if _kind(about) in IN_A_ROW else f"one {_unit(about)} of hook-and-loop"


def _spacing(about: About) -> str | None:
    pair = SPACINGS.get(_kind(about) or "")
    return about.text(*pair) if pair else None


FIXING: Final = (
    Ask("survey.taken_off"),
    Ask("cloth.fixing.kind", choices=fixings_offered, usual=lambda about: fixings_offered(about)[0].value),
)
PRICES: Final = (
    Ask("cloth.fixing.pack", when=lambda about: _kind(about) in IN_A_ROW, optional=yes),
    Ask("cloth.fixing.price", when=lambda about: _kind(about) in (*IN_A_ROW, *BY_THE_LENGTH), optional=yes),
    Ask("cloth.tape.price", optional=yes),
    Ask("cloth.thread.price", optional=yes),
)
SOLD: Final = (
    Ask("cloth.fixing.sold_by", when=lambda about: _kind(about) in BY_THE_LENGTH),
    Ask("cloth.fixing.step", when=lambda about: _kind(about) in BY_THE_LENGTH),
    Ask("cloth.tape.sold_by"),
    Ask("cloth.tape.step"),
    Ask("cloth.thread.spool"),
)


def _allowances(*leaves: str) -> tuple[Ask, ...]:
    """What is usual, and written only where it is changed."""
    return tuple(Ask(leaf, by_change=True) for leaf in leaves)


SEAMS: Final = _allowances("allowances.join", "allowances.end_hem", "allowances.top")
HEM: Final = Ask("hem", by_change=True)


def _setbacks(about: About) -> tuple[Ask, ...]:
    """One answer for both while they are alike."""
    alike = about.holds("setback") == about.holds("end_setback")
    keys = (f"{about.prefix}setback", f"{about.prefix}end_setback")
    both = Ask(f"{about.prefix}setbacks", "cloth.setbacks", compound="same", keys=lambda about: keys, by_change=True)
    return (both,) if alike else SETBACKS


SETBACKS: Final = _allowances("setback", "end_setback")
TRIM: Final = Ask("trim", by_change=True)
PIECES: Final = _allowances(
    "allowances.least_piece",
    "cloth.tape.width",
    "allowances.squaring",
    "allowances.floor_tolerance",
    "allowances.run_tolerance",
)
OF_A_CLOTH: Final = (
    replace(TRIM, when=is_inner),
    Ask("hem_kind", by_change=True),
    Ask("hem_turn", when=lambda about: about.holds("hem_kind") == "single", by_change=True),
    Ask("join", when=is_inner, by_change=True),
    Ask("lap", when=lambda about: is_inner(about) and about.holds("join") == "lap", by_change=True),
)
LEGS: Final = tuple(f"cloth.fixing.legs.{number}" for number in range(1, 7))
OF_NOTIONS: Final = (
    Ask("cloth.tape.turn_under", by_change=True),
    Ask(
        "cloth.fixing.spacing",
        when=lambda about: _spacing(about) is not None,
        usual=_spacing,
        stands=yes,
        by_change=True,
    ),
    Ask("cloth.fixing.inset", when=lambda about: _kind(about) is not None, by_change=True),
    Ask(
        "fixing.legs",
        compound="legs",
        keys=lambda about: LEGS,
        when=lambda about: _kind(about) in DRIVEN,
        optional=yes,
        example="[1/4 in, 3/8 in|6 mm, 10 mm]",
    ),
    *_allowances("cloth.thread.ratio", "cloth.thread.waste"),
)
