"""The plan so far beside the question: as much of each line as there is room for, and it stays where it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import at, job, opened, until
from tests.screens.screen_texts import worded
from tests.trade.sample_jobs import inches
from wizard.render.plan_rows import Row, figure_of, rows
from wizard.screens.frame import PlanLine, shortened_line
from wizard.screens.panes.side_panel import SidePanel, line_of
from wizard.trade.first_figures import Segment
from wizard.trade.job_fields import Job, Section, Survey
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan


def told(*rows: Row, columns: int = 28) -> list[str]:
    return [line_of(each, columns).plain for each in rows]


def test_no_word_is_cut_and_a_value_without_space_is_under_its_label() -> None:
    rows = [
        Row("also to buy", *each)
        for each in ((), ("twill tape", "4 yd"), ("sewing thread", "1 spool"), ("staples", "41"))
    ]
    assert told(*rows) == [
        "Also to buy",
        "  twill tape 4 yd",
        "  sewing thread 1 spool",
        "  staples    41",
    ]
    assert told(Row("also to buy", "hook-and-loop, sewn loop side", "4 yd")) == [
        "  hook-and-loop, sewn loop\n    side\n      4 yd"
    ]


def test_a_value_too_long_for_its_line_goes_on_under_itself_with_its_mark() -> None:
    drop = Row("left section", "drop", "12 1/16 in, follows the floor", "part.left.drop")
    assert told(drop) == ["  drop       12 1/16 in,\n             follows the\n             floor"]
    marked = replace(drop, changed=True, was="12 3/8 in")
    assert told(marked) == [
        "  drop       12 1/16 in,\n             follows the\n             floor ▲\n             was 12 3/8 in"
    ]
    assert told(drop, columns=46) == ["  drop       12 1/16 in, follows the floor"]


@pytest.mark.parametrize("columns", range(24, 60))
def test_no_line_is_wider_than_its_place(columns: int) -> None:
    rows = [
        Row("", f"{'label ' * n}end", f"{'value ' * m}end", "figure", mark, "value " * m if mark else None)
        for n in range(5)
        for m in range(6)
        for mark in (False, True)
    ]
    lines = "\n".join(told(*rows, columns=columns)).split("\n")
    assert max(len(each) for each in lines) <= columns
    words = " ".join(" ".join(lines).split())
    assert words.count("label") == sum(each.label.count("label") for each in rows)
    assert words.count("end") == sum(f"{each.label}{each.value}".count("end") for each in rows)


def test_the_first_figures_are_said_before_the_plan_knows_its_own_and_each_says_why() -> None:
    job = Job(standard="inches", survey=Survey(bed_size="US queen"))
    told_first = [each for each in rows(make_plan(job)) if each.label == "in all"]
    assert [each.value for each in told_first] == [worded("first figures", "4 1/2 yd", "54 in")]
    drops = tuple(inches(12) for _ in range(3))
    section = {"left": Section(side="left", drop=drops), "foot": Section(side="foot")}
    plan = make_plan(Job(standard="inches", survey=Survey(floor="carpet", floor_gap=ZERO, section=section)))
    cut = next(each for each in rows(plan) if each.label == "cut length")
    assert cut.value.endswith(worded("usual allowances"))
    for each in rows(plan):
        assert each.figure is None or figure_of(plan, each.figure).value is not None


async def standing(pilot: Pilot[int]) -> SidePanel:
    panel = job(pilot).query_one(SidePanel)
    await until(pilot, lambda: panel.size.height > 0 and panel.max_scroll_y > 0)
    return panel


def with_changed(panel: SidePanel, *places: int) -> tuple[Row, ...]:
    return tuple(
        replace(each, changed=place in places and each.figure is not None, was=None)
        for place, each in enumerate(panel.rows)
    )


async def test_it_stays_where_it_is_unless_what_changed_first_would_be_out_of_sight(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (120, 24)) as pilot:
        job(pilot).session.go("survey.section.left.drop.2")
        job(pilot).show()
        await at(pilot, "survey.section.left.drop.2", "field")
        panel = await standing(pilot)
        last = max(place for place, each in enumerate(panel.rows) if each.figure)
        for change in ((2, last), (last,), (2,)):
            panel.tell(with_changed(panel, *change))
            await pilot.pause()
            assert panel.highlighted == min(change)
            there = panel.scroll_offset.y
            assert (there > 2) == (change == (last,))
            panel.tell(with_changed(panel))
            await pilot.pause()
            assert panel.scroll_offset.y == there
        panel.scroll_to(y=3, animate=False, immediate=True)
        panel.tell(with_changed(panel, 5))
        panel.tell(with_changed(panel))
        await pilot.pause()
        assert panel.scroll_offset.y == 3


async def test_the_plan_line_keeps_its_figures_where_there_is_no_room_for_what_it_is(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        job(pilot).session.go("survey.section.left.drop.2")
        job(pilot).show()
        line = job(pilot).query_one(PlanLine)
        await until(pilot, lambda: line.size.width > 0)
        long, cloths = "x" * 50, ("buy 4 yd", ", 3 yd of b", " and 2 yd of c")
        for said, shown in (
            (("4 yd",), worded("plan so far", "4 yd")),
            ((long, "; ", "buy 4 yd"), f"{long}; buy 4 yd"),
            ((long, " (usual)", ", 5 widths", "; ", "buy 4 yd"), f"{long} (usual); buy 4 yd"),
            ((long, "; ", *cloths), f"{long}; buy 4 yd and more"),
        ):
            line.texts, line.key = shortened_line([Segment(each) for each in said]), "F2"
            line.on_resize()
            assert str(line.render()).startswith(f"{shown} ")
