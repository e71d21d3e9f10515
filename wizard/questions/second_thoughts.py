"""What looks wrong about two answers held against each other: which of them is the other one."""

from __future__ import annotations

from wizard.trade.findings import Finding


def other_of(finding: Finding, key: str) -> str:
    """The key of the answer that the one at `key` is held against; empty where there is none."""
    if finding.other and key == finding.other:
        return finding.key
    return finding.other if key == finding.key else ""
