"""Putting findings into words: one way of naming values, and of telling whether they changed since they were kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.explain import value_text
from wizard.trade.figures import Ledger
from wizard.trade.formatting import METRIC, Ruler, exact, shown
from wizard.trade.lengths import Length
from wizard.trade.plan import Finding, Level

PARTS: Final = (64, 100, 12)
"""What an inch is divided into where anybody measures: on rulers, in decimals, in thirds."""

ORDER: Final[tuple[Level, ...]] = ("stop", "warn", "ask", "note")


class Sayer(Struct, frozen=True):
    """Says what was found, in the job's own unit."""

    ledger: Ledger
    ruler: Ruler

    def length(self, length: Length) -> str:
        """A length as it is, for what was measured or chosen: in the job's unit, or in the other system where only
        that is short (59 3/4 cm in a job in inches is not 23 133/254 in), or at the ruler mark where it is short in
        neither: what lies between a reading in inches and one in centimetres."""
        metric = self.ruler.unit in METRIC
        if _is_short(length, metric):
            return exact(length, self.ruler.unit)
        return exact(length, "in" if metric else "cm") if _is_short(length, not metric) else self.near(length)

    def alike(self, *lengths: Length) -> list[str]:
        """Lengths that are held against each other, all in the job's unit: at the ruler mark where one is not short
        there (between 20 1/16 in and 26 cm nobody sees which is longer; between ≈ 51 cm and 26 cm all do)."""
        rounds = not all(_is_short(each, self.ruler.unit in METRIC) for each in lengths)
        return [self.near(each) if rounds else self.length(each) for each in lengths]

    def near(self, length: Length) -> str:
        """A length at the ruler mark, for what was worked."""
        return shown(length, self.ruler)

    def finding(
        self,
        id: str,
        level: Level,
        key: str,
        sentence: str,
        way_out: str,
        *values: Length | Fraction | int | str,
        other: str = "",
    ) -> Finding:
        """A finding with the values it rests on as text; `other`: the key of the answer that is held against it."""
        text = " | ".join(value_text(value, self.ruler) for value in values)
        return Finding(id, level, key, sentence, way_out, text, other)


def _is_short(length: Length, metric: bool) -> bool:
    """True when a tape of that system has a mark for it, or nearly: hundredths of a millimetre, parts of an inch."""
    return 100 % length.mm.denominator == 0 if metric else any(each % length.inches.denominator == 0 for each in PARTS)


def settled(findings: Iterable[Finding], kept: Mapping[str, str]) -> tuple[Finding, ...]:
    """Open findings first, by level; then those that were kept for these very values."""
    marked = [replace(each, kept=kept.get(each.id) == each.values) for each in findings]
    return tuple(sorted(marked, key=lambda each: (each.kept, ORDER.index(each.level))))
