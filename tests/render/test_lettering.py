"""How much room lettering takes, and text made to fit it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wizard.render.drawings.lettering import lettering_width, shortened, wrapped_lettering

# The widths are those of a widely used sans-serif face, which is broader than most: what it takes at a height of 14.
BROAD = {
    "≈ 127 15/16": "87.7",
    "30 13/16 × 13 5/8": "128.0",
    "lantern side 1/4": "109.9",
    "BOW WINDOW EAST": "143.1",
    "WWWWMMMM": "103.7",
}


@pytest.mark.parametrize("text", BROAD)
def test_as_much_room_is_kept_as_a_broad_face_takes_and_little_more(text: str) -> None:
    taken = Fraction(BROAD[text])
    assert taken <= lettering_width(text, 14) <= taken * Fraction(9, 8)


@given(st.text(max_size=40), st.integers(40, 400))
def test_a_shortened_text_fits_and_says_that_it_is_shorter(text: str, room: int) -> None:
    made = shortened(text, Fraction(room), 14, " 1/4")
    assert lettering_width(made, 14) <= room
    assert made == "" or made.endswith("… 1/4") or lettering_width(text + " 1/4", 14) <= room


def test_a_name_is_cut_at_its_end_and_left_out_where_hardly_a_letter_has_room() -> None:
    assert shortened("the eastern side", Fraction(120), 14, " 2/3") == "the easter… 2/3"
    assert shortened("the eastern side", Fraction(40), 14, " 2/3") == ""


@given(st.text(max_size=60))
def test_lines_have_room_and_lose_no_letter(text: str) -> None:
    lines = wrapped_lettering(text, 100, 14, bold=True)
    assert all(lettering_width(line, 14, bold=True) <= 100 for line in lines)
    assert "".join("".join(lines).split()) == "".join(wrapped_lettering(text, 10**9, 14)[0].split())
