"""Surprising sizes are asked about again, never refused; usual ones raise nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import everything, inches, small, with_face
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Job, Owned, Post
from wizard.trade.plan import Finding


def asked(job: Job) -> dict[str, Finding]:
    found = [each for each in make_plan(job).findings if each.id.startswith("size:")]
    assert all(each.level == "ask" for each in found)
    return {each.key: each for each in found}


def with_rail(length: Length) -> Job:
    job = small()
    return replace(job, survey=replace(job.survey, rail_thickness=length))


def test_usual_sizes_raise_nothing() -> None:
    assert asked(small()) == {}
    assert asked(everything()) == {}
    assert asked(replace(small(), standard="metric")) == {}


def test_a_surprising_size_is_asked_about_with_what_is_usual_and_the_plan_goes_on() -> None:
    job = with_rail(inches(40))
    (finding,) = asked(job).values()
    assert finding.key == "survey.rail_thickness"
    assert_says(finding, "size")
    assert make_plan(job).complete


@pytest.mark.parametrize("size", ["1/16", "4"])
def test_the_bounds_themselves_are_usual(size: str) -> None:
    assert asked(with_rail(inches(size))) == {}


def test_a_length_typed_in_the_other_system_is_said_in_it() -> None:
    job = with_rail(Length.of(255, "cm") / 10)
    assert "25.5 cm" in asked(job)["survey.rail_thickness"].sentence


MARK = inches("1/16")
USUAL = {
    "allowances.end_hem": ("0", "4"),
    "allowances.join": ("1/8", "2"),
    "allowances.squaring": ("0", "12"),
    "allowances.top": ("0", "4"),
    "cloth.face.hem": ("0", "6"),
    "cloth.face.hem_turn": ("0", "2"),
    "cloth.face.lap": ("0", "3"),
    "cloth.face.owned.bolt.length": ("6", "3600"),
    "cloth.face.owned.bolt.width": ("6", "130"),
    "cloth.face.repeat": ("0", "40"),
    "cloth.face.trim": ("0", "4"),
    "cloth.face.width": ("18", "130"),
    "cloth.fixing.inset": ("0", "6"),
    "cloth.fixing.spacing": ("1/2", "12"),
    "cloth.tape.turn_under": ("0", "6"),
    "cloth.tape.width": ("1/2", "6"),
    "survey.post.foot-left.along_end": ("1/2", "12"),
    "survey.post.foot-left.along_side": ("1/2", "12"),
    "survey.post.foot-left.end_set_in": ("0", "6"),
    "survey.post.foot-left.side_set_in": ("0", "6"),
    "survey.rail_thickness": ("1/16", "4"),
    "survey.section.left.left_return": ("1/2", "12"),
    "survey.section.left.left_short": ("1/2", "60"),
    "survey.section.left.raised": ("0", "6"),
}
"""Key -> the least and the greatest size that is not asked about again. Common practice, no source."""


def with_size(table: Any, path: str, size: Length) -> Any:
    """The table with a size at its dotted path."""
    name, _, rest = path.partition(".")
    old = table[name] if isinstance(table, Mapping) else getattr(table, name)
    new = with_size(old, rest, size) if rest else size
    return {**table, name: new} if isinstance(table, Mapping) else replace(table, **{name: new})


def job_with(key: str, size: Length) -> Job:
    """A job with a post and a length in hand, and one size as given."""
    job = with_face(small(), owned={"bolt": Owned(length=inches(90), width=inches(50))})
    job = replace(job, survey=replace(job.survey, post={"foot-left": Post()}))
    sized: Job = with_size(job, key, size)
    return sized


@pytest.mark.parametrize("key", USUAL)
def test_a_size_is_asked_about_from_the_first_mark_beyond_what_is_usual(key: str) -> None:
    least, most = map(inches, USUAL[key])
    usual = [least, most] if least else [most]
    beyond = [least - MARK, most + MARK] if least else [most + MARK]
    assert [key in asked(job_with(key, size)) for size in usual] == [False] * len(usual)
    assert [key in asked(job_with(key, size)) for size in beyond] == [True] * len(beyond)
