"""A sample of `tests.endurance.fuzz`: what is typed at every kind of field, and files at and beyond their limits."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.endurance.fuzz import FIELDS, PAPER, check_file, type_at, within
from wizard.project.parse.field_values import shape_of, value_within
from wizard.project.plans import job_of
from wizard.project.project import Project
from wizard.project.reading import read
from wizard.render.formats import Request, render
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Owned


def test_what_is_typed_is_within_its_limits_or_refused_with_a_sentence_and_offers_that_are_taken() -> None:
    met: Counter[str] = Counter()
    assert [wrong for seed in range(1500) if (wrong := type_at(seed, met))] == []
    assert min(met["taken"], met["asked about"] * 5, met["refused"]) > 100


def test_a_damaged_file_or_one_at_its_limits_is_checked_in_bounded_time(tmp_path: Path) -> None:
    met: Counter[str] = Counter()
    assert [wrong for seed in range(25) if (wrong := check_file(tmp_path / "job.toml", seed, met))] == []
    assert met["BAD_FILE"]
    assert met["FOUND"]


def test_every_kind_of_field_takes_its_limits_and_its_examples_and_says_them_in_its_schema() -> None:
    for limits in FIELDS.values():
        for scale in limits.scales:
            for text in (scale.least, scale.most, scale.example):
                assert (limits.none is None and text.startswith("0 ")) or value_within(limits, text).text == text
        assert len(limits.scales) == (2 if limits.kind == "length" else 1)
        shape = shape_of(limits)
        assert shape["examples"] == [each.example for each in limits.scales]
        assert all(each.most in shape["description"] for each in limits.scales)


@pytest.mark.parametrize("repeat", [Length(Fraction(1, 1_000_000)), Length(100_000_000)], ids=["tiny", "huge"])
def test_no_loop_counts_through_what_a_repeat_beyond_any_limit_divides(repeat: Length) -> None:
    demo = read(Path("projects/demo-gannet-stair.toml").read_bytes())
    assert isinstance(demo, Project)
    job = job_of(demo)
    owned = {"length": Owned(length=Length(60), washed=True)}
    face = replace(job.cloth.face, repeat=repeat, match=True, lay="across", owned=owned)
    with within(PAPER):
        plan = make_plan(replace(job, cloth=replace(job.cloth, face=face)))
        assert plan.layers[0].cutting is not None
        assert render(plan, Request("html"))
