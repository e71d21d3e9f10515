"""Reading decode and checking throughout take the same files, make the same of them, and refuse the same."""

from __future__ import annotations

import subprocess
import sys
from copy import deepcopy
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.project.projects import entries, projects
from wizard.project.decode import DecodeError, decode
from wizard.project.encode import plain
from wizard.project.project import Project
from wizard.project.validate import validate
from wizard.project.value_faults import Fault, Unquoted, fault_of, misread_at
from wizard.trade.fields import MOST_ITEMS

DEMO = Path("projects/demo-gannet-stair.toml")

ODD: tuple[Any, ...] = (
    "", " ", "0 in", "12", "12 in", "-1 in", "1,200 mm", "5 parsec", "1/999 in", "9999 m", "500 %",
    "left", "inches", "yes", "a" * 2000, "[b]", "\x07",
    0, 1, 2, -1, 10**30, 1_000_001, True, False, Unquoted("2.5"), None,
    datetime(2026, 3, 2, 10, 42, tzinfo=UTC), datetime(2026, 3, 2), date(2026, 3, 2), time(10, 42),
    [], ["12 in"], ["12 in", ""], ["0 in"], [1], [None], ["antique", "antique"], ["12 in"] * (MOST_ITEMS + 1),
    {}, {"": {}}, {"A": {}}, {"one": {}}, {"one": 1}, {"note": "x"}, {"run": ["12 in", 3]},
    {f"i{number}": {} for number in range(MOST_ITEMS + 1)},
)  # fmt: skip
"""Values that stand somewhere in a file by mistake, and some that are fit in places."""


@st.composite
def bent(draw: st.DrawFn) -> dict[str, Any]:
    """The tables of a project in which one thing or two are something else, or stand under another name."""
    tables = plain(draw(projects()))
    for _ in range(draw(st.integers(1, 2))):
        here: Any = tables
        while True:
            name = draw(st.sampled_from(sorted(here)) if here else st.just("stray"))
            if not isinstance(here[name] if here else None, dict) or draw(st.booleans()):
                break
            here = here[name]
        here[draw(st.sampled_from([name, "stray", "name", "run"]))] = deepcopy(draw(st.sampled_from(ODD)))
    return tables


def read_straight(tables: dict[str, Any]) -> Project | DecodeError:
    try:
        return decode(Project, tables)
    except DecodeError as crooked:
        return crooked


def faults(tables: dict[str, Any]) -> list[Fault] | Project:
    try:
        return validate(Project, tables)
    except ValidationError as error:
        return [fault_of(each, Project) for each in error.errors(include_url=False)]


@given(tables=bent())
def test_both_take_the_same_make_the_same_of_it_and_refuse_the_same(tables: dict[str, Any]) -> None:
    read, throughout = read_straight(tables), faults(tables)
    if isinstance(read, Project) or isinstance(throughout, Project):
        assert read == throughout
    elif read.misread:
        assert misread_at(read.path, read.value, read.misread) in throughout


@given(pairs=entries(), project=projects())
def test_what_is_fit_is_the_same_either_way(pairs: dict[str, Any], project: Project) -> None:
    assert decode(Project, plain(project)) == validate(Project, plain(project)) == project


@pytest.mark.parametrize("odd", ODD, ids=lambda odd: repr(odd)[:40])
@pytest.mark.parametrize(
    "way",
    [
        "name", "format", "ruler", "template", "show", "kept", "work", "work.hem", "work.hem.done", "work.hem.minutes",
        "survey", "survey.watch", "survey.section", "survey.section.left", "survey.section.left.run",
        "survey.section.left.drop_at", "survey.section.left.left_post", "cloth.fixing.pack", "cloth.face.price",
        "cloth.face.warp_shrink", "fullness.want", "stray", "cloth.stray",
    ],
)  # fmt: skip
def test_every_odd_value_in_every_kind_of_place_meets_the_same_answer(way: str, odd: Any) -> None:
    tables: dict[str, Any] = {}
    here = tables
    *above, name = way.split(".")
    for each in above:
        here = here.setdefault(each, {})
    here[name] = odd
    read, throughout = read_straight(tables), faults(tables)
    if odd is None:
        assert not isinstance(read, Project)  # no file holds it: only where a key may be missing does pydantic take it
    elif isinstance(read, Project) or isinstance(throughout, Project):
        assert read == throughout
    elif read.misread:
        assert misread_at(read.path, read.value, read.misread) in throughout


@pytest.mark.parametrize("then", ["pass", "put(draft, 'survey.section.left.run.1', '76 in')", "refused()"])
def test_a_file_without_a_fault_and_an_answer_to_one_question_load_no_pydantic(then: str) -> None:
    code = f"""
import sys
from wizard.project.project import Unfit, put
from wizard.project.reading import read
draft = read(open({str(DEMO)!r}, "rb").read())
def refused():
    try:
        put(draft, "fullness.want", "1/2")
    except Unfit as unfit:
        print(unfit)
{then}
print([each for each in sys.modules if each.startswith(("pydantic", "annotated_types"))])
"""
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert said.endswith("[]\n")
    assert said == "[]\n" or said.startswith("“1/2” is under 1: the skirt would be narrower than its rail.")
