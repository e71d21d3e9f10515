"""Reading what people and their editors make of a project file."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.endurance.fuzz import FIELDS, PAPER, check_file, type_at, within
from tests.project.projects import projects
from wizard.project.encode import encode
from wizard.project.parse.field_values import shape_of, value_within
from wizard.project.plan_of_project import job_of
from wizard.project.project import Project, put_many
from wizard.project.reading import MOST_TOLD, Problems, read
from wizard.render.formats import Request, render
from wizard.trade.job_fields import Owned
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan

LOFT = put_many(Project(), {"name": "Juniper loft", "ruler": "1/16 in", "survey.section.left.run": ["80 in", "79 in"]})


@pytest.mark.parametrize(
    "data",
    [
        encode(LOFT).replace(b"\n", b"\r\n"),
        b"\xef\xbb\xbf" + encode(LOFT),
        encode(LOFT).rstrip(b"\n"),
        b'format = 1\nname = "Juniper loft"\nruler = "1/16 in"\nsurvey.section.left.run = ["80 in", "79 in",]\n',
        "format=1\nname='Juniper loft'\nruler='1⁄16  in'\nsurvey={section={left={run=['80 in','79 in']}}}".encode(),
    ],
    ids=["line ends", "byte order mark", "no last line end", "dotted", "inline, a length not tidy"],
)
def test_a_project_is_read_from_any_shape_toml_and_editors_allow(data: bytes) -> None:
    found = read(data)
    assert isinstance(found, Project)
    assert encode(found) == encode(LOFT)


@st.composite
def cut_short(draw: st.DrawFn) -> bytes:
    """A written project with a piece taken out."""
    whole = encode(draw(projects()))
    start = draw(st.integers(0, len(whole)))
    return whole[:start] + whole[draw(st.integers(start, len(whole))) :]


@given(data=st.binary(max_size=300) | cut_short())
def test_any_bytes_are_a_project_or_problems_in_words(data: bytes) -> None:
    outcome = read(data)
    assert isinstance(outcome, Project) or all(each.sentence for each in outcome.all)


def test_of_a_file_with_thousands_of_problems_the_first_are_told_and_the_rest_counted() -> None:
    rows = "".join(f"key{number} = 1\n" for number in range(MOST_TOLD + 30))
    problems = read(f"format = 1\n{rows}".encode())
    assert isinstance(problems, Problems)
    assert len(problems.all) == MOST_TOLD + 1
    assert problems.all[-1].sentence == "There are 30 more problems in this file: is it the right one?"


@pytest.mark.parametrize("ending", [b"", b" ", b"\n\n"])
def test_a_problem_in_the_last_line_is_found_there(ending: bytes) -> None:
    problems = read(b'format = 1\nruler = "x"' + ending)
    assert isinstance(problems, Problems)
    assert [each.line for each in problems.all] == [2]


# A sample of `tests.endurance.fuzz`: what is typed at every kind of field, and files at and beyond their limits.
def test_what_is_typed_is_within_its_limits_or_refused_with_a_sentence_and_offers_that_are_taken() -> None:
    met: Counter[str] = Counter()
    assert [wrong for seed in range(1500) if (wrong := type_at(seed, met))] == []
    assert min(met["taken"], met["asked about"] * 5, met["refused"]) > 100


def test_a_damaged_file_or_one_at_its_limits_is_checked_in_bounded_time(tmp_path: Path) -> None:
    met: Counter[str] = Counter()
    assert [wrong for seed in range(25) if (wrong := check_file(tmp_path / "job.toml", seed, met))] == []
    assert met["BAD_FILE"]
    assert met["FOUND"]


def test_every_kind_of_field_takes_its_limits_and_its_examples_and_says_them_in_its_schema() -> None:
    for limits in FIELDS.values():
        for scale in limits.scales:
            for text in (scale.least, scale.most, scale.example):
                assert (limits.none is None and text.startswith("0 ")) or value_within(limits, text).text == text
        assert len(limits.scales) == (2 if limits.kind == "length" else 1)
        shape = shape_of(limits)
        assert shape["examples"] == [each.example for each in limits.scales]
        assert all(each.most in shape["description"] for each in limits.scales)


@pytest.mark.parametrize("repeat", [Length(Fraction(1, 1_000_000)), Length(100_000_000)], ids=["tiny", "huge"])
def test_no_loop_counts_through_what_a_repeat_beyond_any_limit_divides(repeat: Length) -> None:
    demo = read(Path("projects/demo-gannet-stair.toml").read_bytes())
    assert isinstance(demo, Project)
    job = job_of(demo)
    owned = {"length": Owned(length=Length(60), washed=True)}
    face = replace(job.cloth.face, repeat=repeat, match=True, lay="across", owned=owned)
    with within(PAPER):
        plan = make_plan(replace(job, cloth=replace(job.cloth, face=face)))
        assert plan.layers[0].cutting is not None
        assert render(plan, Request("html"))
