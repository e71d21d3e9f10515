"""What was typed and not entered is in its field again at the next opening, and never in the project file."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import begun, give, resumed
from wizard.interview.outcome import Refused
from wizard.interview.session import Session
from wizard.project.project import Project, put_many

RUN = "survey.section.left.run.1"
KEPT = ".job.toml.typed"


@pytest.fixture
def session(tmp_path: Path) -> Session:
    """At the first run of the left side, one answer given."""
    session = begun(tmp_path, put_many(Project(), {"survey.section.left.on": True, "standard": "inches"}))
    give(session, "name", "Juniper loft")
    session.go(RUN)
    return session


def typed(session: Session, text: str) -> None:
    session.type(session.at, text)
    assert session.keep_pending()


def test_a_length_typed_and_not_entered_is_offered_at_the_next_opening(session: Session, tmp_path: Path) -> None:
    before = (tmp_path / "job.toml").read_bytes()
    typed(session, "76 1/2")
    later = resumed(tmp_path)
    assert (later.at, later.text(RUN), later.state(RUN)) == (RUN, "76 1/2", "missing")
    assert later.resumed() == (worded("done so far", "3 answers"), worded("typed here", "76 1/2"))
    assert later.resumed(brief=True) == later.resumed()
    assert (tmp_path / "job.toml").read_bytes() == before


def test_what_was_typed_elsewhere_is_told_with_its_question(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    session.go("survey.rail")
    give(session, "survey.rail", "solid wood")
    session.next()
    session.leave()
    later = resumed(tmp_path)
    assert later.at == "survey.rail_thickness"
    assert later.resumed()[1] == worded("typed elsewhere", worded("run asked"), "76 1/2")
    assert later.text(RUN) == "76 1/2"


def test_leaving_keeps_what_is_typed(session: Session, tmp_path: Path) -> None:
    session.type(RUN, "76 1/2")
    session.leave()
    assert session.pending.left(RUN) == f"{worded('not entered', '76 1/2')} {worded('offered again')}"
    assert resumed(tmp_path).text(RUN) == "76 1/2"


def test_what_is_entered_is_not_offered_again(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    give(session, RUN, "76 1/2")
    # Killed before it could be taken away: the answer is another one now.
    assert (tmp_path / KEPT).exists()
    assert resumed(tmp_path).pending == {}
    session.leave()
    assert not (tmp_path / KEPT).exists()


def test_what_is_taken_out_of_the_field_is_not_offered_again(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    typed(resumed(tmp_path), "")
    assert resumed(tmp_path).pending == {}
    assert not (tmp_path / KEPT).exists()


def test_a_question_that_is_asked_no_more_offers_nothing(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    give(session, "sides.on", "foot")
    later = resumed(tmp_path)
    assert later.question(RUN) is None
    assert later.pending == {}
    assert not any("76 1/2" in each for each in later.resumed())


def test_an_answer_given_elsewhere_meanwhile_is_not_typed_over(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    give(resumed(tmp_path), RUN, "77")
    later = resumed(tmp_path)
    assert (later.text(RUN), later.pending) == ("77 in", {})


def test_an_answer_being_typed_anew_is_kept_with_the_old_one_in_the_file(session: Session, tmp_path: Path) -> None:
    give(session, RUN, "77")
    typed(session, "76 1/2")
    later = resumed(tmp_path)
    assert (later.text(RUN), later.state(RUN)) == ("76 1/2", "answered")


def test_a_refused_text_is_kept_too(session: Session, tmp_path: Path) -> None:
    assert isinstance(session.answer(RUN, "76 bananas"), Refused)
    session.leave()
    assert resumed(tmp_path).text(RUN) == "76 bananas"


def test_a_line_of_a_list_was_not_typed(session: Session, tmp_path: Path) -> None:
    session.go("survey.rail")
    session.type("survey.rail", "solid wood")
    session.leave()
    assert session.pending.left("survey.rail") == worded("lost", "solid wood")
    assert not (tmp_path / KEPT).exists()


def test_nothing_is_written_while_nothing_has_changed(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    before = (tmp_path / KEPT).stat()
    assert session.keep_pending()
    later = resumed(tmp_path)
    assert later.keep_pending()
    assert (tmp_path / KEPT).stat() == before


def test_what_is_kept_is_as_private_as_the_project(session: Session, tmp_path: Path) -> None:
    (tmp_path / "job.toml").chmod(0o600)
    typed(session, "76 1/2")
    assert (tmp_path / KEPT).stat().st_mode & 0o777 == 0o600


def test_where_it_cannot_be_kept_that_is_said_when_leaving(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    session.type(RUN, "76 1/2")
    monkeypatch.setattr(os, "replace", fail)
    assert not session.keep_pending()
    session.leave()
    assert session.pending.left(RUN) == worded("lost", "76 1/2")


@pytest.mark.parametrize(
    "left",
    [
        b"",
        b"not ours",
        b'{"at": 1}',
        b'{"texts": {"name": {"typed": "\\u001b[2J"}}}',
        b"\xff" * 100_000,
    ],
)
def test_a_file_beside_the_project_that_is_not_ours_is_no_hindrance(
    session: Session, tmp_path: Path, left: bytes
) -> None:
    (tmp_path / KEPT).write_bytes(left)
    assert resumed(tmp_path).pending == {}


def test_a_new_project_takes_nothing_over_from_one_of_its_name_that_was_removed(
    session: Session, tmp_path: Path
) -> None:
    typed(session, "76 1/2")
    (tmp_path / "job.toml").unlink()
    begun(tmp_path, session.project)
    assert resumed(tmp_path).pending == {}
