"""A copy of a job that stands at a chosen question, and what the screen says there."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.problems import Problems
from wizard.project.project import put
from wizard.project.store import Store

DEMO = Path("projects/demo-gannet-stair.toml")
DROP = "survey.section.left.drop.2"


def session_on(file: Path) -> Session:
    """A session on the file, as the screens have one."""
    session = Session.resume(Store(file), lambda: datetime.now(UTC))
    if isinstance(session, Problems):
        raise SystemExit(f"{file} cannot be read")
    return session


def copied(source: Path, folder: Path, key: str) -> Path:
    """A copy of `source` in `folder` that opens on the question at `key`."""
    copy = folder / source.name
    copy.write_bytes(encode(put(session_on(source).project, "progress.at", key)))
    return copy


def asked_of(question: Question | None) -> str:
    """The last word of the question, which the screen shows by its field: no line breaks in it."""
    if question is None:
        raise SystemExit("no question is asked there")
    return question.words.rpartition(" ")[2]
