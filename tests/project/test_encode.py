"""What is written reads back the same, and a person can read it."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime

import pytest
from hypothesis import given

from tests.project.projects import NASTY, projects
from wizard.project.encode import encode
from wizard.project.project import Project, put_many
from wizard.project.reading import has_comments, read


def floats(tree: object) -> list[float]:
    """Every number with a point in a tree of tables and lists."""
    if isinstance(tree, dict | list):
        return [each for value in (tree.values() if isinstance(tree, dict) else tree) for each in floats(value)]
    return [tree] if isinstance(tree, float) else []


@given(project=projects())
def test_what_was_written_reads_back_the_same_and_is_exact_and_tidy(project: Project) -> None:
    data = encode(project)
    again = read(data)
    assert isinstance(again, Project)
    assert again == project
    assert encode(again) == data
    assert floats(tomllib.loads(data.decode())) == []
    assert not has_comments(data)
    assert b"\n\n\n" not in data
    assert data.endswith(b"\n")


@pytest.mark.parametrize("name", NASTY)
def test_nasty_names_come_back_as_they_were(name: str) -> None:
    project = put_many(Project(), {"name": name, "survey.section.left.name": name, "work.hem.note": name})
    again = read(encode(project))
    assert isinstance(again, Project)
    assert (again.name, again.work["hem"].note) == (name, name)


ROWS = "\n".join(['    "12 1/4 in",'] * 12)
ANSWERS = {
    "work.hem:face:left.done": datetime(2026, 3, 2, 10, 42, tzinfo=UTC),
    "survey.section.left.drop": ["11 7/8 in", "", "12 1/4 in"],
    "name": "Juniper loft",
    "survey.slatted": True,
    "survey.section.left.run": ["76 3/4 in", "76 5/8 in"],
    "survey.section.head.drop": ["12 1/4 in"] * 12,
    "survey.section.right": {},
    "cloth.fixing.pack": 1000,
    "kept.run-differs:left:right": "76 3/4 in | 79 in",
}
LAID_OUT = f"""\
format = 1
name = "Juniper loft"

[survey]
slatted = true

[survey.section.left]
run = ["76 3/4 in", "76 5/8 in"]
drop = ["11 7/8 in", "", "12 1/4 in"]

[survey.section.head]
drop = [
{ROWS}
]

[survey.section.right]

[cloth.fixing]
pack = 1000

[kept]
"run-differs:left:right" = "76 3/4 in | 79 in"

[work."hem:face:left"]
done = 2026-03-02 10:42:00+00:00
"""


def test_the_file_is_laid_out_for_a_person_whatever_the_order_of_answering() -> None:
    other = {key: ANSWERS[key] for key in ("cloth.fixing.pack", "survey.section.left.run", *ANSWERS)}
    for answers in (ANSWERS, other):
        assert encode(put_many(Project(), answers)).decode() == LAID_OUT
    assert encode(Project()) == b"format = 1\n"
