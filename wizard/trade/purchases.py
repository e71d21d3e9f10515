"""The buying list: cloth, tape, thread, fixings, needles and pins, with costs where a price is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Final

from wizard.trade.figures import Figure, Formula, Ledger, Rule, merged
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.job_fields import Cloth, Fixing, FixingKind, LayerId, Tape, Thread
from wizard.trade.lengths import ZERO, Length
from wizard.trade.notions import TAPE_COST, needle_of, round_up_to, size, tape_figures, thread_figures
from wizard.trade.plan_records import Layer, Part, Purchase
from wizard.trade.stock import COST, cloth_of, cost_figure

COUNT = Rule("fixings in all", "every fixing of every part")
PACKS = Formula(
    "packs of fixings", "{count} ÷ {pack}, rounded up",
    lambda count, pack: -(-count // pack) if pack > 0 else None,
)  # fmt: skip
PACK_COST = Formula("cost of the fixings", "{packs} × {price}", lambda packs, price: packs * price)
PINS_A_MARK: Final = 6
"""Pins at a mark and from it to the next, about 2 in apart. Common practice."""
BUY = Formula("fixing to buy", "{length}, rounded up to {step}", round_up_to)


def purchases_of(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> tuple[Purchase, ...]:
    """Everything to buy whose amount is known, cloth first. Keeps the figures of tape, thread and fixings.

    A layer that the owned cloth is enough for is left out.
    """
    needles = tuple(needle_of(ledger, layer.id) for layer in layers)
    return (
        *(bought for layer in layers for bought in _cloth(ledger, layer)),
        *_tape(ledger, parts),
        *_thread(ledger, parts, layers),
        *_fixings(ledger, parts),
        *_needles(ledger, needles),
        *_pins(parts),
    )


def _purchase(ledger: Ledger, id: str, what: str, amount: str, *figures: str) -> Purchase:
    """A line of the list that rests on `figures`, with the cost that is among them."""
    cost = next((ledger.figures[each].value for each in figures if each.endswith(".cost")), None)
    return Purchase(id, what, amount, cost, figures)


def _cloth(ledger: Ledger, layer: Layer) -> Iterator[Purchase]:
    width = cloth_of(ledger.job, layer.id).width
    if layer.buy.value:
        what = layer.name if width is None else f"{layer.name}, {shown(width, ruler_of(ledger.job))} wide"
        amount = _by_the(ledger, layer.id, layer.buy.value)
        yield _purchase(ledger, f"cloth:{layer.id}", what, amount, layer.buy.id, layer.cost.id)


def _by_the(ledger: Ledger, table: LayerId | str, length: Length) -> str:
    """A length in the unit it is sold by: `4 1/3 yd`, `3.2 m`."""
    return exact(length, ledger.read(Cloth.sold_by, f"cloth.{table}").value or "yd")


def _tape(ledger: Ledger, parts: Sequence[Part]) -> Iterator[Purchase]:
    buy = tape_figures(ledger, parts)
    if buy.value:
        what = f"twill tape, {shown(ledger.read(Tape.width).value or ZERO, ruler_of(ledger.job))} wide"
        yield _purchase(ledger, "tape", what, _by_the(ledger, "tape", buy.value), buy.id, "tape.cost")


def _thread(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Iterator[Purchase]:
    spools = thread_figures(ledger, parts, layers).value
    if spools:
        spool = exact(ledger.read(Thread.spool).value or ZERO, "yd" if ledger.standard == "inches" else "m")
        amount = f"{_counted(spools, 'spool')} of {spool}"
        yield _purchase(ledger, "thread", "sewing thread", amount, "thread.spools", "thread.cost")


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


NAMES: Final[Mapping[FixingKind, str]] = {
    "adhesive hook-and-loop": "hook-and-loop, adhesive hook side and sewn loop side",
    "hook-and-loop": "hook-and-loop, both sides sewn",
    "glue": "hot-melt glue",
}
"""What to ask for in the shop, where the kind does not say it."""


def _fixings(ledger: Ledger, parts: Sequence[Part]) -> Iterator[Purchase]:
    chosen: Figure[FixingKind] = ledger.read(Fixing.kind)
    kind = chosen.value
    if kind in IN_A_ROW:
        yield from _packs(ledger, parts, kind) if parts else ()
    elif kind is not None and parts:
        yield from _by_length(ledger, parts, kind)


def _packs(ledger: Ledger, parts: Sequence[Part], kind: FixingKind) -> Iterator[Purchase]:
    count = _count(ledger, parts)
    if count.value is None:
        return
    leg = ledger.figures["fixing.leg"].value if kind in ("staples", "tacks") else None
    what = kind if leg is None else f"{kind}, {shown(leg, ruler_of(ledger.job))} leg"
    if ledger.job.cloth.fixing.pack is None:
        yield _purchase(ledger, "fixing", what, str(count.value), count.id)
        return
    pack = ledger.read(Fixing.pack)
    packs = ledger.apply(PACKS, "fixing.packs", count=count, pack=pack)
    cost = ledger.apply(PACK_COST, "fixing.cost", packs=packs, price=ledger.read(Fixing.price))
    if packs.value is not None:
        amount = f"{_counted(packs.value, 'pack')} of {pack.value} for {count.value}"
        yield _purchase(ledger, "fixing", what, amount, count.id, packs.id, cost.id)


def _count(ledger: Ledger, parts: Sequence[Part]) -> Figure[int]:
    """All fixings that are set; no value while a part has none yet."""
    found = {each.id: ledger.figures.get(f"part.{each.id}.fixings_set") for each in parts}
    known = {part: figure for part, figure in found.items() if figure is not None}
    if len(known) < len(parts):
        rows = (ledger.figures.get(f"part.{each.id}.fixings") for each in parts)
        needs = merged(each.needs for each in rows if each is not None)
        return ledger.keep(Figure("fixing.count", COUNT.id, None, needs, COUNT))
    return ledger.total("fixing.count", COUNT.id, "", known)


def _by_length(ledger: Ledger, parts: Sequence[Part], kind: FixingKind) -> Iterator[Purchase]:
    """What runs the whole length. Sticks of glue are not counted: how much tape one fixes depends on the gun."""
    step = ledger.read(Fixing.step) if kind != "glue" else None
    gathered = {each.id: each.gathered for each in parts}
    length = ledger.total("fixing.length", "length to be fixed", "", gathered)
    if step is None:
        if length.value is not None:
            amount = f"for {shown(length.value, ruler_of(ledger.job), 'up')} of tape"
            yield _purchase(ledger, "fixing", NAMES.get(kind, kind), amount, length.id)
        return
    buy = ledger.apply(BUY, "fixing.buy", length=length, step=step)
    cost = cost_figure(ledger, "fixing.cost", "cost of fixing", "fixing", buy, TAPE_COST)
    if buy.value is not None:
        yield _purchase(ledger, "fixing", NAMES.get(kind, kind), _by_the(ledger, "fixing", buy.value), buy.id, cost.id)


def _needles(ledger: Ledger, needles: Sequence[Figure[int]]) -> Iterator[Purchase]:
    """One packet for every size that is needed."""
    sizes = sorted({each.value for each in needles if each.value is not None})
    if sizes:
        what = f"machine needles, {' and '.join(size(each) for each in sizes)}"
        amount = "1 packet" if len(sizes) == 1 else "1 packet of each"
        yield _purchase(ledger, "needles", what, amount, *(each.id for each in needles))


def _pins(parts: Sequence[Part]) -> Iterator[Purchase]:
    """What the longest part takes at once."""
    most = max((len(each.marks) for each in parts), default=0)
    if most:
        yield Purchase("pins", "steel pins, which a magnet finds", f"at least {most * PINS_A_MARK}", None, ())


def total_cost(ledger: Ledger, purchases: Sequence[Purchase]) -> Figure[Decimal]:
    """All that is bought and has a price; no value when nothing has one. Figure `cost.total`."""
    priced = {each.id: _cost_figure(ledger, each) for each in purchases if each.cost is not None}
    says = "Items without a price are left out." if len(priced) < len(purchases) else "Everything on the buying list."
    return ledger.total("cost.total", "total cost", says, priced, formula="nothing has a price")


def _cost_figure(ledger: Ledger, purchase: Purchase) -> Figure[Decimal]:
    """The figure a purchase takes its cost from."""
    known = (ledger.figures.get(each) for each in purchase.figures if each.endswith(".cost"))
    given = Figure(f"cost.{purchase.id}", purchase.what, purchase.cost, (), COST)
    return next((figure for figure in known if figure is not None), given)
