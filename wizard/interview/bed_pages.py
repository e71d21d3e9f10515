"""The pages about the job and the bed: sections, rails, floor, what to watch."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.page import Page
from wizard.interview.question import Choice
from wizard.trade.job_fields import Section
from wizard.trade.lengths import Length
from wizard.trade.missing import SLATTED_SIDES
from wizard.trade.sections import SIDES, is_on, place_round_bed, section_name, sections_on, side_of

HANDS: Final = "Left and right are as you see them standing at the foot, facing the head."


def bed_pages(about: About) -> Iterator[Page]:
    """The job, then what is true of the whole bed."""
    job = tuple(asked(THE_JOB, about))
    yield Page("job", "Survey", "The project", "", job[:2], job[2:])
    yield Page(
        "sides", "Survey", "The bed from above", f"Tick every side where you want a section. {HANDS}",
        tuple(asked(SIDES_ASKED, about)), tuple(asked((ANOTHER_SECTION,), about)), "bed",
    )  # fmt: skip
    yield Page(
        "rails", "Survey", "The rails",
        "The rail is the board or tube the skirt hangs from. Feel its inner face: it decides what can hold the tape.",
        tuple(asked(RAILS, about)), tuple(asked((RAILS_ALIKE,), about)), "rail",
        confirms=("progress.rails_alike",) if len(sections_on(about.job)) > 1 else (),
    )  # fmt: skip
    yield Page(
        "floor", "Survey", "Floor and top edge",
        "The drop line is where the cloth begins, normally at the rail's lower edge. The hem ends a little above the "
        "floor.",
        tuple(asked(FLOOR, about)), (), "floor",
    )  # fmt: skip
    yield Page(
        "watch", "Survey", "What to watch", "Each brings its caution before the step it matters for.",
        tuple(asked((WATCH,), about)),
    )  # fmt: skip


THE_JOB: Final = (
    Ask(
        "name",
        "What is this project called?",
        "Any name you will know it by. It is printed on the sheets.",
        "name",
        example="Juniper loft",
    ),
    Ask(
        "standard",
        "Do you work in inches or in metric?",
        "It sets the usual allowances. You can type a length in any unit all the same.",
        "usual values",
        usual=lambda about: "inches",
        stands=yes,
    ),
    Ask("show", "In which unit are lengths shown?", "A number typed without a unit is in this unit too.", "unit"),
    Ask(
        "ruler",
        "What is the finest mark on your ruler?",
        "Cuts are rounded up to this mark, places to the nearest. A coarser mark is quicker to work with.",
        "ruler mark",
    ),
    Ask(
        "currency",
        "What stands before a sum of money?",
        "A sign or a short word, or nothing.",
        "currency",
        optional=yes,
        example="$",
    ),
)


def _sides(about: About) -> list[str]:
    """Ids to tick: the four sides, and what else was added, round the bed."""
    added = [each for each in about.job.survey.section if each not in SIDES]
    sections = about.job.survey.section
    return sorted((*SIDES, *added), key=lambda each: place_round_bed(each, sections.get(each, Section())))


def _side_choices(about: About) -> tuple[Choice, ...]:
    names = {"left": "left side", "foot": "foot", "right": "right side", "head": "head"}
    return tuple(Choice(each, names.get(each) or section_name(about.job, each)) for each in _sides(about))


def _usual_sides(about: About) -> str:
    """Most beds have their head at the wall; a section that was entered is there unless it was switched off."""
    entered = about.job.survey.section
    on = [each for each in _sides(about) if each != "head" or each in entered]
    return ", ".join(each for each in on if is_on(entered.get(each, Section())))


SIDES_ASKED: Final = (
    Ask(
        "sides.on",
        "On which sides does a section hang?",
        f"A section hangs on every side that is seen, between one post and the next. {HANDS}",
        "sections on",
        title="which sides get a section",
        compound="ticks",
        keys=lambda about: tuple(f"survey.section.{each}.on" for each in _sides(about)),
        choices=_side_choices,
        usual=_usual_sides,
        stands=lambda about: bool(sections_on(about.job)),
    ),
    Ask(
        "survey.bed_size",
        "Which size was the bed sold as?",
        "Leave it empty if you do not know. Your own readings decide; the size gives a first estimate of the cloth, and"
        " asks you to read again when a reading is far from it.",
        "sold as",
        optional=yes,
    ),
)

ANOTHER_SECTION: Final = Ask(
    "survey.section",
    "Add another section? Type its name.",
    "For a side that is divided by a leg, a step in the rail, or anything else that needs a section of its own.",
    "another section",
    title="another section",
    optional=yes,
    example="by the desk",
)


def _ledger_sections(about: About) -> tuple[str, ...]:
    """Keys of the free height of every section whose tape meets a ledger."""
    sections = sections_on(about.job)
    return tuple(f"survey.section.{id}.free_height" for id, each in sections if _on_the_ledger(id, each))


def _on_the_ledger(section_id: str, section: Section) -> bool:
    return section.fixing_face != "lower back edge" and side_of(section_id, section) in SLATTED_SIDES


def has_ledger(about: About, section: Section) -> bool:
    """True where slats lie on a ledger along the rail face that the tape of the section in hand goes on."""
    return bool(about.holds_at("survey.slatted")) and _on_the_ledger(about.section or "", section)


RAILS: Final = (
    Ask(
        "survey.rail",
        "What are the rails made of?",
        "It decides what can hold the tape. If sections differ, answer for most of them, and say under More that the"
        " rails are not alike.",
        "rails",
    ),
    Ask(
        "survey.rail_thickness",
        "How thick are the rails?",
        "From the outer face straight through to the inner face, at the lower edge. It decides how long a staple may"
        " be, and how far the posts stand in.",
        "thickness",
    ),
    Ask(
        "survey.slatted",
        "Do slats lie on a ledger along the inside of the rail?",
        "A ledger is a strip of wood or metal along the inner face that carries the slats. The tape goes below it.",
        "slats on a ledger",
    ),
    Ask(
        "rails.free_height",
        "How high is the rail's inner face below the ledger?",
        "From the rail's lower edge up to the ledger or the cleat that carries the slats. The folded tape must fit"
        " there. You can find this out later, before you hang the skirt.",
        "free below the ledger",
        title="free height below the ledger",
        when=lambda about: bool(about.holds_at("survey.slatted")) and bool(_ledger_sections(about)),
        compound="same",
        keys=_ledger_sections,
        later=True,
    ),
)

RAILS_ALIKE: Final = Ask(
    "progress.rails_alike",
    "Are the rails of all sections alike?",
    "The same material and the same thickness. If not, each side asks for its own.",
    "rails alike",
    title="rails alike",
    when=lambda about: len(sections_on(about.job)) > 1,
    usual=lambda about: "yes",
    stands=yes,
)


def _gap_offered(about: About) -> str | None:
    """Nothing on carpet; on a hard floor between 1/8 and 1/2 in, so 1/4 in or half a centimetre."""
    match about.value("survey.floor"):
        case "carpet":
            return about.text(Length(0))
        case "hard floor":
            return about.text(Length(Fraction(1, 4)) if about.standard == "inches" else Length.of(Fraction(1, 2), "cm"))
    return None


FLOOR: Final = (
    Ask(
        "survey.floor",
        "What is the floor?",
        "What lies under the edge of the bed. A rug that reaches there counts as carpet.",
        "floor",
    ),
    Ask(
        "survey.floor_gap",
        "How large is the gap under the hem?",
        "None on carpet. On a hard floor 1/8 to 1/2 in (3 to 12 mm), so that the hem neither drags nor gathers dust. A"
        " hem that lies on the floor trips people.",
        "gap under the hem",
        usual=_gap_offered,
    ),
    Ask(
        "survey.raised",
        "How far above the rail's lower edge does the cloth begin?",
        "Usually at the lower edge itself: 0. More hides the gap below a rail that is seen from the side.",
        "drop line above the rail's edge",
    ),
)

WATCH: Final = Ask(
    "survey.watch",
    "Is any of this true of the bed?",
    "Tick all that are true, or none.",
    "watch",
    usual=lambda about: "none",
)
