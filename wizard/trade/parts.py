"""Sections become parts, what is sewn and hung as one: their gathered length, flat width, tape and marks.

A thing in the way may split a section in two parts that overlap. Tape and flat skirt are marked in the same number of
equal parts, so that they meet mark on mark. Common practice: these are made by folding, so their number is a power of
two. Each mark is measured from one end, never by adding up a rounded spacing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from msgspec.structs import asdict

from wizard.trade.figures import Figure, Formula, Ledger, Rule
from wizard.trade.fullness_steps import LEAST_FULLNESS
from wizard.trade.job_fields import Obstacle, Section, Side, Tape
from wizard.trade.lengths import ZERO, Length, ceiling, total
from wizard.trade.plan_records import Gathered, Mark, Part, PartEnds, Span
from wizard.trade.sections import FROM_RIGHT, End, end_in_words, section_name, side_of

RAIL_RUN = Formula("run", "{run}", lambda run: run)
FLAT_RUN = Formula(
    "run of a flat section", "shorter of {at the rail}, {near the floor}", lambda **runs: min(runs.values())
)
FROM_THE_RIGHT = Formula(
    "place of a split", "{run} − {at}", lambda run, at: run - at, "It was measured from the other end of the section."
)
FROM_THE_LEFT = Formula("place of a split", "{at}", lambda at: at)
SPLIT_START = Formula("start of a part", "{split} − {overlap} ÷ 2", lambda split, overlap: split - overlap / 2)
SPLIT_END = Formula("end of a part", "{split} + {overlap} ÷ 2", lambda split, overlap: split + overlap / 2)
# Outside the run it has no value: a finding says so.
PART_RUN = Formula("run of a part", "{end} − {start}", lambda end, start: end - start if ZERO <= start < end else None)
WHOLE = Formula("whole section", "{value}", lambda value: value)
STOPS_SHORT = Rule("end that stops short of a post", "0, {short} from the post")
STOPS = Rule("end of a section", "{value}")


def run_of(ledger: Ledger, section_id: str) -> Figure[Length]:
    """The run a section is made to: the rail reading, or the shorter of the two for a flat section."""
    rail, floor = (ledger.read_item(Section.run, f"survey.section.{section_id}", number) for number in (1, 2))
    id = f"section.{section_id}.run"
    if ledger.job.fullness.want == 1 and ledger.job.fullness.aim != "all the cloth I own":
        return ledger.apply(FLAT_RUN, id, **{"at the rail": rail, "near the floor": floor})
    return ledger.apply(RAIL_RUN, id, run=rail)


def spans_of(ledger: Ledger, section_id: str, section: Section) -> Iterator[Span]:
    """The parts of a section from left to right, seen from the room: one, and one more for every split."""
    run, side, name = run_of(ledger, section_id), side_of(section_id, section), section_name(ledger.job, section_id)
    if side is None:
        ledger.read(Section.side, f"survey.section.{section_id}")
    splits = _splits(ledger, section_id, section, run, side)
    for number, (left, right) in enumerate(pairwise([None, *splits, None]), 1):
        id = f"{section_id}/{number}" if splits else section_id
        ends = _ends(ledger, id, run, left, right) if splits else None
        yield Span(
            id=id,
            section=section_id,
            name=f"{name}, part {number}" if splits else name,
            side=side,
            run=ledger.apply(PART_RUN, f"part.{id}.run", end=ends[1], start=ends[0])
            if ends
            else ledger.apply(WHOLE, f"part.{id}.run", value=run),
            ends=ends,
            left_extra=_extra(ledger, id, section_id, "left", left),
            right_extra=_extra(ledger, id, section_id, "right", right),
            left_is="split" if left else end_in_words(side, "left"),
            right_is="split" if right else end_in_words(side, "right"),
        )


def _ends(ledger: Ledger, id: str, run: Figure[Length], left: PartEnds | None, right: PartEnds | None) -> PartEnds:
    """Where a part of a split section starts and ends."""
    start = left[0] if left else ledger.keep(Figure(f"part.{id}.start", "start", ZERO, run.needs, WHOLE.rule))
    return start, right[1] if right else run


def _extra(ledger: Ledger, part_id: str, section_id: str, end: End, split: PartEnds | None) -> Figure[Length]:
    """Extra cloth at an end: behind the post, over the next section, or none, as at a `split`."""
    id, title, key = f"part.{part_id}.{end}_extra", f"extra cloth at the {end} end", f"survey.section.{section_id}"
    kind = None if split else ledger.read(Section.left_end if end == "left" else Section.right_end, key)
    if kind is None or kind.value == "stops":
        return ledger.keep(Figure(id, title, ZERO, (), STOPS))
    if kind.value is None:
        return Figure(id, kind.title, None, kind.needs, STOPS)
    if kind.value == "stops short":
        short = ledger.read(Section.left_short if end == "left" else Section.right_short, key)
        return ledger.work(id, title, STOPS_SHORT, lambda short: ZERO, short=short)
    return ledger.read(Section.left_return if end == "left" else Section.right_return, key)


def splits_asked(section: Section) -> tuple[tuple[str, Obstacle], ...]:
    """The things in the way at which the section is split."""
    return tuple((each, thing) for each, thing in section.in_the_way.items() if thing.do == "split here")


def _splits(
    ledger: Ledger, section_id: str, section: Section, run: Figure[Length], side: Side | None
) -> list[PartEnds]:
    """Every split, from the section's left end on; those whose place is not known yet come last."""
    made = list[PartEnds]()
    for thing, _ in splits_asked(section):
        id, key = f"section.{section_id}.{thing}", f"survey.section.{section_id}.in_the_way.{thing}"
        # It was read from the head or the bed's left.
        from_right, at = {"run": run} if side in FROM_RIGHT else {}, ledger.read(Obstacle.at, key)
        split = ledger.apply(FROM_THE_RIGHT if from_right else FROM_THE_LEFT, f"{id}.place", **from_right, at=at)
        overlap = ledger.read(Obstacle.overlap, key)
        start = ledger.apply(SPLIT_START, f"{id}.start", split=split, overlap=overlap)
        made.append((start, ledger.apply(SPLIT_END, f"{id}.end", split=split, overlap=overlap)))
    return sorted(made, key=lambda split: (split[0].value is None, split[0].value or ZERO))


GATHERED = Formula("gathered length", "{run} + {left} + {right}", lambda run, left, right: run + left + right)
# Under 1 it has no value: a finding refuses it.
FLAT = Formula(
    "flat width", "{fullness} × {gathered}",
    lambda fullness, gathered: gathered * fullness if fullness >= LEAST_FULLNESS else None,
)  # fmt: skip
FLAT_RETURNS = Formula(
    "flat width, returns left flat",
    "{fullness} × ({gathered} − {returns}) + {returns}",
    lambda fullness, gathered, returns: (
        (gathered - returns) * fullness + returns if fullness >= LEAST_FULLNESS else None
    ),
)
RETURNS = Formula("returns left flat", "{left} + {right}", lambda left, right: left + right)
TAPE = Formula("tape cut", "{gathered} + 2 × {turn_under}", lambda gathered, turn_under: gathered + turn_under * 2)
TRUE_FULLNESS = Formula(
    "fullness as made", "{flat} ÷ {gathered}", lambda flat, gathered: flat / gathered if gathered > ZERO else None
)


def gathered_of(ledger: Ledger, span: Span) -> Gathered:
    """Gathered length and tape of a part."""
    id = f"part.{span.id}"
    length = ledger.apply(GATHERED, f"{id}.gathered", run=span.run, left=span.left_extra, right=span.right_extra)
    tape = ledger.apply(TAPE, f"{id}.tape", gathered=length, turn_under=ledger.read(Tape.turn_under))
    section = ledger.job.survey.section[span.section]
    left_flat, right_flat = _flat_end(span, section, "left"), _flat_end(span, section, "right")
    return Gathered(**asdict(span), gathered=length, left_flat=left_flat, right_flat=right_flat, tape=tape)


def _flat_end(span: Span, section: Section, end: End) -> Figure[Length]:
    """What stays flat at an end: the return there, when the maker leaves returns flat. An overlap gathers."""
    kind = section.left_end if end == "left" else section.right_end
    extra = span.left_extra if end == "left" else span.right_extra
    if kind == "returns" and section.returns_flat is True and extra.value != ZERO:
        return extra
    return Figure(f"part.{span.id}.{end}_flat", f"left flat at the {end} end", ZERO, (), RETURNS.rule)


def flat_of(ledger: Ledger, part: Gathered, fullness: Figure[Fraction]) -> Figure[Length]:
    """Flat finished width `W` of the face, exact."""
    id = f"part.{part.id}"
    if not part.returns_flat:
        return ledger.apply(FLAT, f"{id}.flat", fullness=fullness, gathered=part.gathered)
    returns = ledger.apply(RETURNS, f"{id}.returns", left=part.left_flat, right=part.right_flat)
    return ledger.apply(FLAT_RETURNS, f"{id}.flat", fullness=fullness, gathered=part.gathered, returns=returns)


def fullness_made(ledger: Ledger, part_id: str, gathered: Figure[Length], flat: Figure[Length]) -> Figure[Fraction]:
    """True fullness of a part end to end, from its flat width as made."""
    return ledger.apply(TRUE_FULLNESS, f"part.{part_id}.fullness", flat=flat, gathered=gathered)


LONGEST_PART: Final = Length(12)
"""A gathered part is no longer than this: what two hands can even out at a time. Common practice."""

MOST_PARTS: Final = 1024
"""No more parts than this are written out one by one: a longer tape (over 1000 ft) was mistyped."""


def parts_in(gathered_part: Length) -> int:
    """The least power of two that divides `gathered_part` into parts of 12 in or less; 1 for nothing."""
    return 1 << (max(ceiling(gathered_part / LONGEST_PART), 1) - 1).bit_length()


def _marks_in(gathered: Length, left_flat: Length, right_flat: Length) -> int | None:
    part = gathered - left_flat - right_flat
    return parts_in(part) if part > ZERO else None


def _spacing(parts: int, left_flat: Length, right_flat: Length, **whole: Length) -> Length:
    return (total(whole.values()) - left_flat - right_flat) / parts


PARTS = Formula(
    "marks",
    "parts = 1, 2, 4, 8, …: the first for which ({gathered} − {left_flat} − {right_flat}) ÷ parts ≤ [12 in|30.48 cm]",
    _marks_in,
)
SPACING_TAPE = Formula("mark spacing on the tape", "({gathered} − {left_flat} − {right_flat}) ÷ {parts}", _spacing)
SPACING_FLAT = Formula("mark spacing on the flat skirt", "({flat} − {left_flat} − {right_flat}) ÷ {parts}", _spacing)


def marks_of(
    gathered: Length,
    flat: Length,
    left_flat: Length = ZERO,
    right_flat: Length = ZERO,
    drop_at: Callable[[Length], Length] | None = None,
) -> tuple[Mark, ...]:
    """Every mark from the left end to the right end, both ends and the bounds of what is left flat among them.

    `gathered` is the whole finished tape, `flat` the whole flat skirt as made; `left_flat` and `right_flat` are their
    ends that are not gathered; `drop_at` gives the finished drop at a place on the tape, from its left end, None for a
    level hem. Each mark is worked from the left end by its own fraction. Empty when nothing is left to gather between
    the flat ends, and when there would be over MOST_PARTS parts.
    """
    on_tape, in_flat = (whole - left_flat - right_flat for whole in (gathered, flat))
    if on_tape <= ZERO or in_flat <= ZERO or (parts := parts_in(on_tape)) > MOST_PARTS:
        return ()
    shares = (Fraction(each, parts) for each in range(parts + 1))
    places = [
        *([(ZERO, ZERO)] if left_flat else []),
        *((left_flat + on_tape * share, left_flat + in_flat * share) for share in shares),
        *([(gathered, flat)] if right_flat else []),
    ]
    return tuple(Mark(n, tape, flat, drop_at(tape) if drop_at else None) for n, (tape, flat) in enumerate(places))


def is_gathered(part: Part, ruler_mark: Length) -> bool:
    """True when a part is drawn up on its tape; False when it is flat but for what the ruler mark rounded up.

    False too while its flat width is not known.
    """
    flat, gathered = part.flat_made.value, part.gathered.value
    return flat is not None and gathered is not None and flat - gathered >= ruler_mark


def mark_figures(
    ledger: Ledger, part_id: str, gathered: Figure[Length], flat: Figure[Length], **ends: Figure[Length]
) -> Figure[int]:
    """Keep the number of parts and both spacings in the ledger; gives the number of parts.

    `ends` are `left_flat` and `right_flat`, see :func:`marks_of`. Ids: `part.ID.marks`, `part.ID.mark_spacing_tape`,
    `part.ID.mark_spacing_flat`. No value when no gathers are left.
    """
    id = f"part.{part_id}"
    parts = ledger.apply(PARTS, f"{id}.marks", gathered=gathered, **ends)
    ledger.apply(SPACING_TAPE, f"{id}.mark_spacing_tape", parts=parts, gathered=gathered, **ends)
    ledger.apply(SPACING_FLAT, f"{id}.mark_spacing_flat", parts=parts, flat=flat, **ends)
    return parts
