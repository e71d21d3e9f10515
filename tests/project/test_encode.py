"""What is written reads back the same, and a person can read it."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime

from hypothesis import given

from tests.project.projects import NASTY, projects
from wizard.project.encode import encode
from wizard.project.project import Project, put, put_many
from wizard.project.reading import has_comments, read


@given(project=projects())
def test_reading_what_was_written_gives_the_same_draft(project: Project) -> None:
    assert read(encode(project)) == project


@given(project=projects())
def test_writing_again_what_was_read_gives_the_same_bytes(project: Project) -> None:
    again = read(encode(project))
    assert isinstance(again, Project)
    assert encode(again) == encode(project)


@given(project=projects())
def test_what_is_written_has_no_comments_and_no_more_than_two_empty_ends(project: Project) -> None:
    data = encode(project)
    assert not has_comments(data)
    assert b"\n\n\n" not in data
    assert data.endswith(b"\n")


def test_nasty_names_come_back_as_they_were() -> None:
    for name in NASTY:
        project = put_many(Project(), {"name": name, "survey.section.left.name": name, "work.hem.note": name})
        again = read(encode(project))
        assert isinstance(again, Project)
        assert (again.name, again.work["hem"].note) == (name, name)


def test_the_file_is_laid_out_for_a_person() -> None:
    project = put_many(
        Project(),
        {
            "work.hem:face:left.done": datetime(2026, 3, 2, 10, 42, tzinfo=UTC),
            "survey.section.left.drop": ["11 7/8 in", "", "12 1/4 in"],
            "name": "Juniper loft",
            "survey.slatted": True,
            "survey.section.left.run": ["76 3/4 in", "76 5/8 in"],
            "survey.section.head": {},
            "cloth.fixing.pack": 1000,
            "kept.run-differs:left:right": "76 3/4 in | 79 in",
        },
    )
    assert encode(project).decode() == (
        "format = 1\n"
        'name = "Juniper loft"\n'
        "\n"
        "[survey]\n"
        "slatted = true\n"
        "\n"
        "[survey.section.left]\n"
        'run = ["76 3/4 in", "76 5/8 in"]\n'
        'drop = ["11 7/8 in", "", "12 1/4 in"]\n'
        "\n"
        "[survey.section.head]\n"
        "\n"
        "[cloth.fixing]\n"
        "pack = 1000\n"
        "\n"
        "[kept]\n"
        '"run-differs:left:right" = "76 3/4 in | 79 in"\n'
        "\n"
        '[work."hem:face:left"]\n'
        "done = 2026-03-02 10:42:00+00:00\n"
    )


def test_the_order_of_answering_does_not_change_the_order_of_the_keys() -> None:
    first = put(put(Project(), "name", "x"), "cloth.face.width", "54 in")
    second = put(put(Project(), "cloth.face.width", "54 in"), "name", "x")
    assert encode(first) == encode(second)


def test_a_long_list_stands_with_an_item_on_each_line() -> None:
    project = put(Project(), "survey.section.left.drop", ["12 1/4 in"] * 12)
    assert encode(project).decode().count("\n") == 4 + 12 + 1
    assert read(encode(project)) == project


def test_a_draft_of_nothing_is_a_file_of_one_line() -> None:
    assert encode(Project()) == b"format = 1\n"
    assert read(b"format = 1\n") == Project()


@given(project=projects())
def test_no_number_with_a_point_is_ever_written(project: Project) -> None:
    def floats(tree: object) -> list[float]:
        if isinstance(tree, dict):
            return [each for value in tree.values() for each in floats(value)]
        if isinstance(tree, list):
            return [each for value in tree for each in floats(value)]
        return [tree] if isinstance(tree, float) else []

    assert floats(tomllib.loads(encode(project).decode())) == []
