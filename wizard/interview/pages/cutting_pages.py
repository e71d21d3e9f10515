"""The last pages: how full the skirt is, and how the cloth is cut."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Page
from wizard.interview.pages.ask import About, Ask, Asked, asked, held, page
from wizard.interview.pages.cloth_pages import about_layer
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.trade.cut_plans import cut_plan, ways_found
from wizard.trade.cutting import TOGETHER, Cutting
from wizard.trade.formatting import number
from wizard.trade.fullness import ALL_OWNED, guide_words, offered
from wizard.trade.job_fields import CutWay, Lay
from wizard.trade.plan_records import Layer


def cutting_pages(about: About) -> Iterator[Page]:
    """Fullness, then the ways of cutting."""
    all_there = about.job.cloth.face.owned or about.job.fullness.aim == ALL_OWNED
    fullness = Ask(
        "fullness.how",
        says={"guide": guide_words(about.job)},
        keys=("fullness.aim", "fullness.want"),
        compound="fullness",
        choices=(Choice(ALL_OWNED, "all the cloth you have"),) if all_there else (),
        usual=number(offered(about.job)),
    )
    yield page("fullness", replace(about, stage="Fullness"), (fullness,), (), "fullness")
    ways = (
        Ask("ways.face", keys=WAY_KEYS, compound="ways", choices=_ways(about)),
        Ask("fullness.surplus", when=held(about.job, "fullness.joins") != "part widths"),
    )
    inner = (row for each in about.plan.layers[1:] for row in _inner_ways(about_layer(about, each.id), each))
    yield page("ways", replace(about, stage="Cutting"), ways, inner, "ways")


WAY_KEYS: Final = ("fullness.joins", "cloth.face.lay", "cloth.face.way")
FEW: Final = 5
"""Most sections on cloth in hand whose fewest joins are laid out in a moment."""


def _inner_ways(about: About, layer: Layer) -> Iterator[Asked]:
    """How an inner layer lies on the roll, where it may lie either way, and how it is cut."""
    # Along is barred while another choice holds across the roll only.
    barred = {"along": _across_only(about)}
    lays = tuple(replace(each, barred=barred.get(each.value, "")) for each in choices()[Lay])
    lay = Ask("lay", when=_may_lie_along(about), choices=lays)
    offered = _offered(about, layer)
    way = Ask("way", when=len(offered) > 1 or about.value("way") is not None, choices=offered)
    return asked((lay, way), replace(about, stage="Cutting"))


def _may_lie_along(about: About) -> bool:
    return not about.holds("one_way") or bool(about.holds("sideways"))


def _ways(about: About) -> tuple[Choice, ...]:
    """The ways the face cloth can be cut, as far as the plan knows them without laying more out, and the one in use."""
    face, layer = about_layer(about, "face"), about.plan.layers[0]
    there = {"least cloth", "half widths", "whole widths", COMPOUNDS["ways"].read(WAY_KEYS, about.project)}
    if layer.cutting is not None:
        there |= ways_found(layer.cutting).keys() | ({"fewest joins"} if _takes_long(layer) else set())
    if _may_lie_along(face):
        there.add("along")
        if layer.rules is not None and layer.rules.along and not _barred_along("fewest joins", face, layer):
            there.add("along, fewest joins")
    return tuple(each for each in choices()["ways"] if each.value in there)


def _offered(about: About, layer: Layer) -> tuple[Choice, ...]:
    """The ways across the roll that are possible, without laying any out, and the chosen one whether it is possible or
    not; along the roll all of them, with the impossible ones barred."""
    if layer.rules is not None and layer.rules.along:
        return tuple(replace(each, barred=_barred_along(each.value, about, layer)) for each in choices()[CutWay])
    there = {"least cloth", about.holds("way")}
    if layer.cutting is not None and (_takes_long(layer) or layer.cutting.fewest_joins() is not None):
        there.add("fewest joins")
    if _may_lie_beside(layer):
        there |= {"slit", "stacked"}
    return tuple(each for each in choices()[CutWay] if each.value in there)


def _barred_along(way: str, about: About, layer: Layer) -> str:
    """Why a way is not possible along the roll."""
    name = about.words["layer"]
    if way in ("slit", "stacked"):
        return f"The {name} is cut along the roll; {way} needs it cut across. Choose across first."
    if way == "least cloth" or layer.rules is None or layer.needs:
        return ""
    found = layer.found or cut_plan((layer.strips, layer.stock, layer.rules))
    if isinstance(found, Cutting) and found.fewest_joins() is None:
        return f"The {name} is cut along the roll, where least cloth already has the fewest joins."
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


def _across_only(about: About) -> str:
    """Which choice needs cloth across the roll, in a sentence; empty for none."""
    way, joins = about.value("way"), held(about.job, "fullness.joins")
    if way in ("slit", "stacked"):
        return f"The {about.words['layer']} is cut {way}, which needs it cut across. Choose another way first."
    others = [each.id for each in about.plan.layers if f"cloth.{each.id}." != about.prefix]
    if joins == "part widths" or any(held(about.job, f"cloth.{each}.lay") != "along" for each in others):
        return ""
    return f"You chose {joins}, but along the roll no widths are joined. Choose part widths first."
