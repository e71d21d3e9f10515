"""The words for how grave a finding is."""

from __future__ import annotations

from typing import Final

from wizard.trade.plan import Finding

LEVELS: Final = {
    "stop": "to mend first",
    "warn": "likely to go wrong",
    "ask": "read again, or keep",
    "note": "worth knowing",
}
"""Level of a finding -> that in words."""


def level_words(finding: Finding) -> str:
    """How grave it is, with a capital: `Likely to go wrong`."""
    level = "looked at and kept" if finding.kept else LEVELS[finding.level]
    return f"{level[0].upper()}{level[1:]}"
