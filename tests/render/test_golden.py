"""The demo job's sheets, byte for byte. `python -m tests.render.golden_files` writes them anew, to be looked at."""

from __future__ import annotations

import pytest

from tests.render.golden_files import FOLDER, WANTED, fresh


@pytest.mark.parametrize("name", sorted(WANTED))
def test_the_demo_comes_out_byte_for_byte(name: str) -> None:
    assert fresh(name) == (FOLDER / name).read_bytes()


def test_there_is_no_golden_file_that_nothing_is_held_against() -> None:
    assert {path.name for path in FOLDER.iterdir()} == set(WANTED)
