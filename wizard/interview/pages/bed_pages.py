"""The pages about the job and the bed: sections, rails, floor, what to watch."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.interview.page import Page
from wizard.interview.pages.ask import About, Ask, asked, page, yes
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.trade.job_fields import BedSize, Section
from wizard.trade.lengths import Length
from wizard.trade.missing import SLATTED_SIDES
from wizard.trade.sections import SIDES, is_on, place_round_bed, section_name, sections_on, side_of


def bed_pages(about: About) -> Iterator[Page]:
    """The job, then what is true of the whole bed."""
    several = len(sections_on(about.job)) > 1
    yield page("job", about, asked(THE_JOB, about), asked(HOW_SHOWN, about))
    yield page("sides", about, asked(WHICH_SIDES, about), asked((ANOTHER_SECTION,), about), "bed")
    yield page(
        "rails",
        about,
        asked(RAILS, about),
        asked((RAILS_ALIKE,) if several else (), about),
        "rail",
        confirms=("progress.rails_alike",) if several else (),
    )
    yield page("floor", about, asked(FLOOR, about), (), "floor")
    yield page("watch", about, asked((WATCH,), about))


THE_JOB: Final = (Ask("name", example="Juniper loft"), Ask("standard", usual=lambda about: "inches", stands=yes))
HOW_SHOWN: Final = (
    Ask("client", optional=yes, example="Rowan House"), Ask("show"), Ask("ruler"),
    Ask("currency", optional=yes, example="$"),
)  # fmt: skip


USUAL_SIDES: Final = ("left", "foot", "right")


def _sides(about: About) -> list[str]:
    """Ids to tick: the four sides, and what else was added, round the bed."""
    sections = about.job.survey.section
    ids = dict.fromkeys((*SIDES, *sections))
    return sorted(ids, key=lambda each: place_round_bed(each, sections.get(each, Section())))


def _side_choices(about: About) -> tuple[Choice, ...]:
    names = {"left": "left side", "foot": "foot", "right": "right side", "head": "head"}
    return tuple(Choice(each, names.get(each) or section_name(about.job, each)) for each in _sides(about))


def _usual_sides(about: About) -> str | None:
    """Most beds have their head at the wall; a section that was entered is there unless it was switched off."""
    entered = about.job.survey.section
    on = [each for each in _sides(about) if each in (*USUAL_SIDES, *entered)]
    return ", ".join(each for each in on if is_on(entered.get(each, Section()))) or None


def _sizes(about: About) -> tuple[Choice, ...]:
    """Those of the job's own system first."""
    metric, offered = about.project.is_metric, choices(metric=about.project.is_metric)[BedSize]
    return tuple(sorted(offered, key=lambda each: each.value.startswith("US") == metric))


WHICH_SIDES: Final = (
    Ask(
        "sides.on",
        compound="ticks",
        keys=lambda about: tuple(f"survey.section.{each}.on" for each in _sides(about)),
        choices=_side_choices,
        usual=_usual_sides,
        stands=lambda about: bool(sections_on(about.job)),
    ),
    Ask("survey.bed_size", optional=yes, choices=_sizes),
)
ANOTHER_SECTION: Final = Ask("survey.section", optional=yes, example="by the desk")


def _on_the_ledger(section_id: str, section: Section) -> bool:
    return section.fixing_face != "lower back edge" and side_of(section_id, section) in SLATTED_SIDES


def has_ledger(about: About, section_id: str, section: Section) -> bool:
    """True where slats lie on a ledger along the rail face that the tape of a section goes on."""
    return bool(about.holds_at("survey.slatted")) and _on_the_ledger(section_id, section)


def _ledger_heights(about: About) -> tuple[str, ...]:
    """Keys of the free height of every section whose tape meets a ledger."""
    sections = sections_on(about.job)
    return tuple(f"survey.section.{id}.free_height" for id, each in sections if has_ledger(about, id, each))


RAILS: Final = (
    Ask("survey.rail"),
    Ask("survey.rail_thickness"),
    Ask("survey.slatted"),
    Ask(
        "rails.free_height",
        when=lambda about: bool(_ledger_heights(about)),
        compound="same",
        keys=_ledger_heights,
        later=True,
    ),
)
RAILS_ALIKE: Final = Ask("progress.rails_alike", usual=lambda about: "yes", stands=yes)


def _gap_offered(about: About) -> str | None:
    """Nothing on carpet; on a hard floor between 1/8 and 1/2 in, so 1/4 in or half a centimetre."""
    match about.value("survey.floor"):
        case "carpet":
            return about.text(Length(0))
        case "hard floor":
            return about.text(Length(Fraction(1, 4)) if about.standard == "inches" else Length.of(Fraction(1, 2), "cm"))
    return None


FLOOR: Final = (Ask("survey.floor"), Ask("survey.floor_gap", usual=_gap_offered), Ask("survey.raised"))
WATCH: Final = Ask("survey.watch", usual=lambda about: "none")
