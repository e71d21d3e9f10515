"""Going about in a job, and reading the plan out."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import EVERYTHING, begun, finished, resumed
from tests.prompts.talks import job_at, told_of
from wizard.interview.question import Question
from wizard.prompts.console import Command, answer_in, command_in, meant
from wizard.prompts.conversation import Conversation
from wizard.prompts.drawing_words import drawing_lines
from wizard.prompts.job_commands import HOW_TO_ANSWER, JOB_COMMANDS
from wizard.render.drawings.scene_for_question import scene_for
from wizard.trade.plan_records import STAGES, Plan

RUN = "survey.section.left.run.1"


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job with every question answered, at its first step. Only read."""
    return job_at(tmp_path_factory.mktemp("whole"))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The file of a job that stands at the first run."""
    return job_at(tmp_path_factory.mktemp("made"), RUN).read_bytes()


@pytest.fixture
def at_run(made: bytes, tmp_path: Path) -> Path:
    """Such a job."""
    file = tmp_path / "job.toml"
    file.write_bytes(made)
    return file


@pytest.mark.parametrize(
    ("line", "found"),
    [
        (".back", ("back", "")),
        ("  .Go  drop at the foot ", ("go", "drop at the foot")),
        (".5", None),
        (". 5", None),
        ("..back", None),
        ("", None),
        (".5 in", None),
    ],
)
def test_an_order_is_a_full_stop_and_a_letter(line: str, found: tuple[str, str] | None) -> None:
    assert command_in(line) == found


@pytest.mark.parametrize(("line", "text"), [("..back", ".back"), (" .5 ", ".5"), ("...", "..."), ("12", "12")])
def test_of_two_full_stops_before_a_letter_one_is_taken_off(line: str, text: str) -> None:
    assert answer_in(line) == text


def test_every_order_is_reached_by_its_name_and_by_a_beginning_that_no_other_has() -> None:
    names = [each.name for each in JOB_COMMANDS]
    assert len(names) == len(set(names))
    for each in JOB_COMMANDS:
        assert meant(JOB_COMMANDS, each.name) == (each,)
    assert [each.name for each in meant(JOB_COMMANDS, "ba")] == ["back"]
    assert len(meant(JOB_COMMANDS, "b")) > 1


@pytest.mark.parametrize("order", JOB_COMMANDS, ids=lambda each: each.name)
def test_the_help_tells_every_order(order: Command[Conversation], at_run: Path) -> None:
    assert f".{order.name}" in told_of(at_run, ".help")
    assert order.says.split(".")[0] in told_of(at_run, f".help {order.name}").replace("\n", " ")


def test_the_help_says_how_to_answer_the_question_in_hand(at_run: Path) -> None:
    assert HOW_TO_ANSWER["length"].split(".")[0] in told_of(at_run, ".help")


def test_an_order_that_is_none_or_several_is_answered_with_what_to_do(at_run: Path) -> None:
    heard = told_of(at_run, ".frobnicate", ".b")
    assert "There is no .frobnicate here." in heard
    assert "Several begin so: .back, .brief, .buy. Type one letter more." in heard.replace(".\nType", ". Type")


def test_back_and_next_go_one_place_and_end_at_the_ends(at_run: Path) -> None:
    heard = told_of(at_run, ".next", ".back", ".go name", ".back")
    assert heard.count("\nLeft section: run at the rail\n") == 2
    assert "This is the beginning.\n" in heard


def test_any_question_is_gone_to_by_stage_and_number(at_run: Path) -> None:
    heard = told_of(at_run, ".go", "1", "1")
    for number, stage in enumerate(STAGES, 1):
        assert f"\n{number}. {stage}: " in heard
    assert "\nWhat is this job to be called?\n" in heard.partition("Number, or an empty line to stay here: 1\n")[2]


def test_any_question_is_gone_to_by_words_of_its_title(at_run: Path) -> None:
    heard = told_of(at_run, ".go left drop foot end", ".quit")
    assert "\nLeft section: drop at the foot end\nHow far is it" in heard


def test_words_that_several_titles_have_are_asked_about_and_an_empty_line_stays(at_run: Path) -> None:
    heard = told_of(at_run, ".go drop at", "", "76 5/8")
    assert "places:\n1. " in heard
    assert resumed(at_run.parent).text(RUN) == "76 5/8 in"


def test_a_number_that_is_not_in_the_list_is_asked_for_again(at_run: Path) -> None:
    heard = told_of(at_run, ".go", "99", "soon", "")
    assert "Not in the list: “99”." in heard
    assert "Not in the list: “soon”." in heard


def test_an_order_typed_in_a_list_leaves_the_list_and_is_carried_out(at_run: Path) -> None:
    assert "File: " in told_of(at_run, ".go", ".file")


def test_missing_answers_are_listed_and_gone_to(at_run: Path) -> None:
    heard = told_of(at_run, ".missing", "2")
    assert "1. Left section: run at the rail: missing\n" in heard
    assert "And how long is it near the floor?" in heard


def test_the_plan_so_far_is_there_from_the_first_reading(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", ".plan")
    assert "Left section:\n1. Run: 76 5/8 in, new\n" in heard


def test_what_the_last_answer_changed_is_marked_in_the_plan(whole: Path, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(whole.read_bytes())
    heard = told_of(path, ".go fullness.want", "3", ".plan")
    assert "Fullness: 3, changed, was 2.5\n" in heard


def test_why_is_answered_down_to_what_was_measured(whole: Path) -> None:
    listed = told_of(whole, ".plan")
    number = next(each.partition(".")[0] for each in listed.splitlines() if ". Gathered: " in each)
    heard = told_of(whole, f".why {number}", "1", "1", "1", "", "", ".quit")
    why, _, _, deeper = heard.split("Why: ")[1:5]
    for label in ("It is: ", "Formula: ", "With figures: ", "Rule: ", "From: ", "Worked from:\n1. "):
        assert label in why
    assert "It is: 76 5/8 in\n" in deeper
    assert "Asked for: .go survey.section.left.run.1 goes to the question.\n" in deeper
    assert "Back at: " in heard


def test_why_is_asked_from_the_list_or_by_name(whole: Path) -> None:
    assert "Why: " in told_of(whole, ".why", "1", "")
    assert "Why: " in told_of(whole, f".why {resumed(whole.parent).plan.layers[0].buy.id}", "")
    assert "No figure is called “trapdoor”" in told_of(whole, ".why trapdoor")
    assert "No figure has the number 999" in told_of(whole, ".why 999")


def test_signs_of_arithmetic_are_read_out_as_words(whole: Path) -> None:
    heard = told_of(whole, f".why {resumed(whole.parent).plan.parts[0].flat_made.id}", "")
    assert "times" in heard
    assert set(heard) & set("×÷−≈") == set()


def test_the_cutting_plan_tells_every_piece_and_what_it_is_joined_to(whole: Path) -> None:
    heard = told_of(whole, ".cut")
    plan = resumed(whole.parent).plan
    cutting = plan.layers[0].cutting
    assert cutting is not None
    for number in range(1, len(cutting.best.pieces) + 1):
        assert f"\nPiece {number}: from " in heard
    assert "\nLeft section: from the head end, piece 1, " in heard
    assert "Is this the least cloth?\nCut across the roll, yes: no other plan uses less" in heard
    assert "Square the end first: 1 in.\n" in heard


@pytest.mark.parametrize(
    ("order", "said"),
    [
        (".measures", "Section left section, run 76 5/8"),
        (".full", ", fullness "),
        (".buy", "twill tape, 2 in wide: 7 yd"),
        (".marks", "Mark 0, tape 0, flat skirt 0\n"),
        (".hang", "Measure from: the head\n"),
        (".cautions", "Caution: "),
    ],
)
def test_each_part_of_the_plan_is_read_out(order: str, said: str, whole: Path) -> None:
    assert said in told_of(whole, order)


@pytest.mark.parametrize("order", [".measures", ".full", ".buy", ".cut", ".marks", ".hang", ".plan", ".work"])
def test_what_is_not_known_yet_is_told_so(order: str, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    heard = told_of(path, order).partition(order)[2]
    assert any(word in heard for word in ("yet", "not known", "No section"))


def test_how_to_measure_is_left_out_when_wanted_and_comes_back(at_run: Path) -> None:
    how = "Lay the tape along the rail itself"
    heard = told_of(at_run, ".brief", ".again", ".brief", ".again")
    assert [how in each for each in heard.split("Left section: run at the rail\n")[1:]] == [True, False, True]


def test_a_section_is_told_in_words_with_its_readings_its_floor_and_how_to_hold_the_tape(tmp_path: Path) -> None:
    path = job_at(tmp_path, "survey.section.left.drop.3")
    heard = " ".join(told_of(path, ".drawing", "12 1/4", ".go survey.section.left.drop.3", ".drawing").split())
    first, _, second = heard.partition("Taken: 12 1/4 in")
    assert "Left section, seen from the room: the head end at the left, the foot end at the right." in first
    assert "Drop at the head end: 11 7/8 in. Drop in the middle: 12 in. Drop at the foot end: not read yet." in first
    assert "Asked for: How far is it from the rail to the floor, at the foot end?" in first
    assert "Let the tape hang plumb" in first.partition("Asked for: ")[2]
    assert "The floor, from the head end to the foot end: falls 1/8 in, then falls 1/4 in." in second


def _drawn(plan: Plan, question: Question) -> bool:
    """True for a question beside which the screens draw."""
    shows = question.shows
    return scene_for(plan, shows.drawing, shows.section, shows.picked, question.key) is not None


@pytest.mark.parametrize("script", [{}, EVERYTHING], ids=["nothing known", "everything"])
def test_every_drawing_can_be_told_in_words(script: dict[str, str], tmp_path: Path) -> None:
    session = finished(tmp_path, script) if script else begun(tmp_path)
    told = {each: list(drawing_lines(session.plan, each)) for each in session.questions}
    drawn = {each for each in told if _drawn(session.plan, each)}
    assert drawn
    assert {each for each, lines in told.items() if lines} == drawn
    for question in drawn:
        lines = told[question]
        assert len(lines) > 2, question.key
        assert lines[-2:] == [f"Asked for: {question.words}", question.how]
        assert all(line.strip().isprintable() for line in lines)
