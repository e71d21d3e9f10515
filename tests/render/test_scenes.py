"""Scenes, in characters and as SVG, and the lettering in them."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.render.jobs import WHOLE, project_of, whole_plan
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put_many
from wizard.render.drawings.page_drawing import PICTURES
from wizard.render.drawings.roll_view import rolls
from wizard.render.drawings.scene import Box, Fill, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.scene_svg import INNER, LETTERS, MARGIN, WIDTH, lettering_width, to_svg, wrapped_lettering
from wizard.render.drawings.scene_text import to_cells
from wizard.render.drawings.sketch import PageSketch
from wizard.render.plain_text import cell_len
from wizard.render.svg_sheet import drawings_svg
from wizard.trade.lengths import Length

PENS: tuple[Pen, ...] = ("line", "heavy", "fine", "picked")


def stroke(x1: int, y1: int, x2: int, y2: int, pen: Pen = "line", *, tips: bool = False) -> Stroke:
    return Stroke(Length(x1), Length(y1), Length(x2), Length(y2), pen, tips=tips)


def box(x: int, y: int, width: int, height: int, fill: Fill = "none") -> Box:
    return Box(Length(x), Length(y), Length(width), Length(height), fill=fill)


def label(x: int, y: int, text: str, **more: object) -> Label:
    return Label(Length(x), Length(y), text, **more)  # type: ignore[arg-type]


def cells(*shapes: Shape, columns: int = 11, rows: int = 5) -> list[str]:
    """A scene 10 in wide and 4 in high, in characters."""
    return to_cells(Scene("a test", Length(10), Length(4), shapes, to_scale=False), columns, rows)


ROOM = box(0, 0, 10, 4)
STAYS = label(0, 2, "second", anchor="start", stays=True)
FIRST = label(0, 2, "first", anchor="start")


@pytest.mark.parametrize(
    ("shapes", "columns", "rows", "drawn"),
    [
        # Boxes that touch share their edge; an offcut is hatched; a sloping floor goes down in level pieces.
        ([box(0, 0, 5, 4), box(5, 0, 5, 4)], 11, 3, ["┌────┬────┐", "│    │    │", "└────┴────┘"]),
        ([box(0, 0, 10, 4, "hatched")], 5, 3, ["┌───┐", "│░░░│", "└───┘"]),
        ([stroke(0, 0, 10, 4)], 6, 3, ["──", "  ──", "    ──"]),
        # Each pen has characters of its own; a measure has a tip at each end, where it is not too short for them.
        *(([stroke(0, 0, 10, 0, pen)], 4, 1, [each * 4]) for pen, each in zip(PENS, "─━┄═", strict=True)),
        ([stroke(0, 0, 10, 0, tips=True)], 6, 1, ["◄────►"]),
        ([stroke(0, 0, 0, 4, tips=True)], 1, 3, ["▲", "│", "▼"]),
        ([stroke(0, 0, 0, 4, tips=True)], 1, 2, ["│", "│"]),
        ([stroke(0, 0, 10, 0, "picked", tips=True)], 6, 1, ["╠════╣"]),
        ([stroke(0, 0, 0, 4, "picked", tips=True)], 1, 3, ["╦", "║", "╩"]),
        # A label on a line moves beside it; one that stays keeps to its row or is left out.
        ([stroke(5, 0, 5, 4), label(5, 2, "9", anchor="start")], 11, 3, ["     │", "     │9", "     │"]),
        ([FIRST, STAYS], 8, 5, ["", "", "first", "", ""]),
        ([label(0, 0, "a\x1b[0m", anchor="start")], 12, 1, ["a\\x1b[0m"]),
        ([ROOM], 0, 5, []), ([ROOM], 5, -1, []),
    ],
)  # fmt: skip
def test_a_scene_in_characters(shapes: list[Shape], columns: int, rows: int, drawn: list[str]) -> None:
    assert cells(*shapes, columns=columns, rows=rows) == drawn


def test_a_picked_line_is_not_hidden() -> None:
    crossed = cells(stroke(5, 0, 5, 4, "picked"), stroke(0, 2, 10, 2, "heavy"))
    assert [line[5] for line in crossed] == ["║", "║", "╬", "║", "║"]


def test_a_label_gives_way_step_by_step_to_shorter_ones_and_never_leaves_its_box_nor_covers_another() -> None:
    long = label(5, 2, "1 the long side", short="1", shorter=("1 the l…", "1 ↓"))
    found = [cells(long, ROOM, columns=columns)[2].strip("│ ") for columns in (20, 12, 7, 3)]
    assert found == ["1 the long side", "1 the l…", "1 ↓", "1"]
    assert cells(ROOM, label(5, 2, "7 left 2/4", short="7"), columns=16, rows=3)[1] == "│  7 left 2/4  │"
    narrow = cells(box(0, 0, 2, 4), box(2, 0, 8, 4), label(1, 2, "1234"), columns=21)
    assert not any(each in line for line in narrow for each in "1234")
    assert "second" in cells(FIRST, label(0, 2, "second", anchor="start"), columns=8)
    both = "".join(cells(label(5, 2, "usual"), label(5, 2, "asked", pen="picked"), columns=7, rows=1))
    assert ("asked" in both, "usual" in both) == (True, False), "the picked one comes first"
    assert {cell_len(line) for line in cells(ROOM, label(5, 2, "日本"), columns=12, rows=3)} == {12}


PLACES = st.fractions(0, 10, max_denominator=16).map(lambda part: Length(Fraction(part)))
SHAPES = st.one_of(
    st.builds(Stroke, PLACES, PLACES, PLACES, PLACES, st.sampled_from(PENS), st.sampled_from(("none", "both"))),
    st.builds(
        lambda x, y, x2, y2, pen, fill: Box(min(x, x2), min(y, y2), abs(x2 - x), abs(y2 - y), pen, fill),
        PLACES, PLACES, PLACES, PLACES, st.sampled_from(PENS), st.sampled_from(("none", "hatched")),
    ),
    st.builds(
        Label, PLACES, PLACES, st.text(max_size=12), st.sampled_from(("start", "middle", "end")), st.sampled_from(PENS)
    ),
)  # fmt: skip


@given(st.lists(SHAPES, max_size=8), st.integers(1, 50), st.integers(1, 14))
def test_any_scene_fits_the_place_it_is_given(shapes: list[Shape], columns: int, rows: int) -> None:
    drawn = to_cells(Scene("a test", Length(10), Length(10), tuple(shapes), to_scale=False), columns, rows)
    assert len(drawn) == rows
    assert max(cell_len(line) for line in drawn) <= columns


# As SVG.
NS = "{http://www.w3.org/2000/svg}"


def svg_of(*shapes: Shape, title: str = "a test") -> ElementTree.Element:
    """A scene 54 in wide and 27 in high, to scale."""
    return ElementTree.fromstring(to_svg(Scene(title, Length(54), Length(27), shapes, to_scale=True)))


def test_a_drawing_to_scale_has_one_scale_both_ways_and_names_come_out_literally() -> None:
    hostile, literally = '<b>&"[red]\x1b[31m=1+1', '<b>&"[red]\\x1b[31m=1+1'
    tree = svg_of(box(0, 0, 27, 27), label(1, 0, hostile), title=hostile)
    piece = tree.findall(f"{NS}rect")[1]
    assert piece.get("width") == piece.get("height") == str((WIDTH - 2 * MARGIN) // 2)
    assert tree.findtext(f"{NS}title") == tree.findtext(f"{NS}text") == literally
    assert tree.find(f".//{NS}b") is None
    # 14 + 692/54 = 26.8148... is rounded to hundredths.
    assert [each.get("x") for each in tree.findall(f"{NS}text")] == ["26.81"]


def test_offcuts_are_hatched_pens_differ_without_colour_and_a_measure_has_a_tip_at_each_end() -> None:
    tree = svg_of(box(0, 0, 5, 5, "hatched"), box(5, 0, 5, 5))
    assert [each.get("fill") for each in tree.findall(f"{NS}rect")[1:]] == ["url(#offcut)", "none"]
    lines = svg_of(*(stroke(0, 0, 9, 0, pen) for pen in PENS)).findall(f"{NS}path")
    drawn = [tuple(each.get(name) for name in ("stroke", "stroke-width", "stroke-dasharray")) for each in lines]
    assert {each[0] for each in drawn} == {"#000"}
    assert len(set(drawn)) == 4
    tips = []
    for x, y in ((9, 18), (18, 9)):
        _, *both = svg_of(stroke(9, 9, x, y, tips=True)).findall(f"{NS}path")
        tips += [each.get("d") for each in both]
    # 14 + 692/54 x 9 = 129.33, and twice as far on.
    assert tips == [
        "M129.33 129.33 l-4 8 8 0 z", "M129.33 244.67 l-4 -8 8 0 z", "M129.33 129.33 l8 -4 0 8 z",
        "M244.67 129.33 l-8 -4 0 8 z",
    ]  # fmt: skip


def test_headings_lie_above_their_pictures_and_inside_the_page_whatever_they_say() -> None:
    name = "W" * 90 + " and the long ticking of the eastern window" * 2
    plan = plan_of(put_many(project_of(WHOLE), {"name": name, "cloth.face.name": name}))
    tree = ElementTree.fromstring(drawings_svg(plan, date="2026-03-02"))
    lines = [(Fraction(each.get("y", "")), each) for each in tree.findall(f"{NS}text")]
    pictures = [(Fraction(each.get("y", "")), Fraction(each.get("height", ""))) for each in tree.findall(f"{NS}svg")]
    assert len(pictures) > 5
    assert len(lines) > len(pictures) + 5
    for baseline, each in lines:
        # What hangs below the baseline takes a quarter of the letters' height, what stands on it all of it.
        upper, lower = baseline - LETTERS, baseline + Fraction(LETTERS, 4)
        assert upper >= 0
        assert all(lower <= top or top + high <= upper for top, high in pictures)
        assert lettering_width(each.text or "", LETTERS, bold=each.get("font-weight") == "bold") <= INNER
    assert all(after - before >= LETTERS for (before, _), (after, _) in pairwise(lines))


def test_every_drawing_of_a_job_is_well_formed_fetches_nothing_and_comes_out_the_same_again() -> None:
    plan = whole_plan()
    scenes = [PICTURES["side"](PageSketch(plan, ("survey.section.left.drop.2",), "", 78, 12), "left")]
    scenes += [scene for layer in plan.layers if layer.cutting for scene in rolls(plan, layer, layer.cutting.best)]
    assert len(scenes) > len(plan.layers)
    for scene in scenes:
        svg = to_svg(scene)
        ElementTree.fromstring(svg)
        assert re.findall(r"https?://[^\"]+", svg) == ["http://www.w3.org/2000/svg"]
        assert "<script" not in svg
        assert svg == to_svg(scene)


# How much room lettering takes, and text made to fit it.
# The widths are those of a widely used sans-serif face, which is broader than most: what it takes at a height of 14.
BROAD = {
    "≈ 127 15/16": "87.7", "30 13/16 × 13 5/8": "128.0", "lantern side 1/4": "109.9", "BOW WINDOW EAST": "143.1",
    "WWWWMMMM": "103.7",
}  # fmt: skip


@pytest.mark.parametrize("text", BROAD)
def test_as_much_room_is_kept_as_a_broad_face_takes_and_little_more(text: str) -> None:
    taken = Fraction(BROAD[text])
    assert taken <= lettering_width(text, 14) <= taken * Fraction(9, 8)


@given(st.text(max_size=60))
def test_lettering_that_is_wrapped_fits_and_loses_no_letter(text: str) -> None:
    lines = wrapped_lettering(text, 100, 14, bold=True)
    assert all(lettering_width(line, 14, bold=True) <= 100 for line in lines)
    assert "".join("".join(lines).split()) == "".join(wrapped_lettering(text, 10**9, 14)[0].split())
