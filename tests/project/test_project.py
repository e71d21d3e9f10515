"""Putting answers into a project and taking them out; templates."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.project.projects import ID, ODD, at, entries, leaves, projects, put_plain, text_at
from wizard.project.decode import decode
from wizard.project.encode import encode, plain, plain_value
from wizard.project.keys import limits_at, split
from wizard.project.parse.field_values import value_within
from wizard.project.project import Project, Unfit, begin, put, put_many, template_mark, template_of
from wizard.project.reading import read
from wizard.trade.field_names import in_words
from wizard.trade.fields import Standard
from wizard.trade.formatting import exact
from wizard.trade.job_fields import Job, usual_of
from wizard.trade.lengths import Length


def refused(key: str, value: object) -> tuple[str, str, str]:
    with pytest.raises(Unfit) as caught:
        put(Project(), key, value)
    return caught.value.key, caught.value.sentence, caught.value.example


LEFT = "survey.section.left"


def left(project: Project) -> dict[str, Any] | None:
    """The left section, as in the file."""
    found: dict[str, Any] | None = at(plain(project), split(LEFT))
    return found


def test_readings_are_kept_as_typed_and_their_places_stay() -> None:
    first = put(Project(), f"{LEFT}.drop.3", "29,2 cm")
    assert left(first) == {"drop": ["", "", "29,2 cm"]}
    assert text_at(first, f"{LEFT}.drop.1") is None
    both = put(Project(), f"{LEFT}.run", ["80 in", "79 in"])
    second = put(both, f"{LEFT}.run.1", None)
    assert left(second) == {"run": ["", "79 in"]}
    none = put(second, f"{LEFT}.run.2", None)
    assert left(none) == {}, "a section stays when its last answer goes"
    assert put(none, LEFT, None) == Project()


def test_taking_out_what_is_not_there_changes_nothing() -> None:
    project = put(Project(), "name", "Juniper loft")
    for key in (f"{LEFT}.drop.2", LEFT, "cloth.face.owned.bolt.length", "currency"):
        assert put(project, key, None) == project


def test_values_of_other_kinds_are_put_in() -> None:
    assert put(Project(), "survey.watch", []).survey.watch == ()
    assert put(Project(), "survey.watch", []) != Project(), "an empty list is an answer"
    assert put(Project(), "cloth.fixing.pack", "1000") == put(Project(), "cloth.fixing.pack", 1000)
    here = datetime(2026, 3, 2, 11, 42, 0, 4321, timezone(timedelta(hours=1)))
    done = put(Project(), "work.hem:face:left.done", here).work["hem:face:left"].done
    assert done == datetime(2026, 3, 2, 10, 42, tzinfo=UTC), "universal time, to the second"
    kept = put(Project(), "kept.zero:survey.section.left.run", "0 in")
    assert kept.kept == {"zero:survey.section.left.run": "0 in"}
    assert put(kept, "kept.zero:survey.section.left.run", None) == Project()


def test_of_many_answers_one_that_is_unfit_keeps_all_out() -> None:
    with pytest.raises(Unfit):
        put_many(Project(), {"name": "Juniper loft", "ruler": "soon"})


NO_ITEM = "There is no “{}” in survey.section.left.drop: its items are 1 to 40."


@pytest.mark.parametrize(
    ("key", "value", "sentence", "example"),
    [
        (f"{LEFT}.drop.41", "1 in", NO_ITEM.format(41), ""),
        (f"{LEFT}.drop.0", "1 in", NO_ITEM.format(0), ""),
        ("name.first", "x", "There is no “first” in name: it has no keys of its own.", ""),
        ("survey.sectoin", {}, "There is no key “sectoin” in survey. The nearest one is section.", "section"),
        ("name", "\udcff", "It contains a character that cannot be shown (U+DCFF).", "Juniper loft"),
        ("work.hem.done", datetime.max.replace(tzinfo=timezone(timedelta(hours=-3))),
         "Found a date and time. That is beyond the calendar.", "2026-03-02 10:42:00Z"),
    ],
)  # fmt: skip
def test_what_only_an_answer_can_be_is_refused_with_a_whole_sentence(
    key: str, value: object, sentence: str, example: str
) -> None:
    """What a file may be told as well stands in `broken/told.txt`."""
    assert refused(key, value) == (key, sentence, example)


@pytest.mark.parametrize("key", [key for key, kind in leaves() if kind in (str, int, bool, datetime)])
def test_a_value_of_the_wrong_type_is_told_an_example_that_would_be_taken(key: str) -> None:
    _, _, example = refused(key, 3.5)
    other = {"true": True, "2026-03-02 10:42:00Z": datetime(2026, 3, 2, 10, 42, tzinfo=UTC)}
    assert text_at(put(Project(), key, other.get(example, example)), key)


@pytest.mark.parametrize("key", [key for key, _ in leaves()] + ["survey", "survey.section", "cloth.face", "kept"])
def test_a_wrong_value_anywhere_is_taken_or_refused_in_words(key: str) -> None:
    told: list[Unfit] = []
    for value in ODD:
        try:
            put(Project(), key, value)
        except Unfit as refused_so:
            told.append(refused_so)
    assert len(told) > len(ODD) / 2
    for unfit in told:
        assert unfit.key.startswith(key.split(".")[0])
        assert unfit.sentence.endswith((".", "?"))
        assert len(unfit.sentence) < 700
        assert unfit.sentence.isprintable()


@given(pairs=entries(), pick=st.randoms(use_true_random=False))
def test_an_answer_put_in_and_taken_out_again_leaves_no_text(pairs: dict[str, Any], pick: Any) -> None:
    project = put_many(Project(), pairs)
    for key in sorted(pairs, key=lambda _: pick.random()):
        if key != "format":
            assert text_at(put(project, key, None), key) is None


@given(project=projects(), more=entries(), out=st.booleans())
def test_putting_in_makes_what_checking_the_whole_project_anew_would_make(
    project: Project, more: dict[str, Any], out: bool
) -> None:
    before, tables = plain(project), plain(project)
    for key, value in more.items():
        put_plain(tables, split(key), None if out else value)
    made = put_many(project, {key: None if out else value for key, value in more.items()})
    assert plain(project) == before, "the old one stays as it was"
    assert made == decode(Project, tables)
    assert plain(made) == plain(decode(Project, tables))


# The declarations of the fields: each has a name, and each usual value is one that may be typed.
TOLD = [key for key, _ in leaves(Job) if not key.startswith("kept.")]
"""Every key that the arithmetic is told of."""


def test_every_key_has_a_name_in_words() -> None:
    keys = [key.replace(f"owned.{ID}", "owned.length-2") for key in TOLD]
    assert [key for key in keys if in_words(key, Job()) == key] == ["name", "client", "currency"]


@pytest.mark.parametrize("standard", get_args(Standard))
def test_every_usual_value_may_be_typed(standard: Standard) -> None:
    for key in TOLD:
        usual, limits = usual_of(key, standard), limits_at(Project, split(key))
        if isinstance(usual, Length):
            assert limits is not None
            assert value_within(limits, exact(usual, "in" if standard == "inches" else "mm")) == usual
        elif isinstance(usual, str | bool):
            assert plain_value(put(Project(), key, usual)) is not None


# Templates keep a workroom's habits and nothing of the job they came from.
HABITS = {
    "show": "in",
    "allowances": {"top": "1/2 in"},
    "cloth": {"face": {"price": "18.50", "hem": "1/2 in"}},
    "fullness": {"want": "2.5"},
}
FILLED = put_many(
    Project(),
    {
        "name": "Marrow Lane workroom",
        "show": "in",
        "began_from": "an older one",
        "survey.rail": "solid wood",
        "survey.section.left.run": ["80 in"],
        "allowances.top": "1/2 in",
        "cloth.face.hem": "1/2 in",
        "cloth.face.price": "18.50",
        "cloth.face.owned.bolt.length": "3 yd",
        "fullness.want": "2.5",
        "progress.at": "cloth.face.width",
        "kept.run-differs:left:right": "76 in | 79 in",
        "work.cut-face.done": datetime(2026, 3, 2, 10, 42, tzinfo=UTC),
    },
)


def test_a_template_keeps_habits_and_a_project_begins_with_them_copied_in() -> None:
    template = template_of(FILLED)
    assert plain(template) == {"format": 1, "name": "Marrow Lane workroom", "template": True, **HABITS}
    loft = begin(template, "Juniper loft")
    begun_from = {"began_from": "Marrow Lane workroom", "began_mark": template_mark(FILLED)}
    assert plain(loft) == {"format": 1, "name": "Juniper loft", **begun_from, **HABITS}
    assert begin(FILLED, "Juniper loft") == loft, "another project serves as template too"
    assert plain(begin(Project(), "Juniper loft")) == {"format": 1, "name": "Juniper loft"}


def test_the_mark_of_a_template_changes_with_what_it_gives_and_with_nothing_else() -> None:
    template = template_of(FILLED)
    assert template_mark(put(template, "name", "Other name")) == template_mark(template) == template_mark(FILLED)
    assert template_mark(put(template, "allowances.top", "3/4 in")) != template_mark(template)


@pytest.mark.parametrize("name", ["", " ", "a\nb", "\x1b[2J", "x" * 201])
def test_a_name_that_is_not_fit_begins_no_project(name: str) -> None:
    with pytest.raises(Unfit) as caught:
        begin(Project(), name)
    assert caught.value.key == "name"


@given(project=projects())
def test_a_template_of_anything_can_be_written_has_no_survey_and_no_work_and_gives_the_rest(project: Project) -> None:
    template = template_of(project)
    held, begun = plain(template), plain(begin(template, "Juniper loft"))
    assert not {"survey", "work", "kept", "began_from"} & set(held)
    assert template_of(template) == template
    assert read(encode(template)) == template
    apart = dict.fromkeys(("name", "template", "began_from", "began_mark"))
    assert {**begun, **apart} == {**held, **apart}
