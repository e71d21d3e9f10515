"""Thread: every line of stitching times what it takes, and some for waste.

Lockstitch (301) takes about 2.5 times the length of its seam, a published handbook's ratio; 15 % more is for starts,
ends and bobbins. Both can be set.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Final

from wizard.trade.cutting.strips import Layout
from wizard.trade.figures import Figure, Ledger, Rule, merged
from wizard.trade.job import FixingKind
from wizard.trade.lengths import ZERO, Length, ceiling, total
from wizard.trade.marks import is_gathered
from wizard.trade.plan import Layer, Part
from wizard.trade.rulers import ruler_of

LOOPED: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings whose loop side is sewn along the tape, once along each edge."""

JOINS = Rule(
    "stitching of the joins", "every join, as long as its cut", "One line of stitching a join, in every layer."
)
HEMS = Rule(
    "stitching of the hems", "the hem below and the hems at both ends, in every layer",
    "Below it is as long as the flat width, at an end as long as the cut.",
)  # fmt: skip
ROWS = Rule(
    "stitching of the rows",
    "{stay} + {gathering}",
    "One row of stay-stitching, and one gathering row where it gathers.",
)
STAY = Rule("stay-stitching", "all flat widths together", "One row along the top of every part, through all layers.")
GATHERING = Rule(
    "gathering rows",
    "all flat widths that are gathered",
    "As long as the stay-stitching; none where nothing is gathered.",
)
TAPE = Rule(
    "stitching of the tape", "2 × all gathered lengths + 2 × a folded end for each part",
    "Once to sew it on, once more to close the fold, and across both its ends.",
)  # fmt: skip
LOOP = Rule(
    "stitching of the loop side", "2 × all gathered lengths", "The loop side is sewn to the tape along both edges."
)
LINES = Rule("stitching", "{joins} + {hems} + {rows} + {tape} + {loop}", "All lines of stitching together.")
LENGTH = Rule(
    "thread",
    "{lines} × {ratio} × (1 + {waste})",
    "Each line takes its ratio of thread; starts, ends and bobbins waste some.",
    "a published handbook (lockstitch 301), common practice for the waste",
)  # fmt: skip
SPOOLS = Rule("spools of thread", "{length} ÷ {spool}, up to a whole number", "Thread is bought by the spool.")
COST = Rule("cost of thread", "{spools} × {price}", "The spools bought times the price of one.")


@dataclass(frozen=True)
class Sewing:
    """Lengths of stitching, all parts and layers together; None as long as something is missing."""

    joins: Length
    hems: Length
    stay: Length
    gathering: Length
    tape: Length
    loop: Length


def thread_figures(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Figure[int]:
    """Keep `thread.lines` and all it is made of, `thread.length`, `thread.spools`, `thread.cost`; gives the spools."""
    needs = merged([*(each.needs for each in layers), *(each.gathered.needs for each in parts)])
    sewn = _sewing(ledger, parts, layers) if not needs else None

    def line(leaf: str, title: str, rule: Rule) -> Figure[Length]:
        value = None if sewn is None else getattr(sewn, leaf)
        return ledger.keep(Figure(f"thread.{leaf}", title, value, needs, rule))

    rows = ledger.work(
        "thread.rows", "stitching of the rows", ROWS, lambda stay, gathering: stay + gathering,
        stay=line("stay", "stay-stitching", STAY), gathering=line("gathering", "gathering rows", GATHERING),
    )  # fmt: skip
    lines = ledger.work(
        "thread.lines", "stitching", LINES, lambda **each: total(each.values()), rows=rows,
        joins=line("joins", "stitching of the joins", JOINS), hems=line("hems", "stitching of the hems", HEMS),
        tape=line("tape", "stitching of the tape", TAPE), loop=line("loop", "stitching of the loop side", LOOP),
    )  # fmt: skip
    return _thread(ledger, lines)


def _thread(ledger: Ledger, lines: Figure[Length]) -> Figure[int]:
    length = ledger.work(
        "thread.length", "thread", LENGTH, thread_for, lines=lines,
        ratio=ledger.read("cloth.thread.ratio"), waste=ledger.read("cloth.thread.waste"),
    )  # fmt: skip
    spools = ledger.work(
        "thread.spools", "spools of thread", SPOOLS, _spools, length=length, spool=ledger.read("cloth.thread.spool")
    )
    ledger.work("thread.cost", "cost of thread", COST, _cost, spools=spools, price=ledger.read("cloth.thread.price"))
    return spools


def thread_for(lines: Length, ratio: Fraction, waste: Fraction) -> Length:
    """Thread for `lines` of stitching, exact: `ratio` is thread over seam, `waste` a part of one."""
    return lines * ratio * (1 + waste)


def _spools(length: Length, spool: Length) -> int | None:
    return ceiling(length / spool) if spool > ZERO else None


def _cost(spools: int, price: Decimal) -> Decimal:
    return spools * price


def _sewing(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Sewing | None:
    """All lines of stitching, or None until every layer is laid out and every part measured."""
    laid = [each.cutting.best for each in layers if each.cutting is not None]
    fold, kind = ledger.read("cloth.tape.width").value, ledger.job.cloth.fixing.kind
    if len(laid) < len(layers) or not parts or fold is None:
        return None
    flats = [each.flat_made.value for each in parts if each.flat_made.value is not None]
    lengths = [each.gathered.value for each in parts if each.gathered.value is not None]
    if len(flats) < len(parts) or len(lengths) < len(parts):
        return None
    mark = ruler_of(ledger.job).mark
    gathers = [flat for part, flat in zip(parts, flats, strict=True) if is_gathered(part, mark)]
    return Sewing(
        joins=total(_joins(each) for each in laid),
        hems=total(_hems(ledger, each) for each in laid),
        stay=total(flats),
        gathering=total(gathers),
        tape=2 * total(lengths) + fold * len(parts),
        loop=2 * total(lengths) if kind in LOOPED else ZERO,
    )


def _joins(layout: Layout) -> Length:
    """Every piece but a strip's first is joined on along its cut."""
    return total(piece.cut for piece in layout.pieces if piece.order > 1)


def _hems(ledger: Ledger, layout: Layout) -> Length:
    """Below, the flat width as made; at both ends, the cut."""
    end = ledger.read("allowances.end_hem").value or ZERO
    below = total(width - 2 * end for _, width in layout.flats)
    return below + 2 * total(piece.cut for piece in layout.pieces if piece.order == 1)
