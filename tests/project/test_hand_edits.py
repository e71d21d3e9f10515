"""A saved file can tell what was edited by hand since."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given

from tests.project.projects import projects
from tests.project.stores import written
from wizard.project.encode import encode
from wizard.project.marks import edited, marked, unmarked
from wizard.project.project import Project, put_many
from wizard.project.reading import read
from wizard.project.store import Held, Opened, Store

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
