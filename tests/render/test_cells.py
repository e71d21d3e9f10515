"""Scenes in characters."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.scene_text import to_cells
from wizard.render.plain_text import cell_len
from wizard.trade.lengths import ZERO, Length


def at(number: int) -> Length:
    return Length(number)


def scene(*shapes: Shape, width: int = 10, height: int = 4) -> Scene:
    return Scene("a test", at(width), at(height), shapes, to_scale=False)


def test_boxes_that_touch_share_their_edge() -> None:
    two = scene(Box(ZERO, ZERO, at(5), at(4)), Box(at(5), ZERO, at(5), at(4)))
    assert to_cells(two, 11, 5) == [
        "┌────┬────┐",
        "│    │    │",
        "│    │    │",
        "│    │    │",
        "└────┴────┘",
    ]


def test_each_pen_has_characters_of_its_own() -> None:
    pens: tuple[Pen, ...] = ("line", "heavy", "fine", "picked")
    drawn = [to_cells(scene(Stroke(ZERO, ZERO, at(10), ZERO, pen)), 4, 1)[0] for pen in pens]
    assert drawn == ["────", "━━━━", "┄┄┄┄", "════"]


def test_a_picked_line_is_not_hidden_by_the_lines_it_crosses() -> None:
    crossed = scene(Stroke(at(5), ZERO, at(5), at(4), "picked"), Stroke(ZERO, at(2), at(10), at(2), "heavy"))
    assert [line[5] for line in to_cells(crossed, 11, 5)] == ["║", "║", "╬", "║", "║"]


def test_a_measure_has_a_tip_at_each_end() -> None:
    assert to_cells(scene(Stroke(ZERO, ZERO, at(10), ZERO, tips="both")), 6, 1) == ["◄────►"]
    assert to_cells(scene(Stroke(ZERO, ZERO, ZERO, at(4), tips="both")), 1, 3) == ["▲", "│", "▼"]


def test_an_offcut_is_hatched() -> None:
    assert to_cells(scene(Box(ZERO, ZERO, at(10), at(4), fill="hatched")), 5, 3) == ["┌───┐", "│░░░│", "└───┘"]


def test_a_sloping_floor_goes_down_in_level_pieces() -> None:
    assert to_cells(scene(Stroke(ZERO, ZERO, at(10), at(4))), 6, 3) == ["──", "  ──", "    ──"]


def test_a_label_stands_in_its_box_and_gives_way_to_a_shorter_one() -> None:
    label = Label(at(5), at(2), "7 left 2/4", short="7")
    assert to_cells(scene(Box(ZERO, ZERO, at(10), at(4)), label), 16, 3)[1] == "│  7 left 2/4  │"
    assert to_cells(scene(Box(ZERO, ZERO, at(10), at(4)), label), 7, 3)[1] == "│  7  │"


def test_a_label_never_leaves_its_box_to_find_room() -> None:
    boxes = (Box(ZERO, ZERO, at(2), at(4)), Box(at(2), ZERO, at(8), at(4)))
    drawn = to_cells(scene(*boxes, Label(at(1), at(2), "1234")), 21, 5)
    assert not any(each in line for line in drawn for each in "1234")


def test_a_label_on_a_line_moves_beside_it() -> None:
    drawn = to_cells(scene(Stroke(at(5), ZERO, at(5), at(4)), Label(at(5), at(2), "9", "start")), 11, 5)
    assert drawn[2] == "     │9"


def test_a_label_that_stays_keeps_to_its_row_or_is_left_out() -> None:
    first, second = Label(ZERO, at(2), "first", "start"), Label(ZERO, at(2), "second", "start", stays=True)
    assert to_cells(scene(first, second), 8, 5) == ["", "", "first", "", ""]
    assert "second" in to_cells(scene(first, Label(ZERO, at(2), "second", "start")), 8, 5)


def test_labels_never_cover_one_another_and_the_picked_one_comes_first() -> None:
    both = scene(Label(at(5), at(2), "usual"), Label(at(5), at(2), "asked", pen="picked"), width=10, height=4)
    assert "asked" in "".join(to_cells(both, 7, 1))
    assert "usual" not in "".join(to_cells(both, 7, 1))


def test_a_label_is_literal_and_wide_letters_keep_the_line_in_place() -> None:
    assert to_cells(scene(Label(ZERO, ZERO, "a\x1b[0m", "start")), 12, 1) == ["a\\x1b[0m"]
    drawn = to_cells(scene(Box(ZERO, ZERO, at(10), at(4)), Label(at(5), at(2), "日本")), 12, 3)
    assert {cell_len(line) for line in drawn} == {12}


def test_no_room_gives_no_lines() -> None:
    assert to_cells(scene(Box(ZERO, ZERO, at(10), at(4))), 0, 5) == []
    assert to_cells(scene(Box(ZERO, ZERO, at(10), at(4))), 5, -1) == []


PLACES = st.fractions(0, 10, max_denominator=16).map(lambda part: Length(Fraction(part)))
PENS = st.sampled_from(("line", "heavy", "fine", "picked"))
SHAPES = st.one_of(
    st.builds(Stroke, PLACES, PLACES, PLACES, PLACES, PENS, st.sampled_from(("none", "both"))),
    st.builds(
        lambda x, y, x2, y2, pen, fill: Box(min(x, x2), min(y, y2), abs(x2 - x), abs(y2 - y), pen, fill),
        PLACES, PLACES, PLACES, PLACES, PENS, st.sampled_from(("none", "hatched")),
    ),
    st.builds(Label, PLACES, PLACES, st.text(max_size=12), st.sampled_from(("start", "middle", "end")), PENS),
)  # fmt: skip


@given(st.lists(SHAPES, max_size=8), st.integers(1, 50), st.integers(1, 14))
def test_any_scene_fits_the_place_it_is_given(shapes: list[Shape], columns: int, rows: int) -> None:
    drawn = to_cells(scene(*shapes, width=10, height=10), columns, rows)
    assert len(drawn) == rows
    assert max(cell_len(line) for line in drawn) <= columns


def test_an_arrow_has_one_tip_at_the_end_it_points_to() -> None:
    for (x, y), tip in (((5, 4), "▼"), ((5, 0), "▲"), ((10, 2), "►"), ((0, 2), "◄")):
        drawn = "".join(to_cells(scene(Stroke(at(5), at(2), at(x), at(y), tips="end")), 11, 5))
        assert [each for each in drawn if each in "▲▼◄►"] == [tip]


def test_a_label_is_put_shorter_step_by_step() -> None:
    label = Label(at(5), at(2), "1 the long side", short="1", shorter=("1 the l…", "1 ↓"))
    piece = Box(ZERO, ZERO, at(10), at(4))
    found = [to_cells(scene(label, piece), columns, 5)[2].strip("│ ") for columns in (20, 12, 7, 3)]
    assert found == ["1 the long side", "1 the l…", "1 ↓", "1"]
