"""Finding the projects of a folder, and passing over what is none."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.project.stores import LOFT, names
from wizard.project.encode import encode
from wizard.project.folder import Found, find_projects, find_templates, home_folder, named, new_path, template_called
from wizard.project.keys import new_id, slug
from wizard.project.plan_of_project import job_of, plan_of
from wizard.project.problems import Problems
from wizard.project.project import Project, begin, put, template_of
from wizard.project.reading import has_comments, read
from wizard.trade.lengths import Length


def keep(folder: Path, name: str, data: bytes, changed: int = 0) -> Path:
    path = folder / name
    path.write_bytes(data)
    os.utime(path, (changed, changed))
    return path


def found_names(found: tuple[Found, ...]) -> list[str]:
    return [each.path.name for each in found]


def test_projects_are_found_last_changed_first_and_looking_changes_nothing(tmp_path: Path) -> None:
    older = keep(tmp_path, "a.toml", b'# mine\nformat = 1\nname = "Juniper loft"\n', 1000)
    newer = keep(tmp_path, "b.toml", encode(put(LOFT, "currency", "$")), 2000)
    (tmp_path / "gone.toml").symlink_to("nowhere.toml")
    before = (older.stat().st_mtime, older.read_bytes(), names(tmp_path))
    assert find_projects(tmp_path) == (
        Found(newer, put(LOFT, "currency", "$"), datetime.fromtimestamp(2000, UTC)),
        Found(older, LOFT, datetime.fromtimestamp(1000, UTC)),
    )
    assert (older.stat().st_mtime, older.read_bytes(), names(tmp_path)) == before


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("pyproject.toml", b'[project]\nname = "x"\n\n[tool.thing]\nformat = "json"\n'),
        ("empty.toml", b""),
        ("other.toml", b'title = "format"\n[data]\nsurvey = 3\n'),
        ("picture.toml", bytes(range(256))),
        ("survey.toml", b"[surveys]\nformat = 1\n"),
        ("notes.txt", b"format = 1\n"),
        ("juniper.toml.before", b"format = 1\n"),
        (".juniper.toml.last", b"format = 1\n"),
        (".hidden.toml", b"format = 1\n"),
    ],
)
def test_other_files_are_passed_over(tmp_path: Path, name: str, data: bytes) -> None:
    keep(tmp_path, name, data)
    (tmp_path / "folder.toml").mkdir()
    assert find_projects(tmp_path) == ()


@pytest.mark.parametrize(
    "data",
    [
        b"format = 9\n",
        b'format = 1\nname = "not closed\n',
        b'\xef\xbb\xbfformat = 1\nrial = "x"\n',
        "format = 1\n".encode("utf-16"),
        b'name = "x"\n[survey.section.left]\nrun = ["80 in"]\n',
        b'[cloth]\nface.width = "54"\n',
        b"format = 1\n" + b"#" * 1_000_000,
        b'format = 1\ntemplate = true\nrial = "x"\n',
    ],
)
def test_a_broken_project_or_template_is_listed_with_its_problems(tmp_path: Path, data: bytes) -> None:
    keep(tmp_path, "broken.toml", data)
    keep(tmp_path, "whole.toml", encode(LOFT), 1000)
    broken, whole = sorted(find_projects(tmp_path), key=lambda each: each.path.name)
    assert isinstance(broken.project, Problems)
    assert whole.project == LOFT
    assert find_templates(tmp_path) == ()


def test_a_project_that_may_not_be_read_is_listed_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = keep(tmp_path, "locked.toml", encode(LOFT))

    def refuse(self: Path, *_: object) -> object:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "open", refuse)
    monkeypatch.setattr(Path, "read_bytes", refuse)
    (found,) = find_projects(tmp_path)
    assert found.path == path
    assert isinstance(found.project, Problems)


def test_templates_are_found_apart_from_projects_and_by_their_name(tmp_path: Path) -> None:
    template = template_of(put(LOFT, "name", "Usual"))
    keep(tmp_path, "my-template-skirt.toml", encode(put(LOFT, "name", "Usual")))
    assert template_called(tmp_path, "Usual") is None
    keep(tmp_path, "broken.txt", b"template = true\n[survey\n")
    (tmp_path / "c.toml").mkdir()
    keep(tmp_path, "habits.toml", encode(template))
    assert found_names(find_projects(tmp_path)) == ["my-template-skirt.toml"]
    assert found_names(find_templates(tmp_path)) == ["habits.toml"]
    keep(tmp_path, "broken.toml", b"template = true\n[survey\n")
    assert template_called(tmp_path, "Usual") == template
    assert template_called(tmp_path / "nowhere", "Usual") is None


def test_home_is_the_projects_folder_where_there_is_one(tmp_path: Path) -> None:
    assert home_folder(tmp_path) == tmp_path
    (tmp_path / "projects").touch()
    assert home_folder(tmp_path) == tmp_path
    (tmp_path / "projects").unlink()
    (tmp_path / "projects").mkdir()
    assert home_folder(tmp_path) == tmp_path / "projects"


def test_the_folder_one_stands_in_is_called_by_its_name() -> None:
    assert named(Path()) == Path(Path.cwd().name)
    assert named(Path("projects")) == Path("projects")


def test_a_new_file_never_goes_over_one_that_is_there(tmp_path: Path) -> None:
    for expected in ("juniper-loft.toml", "juniper-loft-2.toml", "juniper-loft-3.toml"):
        path = new_path(tmp_path, "Juniper loft")
        assert path == tmp_path / expected
        path.touch()


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


# The demo and the template that come along: complete, awkward on purpose, and as the program itself writes them.
PROJECTS: Final = {each.name: each for each in sorted((Path(__file__).parents[2] / "projects").glob("*.toml"))}
DEMO, TEMPLATE = "demo-gannet-stair.toml", "template-workroom.toml"


def shipped(name: str) -> Project:
    """One of them, read."""
    project = read(PROJECTS[name].read_bytes())
    assert isinstance(project, Project)
    return project


@pytest.mark.parametrize("name", PROJECTS)
def test_every_file_is_as_it_would_be_written_and_complete_or_a_template_as_its_name_says(name: str) -> None:
    data, project = PROJECTS[name].read_bytes(), shipped(name)
    assert encode(project) == data
    assert not has_comments(data)
    plan = plan_of(project)
    assert bool(project.template) is ("template" in name)
    assert plan.complete is not bool(project.template)
    if plan.complete:
        assert [each.id for each in plan.findings if each.level != "note"] == []
        assert all(layer.cutting is not None for layer in plan.layers)


def test_the_template_has_no_survey_and_no_work_and_the_demo_was_begun_from_it() -> None:
    template, demo = shipped(TEMPLATE), shipped(DEMO)
    assert template_of(template) == template
    assert begin(template, "x").began_from == demo.began_from == template.name
    assert demo.allowances == template.allowances
    assert (demo.cloth.tape, demo.cloth.thread) == (template.cloth.tape, template.cloth.thread)


def test_the_demo_is_awkward_on_purpose() -> None:
    job = job_of(shipped(DEMO))
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
