"""File keys in the maker's words: `survey.section.left.drop.2` is `left section: drop in the middle`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any, Final

from wizard.trade.fields import bare, field_in, fields_of, is_table, type_at
from wizard.trade.job_fields import Cloths, Job, Obstacle, Owned, Post, Section
from wizard.trade.sections import ENDS, End, at_the_end, section_name, side_of

_UNNAMED: Final = re.compile(r"length(?:-([0-9]+))?")
"""Ids of lengths that were added by their length alone."""

PLACES: Final[dict[str, str]] = {"fixing": "fixings"}
"""Tables of `cloth` whose own name would not read well."""


def in_words(key: str, job: Job) -> str:
    """A file key as the maker would say it; a key that is not known comes back unchanged."""
    match key.split("."):
        case ["survey", "section", section, *rest] if rest:
            return f"{section_name(job, section)}: {_in_section(job, section, rest)}"
        case ["survey", "post", post, leaf] if words := _words(Post, leaf):
            return f"post {post}: {words}"
        case ["cloth", layer, "owned", owned, leaf] if words := _words(Owned, leaf):
            return f"{layer_in_words(layer)}, {owned_in_words(owned)}: {words}"
        case ["cloth", table, leaf, *_] if words := _words(bare(fields_of(Cloths).get(table)), leaf):
            return f"{layer_in_words(table)}: {words}"
        case [*above, leaf]:
            return _words(type_at(Job, tuple(above)), leaf) or key
    return key


def _words(kind: Any, leaf: str) -> str:
    """The name of a field of a record, as it is declared; empty where it has none."""
    declared = field_in(bare(kind), leaf) if is_table(bare(kind)) else None
    return "" if declared is None else declared.words


def owned_in_words(owned_id: str) -> str:
    """`your length “chest”`; one that was added without a name by its number: `your length 1`."""
    unnamed = _UNNAMED.fullmatch(owned_id)
    return f"your length {unnamed[1] or 1}" if unnamed else f"your length “{owned_id}”"


def first_up(words: str) -> str:
    """The first letter a capital, the others as they are."""
    return words[:1].upper() + words[1:]


def layer_in_words(layer: str) -> str:
    """`face cloth`, `interlining`, `lining`; the other tables of `cloth` by their own names."""
    return "face cloth" if layer == "face" else PLACES.get(layer, layer)


def obstacle_name(obstacle_id: str, obstacle: Obstacle) -> str:
    """As the maker named it, else what it is, else its id."""
    return obstacle.name or obstacle.kind or obstacle_id


def _in_section(job: Job, section_id: str, rest: Sequence[str]) -> str:
    section = job.survey.section.get(section_id, Section())
    match rest:
        case ["run", number]:
            return "run near the floor" if number == "2" else "run at the rail"
        case ["drop", number]:
            return f"drop {_reading(section_id, section, number)}"
        case ["drop_at", number]:
            return f"place of the drop {_reading(section_id, section, number)}"
        case ["in_the_way", which, leaf] if words := _words(Obstacle, leaf):
            return f"{obstacle_name(which, section.in_the_way.get(which, Obstacle()))}: {words}"
        case [leaf]:
            return _words_of_section(section_id, section, leaf) or leaf
    return ".".join(rest)


def _words_of_section(section_id: str, section: Section, leaf: str) -> str:
    end: End = "left" if leaf.startswith("left_") else "right"
    overlaps = leaf == f"{end}_return" and (section.left_end if end == "left" else section.right_end) == "overlaps"
    words = "overlap at {end}" if overlaps else _words(Section, leaf)
    return words.format(end=at_the_end(side_of(section_id, section), end))


def _reading(section_id: str, section: Section, number: str) -> str:
    """Where a reading lies among the others: ends and middle by name, else by number from the left end."""
    count, side = max(len(section.drop), 3), side_of(section_id, section)
    first, last = (at_the_end(side, end) for end in ENDS)
    middle = {str((count + 1) // 2): "in the middle"} if count % 2 else {}
    named = {**middle, "1": f"at {first}", str(count): f"at {last}"}
    return named.get(number, f"number {number} from {first}")
