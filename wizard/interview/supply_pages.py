"""The pages about what holds the skirt to the rail, tape and thread, and the table of allowances."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.choices import CHOICES, words_for
from wizard.interview.cloth_pages import about_layer, is_inner
from wizard.interview.page import Page
from wizard.interview.question import Choice, Question
from wizard.trade.findings.fixing_findings import COMES_OFF, SUITS
from wizard.trade.fixings import IN_A_ROW, SPACINGS
from wizard.trade.job_fields import LAYERS, FixingKind, SoldBy
from wizard.trade.sections import sections_on

BY_THE_LENGTH: Final = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings that are sold by the length and run along the whole tape."""
DRIVEN: Final = ("staples", "tacks")
"""Fixings with a leg that goes into the rail."""
AT_ONCE: Final = 8


def fixing_page(about: About) -> Page:
    """What holds the tape to the rail; prices at once where the face cloth has one."""
    priced = about.value("cloth.face.price") is not None
    return Page(
        "fixing", "Cloth", "How it is fixed",
        "The tape is a flat twill tape, folded over the raw top edge of the skirt; it is fixed to the rail. What comes "
        "off often should not be stapled.",
        tuple(asked((*FIXING, *(PRICES if priced else ())), about)),
        tuple(asked((*(() if priced else PRICES), *SOLD), about)), "fixing",
    )  # fmt: skip


def allowances_page(about: About) -> Page:
    """All of them in one table: the first eight that apply, the rest behind More."""
    layers = [about_layer(about, each) for each in LAYERS]
    used = [each for each in layers if not is_inner(each) or each.value("use")]
    first = [
        *asked(SEAMS, about),
        *(question for each in used for question in asked((HEM,), each)),
        *(question for each in used if is_inner(each) for question in asked(_setbacks(each), each)),
        *asked((TRIM,), used[0]),
        *asked(PIECES, about),
    ]
    rest = [*(question for each in used for question in asked(OF_A_CLOTH, each)), *asked(OF_NOTIONS, about)]
    told = [about.value(each.key) for each in first]
    words = (
        "These are your own values; F8 keeps them all."
        if any(each is not None for each in told)
        else "All of this is common practice and good for nearly every skirt. Change what you do another way; F8 keeps "
        "the rest."
    )
    return Page(
        "allowances", "Cloth", "What the pieces allow for", words,
        _first(first), _rest(first, rest), "pieces", confirms=("progress.usual_allowances",),
    )  # fmt: skip


def _first(questions: list[Question]) -> tuple[Question, ...]:
    return tuple(questions[:AT_ONCE])


def _rest(questions: list[Question], more: list[Question]) -> tuple[Question, ...]:
    return (*questions[AT_ONCE:], *more)


def _kind(about: About) -> str | None:
    kind: str | None = about.value("cloth.fixing.kind")
    return kind


def fixings_offered(about: About) -> tuple[Choice, ...]:
    """What suits every rail, or else any of them; what comes off again first where the skirt comes off often."""
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


def _what_is_priced(about: About) -> str:
    return "a pack of fixings" if _kind(about) in IN_A_ROW else f"one {_unit(about)} of hook-and-loop"


def _spacing(about: About) -> str | None:
    pair = SPACINGS.get(_kind(about) or "")
    return None if pair is None else about.text(pair[0 if about.standard == "inches" else 1])


FIXING: Final = (
    Ask("survey.taken_off", "How often does the skirt come off for cleaning?",
        "It decides how to fix it: staples are pulled out one by one.", "comes off"),
    Ask("cloth.fixing.kind", "What holds the tape to the rail?",
        "You are offered what suits the rail, and how often the skirt comes off. You can type staples, tacks, glue,"
        " magnets, upholstery pins or hook-and-loop all the same; a warning then says what is against it.", "fixing",
        choices=fixings_offered, usual=lambda about: fixings_offered(about)[0].value),
)  # fmt: skip
PRICES: Final = (
    Ask("cloth.fixing.pack", "How many fixings are there in a pack?",
        "It says how many packs to buy. Leave it empty if it does not matter.", "fixings in a pack",
        when=lambda about: _kind(about) in IN_A_ROW, optional=yes),
    Ask("cloth.fixing.price", lambda about: f"What does {_what_is_priced(about)} cost?",
        "Leave it empty if the cost does not matter.", lambda about: f"price of {_what_is_priced(about)}",
        when=lambda about: _kind(about) in (*IN_A_ROW, *BY_THE_LENGTH), optional=yes),
    Ask("cloth.tape.price", "What does the tape cost, for one unit it is sold by?",
        "Leave it empty if the cost does not matter.", "price of tape", optional=yes),
    Ask("cloth.thread.price", "What does a spool of thread cost?", "Leave it empty if the cost does not matter.",
        "price of a spool", optional=yes),
)  # fmt: skip
_STEPS: Final = "What you buy is rounded up to a whole number of these."
SOLD: Final = (
    Ask("cloth.fixing.sold_by", "What is the hook-and-loop sold by?", "The unit that its price is for.",
        "hook-and-loop sold by", when=lambda about: _kind(about) in BY_THE_LENGTH),
    Ask("cloth.fixing.step", "In what steps is the hook-and-loop cut?", _STEPS, "its step",
        when=lambda about: _kind(about) in BY_THE_LENGTH),
    Ask("cloth.tape.sold_by", "What is the tape sold by?", "The unit that its price is for.", "tape sold by"),
    Ask("cloth.tape.step", "In what steps is the tape cut?", _STEPS, "tape's step"),
    Ask("cloth.thread.spool", "How much thread is on a spool?", "It is printed on its end.", "thread on a spool"),
)  # fmt: skip

SEAMS: Final = (
    Ask("allowances.join", "How wide is a join seam, on each side?", "Every join costs twice this in width.",
        "join seam, each side", by_change=True),
    Ask("allowances.end_hem", "How much cloth does the hem at each end take?",
        "All of it: 1 in makes a hem of 1/2 in turned twice.", "hem at each end", by_change=True),
    Ask("allowances.top", "How far above the drop line is the raw top edge?",
        "At least 1/2 in (1.5 cm), and at most half the tape, so that the folded tape hides it.",
        "above the drop line", by_change=True),
)  # fmt: skip
HEM: Final = Ask("hem", "How deep is the hem of the {layer}, as finished?", "Turned twice, it takes twice this.",
                 "hem of the {layer}", by_change=True)  # fmt: skip


def _setbacks(about: About) -> tuple[Ask, ...]:
    """One answer for both while they are alike."""
    alike = about.holds("setback") == about.holds("end_setback")
    return (replace(SETBACK, leaf=f"{about.prefix}setbacks"),) if alike else SETBACKS


SETBACK: Final = Ask(
    "",
    "How much shorter than the face is the {layer}, below and at the ends?",
    "So that it never shows.",
    "{layer} shorter by",
    title="{layer}: how much shorter than the face",
    compound="same",
    keys=lambda about: (f"{about.prefix}setback", f"{about.prefix}end_setback"),
    by_change=True,
)
SETBACKS: Final = (
    Ask("setback", "How much shorter than the face is the {layer}, below?", "So that it never shows.",
        "{layer} shorter below", by_change=True),
    Ask("end_setback", "How much shorter than the face is the {layer}, at each end?", "So that it never shows.",
        "{layer} shorter at the ends", by_change=True),
)  # fmt: skip
TRIM: Final = Ask("trim", "How much selvedge is trimmed off the {layer}, on each side?",
                  "The woven edge puckers and is never sewn in.", "selvedge of the {layer}, each side",
                  by_change=True)  # fmt: skip
PIECES: Final = (
    Ask("allowances.least_piece", "How narrow may a piece be?",
        "A very narrow piece looks patched. A larger least piece can cost a little cloth.", "narrowest piece allowed",
        by_change=True),
    Ask("cloth.tape.width", "How wide is the tape, before you fold it?",
        "Half of it goes on either side of the skirt's top edge.", "tape, unfolded", by_change=True),
    Ask("allowances.squaring", "How much do you cut off to square the end of each length?",
        "Cloth from the shop is seldom cut straight across.", "squaring each length", by_change=True),
    Ask("allowances.floor_tolerance", "How far may the drops of a section differ before the floor counts as uneven?",
        "Within it the hem is level, from the least reading.", "floor tolerance", by_change=True),
    Ask("allowances.run_tolerance", "How far may the two readings of a run differ before a post counts as leaning?",
        "Beyond it you are asked to read again.", "run tolerance", by_change=True),
)  # fmt: skip
OF_A_CLOTH: Final = (
    replace(TRIM, when=is_inner),
    Ask("hem_kind", "How is the hem of the {layer} turned?", "Turned twice it hangs better and never frays.",
        "hem of the {layer} turned", by_change=True),
    Ask("hem_turn", "How much is turned under on the hem of the {layer}?", "The raw edge, once.",
        "turned under, {layer}", when=lambda about: about.holds("hem_kind") == "single", by_change=True),
    Ask("join", "How are the widths of the {layer} joined?", "A lap is flatter in a thick layer that you do not see.",
        "joins of the {layer}", when=is_inner, by_change=True),
    Ask("lap", "How far does one edge of the {layer} overlap the other?", "Every join costs this in width.",
        "lap of the {layer}", when=lambda about: is_inner(about) and about.holds("join") == "lap", by_change=True),
)  # fmt: skip
OF_NOTIONS: Final = (
    Ask("cloth.tape.turn_under", "How much tape is turned under at each end?", "So that its ends do not fray.",
        "tape turned under, each end", by_change=True),
    Ask("cloth.fixing.spacing", "How far apart may fixings be at most?",
        "Closer holds better and takes longer. The true spacing is evened out and never more than this.",
        "fixings apart, at most", when=lambda about: _spacing(about) is not None, usual=_spacing, stands=yes,
        by_change=True),
    Ask("cloth.fixing.inset", "How far from an end is the first fixing?",
        "Nearer pulls out, further lets the end hang.", "first fixing from an end",
        when=lambda about: _kind(about) is not None, by_change=True),
    Ask("fixing.legs", "Which lengths of staple or tack can you get?",
        "The leg is what goes into the rail. Type them with commas between, the shortest first; empty for those usually"
        " sold.", "legs you can get", title="legs you can get", compound="legs",
        keys=lambda about: tuple(f"cloth.fixing.legs.{number}" for number in range(1, 7)),
        when=lambda about: _kind(about) in DRIVEN, optional=yes, example="1/4 in, 3/8 in"),
    Ask("cloth.thread.ratio", "How much thread does a length of seam take?",
        "A plain machine stitch takes two and a half times its own length.", "thread for a length of seam",
        by_change=True),
    Ask("cloth.thread.waste", "How much thread goes to waste at starts and ends?", "A share of what the seams take.",
        "thread waste", by_change=True),
)  # fmt: skip


def pages_of_supplies(about: About) -> Iterator[Page]:
    """What holds it, then what the pieces allow for."""
    yield fixing_page(replace(about, stage="Cloth", group="notions"))
    yield allowances_page(replace(about, stage="Cloth", group="allowances"))
