"""What looks wrong about the runs: a leaning post, sides that differ, a run far from the bed's nominal size."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import Final

from msgspec import Struct

from wizard.trade.bed import BedSize, Side
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.formatting import listed
from wizard.trade.lengths import Length, total
from wizard.trade.plan import Finding
from wizard.trade.sections import (
    ENDS,
    along_side,
    reach_of,
    section_name,
    sections_on,
    share_the_rail,
    short_of,
    short_read,
    stops_short,
)


def _inches(width: int, length: int) -> tuple[Length, Length]:
    return Length(width), Length(length)


def _cm(width: int, length: int) -> tuple[Length, Length]:
    return Length.of(width, "cm"), Length.of(length, "cm")


NOMINAL: Final[dict[BedSize, tuple[Length, Length]]] = {
    "US twin": _inches(39, 75),
    "US long twin": _inches(39, 80),
    "US full": _inches(54, 75),
    "US queen": _inches(60, 80),
    "US king": _inches(78, 80),
    "US California king": _inches(72, 84),
    "UK 75": _cm(75, 190),
    "UK 90": _cm(90, 190),
    "UK 120": _cm(120, 190),
    "UK 135": _cm(135, 190),
    "UK 150": _cm(150, 200),
    "UK 180": _cm(180, 200),
    "EU 80": _cm(80, 200),
    "EU 90": _cm(90, 200),
    "EU 100": _cm(100, 200),
    "EU 140": _cm(140, 200),
    "EU 160": _cm(160, 200),
    "EU 170": _cm(170, 200),
    "EU 180": _cm(180, 200),
    "EU 200": _cm(200, 200),
}
"""(width, length) of each, as the trade gives them."""

FAR: Final = Length(6)
"""A run further from the nominal length than this is worth a second reading: posts and frames account for less."""


SIDES_APART: Final = Length(Fraction(1, 2))
"""Left and right rails of one bed are cut alike: further apart than this, one was misread."""
LONG_RUN: Final = Length.of(20, "ft")
SHORT_RUN: Final = Length(12)


def run_findings(say: Sayer) -> Iterator[Finding]:
    """Everything that looks wrong about the runs."""
    for section_id, _ in sections_on(say.ledger.job):
        yield from _leaning(say, section_id)
        yield from _surprising(say, section_id)
    yield from _sides(say)
    for side in ("left", "right", "foot", "head"):
        yield from _nominal(say, side)


def _runs(say: Sayer, section_id: str) -> tuple[Length | None, Length | None]:
    key = f"survey.section.{section_id}.run"
    return say.ledger.read(f"{key}.1").value, say.ledger.read(f"{key}.2").value


def _leaning(say: Sayer, section_id: str) -> Iterator[Finding]:
    """Run at the rail and near the floor should agree."""
    rail, floor = _runs(say, section_id)
    tolerance = say.ledger.read("allowances.run_tolerance").value
    if rail is None or floor is None or tolerance is None or abs(rail - floor) <= tolerance:
        return
    name = section_name(say.ledger.job, section_id)
    at_rail, near_floor, apart = say.alike(rail, floor, abs(rail - floor))
    yield say.finding(
        f"run-lean:{section_id}", "warn", f"survey.section.{section_id}.run.2",
        f"{name}: the run is {at_rail} at the rail and {near_floor} near the floor, "
        f"{apart} {'less' if floor < rail else 'more'}: a post leans, or one was misread.",
        "Read both again. If they stand, keep them: a gathered section takes the reading at the rail, "
        "a flat one the shorter.", rail, floor, other=f"survey.section.{section_id}.run.1",
    )  # fmt: skip


def _surprising(say: Sayer, section_id: str) -> Iterator[Finding]:
    rail, _ = _runs(say, section_id)
    name, key = section_name(say.ledger.job, section_id), f"survey.section.{section_id}.run.1"
    if rail is not None and rail > LONG_RUN:
        yield say.finding(
            f"run-long:{section_id}", "ask", key, f"{name}: a run of {say.length(rail)} is over 20 ft.",
            "Read it again, or keep it.", rail,
        )  # fmt: skip
    if rail is not None and rail < SHORT_RUN:
        yield say.finding(
            f"run-short:{section_id}", "ask", key, f"{name}: a run of {say.length(rail)} is surprisingly short.",
            "Read it again, or keep it.", rail,
        )  # fmt: skip


class Rail(Struct, frozen=True):
    """How long a side of the bed is from post to post, as sections of it tell."""

    length: Length
    short: Length
    """What of it is bare because they stop short of a post."""
    sections: tuple[str, ...]
    """The section that tells it, or all that make it up together."""
    alone: bool
    """True where one section is all there is on that side."""


def _rails_of(say: Sayer, side: Side) -> tuple[Rail, ...]:
    """What each section that is read to the bed's corner posts tells, or all sections of the side together; none while
    there are no sections, or anything of one is not read yet."""
    there = along_side(say.ledger.job.survey, side)
    reaches = {each: reach_of(section) for each, section in there}
    known = {each: reach for each, reach in reaches.items() if reach is not None}
    ends = [(section, end) for _, section in there for end in ENDS]
    if not known or len(known) < len(there) or any(stops_short(*e) and short_read(*e) is None for e in ends):
        return ()
    shorts = {each: total(short_of(section, end) for end in ENDS) for each, section in there}
    if share_the_rail([section for _, section in there]):
        return tuple(Rail(known[each], short, (each,), False) for each, short in shorts.items() if short)
    return (Rail(total(known.values()), total(shorts.values()), tuple(known), len(there) == 1),)


def _sides(say: Sayer) -> Iterator[Finding]:
    """Left and right of one bed: the two rails that differ most."""
    pairs = product(_rails_of(say, "left"), _rails_of(say, "right"))
    left, right = max(pairs, key=lambda pair: abs(pair[0].length - pair[1].length), default=(None, None))
    if left is None or right is None or abs(left.length - right.length) <= SIDES_APART:
        return
    longer, shorter = ("left", "right") if left.length > right.length else ("right", "left")
    on_left, on_right, apart = say.alike(left.length, right.length, abs(left.length - right.length))
    runs = all(each.alone and not each.short for each in (left, right))
    yield say.finding(
        "run-differs:left:right", "ask", f"survey.section.{right.sections[0]}.run.1",
        f"{'The run on the left is' if runs else 'From post to post the left side is'} {on_left}{_made_of(say, left)}, "
        f"{'on the right' if runs else 'the right'} {on_right}{_made_of(say, right)}: "
        f"the {longer} is {apart} longer than the {shorter}.",
        _both_again(left.short + right.short), left.length, right.length,
        other=f"survey.section.{left.sections[0]}.run.1",
    )  # fmt: skip


def _made_of(say: Sayer, rail: Rail) -> str:
    """What a rail is reckoned from, where it is not one run from post to post."""
    if rail.alone and not rail.short:
        return ""
    run, names = say.length(rail.length - rail.short), [section_name(say.ledger.job, each) for each in rail.sections]
    what = f"a run of {run}" if len(names) == 1 else f"runs of {run} together"
    bare = f", and {say.length(rail.short)} that it stops short of the post" if rail.short else ""
    return f" ({listed(names)}: {what}{bare})"


def _both_again(short: Length) -> str:
    if short:
        return (
            "Read both again: the run only as far as the section goes, and how far it is from there to the bed's "
            "corner post. If they are right, keep them."
        )
    return (
        "Read both again, post to post along the rail. If one stops short of a post, say so at its end; if they stand, "
        "keep them."
    )


def _nominal(say: Sayer, side: Side) -> Iterator[Finding]:
    """A rail far from the bed's nominal size is read again; frames differ, so it is never more than that."""
    size = say.ledger.job.survey.bed_size
    if size is None:
        return
    width, length = NOMINAL[size]
    nominal = length if side in ("left", "right") else width
    rail = max(_rails_of(say, side), key=lambda each: abs(each.length - nominal), default=None)
    if rail is None or abs(rail.length - nominal) <= FAR:
        return
    a = "an" if size.startswith("EU") else "a"
    what = f"The run on the {side}" if rail.alone and not rail.short else f"From post to post the {side} side"
    yield say.finding(
        f"run-nominal:{side}", "ask", f"survey.section.{rail.sections[0]}.run.1",
        f"{what} is {say.length(rail.length)}{_made_of(say, rail)}; {a} {size} bed measures {say.length(nominal)} that "
        "way.",
        "Read it again, or mend the bed size. Frames differ: if it stands, keep it.", rail.length, size,
        other="survey.bed_size",
    )  # fmt: skip
