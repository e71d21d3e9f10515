"""Drop readings beyond the third: each with its place, and taken out without leaving a hole."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from wizard.project.parse import read_length
from wizard.questions.given import Given
from wizard.trade.drops import LEAST_READINGS
from wizard.trade.figures import value_at
from wizard.trade.formatting import exact, ruler_of
from wizard.trade.lengths import Length
from wizard.trade.model import Job

_A_DROP: Final = re.compile(r"(survey\.section\.[^.]+)\.(?:drop|drop_at)\.([0-9]+)")


def further_reading(key: str) -> tuple[str, int] | None:
    """(table of the section, number) of a drop reading, or its place, beyond the three that are always taken."""
    match = _A_DROP.fullmatch(key)
    return (match[1], int(match[2])) if match and int(match[2]) > LEAST_READINGS else None


def names(table: str, number: int) -> tuple[str, str]:
    """The keys of a reading and of its place."""
    return f"{table}.drop.{number}", f"{table}.drop_at.{number}"


def places_before(table: str, job: Job) -> Mapping[str, str]:
    """The places of the readings so far, said outright: one more would otherwise move them."""
    drops = value_at(job, f"{table}.drop") or ()
    run: Length | None = value_at(job, f"{table}.run.1")
    if run is None or len(drops) < 2:
        return {}
    unit, gaps = ruler_of(job).unit, len(drops) - 1
    unsaid = (number for number in range(len(drops)) if value_at(job, f"{table}.drop_at.{number + 1}") is None)
    return {f"{table}.drop_at.{number + 1}": exact(run * Fraction(number, gaps), unit) for number in unsaid}


def without(table: str, number: int, given: Given) -> Mapping[str, object]:
    """A reading and its place taken out, those behind it moved up."""
    return {f"{table}.{leaf}": _left(f"{table}.{leaf}", number, given) for leaf in ("drop", "drop_at")}


def in_order(key: str, text: str, job: Job, given: Given) -> Mapping[str, object]:
    """Every reading in the order of its place, once the place at `key` is `text`; only that while others are unsaid."""
    table, leaf, number = key.rsplit(".", 2)
    drops: tuple[Length | None, ...] = value_at(job, f"{table}.drop") or ()
    texts = {each: given.get(f"{table}.{leaf}.{each}", "") for each in range(1, len(drops) + 1)} | {int(number): text}
    unusable = any(f"{table}.{leaf}.{each}" in job.unusable for each in texts if each != int(number))
    if len(texts) > len(drops) or not all(texts.values()) or unusable:
        return {key: text}
    order = sorted(texts, key=lambda each: read_length(texts[each], None, zero=True))
    return {
        f"{table}.drop": [given.get(f"{table}.drop.{each}", "") for each in order],
        f"{table}.{leaf}": [texts[each] for each in order],
    }


def _left(key: str, number: int, given: Given) -> list[str] | None:
    count = max((int(each.rpartition(".")[2]) for each in given if each.startswith(key + ".")), default=0)
    items = [given.get(f"{key}.{each}", "") for each in range(1, count + 1) if each != number]
    return items or None
