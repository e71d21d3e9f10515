"""A table to choose from in lines: what is in hand is marked without colour, and no part of a row is lost."""

from __future__ import annotations

import pytest

from wizard.screens.panes.live_rows import Columns
from wizard.trade.plan_records import Offer, Offers

HEADS = ("fullness", "to buy", "joins", "cost")


def row(fullness: str, buy: str, **more: bool) -> Offer:
    entries = {"fullness.aim": "a number", "fullness.want": fullness}
    return Offer(fullness, (fullness, buy, "9", "$30.06"), entries, "within the guide", f"It buys {buy}.", **more)


NOW, BEST, MORE = row("2", "1 yd", in_use=True), row("2.5", "2 yd", recommended=True), row("2.8", "3 yd")
TABLE = Offers(HEADS, (NOW, BEST, MORE), "It is the guide.", NOW, whole=True)


@pytest.mark.parametrize("columns", range(40, 121, 4))
def test_what_has_no_room_in_a_row_is_said_of_it_and_no_line_is_too_wide(columns: int) -> None:
    table = Columns(TABLE, columns)
    assert len(table.heads().plain) <= columns
    for each in TABLE.rows:
        line = table.line(each, in_hand=True).plain
        assert len(line) <= columns
        assert (line[0], line[-1]) == ("»", "«")
        assert "»" not in table.line(each, in_hand=False).plain
        said = f"{line} {table.hidden(each)}".casefold()
        for words in (*each.cells, each.note, *(["in use"] if each.in_use else [])):
            assert words.casefold() in said, (columns, words)


def test_a_column_without_anything_in_it_is_left_out() -> None:
    rows = tuple(Offer("2", ("2", "1 yd", "9", ""), {}) for _ in range(2))
    table = Columns(Offers(HEADS, rows), 80)
    assert table.heads().plain.split() == ["fullness", "to", "buy", "joins"]
    assert table.hidden(rows[0]) == ""
