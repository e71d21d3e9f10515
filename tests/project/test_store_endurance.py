"""Samples of the long runs: saves of several processes into one project, and programs killed while they save."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

SAVES, KILLS = 150, 20


@pytest.mark.parametrize(
    ("command", "told"),
    [
        (("saves", "--saves", str(SAVES)), f"{SAVES} in one chain, 0 made on a value already replaced"),
        (("kills", "--kills", str(KILLS)), ": 0 wrong, "),
    ],
    ids=["saves", "kills"],
)
def test_nothing_that_was_reported_as_held_is_lost(command: tuple[str, ...], told: str) -> None:
    module, *options = command
    run = [sys.executable, "-m", f"tests.endurance.{module}", *options]
    done = subprocess.run(run, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    assert told in done.stdout
