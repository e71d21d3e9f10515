"""File keys in the maker's words: `survey.section.left.drop.2` is `left section: drop in the middle`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from wizard.trade.bed import Obstacle, Section
from wizard.trade.job import Job
from wizard.trade.sections import End, at_the_end, section_name, side_of

_UNNAMED: Final = re.compile(r"length(?:-([0-9]+))?")
"""Ids of lengths that were added by their length alone."""

LEAVES: Final[dict[str, str]] = {
    "name": "name",
    "show": "unit to measure in",
    "ruler": "ruler mark",
    "standard": "usual values, inches or metric",
    "currency": "currency",
    "survey.rail": "what the rail is made of",
    "survey.rail_thickness": "rail thickness",
    "survey.slatted": "slats on a ledger inside the rail",
    "survey.floor": "what the floor is",
    "survey.floor_gap": "daylight wanted under the hem",
    "survey.raised": "drop line above the rail's lower edge",
    "survey.bed_size": "nominal bed size",
    "survey.taken_off": "how often the skirt comes off",
    "survey.watch": "what to watch about this bed",
    "survey.section": "a section to make",
    "allowances.join": "join seam",
    "allowances.end_hem": "end hem",
    "allowances.top": "top allowance",
    "allowances.squaring": "squaring the end",
    "allowances.least_piece": "least piece",
    "allowances.floor_tolerance": "tolerance of the floor",
    "allowances.run_tolerance": "tolerance of two run readings",
    "fullness.aim": "what sets the fullness",
    "fullness.want": "fullness wanted",
    "fullness.joins": "how the widths are joined",
    "fullness.surplus": "what is done with the surplus",
}
SECTION: Final[dict[str, str]] = {
    "on": "to be made or not",
    "name": "name",
    "side": "side of the bed",
    "rail": "what the rail is made of",
    "rail_thickness": "rail thickness",
    "hem_line": "level hem, or following the floor",
    "floor_gap": "daylight wanted under the hem",
    "raised": "drop line above the rail's lower edge",
    "fixing_face": "where the tape goes on the rail",
    "free_height": "free height below the ledger",
    "returns_flat": "returns left flat or gathered",
    "run": "run",
    "drop": "drop",
    "drop_at": "where the drops were read",
}
AT_AN_END: Final[dict[str, str]] = {
    "end": "what happens at {end}",
    "return": "return at {end}",
    "short": "how far short of the post, {end}",
    "post": "post at {end}",
    "daylight_top": "daylight at the top, {end}",
    "daylight_floor": "daylight at the floor, {end}",
    "hook": "hook plate at {end}",
}
OBSTACLE: Final[dict[str, str]] = {
    "name": "name",
    "kind": "what it is",
    "at": "where its middle is",
    "width": "width",
    "height": "height above the floor",
    "do": "what to do about it",
    "overlap": "how far the two parts lie over each other",
}
POST: Final[dict[str, str]] = {
    "along_side": "size along the side rail",
    "along_end": "size along the foot or head rail",
    "side_set_in": "side rail's set-in from the post's outer face",
    "end_set_in": "foot or head rail's set-in from the post's outer face",
    "may_fix": "may one fix into it",
    "turned": "turned or tapered",
}
CLOTH: Final[dict[str, str]] = {
    "use": "used or not",
    "name": "name",
    "kind": "kind of cloth",
    "weight": "weight",
    "width": "width",
    "trim": "selvedge trimmed off, each side",
    "one_way": "one-way nap or pattern",
    "sideways": "may lie sideways",
    "repeat": "pattern repeat",
    "repeat_kind": "straight repeat or half-drop",
    "match": "pattern matched or not",
    "match_from": "pattern level from hem or top",
    "lay": "across the roll or along it",
    "way": "way of cutting",
    "warp_shrink": "shrinkage along the roll",
    "weft_shrink": "shrinkage across the roll",
    "wash": "washed first or not",
    "sold_by": "unit it is sold by",
    "step": "shop's step",
    "price": "price",
    "hem": "depth of the hem",
    "hem_kind": "double or single hem",
    "hem_turn": "turn-under of the single hem",
    "setback": "setback below the face",
    "end_setback": "setback at the ends",
    "join": "seamed or lapped join",
    "lap": "lap of a join",
    "owned": "a length already owned",
    "turn_under": "turn-under at each end",
    "ratio": "thread for a length of seam",
    "waste": "thread waste",
    "spool": "thread on a spool",
    "spacing": "greatest spacing",
    "inset": "inset from an end",
    "legs": "legs that can be had",
    "pack": "how many in a pack",
}
OWNED: Final[dict[str, str]] = {
    "length": "length",
    "width": "width",
    "damage_from": "where the damage begins",
    "damage_to": "where the damage ends",
    "lot": "dye lot",
    "washed": "washed already or not",
}
ONLY_OF: Final[dict[str, str]] = {
    "fixing.kind": "what holds the skirt to the rail",
    "fixing.price": "price of a pack, or of what it is sold by",
    "thread.price": "price of a spool",
}
"""Leaves of `cloth` that are not said as those of a layer."""
PLACES: Final[dict[str, str]] = {"fixing": "fixings"}
"""Tables of `cloth` whose own name would not read well."""


def in_words(key: str, job: Job) -> str:
    """A file key as the maker would say it; a key that is not known comes back as it is."""
    if key in LEAVES:
        return LEAVES[key]
    match key.split("."):
        case ["survey", "section", section, *rest] if rest:
            return f"{section_name(job, section)}: {_in_section(job, section, rest)}"
        case ["survey", "post", post, leaf] if leaf in POST:
            return f"post {post}: {POST[leaf]}"
        case ["cloth", layer, "owned", owned, leaf] if leaf in OWNED:
            return f"{layer_in_words(layer)}, {owned_in_words(owned)}: {OWNED[leaf]}"
        case ["cloth", table, leaf] if f"{table}.{leaf}" in ONLY_OF:
            return f"{layer_in_words(table)}: {ONLY_OF[f'{table}.{leaf}']}"
        case ["cloth", layer, leaf, *_] if leaf in CLOTH:
            return f"{layer_in_words(layer)}: {CLOTH[leaf]}"
    return key


def owned_in_words(owned_id: str) -> str:
    """`own length “chest”`; one that was added without a name by its number: `own length 1`."""
    unnamed = _UNNAMED.fullmatch(owned_id)
    return f"own length {unnamed[1] or 1}" if unnamed else f"own length “{owned_id}”"


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
            return f"where the drop {_reading(section_id, section, number)} was read"
        case ["in_the_way", which, leaf] if leaf in OBSTACLE:
            thing = section.in_the_way.get(which, Obstacle())
            return f"{obstacle_name(which, thing)}: {OBSTACLE[leaf]}"
        case [leaf] if leaf in SECTION:
            return SECTION[leaf]
        case [leaf]:
            return _at_an_end(section_id, section, leaf)
    return ".".join(rest)


def _at_an_end(section_id: str, section: Section, leaf: str) -> str:
    side = side_of(section_id, section)
    end: End = "left" if leaf.startswith("left_") else "right"
    words = AT_AN_END.get(leaf.removeprefix(f"{end}_"))
    if leaf == f"{end}_return" and getattr(section, f"{end}_end") == "overlaps":
        words = "overlap at {end}"
    return leaf if words is None else words.format(end=at_the_end(side, end))


def _reading(section_id: str, section: Section, number: str) -> str:
    """Where a reading lies among the others: ends and middle by name, else by number from the left end."""
    count, side = max(len(section.drop), 3), side_of(section_id, section)
    if number == "1":
        return f"at {at_the_end(side, 'left')}"
    if number == str(count):
        return f"at {at_the_end(side, 'right')}"
    if number == str((count + 1) // 2) and count % 2:
        return "in the middle"
    return f"number {number} from {at_the_end(side, 'left')}"
