"""Drops: from readings to the finished drop, level or along the floor."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from tests.trade.sample_jobs import inches, section, small, with_section
from wizard.trade.drops_and_cut_lengths import Line
from wizard.trade.job_fields import Job
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Part, Plan


def uneven(**more: object) -> Job:
    """The left floor falls by an inch towards the foot, 1/8 in of daylight is wanted."""
    job = with_section(small(), "left", drop=(inches(11), inches("11 3/4"), inches(12)), **more)
    return replace(job, survey=replace(job.survey, floor_gap=inches("1/8")))


def part(plan: Plan, part_id: str = "left") -> Part:
    return next(each for each in plan.parts if each.id == part_id)


def test_a_level_hem_is_the_least_reading_plus_raise_less_daylight() -> None:
    plan = make_plan(uneven(hem_line="level", raised=inches("1/4")))
    assert part(plan).drop.value == inches("11 1/8")


def test_a_level_hem_leaves_at_each_reading_what_it_exceeds_the_least_by_and_the_daylight_wanted() -> None:
    readings = part(make_plan(uneven(hem_line="level"))).readings
    assert [each.gap for each in readings] == [inches("1/8"), inches("7/8"), inches("1 1/8")]
    assert {each.finished for each in readings} == {inches("10 7/8")}


def test_a_hem_that_follows_the_floor_is_cut_at_the_greatest_drop_and_shows_the_same_daylight_everywhere() -> None:
    plan = make_plan(uneven(hem_line="follow the floor"))
    assert part(plan).drop.value == inches("11 7/8")
    assert [each.finished for each in part(plan).readings] == [inches("10 7/8"), inches("11 5/8"), inches("11 7/8")]
    assert {each.gap for each in part(plan).readings} == {inches("1/8")}


def test_readings_without_a_place_lie_equally_spaced_from_end_to_end() -> None:
    plan = make_plan(with_section(small(), "left", drop=(inches(12),) * 5))
    assert [each.at for each in part(plan).readings] == [inches(0), inches(19), inches(38), inches(57), inches(76)]


def test_a_stated_place_stands_and_the_others_keep_theirs() -> None:
    plan = make_plan(with_section(small(), "left", drop_at=(None, inches(30))))
    assert [each.at for each in part(plan).readings] == [inches(0), inches(30), inches(76)]


def test_a_floor_within_tolerance_takes_a_level_hem_unasked() -> None:
    plan = make_plan(with_section(small(), "left", drop=(inches(12), inches("12 1/8"), inches("12 1/4"))))
    assert part(plan).drop.value == inches(12)
    assert plan.missing == ()


def test_a_floor_over_tolerance_wants_a_choice_before_there_is_a_drop() -> None:
    plan = make_plan(uneven())
    assert part(plan).drop.value is None
    assert [need.key for need in plan.missing] == ["survey.section.left.hem_line"]


def test_the_metric_tolerance_is_six_millimetres() -> None:
    job = with_section(small(standard="metric"), "left", drop=(Length.of(300, "mm"), Length.of(306, "mm"), inches(12)))
    within = with_section(job, "left", drop=(Length.of(300, "mm"), Length.of(306, "mm"), Length.of(303, "mm")))
    assert "floor-uneven:left" in {each.id for each in make_plan(uneven()).findings}
    assert "floor-uneven:left" not in {each.id for each in make_plan(within).findings}
    over = with_section(job, "left", drop=(Length.of(300, "mm"), Length.of(307, "mm"), Length.of(303, "mm")))
    assert "floor-uneven:left" in {each.id for each in make_plan(over).findings}


def test_a_drop_that_is_not_read_yet_is_named_and_leaves_the_drop_open() -> None:
    plan = make_plan(with_section(small(), "left", drop=(inches(12), None, inches(12))))
    assert part(plan).drop.value is None
    assert [need.key for need in part(plan).drop.needs] == ["survey.section.left.drop.2"]
    assert part(plan, "foot").drop.value == inches(10)


def test_fewer_than_three_readings_are_not_enough() -> None:
    plan = make_plan(with_section(small(), "left", drop=(inches(12),)))
    assert [need.key for need in plan.missing] == ["survey.section.left.drop.2", "survey.section.left.drop.3"]


def test_a_line_is_straight_between_its_points_and_level_beyond_them() -> None:
    line = Line(((inches(10), inches(11)), (inches(30), inches(13))))
    assert [line.at(inches(x)) for x in (0, 10, 15, 30, 50)] == [
        inches(11), inches(11), inches("11 1/2"), inches(13), inches(13),
    ]  # fmt: skip


def test_the_greatest_drop_of_a_stretch_may_lie_between_its_ends() -> None:
    line = Line(((inches(0), inches(10)), (inches(20), inches(14)), (inches(40), inches(9))))
    assert line.greatest(inches(10), inches(30)) == inches(14)
    assert line.greatest(inches(0), inches(10)) == inches(12)


def test_the_drop_at_a_mark_is_measured_along_the_run_behind_the_return() -> None:
    fallen = section(
        76, 11, 12, 13, hem_line="follow the floor", left_end="returns", left_return=inches(4),
    )  # fmt: skip
    job = small()
    job = replace(job, survey=replace(job.survey, section={"left": fallen}))
    marks = {mark.tape: mark.drop for mark in part(make_plan(job)).marks}
    # G = 80 in in 8 parts of 10 in; the mark at 40 in lies 36 in along a run that falls 2 in over 76 in.
    assert marks[inches(40)] == inches(11) + Length(Fraction(2 * 36, 76))
    assert marks[inches(0)] == inches(11)
    assert marks[inches(80)] == inches(13)


def test_a_rug_laid_after_the_drops_were_read_raises_the_hem_by_its_thickness() -> None:
    plan = make_plan(uneven(hem_line="level", rug=inches("3/8")))
    assert part(plan).drop.value == inches("10 7/8") - inches("3/8")
    assert {each.gap - inches("3/8") for each in part(plan).readings} == {inches("1/8"), inches("7/8"), inches("1 1/8")}
    assert plan.figures["section.left.gap"].value == inches("1/2")
    assert "section.left.gap" not in make_plan(uneven(hem_line="level")).figures
