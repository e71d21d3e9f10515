"""A page of the interview by its keys: moving, taking, the page as a whole, More, copies, removing, undo, the mouse."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.project.refusal_texts import refusal_text
from tests.screens.pilots import EVERY_SIZE, FROM_TEMPLATE, Size, loft
from tests.screens.screen_texts import worded
from wizard.screens.pages.form_layout import COPY, MORE
from wizard.screens.pages.page_pane import Editor, PagePane

LEFT = "survey.section.left"
RUN, NEAR, FIRST, MIDDLE, LAST = (f"{LEFT}.{each}" for each in ("run.1", "run.2", "drop.1", "drop.2", "drop.3"))
DROPS = f"{LEFT}.drop"


# Moving.
async def test_tab_goes_round_the_fields_arrows_to_the_nearest_and_esc_and_f8_by_pages(tmp_path: Path) -> None:
    async with loft(tmp_path, RUN) as it:
        page = it.session.page()
        assert page is not None
        for place in (*(each.key for each in page.fields[1:]), MORE, RUN):
            await it.press("tab", at=place)
        await it.press("shift+tab", at=MORE)
        await it.press("tab", at=RUN)
        for key, place in (("down", MIDDLE), ("down", NEAR), ("up", MIDDLE), ("up", RUN)):
            await it.press(key, at=place)
        await it.press("escape", at="survey.watch")
        await it.press("f8", at=RUN)
        bar = it.job.query_one("#job-bar").region
        await it.pilot.click(offset=(bar.x + 1, bar.y))
        await it.at("name")


async def test_what_is_typed_is_taken_on_leaving_where_it_can_be_read_and_kept_where_not(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        await it.typed("12", "tab", at=LAST)
        assert it.saved(DROPS) == ["11 7/8 in", "12 in"]
        await it.typed("12 1/", "tab", "escape", "f8", sees="[12 1/")
        await it.sees("!]")
        assert it.saved(DROPS) == ["11 7/8 in", "12 in"]
        # What cannot be read keeps the field, and never the way back.
        await it.go(LAST)
        await it.anew("a lot")
        for key in ("enter", "f8"):
            await it.press(key, sees=refusal_text("no number", "a lot"))
            await it.at(LAST, "field")
        await it.press("escape", at="survey.watch")
        await it.go(LAST)
        assert it.job.query_one(Editor).value == "a lot"
        assert it.saved(DROPS) == ["11 7/8 in", "12 in"]


# Taking.
@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_enter_takes_field_by_field_and_undo_goes_back_there(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, RUN, size) as it:
        for length, place in (("76 5/8", NEAR), ("76 1/2", FIRST), ("11 7/8", MIDDLE)):
            await it.typed(length, "enter", at=place)
        await it.typed("30 cm", sees=" ≈ 11 13/16 in · 300 mm")
        assert "= ≈" not in it.seen
        await it.anew("12 1/8", sees="= 12 1/8 in · ≈ 308 mm")
        assert it.saved(DROPS) == ["11 7/8 in"]
        await it.press("enter", at=LAST)
        assert it.saved(DROPS) == ["11 7/8 in", "12 1/8 in"]
        await it.go("survey.floor")
        await it.press("f5", at=MIDDLE, sees="Undone: ")
        # Over the plan line, not over a field.
        assert "Undone: " in it.seen.splitlines()[-2]
        assert it.saved(DROPS) == ["11 7/8 in"]
        await it.press("f6")
        await it.until(lambda: len(it.saved(DROPS)) == 2)
        await it.go(LAST)
        await it.typed("12", "enter", at=f"{LEFT}.in_the_way")
        await it.press("enter", at="survey.section.foot.run.1")
        assert it.saved(f"{LEFT}.run") == ["76 5/8 in", "76 1/2 in"]


async def test_what_is_typed_takes_the_place_of_an_answer_and_enter_alone_keeps_it(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        before = it.path.read_text()
        await it.go(FIRST)
        await it.press("enter", at=MIDDLE)
        assert it.path.read_text() == before
        await it.go(FIRST)
        await it.typed("12 1/4", "enter", at=MIDDLE)
        assert it.saved(DROPS) == ["12 1/4 in"]


async def test_a_needed_field_is_asked_for_once_and_then_left_open_and_a_choice_as_a_choice(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        await it.press("enter", sees=worded("needed"))
        await it.at(MIDDLE, "field")
        await it.press("enter", at=LAST)
    async with loft(tmp_path, "survey.rail") as it:
        await it.press("enter", sees=worded("needed choice"))


# The page as a whole.
async def test_f8_takes_what_is_typed_and_all_that_is_usual_as_one_change(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.floor") as it:
        await it.press("2", "f8", at="survey.watch")
        assert (it.saved("survey.floor"), it.saved("survey.floor_gap")) == ("hard floor", "1/4 in")
        await it.press("f5")
        await it.until(lambda: it.saved("survey.floor") is None)
        page = it.session.page()
        assert page is not None
        assert page.id == "floor"


# Choices.
async def test_a_choice_is_made_by_letter_number_or_arrow_and_passed_by_the_arrows_as_it_is(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.rail") as it:
        before = it.path.read_text()
        await it.press(*["down"] * 6)
        await it.until(lambda: it.job.pages.hand.place != "survey.rail")
        assert it.path.read_text() == before
        assert "survey.rail" not in it.session.pending
        await it.go("survey.rail")
        await it.sees("( ) metal")
        for keys, line in ((("v",), "veneered"), (("backspace", "3"), "metal"), (("up",), "veneered")):
            await it.press(*keys, sees=f"» (•) {line}")
        await it.press("enter")
        await it.until(lambda: it.saved("survey.rail") == "veneered board")
        await it.go("survey.watch")
        await it.press("space", "down", "space", "x", sees="Space ticks")
        await it.press("enter")
        await it.until(lambda: it.session.at != "survey.watch")
        assert it.saved("survey.watch") == ["antique", "old paint"]


async def test_a_row_of_fullness_is_tried_then_taken_and_another_number_typed(tmp_path: Path) -> None:
    async with loft(tmp_path, "fullness.how") as it:
        await it.sees("Recommended: ", "another number")
        await it.press("up")
        await it.until(lambda: it.job.job.tried is not None)
        assert it.saved("fullness") is None
        await it.press("enter")
        await it.until(lambda: it.saved("fullness.want") is not None)
        assert it.job.job.tried is None
        await it.go("fullness.how")
        await it.typed("abc", "enter", sees="[ abc ")
        await it.press("ctrl+u")
        await it.sees_no("[ abc ")
        it.session.answer("fullness.how", "2")
        await it.go("fullness.how")
        await it.press("down", "down")
        await it.until(lambda: it.job.job.tried is not None)
        await it.typed("2", sees="» [ 2 ")
        assert it.job.job.tried is None
        await it.typed(" 1/4", sees="[ 2 1/4 ")
        await it.press("enter")
        await it.until(lambda: it.session.text("fullness.how") in ("2.25", "2 1/4"))


async def test_where_the_rows_of_fullness_cannot_be_worked_out_yet_it_says_what_they_wait_for(tmp_path: Path) -> None:
    async with loft(tmp_path, "cloth.face.width") as it:
        it.session.answer("cloth.face.owned", "4 1/2 yd")
        await it.go("fullness.how")
        await it.sees(worded("worked out once"), worded("typed already"))
        await it.typed("2 1/4", sees="[ 2 1/4 ] …")


KIND, NOT_LISTED = "cloth.fixing.kind", "magnets"


async def test_what_is_typed_at_a_list_is_the_answer_or_is_refused_and_never_a_part_of_it(tmp_path: Path) -> None:
    async with loft(tmp_path, KIND) as it:
        assert it.job.pages.question is not None
        assert NOT_LISTED not in [each.value for each in it.job.pages.question.choices]
        await it.typed("2", sees="(•) tacks")
        await it.typed("8.40", sees="[ 28.40")
        assert "(•)" not in it.seen
        await it.press(*["backspace"] * 5, sees="(•) staples")
        await it.typed("41", "enter", sees=worded("no choice", "41"))
        assert it.session.project.cloth.fixing.kind is None
        await it.press("backspace", "backspace")
        await it.typed(NOT_LISTED, sees=NOT_LISTED)
        await it.press("enter")
        await it.until(lambda: it.saved(KIND) == NOT_LISTED)
        await it.shows(KIND)
        assert it.job.pages.text == NOT_LISTED
        # A letter takes the place of what was refused at a choice, and both are seen.
        await it.go("survey.slatted")
        for _ in range(2):
            await it.typed("1/2", sees="[ 1/2 ] !")
            await it.press("enter", at="survey.slatted")
        await it.press("n", sees="(•) no")
        assert it.session.text("survey.slatted") == "n"


# More, copies, added things.
async def test_more_opens_in_place_and_by_the_search_and_no_label_is_cut(tmp_path: Path) -> None:
    async with loft(tmp_path, MIDDLE) as it:
        await it.typed("12 1/")
        await it.search("left rug", "enter", at=f"{LEFT}.rug")
        await it.sees("▾ More: ")
        await it.press("escape", at=MORE, sees="▸ More: ")
        await it.press("enter", at=f"{LEFT}.name")
        await it.go(MIDDLE)
        assert it.job.query_one(Editor).value == "12 1/"
        await it.press("end", "ctrl+u")
        assert MIDDLE not in it.session.pending
        for place, label in (
            ("sides.on", "Sections "),
            ("corners.foot", "At the foot corners "),
            ("face.layers", "Layers behind it »"),
        ):
            await it.go(place)
            await it.sees(label)
            assert "of your own" not in it.seen
        await it.search("another section")
        await it.until(lambda: "Another section" in it.seen and "● Another section" not in it.seen)


async def test_copying_a_side_is_found_by_what_a_maker_calls_it_and_goes_to_where_it_is_offered(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.section.right.run.1") as it:
        await it.go("survey.rail")
        await it.search("same as", "enter", at=COPY, key="ctrl+p")
        await it.search("alike", "enter", sees="Copied", key="ctrl+p")


async def test_the_same_as_the_other_side_is_taken_over_by_one_key(tmp_path: Path) -> None:
    async with loft(tmp_path, "survey.section.right.run.1") as it:
        for key in ("space", "f8"):
            await it.sees(worded("same, from below", "left section"))
            await it.press("up", at=COPY, sees=worded("same, by space", "left section"))
            await it.press(key)
            await it.until(lambda: bool(it.saved("survey.section.right.drop")))
            await it.press("f5")
            await it.until(lambda: not it.saved("survey.section.right.drop"))
            await it.go("survey.section.right.run.1")


async def test_no_button_beside_a_question_is_broken(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        for side in ("left", "right"):
            for number, drop in enumerate(("12", "12 1/4", "12 1/2"), 1):
                it.session.answer(f"survey.section.{side}.drop.{number}", drop)
        await it.go("survey.section.right.drop.1")
        await it.sees("[ Turn the drops round: right section ]", "[ Turn the drops round: left section ]")


async def test_what_looks_wrong_is_asked_about_at_the_field_that_answers_for_several_keys(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        it.session.answer("corners.foot", "sides")
        await it.go("posts.along_side")
        await it.press("f8", at="posts.may_fix")
        await it.sees("you may not fix into that post", "[ Go to the other ]")
        await it.go("corners.returns")
        await it.sees("[ sides turn in  ]  ?")


async def test_another_drop_is_added_and_removed_and_only_fields_in_sight_count(tmp_path: Path) -> None:
    async with loft(tmp_path) as it:
        await it.go(f"{DROPS}.4")
        await it.sees("near the floor [")
        await it.press("ctrl+r", sees=worded("not added"))
        await it.typed("12", "tab")
        await it.until(lambda: len(it.saved(DROPS)) == 4)
        await it.go(f"{DROPS}.4")
        await it.press("ctrl+r")
        await it.until(lambda: len(it.saved(DROPS)) == 3)
        await it.go(f"{DROPS}.4")
        await it.pilot.resize_terminal(60, 20)
        await it.sees("field 7 of 7")


async def test_a_thing_in_the_way_gets_a_page_and_its_answer_rules_the_next_field_out(tmp_path: Path) -> None:
    thing = f"{LEFT}.in_the_way.centre-leg"
    async with loft(tmp_path, f"{LEFT}.in_the_way") as it:
        await it.typed("centre leg", "enter", at=f"{thing}.at")
        await it.sees("middle»[", "width [", "height [")
        it.session.answer(f"{thing}.do", "split here")
        for text, place in (("no", MORE), ("split", f"{thing}.overlap")):
            await it.go(f"{thing}.do")
            await it.typed(text, "tab", at=place)
        # Each part reaches an inset past the leg, to be fixed there; and where nothing is wide, 2 in will do.
        for width, usual in (("3 in", "4 in"), ("1/2 in", "2 in")):
            it.session.answer(f"{thing}.width", width)
            assert [each.usual for each in it.session.questions if each.key == f"{thing}.overlap"] == [usual]
        await it.go(f"{LEFT}.in_the_way")
        await it.sees("1 there (centre leg)")


async def test_behind_more_the_way_goes_on_to_what_its_answer_left_open_on_the_page(tmp_path: Path) -> None:
    async with loft(tmp_path, "corners.foot") as it:
        it.session.answer("corners.foot", "sides")
        await it.go("progress.posts_alike")
        await it.typed("no", "enter", at="posts.foot-left.along_side")


# The mouse, sizes.
async def test_a_click_goes_to_a_field_picks_a_choice_and_opens_more(tmp_path: Path) -> None:
    async with loft(tmp_path, RUN) as it:
        await it.click("near the floor")
        places = {each.id for each in it.job.query_one("#page", PagePane).laid.places}
        assert {RUN, NEAR, MIDDLE, MORE} <= places
        await it.click("▸ More")
        await it.at(f"{LEFT}.name")
        await it.go("survey.rail")
        await it.pilot.pause()
        await it.click("metal")
        await it.sees("» (•) metal")


def in_sight(pane: PagePane) -> bool:
    """True when what belongs to the field in hand is wholly in the window."""
    top, (first, behind), editor = pane.body.scroll_offset.y, pane.laid.keep, pane.laid.editor
    below = top + pane.body.size.height
    return top <= first and behind <= below and (editor is None or top <= editor.row < below)


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_every_field_is_in_sight_with_its_question_when_in_hand(tmp_path: Path, size: Size) -> None:
    async with loft(tmp_path, None, size) as it:
        for page in it.session.pages:
            for question in page.fields:
                it.job.job.go(question.key)
                await it.until(lambda: in_sight(it.job.query_one(PagePane)))
                if it.job.query_one(PagePane).laid.editor:
                    assert it.focused == "field"


# A job begun from a template.
async def test_joined_pages_of_a_template_are_found_and_f10_and_f11_go_to_their_tables(tmp_path: Path) -> None:
    async with loft(tmp_path, None, (120, 40), edit=FROM_TEMPLATE) as it:
        for key, wanted in (("f11", "ways.face"), ("f10", "fullness.how")):
            await it.press(key, at=wanted, sees="Recommended: ")
            page = it.session.page()
            assert page is not None
            assert page.id == "rest"
        for wanted, found in (("washing", "washed first or not"), ("ways", "Way of cutting"), ("own gap", "own gap")):
            await it.search(wanted, sees=found)
            await it.press("escape")


async def test_a_line_that_is_only_lit_changes_no_answer(tmp_path: Path) -> None:
    async with loft(tmp_path, None) as it:
        before = it.session.text("survey.rail")
        for away in ("tab", "escape"):
            await it.go("survey.rail")
            await it.press("down", away)
            await it.until(lambda: it.session.at != "survey.rail")
            assert it.session.text("survey.rail") == before


async def test_the_letters_of_the_drawing_of_allowances_are_beside_their_fields(tmp_path: Path) -> None:
    async with loft(tmp_path, None) as it:
        await it.go("allowances.join")
        await it.sees("a Seam allowance of", "h Squaring")
