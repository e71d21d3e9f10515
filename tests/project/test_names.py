"""Names for files and ids out of what people call things."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wizard.project.names import new_id, new_path, slug
from wizard.project.project import Project, put


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
    draft = Project()
    for each in taken:
        draft = put(draft, f"survey.section.{each}", {})
    assert list(draft.survey.section) == taken


def test_a_new_file_never_goes_over_one_that_is_there(tmp_path: Path) -> None:
    for expected in ("juniper-loft.toml", "juniper-loft-2.toml", "juniper-loft-3.toml"):
        path = new_path(tmp_path, "Juniper loft")
        assert path == tmp_path / expected
        path.touch()


@given(name=st.text(max_size=300))
def test_any_name_gives_a_file_in_the_folder_itself(name: str) -> None:
    path = new_path(Path("somewhere"), name)
    assert path.parent == Path("somewhere")
    assert path.suffix == ".toml"
    assert len(path.name) <= 65
