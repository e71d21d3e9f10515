"""What makes no sense: a value of surprising size, in a foreign unit, or that the file cannot use; and what cannot be
made, or hardly, of drops, setbacks, widths of cloth, allowances, and the fullness.

Bounds: common practice. Those of sizes are wide: they only catch a slipped finger or a wrong unit. Those of units are
narrow, so that what is usually typed in the other system (a cloth 54 in wide in a metric job) is not asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final

from wizard.trade.figures import Figure, value_at
from wizard.trade.findings.checker import Checker
from wizard.trade.formatting import UNIT_WORDS, exact, two_decimals
from wizard.trade.fullness import from_owned, guide_of, inner_weights, range_words
from wizard.trade.fullness_steps import LEAST_FULLNESS, MEAN, MOST
from wizard.trade.job_fields import LAYERS, Allowances, Cloth, Job
from wizard.trade.layers import Prepared
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.notions import LEAST_TOP, row_figures
from wizard.trade.plan_records import Finding, Layer
from wizard.trade.sections import along_side, sections_on, side_of
from wizard.trade.stock import cloth_of, join_cost

Bounds = tuple[Length, Length]


def _inches(least: int | Fraction, most: int | Fraction) -> Bounds:
    return Length(Fraction(least)), Length(Fraction(most))


HALF: Final = Fraction(1, 2)
BED: Final[Mapping[str, Bounds]] = {"rail_thickness": _inches(Fraction(1, 16), 4), "raised": _inches(0, 6)}
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
            side = side_of(section, job.survey.section[section])
            past_others = leaf == "short" and side is not None and len(along_side(job.survey, side)) > 1
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


LIKELY: Final[tuple[tuple[re.Pattern[str], Length, Length], ...]] = (
    (re.compile(r"survey\.section\.[^.]+\.run\.\d+"), Length(20), Length(110)),
    (re.compile(r"survey\.section\.[^.]+\.drop\.\d+"), Length(4), Length(30)),
    (re.compile(r"survey\.(section\.[^.]+\.)?rail_thickness"), Length(HALF), Length(3)),
    (re.compile(r"survey\.post\.[^.]+\.along_(side|end)"), Length(Fraction(3, 2)), Length(8)),
    (re.compile(r"cloth\.[^.]+\.repeat"), Length(1), Length(40)),
    (re.compile(r"cloth\.(face|interlining|lining)\.(owned\.[^.]+\.)?width"), Length(30), Length(130)),
)
"""Keys, and the range their lengths are nearly always in."""


def unit_findings(check: Checker) -> Iterator[Finding]:
    """Lengths in a unit foreign to the job, where the same figures would do in its own: the unit may be the slip."""
    unit = check.ruler.unit
    for key, foreign in check.job.foreign.items():
        value, would = value_at(check.job, key), foreign.would
        likely = any(keys.fullmatch(key) and least <= would <= most for keys, least, most in LIKELY)
        if isinstance(value, Length) and likely:
            yield check.finding(
                f"unit:{key}", key, [value, would], text=foreign.text, units=UNIT_WORDS[unit], would=exact(would, unit)
            )


def unusable_findings(check: Checker) -> Iterator[Finding]:
    """Text in the file that cannot be used: it stops the plan where a figure waits for it, else it is a warning."""
    unusable, figures = check.job.unusable, check.ledger.figures.values()
    waited_for = {need.key for figure in figures for need in figure.needs} if unusable else ()
    for key, each in unusable.items():
        yield check.finding(
            f"unusable:{key}", key, [each.text], level="stop" if key in waited_for else "warn",
            sentence=each.sentence, way_out=each.way_out,
        )  # fmt: skip


def impossible(figure: Figure[Any]) -> bool:
    """True for a figure that has no value although nothing is missing: its inputs make no sense together."""
    return figure.value is None and not figure.needs


def sense_findings(check: Checker) -> Iterator[Finding]:
    """Everything that cannot be made as it was asked for."""
    for part in check.parts:
        # Something must be left to hang.
        if impossible(part.drop):
            values = {name: figure.value for name, figure in part.drop.inputs if figure.value is not None}
            key = f"survey.section.{part.section}.drop.1"
            yield check.finding(f"drop-none:{part.id}", key, values, other="survey.floor_gap", part=part.name)
    for layer, ready in zip(check.layers, check.prepared, strict=True):
        if layer.id != "face":
            yield from _setbacks(check, layer)
        yield from _width(check, layer, ready)
    for look in (_top, _least_piece, _marks):
        yield from look(check)


def _setbacks(check: Checker, layer: Layer) -> Iterator[Finding]:
    """An inner layer ends above the face, and short of it at the ends."""
    for part in check.parts:
        for leaf, field, made, of in (
            ("setback", Cloth.setback, layer.cut_lengths[part.id], part.drop.value),
            ("end_setback", Cloth.end_setback, layer.cut_widths[part.id], part.flat.value),
        ):
            key, kind = f"cloth.{layer.id}.{leaf}", f"{leaf.replace('_', '-')}-deep"
            if of is not None and impossible(made):
                values = {"setback": check.value(field, f"cloth.{layer.id}") or ZERO, "drop": of}
                yield check.finding(
                    f"{kind}:{layer.id}:{part.id}", key, values,
                    other=f"survey.section.{part.section}.drop.1" if leaf == "setback" else "",
                    part=part.name, layer=layer.name,
                )  # fmt: skip


def _width(check: Checker, layer: Layer, ready: Prepared) -> Iterator[Finding]:
    """What is left between the selvedges must be worth joining."""
    key, usable, join = f"cloth.{layer.id}.width", layer.usable, join_cost(check.ledger, layer.id).value
    least = check.ledger.figures[f"layer.{layer.id}.least_piece"].value
    if impossible(usable) or impossible(ready.stock.keeps):
        values = [figure.value for _, figure in usable.inputs if figure.value is not None]
        yield check.finding(f"usable-none:{layer.id}", key, values)
    elif usable.value is not None and join is not None and usable.value <= join:
        yield check.finding(f"usable-join:{layer.id}", key, {"usable": usable.value, "join": join})
    elif usable.value is not None and least is not None and usable.value <= least * 2:
        yield check.finding(f"usable-narrow:{layer.id}", key, {"usable": usable.value, "least": least})


def _top(check: Checker) -> Iterator[Finding]:
    """The raw edge must fit under the tape: `1/2 in ≤ top ≤ T/2`."""
    top, fold = check.value(Allowances.top), row_figures(check.ledger)[0].value
    if top is not None and fold is not None and not LEAST_TOP <= top <= fold:
        yield check.finding(
            "tape-top", "allowances.top", [top, fold * 2], other="cloth.tape.width",
            variant="" if top < LEAST_TOP else "long", top=top, least=LEAST_TOP, fold=fold,
        )  # fmt: skip


def _least_piece(check: Checker) -> Iterator[Finding]:
    """A least piece under an end hem and a join is not followed: the seam would fall in the hem."""
    asked, end_hem = check.value(Allowances.least_piece), check.value(Allowances.end_hem)
    join = check.value(Allowances.join)
    if asked is not None and end_hem is not None and join is not None and asked < end_hem + join * 2:
        yield check.finding(
            "least-piece", "allowances.least_piece", [asked, end_hem, join], asked=asked, least=end_hem + join * 2
        )


def _marks(check: Checker) -> Iterator[Finding]:
    """Seams and hems that are not on a ruler mark cannot be marked off exactly."""
    mark = check.ruler.mark
    for field in (Allowances.join, Allowances.end_hem):
        figure = check.ledger.read(field)
        key, length = figure.id, figure.value
        if length and (marked := round_up(length, mark)) != length:
            values = {"length": length, "mark": mark}
            yield check.finding(f"off-mark:{key}", key, values, title=figure.title, marked=marked)


def fullness_findings(check: Checker) -> Iterator[Finding]:
    """What cannot be, what looks mean, what is hard to gather, and the guide by cloth."""
    owned, chosen, fullness = from_owned(check.ledger), check.job.fullness, check.ledger.figures["fullness"]
    asked = fullness.value if owned else chosen.want
    key, variant = ("fullness.aim", "owned") if owned else ("fullness.want", "")
    if owned and impossible(fullness):
        trim = "trim the spare width, " if chosen.surplus == "keep" else ""
        yield check.finding("owned-short", key, ["none"], trim=trim)
    if asked is None:
        return
    if asked < LEAST_FULLNESS:
        yield check.finding("fullness-under", "fullness.want", {"fullness": asked})
    elif LEAST_FULLNESS < asked < MEAN or asked > MOST:
        kind = "fullness-mean" if asked < MEAN else "fullness-much"
        yield check.finding(kind, key, [asked], variant=variant, fullness=two_decimals(asked))
    yield from _guided(check, asked, key, variant)


def _guided(check: Checker, asked: Fraction, key: str, variant: str) -> Iterator[Finding]:
    """The guide by cloth, for a gathered skirt within sense."""
    weight, inner = check.job.cloth.face.weight, inner_weights(check.job)
    least, most = guide_of(check.job)
    if weight is not None and MEAN <= asked <= MOST and not least <= asked <= most:
        yield check.finding(
            "fullness-guide", key, [asked, weight, len(inner)], variant=variant, fullness=two_decimals(asked),
            weight=weight.capitalize(), layers=" with inner layers" if inner else "", usual=range_words((least, most)),
        )  # fmt: skip
