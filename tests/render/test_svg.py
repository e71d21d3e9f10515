"""Scenes as SVG."""

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
from wizard.render.drawings.scene import Box, Label, Pen, Scene, Stroke
from wizard.render.drawings.scene_svg import (
    INNER,
    LETTERS,
    MARGIN,
    WIDTH,
    lettering_width,
    shortened,
    to_svg,
    wrapped_lettering,
)
from wizard.render.drawings.sketch import PageSketch
from wizard.render.svg_sheet import drawings_svg
from wizard.trade.lengths import ZERO, Length

NS = "{http://www.w3.org/2000/svg}"
HOSTILE = '<b>&"[red]\x1b[31m=1+1'


def one(*shapes: Box | Stroke | Label, title: str = "a test", to_scale: bool = True) -> Scene:
    return Scene(title, Length(54), Length(27), shapes, to_scale)


def test_a_name_comes_out_literally() -> None:
    tree = ElementTree.fromstring(to_svg(one(Label(ZERO, ZERO, HOSTILE), title=HOSTILE)))
    shown = '<b>&"[red]\\x1b[31m=1+1'
    assert tree.findtext(f"{NS}title") == shown
    assert tree.findtext(f"{NS}text") == shown
    assert tree.find(f".//{NS}b") is None


def test_a_drawing_to_scale_has_one_scale_both_ways() -> None:
    tree = ElementTree.fromstring(to_svg(one(Box(ZERO, ZERO, Length(27), Length(27)))))
    box = tree.findall(f"{NS}rect")[1]
    assert box.get("width") == box.get("height") == str((WIDTH - 2 * MARGIN) // 2)


def test_offcuts_are_hatched_and_pieces_are_not() -> None:
    svg = to_svg(one(Box(ZERO, ZERO, Length(5), Length(5), fill="hatched"), Box(Length(5), ZERO, Length(5), Length(5))))
    fills = [each.get("fill") for each in ElementTree.fromstring(svg).findall(f"{NS}rect")[1:]]
    assert fills == ["url(#offcut)", "none"]


def test_pens_differ_without_colour() -> None:
    pens: tuple[Pen, ...] = ("line", "heavy", "fine", "picked")
    tree = ElementTree.fromstring(to_svg(one(*(Stroke(ZERO, ZERO, Length(9), ZERO, pen) for pen in pens))))
    drawn = [
        (each.get("stroke"), each.get("stroke-width"), each.get("stroke-dasharray"))
        for each in tree.findall(f"{NS}path")
    ]
    assert {each[0] for each in drawn} == {"#000"}
    assert len(set(drawn)) == 4


def test_an_arrow_has_one_head_at_the_end_it_points_to() -> None:
    heads = []
    for x, y in ((9, 18), (9, 0), (18, 9), (0, 9)):
        svg = to_svg(one(Stroke(Length(9), Length(9), Length(x), Length(y), "heavy", "end")))
        line, head = ElementTree.fromstring(svg).findall(f"{NS}path")
        assert line.get("stroke-width") == "3"
        heads.append(head.get("d"))
    # 14 + 692/54 x 9 = 129.33, and twice as far on.
    assert heads == [
        "M129.33 244.67 l-7 -14 14 0 z",
        "M129.33 14 l-7 14 14 0 z",
        "M244.67 129.33 l-14 -7 0 14 z",
        "M14 129.33 l14 -7 0 14 z",
    ]


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
    for layer in plan.layers:
        assert layer.cutting is not None
        scenes += rolls(plan, layer, layer.cutting.best)
    for scene in scenes:
        svg = to_svg(scene)
        ElementTree.fromstring(svg)
        assert re.findall(r"https?://[^\"]+", svg) == ["http://www.w3.org/2000/svg"]
        assert "<script" not in svg
        assert svg == to_svg(scene)


def test_places_are_rounded_to_hundredths_ties_to_even() -> None:
    tree = ElementTree.fromstring(to_svg(one(Label(Length(1), ZERO, "x"))))
    text = tree.find(f"{NS}text")
    assert text is not None
    # 14 + 692/54 = 26.8148...
    assert text.get("x") == "26.81"


# How much room lettering takes, and text made to fit it.
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
