"""Questions about how the cloth is cut, where there is more than one way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.project.project import Project
from wizard.questions import choices
from wizard.questions.asking import About, Ask, asked, yes
from wizard.questions.question import Choice, Question
from wizard.questions.the_cloths import about_layer
from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting import TOGETHER, Cutting
from wizard.trade.plan import Layer, Plan

FEW: Final = 5
"""Of so many sections on cloth in hand the fewest joins are laid out in a moment."""


def questions_of_cutting(draft: Project, plan: Plan) -> Iterator[Question]:
    """One for each layer that can be cut in several ways."""
    for layer in plan.layers:
        yield from asked((WAY,), replace(about_layer(draft, plan, layer.id), stage="Cutting"))


def _layer(about: About) -> Layer:
    return next(each for each in about.plan.layers if about.prefix == f"cloth.{each.id}.")


def _there_are_several(about: About) -> bool:
    return len(_offered(about)) > 1 or about.value("way") is not None


def _offered(about: About) -> tuple[Choice, ...]:
    """The ways there may be, without laying any out, and the one that was chosen whether it is to be had or not; along
    the roll all of them, those that cannot be had there barred."""
    layer = _layer(about)
    if layer.rules is not None and layer.rules.along:
        return tuple(replace(each, barred=_barred_along(each.value, about.group, layer)) for each in choices.WAYS)
    there = {"least cloth", about.holds("way")}
    if layer.cutting is not None and (_takes_long(layer) or layer.cutting.fewest_joins is not None):
        there.add("fewest joins")
    if _may_lie_beside(layer):
        there |= {"slit", "stacked"}
    return tuple(each for each in choices.WAYS if each.value in there)


def _barred_along(way: str, name: str, layer: Layer) -> str:
    """Why a way cannot be had along the roll."""
    if way in ("slit", "stacked"):
        return f"The {name} is laid along the roll, and {way} pieces are cut across it. Lay it across first."
    if way == "least cloth" or layer.rules is None or layer.needs:
        return ""
    found = layer.found or cut_plan((layer.strips, layer.stock, layer.rules))
    if isinstance(found, Cutting) and found.fewest_joins is None:
        return f"The {name} is laid along the roll, and there the least cloth has the fewest joins already."
    return ""


def _takes_long(layer: Layer) -> bool:
    """True where the fewest joins are not laid out at once, but only when somebody looks: then they are offered."""
    rules, count = layer.rules, len(layer.strips)
    if rules is None or rules.along or rules.policy != "part widths":
        return False
    owned = any(each.length is not None for each in layer.stock)
    return count > 1 if rules.repeat else owned and FEW < count <= TOGETHER


def _may_lie_beside(layer: Layer) -> bool:
    """True where cut lengths differ on a roll cut across in part widths: short pieces may then lie beside long ones."""
    rules = layer.rules
    if layer.cutting is None or rules is None or rules.along or rules.repeat or rules.policy != "part widths":
        return False
    return len({strip.cut for strip in layer.strips}) > 1 and any(each.length is None for each in layer.stock)


WAY: Final = Ask(
    "way",
    "Which way is the {layer} to be cut?",
    "The cutting plan shows the ways beside each other, with what each takes.",
    "choice",
    choices=_offered,
    when=_there_are_several,
    quiet=yes,
    drawing="roll",
)
