"""Plain lines of a page: nothing is wider than the page, nothing is lost, no length is torn apart."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wizard.render.plain_text import cell_len, literal
from wizard.render.text_page import Page, wrapped
from wizard.trade.formatting import SIXTEENTHS

NARROW = Page(40, SIXTEENTHS)
WORDS = st.lists(st.text(st.characters(categories=("L", "N", "P")), min_size=1, max_size=90), min_size=1, max_size=20)


@given(WORDS, st.integers(20, 80))
def test_a_paragraph_fits_and_keeps_every_letter_in_order(words: list[str], columns: int) -> None:
    text = literal(" ".join(words))
    lines = list(wrapped(text, columns))
    assert max(cell_len(line) for line in lines) <= columns
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_length_is_never_broken_inside() -> None:
    text = "then ≈ 12 5/16 in, then ≈ 12 5/16 in, then ≈ 12 5/16 in"
    assert list(wrapped(text, 22)) == ["then ≈ 12 5/16 in,", "then ≈ 12 5/16 in,", "then ≈ 12 5/16 in"]


def test_a_table_lines_its_columns_up() -> None:
    assert NARROW.table(("piece", "wide"), [("left 1/2", "54"), ("日本", "7 1/16")]) == [
        "piece       wide",
        "────────  ──────",
        "left 1/2      54",
        "日本      7 1/16",
    ]


def test_a_table_too_wide_for_the_page_becomes_labelled_lines() -> None:
    heads = ("section", "a very long head", "another head")
    assert NARROW.table(heads, [("left section", "12 1/2", "")]) == ["left section", "  a very long head  12 1/2"]


def test_a_name_cannot_break_out_of_its_line() -> None:
    assert NARROW.pair("na\nme", "a\x1b[2Jb") == ["na\\x0ame          a\\x1b[2Jb"]


def test_a_long_label_stands_on_a_line_of_its_own() -> None:
    assert NARROW.pair("the window side section", "54") == ["the window side section", "                  54"]
