"""The figures that are there before the plan is: an estimate of the cloth, the first cut lengths, and their line."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.record.jobs import random_job
from tests.render.jobs import project_of
from tests.trade.sample_jobs import everything, inches, leaves, small, with_face, with_section, without
from wizard.project.plan_of_project import job_of
from wizard.trade.figures import PRESUMED, explained
from wizard.trade.first_figures import early_figures, first_figures, line_text, plan_line
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Allowances, Cloth, Cloths, Fullness, Job, Owned, Section, Survey
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan

QUEEN = Job(survey=Survey(bed_size="US queen"))


def line(job: Job, section: str | None = None, *, chosen: bool = False) -> str:
    return line_text(plan_line(make_plan(job), section, chosen=chosen))


def about(job: Job, unit: str) -> Fraction | None:
    figure = early_figures(job).estimate
    return None if figure.value is None else figure.value.in_unit(unit)


def test_a_bed_size_alone_gives_an_estimate() -> None:
    # Left, foot and right: 80, 60, 80. A drop of 12, no gap: 1/2 + 12 + 1 = 13 1/2 in long.
    # Fullness 2.5 and 1 in of end hem at each end: 202 + 152 + 202 = 556 in wide.
    # From 54 - 1 = 53 in of cloth, a join taking 1: (556 - 1) / 52 = 10.7, so 11 widths.
    # 1 + 11 x 13 1/2 = 149 1/2 in = 4.15 yd, up to half a yard.
    assert about(QUEEN, "yd") == Fraction(9, 2)
    assert line(QUEEN) == "about 4 1/2 yd face cloth, 54 in wide"


def test_a_metric_estimate() -> None:
    # 200, 140, 200; 1.5 + 30 + 3 = 34.5 cm long; 503 + 353 + 503 = 1359 cm wide; (1359 - 3) / (134 - 3) = 10.4: 11.
    # 2.5 + 11 x 34.5 = 382 cm, up to half a metre.
    job = Job(standard="metric", survey=Survey(bed_size="EU 140"))
    assert about(job, "m") == 4
    assert line(job) == "about 4 m face cloth, 137 cm wide"


def test_a_hard_floor_a_run_a_drop_and_the_cloth_sharpen_it() -> None:
    # 88 and so 88, 60: 222 + 152 + 222 = 596 in; (596 - 1) / (44 - 1 - 1) = 14.2: 15 widths.
    # 1/2 + (15 - 1/4) + 1 = 16 1/4 in; 1 + 15 x 16 1/4 = 244 3/4 in = 6.8 yd.
    survey = Survey(
        bed_size="US queen", floor="hard floor",
        section={"left": Section(run=(inches(88),), drop=(None, inches(15))), "foot": Section(), "right": Section()},
    )  # fmt: skip
    assert about(Job(survey=survey, cloth=Cloths(face=Cloth(width=inches(44)))), "yd") == 7


def test_a_matched_pattern_takes_whole_repeats() -> None:
    # 13 1/2 in, up to 16; 1 + 11 x 16 = 177 in = 4.9 yd.
    job = with_face(QUEEN, repeat=inches(8))
    assert about(job, "yd") == 5
    assert about(with_face(job, match=False), "yd") == Fraction(9, 2)


def test_washing_first_takes_more() -> None:
    # 1 + 148 1/2 / 0.9 = 166 in = 4.6 yd.
    assert about(with_face(QUEEN, wash="washed first", warp_shrink=Fraction(1, 10)), "yd") == 5


def test_nothing_is_estimated_without_any_size() -> None:
    assert about(Job(), "yd") is None
    assert line(Job()) == ""
    foot_only = Survey(section={"left": Section(run=(inches(80),)), "foot": Section()})
    assert about(Job(survey=foot_only), "yd") is None


def test_a_divided_side_shares_what_is_left_of_it() -> None:
    # 80 - 50 = 30 for the second part of the left side; the right side is as long as both together.
    sections = {"left": Section(run=(inches(50),)), "left-2": Section(side="left"), "right": Section()}
    figures = _presumed_of(Job(survey=Survey(bed_size="US queen", section=sections)))
    assert figures["survey.section.left-2.run.1"] == inches(30)
    assert figures["survey.section.right.run.1"] == inches(80)


def _presumed_of(job: Job) -> dict[str, Length]:
    figures = early_figures(job).ledger.figures
    return {id: each.value for id, each in figures.items() if each.rule is PRESUMED and each.value is not None}


def test_an_estimate_says_what_it_rests_on() -> None:
    why = explained(early_figures(QUEEN).estimate, ruler_of(QUEEN))
    assert why.values == "about 1 in + 11 × 13 1/2 in ÷ 1, up to 18 in"
    assert _presumed_of(QUEEN)["survey.section.left.run.1"] == inches(80)


def test_an_estimate_goes_once_the_plan_knows() -> None:
    assert first_figures(make_plan(replace(small(), fullness=Fullness()))).estimate is not None
    assert first_figures(make_plan(small())).estimate is None


READ = Section(run=(inches(76), inches(76)), drop=(inches(12), inches("12 1/4"), inches("12 1/8")))


def test_the_third_drop_gives_the_cut_length() -> None:
    # The least drop, no gap known yet: 1/2 + 12 + 1.
    for drops, expected in ((2, ""), (3, "left section 13 1/2 in long (usual)")):
        job = Job(survey=Survey(section={"left": Section(drop=READ.drop[:drops])}))
        assert line(job) == expected


def test_the_run_gives_cut_width_and_widths() -> None:
    # 2.5 x 76 + 2 = 192 in from 53 in of cloth: (192 - 1) / 52 = 3.7.
    job = Job(survey=Survey(section={"left": READ, "foot": Section()}))
    (left,) = first_figures(make_plan(job)).sections
    assert (left.cut_length.value, left.cut_width.value, left.widths.value) == (inches("13 1/2"), inches(192), 4)
    assert line(job) == "left section 13 1/2 in long (usual), about 4 widths"


def test_an_uneven_floor_does_not_hold_the_cut_length_back() -> None:
    section = replace(READ, drop=(inches(11), inches(12), inches(13)))
    job = Job(survey=Survey(section={"left": section}))
    assert "left section 12 1/2 in long" in line(job)
    assert "left section 14 1/2 in long" in line(with_section(job, "left", hem_line="follow the floor"))


def test_a_drop_that_was_not_read_shows_no_cut_length() -> None:
    job = Job(survey=Survey(bed_size="US queen", section={"left": READ, "foot": Section(run=(inches(58),))}))
    assert [each.part for each in first_figures(make_plan(job)).sections] == ["left"]


def test_allowances_that_were_chosen_are_not_called_usual() -> None:
    chosen = Allowances(top=inches(1))
    face = Cloth(hem=inches(1), hem_kind="double")
    job = Job(survey=Survey(section={"left": READ}), allowances=chosen, cloth=Cloths(face=face))
    assert line(job) == "left section 15 in long, about 4 widths; about 2 yd face cloth, 54 in wide"
    usual = Job(survey=Survey(section={"left": READ}))
    assert "(usual)" in line(usual)
    assert "(usual)" not in line(usual, chosen=True)


def test_a_complete_plan_is_said_with_its_own_figures() -> None:
    job = small()
    assert line(job) == "longest piece 13 1/2 in, 10 widths; buy 3 3/4 yd face cloth"
    assert line(job, "foot") == "foot section 11 1/2 in long, 10 widths in all; buy 3 3/4 yd face cloth"
    assert len(line(job)) <= 60
    with_lining = replace(job, cloth=replace(job.cloth, lining=Cloth(use=True, width=inches(55), weight="light")))
    assert line(with_lining).endswith("; buy 3 3/4 yd face cloth and 4 1/8 yd lining")


def test_cloth_that_is_all_there_is_said_to_need_nothing() -> None:
    job = with_face(small(), owned={"chest": Owned(length=inches(400))})
    assert line(job) == "longest piece 13 1/2 in, 10 widths; nothing to buy"


@given(st.integers(min_value=0, max_value=400))
def test_what_is_said_early_is_what_the_plan_says_of_the_same_answers(seed: int) -> None:
    """Once the answers that were presumed are given, the plan works the same cut lengths and widths."""
    plan = make_plan(job_of(project_of(random_job(seed))))
    early = early_figures(plan.job, plan.figures["fullness"])
    assert {id: each.value for id, each in early.cut_lengths.items()} == {
        id: each.value for id, each in plan.layers[0].cut_lengths.items()
    }
    assert {id: each.value for id, each in early.cut_widths.items()} == {
        id: each.value for id, each in plan.layers[0].cut_widths.items()
    }
    assert not any(each.rule is PRESUMED for each in early.ledger.figures.values() if each.id.startswith("survey"))


@given(st.integers(min_value=0, max_value=400))
def test_the_widths_are_those_that_the_plan_cuts(seed: int) -> None:
    plan = make_plan(job_of(project_of(random_job(seed))))
    first, cutting = first_figures(plan), plan.layers[0].cutting
    if cutting is None:
        return
    best = cutting.best
    pieces = Counter(each.strip for each in best.pieces)
    if best.way == "along":
        assert {first.widths.value, *(each.widths.value for each in first.sections)} == {None}
        return
    assert {each.part: each.widths.value for each in first.sections} == pieces
    assert first.widths.value == sum(each.rows for each in best.uses)


@given(st.integers(min_value=0, max_value=400))
def test_an_estimate_of_a_whole_job_is_near_what_it_takes(seed: int) -> None:
    job = job_of(project_of(random_job(seed)))
    plan = make_plan(with_face(replace(job, fullness=replace(job.fullness, aim="a number")), owned={}, lay="across"))
    face, figure = plan.layers[0], early_figures(plan.job).estimate
    if face.cutting is None or face.rules is None or face.rules.policy != "part widths":
        return
    assert figure.value is not None
    assert face.buy.value is not None
    width = max(each.value or ZERO for each in face.cut_lengths.values())
    assert face.buy.value - width * 2 <= figure.value <= face.buy.value + width * 2 + Length(20)


def test_any_answers_may_be_missing() -> None:
    job = everything()
    for path in leaves(job):
        assert line(without(job, path)) is not None
        job = without(job, path)
        assert line(job) is not None


def test_every_first_figure_says_why() -> None:
    job = with_face(QUEEN, repeat=inches(8))
    figures = [*early_figures(job).ledger.figures.values(), first_figures(make_plan(small())).widths]
    assert all(explained(each, ruler_of(job)).says for each in figures)
