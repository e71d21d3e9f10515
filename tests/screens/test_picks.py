"""A list of choices answered by typing, as on a plain line."""

from __future__ import annotations

from pathlib import Path

from tests.screens.jobs import job_file
from tests.screens.pilots import job, opened, seen, sees, typed, until
from wizard.screens.widgets.option_lists import ChoiceList

KIND, NOT_LISTED = "cloth.fixing.kind", "magnets"


async def test_what_is_typed_at_a_list_is_the_answer_or_is_refused_and_never_a_part_of_it(tmp_path: Path) -> None:
    file = job_file(tmp_path / "loft.toml", KIND)
    async with opened(file) as pilot:
        screen = job(pilot)
        picks = screen.query_one(ChoiceList)
        in_hand = picks.highlighted
        assert NOT_LISTED not in [each.value for each in picks.choices]
        await typed(pilot, "2")
        assert picks.highlighted == 1
        await typed(pilot, "8.40")
        assert picks.highlighted is None
        assert "28.40" in seen(pilot)
        await pilot.press(*["backspace"] * 5)
        assert picks.highlighted == in_hand
        for key in ("ctrl+u", "ctrl+k"):
            await typed(pilot, "28.40")
            await pilot.press(key)
            assert picks.highlighted == in_hand
            assert "28.40" not in seen(pilot)
        await typed(pilot, "41")
        await pilot.press("enter")
        await sees(pilot, "Found “41”: no line here is called so.")
        assert screen.session.draft.cloth.fixing.kind is None
        await pilot.press("backspace", "backspace")
        await typed(pilot, NOT_LISTED)
        assert NOT_LISTED in seen(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: screen.session.draft.cloth.fixing.kind is not None)
        assert f'kind = "{NOT_LISTED}"' in file.read_text()
        screen.session.go(KIND)
        screen.show()
        await pilot.pause()
        assert screen.pane.box.text() == NOT_LISTED


async def test_a_letter_that_does_nothing_at_a_list_of_several_is_told_before_enter_goes_on(tmp_path: Path) -> None:
    file = job_file(tmp_path / "loft.toml", "survey.watch")
    async with opened(file) as pilot:
        screen, before = job(pilot), file.read_bytes()
        await pilot.press("9", "enter")
        await sees(pilot, "Found “9”: a number from 1 to 7 goes to its line.")
        assert (screen.session.at, file.read_bytes()) == ("survey.watch", before)
        await pilot.press("3", "space", "x", "2", "space", "enter")
        await until(pilot, lambda: screen.session.at != "survey.watch")
        assert screen.session.text("survey.watch").count(",") == 1
        await pilot.press("escape")
        await until(pilot, lambda: screen.session.at == "survey.watch")
        await pilot.press("z", "enter")
        await sees(pilot, "Found “z”")
        await pilot.press("enter")
        await until(pilot, lambda: screen.session.at != "survey.watch")
