"""The usual allowances: kept together with one answer, or asked one by one. Each can be gone to at any time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About, Ask, Test, asked, yes
from wizard.interview.cloth_questions import about_layer, is_inner
from wizard.interview.notion_questions import DRIVEN, SPACING
from wizard.interview.question import Question
from wizard.project.project import Project
from wizard.trade.formatting import listed
from wizard.trade.job_fields import LAYERS, LayerId
from wizard.trade.plan_records import Plan


def questions_of_allowances(project: Project, plan: Plan) -> Iterator[Question]:
    """One question for all, then each of them."""
    about = About(project, plan, "Cloth", "", "allowances")
    yield from asked((KEEP_ALL,), about)
    yield from asked(_in_turn(GENERAL), about)
    for layer in LAYERS:
        of_layer = about_layer(project, plan, layer)
        if layer == "face" or of_layer.value("use"):
            yield from asked(_in_turn(OF_A_CLOTH), of_layer)
    yield from asked(_in_turn(OF_NOTIONS), about)


def _in_turn(asks: tuple[Ask, ...]) -> tuple[Ask, ...]:
    return tuple(replace(each, quiet=_kept_together) for each in asks)


def _kept_together(about: About) -> bool:
    return about.project.progress.usual_allowances is not False


def _all_of_them(about: About) -> str:
    join, end_hem, top = (about.typed(f"allowances.{leaf}") for leaf in ("join", "end_hem", "top"))
    layers = [each for each in LAYERS if each == "face" or about.holds_at(f"cloth.{each}.use")]
    hems = listed([_hem_words(about, each) for each in layers])
    given = any(about.value(key) is not None for key in TOLD)
    whence = "as this job has them" if given else "common practice, good for nearly every skirt"
    return (
        f"Seams of {join}, {end_hem} for the hem at each end, {top} above the drop line, {hems}, and what goes with "
        f"them: {whence}. Answer no to go through them one by one; any of them can also be gone to later."
    )


def _hem_words(about: About, layer: LayerId) -> str:
    """`a hem of 2 cm turned twice on the face`."""
    turned = "once" if about.holds_at(f"cloth.{layer}.hem_kind") == "single" else "twice"
    return f"a hem of {about.typed(f'cloth.{layer}.hem')} turned {turned} on the {layer}"


TOLD: Final = ("allowances.join", "allowances.end_hem", "allowances.top", *(f"cloth.{each}.hem" for each in LAYERS))

KEEP_ALL: Final = Ask(
    "progress.usual_allowances",
    "Keep the usual allowances for seams, hems and fixings?",
    _all_of_them,
    title="the usual allowances",
    usual=lambda about: "yes",
    stands=yes,
    drawing="cloth",
    picked="allowances",
)

GENERAL: Final = (
    Ask(
        "allowances.join",
        "How wide is a join seam, on each side?",
        "Every join costs twice this in width.",
        drawing="cloth",
    ),
    Ask(
        "allowances.end_hem",
        "How much cloth does the hem take at each end of a section?",
        "All of it: 1 in makes a hem of 1/2 in turned twice.",
        drawing="cloth",
    ),
    Ask(
        "allowances.top",
        "How far does the raw top edge lie above the drop line?",
        "At least 1/2 in, and at most half the tape, so that the folded tape hides it.",
        drawing="top",
    ),
    Ask(
        "allowances.squaring",
        "How much is cut off to square the end of each length?",
        "Cloth from the shop is seldom cut straight across.",
        drawing="roll",
    ),
    Ask(
        "allowances.least_piece",
        "How narrow may a piece be at the least?",
        "A very narrow piece looks patched. The least allowed can cost a little cloth.",
        drawing="cloth",
    ),
    Ask(
        "allowances.floor_tolerance",
        "How far may the drops of a section differ before the floor counts as uneven?",
        "Within it the hem is level, from the least reading.",
        drawing="elevation",
    ),
    Ask(
        "allowances.run_tolerance",
        "How far may the two readings of a run differ before a post counts as leaning?",
        "Beyond it the reading is asked about.",
        drawing="elevation",
    ),
)

OF_A_CLOTH: Final = (
    Ask(
        "trim",
        "How much selvedge is trimmed off the {layer}, on each side?",
        "The woven edge puckers and is never sewn in.",
        drawing="cloth",
    ),
    Ask(
        "hem",
        "How deep is the hem of the {layer}, as finished?",
        "Turned twice, it takes twice this.",
        drawing="cloth",
    ),
    Ask(
        "hem_kind",
        "How is the hem of the {layer} turned?",
        "Turned twice it hangs better and never frays.",
        drawing="cloth",
    ),
    Ask(
        "hem_turn",
        "How much is turned under on the hem of the {layer}?",
        "The raw edge, once.",
        when=lambda about: about.holds("hem_kind") == "single",
        drawing="cloth",
    ),
    Ask(
        "setback",
        "How much shorter than the face does the {layer} finish, below?",
        "So that it never shows.",
        when=is_inner,
        drawing="top",
    ),
    Ask(
        "end_setback",
        "How much shorter than the face does the {layer} finish, at each end?",
        "So that it never shows.",
        when=is_inner,
        drawing="top",
    ),
    Ask(
        "join",
        "How are the widths of the {layer} joined?",
        "A lap is flatter in a thick layer that is not seen.",
        when=is_inner,
        drawing="cloth",
    ),
    Ask(
        "lap",
        "How far does one edge lie over the other?",
        "Every join costs this in width.",
        when=lambda about: is_inner(about) and about.holds("join") == "lap",
        drawing="cloth",
    ),
)


def _after_leg(before: int) -> Test:
    """A leg is asked for when the fixing has legs and the one before was given."""

    def test(about: About) -> bool:
        driven = about.value("cloth.fixing.kind") in DRIVEN
        return driven and (before == 0 or about.value(f"cloth.fixing.legs.{before}") is not None)

    return test


OF_NOTIONS: Final = (
    Ask(
        "cloth.tape.width",
        "How wide is the tape, before it is folded?",
        "Half of it lies on either side of the skirt's top edge.",
        drawing="top",
    ),
    Ask(
        "cloth.tape.turn_under",
        "How much tape is turned under at each end?",
        "So that its ends do not fray.",
        drawing="top",
    ),
    SPACING,
    Ask(
        "cloth.fixing.inset",
        "How far from an end is the first fixing?",
        "Nearer pulls out, further lets the end hang.",
        when=lambda about: about.value("cloth.fixing.kind") is not None,
        drawing="top",
    ),
    *(
        Ask(
            f"cloth.fixing.legs.{number}",
            "Which leg can you get? Leave it empty for those usually sold.",
            "The length of a staple or tack that goes into the rail. Name only what you can get, shortest first.",
            title=f"staple or tack leg {number}",
            when=_after_leg(number - 1),
            optional=yes,
            drawing="top",
        )
        for number in range(1, 7)
    ),
    Ask(
        "cloth.thread.ratio",
        "How much thread does a length of seam take?",
        "A plain machine stitch takes two and a half times its own length.",
    ),
    Ask(
        "cloth.thread.waste",
        "How much thread goes to waste at starts and ends?",
        "A share of what the seams take.",
    ),
)
