"""Buying and washing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from wizard.trade.formatting import money, number
from wizard.trade.keynames import first_up, owned_in_words
from wizard.trade.plan import Layer, Purchase, Step
from wizard.trade.steps.kit import Kit


def buy_steps(kit: Kit, purchases: Sequence[Purchase]) -> Iterator[Step]:
    """The buying list, once every layer is laid out."""
    if not kit.layers or any(each.cutting is None for each in kit.layers) or not purchases:
        return
    yield kit.step(
        "buy", "Cloth", "Buy",
        (
            *(_line(kit, each) for each in purchases),
            "Have the cloth unrolled in the shop and looked over for flaws before it is cut.",
        ),
        figures=(figure for each in purchases for figure in each.figures),
        tools=("the buying list", "tape measure"), minutes=60,
    )  # fmt: skip


def _line(kit: Kit, purchase: Purchase) -> str:
    line = f"{purchase.what}: {purchase.amount}"
    if purchase.cost is None:
        return f"{line}."
    return f"{line}, {kit.ledger.job.currency or ''}{money(purchase.cost)}."


def wash_steps(kit: Kit) -> Iterator[Step]:
    """One step for every layer that is washed first."""
    for layer in kit.layers:
        if kit.cloth(layer.id).wash == "washed first":
            yield _wash(kit, layer)


def _wash(kit: Kit, layer: Layer) -> Step:
    key = f"cloth.{layer.id}"
    return kit.step(
        "wash", "Cloth", f"Wash and press: {layer.name}",
        (
            "Stitch or pink the cut ends so that they do not fray.",
            "Wash and dry the cloth as it will be washed later, before anything is cut.",
            *_already(kit, layer),
            f"The plan allows for {_percent(kit, f'{key}.warp_shrink')} along the roll and "
            f"{_percent(kit, f'{key}.weft_shrink')} across it: measure before and after; if it differs, mend the plan.",
            "Press it along the grain, and let it cool flat.",
        ),
        of=(layer.id,), figures=(f"{key}.warp_shrink", f"{key}.weft_shrink"),
        tools=("iron", "pressing board"), minutes=90,
    )  # fmt: skip


def _already(kit: Kit, layer: Layer) -> Iterator[str]:
    for key, owned in kit.cloth(layer.id).owned.items():
        if owned.washed:
            yield f"{first_up(owned_in_words(key))} is washed already: leave it out."


def _percent(kit: Kit, key: str) -> str:
    value: Fraction = kit.ledger.read(key).value or Fraction(0)
    return f"{number(value * 100)} %"
