"""The plan mark: the same for the same job, another for another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.project.test_folder import PROJECTS
from tests.render.jobs import WHOLE, project_of
from tests.trade.sample_jobs import everything, inches, with_face
from wizard.project.encode import encode
from wizard.project.marks import plan_mark
from wizard.project.plan_of_project import job_of
from wizard.project.project import Project, put, put_many
from wizard.project.reading import read
from wizard.trade.job_fields import Job, Owned
from wizard.trade.make_plan import make_plan


def mark(project: Project) -> str:
    return plan_mark(job_of(project))


def whole() -> Project:
    return project_of(WHOLE)


def test_a_mark_is_two_groups_of_four_letters_that_are_not_mistaken_for_one_another() -> None:
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", mark(whole()))


def test_the_mark_of_a_job_never_changes_from_one_version_to_the_next() -> None:
    # Printed on paper that hangs on walls: a change here parts every sheet from its file.
    assert mark(project_of('format = 1\nname = "Juniper loft"\n[cloth.face]\nwidth = "54 in"\n')) == "MX5G-CJ5W"


def test_progress_ticks_and_kept_findings_leave_the_mark_alone() -> None:
    more = put_many(whole(), {"progress.at": "cloth.face.width", "progress.rails_alike": False})
    assert mark(put(more, "kept.run-differs:left:right", "1 | 2")) == mark(whole())
    ticked = read((WHOLE + "\n[work.buy]\ndone = 2026-03-02 10:42:00+00:00\n").encode())
    assert isinstance(ticked, Project)
    assert mark(ticked) == mark(whole())


def test_a_file_written_anew_keeps_its_mark() -> None:
    again = read(encode(whole()))
    assert isinstance(again, Project)
    assert mark(again) == mark(whole())


def test_the_same_length_typed_in_another_unit_keeps_the_mark() -> None:
    assert mark(put(whole(), "cloth.face.width", "1397 mm")) == mark(put(whole(), "cloth.face.width", "55 in"))


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("name", "Juniper loft two"),
        ("show", "mm"),
        ("survey.section.left.drop.2", "12 1/16 in"),
        ("survey.section.left.left_return", None),
        ("survey.slatted", False),
        ("cloth.face.owned.first.length", "1 1/2 yd"),
        ("cloth.face.price", "18.51"),
        ("fullness.want", "2.4"),
    ],
)
def test_whatever_is_measured_chosen_or_named_changes_the_mark(key: str, value: object) -> None:
    assert mark(put(whole(), key, value)) != mark(whole())


def test_a_value_never_passes_for_another_at_the_next_key() -> None:
    one, other = put(Project(), "cloth.face.name", "silk"), put(Project(), "cloth.lining.name", "silk")
    assert mark(one) != mark(other)
    marks = {
        mark(put_many(Project(), {"survey.section.left.drop": drops}))
        for drops in (["1 in", "", "2 in"], ["1 in", "2 in"])
    }
    assert len(marks) == 2


def shuffled(tables: Mapping[str, Any], random: Random) -> dict[str, Any]:
    """The same tables as another file would have them."""
    items = list(tables.items())
    random.shuffle(items)
    return dict(items)


def in_other_order(job: Job, random: Random) -> Job:
    """The same job from a file with its tables in another order, but for lengths in hand."""
    sections = {
        id: replace(each, in_the_way=shuffled(each.in_the_way, random)) for id, each in job.survey.section.items()
    }
    survey = replace(job.survey, section=shuffled(sections, random), post=shuffled(job.survey.post, random))
    return replace(job, survey=survey)


@pytest.mark.parametrize("seed", range(12))
def test_tables_in_another_order_change_neither_the_plan_nor_its_mark(seed: int) -> None:
    job = everything()
    other = in_other_order(job, Random(seed))
    assert make_plan(other).work == make_plan(job).work
    assert plan_mark(other) == plan_mark(job)


def test_a_section_that_is_off_counts_wherever_it_stands() -> None:
    job = everything()
    off = replace(job.survey.section["foot"], on=False)
    sections = {**job.survey.section, "spare": off, "other": off}
    again = {"other": off, "spare": off, **job.survey.section}
    marks = {plan_mark(replace(job, survey=replace(job.survey, section=each))) for each in (sections, again)}
    assert len(marks) == 1
    assert plan_mark(job) not in marks


def test_the_order_of_two_sections_of_one_side_and_of_two_lengths_in_hand_is_the_plans_and_the_marks() -> None:
    job = everything()
    second = replace(job.survey.section["left"], name="door side", in_the_way={})
    more = replace(job, survey=replace(job.survey, section={**job.survey.section, "door": second}))
    turned = replace(more, survey=replace(more.survey, section=dict(reversed([*more.survey.section.items()]))))
    assert [part.id for part in make_plan(turned).parts] != [part.id for part in make_plan(more).parts]
    assert plan_mark(turned) != plan_mark(more)
    owned = {"chest": Owned(length=inches(50)), "attic": Owned(length=inches(70))}
    held = [with_face(job, owned=each) for each in (owned, dict(reversed(owned.items())))]
    assert plan_mark(held[0]) != plan_mark(held[1])


@pytest.mark.parametrize(
    ("file", "stands"), [("demo-gannet-stair.toml", "GRJ4-Q7K3"), ("template-workroom.toml", "Q7ZY-2CK4")]
)
def test_the_marks_of_the_projects_that_come_along_stay(file: str, stands: str) -> None:
    project = read((PROJECTS / file).read_bytes())
    assert isinstance(project, Project)
    assert mark(project) == stands
