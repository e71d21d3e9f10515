"""Answers that go to several keys of the file at once: what they read as, and what they put in.

Every key keeps its own meaning; a compound is only how it is asked: one tick list for all sides, one return for all
corners, one list for the ways of cutting.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from typing import Any, Final

from msgspec import Struct

from wizard.interview.answer_text import as_typed, limits_for
from wizard.interview.question import Kind
from wizard.project.encode import plain_value
from wizard.project.parse.field_values import value_within
from wizard.project.parse.misread import Misread, quoted
from wizard.project.project import Project
from wizard.trade.figures import value_at
from wizard.trade.formatting import ruler_of
from wizard.trade.fullness import ALL_OWNED
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.sections import End, goes_on, side_of

Keys = Sequence[str]
Entries = dict[str, object]


class Compound(Struct, frozen=True):
    """One way in which several keys make one answer."""

    read: Callable[[Keys, Project], str | None]
    """The answer as one would type it; None while it is not given."""
    entries: Callable[[Keys, Any, Project], Entries]
    """What an answer puts into the file: a value that was picked, or text. Raises Misread for text that is none."""
    kind: Kind | None = None
    """How it is answered; None where by the declaration of its field."""


def text_at(key: str, project: Project) -> str | None:
    """What the file has at a key, as text; None for nothing."""
    value = value_at(project, key)
    return None if value is None else as_typed(plain_value(value))


def _same(keys: Keys, project: Project) -> str | None:
    """The value of all of them; of the first where they differ; None while one is missing."""
    given = [text_at(key, project) for key in keys]
    return None if None in given else given[0]


def _named(key: str) -> str:
    """What a tick stands for: `left` of `survey.section.left.on`."""
    return key.split(".")[-2]


def _ticked(keys: Keys, project: Project) -> str | None:
    values = {key: value_at(project, key) for key in keys}
    for key in keys:
        if key.endswith(".on") and values[key] is None and _named(key) in project.survey.section:
            values[key] = True
    said = keys[0].endswith(".turned") and project.progress.turned_posts is not None
    if not said and all(each is None for each in values.values()):
        return None
    return ", ".join(_named(key) for key in keys if values[key]) or "none"


def _one_of(offered: Collection[str], *values: str) -> None:
    """Raises Misread for a value that is none of those."""
    for each in values:
        if each not in offered:
            raise Misread(f"{quoted(each)} is not one of the choices.", next(iter(offered)))


def _tick(keys: Keys, ticked: Sequence[str], project: Project) -> Entries:
    _one_of([_named(each) for each in keys], *ticked)
    entries: Entries = {key: _named(key) in ticked for key in keys}
    if not keys[0].endswith(".turned"):
        return entries
    return {"progress.turned_posts": bool(ticked), **(entries if ticked else dict.fromkeys(keys))}


def _surface(keys: Keys, project: Project) -> str | None:
    one_way, repeat, kind = (value_at(project, key) for key in keys)
    # One that is not taken stays what it is: a repeat that is still to be measured.
    patterned = repeat > ZERO if isinstance(repeat, Length) else (repeat or kind) is not None
    if not patterned and (one_way is None or repeat is None):
        return None
    plain, nap = ("patterned", "one-way pattern") if patterned else ("plain", "one-way")
    return nap if one_way else plain


def _of_surface(keys: Keys, value: str, project: Project) -> Entries:
    _one_of(("plain", "one-way", "patterned", "one-way pattern"), value)
    one_way, repeat, kind = keys
    if value in ("plain", "one-way"):
        return {one_way: value == "one-way", repeat: f"0 {'cm' if project.is_metric else 'in'}"}
    # How long the repeat is comes next; until then its kind says that there is one.
    known = value_at(project, repeat)
    entries: Entries = {one_way: value == "one-way pattern", kind: value_at(project, kind) or "straight"}
    return entries if isinstance(known, Length) and known > ZERO else {**entries, repeat: None}


_TURNS_IN: Final = {
    "stop": ("stops", "stops"),
    "sides": ("returns", "stops"),
    "across": ("stops", "returns"),
    "turn in": ("returns", "returns"),
    "overlap": ("overlaps", "stops"),
}
"""What the ends do at a corner -> what the side sections do there, and what those at foot or head do; where two of one
side meet, the one with its right end there, and the other."""

UNLIKE: Final = "unlike"
"""Read where the ends do none of these together; taken again it leaves them as they are."""


def _comes_first(key: str, keys: Keys, job: Job) -> bool:
    """True for the end of a side section; where two of one side meet, for the right end."""
    ends: dict[str, End] = {each: "right" if each.endswith("right_end") else "left" for each in keys}
    if all(goes_on(job.survey, _named(each), end) for each, end in ends.items()):
        return ends[key] == "right"
    return side_of(_named(key), job.survey.section.get(_named(key), Section())) in ("left", "right")


def _corner_values(keys: Keys, value: str, project: Project) -> dict[str, str]:
    first, second = _TURNS_IN[value]
    return {key: first if _comes_first(key, keys, project) else second for key in keys}


def _corner(keys: Keys, project: Project) -> str | None:
    given = {key: value_at(project, key) for key in keys}
    if None in given.values():
        return None
    return next((each for each in _TURNS_IN if _corner_values(keys, each, project) == given), UNLIKE)


def _of_corner(keys: Keys, value: str, project: Project) -> Entries:
    _one_of((*_TURNS_IN, UNLIKE), value)
    return {} if value == UNLIKE else dict(_corner_values(keys, value, project))


def _shrinkage(keys: Keys, project: Project) -> str | None:
    along, across = (text_at(key, project) for key in keys)
    return None if along is None or across is None else f"{along} x {across}"


def _of_shrinkage(keys: Keys, text: str, project: Project) -> Entries:
    parts = re.split(r"\s*(?:[x×]|\bby\b|,)\s*", text.strip(), flags=re.IGNORECASE)
    if len(parts) != len(keys):
        raise Misread("Give both: how much it shrinks along the roll, then across it.", "3 x 1 %")
    return _within(keys, parts, project)


def _within(keys: Keys, parts: Sequence[str], project: Project) -> Entries:
    unit, each_with_limits = ruler_of(project).unit, zip(keys, map(limits_for, keys), parts, strict=False)
    return {key: value_within(limits, part, unit).text for key, limits, part in each_with_limits if limits is not None}


def _legs(keys: Keys, project: Project) -> str | None:
    given = [text for key in keys if (text := text_at(key, project)) is not None]
    return ", ".join(given) or None


def _of_legs(keys: Keys, text: str, project: Project) -> Entries:
    parts = [each for each in re.split(r"[,;+]", text) if each.strip()]
    table = keys[0].rpartition(".")[0]
    if len(parts) > len(keys):
        raise Misread(f"Name at most {len(keys)} legs.", "1/4 in, 3/8 in")
    return {table: list(_within(keys, parts, project).values()) or None}


def _fullness(keys: Keys, project: Project) -> str | None:
    aim, want = (text_at(key, project) for key in keys)
    return aim if aim == ALL_OWNED else want


def _of_fullness(keys: Keys, text: str, project: Project) -> Entries:
    aim, want = keys
    if text.strip().casefold() in ("all", "all the cloth you have", "all the cloth i have", ALL_OWNED.casefold()):
        return {aim: ALL_OWNED}
    number = _within((want,), (text,), project)
    return {**number, aim: "a number"} if project.cloth.face.owned or project.fullness.aim else number


_WAYS: Final = {
    "least cloth": ("part widths", "across", "least cloth"),
    "fewest joins": ("part widths", "across", "fewest joins"),
    "slit": ("part widths", "across", "slit"),
    "stacked": ("part widths", "across", "stacked"),
    "half widths": ("half widths", "across", None),
    "whole widths": ("whole widths", "across", None),
    "along": ("part widths", "along", "least cloth"),
    "along, fewest joins": ("part widths", "along", "fewest joins"),
}
"""Way of cutting -> how widths are joined, how the cloth lies, which plan; None for the usual one."""


def _way(keys: Keys, project: Project) -> str | None:
    joins, lay, way = (value_at(project, key) for key in keys)
    if joins is None and lay is None and way is None:
        return None
    if lay == "along":
        return "along, fewest joins" if way == "fewest joins" else "along"
    return joins if joins in ("half widths", "whole widths") else way or "least cloth"


def _of_way(keys: Keys, value: str, project: Project) -> Entries:
    _one_of(_WAYS, value)
    return dict(zip(keys, _WAYS[value], strict=True))


COMPOUNDS: Final = {
    "same": Compound(_same, lambda keys, value, project: dict.fromkeys(keys, value)),
    "ticks": Compound(_ticked, _tick, "choices"),
    "surface": Compound(_surface, _of_surface, "choice"),
    "corner": Compound(_corner, _of_corner, "choice"),
    "shrinkage": Compound(_shrinkage, _of_shrinkage, "text"),
    "legs": Compound(_legs, _of_legs, "text"),
    "fullness": Compound(_fullness, _of_fullness, "text"),
    "ways": Compound(_way, _of_way, "choice"),
}
