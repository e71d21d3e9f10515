"""Orders: how they are known, going about, reading the plan, and those that find nothing to do."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import resumed
from tests.prompts.sentences import heard, said
from tests.prompts.talks import RUN, job_at, told_of
from wizard.prompts.console import Do, called, help_line, meant
from wizard.prompts.conversation import Conversation
from wizard.prompts.job_orders import ORDERS


@pytest.mark.parametrize("order", ORDERS, ids=called)
def test_every_order_is_reached_by_its_name_and_told_in_the_help(order: Do[Conversation], at_run: Path) -> None:
    assert meant(ORDERS, called(order)) is order
    assert help_line(order).endswith(".")
    talk = " ".join(told_of(at_run, "help", f"help {called(order)}").split())
    assert talk.count(" ".join(help_line(order).split())) == 2


def test_a_question_mark_says_how_to_answer_and_an_order_that_is_none_or_several_what_to_do(at_run: Path) -> None:
    question, talk = resumed(at_run.parent).current(), told_of(at_run, "?", ".frobnicate", ".b")
    assert question is not None
    assert question.how.split(". ")[0] in " ".join(talk.split())
    assert "“quit” leaves: every answer is saved." in talk
    assert heard("no order", talk, "frobnicate")
    assert heard("several orders", talk, "back, buy")


@pytest.mark.parametrize(
    ("words", "prompt"),
    [
        (("left drop foot end",), "Drop at the foot end: "),
        ((RUN,), "Run at the rail: "),
        (("1",), "Name [Juniper loft]: "),
        (("", "4"), "Floor [carpet]: "),
        (("drop at", ""), "Run at the rail: "),
    ],
)
def test_anything_is_gone_to_by_words_by_key_or_page(words: tuple[str, ...], prompt: str, at_run: Path) -> None:
    # Pages are listed with their titles, numbered one by one, and gone to by a title.
    session = resumed(at_run.parent)
    shown = [page for page in session.pages if page.shown and session.go(page.fields[0].key)]
    listed = told_of(at_run, "go", "")
    assert ". Survey: \n" not in listed
    for number, page in enumerate(shown, 1):
        assert f"\n{number}. {page.stage}" in listed, page.title
    assert "Washing" in told_of(at_run, "go washing", f"go {RUN}")
    first, *lines = words
    talk = told_of(at_run, f"go {first}".strip(), *lines)
    assert talk.rpartition("\n\n")[0].endswith(prompt) or f"\n{prompt}" in talk


def test_a_list_is_left_by_enter_and_by_an_order_and_asks_again_for_a_number_that_is_not_in_it(at_run: Path) -> None:
    talk = told_of(at_run, "missing", "99", "soon", "2", "go", "file")
    for each in ("99", "soon"):
        assert heard("not in the list", talk, each, talk.count(". ") and _count(talk))
    assert "\nRun near the floor: go\n" in talk
    assert "File: " in talk


def _count(talk: str) -> str:
    """How many answers were said to be missing."""
    return talk.partition(" places:")[0].rpartition("\n")[2]


def test_the_plan_so_far_is_there_from_the_first_reading_and_marks_what_the_last_answer_changed(whole: Path) -> None:
    talk = told_of(whole, "plan", "go fullness.how", "3", "plan")
    assert "Left section:\n1. Run: 76 5/8 in\n" in talk
    assert ". Cut length: 13 3/8 in\n" in talk
    assert "Fullness: 3, was 2.5\n" in talk


def test_why_is_asked_from_the_list_or_by_name_and_answered_down_to_what_was_measured(whole: Path) -> None:
    listed = told_of(whole, "plan")
    number = next(each.partition(".")[0] for each in listed.splitlines() if ". Gathered: " in each)
    talk = told_of(whole, f"why {number}", "1", "1", "1", "", "quit")
    why, _, _, deeper = talk.split("Why: ")[1:5]
    for label in ("Result: ", "Formula: ", "With figures: ", "Rule: ", "From: ", "Worked from:\n1. "):
        assert label in why
    assert "Result: 76 5/8 in\n" in deeper
    assert f"“go {RUN}” goes to its question." in " ".join(deeper.split())
    assert set(talk) & set("÷−≈") == set()
    by_name = f"why {resumed(whole.parent).plan.layers[0].buy.id}"
    talk = told_of(whole, "why", "1", "", by_name, "", "why trapdoor", "why 999")
    assert talk.count("Why: ") == 2
    for wanted in ("trapdoor", "999"):
        assert heard("no figure", talk, wanted)


def test_the_cutting_plan_tells_every_piece_with_its_size_first(whole: Path) -> None:
    talk, cutting = told_of(whole, "cut"), resumed(whole.parent).plan.layers[0].cutting
    assert cutting is not None
    assert "\nNo. 1: 13 3/8 in long × 37 9/16 in wide: left section, 1 of 4, from 0 in to\n13 3/8 in\n" in talk
    for number in range(1, len(cutting.best.pieces) + 1):
        line = next(each for each in talk.splitlines() if each.startswith(f"No. {number}: "))
        assert " long × " in line.split(": ")[1]
    assert "Joining, each section from its left end, seen from the room\n" in talk


@pytest.mark.parametrize(
    ("order", "words"),
    [
        ("measures", "Section left section, run 76 5/8"),
        ("full", "Fullness 2.5, to buy "),
        ("buy", "Twill tape, 2 in wide, buy 7 yd, needed 217 1/8 in, 34 7/8 in to spare, sold by\nthe yd\nSewing"),
        ("marks", "Mark 0, left: tape 0, skirt 0, foot: tape 0, skirt 0, right: tape 0, skirt 0\n"),
        ("hang", "Measured from: the head\n"),
        ("cautions", "Not for a cot"),
    ],
)
def test_each_part_of_the_plan_is_read_out_once_known(order: str, words: str, whole: Path, tmp_path: Path) -> None:
    assert words in told_of(whole, order)
    path = tmp_path / "empty.toml"
    path.write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    assert any(
        each in told_of(path, f".{order}").partition(order)[2] for each in ("yet", "No section", "Not for a cot")
    )


AT_A_QUESTION = {
    "findings": "nothing wrong", "keep": "keep which", "keep 7": "keep which", "other": "no other", "undo": "no undo",
    "redo": "no redo", "take 1": "no offer", "look": "no look",
    "note slub": "no step", "untick": "no step", "time": "no step", "remove": "not added", "same": "no copy",
    "go trapdoor": "not called",
}  # fmt: skip
AT_A_STEP = {
    "empty": "a step", "try 12 in": "a step", "take 1": "a step", "usual": "a step", "later": "a step",
    "missing": "no missing", "more": "a step", "same": "a step", "stop": "no timer",
}  # fmt: skip


ORDERED = [(at, *each) for at, orders in ((RUN, AT_A_QUESTION), ("", AT_A_STEP)) for each in orders.items()]


@pytest.mark.parametrize(("until", "order", "key"), ORDERED)
def test_an_order_that_finds_nothing_to_do_says_so_alone(until: str, order: str, key: str, tmp_path: Path) -> None:
    path = job_at(tmp_path, until)
    before, talk = path.read_bytes(), " ".join(told_of(path, order).split())
    assert said(key, "trapdoor" if "trap" in order else "").rstrip(".").removesuffix(" ") in talk
    assert path.read_bytes() == before
