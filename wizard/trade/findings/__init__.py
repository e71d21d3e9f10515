"""All findings of a plan, from every corner of it, each looked at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wizard.trade.drops import Readings
from wizard.trade.figures import Ledger
from wizard.trade.findings.cloth_findings import cloth_findings
from wizard.trade.findings.drop_findings import drop_findings, slope_findings
from wizard.trade.findings.finding_text import Sayer, settled
from wizard.trade.findings.fixing_findings import fixing_findings
from wizard.trade.findings.post_findings import obstacle_findings, post_findings
from wizard.trade.findings.run_findings import run_findings
from wizard.trade.findings.sense_findings import fullness_findings, sense_findings
from wizard.trade.findings.value_findings import size_findings, unit_findings, unusable_findings
from wizard.trade.formatting import ruler_of
from wizard.trade.layers import Prepared
from wizard.trade.plan import Finding, Layer, Part


def findings_of(
    ledger: Ledger,
    readings: Mapping[str, Readings],
    parts: Sequence[Part],
    layers: Sequence[Layer],
    prepared: Sequence[Prepared],
) -> tuple[Finding, ...]:
    """Open ones first by level, then those kept for these very values."""
    ruler = ruler_of(ledger.job)
    say = Sayer(ledger, ruler)
    found = [
        *unusable_findings(say),
        *run_findings(say),
        *drop_findings(say, readings),
        *post_findings(say),
        *obstacle_findings(say),
        *size_findings(say),
        *unit_findings(say),
        *slope_findings(say),
        *sense_findings(say, parts, layers, prepared),
        *fullness_findings(say, ledger.figures["fullness"]),
        *cloth_findings(say, layers, prepared, parts),
        *fixing_findings(ledger, ruler),
    ]
    return settled(found, ledger.job.kept)
