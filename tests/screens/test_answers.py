"""Answers: taken with Enter, in the file at once, never a trap."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.project.refusal_texts import refusal_text
from tests.screens.jobs import job_file
from tests.screens.pilots import (
    EVERY_SIZE,
    PATIENCE,
    at,
    clear_field,
    focused,
    heeded,
    job,
    opened,
    over,
    press,
    seen,
    sees,
    typed,
    until,
)
from tests.screens.screen_texts import worded
from wizard.screens.pages import page_controller, page_hand

MIDDLE = "survey.section.left.drop.2"


def drops_in(path: Path) -> list[str]:
    drops: list[str] = tomllib.loads(path.read_text())["survey"]["section"]["left"]["drop"]
    return drops


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_an_answer_is_in_the_file_once_enter_was_pressed(tmp_path: Path, size: tuple[int, int]) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path, size) as pilot:
        await at(pilot, MIDDLE, "field")
        await typed(pilot, "12 1/8")
        assert drops_in(path) == ["11 7/8 in"]
        await pilot.press("enter")
        await at(pilot, "survey.section.left.drop.3", "field")
        assert drops_in(path) == ["11 7/8 in", "12 1/8 in"]


async def test_what_is_typed_is_echoed_in_both_systems(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", MIDDLE)) as pilot:
        await typed(pilot, "12 1/8")
        await sees(pilot, "= 12 1/8 in · ≈ 308 mm")


async def test_both_readings_of_a_doubtful_number_are_offered_as_buttons(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", MIDDLE)) as pilot:
        await typed(pilot, "9,800 mm")
        await pilot.press("enter")
        await sees(pilot, "[ 9800 mm ]")
        await press(pilot, "[ 9.8 mm ]")
        await until(pilot, lambda: job(pilot).pages.text == "9.8 mm")
        assert focused(pilot) == "field"


async def test_a_reading_that_looks_wrong_is_saved_and_asked_about_once(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.right.run.1")
    async with opened(path) as pilot:
        await typed(pilot, "79 1/2")
        await pilot.press("enter")
        await sees(pilot, worded("keep"))
        await at(pilot, "survey.section.right.run.1", "field")
        run = tomllib.loads(path.read_text())["survey"]["section"]["right"]["run"]
        assert run == ["79 1/2 in"]
        await heeded(pilot)
        await pilot.press("enter")
        await at(pilot, "survey.section.right.run.2")


async def test_a_reading_taken_again_stands_in_place_of_the_one_that_looked_wrong(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.right.run.1")
    async with opened(path) as pilot:
        await typed(pilot, "79 1/2")
        await pilot.press("enter")
        await sees(pilot, worded("keep"))
        await heeded(pilot)
        await typed(pilot, "76 1/2")
        await pilot.press("enter")
        await at(pilot, "survey.section.right.run.2", "field")
        assert tomllib.loads(path.read_text())["survey"]["section"]["right"]["run"] == ["76 1/2 in"]


async def test_the_reading_itself_is_asked_about_before_what_follows_from_it(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.left.drop.3")
    async with opened(path) as pilot:
        await typed(pilot, "20")
        await pilot.press("enter")
        await sees(pilot, worded("measure both"))


async def test_what_was_typed_ahead_of_a_finding_never_takes_the_place_of_the_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(page_hand, "HEED", PATIENCE)
    path = job_file(tmp_path / "loft.toml", "survey.section.right.run.1")
    async with opened(path) as pilot:
        await typed(pilot, "79 1/2")
        await pilot.press("enter", *"76", "enter")
        await sees(pilot, page_controller.UNSEEN)
        await at(pilot, "survey.section.right.run.1", "field")
        assert job(pilot).pages.text == "79 1/2 in"
        assert tomllib.loads(path.read_text())["survey"]["section"]["right"]["run"] == ["79 1/2 in"]


async def test_a_finding_can_be_kept_by_the_button_under_the_answer(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.right.run.1")
    async with opened(path) as pilot:
        await typed(pilot, "79 1/2")
        await pilot.press("enter")
        await sees(pilot, worded("keep"))
        await sees(pilot, worded("go to the other"))
        await press(pilot, f"[ {worded('go to the other')} ]")
        await at(pilot, "survey.section.left.run.1", "field")
        await pilot.press("f4")
        await over(pilot)
        await pilot.click("#go")
        await at(pilot, "survey.section.right.run.1", "field")
        await pilot.press("f4")
        await over(pilot)
        await pilot.click("#other")
        await at(pilot, "survey.section.left.run.1", "field")
        job(pilot).session.go("survey.section.right.run.1")
        job(pilot).show()
        await clear_field(pilot)
        await typed(pilot, "79 3/8")
        await pilot.press("enter")
        await sees(pilot, worded("longer than the left", "2 3/4 in"))
        await press(pilot, f"[ {worded('keep')} ]")
        await at(pilot, "survey.section.right.run.2", "field")
        assert len(tomllib.loads(path.read_text())["kept"]) == 1


async def test_the_line_in_hand_is_the_answer_of_a_choice(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.floor")
    async with opened(path) as pilot:
        await at(pilot, "survey.floor", "page-body")
        await pilot.press("down", "down", "enter")
        await until(pilot, lambda: job(pilot).session.at != "survey.floor")
        assert tomllib.loads(path.read_text())["survey"]["floor"] == "hard floor"


async def test_undo_takes_the_answer_out_of_the_file_and_redo_puts_it_back(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        await typed(pilot, "12")
        await pilot.press("enter")
        await at(pilot, "survey.section.left.drop.3", "field")
        await pilot.press("f5")
        await at(pilot, MIDDLE, "field")
        assert drops_in(path) == ["11 7/8 in"]
        await pilot.press("f6")
        await until(pilot, lambda: len(drops_in(path)) == 2)


async def test_a_file_changed_by_another_hand_is_asked_about_and_not_written_over(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        theirs = path.read_text().replace("Juniper loft", "Larch attic")
        path.write_text(theirs)
        await typed(pilot, "12")
        await pilot.press("enter")
        await sees(pilot, "Not saved")
        assert path.read_text() == theirs
        await pilot.press("enter")
        await at(pilot, MIDDLE)
        await sees(pilot, "Larch attic")
        assert job(pilot).session.file.conflict is None


async def test_my_answer_can_be_written_over_a_changed_file(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        path.write_text('name = "Larch attic')
        await typed(pilot, "12")
        await pilot.press("enter")
        await sees(pilot, "Not saved")
        await pilot.click("#mine")
        await sees(pilot, "loft.toml.before")
        assert len(drops_in(path)) == 2
        assert (tmp_path / "loft.toml.before").read_text() == 'name = "Larch attic'
        assert tomllib.loads(path.read_text())["name"] == "Juniper loft"


async def test_comments_are_spoken_of_before_the_first_answer_and_the_file_is_kept(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    commented = "# read twice, on the carpet\n" + path.read_text()
    path.write_text(commented)
    async with opened(path) as pilot:
        await sees(pilot, worded("comments"))
        await pilot.press("enter")
        await at(pilot, MIDDLE, "field")
        await typed(pilot, "12")
        await pilot.press("enter")
        await at(pilot, "survey.section.left.drop.3")
    assert (tmp_path / "loft.toml.before").read_text() == commented
    assert "#" not in path.read_text()


async def test_a_commented_file_can_be_left_alone(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    commented = "# read twice, on the carpet\n" + path.read_text()
    path.write_text(commented)
    async with opened(path) as pilot:
        await over(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: focused(pilot) == "projects")
    assert path.read_text() == commented


async def test_a_file_with_a_unit_that_is_no_longer_taken_opens_at_it_and_takes_another_length(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    first = "survey.section.left.drop.1"
    text = path.read_text().replace(f'at = "{MIDDLE}"', f'at = "{first}"').replace('"11 7/8 in"', '"5 parsec"', 1)
    path.write_text(text)
    async with opened(path) as pilot:
        await at(pilot, first, "field")
        assert job(pilot).pages.text == "5 parsec"
        await pilot.press("enter")
        await sees(pilot, refusal_text("not taken", "", "parsec").partition(":")[0])
        assert '"5 parsec"' in path.read_text()
        await clear_field(pilot)
        await typed(pilot, "11 7/8")
        await pilot.press("enter")
        await at(pilot, MIDDLE, "field")
        assert '"11 7/8 in"' in path.read_text()


# A list of choices answered by typing, as on a plain line.
KIND, NOT_LISTED = "cloth.fixing.kind", "magnets"


async def test_what_is_typed_at_a_list_is_the_answer_or_is_refused_and_never_a_part_of_it(tmp_path: Path) -> None:
    file = job_file(tmp_path / "loft.toml", KIND)
    async with opened(file) as pilot:
        screen = job(pilot)
        assert screen.pages.question is not None
        assert NOT_LISTED not in [each.value for each in screen.pages.question.choices]
        await typed(pilot, "2")
        await sees(pilot, "(•) tacks")
        await typed(pilot, "8.40")
        await sees(pilot, "[ 28.40")
        assert "(•)" not in seen(pilot)
        await pilot.press(*["backspace"] * 5)
        await sees(pilot, "(•) staples")
        await typed(pilot, "41")
        await pilot.press("enter")
        await sees(pilot, worded("no choice", "41"))
        assert screen.session.project.cloth.fixing.kind is None
        await pilot.press("backspace", "backspace")
        await typed(pilot, NOT_LISTED)
        assert NOT_LISTED in seen(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: screen.session.project.cloth.fixing.kind is not None)
        assert f'kind = "{NOT_LISTED}"' in file.read_text()
        screen.session.go(KIND)
        screen.show()
        await pilot.pause()
        assert screen.pages.text == NOT_LISTED


async def test_nothing_is_answered_behind_the_sign_of_a_window_too_small(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    before = path.read_text()
    async with opened(path, (20, 5)) as pilot:
        await pilot.press(*"12", "enter")
        await pilot.resize_terminal(80, 24)
        await at(pilot, MIDDLE, "field")
        assert (job(pilot).pages.text, path.read_text()) == ("", before)
