"""What the cloth in hand gives: what is left of it at the fullness that is offered, and how full all of it would be."""

from __future__ import annotations

from msgspec.structs import replace

from wizard.trade.fullness_guide import MOST, offered
from wizard.trade.in_hand import in_hand_of, without_buying
from wizard.trade.keynames import owned_in_words
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan
from wizard.trade.plan import Layer, Plan
from wizard.trade.printing import exact, listed, number, shown
from wizard.trade.rulers import ruler_of


def offer_words(plan: Plan) -> str:
    """Both in two or three sentences; empty while no cloth is in hand, or not all it rests on is known.

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
    hardly = f"Above {number(MOST)} cloth hardly gathers." if most is not None and most > MOST else ""
    told = [f"At {number(want)}, {_left(tried, each)}{_bought(tried, each)}" for each in layers]
    return " ".join(each for each in (*told, without_buying(most, tried.layers), hardly) if each)


def _left(plan: Plan, layer: Layer) -> str:
    """What is left whole of each length in hand."""
    left = [(each.stretch.id, each.left) for each in in_hand_of(layer) if each.left > ZERO]
    lengths = [f"{shown(rest, ruler_of(plan.job), 'down')} of {owned_in_words(id)}" for id, rest in left]
    return f"left over of the {layer.name}: {listed(lengths)}." if lengths else f"nothing of the {layer.name} is left."


def _bought(plan: Plan, layer: Layer) -> str:
    """What the lengths in hand do not give."""
    sold_by = plan.figures[f"cloth.{layer.id}.sold_by"].value
    return f" You need {exact(layer.buy.value, sold_by)} more." if layer.buy.value and sold_by else ""
