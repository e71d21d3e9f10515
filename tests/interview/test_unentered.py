"""What was typed and not entered is in its field again at the next opening, and never in the project file."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import begun, give, refused, resumed
from tests.project.stores import failing
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


def test_a_length_not_entered_is_offered_at_the_next_opening(session: Session, tmp_path: Path) -> None:
    (tmp_path / "job.toml").chmod(0o600)
    before = (tmp_path / "job.toml").read_bytes()
    typed(session, "76 1/2")
    kept = (tmp_path / KEPT).stat()
    assert kept.st_mode & 0o777 == 0o600
    later = resumed(tmp_path)
    assert (later.at, later.text(RUN), later.state(RUN)) == (RUN, "76 1/2", "missing")
    assert later.resumed() == (worded("done so far", "3 answers"), worded("typed here", "76 1/2"))
    assert later.resumed(brief=True) == later.resumed()
    assert (tmp_path / "job.toml").read_bytes() == before
    # Nothing is written while nothing has changed.
    assert session.keep_pending()
    assert later.keep_pending()
    assert (tmp_path / KEPT).stat() == kept


def test_what_was_typed_elsewhere_is_told_with_its_question(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    session.go("survey.rail")
    give(session, "survey.rail", "solid wood")
    session.next()
    session.leave()
    later = resumed(tmp_path)
    assert (later.at, later.text(RUN)) == ("survey.rail_thickness", "76 1/2")
    assert later.resumed()[1] == worded("typed elsewhere", worded("run asked"), "76 1/2")


def test_leaving_keeps_what_is_typed_or_refused_but_no_line_of_a_list(session: Session, tmp_path: Path) -> None:
    session.go("survey.rail")
    session.type("survey.rail", "solid wood")
    session.leave()
    assert session.pending.left("survey.rail") == worded("lost", "solid wood")
    assert not (tmp_path / KEPT).exists()
    session.type(RUN, "76 1/2")
    session.leave()
    assert session.pending.left(RUN) == f"{worded('not entered', '76 1/2')} {worded('offered again')}"
    assert resumed(tmp_path).text(RUN) == "76 1/2"
    give(session, RUN, "77")
    refused(session, RUN, "76 bananas")
    session.leave()
    later = resumed(tmp_path)
    assert (later.text(RUN), later.state(RUN)) == ("76 bananas", "answered")


def test_what_is_entered_or_taken_out_of_the_field_is_not_offered_again(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    give(session, RUN, "76 1/2")
    # Killed before it could be taken away: the answer is another one now.
    assert (tmp_path / KEPT).exists()
    assert resumed(tmp_path).pending == {}
    session.leave()
    assert not (tmp_path / KEPT).exists()
    session.go(RUN)
    typed(session, "77")
    typed(resumed(tmp_path), "")
    assert resumed(tmp_path).pending == {}
    assert not (tmp_path / KEPT).exists()


def test_nothing_is_offered_that_was_answered_or_is_asked_no_more(session: Session, tmp_path: Path) -> None:
    typed(session, "76 1/2")
    give(resumed(tmp_path), RUN, "77")
    later = resumed(tmp_path)
    assert (later.text(RUN), later.pending) == ("77 in", {})
    typed(later, "76 1/2")
    give(later, "sides.on", "foot")
    later = resumed(tmp_path)
    assert (later.question(RUN), later.pending) == (None, {})
    assert not any("76 1/2" in each for each in later.resumed())
    later.go("survey.rail_thickness")
    typed(later, "1 1/")
    (tmp_path / "job.toml").unlink()
    begun(tmp_path, session.project)
    assert resumed(tmp_path).pending == {}


def test_where_it_cannot_be_kept_that_is_said_when_leaving(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    session.type(RUN, "76 1/2")
    failing(monkeypatch, errno.ENOSPC, "replace")
    assert not session.keep_pending()
    session.leave()
    assert session.pending.left(RUN) == worded("lost", "76 1/2")


ODD = (b"", b"not ours", b'{"at": 1}', b'{"texts": {"name": {"typed": "\\u001b[2J"}}}', b"\xff" * 100_000)


@pytest.mark.parametrize("left", ODD)
def test_a_file_beside_the_project_that_is_not_ours_is_no_harm(session: Session, tmp_path: Path, left: bytes) -> None:
    (tmp_path / KEPT).write_bytes(left)
    assert resumed(tmp_path).pending == {}
