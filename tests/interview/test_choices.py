"""The answers to pick are those of the trade's own types, no more and no fewer."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import pytest

from tests.interview.beds_at_random import project_of
from tests.interview.interview_texts import worded
from tests.interview.maker import begun, give, resumed
from wizard.interview.answer_text import options, picked, words_of
from wizard.interview.job_state import work_out
from wizard.interview.outcome import Refused
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice, Question
from wizard.interview.session import Session
from wizard.project.keys import split
from wizard.project.project import Project, put_many
from wizard.trade import job_fields as model
from wizard.trade.fields import bare, type_at

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
    assert picked(rails, "3") == "metal"
    assert picked(rails, "METAL") == "metal"
    assert picked(rails, choices()[model.RailMaterial][2].words) == "metal"
    assert picked(rails, "up") == "upholstered"


def test_what_picks_none_or_several_is_left_as_typed_for_the_field_to_judge() -> None:
    ends = question(Choice("stops", "stops"), Choice("stays", "stays"))
    assert picked(ends, "st") == "st"
    assert picked(ends, "9") == "9"
    assert picked(ends, "") == ""


def test_a_value_that_is_not_offered_stands_for_its_own_words() -> None:
    assert words_of(question(*choices()[model.RailMaterial]), "cardboard") == "cardboard"


def test_a_yes_no_question_offers_both() -> None:
    assert [each.value for each in options(question(kind="yes-no"))] == ["yes", "no"]


# Damage of a length in hand has two ends: given one, the other is asked for; without the first there is none.
FROM, TO = "cloth.face.owned.length.damage_from", "cloth.face.owned.length.damage_to"


def with_a_length(folder: Path) -> Session:
    session = begun(folder)
    give(session, "cloth.face.owned", "3 yd")
    return session


def waited_for(session: Session) -> set[str]:
    return {FROM, TO} & session.plan.waits_for


def test_once_the_damage_begins_its_end_is_needed(tmp_path: Path) -> None:
    session = with_a_length(tmp_path)
    assert session.question(TO) is None
    give(session, FROM, "10 in")
    assert waited_for(session) == {TO}
    assert isinstance(session.answer(TO, ""), Refused)
    give(session, TO, "12 in")
    assert waited_for(session) == set()


def test_taking_out_where_the_damage_begins_takes_out_the_damage(tmp_path: Path) -> None:
    session = with_a_length(tmp_path)
    give(session, FROM, "10 in")
    give(session, TO, "12 in")
    give(session, FROM, "")
    assert (session.text(FROM), session.text(TO), waited_for(session)) == ("", "", set())
    session.undo()
    assert (session.text(FROM), session.text(TO)) == ("10 in", "12 in")


def test_an_end_alone_in_the_file_asks_for_the_beginning_or_is_taken_out(tmp_path: Path) -> None:
    with_a_length(tmp_path).leave()
    file = tmp_path / "job.toml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace('length = "3 yd"', 'length = "3 yd"\ndamage_to = "12 in"'), encoding="utf-8")
    session = resumed(tmp_path)
    assert waited_for(session) == {FROM}
    begins = session.question(FROM)
    assert begins is not None
    assert begins.how.endswith(worded("no damage"))
    give(session, TO, "")
    assert waited_for(session) == set()
    assert session.question(TO) is None
