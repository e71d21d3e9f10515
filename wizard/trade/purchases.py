"""The buying list: cloth, tape, thread, fixings, needles and pins, with costs where a price is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any, Final

from wizard.trade.figures import Figure, Formula, Ledger, Rule, merged
from wizard.trade.fixings import IN_A_ROW
from wizard.trade.formatting import Ruler, exact, listed, ruler_of, shown
from wizard.trade.job_fields import Cloth, Fixing, FixingKind, Tape, Thread
from wizard.trade.lengths import UNITS, ZERO, Length, ceiling
from wizard.trade.notions import TAPE_COST, needle_of, round_up_to, size, tape_figures, thread_figures
from wizard.trade.plan_records import Layer, Part, Purchase
from wizard.trade.stock import COST, cloth_of, cost_figure, price_for

COUNT = Rule("fixings in all", "every fixing of every part")
PACKS = Formula(
    "packs of fixings", "{count} ÷ {pack}, rounded up",
    lambda count, pack: -(-count // pack) if pack > 0 else None,
)  # fmt: skip
PACK_COST = Formula("cost of the fixings", "{packs} × {price}", lambda packs, price: packs * price)
SHELVES: Final = ("cloth", "tape", "thread", "fixing", "needles", "pins")
"""How the ids of purchases begin, in the order of the shop."""
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
        *_pins(ledger, parts),
    )


def bought(needs: Length | int, step: Length | int | None, unit: str) -> Length | int:
    """What is bought of something: a length up to the shop's step, or whole packs."""
    if unit in UNITS and isinstance(needs, Length) and not isinstance(step, int):
        return round_up_to(needs, step) if step else needs
    if isinstance(needs, Length) and isinstance(step, Length):
        return ceiling(needs / step)
    return -(-needs // step) if isinstance(needs, int) and isinstance(step, int) else needs


def amount_text(amount: Length | int, unit: str) -> str:
    """`4 1/3 yd`, `2 boxes of 1,000`."""
    if isinstance(amount, Length):
        return exact(amount, unit)
    one, *of = unit.split(" ")
    more = "" if amount == 1 else "es" if one.endswith("x") else "s"
    return " ".join((str(amount), one + more, *of))


def cost_of(amount: Length | int, price: Decimal, unit: str) -> Decimal:
    """What an amount costs at a price for one unit."""
    return price_for(amount, price, unit) if isinstance(amount, Length) else amount * price


def _sold(ledger: Ledger, id: str, what: str, needs: Figure[Length] | int, *figures: str, **sold: Any) -> Purchase:
    """A line of the list that rests on `figures`, with the cost that is among them. `sold`: step, unit and price."""
    needed = needs if isinstance(needs, int) else needs.value or ZERO
    cost = next((ledger.figures[each].value for each in figures if each.endswith(".cost")), None)
    amount = amount_text(bought(needed, sold["step"], sold["unit"]), sold["unit"])
    return Purchase(id, what, amount, cost, figures, needed, **sold)


def _by_length(ledger: Ledger, table: str) -> dict[str, Any]:
    """How a shop sells what it cuts off: step, unit and price."""
    step, sold_by, price = (
        ledger.read(each, f"cloth.{table}").value for each in (Cloth.step, Cloth.sold_by, Cloth.price)
    )
    return {"step": step, "unit": sold_by or "yd", "price": price}


def _cloth(ledger: Ledger, layer: Layer) -> Iterator[Purchase]:
    if layer.buy.value:
        figures = (layer.buy.id, layer.cost.id)
        what = cloth_to_ask_for(layer, cloth_of(ledger.job, layer.id), ruler_of(ledger.job))
        yield _sold(ledger, f"cloth:{layer.id}", what, layer.roll, *figures, **_by_length(ledger, layer.id))


def cloth_to_ask_for(layer: Layer, cloth: Cloth, ruler: Ruler) -> str:
    """A cloth as one asks for it in a shop: `flannel (interlining), 45 in wide`."""
    return cloth_by_kind(layer, cloth) + ("" if cloth.width is None else f", {shown(cloth.width, ruler)} wide")


def cloth_by_kind(layer: Layer, cloth: Cloth) -> str:
    """A cloth by its name or kind, and what it is for: `flannel (interlining)`."""
    kind = cloth.name or (cloth.kind if cloth.kind != "other" else None) or layer.name
    return kind if layer.id in kind else f"{kind} ({layer.id})"


def _tape(ledger: Ledger, parts: Sequence[Part]) -> Iterator[Purchase]:
    buy = tape_figures(ledger, parts)
    if buy.value:
        what = f"twill tape, {shown(ledger.read(Tape.width).value or ZERO, ruler_of(ledger.job))} wide"
        length: Figure[Length] = ledger.figures["tape.length"]
        yield _sold(ledger, "tape", what, length, buy.id, "tape.cost", **_by_length(ledger, "tape"))


def _thread(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Iterator[Purchase]:
    if thread_figures(ledger, parts, layers).value:
        spool, price = ledger.read(Thread.spool).value or ZERO, ledger.read(Thread.price).value
        sold = {"step": spool, "unit": f"spool of {exact(spool, 'yd' if ledger.standard == 'inches' else 'm')}"}
        length: Figure[Length] = ledger.figures["thread.length"]
        yield _sold(ledger, "thread", "sewing thread", length, "thread.spools", "thread.cost", **sold, price=price)


NAMES: Final[Mapping[FixingKind, str]] = {
    "adhesive hook-and-loop": "hook-and-loop, adhesive hook side and sewn loop side",
    "hook-and-loop": "hook-and-loop, both sides sewn",
    "glue": "hot-melt glue",
}
"""What to ask for in the shop, where the kind does not say it."""
PACKED: Final[Mapping[str, tuple[str, int]]] = {
    "staples": ("box", 1000), "tacks": ("box", 100), "upholstery pins": ("packet", 50), "magnets": ("pack", 10),
    "pins": ("box", 100),
}  # fmt: skip
"""What a shop usually sells each in, and how many are in one. Common practice."""


def _fixings(ledger: Ledger, parts: Sequence[Part]) -> Iterator[Purchase]:
    chosen: Figure[FixingKind] = ledger.read(Fixing.kind)
    kind = chosen.value
    if kind is not None and parts:
        yield from (_packs if kind in IN_A_ROW else _along_the_tape)(ledger, parts, kind)


def _in_packs(name: str, pack: int | None = None) -> dict[str, Any]:
    """How a shop sells what is counted: the pack that is given, else the usual one."""
    one, usual = PACKED[name]
    return {"step": pack or usual, "unit": f"{one} of {pack or usual:,}"}


def _packs(ledger: Ledger, parts: Sequence[Part], kind: FixingKind) -> Iterator[Purchase]:
    count = _count(ledger, parts)
    if count.value is None:
        return
    leg = ledger.figures["fixing.leg"].value if kind in ("staples", "tacks") else None
    what = kind if leg is None else f"{kind}, {shown(leg, ruler_of(ledger.job))} leg"
    sold, price = _in_packs(kind, ledger.job.cloth.fixing.pack), ledger.read(Fixing.price)
    figures: tuple[str, ...] = (count.id,)
    if ledger.job.cloth.fixing.pack is not None:
        packs = ledger.apply(PACKS, "fixing.packs", count=count, pack=ledger.read(Fixing.pack))
        figures = (count.id, packs.id, ledger.apply(PACK_COST, "fixing.cost", packs=packs, price=price).id)
    yield _sold(ledger, "fixing", what, count.value, *figures, **sold, price=price.value)


def _count(ledger: Ledger, parts: Sequence[Part]) -> Figure[int]:
    """All fixings that are set; no value while a part has none yet."""
    found = {each.id: ledger.figures.get(f"part.{each.id}.fixings_set") for each in parts}
    known = {part: figure for part, figure in found.items() if figure is not None}
    if len(known) < len(parts):
        rows = (ledger.figures.get(f"part.{each.id}.fixings") for each in parts)
        needs = merged(each.needs for each in rows if each is not None)
        return ledger.keep(Figure("fixing.count", COUNT.id, None, needs, COUNT))
    return ledger.total("fixing.count", COUNT.id, "", known)


def _along_the_tape(ledger: Ledger, parts: Sequence[Part], kind: FixingKind) -> Iterator[Purchase]:
    """What runs the whole length. Sticks of glue are not counted: how much tape one fixes depends on the gun."""
    step = ledger.read(Fixing.step) if kind != "glue" else None
    gathered = {each.id: each.gathered for each in parts}
    length = ledger.total("fixing.length", "length to be fixed", "", gathered)
    if step is None:
        if length.value is not None:
            amount = f"for {shown(length.value, ruler_of(ledger.job), 'up')} of tape"
            yield Purchase("fixing", NAMES.get(kind, kind), amount, None, (length.id,))
        return
    buy = ledger.apply(BUY, "fixing.buy", length=length, step=step)
    cost = cost_figure(ledger, "fixing.cost", "cost of fixing", "fixing", buy, TAPE_COST)
    if buy.value is not None:
        sold = _by_length(ledger, "fixing")
        yield _sold(ledger, "fixing", NAMES.get(kind, kind), length, buy.id, cost.id, **sold)


def _needles(ledger: Ledger, needles: Sequence[Figure[int]]) -> Iterator[Purchase]:
    """One packet for every size that is needed."""
    sizes = sorted({each.value for each in needles if each.value is not None})
    if sizes:
        what, unit = f"machine needles, {listed([size(each) for each in sizes])}", "packet of each"
        figures, sold = (each.id for each in needles), {"step": 1, "unit": unit if len(sizes) > 1 else "packet"}
        yield _sold(ledger, "needles", what, 1, *figures, **sold)


def _pins(ledger: Ledger, parts: Sequence[Part]) -> Iterator[Purchase]:
    """What the longest part takes at once."""
    most = max((len(each.marks) for each in parts), default=0)
    if most:
        yield _sold(ledger, "pins", "steel pins, which a magnet finds", most * PINS_A_MARK, **_in_packs("pins"))


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
