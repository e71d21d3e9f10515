"""Thread: every line of stitching times what it takes, and some for waste.

Lockstitch (301) takes about 2.5 times the length of its seam, a published handbook's ratio; 15 % more is for starts,
ends and bobbins. Both can be set.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final

from wizard.trade.figures import Figure, Ledger, Rule, merged
from wizard.trade.job import FixingKind
from wizard.trade.lengths import ZERO, Length, ceiling, total
from wizard.trade.marks import is_gathered
from wizard.trade.plan import Layer, Part
from wizard.trade.rulers import ruler_of
from wizard.trade.tapes import row_figures

LOOPED: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings whose loop side is sewn along the tape, once along each edge."""

JOINS = "One line of stitching a join, as long as the cut, in every layer."
HEMS = "The hem below is as long as the flat width, the hems at both ends as long as the cut, in every layer."
STAY = "One row along the top of every part, through all layers."
GATHERING = "One row along the top of every part that is drawn up."
TAPE = "Once to sew it on, once more to close the fold, and across both ends of the folded tape."
LOOP = "The loop side is sewn to the tape along both edges."
ROWS = Rule("stitching of the rows", "{stay} + {gathering}", "Stay-stitching, and gathering rows where it gathers.")
LINES = Rule("stitching", "{joins} + {hems} + {rows} + {tape} + {loop}", "All lines of stitching together.")
LENGTH = Rule(
    "thread",
    "{lines} × {ratio} × (1 + {waste})",
    "Each line takes its ratio of thread; starts, ends and bobbins waste some.",
    "a published handbook (lockstitch 301), common practice for the waste",
)  # fmt: skip
SPOOLS = Rule("spools of thread", "{length} ÷ {spool}, up to a whole number", "Thread is bought by the spool.")
COST = Rule("cost of thread", "{spools} × {price}", "The spools bought times the price of one.")


Term = tuple[int, str, Figure[Length]]
"""How often a length is stitched, a name to tell it by, and the length."""


def thread_figures(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Figure[int]:
    """Keep `thread.lines` and all it is made of, `thread.length`, `thread.spools`, `thread.cost`; gives the spools."""
    stay = _line(ledger, layers, "stay", "stay-stitching", STAY, [(1, part.id, part.flat_made) for part in parts])
    rows = ledger.work(
        "thread.rows", "stitching of the rows", ROWS, lambda stay, gathering: stay + gathering, stay=stay,
        gathering=_line(ledger, layers, "gathering", "gathering rows", GATHERING, _gathering(ledger, parts)),
    )  # fmt: skip
    lines = ledger.work(
        "thread.lines", "stitching", LINES, lambda **each: total(each.values()) if parts else None, rows=rows,
        joins=_line(ledger, layers, "joins", "stitching of the joins", JOINS, _joins(layers)),
        hems=_line(ledger, layers, "hems", "stitching of the hems", HEMS, _hems(ledger, parts, layers)),
        tape=_line(ledger, layers, "tape", "stitching of the tape", TAPE, _tape(ledger, parts)),
        loop=_line(ledger, layers, "loop", "stitching of the loop side", LOOP, _loop(ledger, parts)),
    )  # fmt: skip
    return _thread(ledger, lines)


def _line(
    ledger: Ledger, layers: Sequence[Layer], leaf: str, title: str, says: str, terms: Iterable[Term]
) -> Figure[Length]:
    """All stitching of one sort, `thread.LEAF`; no value before every layer is laid out."""
    terms = tuple(terms)
    if any(each.cutting is None for each in layers):
        needs = merged([*(each.needs for each in layers), *(figure.needs for *_, figure in terms)])
        return ledger.keep(Figure(f"thread.{leaf}", title, None, needs, Rule(title, "every line of it", says)))
    formula = " + ".join(f"{{{name}}}" if times == 1 else f"{times} × {{{name}}}" for times, name, _ in terms)
    often = {name: times for times, name, _ in terms}
    return ledger.work(
        f"thread.{leaf}", title, Rule(title, formula or "none", says),
        lambda **lengths: total(length * often[name] for name, length in lengths.items()),
        **{name: figure for _, name, figure in terms},
    )  # fmt: skip


def _gathering(ledger: Ledger, parts: Sequence[Part]) -> list[Term]:
    mark = ruler_of(ledger.job).mark
    return [(1, part.id, part.flat_made) for part in parts if is_gathered(part, mark)]


def _joins(layers: Sequence[Layer]) -> list[Term]:
    """Every piece but a part's first is joined on along its cut."""
    pieces = [(each, Counter(piece.strip for piece in each.cutting.best.pieces)) for each in layers if each.cutting]
    return [
        (count - 1, f"{layer.id} {part}", layer.cut_lengths[part])
        for layer, counts in pieces
        for part, count in counts.items()
        if count > 1
    ]


def _hems(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Iterator[Term]:
    """Below as long as the flat width, at both ends as long as the cut."""
    for layer in layers:
        for part in parts:
            flat = ledger.figures.get(f"layer.{layer.id}.flat_made.{part.id}", part.flat_made)
            yield 1, f"{layer.id} {part.id} below", flat
            yield 2, f"{layer.id} {part.id} ends", layer.cut_lengths[part.id]


def _tape(ledger: Ledger, parts: Sequence[Part]) -> list[Term]:
    fold = row_figures(ledger)[0]
    return [*((2, part.id, part.gathered) for part in parts), (2 * len(parts), "fold", fold)]


def _loop(ledger: Ledger, parts: Sequence[Part]) -> list[Term]:
    looped = ledger.job.cloth.fixing.kind in LOOPED
    return [(2, part.id, part.gathered) for part in parts] if looped else []


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
