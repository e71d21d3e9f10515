"""What looks wrong about the fixings: a leg that cannot be had, a kind that does not suit the rail."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from wizard.trade.bed import RailMaterial, Section
from wizard.trade.figures import Ledger
from wizard.trade.fixings import shortest
from wizard.trade.formatting import Ruler, exact, listed, shown
from wizard.trade.job import FixingKind
from wizard.trade.layers import layers_in_use
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Finding
from wizard.trade.sections import section_name, sections_on

SUITS: Final[Mapping[RailMaterial, tuple[FixingKind, ...]]] = {
    "solid wood": ("staples", "tacks", "adhesive hook-and-loop", "glue"),
    "veneered board": ("staples", "adhesive hook-and-loop", "glue"),
    "metal": ("adhesive hook-and-loop", "magnets"),
    "upholstered": ("hook-and-loop", "upholstery pins"),
    "heirloom": ("hook-and-loop",),
}
"""Fixings that suit a rail. Common practice; on an heirloom hook-and-loop is sewn to a band that is tied round it."""

COMES_OFF: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop", "magnets", "upholstery pins")
"""Fixings a skirt comes off and goes back on by."""


def suits(rail: RailMaterial) -> tuple[FixingKind, ...]:
    """The fixings that suit a rail of this material, the most usual first."""
    return SUITS[rail]


def fixing_findings(ledger: Ledger, ruler: Ruler) -> tuple[Finding, ...]:
    """Everything that looks wrong about the fixings; empty while their kind is not chosen."""
    kind: FixingKind | None = ledger.job.cloth.fixing.kind
    if kind is None:
        return ()
    leg = leg_finding(ledger, ruler) if kind in ("staples", "tacks") else None
    return (*([leg] if leg else []), *_rails(ledger, kind), *_cleaning(ledger, kind))


def leg_finding(ledger: Ledger, ruler: Ruler) -> Finding | None:
    """Says so when no leg that can be had lies between the least and the longest; None when one does."""
    least: Length | None = _value(ledger, "fixing.leg_least")
    most: Length | None = _value(ledger, "fixing.leg_most")
    legs: tuple[Length | None, ...] | None = _value(ledger, "cloth.fixing.legs")
    if least is None or most is None or legs is None or shortest(legs, least, most) is not None:
        return None
    holds, stays = shown(least, ruler, "up"), shown(max(most, ZERO), ruler, "down")
    found = f"To hold through the tape and the {listed(layers_in_use(ledger))} a leg must be at least {holds}"
    values = " | ".join(exact(each, ruler.unit) for each in (least, most, *(leg for leg in legs if leg is not None)))
    if least > most:
        sentence = f"{found}, but at this rail only {stays} stays inside."
        return Finding("fixing-leg", "warn", "cloth.fixing.kind", sentence, NO_LEG, values, "survey.rail_thickness")
    sentence = f"{found}, and at most {stays} to stay inside the rail; none that can be had lies between."
    way_out = f"Add a leg from {holds} to {stays} to those that can be had, or take another fixing."
    return Finding("fixing-leg", "warn", "cloth.fixing.legs", sentence, way_out, values, "cloth.fixing.kind")


NO_LEG: Final = "Take a fixing that does not go into the rail, such as adhesive hook-and-loop, or thinner layers."


def _value(ledger: Ledger, key: str) -> Any:
    figure = ledger.figures.get(key)
    return None if figure is None else figure.value


def _rails(ledger: Ledger, kind: FixingKind) -> Iterator[Finding]:
    """One finding for each section whose rail the fixing does not suit."""
    for key, section in sections_on(ledger.job):
        rail = section.rail or ledger.job.survey.rail
        if rail is not None and kind not in SUITS[rail]:
            yield _unsuited(key, section_name(ledger.job, key), rail, kind, _asked_at(key, section))


def _asked_at(key: str, section: Section) -> str:
    return f"survey.section.{key}.rail" if section.rail else "survey.rail"


def _unsuited(key: str, name: str, rail: RailMaterial, kind: FixingKind, other: str) -> Finding:
    better = " or ".join(SUITS[rail])
    return Finding(
        f"fixing-unsuited:{key}",
        "warn",
        "cloth.fixing.kind",
        f"{name}: {kind} {_do(kind)} not suit a rail of {WORDS[rail]}.",
        f"{WORDS[rail].capitalize()} takes {better}{HEIRLOOM if rail == 'heirloom' else ''}.",
        f"{rail} | {kind}",
        other,
    )


WORDS: Final[Mapping[RailMaterial, str]] = {
    "solid wood": "solid wood",
    "veneered board": "veneered board",
    "metal": "metal",
    "upholstered": "upholstered wood or board",
    "heirloom": "an heirloom bed",
}
HEIRLOOM: Final = ", sewn to a band tied round the rail: nothing that marks it"


def _do(kind: FixingKind) -> str:
    return "do" if kind.endswith("s") else "does"


def _cleaning(ledger: Ledger, kind: FixingKind) -> Iterator[Finding]:
    """A skirt that comes off often wants a fixing it goes back on by."""
    if ledger.job.survey.taken_off == "often" and kind not in COMES_OFF:
        yield Finding(
            "fixing-cleaning",
            "ask",
            "cloth.fixing.kind",
            f"The skirt is to come off often for cleaning, and {kind} {_do(kind)} not let go without leaving marks.",
            "Take hook-and-loop where the rail allows it, or keep this and clean the skirt where it hangs.",
            f"often | {kind}",
            "survey.taken_off",
        )
