"""The cutting plan of cloth laid along the roll says which way its lengths go."""

from __future__ import annotations

import pytest

from tests.outside.jobs import cloth, plain_job, straight
from wizard.screens.panes.cutting_pane import LANES, cutting_lines
from wizard.trade.make_plan import make_plan


def told(lay: str) -> list[str]:
    """The lines of the cutting plan of two sections."""
    sections = {"left": straight("left", "76", "12"), "right": straight("right", "70", "11")}
    plan = make_plan(plain_job(sections, fullness="2", cloth=cloth("60", lay=lay)))
    return [line.plain for line in cutting_lines(plan, {}, "", 110)]


def test_lengths_at_the_left_of_lanes_are_said_to_go_across_the_cloth() -> None:
    lines = told("along")
    at = lines.index("The roll: measure along it from the squared end")
    assert lines[at + 1] == LANES
    assert "74 3/4 in along the roll, 13 1/2 in across it" in " ".join(" ".join(lines).split())


@pytest.mark.parametrize("words", [LANES, "along the roll", "across it"])
def test_cloth_cut_across_says_nothing_of_lanes(words: str) -> None:
    assert words not in "\n".join(told("across"))
