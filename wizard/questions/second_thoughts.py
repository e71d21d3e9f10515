"""What looks wrong: which of two answers held against each other is the other one, and what can be kept as it is."""

from __future__ import annotations

from typing import Final

from wizard.project.faults import Fault
from wizard.project.project import Unfit
from wizard.trade.plan import Finding, Level, Plan

LEVELS: Final[dict[Level, str]] = {
    "stop": "Stops the plan",
    "warn": "Will likely go wrong",
    "ask": "Read again, or keep",
    "note": "Worth knowing",
}
"""How grave a finding is, in words."""


def other_of(finding: Finding, key: str) -> str:
    """The key of the answer that the one at `key` is held against; empty where there is none."""
    if finding.other and key == finding.other:
        return finding.key
    return finding.other if key == finding.key else ""


def why_not_kept(finding: Finding) -> str:
    """Why a finding cannot be kept as it is, with the way out; empty for one that can."""
    return f"This one stops the plan and cannot be kept. Way out: {finding.way_out}" if finding.level == "stop" else ""


def kept(finding_id: str, plan: Plan) -> dict[str, object]:
    """What goes into the file to keep a finding as it is. KeyError for an unknown one, Unfit for one that stops."""
    finding = next((each for each in plan.findings if each.id == finding_id), None)
    if finding is None:
        raise KeyError(finding_id)
    if finding.level == "stop":
        raise Unfit(Fault(("kept", finding_id), why_not_kept(finding)))
    return {f"kept.{finding_id}": finding.values}
