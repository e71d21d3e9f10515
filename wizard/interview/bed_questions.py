"""Questions about the job as a whole and about the bed."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.interview.ask import About, Ask, yes
from wizard.trade.lengths import Length
from wizard.trade.sections import SIDES, sections_on

THE_JOB: Final = (
    Ask(
        "name",
        "What is this job to be called?",
        "Any name that you will know it by; it stands on the sheets.",
        example="Juniper loft",
    ),
    Ask(
        "standard",
        "Do you work in inches or in metric?",
        "It sets the usual allowances that are offered from here on. Lengths may be typed in any unit all the same.",
        usual=lambda about: "inches",
        stands=yes,
    ),
    Ask(
        "show",
        "In which unit are lengths shown?",
        "A number typed without a unit is taken in this one too.",
    ),
    Ask(
        "ruler",
        "What is the finest mark on your ruler that you go by?",
        "Cuts are rounded up to this mark, places to the nearest. A coarser mark is quicker to work with.",
        quiet=yes,
    ),
    Ask(
        "currency",
        "What stands before a sum of money?",
        "A sign or a short word, or nothing.",
        optional=yes,
        quiet=yes,
        example="$",
    ),
)


HANDS: Final = "Left and right are as seen standing at the foot, facing the head."


def _gap_offered(about: About) -> str | None:
    """Nothing on carpet; on a hard floor between 1/8 and 1/2 in, so 1/4 in or half a centimetre."""
    match about.value("survey.floor"):
        case "carpet":
            return about.text(Length(0))
        case "hard floor":
            return about.text(Length(Fraction(1, 4)) if about.standard == "inches" else Length.of(Fraction(1, 2), "cm"))
    return None


THE_BED: Final = (
    Ask(
        "survey.rail",
        "What are the rails made of?",
        "The rail is the board or tube that the skirt will hang from. Look at its inner face: it decides what can hold"
        " the tape. If sections differ, answer for most of them; each can have its own later.",
        drawing="top",
    ),
    Ask(
        "survey.rail_thickness",
        "How thick are the rails?",
        "From the outer face straight through to the inner face, at the lower edge. It decides how long a staple may"
        " be, and how far the posts stand in.",
        drawing="top",
    ),
    Ask(
        "survey.slatted",
        "Do slats lie on a ledger along the inside of the rail?",
        "A ledger is a strip of wood or metal along the inner face that carries the slats. The tape has to go below"
        " it.",
        drawing="top",
    ),
    Ask(
        "survey.floor",
        "What does the hem hang over?",
        "What is under the edge of the bed: a rug that reaches there counts as carpet.",
        drawing="elevation",
    ),
    Ask(
        "survey.floor_gap",
        "How much daylight is wanted under the hem?",
        "None on carpet. On a hard floor 1/8 to 1/2 in (3 to 12 mm), so that it neither drags nor gathers dust. A hem"
        " that lies on the floor trips people.",
        usual=_gap_offered,
        drawing="elevation",
    ),
    Ask(
        "survey.raised",
        "How far above the rail's lower edge is the cloth to begin?",
        "Usually at the lower edge itself: 0. More hides the gap below a rail that is seen from the side.",
        drawing="top",
    ),
    Ask(
        "survey.watch",
        "Is there anything about this bed that needs care?",
        "Pick all that are true, or leave it empty. Each brings its caution before the step it matters for.",
        optional=yes,
    ),
    Ask(
        "survey.bed_size",
        "Was the bed sold under one of these sizes?",
        "Leave it empty if you do not know. Frames differ: the size is only used to ask again when a reading looks far"
        " from it. What you measure is what counts.",
        optional=yes,
    ),
    Ask(
        "progress.turned_posts",
        "Are any legs or posts turned or tapered, so that they are thinner at the floor?",
        "Such a leg opens a gap beside the cloth, wider at the floor, which has to be measured.",
        title="turned or tapered legs",
        usual=lambda about: "no",
        stands=yes,
        drawing="elevation",
        picked="left_daylight_floor",
    ),
)


def _entered(side: str) -> Ask:
    """Whether there is a section on one side. Unanswered it may stay so, as soon as another section is there."""
    where, at = (f"{HANDS} ", "on") if side in ("left", "right") else ("", "at")
    return Ask(
        f"survey.section.{side}.on",
        _ON[side],
        f"{where}A section hangs on every side that is seen, between one post and the next.",
        title=f"a section {at} the {side}",
        usual=lambda about: _usually(about, side),
        stands=lambda about: side in about.job.survey.section,
        optional=lambda about: bool(about.job.survey.section),
        drawing="plan",
    )


def _usually(about: About, side: str) -> str:
    """Most beds have their head at the wall; a section that was entered is there unless it was switched off."""
    entered = side in about.job.survey.section
    return "no" if side == "head" and not (entered and about.value(f"survey.section.{side}.on") is None) else "yes"


_ON: Final = {
    "left": "Is there to be a section on the left side of the bed?",
    "foot": "Is there to be one at the foot?",
    "right": "Is there to be a section on the right side of the bed?",
    "head": "Is there to be one at the head?",
}

WHICH_SECTIONS: Final = (
    *(_entered(side) for side in SIDES),
    Ask(
        "progress.rails_alike",
        "Are the rails of all these sections alike?",
        "The same material and the same thickness. If not, each section is asked for its own.",
        title="rails alike",
        when=lambda about: len(sections_on(about.job)) > 1,
        usual=lambda about: "yes",
        stands=yes,
        drawing="plan",
        picked="rail",
    ),
)

ANOTHER_SECTION: Final = (
    Ask(
        "survey.section",
        "Is there one more section? Name it, or leave it empty to go on.",
        "For a side that is divided by a leg, a step in the rail, or anything else that needs a section of its own."
        " Along a side they lie as they are named, from the head to the foot, or from the bed's left to its right.",
        title="one more section",
        optional=yes,
        drawing="plan",
        example="by the desk",
    ),
)
