"""Drops and cut lengths: from readings at the rail to the finished drop, level or along the floor, and its cut."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.figures import Figure, Formula, Ledger, Rule, merged
from wizard.trade.job_fields import Allowances, Cloth, HemLine, Job, LayerId, Section, Survey
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.plan_records import PartEnds, Reading

LEAST_READINGS: Final = 3
"""Two ends and the middle: fewer do not show a floor that sags."""

# Where nothing is left it has no value: a finding says so.
FINISHED = Formula(
    "finished drop", "{reading} + {raised} − {gap}",
    lambda reading, raised, gap: drop if (drop := reading + raised - gap) > ZERO else None,
)  # fmt: skip
SPREAD = Formula("spread of the drops", "{greatest} − {least}", lambda greatest, least: greatest - least)
OVER_RUG = Formula("gap over a rug", "{gap} + {rug}", lambda gap, rug: gap + rug)
PICKED: Final[Mapping[str, tuple[Callable[[Iterable[Length]], Length], str]]] = {
    "least": (min, "smallest"),
    "greatest": (max, "largest"),
}
"""Which reading decides, and what it is called."""


class Line(Struct, frozen=True):
    """A height along a section: straight between its points, level beyond the first and the last."""

    points: tuple[tuple[Length, Length], ...]
    """(position, height), positions rising, at least one."""

    def at(self, x: Length) -> Length:
        """The height at `x` from the section's left end."""
        place = bisect_right([position for position, _ in self.points], x)
        if place in (0, len(self.points)):
            return self.points[min(place, len(self.points) - 1)][1]
        (x0, low), (x1, high) = self.points[place - 1 : place + 1]
        return low + (high - low) * ((x - x0) / (x1 - x0))

    def greatest(self, start: Length, end: Length) -> Length:
        """The greatest height from `start` to `end`: at one of them, or at a point between."""
        between = [height for position, height in self.points if start < position < end]
        return max([self.at(start), self.at(end), *between])


class Readings(Struct, frozen=True):
    """The drop readings of one section, as figures, with what they say of the floor."""

    section: str
    drops: tuple[Figure[Length], ...]
    places: tuple[Figure[Length], ...]
    least: Figure[Length]
    spread: Figure[Length]
    hem_line: Figure[HemLine]
    raised: Figure[Length]
    gap: Figure[Length]

    @property
    def follows(self) -> bool:
        """True when the hem follows the floor."""
        return self.hem_line.value == "follow the floor"


def readings_of(ledger: Ledger, section_id: str, section: Section, run: Figure[Length]) -> Readings:
    """Every reading of a section with its place, and the choice of a level hem or one that follows the floor."""
    key = f"survey.section.{section_id}"
    numbers = range(1, max(len(section.drop), LEAST_READINGS) + 1)
    drops = tuple(ledger.read_item(Section.drop, key, number) for number in numbers)
    least, greatest = (chosen(ledger, f"section.{section_id}.{which}", which, drops) for which in PICKED)
    spread = ledger.apply(SPREAD, f"section.{section_id}.spread", greatest=greatest, least=least)
    return Readings(
        section=section_id,
        drops=drops,
        places=tuple(place_of(ledger, section_id, run, number, len(numbers)) for number in numbers),
        least=least,
        spread=spread,
        hem_line=hem_line(ledger, key, spread),
        raised=ledger.read(Section.raised, key, fallback=Survey.raised),
        gap=_gap(ledger, section_id),
    )


def _gap(ledger: Ledger, section_id: str) -> Figure[Length]:
    """The gap between the hem and the floor that the drops were read to."""
    key = f"survey.section.{section_id}"
    gap = ledger.read(Section.floor_gap, key, fallback=Survey.floor_gap)
    if not ledger.said(f"{key}.rug"):
        return gap
    return ledger.apply(OVER_RUG, f"section.{section_id}.gap", gap=gap, rug=ledger.read(Section.rug, key))


def chosen(ledger: Ledger, id: str, which: str, drops: Iterable[Figure[Length]]) -> Figure[Length]:
    """The least or the greatest of some readings."""
    named, (pick, word) = _numbered(drops), PICKED[which]
    rule = Rule(f"{which} reading", f"{word} of " + ", ".join(f"{{{name}}}" for name in named))
    return ledger.work(id, f"{word} drop reading", rule, lambda **lengths: pick(lengths.values()), **named)


def _numbered(drops: Iterable[Figure[Length]]) -> dict[str, Figure[Length]]:
    return {f"reading {number}": figure for number, figure in enumerate(drops, 1)}


def place_of(ledger: Ledger, section_id: str, run: Figure[Length], number: int, count: int) -> Figure[Length]:
    """Where a reading was taken, from the section's left end: as stated, else equally spaced from end to end."""
    key = f"survey.section.{section_id}"
    if ledger.said(f"{key}.drop_at.{number}"):
        return ledger.read_item(Section.drop_at, key, number)
    part, id = Fraction(number - 1, count - 1), f"section.{section_id}.at.{number}"
    says = "Readings without a place are spaced equally from end to end."
    rule = Rule("place of a reading", f"{{run}} × {part}", says)
    return ledger.work(id, f"place of drop reading {number}", rule, lambda run: run * part, run=run)


def hem_line(ledger: Ledger, key: str, spread: Figure[Length]) -> Figure[HemLine]:
    """What was chosen; a floor within tolerance takes a level hem unasked; any other has to be asked about."""
    tolerance = ledger.read(Allowances.floor_tolerance)
    if spread.value is None or tolerance.value is None or spread.value <= tolerance.value:
        figure: Figure[HemLine] = ledger.read(Section.hem_line, key, optional="level")
        return Figure(figure.id, figure.title, figure.value, spread.needs, figure.rule)
    return ledger.read(Section.hem_line, key)


def line_of(readings: Readings) -> Line | None:
    """The readings as a line over their places, or None until all are known. Of two at one place the first counts."""
    points = dict[Length, Length]()
    for place, drop in zip(readings.places, readings.drops, strict=True):
        if place.value is None or drop.value is None:
            return None
        points.setdefault(place.value, drop.value)
    return Line(tuple(sorted(points.items(), key=lambda point: point[0])))


def finished_drop(ledger: Ledger, part_id: str, readings: Readings, span: PartEnds | None) -> Figure[Length]:
    """Greatest finished drop of a part, the only one when the hem is level. `span` is a split part's (start, end)."""
    reading = _governing(ledger, part_id, readings, span)
    return ledger.apply(FINISHED, f"part.{part_id}.drop", reading=reading, raised=readings.raised, gap=readings.gap)


def _governing(ledger: Ledger, part_id: str, readings: Readings, span: PartEnds | None) -> Figure[Length]:
    """The reading a part is cut from: the least of the section for a level hem, the greatest of the part else."""
    id = f"part.{part_id}.reading"
    if readings.hem_line.value is None:
        needs = merged([readings.least.needs, readings.hem_line.needs])
        return ledger.keep(Figure(id, "drop reading", None, needs, FINISHED.rule))
    if not readings.follows:
        return readings.least
    if span is None:
        return chosen(ledger, id, "greatest", readings.drops)
    line = line_of(readings)
    rule = Rule("greatest drop of a part", "largest drop from {start} to {end}")
    return ledger.work(
        id, "largest drop reading", rule, lambda start, end, **_: None if line is None else line.greatest(start, end),
        start=span[0], end=span[1], **_numbered(readings.drops),
    )  # fmt: skip


def shown_readings(readings: Readings, line: Line | None = None) -> tuple[Reading, ...]:
    """Each reading of a section, or each point of another `line` along it, with its finished drop and the gap under the
    hem; empty until all of it is known.

    Level: the gap is reading − least + floor gap. Following the floor: the floor gap everywhere.
    """
    line, raised, gap = line or line_of(readings), readings.raised.value, readings.gap.value
    least = readings.least.value
    if line is None or raised is None or gap is None or least is None or readings.hem_line.value is None:
        return ()
    governed = [(place, drop, drop if readings.follows else least) for place, drop in line.points]
    return tuple(Reading(place, drop, rules + raised - gap, drop - rules + gap) for place, drop, rules in governed)


def within(readings: Readings, span: PartEnds | None) -> tuple[Reading, ...]:
    """The readings of a part, from its own left end; where it ends between two of them, the drop there. `span` is a
    split part's (start, end), None for a whole section."""
    shown, line = shown_readings(readings), line_of(readings)
    if span is None or line is None or not shown:
        return shown
    start, end = (each.value for each in span)
    if start is None or end is None:
        return ()
    here = [each for each in shown if start <= each.at <= end]
    ends = tuple((place, line.at(place)) for place in (start, end) if all(each.at != place for each in here))
    here += [replace(each, between=True) for each in shown_readings(readings, Line(ends))]
    return tuple(replace(each, at=each.at - start) for each in sorted(here, key=lambda each: each.at))


DOUBLE = Formula("double hem", "2 × {hem}", lambda hem: hem * 2)
SINGLE = Formula("single hem", "{hem} + {turn}", lambda hem, turn: hem + turn)
FACE_CUT = Formula(
    "cut length of the face",
    "{top} + {drop} + {hem}, rounded up to {mark}",
    lambda top, drop, hem, mark: round_up(top + drop + hem, mark),
)
# Where the setback leaves nothing it has no value: a finding says so.
INNER_CUT = Formula(
    "cut length of an inner layer",
    "{top} + ({drop} − {setback}) + {hem}, rounded up to {mark}",
    lambda top, drop, setback, hem, mark: round_up(top + drop - setback + hem, mark) if drop > setback else None,
)


def cut_length(ledger: Ledger, layer: LayerId, part_id: str, drop: Figure[Length]) -> Figure[Length]:
    """Cut length `C` of one part of a layer, on the ruler mark."""
    id, mark, key = f"layer.{layer}.cut.{part_id}", ledger.read(Job.ruler), f"cloth.{layer}"
    top, kind, hem = ledger.read(Allowances.top), ledger.read(Cloth.hem_kind, key), ledger.read(Cloth.hem, key)
    # All the cloth that the hem takes.
    turn = {"turn": ledger.read(Cloth.hem_turn, key)} if kind.value == "single" else {}
    hem = ledger.apply(SINGLE if turn else DOUBLE, f"layer.{layer}.hem", hem=hem, **turn)
    if layer == "face":
        return ledger.apply(FACE_CUT, id, top=top, drop=drop, hem=hem, mark=mark)
    setback = ledger.read(Cloth.setback, key)
    return ledger.apply(INNER_CUT, id, top=top, drop=drop, setback=setback, hem=hem, mark=mark)
