"""What cannot be made, or hardly: drops, setbacks, widths of cloth, allowances, and the fullness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any, Final

from wizard.trade.figures import Figure
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.formatting import number
from wizard.trade.fullness import from_owned
from wizard.trade.fullness_offers import MEAN, MOST, guide_of, inner_weights, range_words
from wizard.trade.layers import Prepared
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.notions import tape_findings
from wizard.trade.plan import Finding, Layer, Part
from wizard.trade.stock import join_cost

ON_A_MARK: Final = ("allowances.join", "allowances.end_hem")


def impossible(figure: Figure[Any]) -> bool:
    """True for a figure that has no value although nothing is missing: its inputs make no sense together."""
    return figure.value is None and not figure.needs


def sense_findings(
    say: Sayer, parts: Sequence[Part], layers: Sequence[Layer], prepared: Sequence[Prepared]
) -> Iterator[Finding]:
    """Everything that cannot be made as it was asked for."""
    for part in parts:
        yield from _drop(say, part)
    for layer, ready in zip(layers, prepared, strict=True):
        if layer.id != "face":
            yield from _setbacks(say, layer, parts)
        yield from _width(say, layer, ready)
    yield from tape_findings(say.ledger, say.ruler)
    yield from _least_piece(say)
    yield from _marks(say)


def _drop(say: Sayer, part: Part) -> Iterator[Finding]:
    """Something must be left to hang."""
    if not impossible(part.drop):
        return
    values: list[Length] = [figure.value for _, figure in part.drop.inputs if figure.value is not None]
    reading, raised, gap = (say.length(each) for each in values)
    yield say.finding(
        f"drop-none:{part.id}", "stop", f"survey.section.{part.section}.drop.1",
        f"{part.name}: a drop of {reading}, raised by {raised}, less {gap} of daylight leaves nothing to hang.",
        "Read the drop again, or leave less daylight.", *values, other="survey.floor_gap",
    )  # fmt: skip


def _setbacks(say: Sayer, layer: Layer, parts: Sequence[Part]) -> Iterator[Finding]:
    """An inner layer ends above the face, and short of it at the ends."""
    for part in parts:
        drop, cut = part.drop.value, layer.cut_lengths[part.id]
        if drop is not None and impossible(cut):
            setback: Length = say.ledger.read(f"cloth.{layer.id}.setback").value or ZERO
            yield say.finding(
                f"setback-deep:{layer.id}:{part.id}", "stop", f"cloth.{layer.id}.setback",
                f"{part.name}: a setback of {say.length(setback)} leaves nothing of the {layer.name} "
                f"under a drop of {say.near(drop)}.",
                "Give a smaller setback, or leave the layer out.", setback, drop,
                other=f"survey.section.{part.section}.drop.1",
            )  # fmt: skip
        if part.flat.value is not None and impossible(layer.cut_widths[part.id]):
            setback = say.ledger.read(f"cloth.{layer.id}.end_setback").value or ZERO
            yield say.finding(
                f"end-setback-deep:{layer.id}:{part.id}", "stop", f"cloth.{layer.id}.end_setback",
                f"{part.name}: setbacks of {say.length(setback)} at the ends leave nothing of the {layer.name}.",
                "Give a smaller setback at the ends, or leave the layer out.", setback, part.flat.value,
            )  # fmt: skip


def _width(say: Sayer, layer: Layer, ready: Prepared) -> Iterator[Finding]:
    """What is left between the selvedges must be worth joining."""
    key, usable, join = f"cloth.{layer.id}.width", layer.usable, join_cost(say.ledger, layer.id).value
    least = say.ledger.figures[f"layer.{layer.id}.least_piece"].value
    if impossible(usable) or impossible(ready.stock.keeps):
        yield say.finding(
            f"usable-none:{layer.id}", "stop", key,
            f"{layer.name}: once shrunk and trimmed nothing is left of the cloth.",
            "Read the width again, trim less off the selvedges, or mend the shrinkage.",
            *(figure.value for _, figure in usable.inputs if figure.value is not None),
        )  # fmt: skip
    elif usable.value is not None and join is not None and usable.value <= join:
        yield say.finding(
            f"usable-join:{layer.id}", "stop", key,
            f"{layer.name}: a usable width of {say.length(usable.value)} is used up by one join, {say.length(join)}.",
            "Take a wider cloth or a narrower join.", usable.value, join,
        )  # fmt: skip
    elif usable.value is not None and least is not None and usable.value <= least * 2:
        yield say.finding(
            f"usable-narrow:{layer.id}", "warn", key,
            f"{layer.name}: a usable width of {say.length(usable.value)} is no more than twice the least piece, "
            f"{say.length(least)}, so a width can hardly be shared.",
            "Take a wider cloth, or allow a smaller least piece.", usable.value, least,
        )  # fmt: skip


def _least_piece(say: Sayer) -> Iterator[Finding]:
    """A least piece under an end hem and a join is not followed: the seam would fall in the hem."""
    asked, end_hem, join = (say.ledger.read(f"allowances.{leaf}").value for leaf in ("least_piece", "end_hem", "join"))
    if asked is None or end_hem is None or join is None or asked >= end_hem + join * 2:
        return
    yield say.finding(
        "least-piece", "warn", "allowances.least_piece",
        f"A least piece of {say.length(asked)} would put a seam in the end hem, "
        f"so no piece is cut narrower than {say.near(end_hem + join * 2)}.",
        f"Give a least piece of {say.near(end_hem + join * 2)} or more.", asked, end_hem, join,
    )  # fmt: skip


def _marks(say: Sayer) -> Iterator[Finding]:
    """Seams and hems that stand on no ruler mark cannot be marked off exactly."""
    mark = say.ruler.mark
    for key in ON_A_MARK:
        length = say.ledger.read(key).value
        if length is None or length == ZERO or round_up(length, mark) == length:
            continue
        figure = say.ledger.read(key)
        yield say.finding(
            f"off-mark:{key}", "ask", key,
            f"{figure.title}: {say.length(length)} stands on no mark of the ruler, {say.length(mark)}.",
            f"Take {say.near(round_up(length, mark))}, or a finer mark.", length, mark,
        )  # fmt: skip


FLAT: Final = Fraction(1)
WANT: Final = "fullness.want"
AIM: Final = "fullness.aim"


def fullness_findings(say: Sayer, fullness: Figure[Any]) -> Iterator[Finding]:
    """Everything to be said about the fullness."""
    asked = say.ledger.job.fullness.want if not from_owned(say.ledger) else fullness.value
    if from_owned(say.ledger) and fullness.value is None and not fullness.needs:
        trim = "trim the surplus, " if say.ledger.job.fullness.surplus == "keep" else ""
        yield say.finding(
            "owned-short", "stop", AIM,
            "No way was found of making the skirt from the cloth in hand, not even without any fullness.",
            f"Add a length, {trim}buy cloth for a chosen fullness, or make fewer sections.", "none",
        )  # fmt: skip
    if asked is None:
        return
    if asked < FLAT:
        yield say.finding(
            "fullness-under", "stop", WANT, f"A fullness of {number(asked)} is less cloth than the run is long.",
            "Take 1 for a flat skirt, 2 to 3 for a gathered one.", asked,
        )  # fmt: skip
    elif FLAT < asked < MEAN:
        yield say.finding(
            "fullness-mean", "warn", _key(say), f"A fullness of {_near(asked)} looks mean.",
            _way_out(say, "1.5 or more, or 1 for a flat skirt", ", and buy what it takes; or add a length"), asked,
        )  # fmt: skip
    elif asked > MOST:
        yield say.finding(
            "fullness-much", "warn", _key(say), f"At a fullness of {_near(asked)} cloth hardly gathers.",
            _way_out(say, "3 or less", ", and keep what is left"), asked,
        )  # fmt: skip
    yield from _guided(say, asked)


def _key(say: Sayer) -> str:
    """What sets the fullness: the number, or that the cloth in hand does."""
    return AIM if from_owned(say.ledger) else WANT


def _way_out(say: Sayer, take: str, and_then: str) -> str:
    """The number to take; where the cloth in hand sets the fullness, that a number has to be let first."""
    return f"Choose a number instead: {take}{and_then}." if from_owned(say.ledger) else f"Take {take}."


def _guided(say: Sayer, asked: Fraction) -> Iterator[Finding]:
    """The guide by cloth, for a gathered skirt within sense."""
    job = say.ledger.job
    weight, inner = job.cloth.face.weight, inner_weights(job)
    if weight is None or not MEAN <= asked <= MOST:
        return
    least, most = guide_of(job)
    if least <= asked <= most:
        return
    usual = range_words((least, most))
    layers = " with inner layers" if inner else ""
    yield say.finding(
        "fullness-guide", "note", _key(say),
        f"{weight.capitalize()} cloth{layers} usually takes a fullness of {usual}; here it is {_near(asked)}.",
        _way_out(say, f"{usual}, or keep it: it is a guide", ""), asked, weight, str(len(inner)),
    )  # fmt: skip


def _near(value: Fraction) -> str:
    """A fullness to two decimals, with ≈ where that rounds it."""
    rounded = Fraction(round(value * 100), 100)
    return number(rounded) if rounded == value else f"≈ {number(rounded)}"
