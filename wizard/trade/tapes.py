"""Tape and rows: how the tape folds over the raw top, where each row of stitching lies, and how much tape to buy.

Common practice: tape of width `T` folds to `T/2`, both lower edges on the drop line. The raw edge lies `top` above
the drop line, not in the fold; the tape stitch lies just above the drop line and covers both other rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final

from wizard.trade.costs import price_for
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.findings import Finding
from wizard.trade.lengths import Length, round_up, total
from wizard.trade.plan import Part
from wizard.trade.printing import Ruler, exact, shown

_STAY: Final = (Length(Fraction(1, 4)), Length.of(6, "mm"))
_BELOW: Final = (Length(Fraction(1, 8)), Length.of(3, "mm"))
LEAST_TOP: Final = Length(Fraction(1, 2))
"""Least top allowance: under it the rows do not find room between raw edge and drop line."""

FOLD = Rule("folded tape", "{width} ÷ 2", "The tape folds in half over the raw top, both lower edges on the drop line.")
STAY_ROW = Rule(
    "stay-stitching", "1/4 in, or 6 mm", "It joins the layers near their raw edge and keeps the top from stretching."
)
GATHERING_ROW = Rule(
    "gathering row", "{stay} + {below}", "1/8 in (3 mm) below the stay-stitching, so that both lie under the tape."
)
BELOW = Rule(
    "below the stay-stitching", "1/8 in, or 3 mm", "The gathering row lies 1/8 in (3 mm) below the stay-stitching."
)
LENGTH = Rule("tape", "all tape cuts together", "Each part takes its own tape, in one piece.")
BUY = Rule("tape to buy", "{length}, up to the shop's step ({step})", "A shop cuts tape in steps.")
COST = Rule(
    "cost of tape", "{buy} at {price} for 1 {sold_by}", "The length bought times the price, to the nearest cent."
)


def row_figures(ledger: Ledger) -> tuple[Figure[Length], Figure[Length], Figure[Length]]:
    """(fold, stay-stitching row, gathering row): `tape.fold` is `T/2`; the rows lie that far from the raw edge."""
    fold = ledger.work("tape.fold", "folded tape", FOLD, lambda width: width / 2, width=ledger.read("cloth.tape.width"))
    column = 0 if ledger.standard == "inches" else 1
    stay = ledger.keep(Figure("rows.stay", "stay-stitching", _STAY[column], (), STAY_ROW))
    below = ledger.keep(Figure("rows.below", "below the stay-stitching", _BELOW[column], (), BELOW))
    gathering = ledger.work(
        "rows.gathering", "gathering row", GATHERING_ROW, lambda stay, below: stay + below, stay=stay, below=below
    )
    return fold, stay, gathering


def tape_figures(ledger: Ledger, parts: Sequence[Part]) -> Figure[Length]:
    """Keep `tape.length`, `tape.buy` and `tape.cost`; gives `tape.buy`. No value without parts."""
    cuts = {each.id: each.tape for each in parts}
    rule = Rule(LENGTH.id, " + ".join(f"{{{part}}}" for part in cuts) or LENGTH.formula, LENGTH.says)
    length = ledger.work("tape.length", "tape", rule, _all, **cuts)
    buy = ledger.work("tape.buy", "tape to buy", BUY, round_up_to, length=length, step=ledger.read("cloth.tape.step"))
    cost_figure(ledger, "tape", buy, COST)
    return buy


def _all(**lengths: Length) -> Length | None:
    return total(lengths.values()) if lengths else None


def round_up_to(length: Length, step: Length) -> Length:
    """`length` up to the shop's step; as it is where the step is nothing."""
    return round_up(length, step) if step else length


def cost_figure(ledger: Ledger, table: str, buy: Figure[Length], rule: Rule) -> Figure[Decimal]:
    """Keep what `buy` of `cloth.TABLE` costs, as `TABLE.cost`; no price, no cost."""
    return ledger.work(
        f"{table}.cost", f"cost of {table}", rule, price_for, buy=buy,
        price=ledger.read(f"cloth.{table}.price"), sold_by=ledger.read(f"cloth.{table}.sold_by"),
    )  # fmt: skip


def tape_findings(ledger: Ledger, ruler: Ruler) -> Iterator[Finding]:
    """Says so when the raw edge finds no place under the tape: `1/2 in ≤ top ≤ T/2`."""
    top: Length | None = ledger.read("allowances.top").value
    fold = row_figures(ledger)[0].value
    if top is None or fold is None or LEAST_TOP <= top <= fold:
        return
    values = f"{exact(top, ruler.unit)} | {exact(fold * 2, ruler.unit)}"
    yield (_too_short if top < LEAST_TOP else _too_long)(shown(top, ruler), fold, ruler, values)


def _too_short(top: str, fold: Length, ruler: Ruler, values: str) -> Finding:
    return Finding(
        "tape-top",
        "warn",
        "allowances.top",
        f"A top allowance of {top} leaves no room for the rows between raw edge and drop line.",
        f"Take a top allowance from {shown(LEAST_TOP, ruler, 'up')} to {shown(fold, ruler, 'down')}.",
        values,
        other="cloth.tape.width",
    )


def _too_long(top: str, fold: Length, ruler: Ruler, values: str) -> Finding:
    half = shown(fold, ruler, "down")
    return Finding(
        "tape-top",
        "warn",
        "allowances.top",
        f"A top allowance of {top} does not fit under the tape, which folds to {half}.",
        f"Take a top allowance of {half} or less, or wider tape.",
        values,
        other="cloth.tape.width",
    )
