"""Two deeds wishing for one key: the wish that stands further down in the file gives way, and is told why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from msgspec import Struct

from wizard.screens.deeds import DEEDS, Deed
from wizard.screens.key_names import shown_key


class Wish(Struct, frozen=True):
    """What one line of the file gives."""

    deed: Deed
    line: int


def without_clashes(wishes: dict[str, Wish]) -> Iterator[tuple[int, str]]:
    """Takes out, last line first, every wish for a key that another deed of the same room has; says which."""
    while clash := _clash(wishes):
        loser, other, key = clash
        line = wishes.pop(loser.id).line
        yield (
            line,
            f"{shown_key(key)} is the key of {other.id} already, so {loser.id} keeps its usual one. "
            f"Give {other.id} another key too, or choose a free one, such as {_free(wishes)}.",
        )


def _clash(wishes: Mapping[str, Wish]) -> tuple[Deed, Deed, str] | None:
    """The wish furthest down that clashes, the deed it clashes with, and the key."""
    deeds = [wishes[each.id].deed if each.id in wishes else each for each in DEEDS]
    found: list[tuple[int, Deed, Deed, str]] = []
    for one, other in combinations(deeds, 2):
        shared = set(one.keys.split(",")) & set(other.keys.split(",")) - {""}
        if shared and _meet(one, other) and (one.id in wishes or other.id in wishes):
            lost, kept = sorted((one, other), key=lambda each: _line(each, wishes), reverse=True)
            found.append((_line(lost, wishes), lost, kept, min(shared)))
    return max(found, key=lambda each: each[0])[1:] if found else None


def _line(deed: Deed, wishes: Mapping[str, Wish]) -> int:
    return wishes[deed.id].line if deed.id in wishes else 0


def _meet(one: Deed, other: Deed) -> bool:
    """True when both can be done in one place: everything but the list of projects lies over the job."""
    rooms = {one.room, other.room}
    return "list" not in rooms or rooms <= {"list", "anywhere"}


def _free(wishes: Mapping[str, Wish]) -> str:
    taken = {key for each in DEEDS for key in (wishes[each.id].deed if each.id in wishes else each).keys.split(",")}
    offers = ("Shift+F1", "Shift+F2", "Shift+F3", "Shift+F4", "Shift+F5", "Shift+F6", "Shift+F7", "Shift+F8")
    return next((each for each in offers if each.casefold() not in taken), "Ctrl+B")
