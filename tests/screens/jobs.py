"""A whole job for the screens to be tried on, made through the session as the screens make it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from tests.interview.maker import MEASURED, left_at

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)

GIVEN = MEASURED | {
    "survey.rail_thickness": "1 1/8 in",
    "survey.section.left.drop.3": "12 1/8",
    "survey.section.foot.run.2": "58 1/8",
    "cloth.face.width": "55 in",
    "cloth.face.price": "18.50",
    "fullness.how": "2.5",
}
"""What is given; every other question takes its usual answer, or stays open."""


def job_file(path: Path, until: str | None = None) -> Path:
    """A job answered up to the question at `until`, which stands open; all of it for None."""
    path.write_bytes(left_at(GIVEN, until or ""))
    return path
