"""Parts: a section is made whole, or split at something in the way."""

from __future__ import annotations

from fractions import Fraction

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import inches, section, small, with_section
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Obstacle
from wizard.trade.plan import Plan

LEG = Obstacle(kind="centre leg", at=inches(30), width=inches(3), do="split here", overlap=inches(2))


def split(side: str, **more: object) -> Plan:
    job = small()
    one = replace(section(76, 12, in_the_way={"leg": LEG}), **more)
    return make_plan(replace(job, survey=replace(job.survey, section={side: one})))


def test_a_split_section_is_made_as_two_parts_that_lie_over_each_other() -> None:
    plan = split("left")
    assert [part.id for part in plan.parts] == ["left/1", "left/2"]
    assert [part.run.value for part in plan.parts] == [inches(31), inches(47)]


def test_a_part_has_the_readings_that_lie_on_it_from_its_own_end() -> None:
    # By hand: 11, 11 3/4 and 12 in at 0, 38 and 76 in; the parts run from 0 to 31 and from 29 to 76 in. At 31 in the
    # floor lies 11 + 3/4 x 31/38 in below the rail, at 29 in 11 + 3/4 x 29/38 in.
    drops = (inches(11), inches("11 3/4"), inches(12))
    first, second = split("left", drop=drops, hem_line="follow the floor").parts
    at_31, at_29 = (inches(11) + inches("3/4") * Fraction(place, 38) for place in (31, 29))
    assert [(each.at, each.reading, each.between) for each in first.readings] == [
        (inches(0), inches(11), False), (inches(31), at_31, True),
    ]  # fmt: skip
    assert [(each.at, each.reading, each.between) for each in second.readings] == [
        (inches(0), at_29, True), (inches(9), inches("11 3/4"), False), (inches(47), inches(12), False),
    ]  # fmt: skip
    assert [part.drop.value for part in (first, second)] == [max(each.finished for each in part.readings)
                                                            for part in (first, second)]  # fmt: skip


def test_a_level_hem_shows_at_the_end_of_a_part_the_daylight_of_the_floor_there() -> None:
    drops = (inches(11), inches("11 3/4"), inches(12))
    first, _ = split("left", drop=drops, hem_line="level").parts
    assert {each.finished for each in first.readings} == {first.drop.value}
    assert first.readings[-1].gap - first.readings[0].gap == inches("3/4") * Fraction(31, 38)


def test_a_split_is_read_from_the_head_so_on_the_right_it_counts_from_the_other_end() -> None:
    assert [part.run.value for part in split("right").parts] == [inches(47), inches(31)]


def test_a_split_on_the_foot_is_read_from_the_beds_left() -> None:
    assert [part.run.value for part in split("foot").parts] == [inches(31), inches(47)]
    assert [part.run.value for part in split("head").parts] == [inches(47), inches(31)]


def test_a_split_keeps_the_returns_at_the_ends_of_the_section() -> None:
    plan = split("left", left_end="returns", left_return=inches(1), right_end="overlaps", right_return=inches(3))
    assert [part.gathered.value for part in plan.parts] == [inches(32), inches(50)]
    assert [(part.left_is, part.right_is) for part in plan.parts] == [("head end", "split"), ("split", "foot end")]


def test_a_part_that_follows_the_floor_is_cut_at_its_own_greatest_drop() -> None:
    job = small()
    fallen = section(76, 10, 11, 12, hem_line="follow the floor", in_the_way={"leg": replace(LEG, at=inches(38))})
    plan = make_plan(replace(job, survey=replace(job.survey, section={"left": fallen})))
    # the first part ends at 39 in, one inch beyond the middle reading: 11 in + 1 in over 38 in
    assert plan.parts[0].drop.value == inches(11) + inches(1) / 38
    assert plan.parts[1].drop.value == inches(12)


def test_a_split_that_leaves_a_part_without_length_stops_the_plan_and_says_so() -> None:
    plan = make_plan(with_section(small(), "left", in_the_way={"leg": replace(LEG, at=inches("1/2"))}))
    assert "split-outside:left" in {each.id for each in plan.findings if each.level == "stop"}
    assert not plan.complete


@pytest.mark.parametrize("leaf", ["at", "overlap"])
def test_a_split_that_is_not_all_known_names_what_it_waits_for(leaf: str) -> None:
    plan = make_plan(with_section(small(), "left", in_the_way={"leg": replace(LEG, **{leaf: None})}))
    assert [need.key for need in plan.missing] == [f"survey.section.left.in_the_way.leg.{leaf}"]


def test_parts_come_in_the_order_left_foot_right_head_then_as_entered() -> None:
    job = small()
    sections = {each: section(50, 12, side=side) for each, side in
                {"bay": None, "head": "head", "a": "right", "foot": "foot", "b": "left"}.items()}  # fmt: skip
    plan = make_plan(replace(job, survey=replace(job.survey, section=sections)))
    assert [part.id for part in plan.parts] == ["b", "foot", "a", "head", "bay"]
    assert [need.key for need in plan.missing] == ["survey.section.bay.side"]


def test_a_section_switched_off_takes_no_part() -> None:
    plan = make_plan(with_section(small(), "foot", on=False))
    assert [part.id for part in plan.parts] == ["left", "right"]


def test_all_sections_switched_off_want_a_section() -> None:
    job = small()
    for each in job.survey.section:
        job = with_section(job, each, on=False)
    assert "survey.section" in {need.key for need in make_plan(job).missing}
