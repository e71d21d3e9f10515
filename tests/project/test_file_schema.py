"""The JSON Schema takes what the reader takes and explains every key."""

from __future__ import annotations

import tomllib
from datetime import datetime
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.project.projects import projects
from wizard.project.encode import encode
from wizard.project.file_schema import schema
from wizard.project.folder import new_path
from wizard.project.keys import new_id, slug
from wizard.project.project import Project, put

CHECKER = jsonschema.Draft202012Validator(schema())


def as_json(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {name: as_json(each) for name, each in tree.items()}
    return tree.isoformat() if isinstance(tree, datetime) else tree


def complaints(text: str) -> list[str]:
    return [each.message for each in CHECKER.iter_errors(as_json(tomllib.loads(text)))]


@given(project=projects())
def test_the_schema_takes_every_project_that_can_be_written(project: Project) -> None:
    assert complaints(encode(project).decode()) == []


@pytest.mark.parametrize(
    "text",
    [
        'name = "x"\n',
        "format = 2\n",
        'format = 1\nnmae = "x"\n',
        'format = 1\n[survey]\nrail = "pine"\n',
        'format = 1\n[survey.section.Left]\nname = "x"\n',
        'format = 1\n[survey.section.left]\nrun = "80 in"\n',
        "format = 1\n[survey.section.left]\nrun = [80]\n",
        "format = 1\n[cloth.face]\nwidth = 54\n",
        "format = 1\n[cloth.fixing]\npack = 0\n",
        'format = 1\n[survey]\nslatted = "yes"\n',
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(text: str) -> None:
    assert complaints(text) != []


def test_it_is_a_schema_that_explains_every_key_and_none_may_be_null() -> None:
    shape = schema()
    jsonschema.Draft202012Validator.check_schema(shape)
    unsaid = [
        f"{name}.{key}"
        for name, table in (("Project", shape), *shape["$defs"].items())
        for key, each in table["properties"].items()
        if not each.get("description")
    ]
    assert unsaid == []
    assert "null" not in str(shape)


# Names for files and ids out of what people call things.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Juniper loft", "juniper-loft"),
        ("  Ünder—the Böard!  ", "under-the-board"),
        ("STRASSE ß", "strasse-ss"),
        ("½ of it", "1-2-of-it"),
        ("日本", "other"),
        ("---", "other"),
        ("", "other"),
        ("../../etc/passwd", "etc-passwd"),
        ("a" * 60, "a" * 40),
        ("a" * 39 + " b", "a" * 39),
    ],
)
def test_a_slug_is_plain(text: str, expected: str) -> None:
    assert slug(text, "other") == expected


@given(text=st.text(max_size=80), count=st.integers(0, 12))
def test_a_new_id_is_fit_and_never_taken(text: str, count: int) -> None:
    taken: list[str] = []
    for _ in range(count + 1):
        taken.append(new_id(text, taken, "section"))
    assert len(set(taken)) == count + 1
    project = Project()
    for each in taken:
        project = put(project, f"survey.section.{each}", {})
    assert list(project.survey.section) == taken


@given(name=st.text(max_size=300))
def test_any_name_gives_a_file_in_the_folder_itself(name: str) -> None:
    path = new_path(Path("somewhere"), name)
    assert path.parent == Path("somewhere")
    assert path.suffix == ".toml"
    assert len(path.name) <= 65
