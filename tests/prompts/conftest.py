"""Jobs that are made once and tried again and again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.prompts.talks import job_at

RUN = "survey.section.left.run.1"


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The file of a job that stands at the first run, and of one with every question answered."""
    return {each: job_at(tmp_path_factory.mktemp("made"), each).read_bytes() for each in (RUN, "")}


def _copy(data: bytes, folder: Path) -> Path:
    file = folder / "job.toml"
    file.write_bytes(data)
    return file


@pytest.fixture
def at_run(made: dict[str, bytes], tmp_path: Path) -> Path:
    """A job that stands at the first run."""
    return _copy(made[RUN], tmp_path)


@pytest.fixture
def whole(made: dict[str, bytes], tmp_path: Path) -> Path:
    """A job with every question answered, at its first step."""
    return _copy(made[""], tmp_path)
