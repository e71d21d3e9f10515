"""Jobs that are made once and tried again and again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.prompts.talks import RUN, job_at


@pytest.fixture
def at_run(tmp_path: Path) -> Path:
    """A job that stands at the first run."""
    return job_at(tmp_path, RUN)


@pytest.fixture
def whole(tmp_path: Path) -> Path:
    """A job with every question answered, at its first step."""
    return job_at(tmp_path)
