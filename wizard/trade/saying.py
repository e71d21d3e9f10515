"""Putting findings into words: one way of naming values, and of telling whether they changed since they were kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from wizard.trade.figures import Ledger
from wizard.trade.findings import Finding, Level
from wizard.trade.lengths import Length
from wizard.trade.printing import Ruler, exact, shown
from wizard.trade.whys import value_text

ORDER: Final[tuple[Level, ...]] = ("stop", "warn", "ask", "note")


@dataclass(frozen=True)
class Sayer:
    """Says what was found, in the job's own unit."""

    ledger: Ledger
    ruler: Ruler

    def length(self, length: Length) -> str:
        """A length as it is, for what was measured or chosen."""
        return exact(length, self.ruler.unit)

    def near(self, length: Length) -> str:
        """A length at the ruler mark, for what was worked."""
        return shown(length, self.ruler)

    def finding(
        self, id: str, level: Level, key: str, sentence: str, way_out: str, *values: Length | Fraction | int | str
    ) -> Finding:
        """A finding with the values it rests on as text."""
        text = " | ".join(value_text(value, self.ruler) for value in values)
        return Finding(id, level, key, sentence, way_out, text)


def settled(findings: Iterable[Finding], kept: Mapping[str, str]) -> tuple[Finding, ...]:
    """Open findings first, by level; then those that were kept for these very values."""
    marked = [replace(each, kept=kept.get(each.id) == each.values) for each in findings]
    return tuple(sorted(marked, key=lambda each: (each.kept, ORDER.index(each.level))))
