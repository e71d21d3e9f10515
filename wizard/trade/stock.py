"""The cloth itself: usable width, what washing leaves, owned lengths, the rules it is cut by, and what it costs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any, Final, cast

from msgspec import Struct

from wizard.trade.cutting import Cutting, Layout, Phase, Repeat, Rules, Stretch, Use
from wizard.trade.field_names import layer_in_words, owned_in_words
from wizard.trade.figures import Figure, Formula, Ledger, Need, Rule, combined, merged
from wizard.trade.job_fields import (
    LAYERS,
    Allowances,
    Cloth,
    Fullness,
    Job,
    Lay,
    LayerId,
    Owned,
    RepeatKind,
)
from wizard.trade.lengths import UNITS, ZERO, Length, round_down, round_up, total

SHRINKS = Rule("shrinkage", "{shrinkage}", source="ISO 5077")
NO_SHRINK = Rule("shrinkage left out", "{wash}: 0", "Cloth that is not washed first does not shrink before it is cut.")
WASHED_ALREADY = Rule("shrinkage left out", "{value}", "This length is washed already, so it does not shrink again.")
# Where nothing is left it has no value: a finding says so.
USABLE = Formula(
    "usable width", "{width} × (1 − {weft}) − 2 × {trim}, rounded down to {mark}",
    lambda width, weft, trim, mark: (
        usable if (usable := round_down(width * (1 - weft) - trim * 2, mark)) > ZERO else None
    ),
)  # fmt: skip
KEEPS = Formula("what washing leaves", "1 − {warp}", lambda warp: 1 - warp if warp < 1 else None)
OWNED = Formula(
    "owned length", "{squaring} + ({length} − {squaring}) × {keeps}, rounded down to {mark}",
    lambda squaring, length, keeps, mark: round_down(washed_at(length, squaring, keeps), mark),
)  # fmt: skip
JOIN = Formula("cost of a join", "2 × {join}", lambda join: join * 2)
LAP = Formula("cost of a lapped join", "{lap}", lambda lap: lap)
LEAST_PIECE = Formula(
    "narrowest piece", "the greater of {least_piece} and {end_hem} + {join}, rounded up to {mark}",
    lambda least_piece, end_hem, join, mark: round_up(max(least_piece, end_hem + join), mark),
)  # fmt: skip
ROLL = "roll"
"""Id of the stretch that has still to be bought."""


def cloth_in_words(stretch: Stretch) -> str:
    """A length that is cut, as the steps of the work call it: `the cloth bought`, `your length 1`."""
    return "the cloth bought" if stretch.length is None else owned_in_words(stretch.id)


class Stock(Struct, frozen=True):
    """One layer's cloth, ready for the layout, or the needs it waits for."""

    usable: Figure[Length]
    keeps: Figure[Fraction]
    squaring: Figure[Length]
    step: Figure[Length]
    rules: Rules | None
    owned: tuple[Stretch, ...]
    roll: Stretch | None
    needs: tuple[Need, ...]
    """What is missing before rules and stretches are all known."""
    owns: bool
    """True when the maker has some of it, however little is known about that."""


def stock_of(ledger: Ledger, layer: LayerId) -> Stock:
    """The cloth of a layer: what is owned, what can be bought, and how it may be cut."""
    key = f"cloth.{layer}"
    usable = usable_width(ledger, layer, f"layer.{layer}.usable", ledger.read(Cloth.width, key), washed=False)
    keeps = ledger.apply(KEEPS, f"layer.{layer}.keeps", warp=_shrink(ledger, layer, "warp", washed=False))
    rules, needs = combined(
        _ruled,
        sideways=ledger.read(Cloth.sideways, key), one_way=ledger.read(Cloth.one_way, key),
        lay=ledger.read(Cloth.lay, key), match=ledger.read(Cloth.match, key), repeat=ledger.read(Cloth.repeat, key),
        repeat_kind=ledger.read(Cloth.repeat_kind, key), step=ledger.read(Cloth.step, key),
        squaring=ledger.read(Allowances.squaring), least_piece=least_piece(ledger, layer),
        policy=ledger.read(Fullness.joins), surplus=ledger.read(Fullness.surplus),
        mark=ledger.read(Job.ruler), keeps=keeps, join_cost=join_cost(ledger, layer),
    )  # fmt: skip
    known = [_owned(ledger, layer, each, owned) for each, owned in cloth_of(ledger.job, layer).owned.items()]
    roll = Stretch(ROLL, None, usable.value) if usable.value is not None else None
    return Stock(
        usable, keeps, ledger.read(Allowances.squaring), ledger.read(Cloth.step, key), rules,
        tuple(stretch for stretch, _ in known if stretch is not None), roll,
        merged([usable.needs, needs, *(each for _, each in known)]), bool(known),
    )  # fmt: skip


def cloth_of(job: Job, layer: LayerId) -> Cloth:
    """The maker's answers about a layer's cloth."""
    cloth: Cloth = getattr(job.cloth, layer)
    return cloth


def cloths_used(job: Job) -> dict[LayerId, Cloth]:
    """The cloth of the face, and of the inner layers in use."""
    cloths = {layer: cloth_of(job, layer) for layer in LAYERS}
    return {layer: cloth for layer, cloth in cloths.items() if layer == "face" or cloth.use}


def layer_name(job: Job, layer: LayerId) -> str:
    """As the maker named it, else the layer in words."""
    return cloth_of(job, layer).name or layer_in_words(layer)


def _shrink(ledger: Ledger, layer: LayerId, way: str, *, washed: bool) -> Figure[Fraction]:
    """What the cloth loses before it is cut: nothing unless it is washed first. `washed`: that length is already."""
    key, id = f"cloth.{layer}", f"layer.{layer}.{way}"
    wash = ledger.read(Cloth.wash, key)
    title = "shrinkage along the roll" if way == "warp" else "shrinkage across the roll"
    if wash.value == "washed first" and not washed:
        read = ledger.read(Cloth.warp_shrink if way == "warp" else Cloth.weft_shrink, key)
        return ledger.work(id, title, SHRINKS, lambda shrinkage: shrinkage, shrinkage=read)
    if washed:
        return ledger.keep(Figure(f"{id}.washed", title, Fraction(0), (), WASHED_ALREADY))
    return ledger.keep(Figure(id, title, Fraction(0), wash.needs, NO_SHRINK, (("wash", wash),)))


def usable_width(ledger: Ledger, layer: LayerId, id: str, width: Figure[Length], *, washed: bool) -> Figure[Length]:
    """Usable width `U`, down to the ruler mark; None when nothing is left."""
    weft, trim = _shrink(ledger, layer, "weft", washed=washed), ledger.read(Cloth.trim, f"cloth.{layer}")
    mark = ledger.read(Job.ruler)
    return ledger.apply(USABLE, id, width=width, weft=weft, mark=mark, trim=trim)


def _owned(ledger: Ledger, layer: LayerId, owned_id: str, owned: Owned) -> tuple[Stretch | None, tuple[Need, ...]]:
    """An owned length as it is on the table, and what is missing about it."""
    key, id = f"cloth.{layer}.owned.{owned_id}", f"layer.{layer}.owned.{owned_id}"
    # Asked only where the layer is washed first.
    first = cloth_of(ledger.job, layer).wash == "washed first"
    washed, asked = bool(owned.washed) or not first, ledger.read(Owned.washed, key).needs if first else ()
    keeps = ledger.apply(KEEPS, f"{id}.keeps", warp=_shrink(ledger, layer, "warp", washed=washed))
    own = ledger.said(f"{key}.width")
    width = ledger.read(Owned.width, key) if own else ledger.read(Cloth.width, f"cloth.{layer}")
    usable = usable_width(ledger, layer, f"{id}.usable", width, washed=washed)
    squaring, mark, whole = ledger.read(Allowances.squaring), ledger.read(Job.ruler), ledger.read(Owned.length, key)
    length = ledger.apply(OWNED, f"{id}.length", squaring=squaring, length=whole, keeps=keeps, mark=mark)
    needs = merged([asked, length.needs, usable.needs, *_other_end(ledger, key, owned)])
    if length.value is None or usable.value is None:
        return None, needs
    damage = _damage(owned, cast("Length", squaring.value), cast("Fraction", keeps.value), cast("Length", mark.value))
    return Stretch(owned_id, length.value, usable.value, damage=damage, lot=owned.lot), needs


def _other_end(ledger: Ledger, key: str, owned: Owned) -> list[tuple[Need, ...]]:
    """What is missing of a damaged stretch with one end given: without it a piece could be cut over the damage."""
    ends = {"damage_from": owned.damage_from, "damage_to": owned.damage_to}
    holes = [f"{key}.{leaf}" for leaf, end in ends.items() if end is None]
    waits = len(holes) == 1 or any(each in ledger.job.unusable for each in holes)
    return [ledger.wanting(each).needs for each in holes] if waits else []


def washed_at(place: Length, squaring: Length, keeps: Fraction) -> Length:
    """Where a place along an owned length is once all beyond the squaring has shrunk."""
    return squaring + (place - squaring) * keeps if place > squaring else place


def _damage(owned: Owned, squaring: Length, keeps: Fraction, mark: Length) -> tuple[tuple[Length, Length], ...]:
    """The damaged stretch as it is after washing, widened to the ruler mark; given the wrong way round it is no less
    damaged (a finding asks to read it again)."""
    if owned.damage_from is None or owned.damage_to is None or owned.damage_from == owned.damage_to:
        return ()
    start, end = (washed_at(each, squaring, keeps) for each in sorted((owned.damage_from, owned.damage_to)))
    return ((round_down(start, mark), round_up(end, mark)),)


def join_cost(ledger: Ledger, layer: LayerId) -> Figure[Length]:
    """Cut width that one join of a layer takes: `2j` for a seam, the lap for a lapped join."""
    id, key = f"layer.{layer}.join", f"cloth.{layer}"
    if ledger.read(Cloth.join, key).value == "lap":
        return ledger.apply(LAP, id, lap=ledger.read(Cloth.lap, key))
    return ledger.apply(JOIN, id, join=ledger.read(Allowances.join))


def least_piece(ledger: Ledger, layer: LayerId) -> Figure[Length]:
    """Least cut width of a piece, on the ruler mark; never under an end hem and a join."""
    return ledger.apply(
        LEAST_PIECE, f"layer.{layer}.least_piece", least_piece=ledger.read(Allowances.least_piece),
        end_hem=ledger.read(Allowances.end_hem), join=join_cost(ledger, layer), mark=ledger.read(Job.ruler),
    )  # fmt: skip


def _ruled(
    *, sideways: bool, one_way: bool, lay: Lay, match: bool, repeat: Length, repeat_kind: RepeatKind, mark: Length,
    keeps: Fraction, join_cost: Length, **same: Any,
) -> Rules:  # fmt: skip
    """Rules from values, of which some are the `same` there. What a join takes goes up to the ruler mark, so every
    piece begins on it; washing shortens the pattern too."""
    along, pattern = lay == "along", Repeat(repeat * keeps, repeat_kind) if match and repeat > ZERO else None
    turns = one_way and not (sideways and along)
    cost = round_up(join_cost, mark)
    return Rules(join_cost=cost, mark=mark, keeps=keeps, repeat=pattern, along=along, one_way=turns, **same)


FROM_ROLL = Rule("cloth from the roll", "{squaring} + {used} ÷ {keeps}")
BUY = Rule("cloth to buy", "{roll}, rounded up to {step}")
COST = Rule("cost of cloth", "{buy} at {price} for each {sold_by}")


LAID = Rule("length laid out", "{value}")


class Bought(Struct, frozen=True):
    """What a layer takes and costs."""

    used: Figure[Length]
    roll: Figure[Length]
    """What the roll must give, squaring and shrinkage included; less what is owned."""
    buy: Figure[Length]
    cost: Figure[Decimal]


def bought_of(
    ledger: Ledger, layer: LayerId, stock: Stock, cuts: Mapping[str, Figure[Length]], cutting: Cutting | None,
    needs: tuple[Need, ...],
) -> Bought:  # fmt: skip
    """Used, to come from the roll, to buy and cost; without a cutting each figure carries the needs of the layer."""
    id = f"layer.{layer}"
    if cutting is None:
        named = (
            ("used", "cloth used", LAID),
            ("roll", FROM_ROLL.id, FROM_ROLL),
            ("buy", BUY.id, BUY),
            ("cost", COST.id, COST),
        )
        return Bought(*(ledger.keep(Figure(f"{id}.{leaf}", title, None, needs, rule)) for leaf, title, rule in named))
    layout, repeat = cutting.best, None if stock.rules is None else stock.rules.repeat
    laid = {use.stretch: length_laid(ledger, id, use, layout, cuts, repeat) for use in layout.uses}
    used = ledger.total(f"{id}.used", "cloth used", "", laid)
    roll = _from_roll(ledger, id, stock, laid.get(ROLL), layout)
    buy = ledger.work(f"{id}.buy", "cloth to buy", BUY, lambda roll, step: layout.buy, roll=roll, step=stock.step)
    return Bought(used, roll, buy, cost_figure(ledger, f"{id}.cost", "cost of cloth", layer, buy, COST))


def _from_roll(ledger: Ledger, id: str, stock: Stock, used: Figure[Length] | None, layout: Layout) -> Figure[Length]:
    """What the roll must give, as the layout says."""
    nothing = Figure(f"{id}.on.{ROLL}", "nothing from the roll", ZERO, (), LAID)
    if used is None:
        return ledger.keep(Figure(f"{id}.roll", "cloth from the roll", ZERO, (), LAID, (("value", nothing),)))
    return ledger.work(
        f"{id}.roll", "cloth from the roll", FROM_ROLL, lambda squaring, used, keeps: layout.roll,
        squaring=stock.squaring, used=used, keeps=stock.keeps,
    )  # fmt: skip


def cost_figure(ledger: Ledger, id: str, title: str, table: str, buy: Figure[Length], rule: Rule) -> Figure[Decimal]:
    """What a length of `cloth.TABLE` costs to buy; no price, no cost."""
    price, sold_by = ledger.read(Cloth.price, f"cloth.{table}"), ledger.read(Cloth.sold_by, f"cloth.{table}")
    return ledger.work(id, title, rule, price_for, buy=buy, price=price, sold_by=sold_by)


def price_for(buy: Length, price: Decimal, sold_by: str) -> Decimal:
    """The price of a length sold by the yard, metre or foot, to the nearest cent, halves up, as a till does."""
    half_cents = buy.inches / UNITS[sold_by] * Fraction(price) * 200 + 1
    return Decimal(half_cents.numerator // half_cents.denominator // 2).scaleb(-2)


ONE_AFTER_ANOTHER: Final = "Widths are cut one after the other, each as long as its longest piece."
REPEATS: Final[Mapping[Phase, Rule]] = {
    "straight": Rule("length laid out, matched", "{value}, on a repeat of {repeat}"),
    "half-drop": Rule("length laid out, half-drop matched", "{value}, on a half-drop repeat of {repeat}"),
}


def length_laid(
    ledger: Ledger, id: str, use: Use, layout: Layout, cuts: Mapping[str, Figure[Length]], repeat: Repeat | None
) -> Figure[Length]:
    """The length laid out on one stretch, `ID.on.STRETCH`: as a sum of widths where it is one."""
    where, title = f"{id}.on.{use.stretch}", "length laid out"
    if repeat is not None:
        recurs = ledger.keep(Figure(f"{id}.repeat", "repeat as it is cut", repeat.length, (), LAID))
        return ledger.work(where, title, REPEATS[repeat.phase], lambda **_: use.length, repeat=recurs)
    # For each width its longest piece's cut length, and that piece's strip.
    cut_from = sorted((each.row, (each.cut, each.strip)) for each in layout.pieces if each.stretch == use.stretch)
    rows = dict(cut_from)
    if layout.way == "along" or total(cut for cut, _ in rows.values()) != use.length:
        return ledger.keep(Figure(where, title, use.length, (), LAID))
    counts = Counter(strip for _, strip in rows.values())
    terms = (f"{{{strip}}}" if count == 1 else f"{count} × {{{strip}}}" for strip, count in counts.items())
    rule = Rule("length laid out", " + ".join(terms), ONE_AFTER_ANOTHER)
    return ledger.work(where, title, rule, lambda **_: use.length, **{strip: cuts[strip] for strip in counts})
