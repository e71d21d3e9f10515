"""Comparing the ways of cutting in plain lines, and following one."""

from __future__ import annotations

from pathlib import Path

from tests.prompts.talks import job_at, told_of


def test_the_ways_are_read_with_a_number_each_and_the_one_picked_is_followed_until_it_is_taken_back(
    tmp_path: Path,
) -> None:
    path = job_at(tmp_path)
    told = told_of(path, ".ways", "")
    line = next(each for each in told.splitlines() if "Along the roll: to buy" in each)
    assert "1. Across, part widths: to buy" in told
    assert "followed now" in told
    assert "Advised is " in told
    told = told_of(path, ".ways", line.partition(".")[0])
    assert "Followed: along the roll. .undo takes it back." in told
    assert 'lay = "along"' in path.read_text(encoding="utf-8")
