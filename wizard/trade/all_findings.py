"""All findings of a plan, from every corner of it, each looked at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wizard.trade.cloth_findings import cloth_findings
from wizard.trade.drop_findings import drop_findings
from wizard.trade.drops import Readings
from wizard.trade.figures import Ledger
from wizard.trade.findings import Finding
from wizard.trade.fixing_findings import fixing_findings
from wizard.trade.fullness_findings import fullness_findings
from wizard.trade.layers import Prepared
from wizard.trade.obstacle_findings import obstacle_findings
from wizard.trade.plan import Layer, Part
from wizard.trade.post_findings import post_findings
from wizard.trade.rulers import ruler_of
from wizard.trade.run_findings import run_findings
from wizard.trade.saying import Sayer, settled
from wizard.trade.sense_findings import sense_findings
from wizard.trade.size_findings import size_findings
from wizard.trade.slope_findings import slope_findings
from wizard.trade.unit_findings import unit_findings
from wizard.trade.unusable_findings import unusable_findings


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
