"""What looks wrong about a single value: a surprising size, a foreign unit, or text the file cannot use.

Bounds: common practice. Those of sizes are wide: they only catch a slipped finger or a wrong unit. Those of units are
narrow, so that what is usually typed in the other system (a cloth 54 in wide in a metric job) is not asked about."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.figures import value_at
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.formatting import exact
from wizard.trade.job import LAYERS, Job, LayerId
from wizard.trade.keynames import first_up, in_words
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Finding
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


LIKELY: Final[tuple[tuple[re.Pattern[str], Length, Length], ...]] = (
    (re.compile(r"survey\.section\.[^.]+\.run\.\d+"), Length(20), Length(110)),
    (re.compile(r"survey\.section\.[^.]+\.drop\.\d+"), Length(4), Length(30)),
    (re.compile(r"survey\.(section\.[^.]+\.)?rail_thickness"), Length(Fraction(1, 2)), Length(3)),
    (re.compile(r"survey\.post\.[^.]+\.along_(side|end)"), Length(Fraction(3, 2)), Length(8)),
    (re.compile(r"cloth\.[^.]+\.repeat"), Length(1), Length(40)),
    (re.compile(r"cloth\.(face|interlining|lining)\.(owned\.[^.]+\.)?width"), Length(30), Length(130)),
)
"""Keys, and from what to what their lengths nearly always are."""
UNIT_WORDS: Final = {
    "in": "inches", "ft": "feet", "yd": "yards", "mm": "millimetres", "cm": "centimetres", "m": "metres",
}  # fmt: skip


def unit_findings(say: Sayer) -> Iterator[Finding]:
    """One for each length whose unit may be the slip."""
    job, unit = say.ledger.job, say.ruler.unit
    for key, foreign in job.foreign.items():
        value, would = value_at(job, key), foreign.would
        if not isinstance(value, Length) or not _is_likely(key, would):
            continue
        yield say.finding(
            f"unit:{key}", "ask", key,
            f"{first_up(in_words(key, job))}: {foreign.text}, though this job is in {UNIT_WORDS[unit]}.",
            f"If {exact(would, unit)} was meant, type that; if {foreign.text} is right, keep it.", value, would,
        )  # fmt: skip


def _is_likely(key: str, length: Length) -> bool:
    return any(keys.fullmatch(key) and least <= length <= most for keys, least, most in LIKELY)


def unusable_findings(say: Sayer) -> Iterator[Finding]:
    """One for each value that cannot be used."""
    job = say.ledger.job
    waited_for = {need.key for figure in say.ledger.figures.values() for need in figure.needs} if job.unusable else ()
    for key, each in job.unusable.items():
        yield say.finding(
            f"unusable:{key}", "stop" if key in waited_for else "warn", key,
            f"{first_up(in_words(key, job))}: {each.sentence}", each.way_out, each.text,
        )  # fmt: skip
