"""The first cutting plan is shown at once; a better one takes its place by itself."""

from __future__ import annotations

from pathlib import Path

from tests.project.test_better_plans import many_sections
from tests.screens.pilots import job, opened, until
from wizard.project.jobs import can_improve
from wizard.project.writing import write


async def test_a_plan_that_is_not_proven_is_improved_beside_the_screen_and_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "many.toml"
    path.write_bytes(write(many_sections(tmp_path, longer=6)))
    before = path.read_bytes()
    async with opened(path) as pilot:
        screen = job(pilot)
        await until(pilot, lambda: screen.bettered is not None and not can_improve(screen.session.plan))
        cutting = screen.session.plan.layers[0].cutting
        assert cutting is not None
        assert cutting.best.proof.fewest_joins
        assert screen.bettered is screen.session.plan
    assert path.read_bytes() == before
