"""All findings of a plan, from every check of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from wizard.trade.drops_and_cut_lengths import Readings
from wizard.trade.figures import Ledger
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
from wizard.trade.formatting import ruler_of
from wizard.trade.layers import Prepared
from wizard.trade.plan_records import Finding, Layer, Level, Part

ORDER: Final[tuple[Level, ...]] = ("stop", "warn", "ask", "note")


def findings_of(
    ledger: Ledger,
    readings: Mapping[str, Readings],
    parts: Sequence[Part],
    layers: Sequence[Layer],
    prepared: Sequence[Prepared],
) -> tuple[Finding, ...]:
    """Open ones first by level, then those kept for these very values."""
    check = Checker(ledger, ruler_of(ledger.job))
    found = [
        *unusable_findings(check),
        # Drops in the wrong order come first: what else looks wrong may follow from it.
        *slope_findings(check),
        *run_findings(check),
        *drop_findings(check, readings),
        *post_findings(check),
        *obstacle_findings(check),
        *size_findings(check),
        *unit_findings(check),
        *sense_findings(check, parts, layers, prepared),
        *fullness_findings(check, ledger.figures["fullness"]),
        *cloth_findings(check, layers, prepared, parts),
        *fixing_findings(check),
    ]
    return settled(found, ledger.job.kept)


def settled(findings: Iterable[Finding], kept: Mapping[str, str]) -> tuple[Finding, ...]:
    """Open findings first, by level; then those that were kept for these very values."""
    marked = [replace(each, kept=kept.get(each.id) == each.values) for each in findings]
    return tuple(sorted(marked, key=lambda each: (each.kept, ORDER.index(each.level))))
