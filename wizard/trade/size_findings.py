"""Lengths that are possible but surprising for what they measure: read again, or kept. Never refused.

Bounds: common practice, set wide; they only ever catch a slipped finger or a wrong unit.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.corners import along_side, sections_on, side_of
from wizard.trade.figures import value_at
from wizard.trade.findings import Finding
from wizard.trade.job import LAYERS, Job, LayerId
from wizard.trade.keynames import first_up, in_words
from wizard.trade.lengths import ZERO, Length
from wizard.trade.saying import Sayer
from wizard.trade.stock import cloth_of

Bounds = tuple[Length, Length]


def _inches(least: int | Fraction, most: int | Fraction) -> Bounds:
    return Length(Fraction(least)), Length(Fraction(most))


HALF: Final = Fraction(1, 2)

BED: Final[Mapping[str, Bounds]] = {
    "rail_thickness": _inches(Fraction(1, 16), 4),
    "raised": _inches(0, 6),
}
AT_AN_END: Final[Mapping[str, Bounds]] = {"return": _inches(HALF, 12), "short": _inches(HALF, 60)}
PAST_OTHERS: Final = _inches(HALF, 240)
"""How far short of a corner a section stops that has others between."""
OWNED: Final[Mapping[str, Bounds]] = {"length": _inches(6, 3600), "width": _inches(6, 130)}
POST: Final[Mapping[str, Bounds]] = {
    "along_side": _inches(HALF, 12),
    "along_end": _inches(HALF, 12),
    "side_set_in": _inches(0, 6),
    "end_set_in": _inches(0, 6),
}
CLOTH: Final[Mapping[str, Bounds]] = {
    "width": _inches(18, 130),
    "trim": _inches(0, 4),
    "hem": _inches(0, 6),
    "hem_turn": _inches(0, 2),
    "lap": _inches(0, 3),
    "repeat": _inches(0, 40),
}
OTHERS: Final[Mapping[str, Bounds]] = {
    "allowances.join": _inches(Fraction(1, 8), 2),
    "allowances.end_hem": _inches(0, 4),
    "allowances.top": _inches(0, 4),
    "allowances.squaring": _inches(0, 12),
    "cloth.tape.width": _inches(HALF, 6),
    "cloth.tape.turn_under": _inches(0, 6),
    "cloth.fixing.spacing": _inches(HALF, 12),
    "cloth.fixing.inset": _inches(0, 6),
}


def size_findings(say: Sayer) -> Iterator[Finding]:
    """Everything whose size is surprising."""
    job = say.ledger.job
    for key, (least, most) in _bounded(job):
        value = value_at(job, key)
        if isinstance(value, Length) and not least <= value <= most:
            yield _odd(say, key, value, least, most)


def _bounded(job: Job) -> Iterator[tuple[str, Bounds]]:
    for leaf, bounds in BED.items():
        yield f"survey.{leaf}", bounds
    for section, _ in sections_on(job):
        for leaf, bounds in BED.items():
            yield f"survey.section.{section}.{leaf}", bounds
        for leaf, bounds in AT_AN_END.items():
            past_others = leaf == "short" and _shares_its_side(job, section)
            for end in ("left", "right"):
                yield f"survey.section.{section}.{end}_{leaf}", PAST_OTHERS if past_others else bounds
    for post in job.survey.post:
        for leaf, bounds in POST.items():
            yield f"survey.post.{post}.{leaf}", bounds
    for layer in LAYERS:
        yield from _of_cloth(job, layer)
    yield from OTHERS.items()


def _shares_its_side(job: Job, section_id: str) -> bool:
    side = side_of(section_id, job.survey.section[section_id])
    return side is not None and len(along_side(job.survey, side)) > 1


def _of_cloth(job: Job, layer: LayerId) -> Iterator[tuple[str, Bounds]]:
    for leaf, bounds in CLOTH.items():
        yield f"cloth.{layer}.{leaf}", bounds
    for owned in cloth_of(job, layer).owned:
        for leaf, bounds in OWNED.items():
            yield f"cloth.{layer}.owned.{owned}.{leaf}", bounds


def _odd(say: Sayer, key: str, value: Length, least: Length, most: Length) -> Finding:
    job = say.ledger.job
    how = "much" if value > most else "little"
    bounds = f"at most {say.near(most)}" if not least > ZERO else f"from {say.near(least)} to {say.near(most)}"
    return say.finding(
        f"size:{key}", "ask", key, f"{first_up(in_words(key, job))}: {say.length(value)} is surprisingly {how}.",
        f"Read it again, and its unit. It is hardly ever anything but {bounds}; if it stands, keep it.", value,
    )  # fmt: skip
