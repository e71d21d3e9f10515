"""Templates keep a workroom's habits and nothing of the job they came from."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given

from tests.project.projects import projects
from wizard.project.encode import encode, plain
from wizard.project.project import Project, Unfit, begin, put, put_many, template_mark, template_of
from wizard.project.reading import read

HABITS = {
    "show": "in",
    "allowances": {"top": "1/2 in"},
    "cloth": {"face": {"price": "18.50", "hem": "1/2 in"}},
    "fullness": {"want": "2.5"},
}
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


def test_a_template_keeps_habits_and_a_project_begins_with_them_copied_in() -> None:
    template = template_of(FILLED)
    assert plain(template) == {"format": 1, "name": "Marrow Lane workroom", "template": True, **HABITS}
    loft = begin(template, "Juniper loft")
    begun_from = {"began_from": "Marrow Lane workroom", "began_mark": template_mark(FILLED)}
    assert plain(loft) == {"format": 1, "name": "Juniper loft", **begun_from, **HABITS}
    assert begin(FILLED, "Juniper loft") == loft, "another project serves as template too"
    assert plain(begin(Project(), "Juniper loft")) == {"format": 1, "name": "Juniper loft"}


def test_the_mark_of_a_template_changes_with_what_it_gives_and_with_nothing_else() -> None:
    template = template_of(FILLED)
    assert template_mark(put(template, "name", "Other name")) == template_mark(template) == template_mark(FILLED)
    assert template_mark(put(template, "allowances.top", "3/4 in")) != template_mark(template)


@pytest.mark.parametrize("name", ["", " ", "a\nb", "\x1b[2J", "x" * 201])
def test_a_name_that_is_not_fit_begins_no_project(name: str) -> None:
    with pytest.raises(Unfit) as caught:
        begin(Project(), name)
    assert caught.value.key == "name"


@given(project=projects())
def test_a_template_of_anything_can_be_written_has_no_survey_and_no_work_and_gives_the_rest(project: Project) -> None:
    template = template_of(project)
    held, begun = plain(template), plain(begin(template, "Juniper loft"))
    assert not {"survey", "work", "kept", "began_from"} & set(held)
    assert template_of(template) == template
    assert read(encode(template)) == template
    apart = dict.fromkeys(("name", "template", "began_from", "began_mark"))
    assert {**begun, **apart} == {**held, **apart}
