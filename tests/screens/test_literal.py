"""What people typed is shown as it stands, wherever it is shown."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from wcwidth import wcswidth

from tests.screens.jobs import job_file
from tests.screens.pilots import at, opened, over, seen, sees, typed
from tests.screens.screen_texts import worded
from wizard.screens.screen_text import cut_to, filled, one_line, plain

NASTY = "<b>[red]x[/red]\\[$accent]"


def test_control_characters_are_written_out() -> None:
    assert plain("a\x1b[31mb\x07\x9b\u202e") == "a\\x1b[31mb\\x07\\x9b\\u202e"


@pytest.mark.parametrize("columns", [1, 2, 5, 8, 40])
@pytest.mark.parametrize("text", ["", "short", "漢字漢字漢字"])
def test_filled_text_is_just_as_wide_as_its_place(text: str, columns: int) -> None:
    assert wcswidth(filled(text, columns)) == columns


def test_lines_stay_lines_only_where_text_is_laid_out() -> None:
    assert plain("a\nb") == "a\nb"
    assert one_line("a\nb\tc") == "a b\\x09c"


@pytest.mark.parametrize("columns", [1, 2, 5, 8, 40])
@pytest.mark.parametrize("text", ["", "short", "a longer line than that", "two\nlines", "漢字漢字漢字"])
def test_text_cut_to_a_width_fits_it(text: str, columns: int) -> None:
    assert wcswidth(cut_to(text, columns)) <= columns


async def test_a_name_with_markup_is_shown_as_it_is_everywhere(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    path.write_text(
        path.read_text()
        .replace('"Juniper loft"', json.dumps(NASTY))
        .replace("[cloth.face]", f"[cloth.face]\nname = {json.dumps(NASTY)}")
    )
    async with opened(path, (120, 40)) as pilot:
        await sees(pilot, NASTY)
        await pilot.press("f7")
        await sees(pilot, f" {NASTY}")
        await pilot.press("f9")
        await sees(pilot, worded("look over", NASTY))
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "look over")
        await sees(pilot, worded("look over", NASTY))
        await pilot.press("escape", "ctrl+l")
        await sees(pilot, f"{NASTY}   ")


async def test_text_that_is_being_typed_is_no_markup_in_the_refusal(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")) as pilot:
        await at(pilot, "survey.section.left.drop.2", "field")
        await pilot.press("left_square_bracket", *"bold", "right_square_bracket", "x")
        await pilot.press("enter")
        await sees(pilot, "“[bold]x”")
        assert "[bold]x" in seen(pilot)
