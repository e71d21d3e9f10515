"""A whole job for the screens to be tried on, made through the session as the screens make it."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from wizard.interview.outcome import Accepted
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.project.project import Project, put
from wizard.project.store import Store

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)

GIVEN = {
    "survey.rail": "solid wood",
    "survey.rail_thickness": "1 1/8 in",
    "survey.floor": "carpet",
    "survey.section.left.run.1": "76 5/8",
    "survey.section.left.run.2": "76 1/2",
    "survey.section.left.drop.1": "11 7/8",
    "survey.section.left.drop.2": "12",
    "survey.section.left.drop.3": "12 1/8",
    "survey.section.foot.run.1": "58",
    "survey.section.foot.run.2": "58 1/8",
    "survey.section.foot.drop.1": "9",
    "survey.section.foot.drop.2": "9",
    "survey.section.foot.drop.3": "9 1/8",
    "survey.section.right.run.1": "76 1/2",
    "survey.section.right.run.2": "76 1/2",
    "survey.section.right.drop.1": "12",
    "survey.section.right.drop.2": "12",
    "survey.section.right.drop.3": "12",
    "cloth.face.width": "55 in",
    "cloth.face.name": "slate ticking",
    "cloth.face.kind": "plain cotton",
    "cloth.face.weight": "medium",
    "cloth.face.price": "18.50",
    "fullness.how": "2.5",
}
"""What is given; every other question takes its usual answer, or stays open."""


def answer_to(question: Question) -> str:
    """The answer this job gives to a question."""
    return GIVEN.get(question.key, "")


def job_file(path: Path, until: str | None = None) -> Path:
    """A job answered up to the question at `until`, which stands open; all of it for None."""
    path.write_bytes(_all_of_it()[until])
    return path


@cache
def _all_of_it() -> dict[str | None, bytes]:
    """The file's bytes as they are when one leaves it at each question, and at the end: answered once in a test run."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "loft.toml"
        session = Session.begin(Store(path), put(Project(), "name", "Juniper loft"), lambda: NOON)
        assert isinstance(session, Session)
        found: dict[str | None, bytes] = {}
        while (question := session.current()) is not None:
            session.leave()
            found.setdefault(question.key, path.read_bytes())
            outcome = session.answer(question.key, answer_to(question))
            assert isinstance(outcome, Accepted), (question.key, outcome)
            if not session.next():
                break
        session.leave()
        return {**found, None: path.read_bytes()}
