"""Gathers: gathered length, flat width, tape, and the fullness as made."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import everything, inches, section, small, with_section
from wizard.trade.job_fields import Fullness
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Part


def left(job: object) -> Part:
    return next(part for part in make_plan(job).parts if part.id == "left")  # type: ignore[arg-type]


def test_gathered_length_is_the_run_with_returns_and_overlaps() -> None:
    part = left(with_section(small(), "left", left_end="returns", left_return=inches(1), right_end="overlaps",
                             right_return=inches(2)))  # fmt: skip
    assert part.gathered.value == inches(79)


def test_returns_gather_too() -> None:
    part = left(with_section(small(), "left", left_end="returns", left_return=inches(2)))
    assert part.flat.value == inches(195)


def test_returns_left_flat_take_only_their_own_length() -> None:
    job = with_section(small(), "left", left_end="returns", left_return=inches(2), returns_flat=True)
    assert left(job).flat.value == inches(192)
    assert [mark.tape for mark in left(job).marks][:2] == [inches(0), inches(2)]


def test_an_overlap_gathers_even_where_returns_stay_flat() -> None:
    job = with_section(small(), "left", left_end="overlaps", left_return=inches(2), returns_flat=True)
    assert left(job).flat.value == inches(195)


def test_a_tape_takes_a_turn_under_at_each_end() -> None:
    assert left(with_section(small(), "left", run=(inches("80 1/2"),) * 2)).tape.value == inches("82 1/2")


def test_a_gathered_section_takes_the_reading_at_the_rail() -> None:
    assert left(with_section(small(), "left", run=(inches(76), inches(75)))).run.value == inches(76)


def test_a_flat_section_takes_the_shorter_reading() -> None:
    job = replace(small(), fullness=Fullness(want=Fraction(1)))
    assert left(with_section(job, "left", run=(inches(76), inches(75)))).run.value == inches(75)
    assert left(with_section(job, "left", run=(inches(76), inches(77)))).run.value == inches(76)


def test_an_end_that_is_not_chosen_leaves_the_gathered_length_open() -> None:
    part = left(with_section(small(), "left", left_end=None))
    assert part.run.value == inches(76)
    assert [need.key for need in part.gathered.needs] == ["survey.section.left.left_end"]


def test_a_fullness_under_one_is_refused_and_gives_no_flat_width() -> None:
    plan = make_plan(replace(small(), fullness=Fullness(want=Fraction(1, 2))))
    assert plan.parts[0].flat.value is None
    assert "fullness-under" in {each.id for each in plan.findings if each.level == "stop"}


def test_the_fullness_as_made_is_what_the_pieces_give() -> None:
    job = replace(small(), fullness=Fullness(want=Fraction(2), joins="part widths"), ruler=inches(1))
    part = left(with_section(job, "left", run=(inches("76 1/4"),) * 2))
    # W = 152 1/2, A = 154 1/2 goes up to 155 on a ruler of whole inches: the flat width as made is 153
    assert part.flat.value == inches("152 1/2")
    assert part.flat_made.value == inches(153)
    assert part.fullness.value == Fraction(153) / Fraction("76.25")


@settings(max_examples=20, deadline=None)
@given(
    runs=st.lists(st.integers(20 * 16, 120 * 16), min_size=1, max_size=3),
    fullness=st.fractions(Fraction(1), Fraction(3), max_denominator=40),
)
def test_rounded_pieces_still_make_the_section(runs: list[int], fullness: Fraction) -> None:
    job = small()
    sections = {
        side: section(str(Fraction(run, 16)), 12) for side, run in zip(("left", "foot", "right"), runs, strict=False)
    }
    survey = replace(job.survey, section=sections)
    plan = make_plan(replace(job, survey=survey, fullness=Fullness(want=fullness)))
    for part in plan.parts:
        assert part.flat_made.value is not None
        assert part.flat.value is not None
        assert part.flat.value <= part.flat_made.value < part.flat.value + inches("1/16")
        assert part.fullness.value is not None
        assert part.fullness.value >= fullness


def test_every_part_of_a_full_job_is_worked_to_the_end() -> None:
    plan = make_plan(everything())
    assert plan.complete
    for part in plan.parts:
        known = (part.run, part.gathered, part.drop, part.flat, part.flat_made, part.fullness, part.tape)
        assert all(figure.value is not None for figure in known)
        assert part.marks
        assert part.fixings is not None
