"""The plan so far beside the question, and in a line: what it says before a plan is whole, and that it stays put."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from tests.screens.pilots import loft
from tests.screens.screen_texts import worded
from tests.trade.sample_jobs import inches
from wizard.render.plan_rows import Row, figure_of, rows
from wizard.screens.frame import PlanLine, shortened_line
from wizard.screens.panes.side_panel import SidePanel
from wizard.trade.first_figures import Segment
from wizard.trade.job_fields import Job, Section, Survey
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan

MIDDLE = "survey.section.left.drop.2"


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


def with_changed(panel: SidePanel, *places: int) -> tuple[Row, ...]:
    return tuple(
        replace(each, changed=place in places and each.figure is not None, was=None)
        for place, each in enumerate(panel.rows)
    )


async def test_it_stays_where_it_is_unless_what_changed_first_would_be_out_of_sight(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 24)) as it:
        await it.shows(MIDDLE, "field")
        panel = it.job.query_one(SidePanel)
        await it.until(lambda: panel.size.height > 0 and panel.max_scroll_y > 0)
        last = max(place for place, each in enumerate(panel.rows) if each.figure)
        for change in ((2, last), (last,), (2,)):
            panel.tell(with_changed(panel, *change))
            await it.pilot.pause()
            assert panel.highlighted == min(change)
            there = panel.scroll_offset.y
            assert (there > 2) == (change == (last,))
            panel.tell(with_changed(panel))
            await it.pilot.pause()
            assert panel.scroll_offset.y == there
        panel.scroll_to(y=3, animate=False, immediate=True)
        panel.tell(with_changed(panel, 5))
        panel.tell(with_changed(panel))
        await it.pilot.pause()
        assert panel.scroll_offset.y == 3


async def test_the_plan_line_keeps_its_figures_where_there_is_no_room_for_what_it_is(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.shows(MIDDLE)
        line = it.job.query_one(PlanLine)
        await it.until(lambda: line.size.width > 0)
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
