"""Surprising sizes are asked about again, never refused; usual ones raise nothing."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import everything, inches, small
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Job


def sentences(job: Job) -> dict[str, str]:
    found = [each for each in make_plan(job).findings if each.id.startswith("size:")]
    assert all(each.level == "ask" for each in found)
    return {each.key: f"{each.sentence} {each.way_out}" for each in found}


def with_rail(length: Length) -> Job:
    job = small()
    return replace(job, survey=replace(job.survey, rail_thickness=length))


def test_usual_sizes_raise_nothing() -> None:
    assert sentences(small()) == {}
    assert sentences(everything()) == {}
    assert sentences(replace(small(), standard="metric")) == {}


def test_a_surprising_size_is_asked_about_with_what_is_usual_and_the_plan_goes_on() -> None:
    job = with_rail(inches(40))
    assert sentences(job) == {
        "survey.rail_thickness": "Rail thickness: 40 in is surprisingly much. Read it again, and its unit. It is "
        "hardly ever anything but from 1/16 in to 4 in; if it stands, keep it."
    }
    assert make_plan(job).complete


@pytest.mark.parametrize("size", ["1/16", "4"])
def test_the_bounds_themselves_are_usual(size: str) -> None:
    assert sentences(with_rail(inches(size))) == {}


def test_a_length_typed_in_the_other_system_is_said_in_it() -> None:
    job = with_rail(Length.of(255, "cm") / 10)
    assert "Rail thickness: 25.5 cm is surprisingly much." in sentences(job)["survey.rail_thickness"]
