"""The chart of fullness steps: one moves along it, the plan follows, and nothing is saved until Enter."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from threading import Event

import pytest
from textual.pilot import Pilot

from tests.render.jobs import whole_plan
from tests.screens.jobs import job_file
from tests.screens.pilots import PATIENCE, SIZES, focused, job, opened, seen, sees, settled, until, wholly_visible
from wizard.project.encode import encode
from wizard.project.project import Project, put_many
from wizard.project.reading import read
from wizard.screens.figure_words import bought_words, figure_words, sold_by
from wizard.screens.panes.fullness_pane import FullnessPane, StepChart
from wizard.screens.panes.fullness_words import heads, lines_of
from wizard.trade.fullness_offers import Row
from wizard.trade.plan_records import Plan


def in_hand(pilot: Pilot[int]) -> Row:
    row = job(pilot).query_one(FullnessPane).row
    assert row is not None
    return row


async def charted(pilot: Pilot[int]) -> None:
    """Open the chart and wait until every step is worked."""
    await pilot.press("f10")
    await until(pilot, lambda: job(pilot).view == "fullness" and job(pilot).whole)
    await until(pilot, lambda: focused(pilot) == "chart")


async def test_one_moves_along_takes_a_step_and_takes_it_back(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path, (120, 40)) as pilot:
        screen, before = job(pilot), path.read_bytes()
        place = screen.session.at
        await charted(pilot)
        assert in_hand(pilot).now
        await sees(pilot, "● ")
        assert "Worth knowing" in seen(pilot)
        now = screen.session.plan
        await pilot.press("left")
        row = in_hand(pilot)
        await until(pilot, lambda: screen.tried not in (None, now))
        assert screen.tried is not None
        assert screen.tried.figures["fullness"].value == row.step.handy
        assert "was 2.5" in seen(pilot)
        assert (path.read_bytes(), screen.session.plan) == (before, now)
        await pilot.press("escape")
        await until(pilot, lambda: screen.view != "fullness")
        assert (path.read_bytes(), screen.session.at) == (before, place)
        await charted(pilot)
        await pilot.press("up", "enter")
        await until(pilot, lambda: screen.view != "fullness")
        assert screen.session.plan.figures["fullness"].value == row.step.handy
        assert screen.session.at == place
        await pilot.press("f5")
        await until(pilot, lambda: screen.session.plan.figures["fullness"].value == now.figures["fullness"].value)


async def test_one_step_is_tried_at_a_time_however_many_are_found_and_moved_along(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate, tries, running, most = Event(), list[str](), 0, 0
    async with opened(job_file(tmp_path / "loft.toml", "fullness.want"), (80, 24)) as pilot:
        screen = job(pilot)
        would = screen.session.would

        def held(answers: Mapping[str, str]) -> Plan:
            nonlocal running, most
            tries.append(answers["fullness.want"])
            running += 1
            most = max(most, running)
            gate.wait(PATIENCE)
            running -= 1
            return would(answers)

        monkeypatch.setattr(screen.session, "would", held)
        try:
            await pilot.press("f10")
            await until(pilot, lambda: bool(tries) and screen.whole and bool(screen.chart.shown))
            await pilot.press("up", "up")
        finally:
            gate.set()
        row = in_hand(pilot)
        await until(pilot, lambda: screen.tried is not None)
        assert screen.tried is not None
        assert screen.tried.figures["fullness"].value == row.step.handy
        await settled(pilot)
    assert (len(tries), most) == (2, 1)


@pytest.mark.long
async def test_the_chart_and_its_buttons_fit_every_size_and_are_reached_from_the_question(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.joins")
    for size in SIZES:
        async with opened(path, size) as pilot:
            screen = job(pilot)
            await until(pilot, lambda screen=screen: screen.whole and screen.query_one("#along").display)
            screen.query_one("#along").scroll_visible(animate=False)
            await pilot.pause()
            await pilot.click("#along")
            await until(pilot, lambda screen=screen: screen.view == "fullness")
            for each in ("#chart-title", "#chart-take", "#chart-leave"):
                assert wholly_visible(screen.query_one(each)), (size, each)
            assert screen.query_one(StepChart).size.height >= 4
            await pilot.click("#chart-leave")
            await until(pilot, lambda screen=screen: screen.view == "question")


async def test_a_fullness_is_chosen_from_the_chart_before_any_is_given(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.want"), (80, 24)) as pilot:
        screen = job(pilot)
        await until(pilot, lambda: screen.whole and bool(screen.steps))
        assert screen.session.at == "fullness.want"
        await charted(pilot)
        await until(pilot, lambda: screen.tried is not None)
        row = in_hand(pilot)
        assert not row.now
        await pilot.press("enter")
        await until(pilot, lambda: screen.view == "question")
        assert screen.session.plan.figures["fullness"].value == row.step.handy
        assert screen.session.at != "fullness.want"


async def test_before_a_fullness_is_chosen_nothing_is_compared_and_no_sign_is_explained(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.want"), (80, 24)) as pilot:
        await charted(pilot)
        await sees(pilot, "in all ")
        assert "as it is now" not in seen(pilot)
        assert "not yet" not in seen(pilot)
        said = seen(pilot).partition("  in all ")[2].splitlines()[0].partition("│")[0]
        assert re.fullmatch(r"[0-9]+[.][0-9]{2} *", said)


@pytest.mark.parametrize("until_key", [None, "fullness.want"])
async def test_each_column_of_the_chart_has_its_heading_over_it(tmp_path: Path, until_key: str | None) -> None:
    async with opened(job_file(tmp_path / "loft.toml", until_key)) as pilot:
        await charted(pilot)
        pane = job(pilot).chart
        assert pane.plan is not None
        for columns in range(30, 90):
            head = heads(pane.shown, columns).plain
            for line in lines_of(pane.shown, pane.plan, columns):
                joins = re.search(r"(no|\d+) joins?", line.plain)
                assert joins is not None
                assert (head.index("joins"), len(head)) == (joins.start(), len(line.plain))
                assert head.endswith("    cost")
                assert (head.index("buy"), head.index("full")) == (2, 12)


async def test_what_the_cloth_in_hand_gives_is_said_where_the_fullness_is_asked_for(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.want")
    project = read(path.read_bytes())
    assert isinstance(project, Project)
    path.write_bytes(encode(put_many(project, {"cloth.face.owned.chest.length": "14 yd"})))
    async with opened(path, (100, 40)) as pilot:
        await sees(pilot, "left over of the slate ticking: ")
        await sees(pilot, "hardly gathers.")


# Figures as they read on the screens.
def test_what_is_to_be_bought_reads_in_the_unit_it_is_sold_by_wherever_it_stands() -> None:
    plan = whole_plan()
    layer = plan.layers[0]
    assert figure_words(layer.buy, plan) == bought_words(layer.buy, sold_by(plan, layer.id)) == "2 3/4 yd"
    assert figure_words(layer.roll, plan).endswith(" in")
