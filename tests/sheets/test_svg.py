"""Scenes as SVG."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from tests.sheets.jobs import whole_plan
from wizard.sheets.drawings.elevation import elevation
from wizard.sheets.drawings.roll import rolls
from wizard.sheets.scene import Box, Scene, Stroke, Words
from wizard.sheets.svg import MARGIN, WIDTH, to_svg
from wizard.trade.lengths import ZERO, Length

NS = "{http://www.w3.org/2000/svg}"
HOSTILE = '<b>&"[red]\x1b[31m=1+1'


def one(*shapes: Box | Stroke | Words, title: str = "a test", to_scale: bool = True) -> Scene:
    return Scene(title, Length(54), Length(27), shapes, to_scale)


def test_a_name_comes_out_literally() -> None:
    tree = ElementTree.fromstring(to_svg(one(Words(ZERO, ZERO, HOSTILE), title=HOSTILE)))
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
    pens = ("line", "heavy", "fine", "picked")
    tree = ElementTree.fromstring(to_svg(one(*(Stroke(ZERO, ZERO, Length(9), ZERO, pen) for pen in pens))))
    drawn = [
        (each.get("stroke"), each.get("stroke-width"), each.get("stroke-dasharray"))
        for each in tree.findall(f"{NS}path")
    ]
    assert {each[0] for each in drawn} == {"#000"}
    assert len(set(drawn)) == 4


def test_every_drawing_of_a_job_is_well_formed_fetches_nothing_and_comes_out_the_same_again() -> None:
    plan = whole_plan()
    scenes = [elevation(plan.job, "left", "drop.2")]
    for layer in plan.layers:
        assert layer.cutting is not None
        scenes += rolls(layer, layer.cutting.best)
    for scene in scenes:
        svg = to_svg(scene)
        ElementTree.fromstring(svg)
        assert re.findall(r"https?://[^\"]+", svg) == ["http://www.w3.org/2000/svg"]
        assert "<script" not in svg
        assert svg == to_svg(scene)


def test_places_are_rounded_to_hundredths_ties_to_even() -> None:
    tree = ElementTree.fromstring(to_svg(one(Words(Length(1), ZERO, "x"))))
    text = tree.find(f"{NS}text")
    assert text is not None
    # 14 + 692/54 = 26.8148...
    assert text.get("x") == "26.81"
