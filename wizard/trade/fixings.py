"""Fixings: how many, where each goes along the tape, and in what order.

Common practice: the ends first, then the middle, then outwards, so that the gathers stay even. Places are measured
along the finished tape from its end at the head (sides) or at the bed's left (foot, head): stapling is done from
inside the bed, where left and right change places.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Final, Literal

from msgspec import Struct

from wizard.trade.bed import Section, Side
from wizard.trade.corners import side_of
from wizard.trade.defaults import SPACINGS
from wizard.trade.figures import DEFAULT, Figure, Ledger, Rule, merged, value_at
from wizard.trade.job import FixingKind
from wizard.trade.keynames import in_words
from wizard.trade.legs import leg_figure
from wizard.trade.lengths import ZERO, Length, ceiling, total
from wizard.trade.no_fixing import Closed, Lie, closed_of
from wizard.trade.plan import FixingAt, FixingPlan

IN_A_ROW: Final[tuple[FixingKind, ...]] = ("staples", "tacks", "magnets", "upholstery pins")
"""Set one by one at a spacing; every other kind runs the whole length."""

MOST: Final = 10_000
"""No more fixings than this are set out one by one: a longer tape, or a closer spacing, was mistyped."""

COUNT = Rule(
    "fixings",
    "({gathered} − 2 × {inset}) ÷ {asked}, up to a whole number, + 1",
    "One an inset from each end and the rest between them, nowhere further apart than the spacing asked for.",
)
SPACING = Rule(
    "spacing of the fixings", "({gathered} − 2 × {inset}) ÷ ({count} − 1)", "Equal spaces between the two end ones."
)


def measured_from(side: Side) -> Literal["the head", "the bed's left"]:
    """Where tape and fixings are measured from on this side of the bed."""
    return "the head" if side in ("left", "right") else "the bed's left"


def fixings_for(
    ledger: Ledger,
    section_id: str,
    *,
    run: Figure[Length],
    gathered: Figure[Length],
    left_extra: Length | None,
    measured_from_right: bool,
    part: str | None = None,
    begins: Length = ZERO,
    whole_run: Length | None = None,
) -> FixingPlan | None:
    """The fixings of a section, or of `part` of a split one; None until all they need is known.

    `left_extra` is the return or overlap at the left end, seen from the room. `measured_from_right` is True where the
    head (sides) or the bed's left (foot, head) is the section's right end. A part of a split section says where its
    run `begins` along the `whole_run`, from the head or the bed's left. Keeps `part.ID.fixings` and
    `part.ID.fixing_spacing` in the ledger, and the figures of the leg for staples and tacks.
    """
    section = ledger.job.survey.section.get(section_id, Section())
    kind = fixing_kind(ledger)
    side, length, place = side_of(section_id, section), gathered.value, run.value
    set_singly = kind.value in IN_A_ROW
    row = _row(ledger, part or section_id, kind, gathered) if set_singly or kind.value is None else None
    unknown = _unusable_places(ledger, part or section_id, section_id)
    if kind.value is None or side is None or length is None or place is None or left_extra is None or unknown:
        return None
    first_extra = length - place - left_extra if measured_from_right else left_extra
    lie = Lie(length, first_extra, place, begins, whole_run or place, measured_from_right)
    closed, covers = closed_of(ledger.job.survey, section_id, lie), (begins, begins + place)
    if not set_singly:
        gaps = tuple((max(each.start, ZERO), min(each.end, length)) for each in closed)
        return FixingPlan(measured_from(side), None, (), (), None, gaps, covers)
    if row is None:
        return None
    kept, skipped = set_out(length, row.inset, row.count, closed)
    _keep_set(ledger, part or section_id, len(kept), len(skipped))
    leg = leg_figure(ledger).value
    return FixingPlan(measured_from(side), row.spacing, in_order(kept), skipped, leg, (), covers)


def _unusable_places(ledger: Ledger, part: str, section_id: str) -> bool:
    """True while what says where no fixing goes cannot be used: then how many there are waits for it."""
    key = f"survey.section.{section_id}"
    here = [
        each
        for each in ledger.job.unusable
        if each.startswith((f"{key}.in_the_way.", f"{key}.left_hook", f"{key}.right_hook"))
    ]
    needs = merged(ledger.wanting(each).needs for each in here)
    if needs:
        ledger.keep(Figure(f"part.{part}.fixings", "fixings", None, needs, COUNT))
    return bool(needs)


def fixing_kind(ledger: Ledger) -> Figure[FixingKind]:
    """What fixes the skirt to the rail, as chosen."""
    return ledger.read("cloth.fixing.kind")


SET = Rule(
    "fixings set", "{count}", "One skipped for something in the way is left out; one goes close on either side of it."
)


class _Row(Struct, frozen=True):
    inset: Length
    count: int
    spacing: Length | None


def _row(ledger: Ledger, part: str, kind: Figure[FixingKind], gathered: Figure[Length]) -> _Row | None:
    """The row before anything is skipped; its figures are kept. None until all is known, and beyond MOST fixings."""
    inset: Figure[Length] = ledger.read("cloth.fixing.inset")
    asked = _asked_spacing(ledger, kind)
    count = ledger.work(f"part.{part}.fixings", "fixings", COUNT, _count, gathered=gathered, inset=inset, asked=asked)
    spacing = ledger.work(
        f"part.{part}.fixing_spacing", "from fixing to fixing", SPACING, _spacing,
        gathered=gathered, inset=inset, count=count,
    )  # fmt: skip
    if inset.value is None or count.value is None or count.value > MOST:
        return None
    return _Row(inset.value, count.value, spacing.value)


def _keep_set(ledger: Ledger, part: str, set_in_all: int, skipped: int) -> None:
    """How many are set once some are skipped and others set beside, `part.ID.fixings_set`."""
    count = ledger.figures[f"part.{part}.fixings"]
    beside = set_in_all - (count.value or 0) + skipped
    rule = Rule(SET.id, f"{{count}} − {skipped} + {beside}" if skipped else "{count}", SET.says)
    ledger.work(f"part.{part}.fixings_set", "fixings set", rule, lambda count: count - skipped + beside, count=count)


def _asked_spacing(ledger: Ledger, kind: Figure[FixingKind]) -> Figure[Length]:
    """The greatest spacing: as asked, else the usual one of the kind."""
    key = "cloth.fixing.spacing"
    if value_at(ledger.job, key) is not None or key in ledger.job.unusable:
        return ledger.read(key)
    words = in_words(key, ledger.job)
    usual = SPACINGS.get(kind.value or "")
    return ledger.keep(
        Figure(key, words, usual and usual[0 if ledger.standard == "inches" else 1], kind.needs, DEFAULT)
    )


def _count(gathered: Length, inset: Length, asked: Length) -> int | None:
    if asked <= ZERO:
        return None
    return max(1, ceiling((gathered - 2 * inset) / asked) + 1)


def _spacing(gathered: Length, inset: Length, count: int) -> Length | None:
    return (gathered - 2 * inset) / (count - 1) if count > 1 else None


@lru_cache(maxsize=64)
def set_out(
    gathered: Length, inset: Length, count: int, closed: tuple[Closed, ...]
) -> tuple[tuple[Length, ...], tuple[Length, ...]]:
    """(places kept and added, places skipped), each in order, for `count` fixings on a tape `gathered` long.

    One that falls in a closed stretch is skipped, and one goes close on either side of the stretch, an inset from its
    edge, unless one is about that close already.
    """
    places = _even(gathered, inset, count)
    skipped = tuple(each for each in places if any(stretch.holds(each) for stretch in closed))
    kept = [each for each in places if each not in skipped]
    for stretch in closed:
        if any(stretch.holds(each) for each in skipped):
            kept += [each for each in _beside(stretch, inset, kept) if _free(each, gathered, closed)]
    return tuple(sorted(set(kept))), skipped


def _even(gathered: Length, inset: Length, count: int) -> list[Length]:
    """Equal spaces, each place worked from the first end; a single one goes in the middle."""
    if count == 1:
        return [gathered / 2]
    return [inset + (gathered - 2 * inset) * Fraction(each, count - 1) for each in range(count)]


def _beside(stretch: Closed, inset: Length, kept: list[Length]) -> list[Length]:
    """Places close on either side of a closed stretch, where none is about that close already."""
    before, after = stretch.start - inset, stretch.end + inset
    return [
        *([] if any(before - inset <= each <= stretch.start for each in kept) else [before]),
        *([] if any(stretch.end <= each <= after + inset for each in kept) else [after]),
    ]


def _free(place: Length, gathered: Length, stretches: tuple[Closed, ...]) -> bool:
    return ZERO <= place <= gathered and not any(each.holds(place) for each in stretches)


@lru_cache(maxsize=64)
def in_order(places: tuple[Length, ...]) -> tuple[FixingAt, ...]:
    """Places in order of position, each with its turn: one end, the other, the middle, then outwards.

    `places` rise, each but once.
    """
    ends = places[:1] + places[1:][-1:]
    middle = total(ends) / 2
    outwards = sorted(places[1:-1], key=lambda place: (abs(place - middle), place))
    turns = {place: turn for turn, place in enumerate((*ends, *outwards), start=1)}
    return tuple(FixingAt(turns[place], place) for place in places)
