"""What cannot be made, or hardly: drops, setbacks, widths of cloth, allowances, and the fullness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any, Final

from wizard.trade.figures import Figure
from wizard.trade.findings.checker import Checker
from wizard.trade.formatting import two_decimals
from wizard.trade.fullness import from_owned, guide_of, inner_weights, range_words
from wizard.trade.fullness_steps import MEAN, MOST
from wizard.trade.job_fields import Allowances, Cloth
from wizard.trade.layers import Prepared
from wizard.trade.lengths import ZERO, round_up
from wizard.trade.notions import LEAST_TOP, row_figures
from wizard.trade.plan_records import Finding, Layer, Part
from wizard.trade.stock import join_cost

ON_A_MARK: Final = (Allowances.join, Allowances.end_hem)
FLAT: Final = Fraction(1)


def impossible(figure: Figure[Any]) -> bool:
    """True for a figure that has no value although nothing is missing: its inputs make no sense together."""
    return figure.value is None and not figure.needs


def sense_findings(
    check: Checker, parts: Sequence[Part], layers: Sequence[Layer], prepared: Sequence[Prepared]
) -> Iterator[Finding]:
    """Everything that cannot be made as it was asked for."""
    for part in parts:
        yield from _drop(check, part)
    for layer, ready in zip(layers, prepared, strict=True):
        if layer.id != "face":
            yield from _setbacks(check, layer, parts)
        yield from _width(check, layer, ready)
    yield from _top(check)
    yield from _least_piece(check)
    yield from _marks(check)


def _drop(check: Checker, part: Part) -> Iterator[Finding]:
    """Something must be left to hang."""
    if impossible(part.drop):
        values = {name: figure.value for name, figure in part.drop.inputs if figure.value is not None}
        key = f"survey.section.{part.section}.drop.1"
        yield check.finding(f"drop-none:{part.id}", key, values, other="survey.floor_gap", part=part.name)


def _setbacks(check: Checker, layer: Layer, parts: Sequence[Part]) -> Iterator[Finding]:
    """An inner layer ends above the face, and short of it at the ends."""
    for part in parts:
        for leaf, field, made, of in (
            ("setback", Cloth.setback, layer.cut_lengths[part.id], part.drop.value),
            ("end_setback", Cloth.end_setback, layer.cut_widths[part.id], part.flat.value),
        ):
            key, kind = f"cloth.{layer.id}.{leaf}", f"{leaf.replace('_', '-')}-deep"
            if of is not None and impossible(made):
                values = {"setback": check.value(field, f"cloth.{layer.id}") or ZERO, "drop": of}
                yield check.finding(
                    f"{kind}:{layer.id}:{part.id}", key, values,
                    other=f"survey.section.{part.section}.drop.1" if leaf == "setback" else "",
                    part=part.name, layer=layer.name,
                )  # fmt: skip


def _width(check: Checker, layer: Layer, ready: Prepared) -> Iterator[Finding]:
    """What is left between the selvedges must be worth joining."""
    key, usable, join = f"cloth.{layer.id}.width", layer.usable, join_cost(check.ledger, layer.id).value
    least = check.ledger.figures[f"layer.{layer.id}.least_piece"].value
    if impossible(usable) or impossible(ready.stock.keeps):
        values = [figure.value for _, figure in usable.inputs if figure.value is not None]
        yield check.finding(f"usable-none:{layer.id}", key, values)
    elif usable.value is not None and join is not None and usable.value <= join:
        yield check.finding(f"usable-join:{layer.id}", key, {"usable": usable.value, "join": join})
    elif usable.value is not None and least is not None and usable.value <= least * 2:
        yield check.finding(f"usable-narrow:{layer.id}", key, {"usable": usable.value, "least": least})


def _top(check: Checker) -> Iterator[Finding]:
    """The raw edge must fit under the tape: `1/2 in ≤ top ≤ T/2`."""
    top, fold = check.value(Allowances.top), row_figures(check.ledger)[0].value
    if top is not None and fold is not None and not LEAST_TOP <= top <= fold:
        yield check.finding(
            "tape-top", "allowances.top", [top, fold * 2], other="cloth.tape.width",
            variant="" if top < LEAST_TOP else "long", top=top, least=LEAST_TOP, fold=fold,
        )  # fmt: skip


def _least_piece(check: Checker) -> Iterator[Finding]:
    """A least piece under an end hem and a join is not followed: the seam would fall in the hem."""
    asked, end_hem = check.value(Allowances.least_piece), check.value(Allowances.end_hem)
    join = check.value(Allowances.join)
    if asked is not None and end_hem is not None and join is not None and asked < end_hem + join * 2:
        yield check.finding(
            "least-piece", "allowances.least_piece", [asked, end_hem, join], asked=asked, least=end_hem + join * 2
        )


def _marks(check: Checker) -> Iterator[Finding]:
    """Seams and hems that are not on a ruler mark cannot be marked off exactly."""
    mark = check.ruler.mark
    for field in ON_A_MARK:
        figure = check.ledger.read(field)
        key, length = figure.id, figure.value
        if length and (marked := round_up(length, mark)) != length:
            values = {"length": length, "mark": mark}
            yield check.finding(f"off-mark:{key}", key, values, title=figure.title, marked=marked)


def fullness_findings(check: Checker, fullness: Figure[Fraction]) -> Iterator[Finding]:
    """What cannot be, what looks mean, what is hard to gather, and the guide by cloth."""
    owned, chosen = from_owned(check.ledger), check.job.fullness
    asked = fullness.value if owned else chosen.want
    key, variant = ("fullness.aim", "owned") if owned else ("fullness.want", "")
    if owned and impossible(fullness):
        trim = "trim the spare width, " if chosen.surplus == "keep" else ""
        yield check.finding("owned-short", key, ["none"], trim=trim)
    if asked is None:
        return
    if asked < FLAT:
        yield check.finding("fullness-under", "fullness.want", {"fullness": asked})
    elif FLAT < asked < MEAN or asked > MOST:
        kind = "fullness-mean" if asked < MEAN else "fullness-much"
        yield check.finding(kind, key, [asked], variant=variant, fullness=two_decimals(asked))
    yield from _guided(check, asked, key, variant)


def _guided(check: Checker, asked: Fraction, key: str, variant: str) -> Iterator[Finding]:
    """The guide by cloth, for a gathered skirt within sense."""
    weight, inner = check.job.cloth.face.weight, inner_weights(check.job)
    least, most = guide_of(check.job)
    if weight is not None and MEAN <= asked <= MOST and not least <= asked <= most:
        yield check.finding(
            "fullness-guide", key, [asked, weight, len(inner)], variant=variant, fullness=two_decimals(asked),
            weight=weight.capitalize(), layers=" with inner layers" if inner else "", usual=range_words((least, most)),
        )  # fmt: skip
