"""What looks wrong about the fixings: a leg that is not available, a kind that does not suit the rail."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wizard.trade.findings.checker import Checker
from wizard.trade.fixings import shortest
from wizard.trade.formatting import listed
from wizard.trade.job_fields import FixingKind, RailMaterial
from wizard.trade.layers import layers_in_use
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Finding
from wizard.trade.sections import sections_on

SUITS: Final[Mapping[RailMaterial, tuple[FixingKind, ...]]] = {
    "solid wood": ("staples", "tacks", "adhesive hook-and-loop", "glue"),
    "veneered board": ("staples", "adhesive hook-and-loop", "glue"),
    "metal": ("adhesive hook-and-loop", "magnets"),
    "upholstered": ("hook-and-loop", "upholstery pins"),
    "heirloom": ("hook-and-loop",),
}
"""Fixings that suit a rail, the most usual first. Common practice; on an heirloom hook-and-loop is sewn to a band that
is tied round it."""
MATERIALS: Final = {"upholstered": "upholstered wood or board", "heirloom": "an heirloom bed"}
"""What a rail is made of, where its name does not say it."""
COMES_OFF: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop", "magnets", "upholstery pins")
"""Fixings a skirt comes off and goes back on by."""


def fixing_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the fixings; nothing while their kind is not chosen."""
    kind = check.job.cloth.fixing.kind
    if kind is None:
        return
    if kind in ("staples", "tacks"):
        yield from _leg(check)
    yield from _rails(check, kind)
    if check.job.survey.taken_off == "often" and kind not in COMES_OFF:
        values = {"often": "often", "kind": kind}
        yield check.finding("fixing-cleaning", "cloth.fixing.kind", values, other="survey.taken_off", do=_do(kind))


def _leg(check: Checker) -> Iterator[Finding]:
    """No available leg is between the least and the longest."""
    least, most = check.worked("fixing.leg_least"), check.worked("fixing.leg_most")
    legs = check.worked("cloth.fixing.legs")
    if least is None or most is None or legs is None or shortest(legs, least, most) is not None:
        return
    thin = least > most
    keys = ("cloth.fixing.kind", "survey.rail_thickness") if thin else ("cloth.fixing.legs", "cloth.fixing.kind")
    yield check.finding(
        "fixing-leg", keys[0], [least, most, *(each for each in legs if each is not None)],
        other=keys[1], variant="thin rail" if thin else "", layers=listed(layers_in_use(check.ledger)),
        least=least, most=most, inside=max(most, ZERO),
    )  # fmt: skip


def _rails(check: Checker, kind: FixingKind) -> Iterator[Finding]:
    """One finding for each section whose rail the fixing does not suit."""
    for id, section in sections_on(check.job):
        rail = section.rail or check.job.survey.rail
        if rail is not None and kind not in SUITS[rail]:
            material = MATERIALS.get(rail, rail)
            yield check.finding(
                f"fixing-unsuited:{id}", "cloth.fixing.kind", {"rail": rail, "kind": kind}, do=_do(kind),
                other=f"survey.section.{id}.rail" if section.rail else "survey.rail", section=check.section(id),
                variant="heirloom" if rail == "heirloom" else "", better=" or ".join(SUITS[rail]),
                material=material,
            )  # fmt: skip


def _do(kind: FixingKind) -> str:
    return "do" if kind.endswith("s") else "does"
