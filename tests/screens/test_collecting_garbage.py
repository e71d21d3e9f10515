"""What showing an answer leaves behind is cleared away after it was shown, not in the middle of a later answer."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.benchmarks.stood import DEMO, copied
from tests.screens.pilots import opened
from wizard.cli import LITTER


@pytest.fixture
def as_the_wizard_clears() -> Iterator[list[str]]:
    """Clears away as seldom as the wizard does by itself; holds when it did: `in passing`, or `after showing`."""
    before, told = gc.get_threshold(), []

    def tell(phase: str, info: dict[str, int]) -> None:
        if phase == "start":
            told.append("in passing" if gc.get_count()[0] > LITTER else "after showing")

    gc.set_threshold(LITTER)
    gc.callbacks.append(tell)
    yield told
    gc.callbacks.remove(tell)
    gc.set_threshold(*before)


@pytest.mark.long
async def test_thirty_answers_are_cleared_away_after_and_never_in_passing(
    tmp_path: Path, as_the_wizard_clears: list[str]
) -> None:
    async with opened(copied(DEMO, tmp_path, "survey.section.left.run.1"), (120, 40)) as pilot:
        as_the_wizard_clears.clear()
        for _ in range(30):
            await pilot.press("enter")
            await pilot.pause()
    assert as_the_wizard_clears.count("after showing") >= 30
    assert "in passing" not in as_the_wizard_clears
