"""Where the sections are on the bed: sides, ends and corners, in the trade's words.

Left and right of the bed are as seen standing at the foot, facing the head; a section's left end is the one on the
left hand of somebody in the room, facing its face side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from wizard.trade.job_fields import BedSize, Job, Section, Side, Survey
from wizard.trade.lengths import ZERO, Length, total

End = Literal["left", "right"]
ENDS: Final[tuple[End, End]] = ("left", "right")

SIDES: Final[tuple[Side, ...]] = ("left", "foot", "right", "head")
"""In the order the sections are listed, which is also that in which they meet round the bed."""

_AT_ENDS: Final[dict[Side, dict[End, tuple[str, str]]]] = {
    "left": {"left": ("head end", "head-left"), "right": ("foot end", "foot-left")},
    "right": {"left": ("foot end", "foot-right"), "right": ("head end", "head-right")},
    "foot": {"left": ("bed's left", "foot-left"), "right": ("bed's right", "foot-right")},
    "head": {"left": ("bed's right", "head-right"), "right": ("bed's left", "head-left")},
}
"""What each end of a side is called, and the corner it is at."""
CORNERS: Final = tuple(dict.fromkeys(corner for side in SIDES for _, corner in _AT_ENDS[side].values()))
"""The usual posts, as they are met round the bed."""
FROM_RIGHT: Final[tuple[Side, ...]] = ("right", "head")
"""Sides whose head end, or bed's left, is the section's right end: what is met from inside the bed starts there."""

NOMINAL: Final[Mapping[str, tuple[int, int]]] = {
    "US twin": (39, 75),
    "US long twin": (39, 80),
    "US full": (54, 75),
    "US queen": (60, 80),
    "US king": (78, 80),
    "US California king": (72, 84),
    **{f"UK {width}": (width, 190) for width in (75, 90, 120, 135)},
    **{f"UK {width}": (width, 200) for width in (150, 180)},
    **{f"EU {width}": (width, 200) for width in (80, 90, 100, 140, 160, 170, 180, 200)},
}
"""(width, length) of each, as the trade gives them: US sizes in inches, UK and EU ones in centimetres. Frames are not
standardised, so a nominal size only ever prompts a second reading."""


def nominal_run(size: BedSize, side: Side) -> Length:
    """How long a bed of that size is along a side, by its name."""
    return Length.of(NOMINAL[size][side in ("left", "right")], "in" if size.startswith("US") else "cm")


def side_of(section_id: str, section: Section) -> Side | None:
    """The side it was given, else the one its id names, else None."""
    return section.side or next((side for side in SIDES if side == section_id), None)


def is_on(section: Section) -> bool:
    """A section that was entered is made unless it was switched off."""
    return section.on is not False


def sections_on(job: Job) -> tuple[tuple[str, Section], ...]:
    """The sections to be made: left, foot, right, head, then those without a side, each as entered."""
    chosen = [(each, section) for each, section in job.survey.section.items() if is_on(section)]
    return tuple(sorted(chosen, key=lambda pair: place_round_bed(*pair)))


def place_round_bed(section_id: str, section: Section) -> int:
    """Where a section comes among the others by its side; one without a side comes last."""
    side = side_of(section_id, section)
    return len(SIDES) if side is None else SIDES.index(side)


def section_name(job: Job, section_id: str) -> str:
    """As the maker named it, else the side in words (`left section`), else its id."""
    return job.survey.section.get(section_id, Section()).name or f"{section_id} section"


def end_in_words(side: Side | None, end: End) -> str:
    """`head end`, `foot end`, `bed's left`, `bed's right`; `left end` where the side is not known."""
    return f"{end} end" if side is None else _AT_ENDS[side][end][0]


def at_the_end(side: Side | None, end: End) -> str:
    """The end inside a sentence: `the head end`, `the bed's left`."""
    return f"the {end_in_words(side, end)}"


def next_side(side: Side, end: End) -> Side:
    """The side round the corner from an end of a side's sections."""
    return SIDES[(SIDES.index(side) + (1 if end == "right" else -1)) % len(SIDES)]


def stops_short(section: Section, end: End) -> bool:
    """True where the section ends before the post."""
    return (section.left_end if end == "left" else section.right_end) == "stops short"


def short_read(section: Section, end: End) -> Length | None:
    """How far from the bed's corner post an end that stops short does so; None until that is known."""
    return section.left_short if end == "left" else section.right_short


def short_of(section: Section, end: End) -> Length:
    """How far from the bed's corner post the run ends; ZERO where it goes up to its post."""
    return (short_read(section, end) or ZERO) if stops_short(section, end) else ZERO


def first_end(side: Side) -> End:
    """The end of a side's sections that is nearer the head, or nearer the bed's left."""
    return "right" if side in FROM_RIGHT else "left"


def reach_of(section: Section) -> Length | None:
    """The run and what it stops short of posts at both ends; None until the run at the rail is read."""
    run = section.run[0] if section.run else None
    return None if run is None else run + total(short_of(section, end) for end in ENDS)


def share_the_rail(sections: Sequence[Section]) -> bool:
    """True where several sections are within one rail, each read to the bed's corner posts past the others: all of them
    together are no longer than the farthest reach. Otherwise each begins where the one before ends."""
    runs = [section.run[0] for section in sections if section.run and section.run[0] is not None]
    reaches = [reach_of(each) for each in sections if any(stops_short(each, end) for end in ENDS)]
    known = [each for each in reaches if each is not None]
    return len(sections) > 1 and len(runs) == len(sections) and bool(known) and total(runs) <= max(known)


def along_side(survey: Survey, side: Side) -> tuple[tuple[str, Section], ...]:
    """The sections made on a side, from the head to the foot or from the bed's left to its right: by how far they stop
    short of the first corner where they share the rail, else in the order they were entered."""
    there = [(id, each) for id, each in survey.section.items() if is_on(each) and side_of(id, each) == side]
    if share_the_rail([section for _, section in there]):
        there.sort(key=lambda pair: short_of(pair[1], first_end(side)))
    return tuple(there)


def goes_on(survey: Survey, section_id: str, end: End) -> bool:
    """True where another section of the same side goes on from that end of one that is made, so that it is at no corner
    of the bed."""
    side = side_of(section_id, survey.section.get(section_id, Section()))
    along = [] if side is None else [each for each, _ in along_side(survey, side)]
    return side is not None and section_id in along and section_id != along[0 if end == first_end(side) else -1]


def post_at(survey: Survey, section_id: str, end: End) -> str | None:
    """Id of the post at an end: the one named, else the corner's; None where the side is not known, where another
    section goes on from there, or where it stops short of the corner."""
    section = survey.section.get(section_id, Section())
    named = section.left_post if end == "left" else section.right_post
    side = side_of(section_id, section)
    away = side is None or stops_short(section, end) or goes_on(survey, section_id, end)
    corner = None if side is None or away else _AT_ENDS[side][end][1]
    return named or corner
