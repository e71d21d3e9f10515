"""The plan mark: the same for the same job, another for another; and what was edited by hand since a save."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given
from msgspec.structs import replace

from tests.project.projects import projects
from tests.project.stores import written
from tests.render.jobs import WHOLE, project_of
from tests.trade.sample_jobs import everything, inches, with_face
from wizard.project.encode import encode
from wizard.project.marks import edited, marked, plan_mark, unmarked
from wizard.project.plan_of_project import job_of
from wizard.project.project import Project, put, put_many
from wizard.project.reading import read
from wizard.project.store import Held, Opened, Store
from wizard.trade.job_fields import Job, Owned, Section
from wizard.trade.make_plan import make_plan


def mark(project: Project) -> str:
    return plan_mark(job_of(project))


def of_file(name: str) -> str:
    """The mark of a project that comes along."""
    return mark(project_of(Path("projects", name).read_text(encoding="utf-8")))


def test_a_mark_never_changes_from_one_version_to_the_next() -> None:
    # Printed on paper that hangs on walls: a change here parts every sheet from its file.
    assert mark(project_of('format = 1\nname = "Juniper loft"\n[cloth.face]\nwidth = "54 in"\n')) == "MX5G-CJ5W"
    assert of_file("demo-gannet-stair.toml") == "GRJ4-Q7K3"
    assert of_file("template-workroom.toml") == "Q7ZY-2CK4"
    # No two of its letters are mistaken for one another.
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", mark(project_of(WHOLE)))


@pytest.mark.parametrize(
    "same",
    [
        {"progress.at": "cloth.face.width", "progress.rails_alike": False},
        {"kept.run-differs:left:right": "1 | 2"},
        {"work.buy.done": datetime(2026, 3, 2, 10, 42, tzinfo=UTC)},
        {"cloth.face.width": "1397 mm"},
        {"fullness.want": "2 1/2"},
        {"cloth.face.price": "18.5"},
        {"survey.section.left.run.1": "6 ft 4 5/8 in"},
        {},
    ],
    ids=str,
)
def test_progress_ticks_kept_findings_and_another_way_of_typing_leave_the_mark_alone(same: dict[str, object]) -> None:
    whole = project_of(WHOLE)
    assert mark(project_of(encode(put_many(whole, same)).decode())) == mark(whole)


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
    assert mark(put(project_of(WHOLE), key, value)) != mark(project_of(WHOLE))


def test_a_value_never_passes_for_another_at_the_next_key() -> None:
    drops = "survey.section.left.drop"
    for one, other in (
        ({"cloth.face.name": "silk"}, {"cloth.lining.name": "silk"}),
        ({drops: ["1 in", "", "2 in"]}, {drops: ["1 in", "2 in"]}),
    ):
        assert mark(put_many(Project(), one)) != mark(put_many(Project(), other))


def shuffled(tables: Mapping[str, Any], random: Random) -> dict[str, Any]:
    """The same tables as another file would have them."""
    items = list(tables.items())
    random.shuffle(items)
    return dict(items)


def with_sections(job: Job, sections: dict[str, Section]) -> Job:
    return replace(job, survey=replace(job.survey, section=sections))


@pytest.mark.parametrize("seed", range(12))
def test_tables_in_another_order_change_neither_the_plan_nor_its_mark(seed: int) -> None:
    job, random = everything(), Random(seed)
    sections = {
        id: replace(each, in_the_way=shuffled(each.in_the_way, random)) for id, each in job.survey.section.items()
    }
    other = with_sections(job, shuffled(sections, random))
    other = replace(other, survey=replace(other.survey, post=shuffled(job.survey.post, random)))
    assert make_plan(other).work == make_plan(job).work
    assert plan_mark(other) == plan_mark(job)


def test_a_section_that_is_off_counts_wherever_it_stands() -> None:
    job = everything()
    off = replace(job.survey.section["foot"], on=False)
    last = with_sections(job, {**job.survey.section, "spare": off, "other": off})
    first = with_sections(job, {"other": off, "spare": off, **job.survey.section})
    assert plan_mark(first) == plan_mark(last) != plan_mark(job)


def test_the_order_of_two_sections_of_one_side_and_of_two_lengths_in_hand_is_the_plans_and_the_marks() -> None:
    job = everything()
    second = replace(job.survey.section["left"], name="door side", in_the_way={})
    more = with_sections(job, {**job.survey.section, "door": second})
    turned = with_sections(more, dict(reversed([*more.survey.section.items()])))
    assert [part.id for part in make_plan(turned).parts] != [part.id for part in make_plan(more).parts]
    assert plan_mark(turned) != plan_mark(more)
    owned = {"chest": Owned(length=inches(50)), "attic": Owned(length=inches(70))}
    held = [with_face(job, owned=each) for each in (owned, dict(reversed(owned.items())))]
    assert plan_mark(held[0]) != plan_mark(held[1])


# A saved file can tell what was edited by hand since.
LOFT = put_many(
    Project(),
    {
        "name": "Juniper loft",
        "survey.rail": "solid wood",
        "survey.section.left.run": ["76 3/4 in"],
        "survey.section.left.in_the_way.centre-leg.at": "38 in",
        "survey.section.foot.run": ["58 in"],
        "allowances.top": "1/2 in",
        "cloth.face.width": "54 in",
        "fullness.want": "2.5",
        "progress.at": "cloth.face.width",
        "progress.rails_alike": True,
        "work.cut:face.note": "a slub",
    },
)


@given(project=projects())
def test_what_was_saved_and_not_touched_counts_as_unedited(project: Project) -> None:
    again = read(encode(marked(unmarked(project))))
    assert isinstance(again, Project)
    assert edited(again) == ()
    assert unmarked(again) == unmarked(project)


@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        ('"Juniper loft"', '"Larch attic"', ("job",)),
        ('"solid wood"', '"metal"', ("survey",)),
        ('"76 3/4 in"', '"76 1/4 in"', ("survey.section.left",)),
        ('at = "38 in"', 'at = "39 in"', ("survey.section.left",)),
        ("[survey.section.foot]\n", "[survey.section.head]\n", ("survey.section.foot", "survey.section.head")),
        ('top = "1/2 in"', "", ("allowances",)),
        ('"54 in"', '"55 in"', ("cloth.face",)),
        ("[fullness]", '[cloth.lining]\nwidth = "45 in"\n[fullness]', ("cloth.lining",)),
        ('"2.5"', '"2"', ("fullness",)),
        ("rails_alike = true", "rails_alike = false", ("progress",)),
        ("a slub", "two slubs", ("work",)),
        ('at = "cloth.face.width"', 'at = "name"', ()),
        ("\n[", "\n\n# by hand\n[", ()),
        ('run = ["58 in"]', 'run = [\n  "58 in",\n]', ()),
    ],
)
def test_an_edit_by_hand_is_told_by_its_part_and_a_new_layout_is_none(
    old: str, new: str, parts: tuple[str, ...], tmp_path: Path
) -> None:
    path = written(tmp_path / "loft.toml", LOFT)
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    store = Store(path)
    opened = store.open()
    assert isinstance(opened, Opened)
    assert sorted(opened.edited) == sorted(parts)
    assert isinstance(store.save(opened.project), Held)
    assert Store(path).open() == Opened(opened.project, has_comments=False)


@pytest.mark.parametrize("marks", ["", 'written = "nothing of ours"', 'written = "job=1 =2 ="'])
def test_marks_that_were_taken_out_or_garbled_by_hand_hinder_nothing(marks: str, tmp_path: Path) -> None:
    path = written(tmp_path / "loft.toml", LOFT)
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(marks if each.startswith("written") else each for each in lines), encoding="utf-8")
    opened = Store(path).open()
    assert isinstance(opened, Opened)
    assert opened.project == LOFT
    assert bool(opened.edited) is bool(marks)
