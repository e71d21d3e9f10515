"""What looks wrong about the runs: a leaning post, sides that differ, a run far from the bed's nominal size."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import Final

from msgspec import Struct

from wizard.trade.findings.checker import Checker
from wizard.trade.formatting import listed
from wizard.trade.job_fields import Allowances, Side
from wizard.trade.lengths import Length, total
from wizard.trade.plan_records import Finding
from wizard.trade.sections import (
    ENDS,
    along_side,
    nominal_run,
    reach_of,
    sections_on,
    share_the_rail,
    short_of,
    short_read,
    stops_short,
)

FAR: Final = Length(6)
"""A run further from the nominal length than this is worth a second reading: posts and frames account for less."""
SIDES_APART: Final = Length(Fraction(1, 2))
"""Left and right rails of one bed are cut alike: further apart than this, one was misread."""
LONG_RUN: Final = Length.of(20, "ft")
SHORT_RUN: Final = Length(12)


def run_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the runs."""
    for section_id, _ in sections_on(check.job):
        yield from _of_section(check, section_id)
    yield from _sides(check)
    for side in ("left", "right", "foot", "head"):
        yield from _nominal(check, side)


def _of_section(check: Checker, section_id: str) -> Iterator[Finding]:
    """A run that differs between the rail and the floor, and one of unusual length."""
    key = f"survey.section.{section_id}.run"
    tolerance = check.value(Allowances.run_tolerance)
    rail, floor = (check.run(section_id, number) for number in (1, 2))
    if rail is None:
        return
    if floor is not None and tolerance is not None and abs(rail - floor) > tolerance:
        yield check.finding(
            f"run-lean:{section_id}", f"{key}.2", {"rail": rail, "floor": floor}, other=f"{key}.1",
            apart=abs(rail - floor), how="less" if floor < rail else "more",
        )  # fmt: skip
    if rail > LONG_RUN:
        yield check.finding(f"run-long:{section_id}", f"{key}.1", {"run": rail})
    if rail < SHORT_RUN:
        yield check.finding(f"run-short:{section_id}", f"{key}.1", {"run": rail})


class Rail(Struct, frozen=True):
    """The length of a side of the bed from post to post, as its sections give it."""

    length: Length
    short: Length
    """The bare part of it, where sections stop short of a post."""
    sections: tuple[str, ...]
    """The section that gives it, or all that add up to it."""
    alone: bool
    """True where it is the only section of that side."""

    @property
    def is_run(self) -> bool:
        """True where it is one run from post to post."""
        return self.alone and not self.short


def _rails_of(check: Checker, side: Side) -> tuple[Rail, ...]:
    """The rail as given by each section that is read to the bed's corner posts, else by all sections of the side
    together; empty while there are none, or while one is not read completely."""
    there = along_side(check.job.survey, side)
    reaches = {each: reach_of(section) for each, section in there}
    known = {each: reach for each, reach in reaches.items() if reach is not None}
    ends = [(section, end) for _, section in there for end in ENDS]
    if not known or len(known) < len(there) or any(stops_short(*e) and short_read(*e) is None for e in ends):
        return ()
    shorts = {each: total(short_of(section, end) for end in ENDS) for each, section in there}
    if share_the_rail([section for _, section in there]):
        return tuple(Rail(known[each], short, (each,), False) for each, short in shorts.items() if short)
    return (Rail(total(known.values()), total(shorts.values()), tuple(known), len(there) == 1),)


def _sides(check: Checker) -> Iterator[Finding]:
    """Left and right of one bed: the two rails that differ most."""
    pairs = product(_rails_of(check, "left"), _rails_of(check, "right"))
    left, right = max(pairs, key=lambda pair: abs(pair[0].length - pair[1].length), default=(None, None))
    if left is None or right is None or abs(left.length - right.length) <= SIDES_APART:
        return
    longer, shorter = ("left", "right") if left.length > right.length else ("right", "left")
    made_up = "short" if left.short + right.short else "made up"
    yield check.finding(
        "run-differs:left:right", f"survey.section.{right.sections[0]}.run.1",
        {"left": left.length, "right": right.length}, other=f"survey.section.{left.sections[0]}.run.1",
        variant="" if left.is_run and right.is_run else made_up, apart=abs(left.length - right.length),
        longer=longer, shorter=shorter, left_made=_made_of(check, left), right_made=_made_of(check, right),
    )  # fmt: skip


def _made_of(check: Checker, rail: Rail) -> str:
    """What adds up to a rail, where it is not one run from post to post."""
    if rail.is_run:
        return ""
    run, names = check.length(rail.length - rail.short), [check.section(each) for each in rail.sections]
    what = f"a run of {run}" if len(names) == 1 else f"runs of {run} together"
    bare = f", and {check.length(rail.short)} from there to the post" if rail.short else ""
    return f" ({listed(names)}: {what}{bare})"


def _nominal(check: Checker, side: Side) -> Iterator[Finding]:
    """A rail far from the bed's nominal size is read again; frames differ, so it is never more than that."""
    size = check.job.survey.bed_size
    if size is None:
        return
    nominal = nominal_run(size, side)
    rail = max(_rails_of(check, side), key=lambda each: abs(each.length - nominal), default=None)
    if rail is None or abs(rail.length - nominal) <= FAR:
        return
    yield check.finding(
        f"run-nominal:{side}", f"survey.section.{rail.sections[0]}.run.1", {"rail": rail.length, "size": size},
        other="survey.bed_size", variant="" if rail.is_run else "made up", side=side, nominal=nominal,
        made=_made_of(check, rail), a="an" if size.startswith("EU") else "a",
    )  # fmt: skip
