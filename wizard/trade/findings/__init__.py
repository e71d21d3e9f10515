"""All findings of a plan, from every check of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from msgspec.structs import replace

from wizard.trade.findings.checker import Checker
from wizard.trade.findings.cloth_findings import cloth_findings, fixing_findings
from wizard.trade.findings.end_findings import obstacle_findings, post_findings
from wizard.trade.findings.reading_findings import drop_findings, run_findings, slope_findings
from wizard.trade.findings.sense_findings import (
    fullness_findings,
    sense_findings,
    size_findings,
    unit_findings,
    unusable_findings,
)
from wizard.trade.plan_records import Finding, Level

ORDER: Final[tuple[Level, ...]] = ("stop", "warn", "ask", "note")
CHECKS: Final[tuple[Callable[[Checker], Iterator[Finding]], ...]] = (
    unusable_findings,
    # Drops in the wrong order come first: what else looks wrong may follow from it.
    slope_findings,
    run_findings,
    drop_findings,
    post_findings,
    obstacle_findings,
    size_findings,
    unit_findings,
    sense_findings,
    fullness_findings,
    cloth_findings,
    fixing_findings,
)


def findings_of(check: Checker) -> tuple[Finding, ...]:
    """Open ones first by level, then those that were kept for these very values."""
    kept, found = check.job.kept, [each for look in CHECKS for each in look(check)]
    marked = [replace(each, kept=kept.get(each.id) == each.values) for each in found]
    return tuple(sorted(marked, key=lambda each: (each.kept, ORDER.index(each.level))))
