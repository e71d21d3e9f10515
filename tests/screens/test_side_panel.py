"""The plan so far beside the question: as much of each line as there is room for, and it stays where it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.screens.jobs import job_file
from tests.screens.pilots import at, job, opened, until
from wizard.screens.panes.side_panel import LABEL, Row, SidePanel, lines_of


def told(*rows: Row, columns: int = 28) -> list[str]:
    return [each.plain for each in lines_of(rows, columns)]


def test_a_label_takes_what_the_value_leaves_and_values_stand_in_line() -> None:
    rows = (Row("Also to buy"), Row("  twill tape", "4 yd"), Row("  sewing thread", "1 spool"), Row("  staples", "41"))
    assert told(*rows) == [
        "Also to buy",
        "  twill tape    4 yd",
        "  sewing thread 1 spool",
        "  staples       41",
    ]
    assert told(Row("  hook-and-loop, sewn loop side", "4 yd")) == ["  hook-and-loop, sewn … 4 yd"]


def test_a_value_too_long_for_its_line_goes_on_under_itself_with_its_mark() -> None:
    drop = Row("  drop", "12 1/16 in, follows the floor", "part.left.drop")
    assert told(drop) == ["  drop     12 1/16 in,\n           follows the floor"]
    marked = Row(drop.label, drop.value, drop.figure, True, "12 3/8 in, follows the floor")
    assert told(marked) == [
        "  drop     12 1/16 in,\n           follows the\n           floor ▲"
        "\n           was 12 3/8 in,\n           follows the floor"
    ]
    assert told(drop, columns=44) == ["  drop     12 1/16 in, follows the floor"]


@pytest.mark.parametrize("columns", range(24, 60))
def test_no_line_is_wider_than_its_place(columns: int) -> None:
    rows = [
        Row(f"  {'label ' * n}end", f"{'value ' * m}end", "figure", mark, "value " * m if mark else None)
        for n in range(5)
        for m in range(6)
        for mark in (False, True)
    ]
    for one in (rows, *([each] for each in rows)):
        lines = "\n".join(told(*one, columns=columns)).split("\n")
        assert max(len(each) for each in lines) <= columns
        assert all(each[: LABEL - 1].strip() or each.startswith(" " * LABEL) for each in lines)


async def standing(pilot: Pilot[int]) -> SidePanel:
    panel = job(pilot).query_one(SidePanel)
    await until(pilot, lambda: panel.size.height > 0 and panel.max_scroll_y > 0)
    return panel


def with_changed(panel: SidePanel, *places: int) -> tuple[Row, ...]:
    return tuple(
        Row(each.label, each.value, each.figure, place in places and each.figure is not None)
        for place, each in enumerate(panel.rows)
    )


async def test_it_stays_where_it_is_unless_all_that_changed_would_be_out_of_sight(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), (80, 24)) as pilot:
        job(pilot).session.go("survey.section.left.drop.2")
        job(pilot).show()
        await at(pilot, "survey.section.left.drop.2", "field")
        panel = await standing(pilot)
        last = max(place for place, each in enumerate(panel.rows) if each.figure)
        for change in ((2, last), (last,), (2,), (last,), ()):
            panel.tell(with_changed(panel, *change))
            await pilot.pause()
            assert (panel.scroll_offset.y > 0) == (change == (last,))
            assert panel.highlighted == (min(change) if change else None)
        panel.scroll_to(y=3, animate=False, immediate=True)
        panel.tell(with_changed(panel, 5))
        panel.tell(with_changed(panel))
        await pilot.pause()
        assert panel.scroll_offset.y == 3
