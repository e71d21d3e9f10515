"""Lines of a list go on under their text: no word is lost, none is wider than its place, the sign stands alone."""

from __future__ import annotations

import pytest
from textual.content import Content
from textual.style import Style
from textual.visual import RenderOptions

from wizard.screens.option_lists import Hanging

OPTIONS = RenderOptions(lambda style: Style(), {})
TEXT = "[ ] Stitch to the tape: the long side along the bench\n· and its lining"


def lines(apart: bool, columns: int) -> list[str]:
    strips = Hanging(Content(TEXT), 4, apart=apart).render_strips(columns, None, Style(), OPTIONS)
    return [strip.text.rstrip() for strip in strips]


@pytest.mark.parametrize("columns", [16, 24, 40, 80])
@pytest.mark.parametrize("apart", [True, False])
def test_only_what_begins_stands_at_the_left(columns: int, apart: bool) -> None:
    found = lines(apart, columns)
    assert " ".join(" ".join(found).split()) == " ".join(TEXT.split())
    assert max(map(len, found)) <= columns
    at_the_left = [each for each in found if not each.startswith("    ")]
    assert [each[:1] for each in at_the_left] == (["[", "·"] if apart else ["["])
    assert Hanging(Content(TEXT), 4, apart=apart).get_height({}, columns) == len(found)
