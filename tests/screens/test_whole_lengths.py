"""A length is never broken over two lines: `79` alone at the end of one would be read as 79."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from textual.content import Content
from textual.widgets import Static

from tests.screens.jobs import job_file
from tests.screens.pilots import EVERY_SIZE, at, job, opened
from wizard.interview.job_state import place_of
from wizard.screens.screen_text import in_lines, keep_lengths_whole, line_ends

LONG = "Cut 79 1/2 in and 12 3/8 in of the 1 1/4 yd, then 29.2 cm more; ≈ 740 mm, or 2' 5 1/8\""
TORN = re.compile(r"\d$|≈$|\d'$")
"""The end of a line that is no whole length, where every number has a fraction or a unit behind it."""


@pytest.mark.parametrize("columns", range(12, 90))
def test_no_line_ends_inside_a_length_at_any_width(columns: int) -> None:
    for lines in (in_lines(LONG, columns), put_in_lines(LONG, columns)):
        assert " ".join(lines) == LONG
        assert not [each for each in lines if TORN.search(each)], lines
        assert all(len(each) <= columns for each in lines)


@pytest.mark.parametrize("columns", range(1, 90))
def test_text_without_a_length_is_broken_just_as_the_toolkit_does(columns: int) -> None:
    from rich._wrap import divide_line

    for text in (
        "Read the rail twice, left and right; 裾 hems  hang evenly-spaced.  ",
        "",
        "x" * 50,
        "7 rows, 12 more",
    ):
        assert line_ends(text, columns) == divide_line(text, columns)


def put_in_lines(text: str, columns: int) -> list[str]:
    keep_lengths_whole()
    return [each.plain.strip() for each in Content(text).wrap(columns)]


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_on_every_step_of_the_work_each_length_stands_whole_on_its_line(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with opened(job_file(tmp_path / "loft.toml"), size) as pilot:
        screen = job(pilot)
        for step in screen.session.plan.work:
            screen.session.go(place_of(step))
            screen.show()
            await at(pilot, place_of(step), "steps")
            await pilot.pause()
            assert not torn(painted(screen.query_one("#step-text", Static))), step.id


def painted(place: Static) -> list[str]:
    """The lines of a text as they stand on the screen."""
    return [place.render_line(row).text.strip() for row in range(place.size.height)]


def torn(lines: list[str]) -> list[tuple[str, str]]:
    """Each pair of lines of which the second goes on with a length that the first began."""
    rest = re.compile(r"\d+/\d|(in|yd|cm|mm)\b")
    return [pair for pair in pairwise(lines) if pair[0][-1:].isdecimal() and rest.match(pair[1])]
