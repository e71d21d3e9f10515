"""What is written reads back, and what people and their editors make of a file is read or told at once."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Callable
from copy import deepcopy
from datetime import UTC, datetime
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from pydantic import ValidationError

from tests.endurance.fuzz import FIELDS, PAPER, check_file, type_at, within
from tests.project.projects import NASTY, ODD, projects
from tests.project.refusal_texts import refusal_text
from wizard.project.decode import DecodeError, decode
from wizard.project.encode import encode, plain
from wizard.project.file_schema import adapter, schema
from wizard.project.parse.field_values import shape_of, value_within
from wizard.project.plan_of_project import job_of
from wizard.project.problems import Problems
from wizard.project.project import Project, put_many
from wizard.project.reading import MOST_TOLD, has_comments, read
from wizard.project.value_faults import Fault
from wizard.render.formats import Request, render
from wizard.trade.job_fields import Owned
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan


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


# What is decoded: what was written, and of anything else every fault at once.
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


def without_faults(tables: dict[str, Any], faults: tuple[Fault, ...]) -> dict[str, Any]:
    """The tables without all that is wrong in them; of a list that has a fault nothing is left."""
    left = deepcopy(tables)
    for each in faults:
        here: Any = left
        for at, name in enumerate(each.path, 1):
            inside = here.get(name)
            if at == len(each.path) or not isinstance(inside, dict):
                here.pop(name, None)
                break
            here = inside
    return left


def check(tables: dict[str, Any]) -> None:
    """The tables make a project, or do once all is taken out that is told to be wrong."""
    faults: tuple[Fault, ...] | None = None
    try:
        decode(Project, tables)
    except DecodeError as error:
        faults = error.faults
    if faults is not None:
        assert faults
        assert all(each.sentence and each.path for each in faults)
        decode(Project, without_faults(tables, faults))


@given(tables=bent())
def test_all_that_is_wrong_is_told_at_once_and_pydantic_takes_and_refuses_the_same(tables: dict[str, Any]) -> None:
    check(tables)
    read, second = (taken(reader, tables) for reader in (partial(decode, Project), adapter(Project).validate_python))
    assert read == second


def taken(reader: Callable[[dict[str, Any]], Project], tables: dict[str, Any]) -> Project | None:
    """What a reader makes of the tables; None where it refuses them."""
    try:
        return reader(tables)
    except (DecodeError, ValidationError):
        return None


def test_a_refusal_carries_its_place_the_sentence_the_example_and_the_readings() -> None:
    with pytest.raises(DecodeError) as caught:
        decode(Project, {"format": 1, "survey": {"section": {"left": {"run": ["76 in", "1,200 mm"]}}}})
    path = ("survey", "section", "left", "run", "2")
    sentence = refusal_text("one way", "1,200 mm", "1200 mm")
    assert caught.value.faults == (Fault(path, sentence, "1200 mm", ("1200 mm",)),)


def test_a_typed_value_already_read_is_checked_again_for_the_field_it_goes_to() -> None:
    nothing = ZERO.typed("0 in")
    assert decode(Project, {"format": 1, "survey": {"floor_gap": nothing}}).survey.floor_gap == nothing
    with pytest.raises(DecodeError):
        decode(Project, {"format": 1, "cloth": {"face": {"width": nothing}}})


# Reading what people and their editors make of a project file.
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


# The JSON Schema takes what the reader takes and explains every key.
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
