"""What looks wrong about the drops: an uneven floor, readings out of order, surprising sizes, two opposed slopes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import Final

from wizard.trade.drops import LEAST_READINGS, Readings, shown_readings
from wizard.trade.figures import Figure
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Finding
from wizard.trade.sections import ENDS, post_at, section_name, sections_on, short_of, side_of

SHORT_DROP: Final = Length(3)
LONG_DROP: Final = Length(30)
"""Drops outside these are not impossible, only rare enough to be read again."""
FAR_APART: Final = Length(2)
"""Floors fall away by less than this along a bed, nearly always: a reading so far from the least was misread."""
SIDES_APART: Final = Length(3)
"""Between the drops on the two sides of one bed."""
SECTIONS_APART: Final = Length(8)
"""Between any two: a footboard hangs lower than a side rail, but never so much."""
WIDE_GAP: Final = Length(Fraction(1, 2))
"""More daylight than this is seen from across the room."""

STEP: Final = Length(Fraction(1, 4))
"""Two hems that meet at a corner are seen to hang unlike from here on."""


def drop_findings(say: Sayer, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Everything that looks wrong about the drops of every section."""
    for section_id, each in readings.items():
        name = section_name(say.ledger.job, section_id)
        yield from _far_apart(say, name, each)
        yield from _uneven(say, section_id, name, each)
        yield from _places(say, section_id, name, each)
        yield from _sizes(say, section_id, name, each)
    yield from _beside(say, readings)
    yield from _gaps(say)
    yield from _corners(say, readings)


def _beside(say: Sayer, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Sections of one bed hang about alike, those on its two sides nearly: one that does not was likely misread."""
    known = [each for each in readings.values() if each.least.value is not None]
    sides = [each for each in known if _side(say, each) in ("left", "right")]
    for some, most in ((sides, SIDES_APART), (known, SECTIONS_APART)):
        least, greatest = (pick(some, key=_least, default=None) for pick in (min, max))
        if least is None or greatest is None or _least(greatest) - _least(least) <= most:
            continue
        names = [section_name(say.ledger.job, each.section) for each in (greatest, least)]
        longer, shorter, apart = say.alike(_least(greatest), _least(least), _least(greatest) - _least(least))
        key, other = (
            next(drop.id for drop in each.drops if drop.value == each.least.value) for each in (greatest, least)
        )
        yield say.finding(
            f"drop-beside:{greatest.section}:{least.section}", "ask", key,
            f"{names[0]}: a drop of {longer}, and {shorter} at the {names[1]}: {apart} apart on one bed.",
            "Read both again; if they are right, keep them.", _least(greatest), _least(least), other=other,
        )  # fmt: skip
        return


def _least(readings: Readings) -> Length:
    return readings.least.value or ZERO


def _side(say: Sayer, readings: Readings) -> str | None:
    return side_of(readings.section, say.ledger.job.survey.section[readings.section])


def _corners(say: Sayer, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Where two sections meet at a corner their hems should hang alike above the floor: they read as one."""
    survey, met = say.ledger.job.survey, dict[str, tuple[str, Length]]()
    for section_id, each in readings.items():
        shown = shown_readings(each)
        for end, at_end in zip(ENDS, (shown[:1], shown[-1:]), strict=True):
            post = post_at(survey, section_id, end)
            if post is None or not at_end or short_of(survey.section[section_id], end):
                continue
            before, daylight = met.setdefault(post, (section_id, at_end[0].gap))
            if before != section_id and abs(daylight - at_end[0].gap) > STEP:
                yield _step(say, post, (before, daylight), (section_id, at_end[0].gap))


def _step(say: Sayer, post: str, one: tuple[str, Length], other: tuple[str, Length]) -> Finding:
    names = [section_name(say.ledger.job, section_id) for section_id, _ in (one, other)]
    first, second, apart = say.alike(one[1], other[1], abs(one[1] - other[1]))
    return say.finding(
        f"hems-apart:{post}", "note", f"survey.section.{other[0]}.hem_line",
        f"At the {post.replace('-', ' ')} corner the hem of the {names[0]} hangs {first} above the floor, that of the "
        f"{names[1]} {second}: {apart} apart where they meet.",
        "Let both follow the floor with the same daylight, or give them daylights that meet there; or keep it.",
        one[1], other[1], other=f"survey.section.{one[0]}.hem_line",
    )  # fmt: skip


def _far_apart(say: Sayer, name: str, readings: Readings) -> Iterator[Finding]:
    """One drop far longer than another of the same section is more likely a slip than a floor."""
    known = [each for each in readings.drops if each.value is not None]
    if len(known) < 2:
        return
    least, most = (pick(known, key=_value) for pick in (min, max))
    if _value(most) - _value(least) <= FAR_APART:
        return
    longest, shortest, apart = say.alike(_value(most), _value(least), _value(most) - _value(least))
    yield say.finding(
        f"drop-apart:{readings.section}", "ask", most.id,
        f"{name}: one drop is {longest}, another {shortest}: {apart} apart, which hardly any floor is.",
        "Read both again; if they stand, keep them.", _value(most), _value(least), other=least.id,
    )  # fmt: skip


def _value(figure: Figure[Length]) -> Length:
    return figure.value if figure.value is not None else ZERO


def _uneven(say: Sayer, section_id: str, name: str, readings: Readings) -> Iterator[Finding]:
    """A floor that is not level wants a choice; a level hem over it shows daylight."""
    spread, least, gap = readings.spread.value, readings.least.value, readings.gap.value
    tolerance = say.ledger.read("allowances.floor_tolerance").value
    if spread is None or least is None or tolerance is None or spread <= tolerance or readings.follows:
        return
    key, values = f"survey.section.{section_id}.hem_line", (least, least + spread)
    apart, shortest, longest = say.alike(spread, *values)
    found = f"{name}: the floor is uneven. The drops lie {apart} apart, from {shortest} to {longest}"
    if readings.hem_line.value is None:
        daylight = (
            "" if gap is None else f", which shows {say.length(spread + gap)} of daylight where the floor is lowest"
        )
        way_out = f"Choose a level hem at the least drop{daylight}; or a hem that follows the floor."
        yield say.finding(f"floor-uneven:{section_id}", "warn", key, f"{found}.", way_out, *values)
    elif readings.hem_line.value == "level":
        shows = say.alike(*(each.gap for each in shown_readings(readings)))
        sentence = f"{found}; a level hem shows daylight of {', '.join(shows)}." if shows else f"{found}."
        yield say.finding(
            f"hem-daylight:{section_id}",
            "note",
            key,
            sentence,
            "Take a hem that follows the floor, or keep it.",
            *values,
        )


def _places(say: Sayer, section_id: str, name: str, readings: Readings) -> Iterator[Finding]:
    """Readings are taken in order, each at its own place, between the ends of the run."""
    places = [place.value for place in _placed(readings) if place.value is not None]
    key = f"survey.section.{section_id}.drop_at.1"
    run = say.ledger.figures[f"section.{section_id}.run"].value
    if any(later <= earlier for earlier, later in pairwise(places)):
        yield say.finding(
            f"reading-order:{section_id}", "ask", key,
            f"{name}: the drops are not in order along the rail: they were read at {_listed(say, places)}.",
            "Give the places from the section's left end to its right end, each further on than the last.", *places,
        )  # fmt: skip
    if run is not None and any(place > run for place in places):
        furthest, end = say.alike(max(places), run)
        yield say.finding(
            f"reading-outside:{section_id}", "ask", key,
            f"{name}: a drop was read at {furthest}, beyond the end of the run at {end}.",
            "Read the place again, from the section's left end.", max(places), run,
            other=f"survey.section.{section_id}.run.1",
        )  # fmt: skip


def _placed(readings: Readings) -> tuple[Figure[Length], ...]:
    """The places that are known: one more reading behind others with places waits for its own, which is asked next."""
    *before, last = readings.places
    stated = [each.id.startswith("survey.") for each in readings.places]
    waits = len(stated) > LEAST_READINGS and all(stated[:-1]) and not stated[-1]
    return (*before,) if waits else (*before, last)


def _listed(say: Sayer, lengths: list[Length]) -> str:
    return ", ".join(say.length(each) for each in lengths)


def _sizes(say: Sayer, section_id: str, name: str, readings: Readings) -> Iterator[Finding]:
    """A reading that is surprisingly short or long is read again."""
    for number, drop in enumerate(readings.drops, 1):
        if drop.value is None or SHORT_DROP <= drop.value <= LONG_DROP:
            continue
        word = "short" if drop.value < SHORT_DROP else "long"
        yield say.finding(
            f"drop-size:{section_id}:{number}", "ask", drop.id,
            f"{name}: a drop of {say.length(drop.value)} is surprisingly {word} for a bed.",
            "Read it again, from the rail's lower edge straight down to what the hem will touch; or keep it.",
            drop.value,
        )  # fmt: skip


def _gaps(say: Sayer) -> Iterator[Finding]:
    """Daylight under the hem: none on a hard floor drags, a lot shows. The bed's own, and that of each section."""
    survey, sections = say.ledger.job.survey, sections_on(say.ledger.job)
    own = {section_id: section.floor_gap for section_id, section in sections}
    if not own or None in own.values():
        yield from _gap(say, survey.floor_gap, "survey.floor_gap")
    for section_id, gap in own.items():
        yield from _gap(say, gap, f"survey.section.{section_id}.floor_gap", section_id)


def _gap(say: Sayer, gap: Length | None, key: str, section_id: str = "") -> Iterator[Finding]:
    end = f":{section_id}" if section_id else ""
    name = f"{section_name(say.ledger.job, section_id)}: " if section_id else ""
    if say.ledger.job.survey.floor == "hard floor" and gap == ZERO:
        yield say.finding(
            f"gap-none{end}", "ask", key,
            f"{name}{'on' if name else 'On'} a hard floor a hem without daylight drags and wears.",
            f"Leave from {say.near(Length(Fraction(1, 8)))} to {say.near(WIDE_GAP)}, or keep it.", gap,
        )  # fmt: skip
    if gap is not None and gap > WIDE_GAP:
        yield say.finding(
            f"gap-wide{end}", "ask", key,
            f"{name}{'daylight' if name else 'Daylight'} of {say.length(gap)} under the hem is seen across a room.",
            f"Leave no more than {say.near(WIDE_GAP)}, or keep it.", gap,
        )  # fmt: skip


def slope_findings(say: Sayer) -> Iterator[Finding]:
    """Both sides are read, both slope more than the floor's tolerance, and they slope against each other."""
    tolerance = say.ledger.read("allowances.floor_tolerance").value
    left, right = _falls(say, "left"), _falls(say, "right")
    if tolerance is None or left is None or right is None:
        return
    (_, left_fall), (right_id, right_fall) = left, right
    against = (left_fall > ZERO) != (right_fall > ZERO)
    if not against or min(abs(left_fall), abs(right_fall)) <= tolerance:
        return
    name, ends = section_name(say.ledger.job, right_id), ("foot end", "head end")
    low = ends if left_fall > ZERO else ends[::-1]
    yield say.finding(
        "floor-slopes:left:right", "ask", f"survey.section.{right_id}.drop.1",
        f"On the left the floor falls {say.length(abs(left_fall))} towards the {low[0]}, on the right "
        f"{say.length(abs(right_fall))} towards the {low[1]}. Either the floor has a twist, or drops stand in the "
        "wrong order.",
        f"Each section is read from its left end as you face it, so {name} begins at the foot end. Read both again, or "
        "keep them.",
        left_fall, right_fall,
    )  # fmt: skip


def _falls(say: Sayer, side: str) -> tuple[str, Length] | None:
    """The only section of a side, and how much more its foot end reads than its head end; None while that is open."""
    found = [(each, section) for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    if len(found) != 1:
        return None
    section_id, section = found[0]
    first, last = (section.drop[0], section.drop[-1]) if len(section.drop) > 1 else (None, None)
    if first is None or last is None:
        return None
    return section_id, last - first if side == "left" else first - last
