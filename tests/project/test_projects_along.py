"""The demo and the template that come along: complete, awkward on purpose, and as the program itself writes them."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from wizard.project.encode import encode
from wizard.project.folder import find_projects, find_templates
from wizard.project.plans import job_of, plan_of
from wizard.project.project import Project
from wizard.project.reading import has_comments, read
from wizard.project.store import Opened, Store
from wizard.project.templates import begin, template_of
from wizard.trade.lengths import Length

PROJECTS: Final = Path(__file__).parents[2] / "projects"
DEMO: Final = next(PROJECTS.glob("demo-*.toml"))
TEMPLATE: Final = PROJECTS / "template-workroom.toml"


def draft_at(path: Path) -> Project:
    opened = Store(path).open()
    assert isinstance(opened, Opened)
    return opened.draft


@pytest.mark.parametrize("path", sorted(PROJECTS.glob("*.toml")), ids=lambda path: path.name)
def test_every_file_is_as_it_would_be_written_and_free_of_comments(path: Path) -> None:
    draft = read(path.read_bytes())
    assert isinstance(draft, Project)
    assert encode(draft) == path.read_bytes()
    assert not has_comments(path.read_bytes())


def test_every_project_that_is_no_template_is_complete_with_nothing_to_mend() -> None:
    for found in find_projects(PROJECTS):
        assert isinstance(found.draft, Project)
        plan = plan_of(found.draft)
        assert plan.missing == ()
        assert plan.complete
        assert [each.id for each in plan.findings if each.level != "note"] == []
        assert all(layer.cutting is not None for layer in plan.layers)


def test_a_file_is_a_template_exactly_when_its_name_says_so() -> None:
    assert [each.path.name for each in find_templates(PROJECTS)] == [
        each.name for each in sorted(PROJECTS.glob("*.toml")) if "template" in each.name
    ]


def test_the_template_has_no_survey_and_no_work_and_the_demo_was_begun_from_it() -> None:
    template, demo = draft_at(TEMPLATE), draft_at(DEMO)
    assert template_of(template) == template
    assert begin(template, "x").began_from == demo.began_from == template.name
    assert (demo.allowances, demo.cloth.tape, demo.cloth.thread) == (
        template.allowances,
        template.cloth.tape,
        template.cloth.thread,
    )


def test_the_demo_is_awkward_on_purpose() -> None:
    job = job_of(draft_at(DEMO))
    left, foot, right = (job.survey.section[each] for each in ("left", "foot", "right"))
    spread = [max(filter(None, each.drop)) - min(filter(None, each.drop)) for each in (left, foot, right)]
    tolerance = job.allowances.floor_tolerance
    assert tolerance is not None
    assert [each > tolerance for each in spread] == [True, False, False]
    assert left.hem_line == "follow the floor"
    assert max(filter(None, foot.drop)) < min(filter(None, right.drop)) - Length(3)
    assert foot.fixing_face == "lower back edge"
    assert [each.kind for each in left.in_the_way.values()] == ["centre leg"]
    assert job.survey.slatted
    assert left.free_height is not None
    assert len(job.cloth.face.owned) == 2
    assert job.cloth.interlining.use
