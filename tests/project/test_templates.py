"""Templates keep a workroom's habits and nothing of the job they came from."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given

from tests.project.projects import projects
from wizard.project.encode import encode, plain
from wizard.project.project import Project, Unfit, begin, put, put_many, template_mark, template_of
from wizard.project.reading import read

FILLED = put_many(
    Project(),
    {
        "name": "Marrow Lane workroom",
        "show": "in",
        "began_from": "an older one",
        "survey.rail": "solid wood",
        "survey.section.left.run": ["80 in"],
        "allowances.top": "1/2 in",
        "cloth.face.hem": "1/2 in",
        "cloth.face.price": "18.50",
        "cloth.face.owned.bolt.length": "3 yd",
        "fullness.want": "2.5",
        "progress.at": "cloth.face.width",
        "kept.run-differs:left:right": "76 in | 79 in",
        "work.cut-face.done": datetime(2026, 3, 2, 10, 42, tzinfo=UTC),
    },
)


def test_a_template_keeps_habits_and_leaves_the_job_behind() -> None:
    assert plain(template_of(FILLED)) == {
        "format": 1,
        "name": "Marrow Lane workroom",
        "show": "in",
        "template": True,
        "allowances": {"top": "1/2 in"},
        "cloth": {"face": {"price": "18.50", "hem": "1/2 in"}},
        "fullness": {"want": "2.5"},
    }


def test_a_project_begins_with_the_templates_values_copied_in() -> None:
    assert plain(begin(template_of(FILLED), "Juniper loft")) == {
        "format": 1,
        "name": "Juniper loft",
        "show": "in",
        "began_from": "Marrow Lane workroom",
        "began_mark": template_mark(FILLED),
        "allowances": {"top": "1/2 in"},
        "cloth": {"face": {"price": "18.50", "hem": "1/2 in"}},
        "fullness": {"want": "2.5"},
    }


def test_another_project_serves_as_template_too() -> None:
    assert begin(FILLED, "Juniper loft") == begin(template_of(FILLED), "Juniper loft")


def test_a_project_begun_from_nothing_came_from_nothing() -> None:
    assert plain(begin(Project(), "Juniper loft")) == {"format": 1, "name": "Juniper loft"}


def test_a_later_template_changes_no_project_begun_before() -> None:
    template = template_of(FILLED)
    loft = begin(template, "Juniper loft")
    put(template, "allowances.top", "3/4 in")
    assert plain(loft)["allowances"] == {"top": "1/2 in"}


def test_the_mark_of_a_template_changes_with_what_it_gives_and_with_nothing_else() -> None:
    template = template_of(FILLED)
    assert template_mark(put(template, "name", "Other name")) == template_mark(template) == template_mark(FILLED)
    assert template_mark(put(template, "allowances.top", "3/4 in")) != template_mark(template)


@pytest.mark.parametrize("name", ["", " ", "a\nb", "\x1b[2J", "x" * 201])
def test_a_name_that_is_not_fit_begins_no_project(name: str) -> None:
    with pytest.raises(Unfit) as caught:
        begin(Project(), name)
    assert caught.value.key == "name"


def tables(project: Project) -> dict[str, Any]:
    return plain(project)


@given(project=projects())
def test_a_template_of_anything_has_no_survey_no_work_and_can_be_written(project: Project) -> None:
    template = template_of(project)
    assert not {"survey", "work", "kept", "began_from"} & set(tables(template))
    assert template_of(template) == template
    assert read(encode(template)) == template


@given(project=projects())
def test_what_a_project_begins_with_is_what_its_template_says(project: Project) -> None:
    template = template_of(project)
    begun = begin(template, "Juniper loft")
    apart = {"name", "template", "began_from", "began_mark"}
    assert {key: each for key, each in tables(begun).items() if key not in apart} == {
        key: each for key, each in tables(template).items() if key not in apart
    }
