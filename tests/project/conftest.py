"""A project in a folder of its own, opened."""

from __future__ import annotations

from pathlib import Path

import pytest

from wizard.project.encode import encode
from wizard.project.marks import marked
from wizard.project.project import Project
from wizard.project.store import Opened, Store


@pytest.fixture
def store(tmp_path: Path) -> Store:
    path = tmp_path / "juniper.toml"
    path.write_bytes(encode(marked(Project(name="Juniper loft"))))
    store = Store(path)
    assert isinstance(store.open(), Opened)
    return store
