"""A project in a folder of its own, opened."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.project.stores import opened, written
from wizard.project.store import Store


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return opened(written(tmp_path / "juniper.toml"))
