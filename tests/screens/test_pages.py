"""A page of the interview by its keys: moving, taking, the page as a whole, More, copies, removing, undo, the mouse."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from tests.project.refusal_texts import refusal_text
from tests.screens.jobs import job_file
from tests.screens.pilots import (
    EVERY_SIZE,
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
from wizard.interview.session import Session
from wizard.project.store import Store
from wizard.screens.pages.form_layout import COPY, MORE
from wizard.screens.pages.page_pane import Editor, PagePane

LEFT = "survey.section.left"
RUN, NEAR, FIRST, MIDDLE, LAST = (f"{LEFT}.{each}" for each in ("run.1", "run.2", "drop.1", "drop.2", "drop.3"))


def in_file(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text())


def left_in(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = in_file(path)["survey"]["section"]["left"]
    return found


async def in_hand(pilot: Pilot[int], place: str) -> None:
    """Wait until `place` of the page is in hand."""
    await until(pilot, lambda: job(pilot).pages.hand.place == place)


async def go(pilot: Pilot[int], place: str) -> None:
    """Go to a place as the search does."""
    job(pilot).job.go(place)
    await in_hand(pilot, place)


# Moving.


async def test_tab_goes_round_the_fields_and_more_and_back_again(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", RUN)) as pilot:
        page = job(pilot).session.page()
        assert page is not None
        for place in (*(each.key for each in page.fields[1:]), MORE, RUN):
            await pilot.press("tab")
            await in_hand(pilot, place)
        await pilot.press("shift+tab")
        await in_hand(pilot, MORE)


async def test_the_arrow_keys_go_to_the_nearest_field_on_the_drawing(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", RUN)) as pilot:
        for key, place in (("down", MIDDLE), ("down", NEAR), ("up", MIDDLE), ("up", RUN)):
            await pilot.press(key)
            await in_hand(pilot, place)


async def test_esc_goes_to_the_page_before_and_f8_to_the_next(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", RUN)) as pilot:
        screen = job(pilot)
        await pilot.press("escape")
        await until(pilot, lambda: screen.session.at == "survey.watch")
        await pilot.press("f8")
        await in_hand(pilot, RUN)


async def test_what_is_typed_is_taken_on_leaving_where_it_can_be_read_and_kept_where_not(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        await typed(pilot, "12")
        await pilot.press("tab")
        await in_hand(pilot, LAST)
        assert left_in(path)["drop"] == ["11 7/8 in", "12 in"]
        await typed(pilot, "12 1/")
        await pilot.press("tab", "escape", "f8")
        await until(pilot, lambda: "[12 1/" in seen(pilot))
        await sees(pilot, "!]")
        assert left_in(path)["drop"] == ["11 7/8 in", "12 in"]


# Taking.


async def test_enter_takes_field_by_field_and_goes_on_to_the_next_page(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", RUN)
    async with opened(path) as pilot:
        for length, place in (("76 5/8", NEAR), ("76 1/2", FIRST), ("12", MIDDLE), ("12", LAST)):
            await typed(pilot, length)
            await pilot.press("enter")
            await in_hand(pilot, place)
        await typed(pilot, "12")
        await pilot.press("enter")
        await in_hand(pilot, f"{LEFT}.in_the_way")
        await pilot.press("enter")
        await in_hand(pilot, "survey.section.foot.run.1")
        assert left_in(path)["run"] == ["76 5/8 in", "76 1/2 in"]


async def test_a_text_that_cannot_be_read_keeps_the_field_and_never_the_way_back(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    before = path.read_text()
    async with opened(path) as pilot:
        await typed(pilot, "a lot")
        for key in ("enter", "f8"):
            await pilot.press(key)
            await sees(pilot, refusal_text("no number", "a lot"))
            await at(pilot, MIDDLE, "field")
        assert path.read_text() == before
        await pilot.press("escape")
        await until(pilot, lambda: job(pilot).session.at == "survey.watch")
        await go(pilot, MIDDLE)
        assert job(pilot).query_one(Editor).value == "a lot"


async def test_a_needed_field_is_asked_for_once_and_then_left_open(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", MIDDLE)) as pilot:
        await pilot.press("enter")
        await sees(pilot, worded("needed"))
        await at(pilot, MIDDLE, "field")
        await pilot.press("enter")
        await in_hand(pilot, LAST)


async def test_what_looks_wrong_is_asked_about_once_beside_its_field_and_does_not_move_the_drawing(
    tmp_path: Path,
) -> None:
    async with opened(job_file(tmp_path / "loft.toml", LAST)) as pilot:
        floor = [line for line in seen(pilot).splitlines() if "floor ━" in line]
        row = seen(pilot).splitlines().index(floor[0])
        await typed(pilot, "17")
        await pilot.press("enter")
        await sees(pilot, worded("keep"))
        assert "floor ━" in seen(pilot).splitlines()[row]
        await in_hand(pilot, LAST)
        await heeded(pilot)
        await pilot.press("enter")
        await in_hand(pilot, f"{LEFT}.in_the_way")


async def test_coming_back_to_an_answer_what_is_typed_takes_its_place_and_enter_alone_changes_nothing(
    tmp_path: Path,
) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        before = path.read_text()
        await go(pilot, FIRST)
        await pilot.press("enter")
        await in_hand(pilot, MIDDLE)
        assert path.read_text() == before
        await go(pilot, FIRST)
        await typed(pilot, "12 1/4")
        await pilot.press("enter")
        await in_hand(pilot, MIDDLE)
        assert left_in(path)["drop"] == ["12 1/4 in"]


# The page as a whole.


async def test_f8_takes_what_is_typed_and_all_that_is_usual_as_one_change(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.floor")
    async with opened(path) as pilot:
        await pilot.press("2", "f8")
        await until(pilot, lambda: job(pilot).session.at == "survey.watch")
        assert in_file(path)["survey"]["floor"] == "hard floor"
        assert in_file(path)["survey"]["floor_gap"] == "1/4 in"
        await pilot.press("f5")
        await until(pilot, lambda: "floor" not in in_file(path)["survey"])
        assert job(pilot).session.page() is not None
        assert job(pilot).session.page().id == "floor"  # type: ignore[union-attr]


async def test_undo_turns_to_the_page_and_field_and_redo_gives_it_again(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", MIDDLE)
    async with opened(path) as pilot:
        await typed(pilot, "12")
        await pilot.press("enter")
        await in_hand(pilot, LAST)
        await go(pilot, "survey.floor")
        await pilot.press("f5")
        await in_hand(pilot, MIDDLE)
        await sees(pilot, "Undone: ")
        assert left_in(path)["drop"] == ["11 7/8 in"]
        await pilot.press("f6")
        await until(pilot, lambda: len(left_in(path)["drop"]) == 2)


# Choices.


async def test_a_choice_is_made_by_arrow_by_number_or_by_letter_and_lit_without_colour(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.rail")
    async with opened(path) as pilot:
        await sees(pilot, "( ) metal")
        for keys, line in ((("down",), "solid wood"), (("3",), "metal"), (("backspace", "v"), "veneered")):
            await pilot.press(*keys)
            await sees(pilot, f"» (•) {line}")
        await pilot.press("enter")
        await until(pilot, lambda: in_file(path)["survey"].get("rail") == "veneered board")


async def test_passing_a_choice_by_the_arrow_keys_leaves_it_as_it_is(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.rail")
    before = path.read_text()
    async with opened(path) as pilot:
        await pilot.press(*["down"] * 6)
        await until(pilot, lambda: job(pilot).pages.hand.place != "survey.rail")
        assert path.read_text() == before
        assert "survey.rail" not in job(pilot).session.pending


async def test_space_ticks_and_enter_takes_what_is_ticked(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.watch")
    async with opened(path) as pilot:
        await pilot.press("space", "down", "space", "x")
        await sees(pilot, "Space ticks")
        await pilot.press("enter")
        await until(pilot, lambda: job(pilot).session.at != "survey.watch")
        assert in_file(path)["survey"]["watch"] == ["antique", "old paint"]


async def test_a_row_of_the_table_of_fullness_is_tried_and_then_taken(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", "fullness.how")
    async with opened(path) as pilot:
        await sees(pilot, "Recommended: ")
        screen = job(pilot)
        await pilot.press("up")
        await until(pilot, lambda: screen.job.tried is not None)
        assert "fullness" not in in_file(path)
        await pilot.press("enter")
        await until(pilot, lambda: "want" in in_file(path).get("fullness", {}))
        assert screen.job.tried is None
        await go(pilot, "fullness.how")
        await typed(pilot, "2.3")
        await sees(pilot, "» [ 2.3")
        await pilot.press("enter")
        await until(pilot, lambda: in_file(path)["fullness"]["want"] == "2.3")


# More, copies, added things.


async def test_more_opens_in_place_and_esc_closes_it(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", RUN)) as pilot:
        await pilot.press("shift+tab", "enter")
        await in_hand(pilot, f"{LEFT}.name")
        await pilot.press("escape")
        await in_hand(pilot, MORE)
        await sees(pilot, "▸ More: ")
        await go(pilot, f"{LEFT}.name")
        await sees(pilot, "▾ More: ")


@pytest.mark.parametrize("key", ["space", "f8"])
async def test_the_same_as_the_other_side_is_taken_over_by_one_key(tmp_path: Path, key: str) -> None:
    path = job_file(tmp_path / "loft.toml", "survey.section.right.run.1")
    async with opened(path) as pilot:
        await sees(pilot, worded("same, from below", "left section"))
        await pilot.press("up")
        await in_hand(pilot, COPY)
        await sees(pilot, worded("same, by space", "left section"))
        await pilot.press(key)
        await until(pilot, lambda: "drop" in in_file(path)["survey"]["section"]["right"])
        await pilot.press("f5")
        await until(pilot, lambda: "drop" not in in_file(path)["survey"]["section"].get("right", {}))


async def test_another_drop_is_added_in_its_row_and_removed_again(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    async with opened(path) as pilot:
        await go(pilot, f"{LEFT}.drop.4")
        await pilot.press("ctrl+r")
        await sees(pilot, worded("not added"))
        await typed(pilot, "12")
        await pilot.press("tab")
        await until(pilot, lambda: len(left_in(path)["drop"]) == 4)
        await go(pilot, f"{LEFT}.drop.4")
        await pilot.press("ctrl+r")
        await until(pilot, lambda: len(left_in(path)["drop"]) == 3)


async def test_a_thing_in_the_way_gets_a_page_of_its_own_after_its_side(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", f"{LEFT}.in_the_way")
    async with opened(path) as pilot:
        await typed(pilot, "centre leg")
        await pilot.press("enter")
        await until(pilot, lambda: "in_the_way" in left_in(path))
        await pilot.press("enter")
        await in_hand(pilot, f"{LEFT}.in_the_way.centre-leg.at")
        for words in ("middle»[", "width [", "height ["):
            await sees(pilot, words)


# The mouse, sizes.


async def test_a_click_goes_to_a_field_picks_a_choice_and_opens_more(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml", RUN)
    async with opened(path) as pilot:
        await press(pilot, "near the floor")
        places = {each.id: each for each in job(pilot).query_one("#page").laid.places}  # type: ignore[attr-defined]
        assert {RUN, NEAR, MIDDLE, MORE} <= set(places)
        await press(pilot, "▸ More")
        await in_hand(pilot, f"{LEFT}.name")
        await go(pilot, "survey.rail")
        await pilot.pause()
        await press(pilot, "metal")
        await sees(pilot, "» (•) metal")


async def test_a_click_on_the_bar_goes_to_that_page(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", RUN)) as pilot:
        bar = job(pilot).query_one("#job-bar").region
        await pilot.click(offset=(bar.x + 1, bar.y))
        await until(pilot, lambda: job(pilot).session.at == "name")


def in_sight(pane: PagePane) -> bool:
    """True when what belongs to the field in hand is wholly in the window."""
    top, (first, behind), editor = pane.body.scroll_offset.y, pane.laid.keep, pane.laid.editor
    below = top + pane.body.size.height
    return top <= first and behind <= below and (editor is None or top <= editor.row < below)


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_every_field_of_every_page_is_in_sight_with_its_question_when_it_is_in_hand(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = job_file(tmp_path / "loft.toml")
    session = Session.resume(Store(path), lambda: None)  # type: ignore[arg-type, return-value]
    assert isinstance(session, Session)
    async with opened(path, size) as pilot:
        screen = job(pilot)
        for page in session.pages:
            for question in page.fields:
                screen.job.go(question.key)
                await until(pilot, lambda: in_sight(screen.query_one(PagePane)))
                if screen.query_one(PagePane).laid.editor:
                    assert focused(pilot) == "field"


async def test_search_lands_on_a_field_behind_more_and_clears_nothing_typed(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", MIDDLE)) as pilot:
        await typed(pilot, "12 1/")
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "left rug")
        await pilot.press("enter")
        await in_hand(pilot, f"{LEFT}.rug")
        await go(pilot, MIDDLE)
        assert job(pilot).query_one(Editor).value == "12 1/"
        await clear_field(pilot)
        assert MIDDLE not in job(pilot).session.pending


async def test_a_needed_choice_is_asked_for_as_a_choice(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.rail")) as pilot:
        await pilot.press("enter")
        await sees(pilot, worded("needed choice"))


async def test_where_an_answer_rules_the_next_field_out_the_one_after_it_on_the_page_is_in_hand(tmp_path: Path) -> None:
    thing = f"{LEFT}.in_the_way.centre-leg"
    async with opened(job_file(tmp_path / "loft.toml", f"{LEFT}.in_the_way")) as pilot:
        session = job(pilot).session
        session.answer(f"{LEFT}.in_the_way", "centre leg")
        session.answer(f"{thing}.do", "split here")
        await go(pilot, f"{thing}.do")
        session.type(f"{thing}.do", "no fixing")
        await pilot.press("tab")
        await in_hand(pilot, MORE)
        await go(pilot, f"{thing}.do")
        session.type(f"{thing}.do", "split here")
        await pilot.press("tab")
        await in_hand(pilot, f"{thing}.overlap")


async def test_a_letter_takes_the_place_of_what_was_refused_at_a_choice_and_both_are_seen(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", None)) as pilot:
        session = job(pilot).session
        key = next(each.key for page in session.pages for each in page.fields if each.kind == "yes-no")
        await go(pilot, key)
        for _ in range(2):
            await typed(pilot, "1/2")
            await sees(pilot, "[ 1/2 ] !")
            await pilot.press("enter")
            await in_hand(pilot, key)
        await pilot.press("n")
        await until(pilot, lambda: session.text(key) == "n" and "(•) no" in seen(pilot))


async def test_every_character_of_another_number_is_text_and_ctrl_u_takes_it_out(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "fullness.how")) as pilot:
        await sees(pilot, "another number")
        await typed(pilot, "abc")
        await pilot.press("enter")
        await sees(pilot, "[ abc ")
        await pilot.press("ctrl+u")
        await until(pilot, lambda: "[ abc " not in seen(pilot))
        job(pilot).session.answer("fullness.how", "2")
        await go(pilot, "fullness.how")
        await sees(pilot, "another number")
        await pilot.press("down", "down")
        await typed(pilot, "2")
        await sees(pilot, "[ 2 ")
        await typed(pilot, " 1/4")
        await sees(pilot, "[ 2 1/4 ")
        await pilot.press("enter")
        await until(pilot, lambda: job(pilot).session.text("fullness.how") in ("2.25", "2 1/4"))


async def test_more_counts_what_was_typed_there_and_no_label_is_cut(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", None)) as pilot:
        for place, label in (
            ("sides.on", "Sections "),
            ("corners.foot", "At the foot corners "),
            ("face.layers", "Layers behind it »"),
        ):
            await go(pilot, place)
            await sees(pilot, label)
            assert "of your own" not in seen(pilot)
        await pilot.press("f3")
        await over(pilot)
        await typed(pilot, "another section")
        await until(pilot, lambda: "Another section" in seen(pilot) and "● Another section" not in seen(pilot))


# A job begun from a template.


async def test_f10_and_f11_go_to_their_tables_on_the_page_with_what_a_template_answers(tmp_path: Path) -> None:
    path = job_file(tmp_path / "loft.toml")
    path.write_text(path.read_text().replace("\nname =", '\nbegan_from = "Usual"\nname =', 1))
    async with opened(path, (120, 40)) as pilot:
        for key, wanted in (("f11", "ways.face"), ("f10", "fullness.how")):
            await pilot.press(key)
            await in_hand(pilot, wanted)
            await sees(pilot, "Recommended: ")
            page = job(pilot).session.page()
            assert page is not None
            assert page.id == "rest"


async def test_near_the_floor_is_said_while_another_drop_is_in_hand_and_only_fields_in_sight_count(
    tmp_path: Path,
) -> None:
    async with opened(job_file(tmp_path / "loft.toml")) as pilot:
        await go(pilot, f"{LEFT}.drop.4")
        await sees(pilot, "near the floor [")
        await pilot.resize_terminal(60, 20)
        await sees(pilot, "field 7 of 7")


async def test_where_the_rows_of_fullness_cannot_be_worked_out_yet_it_says_what_they_wait_for(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "cloth.face.width")) as pilot:
        job(pilot).session.answer("cloth.face.owned", "4 1/2 yd")
        await go(pilot, "fullness.how")
        await sees(pilot, worded("worked out once"))
        await sees(pilot, worded("typed already"))
        await typed(pilot, "2 1/4")
        await sees(pilot, "[ 2 1/4 ] …")
