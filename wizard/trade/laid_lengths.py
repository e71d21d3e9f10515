"""How a length laid out comes about: widths one after the other, each as long as its longest piece or its repeats."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Final

from wizard.trade.cutting import Layout, Phase, Repeat, Use
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.lengths import ZERO, Length, total

ONE_AFTER_ANOTHER: Final = "Widths are cut one after the other, and each is as long as its longest piece."
LAID = Rule("length laid out", "{value}", "As laid out: from the squared end to the last cut.")
REPEATS: Final[Mapping[Phase, Rule]] = {
    "straight": Rule(
        "length laid out, matched",
        "{value}, on a repeat of {repeat}",
        "To match, each next width starts a whole number of repeats on; the last takes its cut length.",
    ),
    "half-drop": Rule(
        "length laid out, half-drop matched",
        "{value}, on a half-drop repeat of {repeat}",
        "To match, each next width of a section starts half a repeat lower, so a change of phase takes whole repeats "
        "and a half, in the shorter order of phases. Other rules stand in print: half a repeat more for "
        "the order, a repeat more for every other width, or half a repeat more for every width.",
    ),
}


def length_laid(
    ledger: Ledger,
    id: str,
    use: Use,
    layout: Layout,
    cuts: Mapping[str, Figure[Length]],
    repeat: Repeat | None,
) -> Figure[Length]:
    """The length laid out on one stretch, `ID.on.STRETCH`: as a sum of widths where it is one."""
    where, title = f"{id}.on.{use.stretch}", "length laid out"
    if repeat is not None:
        recurs = ledger.keep(Figure(f"{id}.repeat", "repeat as it is cut", repeat.length, (), LAID))
        return ledger.work(where, title, REPEATS[repeat.phase], lambda **_: use.length, repeat=recurs)
    rows = _longest(layout, use.stretch)
    if layout.way == "along" or total(cut for cut, _ in rows.values()) != use.length:
        return ledger.keep(Figure(where, title, use.length, (), LAID))
    counts = Counter(strip for _, strip in rows.values())
    terms = (f"{{{strip}}}" if count == 1 else f"{count} × {{{strip}}}" for strip, count in counts.items())
    rule = Rule("length laid out", " + ".join(terms), ONE_AFTER_ANOTHER)
    return ledger.work(where, title, rule, lambda **_: use.length, **{strip: cuts[strip] for strip in counts})


def _longest(layout: Layout, stretch: str) -> dict[int, tuple[Length, str]]:
    """For each width on a stretch, its longest piece's cut length and that piece's strip."""
    rows: dict[int, tuple[Length, str]] = {}
    for piece in layout.pieces:
        if piece.stretch == stretch:
            rows[piece.row] = max(rows.get(piece.row, (ZERO, piece.strip)), (piece.cut, piece.strip))
    return rows
