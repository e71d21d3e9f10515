"""The table whose rows arrive while it is looked at: the row in hand stays in hand, and taking it gives its answers."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.app import App, ComposeResult
from textual.pilot import Pilot

from wizard.screens import app as screens_app
from wizard.screens.panes.live_rows import LiveRows, Rows
from wizard.screens.themes import DARK, PLAIN, THEMES
from wizard.trade.plan_records import Offer, Offers

STYLES = Path(screens_app.__file__).parent / "styles"
HEADS = ("fullness", "to buy", "joins", "cost")


def row(fullness: str, buy: str, **more: bool) -> Offer:
    entries = {"fullness.aim": "a number", "fullness.want": fullness}
    return Offer(fullness, (fullness, buy, "9", "$30.06"), entries, "within the guide", f"It buys {buy}.", **more)


NOW, BEST, MORE = row("2", "1 yd", in_use=True), row("2.5", "2 yd", recommended=True), row("2.8", "3 yd")
FREE = Offer("", (), {"fullness.aim": "a number", "fullness.want": ""}, "another number, 1 or more")
FIRST = Offers(HEADS, (NOW, BEST), "", NOW, FREE)
ALL = Offers(HEADS, (row("1.6", "nothing"), NOW, BEST, MORE), "It is the guide.", NOW, FREE, whole=True)


class Table(App[None]):
    """The rows alone, and what they say."""

    CSS_PATH = [STYLES / "screens.tcss", STYLES / "cloth.tcss"]  # noqa: RUF012

    def __init__(self, theme: str) -> None:
        super().__init__()
        for each in THEMES:
            self.register_theme(each)
        self.theme = theme
        self.taken: list[dict[str, str]] = []
        self.moves: list[str] = []

    def compose(self) -> ComposeResult:
        """The rows."""
        yield LiveRows("rows")

    def on_live_rows_taken(self, event: LiveRows.Taken) -> None:
        """Remembered."""
        self.taken.append(event.entries)

    def on_live_rows_moved(self, event: LiveRows.Moved) -> None:
        """Remembered."""
        self.moves.append(event.row.name)


@asynccontextmanager
async def table(
    offers: Offers, size: tuple[int, int] = (80, 24), theme: str = DARK
) -> AsyncIterator[tuple[Table, LiveRows, Pilot[None]]]:
    """The app with the rows shown and focused."""
    app = Table(theme)
    async with app.run_test(size=size) as pilot:
        rows = app.query_one(LiveRows)
        rows.begin(offers)
        rows.take_focus()
        await pilot.pause()
        yield app, rows, pilot


def text_of(app: Table) -> list[str]:
    """The screen, line by line."""
    strips = app.screen._compositor.render_strips(app.size)
    return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


def lines_in_hand(app: Table) -> list[str]:
    """The lines between the signs of what is in hand."""
    return [line for line in text_of(app) if line.lstrip().startswith("»") and line.endswith("«")]


async def test_the_usual_row_is_in_hand_until_another_is_and_that_one_stays_when_rows_arrive() -> None:
    async with table(FIRST) as (app, rows, pilot):
        assert rows.row == NOW
        assert app.moves == []
        rows.tell(ALL)
        assert rows.row == NOW
        rows.tell(FIRST)
        await pilot.press("down")
        assert rows.row == BEST
        rows.tell(ALL)
        await pilot.pause()
        assert rows.row == BEST
        assert app.moves == ["2.5"]
        await pilot.press("enter")
        assert app.taken == [BEST.entries]
        rows.take_usual()
        await pilot.pause()
        assert app.taken[1:] == [NOW.entries]


@pytest.mark.parametrize("theme", [DARK, PLAIN])
@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_what_is_in_hand_is_marked_by_signs_and_nothing_of_a_row_is_lost(
    size: tuple[int, int], theme: str
) -> None:
    async with table(ALL, size, theme) as (app, _, pilot):
        await pilot.press("down", "down")
        await pilot.pause()
        (line,) = lines_in_hand(app)
        assert "2.8" in line
        said = " ".join(" ".join(text_of(app)).split())
        for each in ("3 yd", "$30.06", "ithin the guide", "It buys 3 yd.", "Recommended: 2.5. It is the guide."):
            assert each in said, each


async def test_another_number_is_typed_among_the_rows_or_below_the_last() -> None:
    async with table(ALL) as (app, rows, pilot):
        await pilot.press("2", "full_stop", "4")
        assert rows.row is not None
        assert rows.row.entries == {"fullness.aim": "a number", "fullness.want": "2.4"}
        assert len(lines_in_hand(app)) == 1
        await pilot.press("enter")
        assert app.taken == [rows.row.entries]
        rows.refuse("A fullness is 1 or more.")
        await pilot.pause()
        assert "A fullness is 1 or more." in " ".join(text_of(app))
        await pilot.press("up")
        assert rows.query_one(Rows).has_focus
        assert rows.row == NOW
        await pilot.press("down", "down", "down")
        await pilot.pause()
        assert rows.field.has_focus
        assert rows.row.name == "2.4"


async def test_while_nothing_can_be_worked_out_it_says_what_it_waits_for() -> None:
    async with table(Offers(HEADS, (), waits="This is worked out once the cloth width is known.")) as (
        app,
        rows,
        pilot,
    ):
        assert "once the cloth width is known." in " ".join(text_of(app))
        assert not rows.query_one(Rows).display
        await pilot.press("enter")
        rows.take_usual()
        await pilot.pause()
        assert app.taken == []
