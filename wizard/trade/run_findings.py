"""What looks wrong about the runs: a leaning post, sides that differ, a run far from the bed's nominal size."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.trade.bed import Side
from wizard.trade.bed_sizes import FAR, NOMINAL
from wizard.trade.corners import ENDS, section_name, sections_on, short_of, side_of
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


def _run_of_side(say: Sayer, side: Side) -> Length | None:
    """All sections of one side together, with what they stop short of a post; None when there are none, or one is not
    read yet."""
    there = [(each, section) for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    known = [run for run in (_runs(say, each)[0] for each, _ in there) if run is not None]
    short = total(short_of(section, end) for _, section in there for end in ENDS)
    return total(known) + short if known and len(known) == len(there) else None


def _sides(say: Sayer) -> Iterator[Finding]:
    """Left and right of one bed."""
    left, right = _run_of_side(say, "left"), _run_of_side(say, "right")
    if left is None or right is None or abs(left - right) <= SIDES_APART:
        return
    keys = {side_of(each, section): each for each, section in reversed(list(sections_on(say.ledger.job)))}
    longer, shorter = ("left", "right") if left > right else ("right", "left")
    on_left, on_right, apart = say.alike(left, right, abs(left - right))
    yield say.finding(
        "run-differs:left:right", "ask", f"survey.section.{keys['right']}.run.1",
        f"The run on the left is {on_left}, on the right {on_right}: "
        f"the {longer} is {apart} longer than the {shorter}.",
        "Read both again, post to post along the rail. If one stops short of a post, say so at its end; if they stand, "
        "keep them.", left, right,
        other=f"survey.section.{keys['left']}.run.1",
    )  # fmt: skip


def _nominal(say: Sayer, side: Side) -> Iterator[Finding]:
    """A run far from the bed's nominal size is read again; frames differ, so it is never more than that."""
    size, run = say.ledger.job.survey.bed_size, _run_of_side(say, side)
    if size is None or run is None:
        return
    width, length = NOMINAL[size]
    nominal = length if side in ("left", "right") else width
    if abs(run - nominal) <= FAR:
        return
    keys = [each for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    yield say.finding(
        f"run-nominal:{side}", "ask", f"survey.section.{keys[0]}.run.1",
        f"The run on the {side} is {say.length(run)}; a {size} bed measures {say.length(nominal)} that way.",
        "Read it again, or mend the bed size. Frames differ: if it stands, keep it.", run, size,
        other="survey.bed_size",
    )  # fmt: skip
