"""Damage of a length in hand has two ends: given one, the other is asked for; without the first there is none."""

from __future__ import annotations

from pathlib import Path

from tests.questions.maker import begun, give, resumed
from wizard.questions.outcome import Refused
from wizard.questions.session import Session

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
    assert begins.how.endswith("For none, empty where it ends.")
    give(session, TO, "")
    assert waited_for(session) == set()
    assert session.question(TO) is None
