"""Every page of every job: small enough to be read at once, each key of the file on exactly one of them; and choices to
pick from are those of the trade's own types."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, Literal, get_args, get_origin

import pytest
from msgspec.structs import replace

from tests.interview.beds_at_random import NEVER_ASKED, project_of
from tests.interview.maker import EVERYTHING, an_answer, begun, finished
from tests.project.projects import ID, leaves
from wizard.interview.answer_text import differing, given_by, options, picked, words_for
from wizard.interview.job_state import work_out
from wizard.interview.outcome import Accepted
from wizard.interview.page import Page
from wizard.interview.pages.ask import AT_ONCE
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice, Question
from wizard.interview.session import Session
from wizard.project.keys import split
from wizard.project.project import Project, put_many
from wizard.render.plain_text import cell_len
from wizard.trade import job_fields as model
from wizard.trade.fields import bare, type_at
from wizard.trade.job_fields import LAYERS

JOBS = [(seed, holes) for seed in range(9) for holes in (0.0, 0.25, 0.6)]
WIDEST_LABEL = 34
OWN = re.compile(
    r"survey\.section\.some-id\.(free_height|hem_line|(left|right)_(end|hook|return))"
    r"|cloth\.face\.(repeat|repeat_kind)"
)
"""Keys that one answer gives together with others, and that have a question of their own besides."""
ADDING = {"survey.section", f"survey.section.{ID}.in_the_way", *(f"cloth.{layer}.owned" for layer in LAYERS)}
"""What adds a table, and is no key with a value."""
FOLLOWING = {
    *("progress.turned_posts", "progress.usual_allowances"),
    *(f"cloth.face.{leaf}" for leaf in ("use", "setback", "end_setback", "join", "lap")),
}
"""Keys that are written with another answer, or that mean nothing for the face."""


@cache
def pages(seed: int, holes: float, *, template: bool = False) -> tuple[Page, ...]:
    """The pages of a job."""
    project = project_of(seed, holes)
    return work_out(replace(project, began_from="Usual") if template else project).pages


def pattern(key: str) -> str:
    """A key with `ID` in place of each id, and without the number in a list."""
    return re.sub(r"(section|post|owned|in_the_way)\.[^.]+", rf"\1.{ID}", re.sub(r"\.\d+$", "", key))


@pytest.mark.parametrize("template", [False, True])
@pytest.mark.parametrize(("seed", "holes"), JOBS)
def test_a_page_has_few_fields_two_sentences_and_labels_that_fit(seed: int, holes: float, template: bool) -> None:
    for page in pages(seed, holes, template=template):
        assert page.title or not page.shown, page.id
        assert len(page.fields) <= AT_ONCE, page.id
        assert page.fields or not page.more, page.id
        assert len(re.findall(r"[.?!](?=\s|$)", page.words)) <= 2, (page.id, page.words)
        for each in page.questions:
            assert 0 < cell_len(each.label) <= WIDEST_LABEL, (each.key, each.label)


@pytest.mark.parametrize(
    ("standard", "side", "foot"), [("inches", "76 5/8 in", "58 1/8 in"), ("metric", "194.5 cm", "147.5 cm")]
)
def test_the_example_of_a_run_is_as_long_as_its_side(standard: str, side: str, foot: str) -> None:
    on = {f"survey.section.{each}.on": True for each in ("left", "foot")}
    found = {
        each.key: each.example
        for page in work_out(put_many(Project(), {"standard": standard, **on})).pages
        for each in page.fields
    }
    assert [found[f"survey.section.{each}.run.1"] for each in ("left", "foot")] == [side, foot]


@pytest.mark.parametrize(("seed", "holes"), JOBS)
def test_a_key_is_asked_once_and_only_what_may_be_set_on_its_own_once_more(seed: int, holes: float) -> None:
    questions = [each for page in pages(seed, holes) for each in page.questions]
    assert len({each.key for each in questions}) == len(questions)
    asked = Counter(key for each in questions for key in each.file_keys)
    assert {pattern(key) for key, times in asked.items() if times > 1 and not OWN.fullmatch(pattern(key))} == set()
    assert max(asked.values()) <= 2


def test_every_key_of_the_file_is_asked_in_some_job() -> None:
    asked = {pattern(key) for job in JOBS for page in pages(*job) for each in page.questions for key in each.file_keys}
    there = {pattern(key) for key, _ in leaves() if not key.startswith(NEVER_ASKED)}
    assert (there - asked, asked - there) == (FOLLOWING, ADDING)


@pytest.mark.parametrize("seed", [1, 2])
def test_a_key_of_the_file_leads_to_a_question_that_answers_it(tmp_path: Path, seed: int) -> None:
    session = begun(tmp_path, project_of(seed, 0.25))
    for key in {key for each in session.questions for key in each.file_keys}:
        assert session.go(key)
        there = session.current()
        assert there is not None
        assert key in there.file_keys


ALSO = re.compile(
    r"progress\.(usual_allowances|rails_alike|turned_posts)|cloth\..*\.(price|pack|step|sold_by|damage_to)"
)
"""What is written or taken out with another answer: a page that was looked at, a price for another unit."""


@pytest.mark.parametrize("seed", [1, 2])
def test_an_answer_writes_the_keys_of_its_question_and_reads_as_it_was_given(tmp_path: Path, seed: int) -> None:
    random, project = Random(seed), project_of(seed, 0.25)
    session = begun(tmp_path, project)
    for question in random.sample(session.questions, 60):
        before, text = given_by(session.project), an_answer(question, random)
        assert isinstance(session.answer(question.key, text), Accepted), (question.key, text)
        changed = differing(before, given_by(session.project))
        tables = tuple(f"{key.removesuffix('.1')}." for key in question.file_keys)
        stray = [each for each in changed if each not in question.file_keys and not each.startswith(tables)]
        further = re.compile(r"(.*\.)drop(_at)?\.\d+")
        stray = [each for each in stray if not (further.fullmatch(each) and further.fullmatch(question.key))]
        assert [each for each in stray if not ALSO.fullmatch(each)] == [], (question.key, text)
        if changed:
            session.undo()
        assert differing(before, given_by(session.project)) == ()


@pytest.mark.parametrize("seed", [2, 3])
def test_an_answer_taken_as_it_is_changes_nothing_that_was_set_on_its_own(tmp_path: Path, seed: int) -> None:
    session = begun(tmp_path, project_of(seed, 0.25))
    before, answered = given_by(session.project), [each for each in session.questions if each.answer is not None]
    assert {"same", "ticks", "ways"} <= {each.compound for each in answered}
    for question in (each for each in answered if each.compound in ("same", "corner")):
        assert isinstance(session.answer(question.key, session.text(question.key)), Accepted)
    assert [each for each in differing(before, given_by(session.project)) if not ALSO.fullmatch(each)] == []


@pytest.mark.parametrize("seed", [1, 2])
def test_answering_a_question_of_one_key_gives_the_file_that_putting_it_there_gives(tmp_path: Path, seed: int) -> None:
    session, answered = begun(tmp_path, project_of(seed, 0.25)), 0
    for question in Random(seed).sample(session.questions, 80):
        if (
            question.keys
            or question.kind in ("add", "choices")
            or question.key.endswith("_post")
            or ".drop" in question.key
        ):
            continue
        text = "500" if question.kind == "whole" else an_answer(question, Random(seed))
        of_kind: dict[str, dict[str, object]] = {"yes-no": {"yes": True, "no": False}, "whole": {text: 500}}
        value = of_kind.get(question.kind, {}).get(text, text)
        put = given_by(put_many(session.project, {question.key: value}))
        assert isinstance(session.answer(question.key, text), Accepted), (question.key, text)
        stray = [each for each in differing(put, given_by(session.project)) if not ALSO.fullmatch(each)]
        assert stray in ([], [question.key] if question.by_change else []), (question.key, text)
        session.undo()
        answered += 1
    assert answered > 20


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Session:
    """A bed with everything about it."""
    return finished(tmp_path_factory.mktemp("everything"), EVERYTHING)


def test_an_answer_to_several_keys_is_read_back_from_the_file(everything: Session) -> None:
    for question in everything.questions:
        for choice in options(question) if question.compound else ():
            assert isinstance(everything.answer(question.key, choice.value), Accepted)
            assert everything.text(question.key) == choice.value, question.key
            everything.undo()


IN_A_SYSTEM = {
    "metric": re.compile(r"\d ?(?:in|ft|yd)\b|\d[\"′″]"),
    "inches": re.compile(r"\d ?(?:mm|cm|m)\b"),
}
"""Standard -> a length in a unit of the other system."""
BOTH_SYSTEMS = {"standard", "show"}
"""Keys of the questions that ask for the system."""


@pytest.mark.parametrize("standard", IN_A_SYSTEM)
def test_every_text_of_a_job_is_in_its_own_units(tmp_path: Path, standard: str) -> None:
    project = put_many(finished(tmp_path, EVERYTHING).project, {"standard": standard, "cloth.face.owned.length": None})
    sold_by = {f"cloth.{each}.sold_by": None for each in (*LAYERS, "fixing", "tape")}
    project = put_many(project, {**sold_by, "progress.posts_alike": None})
    for page in work_out(project).pages:
        asked = [each for each in page.questions if each.key not in BOTH_SYSTEMS]
        texts = [page.title, page.words]
        texts += [text for each in asked for text in (each.title, each.words, each.how, each.example, each.usual or "")]
        texts += [choice.words for each in asked for choice in each.choices]
        assert [each for each in texts if IN_A_SYSTEM[standard].search(each)] == []


@pytest.mark.parametrize(("standard", "first", "last"), [("inches", "US", "EU"), ("metric", "UK", "US")])
def test_the_sizes_a_bed_is_sold_as_begin_with_those_of_its_own_system(standard: str, first: str, last: str) -> None:
    project = put_many(project_of(0, 0.0), {"standard": standard, "show": None})
    sides = next(each for each in work_out(project).pages if each.id == "sides")
    sizes = next(each for each in sides.fields if each.key == "survey.bed_size").choices
    assert (sizes[0].value[:2], sizes[-1].value[:2]) == (first, last)


# Choices.
OF_TYPES = {kind: offered for kind, offered in choices().items() if not isinstance(kind, str)}
OF_SEVERAL_KEYS = {
    "surface": ("cloth.face.one_way", "cloth.face.repeat", "cloth.face.repeat_kind"),
    "ways": ("fullness.joins", "cloth.face.lay", "cloth.face.way"),
}


@pytest.mark.parametrize(("kind", "offered"), OF_TYPES.items())
def test_every_value_of_the_type_is_offered_once_with_words(offered: tuple[Choice, ...], kind: Any) -> None:
    assert sorted(each.value for each in offered) == sorted(get_args(kind))
    assert all(each.words for each in offered)


@pytest.mark.parametrize(("name", "keys"), OF_SEVERAL_KEYS.items())
def test_an_answer_at_several_keys_that_is_offered_is_read_back(name: str, keys: tuple[str, ...]) -> None:
    for each in choices()[name]:
        project = put_many(Project(), COMPOUNDS[name].entries(keys, each.value, Project()))
        assert COMPOUNDS[name].read(keys, project) == each.value


@pytest.mark.parametrize("holes", [0.0, 0.5])
def test_a_field_with_a_few_values_offers_them_and_one_of_words_is_of_any(holes: float) -> None:
    project = project_of(0, holes)
    asked = [each for page in work_out(project).pages for each in page.questions if not each.compound]
    types = {each.key: bare(type_at(Project, split(each.key))) for each in asked if each.kind == "text"}
    assert {key: kind for key, kind in types.items() if get_origin(kind) is Literal} == {}
    assert all(options(each) for each in asked if each.kind in ("choice", "choices", "yes-no"))


def question(*offered: Choice, kind: Any = "choice") -> Question:
    return Question("survey.rail", "Survey", "the bed", None, "Rail", "Which?", "Look.", kind, offered)


def test_a_choice_is_picked_by_its_number_its_value_its_words_or_the_beginning_of_only_one() -> None:
    rails = question(*choices()[model.RailMaterial])
    for typed, value in (
        *(("3", "metal"), ("METAL", "metal"), (rails.choices[2].words, "metal"), ("up", "upholstered")),
        # What picks none or several is left as typed, for the field to judge.
        *(("9", "9"), ("", "")),
    ):
        assert picked(rails, typed) == value
    assert picked(question(Choice("stops", "stops"), Choice("stays", "stays")), "st") == "st"
    assert words_for(options(rails), "cardboard") == "cardboard"
    assert [each.value for each in options(question(kind="yes-no"))] == ["yes", "no"]
