"""What a plan offers beside the fullness in use: a roll that saves cloth or gives more, and what owned cloth gives."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cutting import Stretch
from wizard.trade.field_names import first_up, owned_in_words
from wizard.trade.formatting import (
    Ruler,
    exact,
    floored,
    listed,
    money,
    number,
    ruler_of,
    shown,
    text_beside,
    two_decimals,
    wordings_in,
)
from wizard.trade.fullness import ALL_OWNED, guide_of, inner_weights, offered, range_words
from wizard.trade.fullness_steps import MEAN, MOST, FullnessStep
from wizard.trade.job_fields import Job, Owned
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer, Offer, Offers, Plan
from wizard.trade.stock import cloth_of

WORDS: Final = wordings_in(text_beside(__file__, "offers.txt"))
"""What each way of cutting is called, what a fullness saves or costs beside another, and what a constraint costs."""
Kind = Literal["saves", "same cloth", "costs", "nothing to buy"]
LEAST_GAIN: Final = Fraction(1, 20)
"""The same cloth is worth naming when it gives at least this much more fullness."""


class Find(Struct, frozen=True):
    """A fullness step that is worth naming beside the fullness in use."""

    kind: Kind
    step: FullnessStep
    length: Length
    """What is saved, or bought on top; ZERO for the same cloth."""
    money: Decimal | None
    """What that is worth; None without a price."""


def finds(steps: Sequence[FullnessStep], wanted: Fraction | None, buy: Length | None) -> tuple[Find, ...]:
    """What the steps offer beside a fullness of `wanted` that buys `buy`; nothing until both are known.

    `steps` run from the shortest roll on and may still be growing. The step below saves the least cloth that can be
    saved; the one above costs the least more.
    """
    if wanted is None or buy is None:
        return ()
    below = [each for each in steps if each.roll < buy and each.handy < wanted]
    same = [each for each in steps if each.roll == buy and each.handy >= wanted + LEAST_GAIN]
    above = [each for each in steps if each.roll > buy and each.handy > wanted]
    cost = next((each.cost for each in steps if each.roll == buy), None)
    found = [_find("saves", each, buy - each.roll, cost) for each in below[-1:]]
    found += [Find("same cloth", each, ZERO, None) for each in same[:1]]
    found += [_find("costs", each, each.roll - buy, cost) for each in above[:1]]
    free = [each for each in below[:-1] if each.roll == ZERO]
    return (*found, *(_find("nothing to buy", each, buy, cost) for each in free))


def _find(kind: Kind, step: FullnessStep, length: Length, cost: Decimal | None) -> Find:
    return Find(kind, step, length, None if cost is None or step.cost is None else abs(cost - step.cost))


def present(plan: Plan) -> FullnessStep | None:
    """The fullness in use as a step; None until it is known and the face is laid out."""
    wanted, face = plan.basis.fullness, plan.layers[0]
    if wanted is None or face.cutting is None or face.buy.value is None:
        return None
    return FullnessStep(face.buy.value, wanted, face.cutting.best.joins, face.cost.value, wanted)


def find_words(find: Find, wanted: Fraction, unit: str, currency: str = "") -> str:
    """`2.46 instead of 2.5 saves 1/8 yd`, `the same cloth gives 2.58`, `2.9 takes 1/4 yd more`."""
    # The steps go no further than what is called lavish; the cloth may.
    least = "at least " if find.step.handy >= MOST else ""
    worth = "" if find.money is None else f" ({currency}{money(find.money)})"
    full, now, length = number(find.step.handy), two_decimals(wanted), exact(find.length, unit)
    said = {"full": full, "now": now, "length": length, "worth": worth, "least": least}
    return WORDS[find.kind].sentence.format_map(said)


def finds_in_words(plan: Plan, steps: Sequence[FullnessStep]) -> tuple[str, ...]:
    """The finds beside what the plan is made to, each in words."""
    face = plan.layers[0]
    wanted, unit = plan.basis.fullness, plan.value("cloth.face.sold_by")
    if wanted is None or not unit:
        return ()
    found = finds(steps, wanted, face.buy.value)
    return tuple(find_words(each, wanted, unit, plan.job.currency or "") for each in found)


WANT: Final = "fullness.want"
AIM: Final = "fullness.aim"
EVERY: Final = "all the cloth you have"


def offers_of_fullness(plan: Plan) -> Iterator[Offers]:
    """The fullnesses to choose from as they are worked out: the one in use, the recommended one, all the owned cloth,
    then what each other length of roll gives, those nearest to the recommended first.

    Each lays cloth out anew, so it is not for the thread of a screen.
    """
    face, guide = plan.layers[0], offered(plan.job)
    best = plan.basis.step_at(guide)
    if best is None:
        yield Offers(HEADS, (), waits=f"{waiting_words(face, 'fullness.')} {NUMBER}")
        return
    table = FullnessTable(plan, best)
    yield table.offers()
    if (most := plan.fullness_in_hand) is not None:
        table.owned = plan.basis.step_at(most)
        yield table.offers()
    for step in replace(plan.basis, fullness=guide).nearest_steps():
        table.steps = (*table.steps, step)
        yield table.offers()
    yield table.offers(whole=True)


NUMBER: Final = "You can already type a number, 1 or more."
HEADS: Final = ("fullness", "to buy", "joins", "cost")


class FullnessTable:
    """The rows found so far. Lengths and costs are of the face cloth alone."""

    def __init__(self, plan: Plan, best: FullnessStep) -> None:
        self.plan, self.best, self.now = plan, best, present(plan)
        self.owned: FullnessStep | None = None
        """All the owned cloth."""
        self.steps: tuple[FullnessStep, ...] = ()

    def offers(self, *, whole: bool = False) -> Offers:
        """The table now."""
        rows = tuple(self._row(each) for each in sorted(self._each(), key=lambda each: each.fullness))
        usual = next((each for each in rows if each.in_use), None) or next(each for each in rows if each.recommended)
        free = Offer("", (), self._entries(""), "another number, 1 or more")
        return Offers(HEADS, rows, self._reason() if whole else "", usual, free, whole)

    def _each(self) -> Iterator[FullnessStep]:
        """The rows, one for each fullness."""
        # A number that was chosen stays a number, even where it is as full as all the owned cloth.
        first = (self.owned, self.now) if self.plan.job.fullness.aim == ALL_OWNED else (self.now, self.best, self.owned)
        named = [each for each in (*first, self.best) if each is not None]
        taken = set[Fraction]()
        for each in (*named, *self.steps):
            at = floored(each.handy)
            if at not in taken:
                taken.add(at)
                yield each

    def _row(self, step: FullnessStep) -> Offer:
        plan, every, full = self.plan, step is self.owned, floored(step.handy)
        entries = {AIM: ALL_OWNED} if every else self._entries(number(step.handy))
        cells = (two_decimals(step.handy), *takes_cells(plan, plan.layers[0], (step.roll, step.joins, step.cost)))
        in_use, best = self.now is not None and full == floored(self.now.handy), full == floored(self.best.handy)
        guide, differs = self._guide(step.handy), self._differs(step)
        if every:
            return Offer(EVERY, cells, entries, EVERY, f"{first_up(guide)}. {differs}".rstrip(), in_use, best)
        return Offer(cells[0], cells, entries, guide, differs, in_use, best)

    def _entries(self, fullness: str) -> dict[str, str]:
        """What is answered by choosing a number."""
        asked = self.plan.job.cloth.face.owned or self.plan.job.fullness.aim is not None
        return {AIM: "a number", WANT: fullness} if asked else {WANT: fullness}

    def _guide(self, full: Fraction) -> str:
        """What the guide says of a fullness."""
        least, most = guide_of(self.plan.job)
        words = (
            (full == self.best.handy, "the guide for this cloth"),
            (full > MOST, f"above {number(MOST)} it is hard to gather"),
            (full == MOST > most, f"the most: above {number(MOST)} it is hard to gather"),
            (full > most, "above the guide for this cloth"),
            (full < MEAN, f"below {number(MEAN)} it looks flat"),
            (full < least, "below the guide for this cloth"),
        )
        return next((each for holds, each in words if holds), "within the guide")

    def _differs(self, step: FullnessStep) -> str:
        """What a row takes beside the one that is taken as usual, in a sentence; nothing for that one."""
        usual = self.now or self.best
        if floored(step.handy) == floored(usual.handy):
            return ""
        one, other = (step.roll, step.joins, step.cost), (usual.roll, usual.joins, usual.cost)
        return compared(self.plan, self.plan.layers[0], two_decimals(usual.handy), one, other)

    def _reason(self) -> str:
        job, best = self.plan.job, self.best
        weight, layers = job.cloth.face.weight or "medium", " with inner layers" if inner_weights(job) else ""
        takes = f"{weight.capitalize()} cloth{layers} usually takes {range_words(guide_of(job))}."
        fits = " It fits the cloth you have." if job.cloth.face.owned and best.roll == ZERO else ""
        found = finds(sorted(self.steps, key=lambda each: each.roll), best.handy, best.roll)
        unit = self.plan.basis.sold_by or ruler_of(job).unit
        named = (find_words(each, best.handy, unit, job.currency or "") for each in found)
        also = "".join(f" {first_up(each)}." for each in named)
        face_only = " To buy and cost: face cloth only." if len(self.plan.layers) > 1 else ""
        return f"{takes}{fits}{also}{face_only}"


def length_words(plan: Plan, layer: Layer, length: Length) -> str:
    """A length of a layer's cloth in the unit it is sold by."""
    return exact(length, plan.value(f"cloth.{layer.id}.sold_by") or "yd")


def cost_words(plan: Plan, cost: Decimal | None) -> str:
    """A sum of money after its currency; nothing for None."""
    return "" if cost is None else f"{plan.job.currency or ''}{money(cost)}"


def worth_words(plan: Plan, one: Decimal | None, other: Decimal | None) -> str:
    """How far two costs are apart, after a blank: ` ($9.25)`; nothing where they are alike or not both known."""
    worth = None if one is None or other is None else abs(one - other)
    return f" ({cost_words(plan, worth)})" if worth else ""


def joins_words(more: int) -> str:
    """`2 fewer joins`, `1 more join`."""
    return f"{abs(more)} {'fewer' if more < 0 else 'more'} {'join' if abs(more) == 1 else 'joins'}"


Takes = tuple[Length, int, Decimal | None]
"""What a choice buys, its joins, and what it costs."""


def takes_cells(plan: Plan, layer: Layer, takes: Takes) -> tuple[str, str, str]:
    """What a choice takes, as the cells of its row."""
    buy, joins, cost = takes
    return length_words(plan, layer, buy) if buy else "nothing", str(joins), cost_words(plan, cost)


def compared(plan: Plan, layer: Layer, name: str, one: Takes, other: Takes) -> str:
    """What one choice takes beside another of that name: `Compared with 2.5: 1/2 yd more ($9.25), 2 fewer joins.`"""
    bought, joins, worth = one[0] - other[0], one[1] - other[1], worth_words(plan, one[2], other[2])
    more = f"{length_words(plan, layer, abs(bought))} {'more' if bought > ZERO else 'less'}{worth}"
    joined = joins_words(joins) if joins else "as many joins"
    return f"Compared with {name}: {more if bought else 'as much cloth'}, {joined}."


def waiting_words(layer: Layer, but: str = "") -> str:
    """What keeps a layer from being laid out, in a sentence; `but`: the beginning of keys that do not matter."""
    needs = [each.words for each in layer.needs if not (but and each.key.startswith(but))]
    if needs:
        named = needs if len(needs) <= FEW else [*needs[:FEW], "more"]
        return f"Needed first: {listed(named)}."
    return f"The {layer.name} cannot be cut like this: see the findings."


FEW: Final = 3
"""Most that is named of what something waits for."""


class InHand(Struct, frozen=True):
    """One owned length and what becomes of it."""

    stretch: Stretch
    pieces: tuple[tuple[str, int], ...]
    """Strip id and how many of its pieces are cut from it, in the order of the strips."""
    left: Length
    """What is left whole at its far end."""


def in_hand_of(layer: Layer) -> Iterator[InHand]:
    """Every owned length of a layer; none while the layer is not laid out."""
    if layer.cutting is None:
        return
    layout = layer.cutting.best
    for stretch in (each for each in layer.stock if each.length is not None):
        here = [piece.strip for piece in layout.pieces if piece.stretch == stretch.id]
        counts = tuple((strip.id, here.count(strip.id)) for strip in layer.strips if strip.id in here)
        ends = [(each.start, each.along) for each in layout.offcuts if (each.stretch, each.kind) == (stretch.id, "end")]
        _, left = max(ends, default=(ZERO, ZERO))
        yield InHand(stretch, counts, left if here else stretch.length or ZERO)


def in_hand_lines(job: Job, layer: Layer, names: dict[str, str], ruler: Ruler) -> Iterator[str]:
    """A sentence or two for each owned length: what it is, what is cut from it, what is left."""
    for each in in_hand_of(layer):
        what, gives = ", ".join(_measures(job, layer, each.stretch, ruler)), _gives(layer, each, names, ruler)
        yield f"{first_up(owned_in_words(each.stretch.id))}: {what}. {gives}"


def _measures(job: Job, layer: Layer, stretch: Stretch, ruler: Ruler) -> Iterator[str]:
    cloth = cloth_of(job, layer.id)
    owned = cloth.owned.get(stretch.id, Owned())
    state = "" if cloth.wash != "washed first" else ", washed already" if owned.washed else " once it is washed"
    keeps = layer.rules.keeps if layer.rules is not None and not owned.washed else 1
    yield f"{shown((owned.length or ZERO) * keeps, ruler, 'down')} long{state}"
    narrow = layer.usable.value is not None and stretch.usable < layer.usable.value
    yield f"{'only ' if narrow else ''}{shown(stretch.usable, ruler, 'down')} usable width"
    for start, end in stretch.damage:
        yield f"damaged from {shown(start, ruler)} to {shown(end, ruler)}"
    if stretch.lot:
        yield f"dye lot {stretch.lot}"


def _gives(layer: Layer, each: InHand, names: dict[str, str], ruler: Ruler) -> str:
    if not each.pieces:
        matched = layer.rules is not None and layer.rules.repeat is not None and not layer.rules.along
        used = {use.stretch for use in layer.cutting.best.uses} if layer.cutting is not None else ()
        apart = matched and all(each.stretch.usable != other.usable for other in layer.stock if other.id in used)
        why = ": it is not as wide as the cloth that is cut, so at a join the pattern would not meet" if apart else ""
        return f"Nothing is cut from it{why}."
    counts = [f"{count} for {names.get(strip, strip)}" for strip, count in each.pieces]
    left = f" {shown(each.left, ruler, 'down')} is left at the end." if each.left > ZERO else ""
    return f"Pieces cut from it: {'; '.join(counts)}.{left}"


def without_buying(fullness: Fraction | None, layers: Sequence[Layer]) -> str:
    """What owned cloth gives by itself, in a sentence; empty where nothing is owned."""
    held = [layer.name for layer in layers if any(each.length is not None for each in layer.stock)]
    if not held:
        return ""
    of = " and ".join(held)
    if fullness is None:
        return f"Without buying any {of}, no way was found to make even a flat skirt."
    lots = any(len({each.lot for each in layer.stock if each.lot}) > 1 for layer in layers)
    mixed = ", if a section may mix dye lots" if lots else ""
    return f"Without buying any {of}, the skirt can be {two_decimals(fullness)} full, the same in every section{mixed}."


def offer_words(plan: Plan) -> str:
    """What is left of owned cloth at the fullness that is offered, and how full all of it would be, in a few sentences.

    Empty while no cloth is owned, or while something it rests on is not known.

    It lays the cloth out again, some tenths of a second: worked only where it is read.
    """
    if not any(each.stock for each in plan.layers):
        return ""
    want, most = offered(plan.job), plan.fullness_in_hand
    fullness = replace(plan.job.fullness, aim="a number", want=want)
    tried = make_plan(replace(plan.job, fullness=fullness))
    layers = [each for each in tried.layers if any(one.length is not None for one in each.stock)]
    if not layers or any(each.cutting is None for each in layers):
        return ""
    hardly = f"Above {number(MOST)} cloth is hard to gather." if most is not None and most > MOST else ""
    told = [f"At {number(want)}, {_left(tried, each)}" for each in layers]
    return " ".join(each for each in (*told, without_buying(most, tried.layers), hardly) if each)


def _left(plan: Plan, layer: Layer) -> str:
    """What is left whole of each owned length, and what has to be bought all the same."""
    left = [(each.stretch.id, each.left) for each in in_hand_of(layer) if each.left > ZERO]
    lengths = [f"{shown(rest, ruler_of(plan.job), 'down')} of {owned_in_words(id)}" for id, rest in left]
    said = f"left over of the {layer.name}: {listed(lengths)}." if lengths else f"nothing of the {layer.name} is left."
    return f"{said} You need {length_words(plan, layer, layer.buy.value)} more." if layer.buy.value else said
