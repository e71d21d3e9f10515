"""Questions about the fullness, and about how the cloth is cut."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.choices import CHOICES
from wizard.interview.cloth_questions import about_layer
from wizard.interview.question import Choice, Question
from wizard.project.project import Project
from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting import TOGETHER, Cutting
from wizard.trade.formatting import number
from wizard.trade.fullness import guide_of, guide_words, offered, range_words
from wizard.trade.job_fields import CutWay, Joins
from wizard.trade.plan_records import Layer, Plan

OWNED_CLOTH: Final = ("fullness.aim", "fullness.want")
"""Where it helps to know what the cloth in hand gives (see `trade.owned_offer`)."""


def _owns_some(about: About) -> bool:
    return bool(about.job.cloth.face.owned)


def _joins(about: About) -> tuple[Choice, ...]:
    """The ways of joining widths; where every cloth is laid along the roll, whole and half widths barred."""
    if not all(about.holds_at(f"cloth.{each.id}.lay") == "along" for each in about.plan.layers):
        return CHOICES[Joins]
    why = "The cloth is laid along the roll, where no widths are joined. Lay it across the roll first."
    return tuple(each if each.value == "part widths" else replace(each, barred=why) for each in CHOICES[Joins])


FULLNESS: Final = (
    Ask(
        "fullness.aim",
        "Is the fullness to be a number you choose, or as much as the cloth you own allows?",
        lambda about: (
            "Either way it is the same in every section. This cloth with these layers usually takes "
            f"{range_words(guide_of(about.job))}; all of the cloth may make it fuller than that, and use it up."
        ),
        when=lambda about: _owns_some(about) or about.value("fullness.aim") is not None,
        drawing="roll",
    ),
    Ask(
        "fullness.want",
        "How full is the skirt to be?",
        lambda about: guide_words(about.job),
        when=lambda about: about.holds("fullness.aim") == "a number",
        usual=lambda about: number(offered(about.job)),
        drawing="cloth",
    ),
    Ask(
        "fullness.joins",
        "How are the widths to be shared out?",
        "Cloth is cut across the roll into widths, and these are joined to make a section. Sharing a width between two"
        " sections saves cloth.",
        choices=_joins,
        drawing="roll",
    ),
    Ask(
        "fullness.surplus",
        "What is to become of the width that is over?",
        "Whole and half widths nearly always come out a little wider than the section needs.",
        when=lambda about: about.holds("fullness.joins") != "part widths",
        drawing="roll",
    ),
)


FEW: Final = 5
"""Most sections on cloth in hand whose fewest joins are laid out in a moment."""


def questions_of_cutting(project: Project, plan: Plan) -> Iterator[Question]:
    """One for each layer that can be cut in several ways."""
    for layer in plan.layers:
        yield from asked((WAY,), replace(about_layer(project, plan, layer.id), stage="Cutting"))


def _layer(about: About) -> Layer:
    return next(each for each in about.plan.layers if about.prefix == f"cloth.{each.id}.")


def _there_are_several(about: About) -> bool:
    return len(_offered(about)) > 1 or about.value("way") is not None


def _offered(about: About) -> tuple[Choice, ...]:
    """The ways that are possible, without laying any out, and the chosen one whether it is possible or not; along the
    roll all of them, with the impossible ones barred."""
    layer = _layer(about)
    if layer.rules is not None and layer.rules.along:
        return tuple(replace(each, barred=_barred_along(each.value, about.group, layer)) for each in CHOICES[CutWay])
    there = {"least cloth", about.holds("way")}
    if layer.cutting is not None and (_takes_long(layer) or layer.cutting.fewest_joins is not None):
        there.add("fewest joins")
    if _may_lie_beside(layer):
        there |= {"slit", "stacked"}
    return tuple(each for each in CHOICES[CutWay] if each.value in there)


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
    """True where cut lengths differ and widths are shared: short pieces may then be cut beside long ones."""
    rules = layer.rules
    if layer.cutting is None or rules is None or rules.along or rules.repeat or rules.policy != "part widths":
        return False
    return len({strip.cut for strip in layer.strips}) > 1 and any(each.length is None for each in layer.stock)


WAY: Final = Ask(
    "way",
    "Which way is the {layer} to be cut?",
    "The cutting plan shows the ways beside each other, with what each takes.",
    choices=_offered,
    when=_there_are_several,
    quiet=yes,
    drawing="roll",
)
