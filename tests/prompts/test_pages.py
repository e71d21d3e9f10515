"""Walking the pages: what is read out, what Enter takes, what is refused, asked again, changed and taken back."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

from tests.benchmarks.stood import DEMO, copied
from tests.interview.maker import MEASURED, resumed
from tests.prompts.sentences import heard, said
from tests.prompts.talks import GOES_ON, RUN, job_at, told, told_of
from wizard.interview.page import Picture
from wizard.prompts.console import said as words
from wizard.prompts.drawing_words import FROM_JOB, WITHOUT_WORDS

LEFT = "survey.section.left"
FROM_TEMPLATE = ("\nname =", '\nbegan_from = "Usual"\nname =')
TOLD_WRONG = ("76 5/8", "79")
"""Two runs that do not fit each other."""


def test_a_page_is_read_out_once_with_how_far_it_is_and_its_fields_are_asked_in_order(at_run: Path) -> None:
    talk = told_of(at_run, "76 5/8", "76 1/2")
    page, position = resumed(at_run.parent).page(), resumed(at_run.parent).position()
    assert page is not None
    head = said("page", position.number, position.of, page.stage, page.title)
    assert talk.count(head) == 1
    assert heard("enter", talk)
    assert page.words in " ".join(talk.split())
    asked = [talk.index(f"\n{each}: ") for each in ("Run at the rail", "Run near the floor", "Drop at the head end")]
    assert asked == sorted(asked)
    assert talk.index(head) < asked[0]
    assert told_of(at_run, "again").count(": again\n") == 1


def test_what_enter_takes_is_in_brackets_and_an_empty_line_keeps_it_or_takes_the_usual(at_run: Path) -> None:
    before = at_run.read_bytes()
    told_of(at_run, "go survey.rail", "")
    assert at_run.read_bytes() == before
    talk = told_of(at_run, "76 5/8", "go survey.raised", "go survey.rail", f"go {RUN}", f"go {LEFT}.in_the_way")
    for each in (
        "Drop line above the rail's edge [0 in]: ",
        "Rails [solid wood]: ",
        "Run at the rail [76 5/8 in]: ",
        "In the way along here [none]: ",
    ):
        assert f"\n{each}" in talk
    assert said("taken", "76 5/8 in, about 1946 mm") in talk
    assert resumed(at_run.parent).text(RUN) == "76 5/8 in"
    assert "\nUsual values [usual: inches]: " in told(at_run.parent, "new Rowan room", "")
    assert 'standard = "inches"' in (at_run.parent / "rowan-room.toml").read_text(encoding="utf-8")


def test_an_answer_that_cannot_be_read_is_refused_with_an_example_and_told_when_leaving(at_run: Path) -> None:
    talk = told_of(at_run, "12 bananas", "up", f"go {RUN}", "quit")
    for each in (said("refused", ""), said("example", "76 5/8 in"), "What to watch", "Not entered yet: 12 bananas."):
        assert each in talk
    assert heard("typed before", talk, "12 bananas")
    assert not heard("stuck", talk.partition("12 bananas")[2])
    for word in ("exit", "please stop"):
        assert heard("stuck", told_of(at_run, word).partition(f": {word}")[2])
    talk = told_of(at_run, f"go {RUN}", "12,300 mm", "take 1")
    first = next(each.partition(" gives: ")[2] for each in talk.splitlines() if each.startswith("“take 1” gives: "))
    assert resumed(at_run.parent).text(RUN) == first


def test_where_an_answer_is_needed_an_empty_line_says_so_once_and_then_leaves_it_open(at_run: Path) -> None:
    talk = told_of(at_run, "", "")
    assert heard("needed", talk, "76 5/8 in")
    assert heard("open", talk)
    assert "\nRun near the floor: " in talk
    assert RUN in [each.key for each in resumed(at_run.parent).missing()]


def test_what_is_found_out_later_says_so_and_where_it_is_listed(tmp_path: Path) -> None:
    path = job_at(tmp_path, "rails.free_height", MEASURED | {"survey.slatted": "yes"})
    talk = told_of(path, "later")
    assert heard("may be later", talk)
    assert heard("later", talk)
    assert "[find out later]: later\n" in talk
    assert ": Floor and top edge\n" in talk


def test_choices_are_numbered_and_picked_by_number_or_word(at_run: Path) -> None:
    talk = told_of(at_run, "go survey.rail", "3", "go survey.watch", "1, 3", "go survey.watch", "0", "go survey.watch")
    assert "\n3. Metal: " in talk
    assert said("commas") in talk
    assert "\nWatch for [antique bed, moving bed]: " in talk
    assert "\nWatch for [none of them]: " in talk
    assert resumed(at_run.parent).text("survey.rail") == "metal"


def test_the_usual_answers_of_a_page_are_taken_as_one_change_and_what_is_open_is_said(at_run: Path) -> None:
    talk = " ".join(told_of(at_run, "76 5/8", "usual").split())
    open_now = "run near the floor, drop at the head end, drop in the middle, drop at the foot end"
    assert said("left open", open_now) in talk
    talk = told_of(at_run, "go corners.head", "usual", "undo")
    ends = "at the foot corners: stop at the post; at the head corners: stop at the post; turned legs: none"
    assert heard("usual", talk, ends)
    assert said("taken", "") in talk.partition(": usual\n")[2]
    assert resumed(at_run.parent).state("corners.head") == "missing"
    assert "All answered: " in told_of(at_run, "go corners.head", "usual", "back")
    empty = at_run.with_name("empty.toml")
    empty.write_text('format = 1\nname = "Loft"\n', encoding="utf-8")
    assert heard("usual", told_of(empty, "usual"), "sections on: left side, foot, right side")


def test_the_answers_of_the_other_side_are_taken_over_and_so_is_a_change_to_one_of_them(tmp_path: Path) -> None:
    path = job_at(tmp_path, "survey.section.right.run.1")
    talk = told_of(path, "same", "usual", "go survey.rail", "same")
    for key in ("same", "taken over", "no copy"):
        assert heard(key, talk)
    session = resumed(tmp_path)
    assert session.text("survey.section.right.run.1") == session.text(RUN)
    assert session.text("survey.section.right.drop.3") == session.text(f"{LEFT}.drop.1")
    talk = told_of(path, f"go {LEFT}.drop.2", "12 1/4 in", "same")
    assert heard("alike", talk, "right section")
    assert resumed(tmp_path).text("survey.section.right.drop.2") == "12 1/4 in"


def test_what_is_behind_more_is_listed_and_answered_and_the_page_goes_on_where_it_was(at_run: Path) -> None:
    listed = told_of(at_run, "more", "")
    number = next(each.partition(".")[0] for each in listed.splitlines() if ". name: " in each)
    told_of(at_run, "76 5/8", "more", number, "window side", "76 1/2")
    session = resumed(at_run.parent)
    assert (session.text(f"{LEFT}.name"), session.text(f"{LEFT}.run.2")) == ("window side", "76 1/2 in")
    assert heard("no more", told_of(at_run, "go survey.rail_thickness", "go survey.watch", "more"))


def test_back_goes_a_page_and_up_a_question(at_run: Path) -> None:
    talk = told_of(at_run, "76 5/8", "up", "back", "go name", ".back")
    before, _, after = talk.partition("]: back\n")
    assert before.endswith("\nRun at the rail [76 5/8 in")
    assert ": What to watch for\n" in after
    assert said("beginning") in after


def test_an_order_needs_its_full_stop_only_where_any_text_is_an_answer(at_run: Path) -> None:
    for line in ("back", ".back", ".ba", "  Back "):
        assert ": What to watch for\n" in told_of(at_run, line)
    for line in ("backs", "..back", ". 5"):
        assert ": What to watch for\n" not in told_of(at_run, f"go {RUN}", line)
    assert said("dots") in told_of(at_run, f"go {LEFT}.name", "back")
    assert resumed(at_run.parent).text(f"{LEFT}.name") == "back"
    told_of(at_run, f"go {LEFT}.name", "..back room", "?", ".back")
    assert resumed(at_run.parent).text(f"{LEFT}.name") == ".back room"
    assert said("taken", "1/2 in, about 13 mm") in told_of(at_run, "go survey.floor_gap", ".5")


def test_what_looks_wrong_is_asked_about_once_kept_or_corrected_or_gone_to_from_the_list(at_run: Path) -> None:
    talk = told_of(at_run, *TOLD_WRONG, "", "findings", "1")
    asked = talk.partition(": 79\n")[2]
    assert said("warning", "") in asked
    assert heard("saved", asked)
    assert heard("other", asked, "Left section: run at the rail")
    assert "Drop at the head end: " in asked
    assert "\nRun near the floor [79 in]: " in talk.partition("Number")[2]
    assert said("kept", "") in told_of(at_run, f"go {LEFT}.run.2", "79 1/4", "keep")
    assert [each.kept for each in resumed(at_run.parent).plan.findings] == [True]
    assert said("asked again", "") in told_of(at_run, "keep 1", f"go {LEFT}.run.2", "findings", "")
    told_of(at_run, f"go {LEFT}.run.2", "other", "79 1/8")
    session = resumed(at_run.parent)
    assert (session.text(RUN), session.plan.findings) == ("79 1/8 in", ())


def test_an_uneven_floor_is_drawn_in_words_and_told_beside_its_choice(at_run: Path) -> None:
    talk = told_of(at_run, "76 5/8", "76 5/8", "11 7/8", "12", "12 1/2", f"go {RUN}", "again", "go hem.line")
    assert talk.count(said("plan so far", "")) == 1
    before, _, after = talk.partition(": go hem.line\n")
    assert ("Worth knowing: " in before, "Worth knowing: " in after) == (False, True)
    drawn = " ".join(before.rpartition(": again\n")[2].split())
    for each in (
        "Left section, seen from the room: the head end at the left, the foot end at the right.",
        "Run at the rail: 76 5/8 in.",
        "Drop at the head end 11 7/8 in; drop in the middle 12 in; drop at the foot end 12 1/2 in.",
        "The floor, from the head end to the foot end: falls 1/8 in, then falls 1/2 in.",
    ):
        assert each in drawn


def test_as_many_figures_are_said_to_change_as_the_plan_marks_and_those_it_loses_are_counted(tmp_path: Path) -> None:
    path = copied(DEMO, tmp_path, RUN)
    talk = told_of(path, "plan", "81", "plan", f"go {LEFT}.left_end", "stops short", "plan")
    _, second, third = (each.partition("]: ")[0] for each in talk.split("]: plan\n")[1:])
    known, left = (Counter(re.findall(r"\n\d+\. (.*?): ", each)) for each in (second, third))
    marked, gone = second.count(", was "), (known - left).total()
    assert heard("changed", talk, marked)
    assert heard("not known", talk, gone)


def test_a_step_that_an_answer_changed_is_said_and_listed_until_it_is_ticked_again(whole: Path) -> None:
    talk = told_of(whole, "done", f"go {RUN}", "70", "", "go cloth.face.width", "look", "1", "done", "look")
    assert heard("look", talk)
    assert "please check, changed since you ticked it; ticked" in " ".join(talk.split())
    assert heard("no look", talk)
    talk = told_of(whole, "go sides.on", "1, 2, 3, 4", "go cloth.face.kind", "look", "")
    assert "places:" in talk


def test_undo_and_redo_name_what_they_change(at_run: Path) -> None:
    assert heard("undone", told_of(at_run, "76 5/8", "undo"), "Left section: run at the rail")
    assert resumed(at_run.parent).state(RUN) == "missing"
    told_of(at_run, "76 5/8", "undo", "redo")
    assert resumed(at_run.parent).text(RUN) == "76 5/8 in"


def test_an_answer_is_tried_without_being_given_and_taken_out_again(at_run: Path) -> None:
    talk = told_of(at_run, "try 6' 8 1/2\"", "try nothing", "go survey.raised", "1", "go survey.raised", "empty")
    assert "It would be: 80 1/2 in, about 2045 mm\n" in talk
    assert "It would not be accepted: " in talk
    session = resumed(at_run.parent)
    assert (session.state(RUN), session.text("survey.raised")) == ("missing", "0 in")


def test_what_was_refused_holds_its_page_until_it_is_left_open(at_run: Path) -> None:
    assert "Accepted: at the foot corners" not in told_of(at_run, "go corners.foot", "frobnicate", "usual", "usual")
    talk = told_of(at_run, "go corners.foot", "frobnicate", "later", "usual")
    assert talk.count("Found “frobnicate”") == 1
    assert "Accepted: at the foot corners" in talk
    assert "Left open:" not in talk


def test_a_thing_in_the_way_is_added_under_any_name_but_that_of_an_order_listed_and_taken_out(at_run: Path) -> None:
    to_name = f"go {LEFT}.in_the_way"
    talk = told_of(at_run, to_name, "centre [leg]", to_name, "file cabinet", to_name, "back")
    assert "Already here: centre [leg], file cabinet\n" in talk
    things = resumed(at_run.parent).project.survey.section["left"].in_the_way
    assert [each.name for each in things.values()] == ["centre [leg]", "file cabinet"]
    assert heard("removed", told_of(at_run, f"go {LEFT}.in_the_way.centre-leg", "remove"))
    assert [*resumed(at_run.parent).project.survey.section["left"].in_the_way] == ["file-cabinet"]


def test_control_characters_are_shown_and_do_nothing(at_run: Path) -> None:
    talk = told_of(at_run, f"go {LEFT}.name", "a\x1b[31m\x07b", f"go {LEFT}.name")
    assert "\x1b" not in talk
    assert "\\x1b[31m" in talk


def test_fullness_and_ways_read_their_rows_with_the_recommended_one_first(whole: Path) -> None:
    usual = whole.read_text(encoding="utf-8")
    talk = told_of(whole, "go fullness.how", "ways", "whole widths")
    fullness, ways = talk.split("Recommended: ")[1:3]
    assert fullness.startswith("2.5. ")
    assert "\n2.5: to buy 4 yd, joins " in fullness
    assert "\n1. Across, part widths: to buy 4 yd, joins " in ways
    assert "recommended" in ways
    assert 'joins = "whole widths"' in whole.read_text(encoding="utf-8")
    whole.write_text(usual.replace(*FROM_TEMPLATE, 1), encoding="utf-8")
    talk = told_of(whole, "ways", "go fullness.how", "go cloth.face.wash")
    assert "The rest" in talk
    assert talk.count("Recommended: ") == 2
    for row in ("1. Across, part widths", "2.5"):
        assert f"\n{row}: to buy 4 yd, joins " in talk


def test_every_picture_has_its_words() -> None:
    for picture in {*Picture.__args__} - {*FROM_JOB, *WITHOUT_WORDS}:  # type: ignore[attr-defined]
        assert words(f"drawn {picture}")


def test_drops_read_the_wrong_way_round_are_turned_by_the_number_of_the_offer(tmp_path: Path) -> None:
    falls = MEASURED | {f"{LEFT}.drop.1": "11", f"{LEFT}.drop.3": "13"}
    path = job_at(tmp_path, "survey.section.right.run.1", falls)
    talk = told_of(path, "76 1/2", "76 1/2", "11", "12", GOES_ON, "13", "take 1", "undo", "redo")
    assert "“take 1” does it: " in talk
    assert "F8" not in talk
    drops = resumed(tmp_path).project.survey.section["right"].drop
    assert [each.text for each in drops if each] == ["13 in", "12 in", "11 in"]
