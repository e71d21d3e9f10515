"""Fixings: how many, where each goes along the tape, in what order, where none may go, and how long its leg is.

Common practice: the ends first, then the middle, then outwards, so that the gathers stay even. Places are measured
along the finished tape from its end at the head (sides) or at the bed's left (foot, head): stapling is done from
inside the bed, where left and right change places. A staple or tack leg runs from tape + layers + 1/4 in to
rail − 1/8 in. What lies under a fixing is an allowance: cloth is not measured with a gauge at the kitchen table, so
each weight class has a usual thickness.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Final, Literal

from msgspec import Struct

from wizard.trade.field_names import in_words
from wizard.trade.fields import lengths
from wizard.trade.figures import DEFAULT, Figure, Formula, Ledger, Rule, merged
from wizard.trade.job_fields import Cloth, Fixing, FixingKind, Job, Obstacle, Post, Section, Side, Survey, Weight
from wizard.trade.layers import layers_in_use
from wizard.trade.lengths import ZERO, Length, ceiling, total
from wizard.trade.parts import fullness_made, run_of
from wizard.trade.plan_records import FixingAt, FixingPlan, Gathered
from wizard.trade.sections import FROM_RIGHT, End, post_at, sections_on

SPACINGS: Final[Mapping[str, tuple[Length, Length]]] = {
    "staples": lengths("2 in", "5 cm"),
    "tacks": lengths("3 in", "7.5 cm"),
    "upholstery pins": lengths("3 in", "7.5 cm"),
    "magnets": lengths("3 in", "7.5 cm"),
}
"""Usual greatest spacing of fixings set one by one; the others run the whole length."""


class Closed(Struct, frozen=True):
    """A stretch of tape that takes no fixing; its very edges do."""

    start: Length
    end: Length

    def holds(self, place: Length) -> bool:
        """True when `place` lies inside."""
        return self.start < place < self.end


class TapeOnRail(Struct, frozen=True):
    """Where a finished tape is along its section, seen from its first end: at the head, or at the bed's left."""

    gathered: Length
    """The whole finished tape."""
    first_extra: Length
    """Return or overlap before the run begins; ZERO if there is none."""
    run: Length
    begins: Length
    """Where the run of this part begins along the section's whole run; ZERO for a section that is not split."""
    whole_run: Length
    from_right: bool
    """True when the first end is the section's right end, seen from the room."""

    def on_tape(self, along_run: Length) -> Length:
        """A place along the section's whole run as a place on the tape; may be beyond either end."""
        return along_run - self.begins + self.first_extra


def closed_of(survey: Survey, section_id: str, tape: TapeOnRail) -> tuple[Closed, ...]:
    """Every stretch of this tape that takes no fixing, in order, those that touch made one."""
    section = survey.section.get(section_id, Section())
    found = [*_things(section, tape), *_at_the_ends(survey, section_id, section, tape)]
    on_it = [each for each in found if each.start < each.end and each.end > ZERO and each.start < tape.gathered]
    joined: list[Closed] = []
    for each in sorted(on_it, key=lambda each: each.start):
        if joined and each.start <= joined[-1].end:
            joined[-1] = Closed(joined[-1].start, max(joined[-1].end, each.end))
        else:
            joined.append(each)
    return tuple(joined)


OFF_THE_RAIL: Final = ("drawer", "heater", "vent", "socket")
"""Things that a section is split at to let them through: the rail is free there, and what is fixed there holds."""


def takes_rail(thing: Obstacle) -> bool:
    """True for a thing in the way that nothing can be fixed at: it is on the rail, or was chosen to take no fixing."""
    return thing.do in ("no fixing", "keep clear") or (thing.do == "split here" and thing.kind not in OFF_THE_RAIL)


def _things(section: Section, tape: TapeOnRail) -> Iterator[Closed]:
    for thing in section.in_the_way.values():
        if takes_rail(thing) and thing.at is not None:
            half = (thing.width or ZERO) / 2
            yield Closed(tape.on_tape(thing.at - half), tape.on_tape(thing.at + half))


def _at_the_ends(survey: Survey, section_id: str, section: Section, tape: TapeOnRail) -> Iterator[Closed]:
    """Hook plates and bolts reach along the rail from the ends of the run; a return behind a post that cannot be fixed
    into hangs free."""
    hooks: dict[End, Length] = {"left": section.left_hook or ZERO, "right": section.right_hook or ZERO}
    first, last = reversed(hooks) if tape.from_right else hooks
    if hooks[first]:
        yield Closed(tape.on_tape(ZERO), tape.on_tape(hooks[first]))
    if hooks[last]:
        yield Closed(tape.on_tape(tape.whole_run - hooks[last]), tape.on_tape(tape.whole_run))
    if not tape.begins and not can_fix_return(survey, section_id, first):
        yield Closed(-tape.gathered, tape.first_extra)
    if tape.begins + tape.run == tape.whole_run and not can_fix_return(survey, section_id, last):
        yield Closed(tape.first_extra + tape.run, tape.gathered + tape.gathered)


def can_fix_return(survey: Survey, section_id: str, end: End) -> bool:
    """False where the section returns at `end` behind a post that one may not fix into; True for all else."""
    section = survey.section.get(section_id, Section())
    kind = section.left_end if end == "left" else section.right_end
    post = survey.post.get(post_at(survey, section_id, end) or "", Post())
    return kind != "returns" or post.may_fix is not False


THICKNESS: Final[Mapping[Weight, Length]] = {
    "sheer": Length(Fraction(1, 128)),
    "light": Length(Fraction(1, 64)),
    "medium": Length(Fraction(1, 32)),
    "heavy": Length(Fraction(1, 16)),
}
"""Thickness allowed for one layer lying flat, pressed down by a fixing. Common practice, on the generous side."""
TAPE_THICKNESS: Final = Length(Fraction(1, 16))
"""Twill tape folded over: two thicknesses of 1/32 in. Common practice."""
HOLD: Final = Length(Fraction(1, 4))
"""What has to go into the rail to hold."""
SPARE: Final = Length(Fraction(1, 8))
"""What must be left of the rail in front of the point."""
USUAL_GATHERS: Final = 3
"""How many layers thick gathered cloth is taken to be while no fullness is known."""

GATHERED = Formula("layers under a fixing", "{flat} × {folds}", lambda flat, folds: flat * folds)
FOLDS = Rule("thickness of gathers", "{fullness}, rounded up")
USUAL_FOLDS = Rule("usual thickness of gathers", "{value}")
SHORTEST_LEG = Formula(
    "least leg", "[1/16 in|≈ 1.6 mm] of tape + {layers} + [1/4 in|≈ 6.4 mm]",
    lambda layers: TAPE_THICKNESS + layers + HOLD,
)  # fmt: skip
LONGEST_LEG = Formula("longest leg", "{rail} − [1/8 in|≈ 3.2 mm]", lambda rail: rail - SPARE)
THINNEST = Formula("thinnest rail", "{value}", lambda **each: min(each.values(), default=None))


def shortest(legs: tuple[Length | None, ...], least: Length, most: Length) -> Length | None:
    """The shortest leg from `least` to `most`, both included; None when there is none."""
    return min((each for each in legs if each is not None and least <= each <= most), default=None)


LEG = Formula("leg", "the shortest of {legs} from {least} to {most}", shortest)


def leg_figure(ledger: Ledger) -> Figure[Length]:
    """The leg to use, `fixing.leg`: the shortest that can be had between `fixing.leg_least` and `fixing.leg_most`.

    No value when there is none; `findings/cloth_findings.py` says so.
    """
    least = ledger.apply(SHORTEST_LEG, "fixing.leg_least", layers=_layers(ledger))
    rails = {
        section: ledger.read(Section.rail_thickness, f"survey.section.{section}", fallback=Survey.rail_thickness)
        for section, _ in sections_on(ledger.job)
    }
    most = ledger.apply(LONGEST_LEG, "fixing.leg_most", rail=ledger.apply(THINNEST, "fixing.rail", **rails))
    legs = ledger.read(Fixing.legs)
    return ledger.apply(LEG, "fixing.leg", legs=legs, least=least, most=most)


def _layers(ledger: Ledger) -> Figure[Length]:
    weights = {each: ledger.read(Cloth.weight, f"cloth.{each}") for each in layers_in_use(ledger)}
    rule = Rule("layers lying flat", " + ".join(f"{{{each}}}" for each in weights))
    flat = ledger.work(
        "fixing.layers_flat", "layers lying flat", rule,
        lambda **weights: total(THICKNESS[each] for each in weights.values()), **weights,
    )  # fmt: skip
    return ledger.apply(GATHERED, "fixing.layers", flat=flat, folds=_folds(ledger))


def _folds(ledger: Ledger) -> Figure[int]:
    """From the fullness the skirt is made to, whatever sets it. The leg does not wait for it."""
    id, title, fullness = "fixing.folds", "thickness of gathers", _fullness(ledger)
    if fullness is None or fullness.value is None:
        return ledger.keep(Figure(id, title, USUAL_GATHERS, (), USUAL_FOLDS))
    return ledger.keep(Figure(id, title, ceiling(fullness.value), (), FOLDS, (("fullness", fullness),)))


def _fullness(ledger: Ledger) -> Figure[Fraction] | None:
    """What every part is asked to be, or the fullest part where a surplus is kept; None until it is worked.

    A surplus is what a part comes out wider than was asked by more than the rounding to the ruler mark.
    """
    figures, mark = ledger.figures, ledger.read(Job.ruler).value
    ids = [id for id in figures if id.startswith("part.") and id.endswith(".flat_made")]
    fullest = []
    for part in [id.removeprefix("part.").removesuffix(".flat_made") for id in ids]:
        asked, made, gathered = (figures[f"part.{part}.{leaf}"] for leaf in ("flat", "flat_made", "gathered"))
        if made.value is not None and made.value - (asked.value or ZERO) >= mark:
            fullest.append(fullness_made(ledger, part, gathered, made))
    return max(fullest, key=lambda each: each.value or Fraction(0), default=figures.get("fullness"))


IN_A_ROW: Final[tuple[FixingKind, ...]] = ("staples", "tacks", "magnets", "upholstery pins")
"""Set one by one at a spacing; every other kind runs the whole length."""

MOST_FIXINGS: Final = 10_000
"""No more fixings than this are set out one by one: a longer tape, or a closer spacing, was mistyped."""

COUNT = Formula(
    "fixings", "({gathered} − 2 × {inset}) ÷ {asked}, rounded up, + 1",
    lambda gathered, inset, asked: max(1, ceiling((gathered - 2 * inset) / asked) + 1) if asked > ZERO else None,
)  # fmt: skip
SPACING = Formula(
    "spacing of the fixings",
    "({gathered} − 2 × {inset}) ÷ ({count} − 1)",
    lambda gathered, inset, count: (gathered - 2 * inset) / (count - 1) if count > 1 else None,
)


def measured_from(side: Side) -> Literal["the head", "the bed's left"]:
    """Where tape and fixings are measured from on this side of the bed."""
    return "the head" if side in ("left", "right") else "the bed's left"


def fixings_for(ledger: Ledger, part: Gathered) -> FixingPlan | None:
    """The fixings of a part; None until all they need is known.

    Keeps `part.ID.fixings` and `part.ID.fixing_spacing` in the ledger, and the figures of the leg for staples and
    tacks.
    """
    kind = ledger.read(Fixing.kind).value
    row = _row(ledger, part) if kind in IN_A_ROW or kind is None else None
    unknown, tape = _unusable_places(ledger, part), tape_on_rail(ledger, part)
    if kind is None or part.side is None or tape is None or unknown:
        return None
    start, closed = measured_from(part.side), closed_of(ledger.job.survey, part.section, tape)
    covers = (tape.begins, tape.begins + tape.run)
    if kind not in IN_A_ROW:
        gaps = tuple((max(each.start, ZERO), min(each.end, tape.gathered)) for each in closed)
        return FixingPlan(start, None, (), (), None, gaps, covers)
    if row is None:
        return None
    inset, count, spacing = row
    kept, skipped = set_out(tape.gathered, inset, count, closed)
    # How many are set once some are skipped and others set beside.
    asked = ledger.figures[f"part.{part.id}.fixings"]
    left_out, beside = len(skipped), len(kept) - count + len(skipped)
    rule = Rule(SET.id, f"{{count}} − {left_out} + {beside}" if skipped else "{count}")
    ledger.work(f"part.{part.id}.fixings_set", "fixings set", rule, lambda count: len(kept), count=asked)
    return FixingPlan(start, spacing, in_order(kept), skipped, leg_figure(ledger).value, (), covers)


def tape_on_rail(ledger: Ledger, part: Gathered) -> TapeOnRail | None:
    """Where the tape of a part is, from the head or the bed's left on; None until that is known."""
    length, run, left_extra, start = part.gathered.value, part.run.value, part.left_extra.value, part.start
    whole, from_right = run_of(ledger, part.section).value, part.side in FROM_RIGHT
    if length is None or run is None or left_extra is None:
        return None
    first_extra = length - run - left_extra if from_right else left_extra
    begins = whole - start - run if from_right and whole is not None and start is not None else start
    return TapeOnRail(length, first_extra, run, begins or ZERO, whole or run, from_right)


def _unusable_places(ledger: Ledger, part: Gathered) -> bool:
    """True while a text that says where no fixing goes cannot be used: then the number of fixings waits for it."""
    places = tuple(f"survey.section.{part.section}.{leaf}" for leaf in ("in_the_way.", "left_hook", "right_hook"))
    needs = merged(ledger.wanting(each).needs for each in ledger.job.unusable if each.startswith(places))
    if needs:
        ledger.keep(Figure(f"part.{part.id}.fixings", "fixings", None, needs, COUNT.rule))
    return bool(needs)


SET = Rule("fixings set", "{count}")


FixingRow = tuple[Length, int, Length | None]
"""Inset, number of fixings, and true spacing."""


def _row(ledger: Ledger, part: Gathered) -> FixingRow | None:
    """The row before anything is skipped; its figures are kept. None until all is known, and beyond MOST_FIXINGS."""
    id, inset, asked = f"part.{part.id}", ledger.read(Fixing.inset), _asked_spacing(ledger)
    count = ledger.apply(COUNT, f"{id}.fixings", gathered=part.gathered, inset=inset, asked=asked)
    spacing = ledger.apply(SPACING, f"{id}.fixing_spacing", gathered=part.gathered, inset=inset, count=count)
    if inset.value is None or count.value is None or count.value > MOST_FIXINGS:
        return None
    return inset.value, count.value, spacing.value


def _asked_spacing(ledger: Ledger) -> Figure[Length]:
    """The greatest spacing: as asked, else the usual one of the kind."""
    key, kind = "cloth.fixing.spacing", ledger.read(Fixing.kind)
    if ledger.said(key):
        return ledger.read(Fixing.spacing)
    usual = SPACINGS.get(kind.value or "")
    value = usual and usual[0 if ledger.standard == "inches" else 1]
    return ledger.keep(Figure(key, in_words(key, ledger.job), value, kind.needs, DEFAULT))


@lru_cache(maxsize=64)
def set_out(
    gathered: Length, inset: Length, count: int, closed: tuple[Closed, ...]
) -> tuple[tuple[Length, ...], tuple[Length, ...]]:
    """(places kept and added, places skipped), each in order, for `count` fixings on a tape `gathered` long.

    One that falls in a closed stretch is skipped, and one goes close on either side of the stretch, an inset from its
    edge, unless one is about that close already.
    """
    # Equal spaces, each place worked from the first end; a single one goes in the middle.
    even = (inset + (gathered - 2 * inset) * Fraction(each, count - 1) for each in range(count))
    places = [gathered / 2] if count == 1 else list(even)
    skipped = tuple(each for each in places if any(stretch.holds(each) for stretch in closed))
    kept = [each for each in places if each not in skipped]
    for stretch in closed:
        if any(stretch.holds(each) for each in skipped):
            before, after = stretch.start - inset, stretch.end + inset
            near = {before: (before - inset, stretch.start), after: (stretch.end, after + inset)}
            beside = [place for place, (low, high) in near.items() if not any(low <= each <= high for each in kept)]
            free = (place for place in beside if not any(each.holds(place) for each in closed))
            kept += [place for place in free if ZERO <= place <= gathered]
    return tuple(sorted(set(kept))), skipped


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
