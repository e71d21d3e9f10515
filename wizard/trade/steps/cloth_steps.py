"""From the shop to labelled pieces: buy, wash, look over, measure once more, square, cut out, label."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from wizard.trade.cutting import Layout, Rules, Stretch
from wizard.trade.field_names import first_up, owned_in_words
from wizard.trade.formatting import listed, money, number, shown
from wizard.trade.job_fields import Cloth, Job
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Layer, Purchase, Step
from wizard.trade.sections import section_name
from wizard.trade.steps.cut_order import (
    CutStretch,
    cut_pieces,
    cut_stretches,
    cut_words,
    first_number,
    gaps,
    numbers_in_words,
    pieces_of,
    slits,
)
from wizard.trade.steps.pattern_matching import matched_lines
from wizard.trade.steps.step_writer import StepWriter
from wizard.trade.stock import cloth_in_words


def cloth_steps(write: StepWriter, purchases: Sequence[Purchase]) -> Iterator[Step]:
    """Buying, washing, and everything at the cutting table, layer by layer, as far as they are laid out."""
    if write.layers and purchases and all(each.cutting is not None for each in write.layers):
        yield _buy(write, purchases)
    for layer in write.layers:
        if write.cloth(layer.id).wash == "washed first":
            yield _wash(write, layer)
    dear = next((layer for layer in write.layers if layer.cutting is not None and _why_dear(write, layer)), None)
    for layer in write.layers:
        if layer.cutting is not None:
            layout = layer.cutting.best
            yield _look_over(write, layer, layout)
            if layer is dear:
                yield _measure(write, layer)
            yield from _square(write, layer, layout)
            yield _cut(write, layer, layout)
            yield _label(write, layer, layout)


def _buy(write: StepWriter, purchases: Sequence[Purchase]) -> Step:
    lines = [f"{each.what}: {each.amount}{_cost(write.job, each)}" for each in purchases]
    figures = (figure for each in purchases for figure in each.figures)
    return write.step("buy", {"purchases": lines}, figures=figures, minutes=60)


def _cost(job: Job, purchase: Purchase) -> str:
    return "" if purchase.cost is None else f", {job.currency or ''}{money(purchase.cost)}"


def _wash(write: StepWriter, layer: Layer) -> Step:
    shrinks = [write.ledger.read(each, f"cloth.{layer.id}") for each in (Cloth.warp_shrink, Cloth.weft_shrink)]
    along, across = (f"{number((share.value or Fraction(0)) * 100)} %" for share in shrinks)
    washed = [first_up(owned_in_words(id)) for id, owned in write.cloth(layer.id).owned.items() if owned.washed]
    values = {"washed": washed, "along": along, "across": across}
    return write.step("wash", values, layer=layer, figures=[each.id for each in shrinks], minutes=90)


def _look_over(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    damage = [
        {"name": _name(stretch), "start": write.mark(start), "end": write.mark(end)}
        for stretch in _cut_from(layer, layout)
        for start, end in stretch.damage
    ]
    values = {"damage": damage}
    return write.step("look-over", values, layer=layer, figures=(layer.used.id,), minutes=15)


def _name(stretch: Stretch) -> str:
    return first_up(cloth_in_words(stretch))


DEAR: Final[Mapping[str, int]] = {"yd": 40, "m": 40, "ft": 14}
"""Cloth counts as dear from this price on, in the money of the file, for one of what it is sold by. Common practice."""


def _why_dear(write: StepWriter, layer: Layer) -> str:
    """Why a wrong cut would be hard to make good; empty where it would not."""
    cloth = write.cloth(layer.id)
    sold_by = write.value(Cloth.sold_by, f"cloth.{layer.id}") or "yd"
    if cloth.kind == "fine silk":
        return "is silk"
    if cloth.price is not None and cloth.price >= DEAR[sold_by]:
        return f"costs {write.job.currency or ''}{money(cloth.price)} a {sold_by}"
    return "may be hard to buy again" if cloth.price is None and cloth.owned and not layer.buy.value else ""


def _measure(write: StepWriter, layer: Layer) -> Step:
    sections = dict.fromkeys(part.section for part in write.parts)
    read = {each: [id for id in write.ledger.figures if _is_reading(id, each)] for each in sections}
    values = {
        "cloth": layer.name,
        "why": _why_dear(write, layer),
        "sections": [_readings(write, section, ids) for section, ids in read.items()],
    }
    return write.step("measure", values, figures=(id for ids in read.values() for id in ids), minutes=5 * len(read))


def _is_reading(key: str, section: str) -> bool:
    return key == f"survey.section.{section}.run.1" or key.startswith(f"survey.section.{section}.drop.")


def _readings(write: StepWriter, section: str, ids: Sequence[str]) -> dict[str, str]:
    """The run and the drops of a section, by the names of the text."""
    lengths = {id: write.mark(write.worked(id)) for id in ids}
    run, drops = (", ".join(each for id, each in lengths.items() if f".{leaf}." in id) for leaf in ("run", "drop"))
    return {"name": first_up(section_name(write.job, section)), "run": run, "drops": drops}


def _cut_from(layer: Layer, layout: Layout) -> list[Stretch]:
    """Every stretch that pieces are cut from."""
    used = {each.stretch for each in layout.pieces}
    return [each for each in layer.stock if each.id in used]


def _square(write: StepWriter, layer: Layer, layout: Layout) -> Iterator[Step]:
    rough, rules = [stretch for stretch in _cut_from(layer, layout) if not stretch.squared], layer.rules
    if not rough or rules is None:
        return
    # The squaring as it was asked for, though it may be between two marks.
    squaring = shown(rules.squaring, write.ruler, "given")
    taken, owned = _taken(write, rules, squaring), write.cloth(layer.id).owned
    comma = "," if taken != squaring else ""
    just = {each.id: squaring if each.id in owned and owned[each.id].washed else taken for each in rough}
    damaged = [{"name": _name(each), "just": just[each.id]} for each in rough if each.damage and rules.squaring]
    widths = dict.fromkeys(write.mark(each.usable) for each in rough)
    alike = {width: [cloth_in_words(each) for each in rough if write.mark(each.usable) == width] for width in widths}
    lines = [{"names": first_up(listed(names)), "usable": width} for width, names in alike.items()]
    values = {"taken": f"{taken}{comma}", "rough": lines, "damaged": damaged}
    figures = ("allowances.squaring", layer.usable.id)
    yield write.step("square", values, layer=layer, figures=figures, minutes=10 * len(rough))


def _taken(write: StepWriter, rules: Rules, squaring: str) -> str:
    """What squaring may take; it is allowed for in cloth as bought, so of cloth that has shrunk since there is less."""
    if not ZERO < rules.squaring * rules.keeps < rules.squaring:
        return squaring
    return f"{squaring} of cloth as bought, {shown(rules.squaring * rules.keeps, write.ruler, 'down')} once washed"


def _cut(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    matched = layer.rules is not None and layer.rules.repeat is not None
    level = (write.value(Cloth.match_from, f"cloth.{layer.id}") if matched else None) or "hem"
    lengths = cut_stretches(layer, layout, first_number(write.layers, layer))
    slit = [each for each in (_slit(write, layout, length) for length in lengths) if each]
    then = any(set(each.slit_at(cut.stretch)) - {*slits(cut, layout)} for cut in lengths for each in cut.pieces)
    between = [gap for length in lengths for gap in gaps(length, layout)]
    values = {
        "cuts": [line for length in lengths for line in _cut_list(write, length, several=len(lengths) > 1)],
        "slit": " and ".join(slit),
        "beside": min(between) < ZERO,
        "where": "“from” and each “to”" if max(between) > ZERO else "“to”",
        "then": ", and then slit what is listed" if then else "",
        "one_way": write.cloth(layer.id).one_way,
        "matched": matched_lines(layer, level, write.ruler),
    }
    minutes = 10 + 3 * len(layout.pieces)
    return write.step("cut", values, layer=layer, figures=(layer.usable.id, *_sizes(layer)), minutes=minutes)


def _cut_list(write: StepWriter, cut: CutStretch, *, several: bool) -> Iterator[str]:
    """The pieces of one length of cloth."""
    names = {each.id: each.name for each in write.parts}
    from_which = f" of {cut.name}" if several else ""
    return (f"No. {each.number}, {cut_words(each, names, write.ruler)}{from_which}." for each in cut.pieces)


def _slit(write: StepWriter, layout: Layout, cut: CutStretch) -> str:
    """`your length 1 at 3 in and 5 in`; empty for cloth that is cut across first."""
    edges = [write.mark(each) for each in slits(cut, layout)]
    return f"{cut.name} at {listed(edges)} from its left edge" if edges else ""


def _label(write: StepWriter, layer: Layer, layout: Layout) -> Step:
    pieces = cut_pieces(write.layers, layer)
    own = [(part.name, pieces_of(part.id, pieces)) for part in write.parts]
    parts = "; ".join(f"{name} {numbers_in_words(of)}" for name, of in own if of)
    sizes = (f"{write.cut(each.cut)} {write.cut(each.width)}" for each in layout.pieces)
    minutes = len(layout.pieces)
    return write.step("label", {"parts": parts}, layer=layer, figures=_sizes(layer), minutes=minutes, written=sizes)


def _sizes(layer: Layer) -> tuple[str, ...]:
    """The figures that every piece's size follows from."""
    return tuple(each.id for sizes in (layer.cut_lengths, layer.cut_widths) for each in sizes.values())
