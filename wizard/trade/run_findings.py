"""What looks wrong about the runs: a leaning post, sides that differ, a run far from the bed's nominal size."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.trade.bed import Side
from wizard.trade.bed_sizes import FAR, NOMINAL
from wizard.trade.corners import ENDS, section_name, sections_on, short_of, short_read, side_of, stops_short
from wizard.trade.findings import Finding
from wizard.trade.lengths import Length, total
from wizard.trade.saying import Sayer

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


def _run_of_side(say: Sayer, side: Side) -> tuple[Length, Length] | None:
    """All sections of one side together, with what they stop short of a post, and how much that is; None when there are
    none, or anything of it is not read yet."""
    there = [(each, section) for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    known = [run for run in (_runs(say, each)[0] for each, _ in there) if run is not None]
    ends = [(section, end) for _, section in there for end in ENDS]
    unread = len(known) < len(there) or any(stops_short(*each) and short_read(*each) is None for each in ends)
    if not known or unread:
        return None
    short = total(short_of(*each) for each in ends)
    return total(known) + short, short


def _with_short(run: str, short: str | None) -> str:
    return run if short is None else f"{run} (the {short} it stops short of the post among them)"


def _sides(say: Sayer) -> Iterator[Finding]:
    """Left and right of one bed."""
    on_left_side, on_right_side = _run_of_side(say, "left"), _run_of_side(say, "right")
    if on_left_side is None or on_right_side is None:
        return
    (left, left_short), (right, right_short) = on_left_side, on_right_side
    if abs(left - right) <= SIDES_APART:
        return
    keys = {side_of(each, section): each for each, section in reversed(list(sections_on(say.ledger.job)))}
    longer, shorter = ("left", "right") if left > right else ("right", "left")
    on_left, on_right, apart = say.alike(left, right, abs(left - right))
    yield say.finding(
        "run-differs:left:right", "ask", f"survey.section.{keys['right']}.run.1",
        f"The run on the left is {_with_short(on_left, say.length(left_short) if left_short else None)}, "
        f"on the right {_with_short(on_right, say.length(right_short) if right_short else None)}: "
        f"the {longer} is {apart} longer than the {shorter}.",
        _both_again(left_short + right_short), left, right,
        other=f"survey.section.{keys['left']}.run.1",
    )  # fmt: skip


def _both_again(short: Length) -> str:
    if short:
        return (
            "Read both again: the run only as far as the section goes, and how far short it stops. If they stand, "
            "keep them."
        )
    return (
        "Read both again, post to post along the rail. If one stops short of a post, say so at its end; if they stand, "
        "keep them."
    )


def _nominal(say: Sayer, side: Side) -> Iterator[Finding]:
    """A run far from the bed's nominal size is read again; frames differ, so it is never more than that."""
    size, of_side = say.ledger.job.survey.bed_size, _run_of_side(say, side)
    if size is None or of_side is None:
        return
    run, short = of_side
    told = _with_short(say.length(run), say.length(short) if short else None)
    width, length = NOMINAL[size]
    nominal = length if side in ("left", "right") else width
    if abs(run - nominal) <= FAR:
        return
    keys = [each for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    a = "an" if size.startswith("EU") else "a"
    yield say.finding(
        f"run-nominal:{side}", "ask", f"survey.section.{keys[0]}.run.1",
        f"The run on the {side} is {told}; {a} {size} bed measures {say.length(nominal)} that way.",
        "Read it again, or mend the bed size. Frames differ: if it stands, keep it.", run, size,
        other="survey.bed_size",
    )  # fmt: skip
