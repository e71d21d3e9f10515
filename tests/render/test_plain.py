"""People's own text comes out literally, and its width is known."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wizard.render.plain_text import cell_len, clipped, literal


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("two\nlines\ttab", "two\\x0alines\\x09tab"),
        ("\x9b31m", "\\x9b31m"),
        ("right\u202eto left", "right\\u202eto left"),
        ("line\u2028end", "line\\u2028end"),
        ("half \ud83d of a pair", "half \\ud83d of a pair"),
        ('<b>&"[red]=1+1', '<b>&"[red]=1+1'),
        ("Löft ½ 日本", "Löft ½ 日本"),
    ],
)
def test_what_has_no_shape_is_written_out_and_the_rest_stays(typed: str, shown: str) -> None:
    assert literal(typed) == shown


@given(st.text())
def test_no_literal_text_can_steer_a_terminal(text: str) -> None:
    assert not any(ord(each) < 0x20 or 0x7F <= ord(each) < 0xA0 for each in literal(text))


def test_wide_letters_take_two_columns_and_marks_none() -> None:
    assert (cell_len("loft"), cell_len("日本"), cell_len("e\u0301")) == (4, 4, 1)


@given(st.text(), st.integers(0, 12))
def test_clipped_text_never_takes_more_columns_than_it_may(text: str, columns: int) -> None:
    assert cell_len(clipped(text, columns)) <= max(columns, 0)
