"""What looks wrong about the drops: an uneven floor, readings out of order, surprising sizes, two opposed slopes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import Final

from wizard.trade.drops_and_cut_lengths import LEAST_READINGS, Readings, shown_readings
from wizard.trade.figures import Figure
from wizard.trade.findings.checker import Checker
from wizard.trade.job_fields import Allowances
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Finding, Remedy
from wizard.trade.sections import ENDS, post_at, sections_on, short_of, side_of

SHORT_DROP: Final = Length(3)
LONG_DROP: Final = Length(30)
"""Drops outside these are not impossible, only rare enough to be read again."""
FAR_APART: Final = Length(2)
"""Floors nearly always fall away by less than this along a bed: a reading so far from the least was misread."""
SIDES_APART: Final = Length(3)
"""Between the drops on the two sides of one bed."""
SECTIONS_APART: Final = Length(8)
"""Between any two: a footboard hangs lower than a side rail, but never by so much."""
NARROW_GAP: Final = Length(Fraction(1, 8))
WIDE_GAP: Final = Length(Fraction(1, 2))
"""More daylight than this is seen from across the room."""
HEMS: Final = {"Level hem": "level", "Follow the floor": "follow the floor"}
"""The choices that settle an uneven floor."""
STEP: Final = Length(Fraction(1, 4))
"""From here on two hems that meet at a corner are seen to hang unlike."""


def drop_findings(check: Checker, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Everything that looks wrong about the drops of every section."""
    for each in readings.values():
        yield from _far_apart(check, each)
        yield from _uneven(check, each)
        yield from _places(check, each)
        yield from _sizes(check, each)
    yield from _beside(check, readings)
    yield from _gaps(check)
    yield from _corners(check, readings)


def _known(readings: Readings) -> list[tuple[Length, str]]:
    """The drops that are read, each with its key."""
    return [(drop.value, drop.id) for drop in readings.drops if drop.value is not None]


def _beside(check: Checker, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Sections of one bed hang about alike, those on its two sides nearly: one that does not was likely misread."""
    known = [(each.least.value, each) for each in readings.values() if each.least.value is not None]
    sides = [(least, each) for least, each in known if _side(check, each) in ("left", "right")]
    for some, most in ((sides, SIDES_APART), (known, SECTIONS_APART)):
        (low, least), (high, greatest) = (
            pick(some, key=lambda pair: pair[0], default=(ZERO, None)) for pick in (min, max)
        )
        if least is None or greatest is None or high - low <= most:
            continue
        key, other = (next(id for drop, id in _known(each) if drop == each.least.value) for each in (greatest, least))
        yield check.finding(
            f"drop-beside:{greatest.section}:{least.section}", key, {"longer": high, "shorter": low}, other=other,
            apart=high - low, other_section=check.section(least.section),
        )  # fmt: skip
        return


def _side(check: Checker, readings: Readings) -> str | None:
    return side_of(readings.section, check.job.survey.section[readings.section])


def _corners(check: Checker, readings: Mapping[str, Readings]) -> Iterator[Finding]:
    """Where two sections meet at a corner their hems should hang alike above the floor: they read as one."""
    survey, met = check.job.survey, dict[str, tuple[str, Length]]()
    for section_id, each in readings.items():
        shown = shown_readings(each)
        for end, at_end in zip(ENDS, (shown[:1], shown[-1:]), strict=True):
            post = post_at(survey, section_id, end)
            if post is None or not at_end or short_of(survey.section[section_id], end):
                continue
            gap = at_end[0].gap
            first, first_gap = met.setdefault(post, (section_id, gap))
            if first != section_id and abs(first_gap - gap) > STEP:
                yield check.finding(
                    f"hems-apart:{post}", f"survey.section.{section_id}.hem_line",
                    {"first_gap": first_gap, "gap": gap}, other=f"survey.section.{first}.hem_line",
                    corner=post.replace("-", " "), first=check.section(first), apart=abs(first_gap - gap),
                )  # fmt: skip


def _far_apart(check: Checker, readings: Readings) -> Iterator[Finding]:
    """One drop far longer than another of the same section is more likely a slip than a floor."""
    known = _known(readings)
    if len(known) < 2:
        return
    (shortest, other), (longest, key) = (pick(known, key=lambda pair: pair[0]) for pick in (min, max))
    if longest - shortest > FAR_APART:
        values = {"longest": longest, "shortest": shortest}
        yield check.finding(f"drop-apart:{readings.section}", key, values, other=other, apart=longest - shortest)


def _uneven(check: Checker, readings: Readings) -> Iterator[Finding]:
    """A floor that is not level needs a choice; a level hem over it shows daylight."""
    spread, least, gap = readings.spread.value, readings.least.value, readings.gap.value
    tolerance: Length | None = check.value(Allowances.floor_tolerance)
    if spread is None or least is None or tolerance is None or spread <= tolerance or readings.follows:
        return
    key, values = f"survey.section.{readings.section}.hem_line", {"least": least, "greatest": least + spread}
    if readings.hem_line.value is None:
        variant, daylight = ("no gap", ZERO) if gap is None else ("", spread + gap)
        offers = [Remedy(label, {key: hem}) for label, hem in HEMS.items()]
        yield check.finding(
            f"floor-uneven:{readings.section}", key, values, variant=variant, spread=spread, daylight=daylight,
            offers=offers,
        )  # fmt: skip
    elif readings.hem_line.value == "level":
        shows = ", ".join(check.alike([each.gap for each in shown_readings(readings)]))
        yield check.finding(
            f"hem-daylight:{readings.section}", key, values,
            variant="" if shows else "no gap", spread=spread, daylight=shows,
        )  # fmt: skip


def _places(check: Checker, readings: Readings) -> Iterator[Finding]:
    """Readings are taken in order, each at its own place, between the ends of the run."""
    section = readings.section
    places = [place.value for place in _placed(readings) if place.value is not None]
    key, run = f"survey.section.{section}.drop_at.1", check.ledger.figures[f"section.{section}.run"].value
    if any(later <= earlier for earlier, later in pairwise(places)):
        listed = ", ".join(check.length(each) for each in places)
        yield check.finding(f"reading-order:{section}", key, places, places=listed)
    if run is not None and any(place > run for place in places):
        values = {"place": max(places), "run": run}
        yield check.finding(f"reading-outside:{section}", key, values, other=f"survey.section.{section}.run.1")


def _placed(readings: Readings) -> tuple[Figure[Length], ...]:
    """The known places; one more reading behind others with places waits for its own, which is asked next."""
    *before, last = readings.places
    stated = [each.id.startswith("survey.") for each in readings.places]
    waits = len(stated) > LEAST_READINGS and all(stated[:-1]) and not stated[-1]
    return (*before,) if waits else (*before, last)


def _sizes(check: Checker, readings: Readings) -> Iterator[Finding]:
    """A reading that is surprisingly short or long is read again."""
    for number, figure in enumerate(readings.drops, 1):
        drop = figure.value
        if drop is not None and not SHORT_DROP <= drop <= LONG_DROP:
            how = "short" if drop < SHORT_DROP else "long"
            yield check.finding(f"drop-size:{readings.section}:{number}", figure.id, {"drop": drop}, how=how)


def _gaps(check: Checker) -> Iterator[Finding]:
    """Daylight under the hem: none on a hard floor drags, a lot shows. The bed's own, and that of each section."""
    own = {section_id: section.floor_gap for section_id, section in sections_on(check.job)}
    if not own or None in own.values():
        yield from _gap(check, check.job.survey.floor_gap, "survey.floor_gap")
    for section_id, gap in own.items():
        yield from _gap(check, gap, f"survey.section.{section_id}.floor_gap", section_id)


def _gap(check: Checker, gap: Length | None, key: str, section_id: str = "") -> Iterator[Finding]:
    of, variant = (f":{section_id}", "section") if section_id else ("", "")
    if check.job.survey.floor == "hard floor" and gap == ZERO:
        yield check.finding(f"gap-none{of}", key, [gap], variant=variant, least=NARROW_GAP, most=WIDE_GAP)
    if gap is not None and gap > WIDE_GAP:
        yield check.finding(f"gap-wide{of}", key, {"gap": gap}, variant=variant, most=WIDE_GAP)


def slope_findings(check: Checker) -> Iterator[Finding]:
    """The floor falls one way along one side of the bed and the other way along the other, by more than its tolerance.

    More likely the readings were given in the wrong order: one side is read from head to foot, the other from foot to
    head.
    """
    tolerance: Length | None = check.value(Allowances.floor_tolerance)
    left, right = _falls(check, "left"), _falls(check, "right")
    if tolerance is None or left is None or right is None:
        return
    (left_id, left_fall), (right_id, right_fall) = left, right
    if (left_fall > ZERO) == (right_fall > ZERO) or min(abs(left_fall), abs(right_fall)) <= tolerance:
        return
    ends = ("foot end", "head end") if left_fall > ZERO else ("head end", "foot end")
    yield check.finding(
        "floor-slopes:left:right", f"survey.section.{right_id}.drop.1", [left_fall, right_fall],
        left=abs(left_fall), left_end=ends[0], right=abs(right_fall), right_end=ends[1],
        offers=[each for section in _likelier(check, left_id, right_id) for each in _turned(check, section)],
    )  # fmt: skip


def _likelier(check: Checker, left_id: str, right_id: str) -> tuple[str, str]:
    """The sides, the one first whose drops would fit the foot better turned round: the fall along the foot is that from
    side to side. Without a foot the right side, which is read from foot to head."""
    foot = _falls(check, "foot")
    left, right = (check.job.survey.section[each].drop for each in (left_id, right_id))
    if foot is None or left[0] is None or left[-1] is None or right[0] is None or right[-1] is None:
        return right_id, left_id
    right_turned, left_turned = (right[-1] - left[-1], right[0] - left[0])
    return (right_id, left_id) if abs(right_turned - foot[1]) <= abs(left_turned - foot[1]) else (left_id, right_id)


def _turned(check: Checker, section_id: str) -> Iterator[Remedy]:
    """The drops of a section the other way round; none where they have places of their own."""
    section = check.job.survey.section[section_id]
    if section.drop_at:
        return
    keys = (f"survey.section.{section_id}.drop.{number}" for number in range(1, len(section.drop) + 1))
    entries = {key: drop.text if drop else "" for key, drop in zip(keys, reversed(section.drop), strict=True)}
    yield Remedy(f"Turn the drops round: {check.section(section_id)}", entries)


def _falls(check: Checker, side: str) -> tuple[str, Length] | None:
    """The only section of a side, and how much more its foot end reads than its head end, or at the foot its right end
    than its left; None while that is open."""
    found = [(each, section) for each, section in sections_on(check.job) if side_of(each, section) == side]
    if len(found) != 1:
        return None
    section_id, section = found[0]
    first, last = (section.drop[0], section.drop[-1]) if len(section.drop) > 1 else (None, None)
    if first is None or last is None:
        return None
    return section_id, first - last if side == "right" else last - first
