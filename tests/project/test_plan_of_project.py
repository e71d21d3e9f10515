"""The job holds what the file says, exact; what is found out later is not missing."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given

from tests.project.projects import projects
from tests.render.jobs import WHOLE, project_of
from wizard.project.encode import plain
from wizard.project.marks import plan_mark
from wizard.project.plan_of_project import job_of, plan_of
from wizard.project.project import Project, put, put_many
from wizard.trade.figures import value_at
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import Length


def test_values_come_over_exact_and_of_their_own_kind() -> None:
    assert job_of(Project()) == Job()
    answers = {
        "survey.section.left.drop.3": "29.2 cm",
        "cloth.face.owned.bolt.length": "2 1/4 yd",
        "cloth.face.warp_shrink": "3 %",
        "cloth.face.price": "18.50",
        "fullness.want": "2 1/2",
        "survey.watch": ["antique"],
        "cloth.fixing.pack": 1000,
    }
    job = job_of(put_many(Project(), answers))
    assert job.survey.section == {"left": Section(drop=(None, None, Length.of(Fraction(292, 10), "cm")))}
    assert job.cloth.face.owned["bolt"].length == Length(81)
    assert (job.cloth.face.warp_shrink, job.cloth.face.price) == (Fraction(3, 100), Decimal("18.50"))
    assert (job.fullness.want, job.survey.watch, job.cloth.fixing.pack) == (Fraction(5, 2), ("antique",), 1000)


def leaf_keys(tree: Any, path: tuple[str, ...] = ()) -> list[str]:
    if isinstance(tree, dict):
        return [key for name, each in tree.items() for key in leaf_keys(each, (*path, name))]
    if isinstance(tree, list):
        return [".".join((*path, str(at))) for at, each in enumerate(tree, start=1) if each != ""]
    return [".".join(path)]


@given(project=projects())
def test_any_project_has_a_plan_and_every_answer_stands_in_its_job_under_the_same_key(project: Project) -> None:
    job = plan_of(project).job
    told = {name: each for name, each in plain(project).items() if name in Job.__struct_fields__ and name != "kept"}
    assert [key for key in leaf_keys(told) if value_at(job, key) is None] == []
    assert job.kept == project.kept


LATER = "survey.section.left.free_height"


def slatted(*later: str, known: str | None = None) -> Project:
    right = "survey.section.right.free_height"
    return put_many(
        project_of(WHOLE), {"survey.slatted": True, LATER: known, right: "2 in", "progress.later": list(later)}
    )


def test_what_is_found_out_later_is_not_missing_and_changes_no_figure_and_no_mark() -> None:
    asked, left = plan_of(slatted()), plan_of(slatted(LATER))
    assert ([each.key for each in asked.missing], asked.complete) == ([LATER], False)
    assert (left.missing, left.complete) == ((), True)
    assert [each.key for each in left.later] == [LATER]
    assert plan_of(slatted(LATER, known="2 in")).later == ()
    assert left.figures == asked.figures
    assert plan_mark(left.job) == plan_mark(asked.job)
    assert plan_of(slatted(LATER), left) is left
    assert plan_of(slatted(), left) == asked


@pytest.mark.parametrize("key", ["survey.section.left.run.1", "survey.section.left.drop.1", "cloth.face.width", "name"])
def test_what_every_plan_needs_cannot_be_left_for_later(key: str) -> None:
    project = put(put(project_of(WHOLE), key, None), "progress.later", [key])
    assert plan_of(project).later == ()
