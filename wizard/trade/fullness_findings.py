"""Fullness: what cannot be, what looks mean, what hardly gathers, and the guide by cloth. A guide, never a wall."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Final

from wizard.trade.figures import Figure
from wizard.trade.findings import Finding
from wizard.trade.fullness import from_owned
from wizard.trade.fullness_guide import MEAN, MOST, guide_of, inner_weights, range_words
from wizard.trade.printing import number
from wizard.trade.saying import Sayer

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
