"""What looks wrong about the readings: runs that lean, differ or are far from the bed's nominal size; drops out of
order, of surprising size or far apart; an uneven floor, and two opposed slopes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product
from typing import Final

from msgspec import Struct

from wizard.trade.drops_and_cut_lengths import LEAST_READINGS, Readings, shown_readings
from wizard.trade.figures import Figure
from wizard.trade.findings.checker import Checker
from wizard.trade.formatting import listed
from wizard.trade.job_fields import Allowances, Side
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan_records import Finding, Remedy
from wizard.trade.sections import (
    ENDS,
    along_side,
    nominal_run,
    post_at,
    reach_of,
    sections_on,
    share_the_rail,
    short_of,
    short_read,
    side_of,
    stops_short,
)

FAR: Final = Length(6)
"""A run further from the nominal length than this is worth a second reading: posts and frames account for less."""
RAILS_APART: Final = Length(Fraction(1, 2))
"""Left and right rails of one bed are cut alike: further apart than this, one was misread."""
LONG_RUN: Final = Length.of(20, "ft")
SHORT_RUN: Final = Length(12)


def run_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the runs."""
    for section_id, _ in sections_on(check.job):
        yield from _of_section(check, section_id)
    yield from _sides(check)
    for side in ("left", "right", "foot", "head"):
        yield from _nominal(check, side)


def _of_section(check: Checker, section_id: str) -> Iterator[Finding]:
    """A run that differs between the rail and the floor, and one of unusual length."""
    key = f"survey.section.{section_id}.run"
    tolerance = check.value(Allowances.run_tolerance)
    rail, floor = (check.run(section_id, number) for number in (1, 2))
    if rail is None:
        return
    if floor is not None and tolerance is not None and abs(rail - floor) > tolerance:
        yield check.finding(
            f"run-lean:{section_id}", f"{key}.2", {"rail": rail, "floor": floor}, other=f"{key}.1",
            apart=abs(rail - floor), how="less" if floor < rail else "more",
        )  # fmt: skip
    if not SHORT_RUN <= rail <= LONG_RUN:
        kind = "run-long" if rail > LONG_RUN else "run-short"
        yield check.finding(f"{kind}:{section_id}", f"{key}.1", {"run": rail})


class Rail(Struct, frozen=True):
    """The length of a side of the bed from post to post, as its sections give it."""

    length: Length
    short: Length
    """The bare part of it, where sections stop short of a post."""
    sections: tuple[str, ...]
    """The section that gives it, or all that add up to it."""
    alone: bool
    """True where it is the only section of that side."""

    @property
    def is_run(self) -> bool:
        """True where it is one run from post to post."""
        return self.alone and not self.short


def _rails_of(check: Checker, side: Side) -> tuple[Rail, ...]:
    """The rail as given by each section that is read to the bed's corner posts, else by all sections of the side
    together; empty while there are none, or while one is not read completely."""
    there = along_side(check.job.survey, side)
    reaches = {each: reach_of(section) for each, section in there}
    known = {each: reach for each, reach in reaches.items() if reach is not None}
    ends = [(section, end) for _, section in there for end in ENDS]
    if not known or len(known) < len(there) or any(stops_short(*e) and short_read(*e) is None for e in ends):
        return ()
    shorts = {each: total(short_of(section, end) for end in ENDS) for each, section in there}
    if share_the_rail([section for _, section in there]):
        return tuple(Rail(known[each], short, (each,), False) for each, short in shorts.items() if short)
    return (Rail(total(known.values()), total(shorts.values()), tuple(known), len(there) == 1),)


def _sides(check: Checker) -> Iterator[Finding]:
    """Left and right of one bed: the two rails that differ most."""
    pairs = product(_rails_of(check, "left"), _rails_of(check, "right"))
    left, right = max(pairs, key=lambda pair: abs(pair[0].length - pair[1].length), default=(None, None))
    if left is None or right is None or abs(left.length - right.length) <= RAILS_APART:
        return
    longer, shorter = ("left", "right") if left.length > right.length else ("right", "left")
    made_up = "short" if left.short + right.short else "made up"
    yield check.finding(
        "run-differs:left:right", f"survey.section.{right.sections[0]}.run.1",
        {"left": left.length, "right": right.length}, other=f"survey.section.{left.sections[0]}.run.1",
        variant="" if left.is_run and right.is_run else made_up, apart=abs(left.length - right.length),
        longer=longer, shorter=shorter, left_made=_made_of(check, left), right_made=_made_of(check, right),
    )  # fmt: skip


def _made_of(check: Checker, rail: Rail) -> str:
    """What adds up to a rail, where it is not one run from post to post."""
    if rail.is_run:
        return ""
    run, names = check.length(rail.length - rail.short), [check.section(each) for each in rail.sections]
    what = f"a run of {run}" if len(names) == 1 else f"runs of {run} together"
    bare = f", and {check.length(rail.short)} from there to the post" if rail.short else ""
    return f" ({listed(names)}: {what}{bare})"


def _nominal(check: Checker, side: Side) -> Iterator[Finding]:
    """A rail far from the bed's nominal size is read again; frames differ, so it is never more than that."""
    size = check.job.survey.bed_size
    if size is None:
        return
    nominal = nominal_run(size, side)
    rail = max(_rails_of(check, side), key=lambda each: abs(each.length - nominal), default=None)
    if rail is None or abs(rail.length - nominal) <= FAR:
        return
    yield check.finding(
        f"run-nominal:{side}", f"survey.section.{rail.sections[0]}.run.1", {"rail": rail.length, "size": size},
        other="survey.bed_size", variant="" if rail.is_run else "made up", side=side, nominal=nominal,
        made=_made_of(check, rail), a="an" if size.startswith("EU") else "a",
    )  # fmt: skip


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
STEP: Final = Length(Fraction(1, 4))
"""From here on two hems that meet at a corner are seen to hang unlike."""


def drop_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the drops of every section."""
    for each in check.readings.values():
        for look in (_far_apart, _uneven, _places, _sizes):
            yield from look(check, each)
    for whole in (_beside, _gaps, _corners):
        yield from whole(check)


def _known(readings: Readings) -> list[tuple[Length, str]]:
    """The drops that are read, each with its key."""
    return [(drop.value, drop.id) for drop in readings.drops if drop.value is not None]


def _beside(check: Checker) -> Iterator[Finding]:
    """Sections of one bed hang about alike, those on its two sides nearly: one that does not was likely misread."""
    known = [(each.least.value, each) for each in check.readings.values() if each.least.value is not None]
    sections = check.job.survey.section
    sides = [pair for pair in known if side_of(id := pair[1].section, sections[id]) in ("left", "right")]
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


def _corners(check: Checker) -> Iterator[Finding]:
    """Where two sections meet at a corner their hems should hang alike above the floor: they read as one."""
    survey, met = check.job.survey, dict[str, tuple[str, Length]]()
    for section_id, each in check.readings.items():
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
        offers = [Remedy("Level hem", {key: "level"}), Remedy("Follow the floor", {key: "follow the floor"})]
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
    own = {f":{id}": (section.floor_gap, f"survey.section.{id}.floor_gap") for id, section in sections_on(check.job)}
    whole = {"": (check.job.survey.floor_gap, "survey.floor_gap")}
    every = own if own and all(gap is not None for gap, _ in own.values()) else {**whole, **own}
    for of, (gap, key) in every.items():
        variant = "section" if of else ""
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
    first, last = (section.drop[0], section.drop[-1]) if len(section.drop) >= LEAST_READINGS else (None, None)
    if first is None or last is None:
        return None
    return section_id, first - last if side == "right" else last - first
