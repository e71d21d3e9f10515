"""What looks wrong about a single value: a surprising size, a foreign unit, or text the file cannot use.

Bounds: common practice. Those of sizes are wide: they only catch a slipped finger or a wrong unit. Those of units are
narrow, so that what is usually typed in the other system (a cloth 54 in wide in a metric job) is not asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.figures import value_at
from wizard.trade.findings.checker import Checker
from wizard.trade.formatting import exact
from wizard.trade.job_fields import LAYERS, Job
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Finding
from wizard.trade.sections import along_side, sections_on, side_of
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


def size_findings(check: Checker) -> Iterator[Finding]:
    """Lengths that are possible but surprising for what they measure. Never refused."""
    for key, (least, most) in _bounded(check.job):
        value = value_at(check.job, key)
        if isinstance(value, Length) and not least <= value <= most:
            yield check.finding(
                f"size:{key}", key, {"value": value}, variant="" if least > ZERO else "at most",
                how="large" if value > most else "small", least=least, most=most,
            )  # fmt: skip


def _bounded(job: Job) -> Iterator[tuple[str, Bounds]]:
    yield from _under("survey", BED)
    for section, _ in sections_on(job):
        yield from _under(f"survey.section.{section}", BED)
        for leaf, bounds in AT_AN_END.items():
            past_others = leaf == "short" and _shares_its_side(job, section)
            for end in ("left", "right"):
                yield f"survey.section.{section}.{end}_{leaf}", PAST_OTHERS if past_others else bounds
    for post in job.survey.post:
        yield from _under(f"survey.post.{post}", POST)
    for layer in LAYERS:
        yield from _under(f"cloth.{layer}", CLOTH)
        for owned in cloth_of(job, layer).owned:
            yield from _under(f"cloth.{layer}.owned.{owned}", OWNED)
    yield from OTHERS.items()


def _under(table: str, leaves: Mapping[str, Bounds]) -> Iterator[tuple[str, Bounds]]:
    return ((f"{table}.{leaf}", bounds) for leaf, bounds in leaves.items())


def _shares_its_side(job: Job, section_id: str) -> bool:
    side = side_of(section_id, job.survey.section[section_id])
    return side is not None and len(along_side(job.survey, side)) > 1


LIKELY: Final[tuple[tuple[re.Pattern[str], Length, Length], ...]] = (
    (re.compile(r"survey\.section\.[^.]+\.run\.\d+"), Length(20), Length(110)),
    (re.compile(r"survey\.section\.[^.]+\.drop\.\d+"), Length(4), Length(30)),
    (re.compile(r"survey\.(section\.[^.]+\.)?rail_thickness"), Length(HALF), Length(3)),
    (re.compile(r"survey\.post\.[^.]+\.along_(side|end)"), Length(Fraction(3, 2)), Length(8)),
    (re.compile(r"cloth\.[^.]+\.repeat"), Length(1), Length(40)),
    (re.compile(r"cloth\.(face|interlining|lining)\.(owned\.[^.]+\.)?width"), Length(30), Length(130)),
)
"""Keys, and the range their lengths are nearly always in."""
UNIT_WORDS: Final = {
    "in": "inches", "ft": "feet", "yd": "yards", "mm": "millimetres", "cm": "centimetres", "m": "metres",
}  # fmt: skip


def unit_findings(check: Checker) -> Iterator[Finding]:
    """Lengths in a unit foreign to the job, where the same figures would do in its own: the unit may be the slip."""
    unit = check.ruler.unit
    for key, foreign in check.job.foreign.items():
        value, would = value_at(check.job, key), foreign.would
        if isinstance(value, Length) and _is_likely(key, would):
            yield check.finding(
                f"unit:{key}", key, [value, would],
                text=foreign.text, units=UNIT_WORDS[unit], would=exact(would, unit),
            )  # fmt: skip


def _is_likely(key: str, length: Length) -> bool:
    return any(keys.fullmatch(key) and least <= length <= most for keys, least, most in LIKELY)


def unusable_findings(check: Checker) -> Iterator[Finding]:
    """Text in the file that cannot be used: it stops the plan where a figure waits for it, else it is a warning."""
    unusable, figures = check.job.unusable, check.ledger.figures.values()
    waited_for = {need.key for figure in figures for need in figure.needs} if unusable else ()
    for key, each in unusable.items():
        yield check.finding(
            f"unusable:{key}", key, [each.text], level="stop" if key in waited_for else "warn",
            sentence=each.sentence, way_out=each.way_out,
        )  # fmt: skip
