"""Sections become parts: what is sewn and hung as one. A thing in the way may split a section in two that overlap."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.bed import Obstacle, Section, Side
from wizard.trade.corners import FROM_RIGHT, End, end_in_words, section_name, sections_on, side_of
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.lengths import ZERO, Length

RAIL_RUN = Rule("run", "{run}", "A gathered section takes the rail reading: it makes the top.")
FLAT_RUN = Rule(
    "run of a flat section", "shorter of {at the rail}, {near the floor}",
    "A flat section has nothing to give: it must fit where the opening is narrowest.",
)  # fmt: skip
FROM_THE_RIGHT = Rule("place of a split", "{run} − {at}", "It was read from the other end of the section.")
FROM_THE_LEFT = Rule("place of a split", "{at}", "It was read from this end of the section.")
SPLIT_START = Rule(
    "start of a part", "{split} − {overlap} ÷ 2", "Of the overlap half lies on either side of the split."
)
SPLIT_END = Rule("end of a part", "{split} + {overlap} ÷ 2", "Of the overlap half lies on either side of the split.")
PART_RUN = Rule("run of a part", "{end} − {start}", "A split section is made as parts that lie over each other.")
WHOLE = Rule("whole section", "{value}", "Nothing splits the section here.")
STOPS_SHORT = Rule(
    "end that stops short of a post", "0, {short} from the post", "It ends before the post and takes no extra cloth."
)
STOPS = Rule("end of a section", "{value}", "The section stops at this end: it takes no extra cloth.")


class Span(Struct, frozen=True):
    """A part before it is gathered: where it begins and ends along its section's run."""

    id: str
    section_id: str
    section: Section
    name: str
    side: Side | None
    run: Figure[Length]
    ends: tuple[Figure[Length], Figure[Length]] | None
    """(start, end) from the section's left end, for a part of a split section."""
    left_extra: Figure[Length]
    right_extra: Figure[Length]
    left_is: str
    right_is: str


def spans_of(ledger: Ledger) -> tuple[tuple[Span, ...], ...]:
    """For each section to be made, its parts from left to right, seen from the room."""
    return tuple(tuple(_parts(ledger, each, section)) for each, section in sections_on(ledger.job))


def run_of(ledger: Ledger, section_id: str) -> Figure[Length]:
    """The run a section is made to: the rail reading, or the shorter of the two for a flat section."""
    key, rule = f"survey.section.{section_id}.run", RAIL_RUN
    rail, floor = ledger.read(f"{key}.1"), ledger.read(f"{key}.2")
    id, title = f"section.{section_id}.run", "run"
    if ledger.job.fullness.want == 1 and ledger.job.fullness.aim != "all the cloth I own":
        named = {"at the rail": rail, "near the floor": floor}
        return ledger.work(id, title, FLAT_RUN, lambda **runs: min(runs.values()), **named)
    return ledger.work(id, title, rule, lambda run: run, run=rail)


def _parts(ledger: Ledger, section_id: str, section: Section) -> Iterator[Span]:
    """One span for a whole section, one more for every split."""
    run, side = run_of(ledger, section_id), side_of(section_id, section)
    if section.side is None and side is None:
        ledger.read(f"survey.section.{section_id}.side")
    splits = _splits(ledger, section_id, section, run, side)
    for number in range(1, len(splits) + 2):
        left, right = splits[number - 2] if number > 1 else None, splits[number - 1] if number <= len(splits) else None
        yield _span(ledger, (section_id, section, side), run, number, left, right)


Split = tuple[Figure[Length], Figure[Length]]
"""Where the right part starts and where the left part ends."""


def _span(
    ledger: Ledger,
    of: tuple[str, Section, Side | None],
    run: Figure[Length],
    number: int,
    left: Split | None,
    right: Split | None,
) -> Span:
    section_id, section, side = of
    split = left is not None or right is not None
    id, name = (f"{section_id}/{number}" if split else section_id), section_name(ledger.job, section_id)
    ends = None
    if split:
        nothing = Figure(f"part.{id}.start", "start", ZERO, run.needs, WHOLE)
        ends = (left[0] if left else ledger.keep(nothing), right[1] if right else run)
    return Span(
        id=id,
        section_id=section_id,
        section=section,
        name=f"{name}, part {number}" if split else name,
        side=side,
        run=_part_run(ledger, id, run, ends),
        ends=ends,
        left_extra=_none(ledger, id, "left") if left else _extra(ledger, id, section_id, section, "left"),
        right_extra=_none(ledger, id, "right") if right else _extra(ledger, id, section_id, section, "right"),
        left_is="split" if left else end_in_words(side, "left"),
        right_is="split" if right else end_in_words(side, "right"),
    )


def _part_run(
    ledger: Ledger, id: str, run: Figure[Length], ends: tuple[Figure[Length], Figure[Length]] | None
) -> Figure[Length]:
    if ends is None:
        return ledger.work(f"part.{id}.run", "run", WHOLE, lambda value: value, value=run)
    start, end = ends
    return ledger.work(f"part.{id}.run", "run", PART_RUN, _between, end=end, start=start)


def _between(end: Length, start: Length) -> Length | None:
    """None when the split lies outside the run: a finding says so."""
    return end - start if ZERO <= start < end else None


def _extra(ledger: Ledger, id: str, section_id: str, section: Section, end: End) -> Figure[Length]:
    """Extra cloth at an end of the section: behind the post, over the next section, or none."""
    key = f"survey.section.{section_id}"
    kind = ledger.read(f"{key}.{end}_end")
    if kind.value is None:
        return Figure(f"part.{id}.{end}_extra", kind.title, None, kind.needs, STOPS)
    if kind.value == "stops short":
        short = ledger.read(f"{key}.{end}_short")
        return ledger.work(
            f"part.{id}.{end}_extra", f"extra cloth at the {end} end", STOPS_SHORT, lambda short: ZERO, short=short
        )
    return _none(ledger, id, end) if kind.value == "stops" else ledger.read(f"{key}.{end}_return")


def _none(ledger: Ledger, id: str, end: End) -> Figure[Length]:
    return ledger.keep(Figure(f"part.{id}.{end}_extra", f"extra cloth at the {end} end", ZERO, (), STOPS))


def splits_asked(section: Section) -> tuple[tuple[str, Obstacle], ...]:
    """The things in the way at which the section is to be split."""
    return tuple((each, thing) for each, thing in section.in_the_way.items() if thing.do == "split here")


def _splits(
    ledger: Ledger, section_id: str, section: Section, run: Figure[Length], side: Side | None
) -> tuple[Split, ...]:
    """Every split, from the section's left end on; those whose place is not known yet come last."""
    made = [_split(ledger, section_id, each, run, side) for each, _ in splits_asked(section)]
    return tuple(sorted(made, key=lambda split: (split[0].value is None, split[0].value or ZERO)))


def _split(ledger: Ledger, section_id: str, thing: str, run: Figure[Length], side: Side | None) -> Split:
    key = f"survey.section.{section_id}.in_the_way.{thing}"
    split = place_along(ledger, section_id, thing, run, side)
    overlap = ledger.read(f"{key}.overlap")
    start = ledger.work(
        f"section.{section_id}.{thing}.start", "start of the part", SPLIT_START,
        lambda split, overlap: split - overlap / 2, split=split, overlap=overlap,
    )  # fmt: skip
    end = ledger.work(
        f"section.{section_id}.{thing}.end", "end of the part", SPLIT_END,
        lambda split, overlap: split + overlap / 2, split=split, overlap=overlap,
    )  # fmt: skip
    return start, end


def place_along(ledger: Ledger, section_id: str, thing: str, run: Figure[Length], side: Side | None) -> Figure[Length]:
    """Middle of a thing in the way, from the section's left end. It was read from the head or the bed's left."""
    at = ledger.read(f"survey.section.{section_id}.in_the_way.{thing}.at")
    id, title = f"section.{section_id}.{thing}.place", "place along the section"
    if side in FROM_RIGHT:
        return ledger.work(id, title, FROM_THE_RIGHT, lambda run, at: run - at, run=run, at=at)
    return ledger.work(id, title, FROM_THE_LEFT, lambda at: at, at=at)
