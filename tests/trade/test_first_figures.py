"""The figures that are there before the plan is: an estimate of the cloth, the first cut lengths, and their line."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.render.jobs import project_of, random_job
from tests.trade.sample_jobs import everything, inches, known, leaves, small, with_face, with_section, without
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


def test_a_bed_size_alone_gives_an_estimate_that_says_what_it_rests_on() -> None:
    # Left, foot and right: 80, 60, 80. A drop of 12, no gap: 1/2 + 12 + 1 = 13 1/2 in long.
    # Fullness 2.5 and 1 in of end hem at each end: 202 + 152 + 202 = 556 in wide.
    # From 54 - 1 = 53 in of cloth, a join taking 1: (556 - 1) / 52 = 10.7, so 11 widths.
    # 1 + 11 x 13 1/2 = 149 1/2 in = 4.15 yd, up to half a yard.
    assert about(QUEEN, "yd") == Fraction(9, 2)
    assert line(QUEEN) == "about 4 1/2 yd face cloth, 54 in wide, fullness 2.5"
    why = explained(early_figures(QUEEN).estimate, ruler_of(QUEEN))
    assert why.values == "about 1 in + 11 × 13 1/2 in ÷ 1, up to 18 in"
    assert _presumed_of(QUEEN)["survey.section.left.run.1"] == inches(80)
    # 200, 140, 200; 1.5 + 30 + 3 = 34.5 cm long; 503 + 353 + 503 = 1359 cm wide; (1359 - 3) / (134 - 3) = 10.4: 11.
    # 2.5 + 11 x 34.5 = 382 cm, up to half a metre.
    metric = Job(standard="metric", survey=Survey(bed_size="EU 140"))
    assert about(metric, "m") == 4
    assert line(metric) == "about 4 m face cloth, 137 cm wide, fullness 2.5"


SHARPER = Survey(
    bed_size="US queen", floor="hard floor",
    section={"left": Section(run=(inches(88),), drop=(None, inches(15))), "foot": Section(), "right": Section()},
)  # fmt: skip


@pytest.mark.parametrize(
    ("job", "yards"),
    [
        # 88 and so 88, 60: 222 + 152 + 222 = 596 in; (596 - 1) / (44 - 1 - 1) = 14.2: 15 widths.
        # 1/2 + (15 - 1/4) + 1 = 16 1/4 in; 1 + 15 x 16 1/4 = 244 3/4 in = 6.8 yd.
        (Job(survey=SHARPER, cloth=Cloths(face=Cloth(width=inches(44)))), Fraction(7)),
        # A matched pattern takes whole repeats: 13 1/2 in, up to 16; 1 + 11 x 16 = 177 in = 4.9 yd.
        (with_face(QUEEN, repeat=inches(8)), Fraction(5)),
        (with_face(QUEEN, repeat=inches(8), match=False), Fraction(9, 2)),
        # Washing first takes more: 1 + 148 1/2 / 0.9 = 166 in = 4.6 yd.
        (with_face(QUEEN, wash="washed first", warp_shrink=Fraction(1, 10)), Fraction(5)),
        (Job(), None),
        (Job(survey=Survey(section={"left": Section(run=(inches(80),)), "foot": Section()})), None),
    ],
)
def test_what_is_known_sharpens_an_estimate_and_nothing_is_estimated_without_any_size(
    job: Job, yards: Fraction | None
) -> None:
    assert about(job, "yd") == yards
    assert (line(job) == "") == (yards is None)


def test_a_divided_side_shares_what_is_left_of_it() -> None:
    # 80 - 50 = 30 for the second part of the left side; the right side is as long as both together.
    sections = {"left": Section(run=(inches(50),)), "left-2": Section(side="left"), "right": Section()}
    figures = _presumed_of(Job(survey=Survey(bed_size="US queen", section=sections)))
    assert figures["survey.section.left-2.run.1"] == inches(30)
    assert figures["survey.section.right.run.1"] == inches(80)


def _presumed_of(job: Job) -> dict[str, Length]:
    figures = early_figures(job).ledger.figures
    return {id: each.value for id, each in figures.items() if each.rule is PRESUMED and each.value is not None}


READ = Section(run=(inches(76), inches(76)), drop=(inches(12), inches("12 1/4"), inches("12 1/8")))


def surveyed(**sections: Section) -> Job:
    return Job(survey=Survey(section=sections))


def test_the_third_drop_gives_the_cut_length_and_the_run_cut_width_and_widths() -> None:
    # The least drop, no gap known yet: 1/2 + 12 + 1. 2.5 x 76 + 2 = 192 in from 53 in of cloth: (192 - 1) / 52 = 3.7.
    assert line(surveyed(left=Section(drop=READ.drop[:2]))) == ""
    assert line(surveyed(left=Section(drop=READ.drop))) == "left section cut length 13 1/2 in (usual)"
    job = surveyed(left=READ, foot=Section())
    (left,) = first_figures(make_plan(job)).sections
    assert (left.cut_length.value, left.cut_width.value, left.widths.value) == (inches("13 1/2"), inches(192), 4)
    assert line(job) == "left section cut length 13 1/2 in (usual), about 4 widths"
    assert "(usual)" not in line(job, chosen=True)
    # An uneven floor does not hold the cut length back; a drop that was not read shows none.
    uneven = surveyed(left=replace(READ, drop=(inches(11), inches(12), inches(13))))
    assert "left section cut length 12 1/2 in" in line(uneven)
    assert "left section cut length 14 1/2 in" in line(with_section(uneven, "left", hem_line="follow the floor"))
    unread = surveyed(left=READ, foot=Section(run=(inches(58),)))
    assert [each.part for each in first_figures(make_plan(unread)).sections] == ["left"]
    chosen = Cloths(face=Cloth(hem=inches(1), hem_kind="double"))
    said = line(replace(surveyed(left=READ), allowances=Allowances(top=inches(1)), cloth=chosen))
    assert said == "left section cut length 15 in, about 4 widths; about 2 yd face cloth, 54 in wide, fullness 2.5"


def test_a_complete_plan_is_said_with_its_own_figures() -> None:
    job = small()
    assert first_figures(make_plan(job)).estimate is None
    assert first_figures(make_plan(replace(job, fullness=Fullness()))).estimate is not None
    assert line(job) == "longest cut 13 1/2 in, 10 widths; buy 3 3/4 yd face cloth"
    assert line(job, "foot") == "foot section cut length 11 1/2 in, 10 widths in all; buy 3 3/4 yd face cloth"
    with_lining = replace(job, cloth=replace(job.cloth, lining=Cloth(use=True, width=inches(55), weight="light")))
    assert line(with_lining).endswith("; buy 3 3/4 yd face cloth and 4 1/8 yd lining")
    owned = with_face(small(), owned={"chest": Owned(length=inches(400))})
    assert line(owned) == "longest cut 13 1/2 in, 10 widths; nothing to buy"


@given(st.integers(min_value=0, max_value=400))
def test_what_is_said_early_is_what_the_plan_says_of_the_same_answers(seed: int) -> None:
    """Once the answers that were presumed are given, the plan works the same cut lengths and widths."""
    plan = make_plan(job_of(project_of(random_job(seed))))
    early, face = early_figures(plan.job, plan.figures["fullness"]), plan.layers[0]
    for ours, theirs in ((early.cut_lengths, face.cut_lengths), (early.cut_widths, face.cut_widths)):
        assert {id: each.value for id, each in ours.items()} == {id: each.value for id, each in theirs.items()}
    assert not any(each.rule is PRESUMED for each in early.ledger.figures.values() if each.id.startswith("survey"))
    first, cutting = first_figures(plan), face.cutting
    if cutting and cutting.best.way == "along":
        assert {first.widths.value, *(each.widths.value for each in first.sections)} == {None}
    elif cutting:
        pieces = Counter(each.strip for each in cutting.best.pieces)
        assert {each.part: each.widths.value for each in first.sections} == pieces
        assert first.widths.value == sum(each.rows for each in cutting.best.uses)


@given(st.integers(min_value=0, max_value=400))
def test_an_estimate_of_a_whole_job_is_near_what_it_takes(seed: int) -> None:
    job = job_of(project_of(random_job(seed)))
    plan = make_plan(with_face(replace(job, fullness=replace(job.fullness, aim="a number")), owned={}, lay="across"))
    face, figure = plan.layers[0], early_figures(plan.job).estimate
    if face.cutting is None or face.rules is None or face.rules.policy != "part widths":
        return
    assert figure.value is not None
    width = max(each.value or ZERO for each in face.cut_lengths.values())
    assert known(face.buy.value) - width * 2 <= figure.value <= known(face.buy.value) + width * 2 + Length(20)


def test_any_answers_may_be_missing_and_every_first_figure_says_why() -> None:
    job = everything()
    for path in leaves(job):
        assert line(without(job, path)) is not None
        job = without(job, path)
        assert line(job) is not None
    job = with_face(QUEEN, repeat=inches(8))
    figures = [*early_figures(job).ledger.figures.values(), first_figures(make_plan(small())).widths]
    assert all(explained(each, ruler_of(job)).says for each in figures)
