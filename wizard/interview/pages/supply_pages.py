"""The pages about what holds the skirt to the rail, tape and thread, and the table of allowances."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from wizard.interview.answer_text import words_for
from wizard.interview.page import Page
from wizard.interview.pages.ask import About, Ask, Asked, asked, held, keys_of, page
from wizard.interview.pages.cloth_pages import used_layers
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.trade.figures import value_at
from wizard.trade.findings.cloth_findings import COMES_OFF, LEAVES_MARKS, SUITS
from wizard.trade.fixings import IN_A_ROW, SPACINGS
from wizard.trade.job_fields import FixingKind, SoldBy
from wizard.trade.sections import sections_on


def supply_pages(about: About) -> Iterator[Page]:
    """What holds it, with prices at once where the face cloth has one; then every allowance in one table."""
    kind = about.job.cloth.fixing.kind or ""
    in_a_row, by_length = kind in IN_A_ROW, kind in ("adhesive hook-and-loop", "hook-and-loop")
    unit = words_for(choices()[SoldBy], held(about.job, "cloth.fixing.sold_by")).removeprefix("the ")
    priced = "a pack of fixings" if in_a_row else f"one {unit} of hook-and-loop"
    notions = replace(about, stage="Cloth", words={"what": priced})
    prices = (
        Ask("cloth.fixing.pack", when=in_a_row),
        Ask("cloth.fixing.price", when=in_a_row or by_length),
        *("cloth.tape.price", "cloth.thread.price"),
    )
    sold = (
        Ask("cloth.fixing.sold_by", when=by_length),
        Ask("cloth.fixing.step", when=by_length),
        *("cloth.tape.sold_by", "cloth.tape.step", "cloth.thread.spool"),
    )
    at_once, more = (prices, sold) if about.job.cloth.face.price is not None else ((), (*prices, *sold))
    offered = fixings_offered(about)
    fixing = Ask("cloth.fixing.kind", choices=offered, usual=offered[0].value)
    yield page("fixing", notions, ("survey.taken_off", fixing, *at_once), more, "fixing")
    table = list(_allowances(replace(about, stage="Cloth"), kind))
    own = any(value_at(about.project, keys_of(*each)[0]) is not None for each in table)
    whose = "These are your own values." if own else "These are usual values, good for nearly every skirt."
    # What is usual is written only where it is changed.
    says, looked_at = {"Whose": whose}, ("progress.usual_allowances",)
    yield page("allowances", table[0][1], table, (), "pieces", says=says, confirms=looked_at, by_change=True)


def fixings_offered(about: About) -> tuple[Choice, ...]:
    """What suits every rail, or else any of them; what comes off again first where the skirt comes off often, and what
    leaves no mark before that on an antique bed, where a band can be tied round any rail."""
    rails = {section.rail or about.job.survey.rail for _, section in sections_on(about.job)} | {about.job.survey.rail}
    suited = [SUITS[rail] for rail in rails if rail is not None]
    together = [each for each in choices()[FixingKind] if all(each.value in some for some in suited)]
    offered = together or [each for each in choices()[FixingKind] if any(each.value in some for some in suited)]
    if about.value("survey.taken_off") == "often":
        offered.sort(key=lambda each: each.value not in COMES_OFF)
    if "antique" in (about.job.survey.watch or ()):
        tied = [each for each in choices()[FixingKind] if each.value == "hook-and-loop" and each not in offered]
        offered = sorted([*tied, *offered], key=lambda each: each.value in LEAVES_MARKS)
    return tuple(offered)


def _allowances(about: About, fixing: str) -> Iterator[Asked]:
    face, *inner = used = used_layers(about)
    spacing = SPACINGS.get(fixing)
    spaced = about.text(*spacing) if spacing else None
    legs = tuple(f"cloth.fixing.legs.{number}" for number in range(1, 7))
    yield from asked(("allowances.join", "allowances.end_hem", "allowances.top"), about)
    yield from (row for each in used for row in asked(("hem",), each))
    yield from (row for each in inner for row in asked(_setbacks(each), each))
    yield from asked(("trim",), face)
    yield from asked(("allowances.least_piece", "cloth.tape.width", "allowances.squaring"), about)
    yield from asked(("allowances.floor_tolerance", "allowances.run_tolerance"), about)
    yield from (row for each in used for row in asked(_of_a_cloth(each, inner=each in inner), each))
    yield from asked(
        (
            "cloth.tape.turn_under",
            Ask("cloth.fixing.spacing", when=spacing is not None, usual=spaced, stands=True),
            Ask("cloth.fixing.inset", when=bool(fixing)),
            Ask("fixing.legs", when=fixing in ("staples", "tacks"), keys=legs, compound="legs"),
            *("cloth.thread.ratio", "cloth.thread.waste"),
        ),
        about,
    )


def _setbacks(about: About) -> tuple[Ask | str, ...]:
    """One answer for both while they are alike."""
    keys = (f"{about.prefix}setback", f"{about.prefix}end_setback")
    both = Ask(f"{about.prefix}setbacks", "cloth.setbacks", keys=keys)
    return (both,) if about.holds("setback") == about.holds("end_setback") else ("setback", "end_setback")


def _of_a_cloth(about: About, *, inner: bool) -> tuple[Ask | str, ...]:
    return (
        Ask("trim", when=inner),
        "hem_kind",
        Ask("hem_turn", when=about.holds("hem_kind") == "single"),
        Ask("join", when=inner),
        Ask("lap", when=inner and about.holds("join") == "lap"),
    )
