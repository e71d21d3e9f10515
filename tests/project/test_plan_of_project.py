"""The job holds what the file says, exact."""

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


def test_an_empty_draft_is_an_empty_job() -> None:
    assert job_of(Project()) == Job()


def test_values_come_over_exact_and_of_their_own_kind() -> None:
    job = job_of(
        put_many(
            Project(),
            {
                "survey.section.left.drop.3": "29.2 cm",
                "cloth.face.owned.bolt.length": "2 1/4 yd",
                "cloth.face.warp_shrink": "3 %",
                "cloth.face.price": "18.50",
                "fullness.want": "2 1/2",
                "survey.watch": ["antique"],
                "cloth.fixing.pack": 1000,
            },
        )
    )
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
def test_every_answer_of_the_file_stands_in_the_job_under_the_same_key(project: Project) -> None:
    job = job_of(project)
    told = {name: each for name, each in plain(project).items() if name in Job.__struct_fields__ and name != "kept"}
    assert [key for key in leaf_keys(told) if value_at(job, key) is None] == []
    assert job.kept == project.kept


def test_the_same_job_typed_otherwise_is_the_same_job() -> None:
    keys = ("ruler", "survey.section.left.run.1", "fullness.want", "cloth.face.price")
    typed = ("1/16 in", "80 in", "2 1/2", "18.50"), ("0.0625 in", "6 ft 8 in", "2.5", "18.5")
    one, other = (job_of(put_many(Project(), dict(zip(keys, texts, strict=True)))) for texts in typed)
    assert one == other


@given(project=projects())
def test_any_draft_has_a_plan(project: Project) -> None:
    assert plan_of(project).job == job_of(project)


LATER = "survey.section.left.free_height"


def slatted(*later: str) -> Project:
    return put_many(
        project_of(WHOLE),
        {
            "survey.slatted": True,
            LATER: None,
            "survey.section.right.free_height": "2 in",
            "progress.later": list(later),
        },
    )


def test_what_is_found_out_later_is_not_missing() -> None:
    asked, left = plan_of(slatted()), plan_of(slatted(LATER))
    assert [each.key for each in asked.missing] == [LATER]
    assert not asked.complete
    assert left.missing == ()
    assert left.complete
    assert [each.key for each in left.later] == [LATER]


def test_finding_out_later_changes_no_figure_and_no_mark() -> None:
    asked, left = plan_of(slatted()), plan_of(slatted(LATER))
    assert left.figures == asked.figures
    assert plan_mark(left.job) == plan_mark(asked.job)
    assert plan_of(slatted(LATER), left) is left
    assert plan_of(slatted(), left) == asked


@pytest.mark.parametrize("key", ["survey.section.left.run.1", "survey.section.left.drop.1", "cloth.face.width", "name"])
def test_what_every_plan_needs_cannot_be_left_for_later(key: str) -> None:
    project = put(put(project_of(WHOLE), key, None), "progress.later", [key])
    assert plan_of(project).later == ()


def test_what_is_known_by_now_is_not_to_be_found_out() -> None:
    assert plan_of(put(slatted(LATER), LATER, "2 in")).later == ()
