"""Answers in plain lines: taken, refused, looked at again, and second thoughts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.benchmarks.stood import DEMO, copied
from tests.interview.maker import MEASURED, resumed
from tests.prompts.talks import NAME, job_at, told, told_of

RUN = "survey.section.left.run.1"


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


def after(heard: str, answer: str) -> str:
    """What was said to `answer`, up to the next prompt."""
    return heard.partition(f": {answer}\n")[2].partition("Answer:")[0]


def test_a_question_says_its_title_its_words_and_what_an_empty_line_does(at_run: Path) -> None:
    heard = told_of(at_run)
    title, ask = "Left section: run at the rail\n", "How long is the run at the rail?\n"
    assert heard.index(title) < heard.index(ask) < heard.index("Needed. .next leaves it for later.\n")


def test_an_answer_is_echoed_in_both_systems_and_saved(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8")
    assert after(heard, "76 5/8").startswith("Taken: 76 5/8 in, about 1946 mm\n")
    assert resumed(at_run.parent).text(RUN) == "76 5/8 in"


def test_an_answer_that_cannot_be_read_is_refused_with_an_example_and_holds_back_nothing(at_run: Path) -> None:
    heard = told_of(at_run, "12 bananas", ".back")
    assert after(heard, "12 bananas").startswith("Not taken: ")
    assert "For example: " in after(heard, "12 bananas")
    assert "Left section: name\n" in after(heard, ".back")


def test_what_may_have_been_meant_is_offered_by_number_and_taken_by_it(at_run: Path) -> None:
    heard = told_of(at_run, "12,300 mm", ".take 1")
    offers = [each for each in after(heard, "12,300 mm").splitlines() if each.startswith(".take ")]
    first, second = (each.partition(" gives: ")[2] for each in offers)
    assert first != second
    assert resumed(at_run.parent).text(RUN) == first


def test_a_length_that_begins_with_a_full_stop_is_an_answer_and_no_order(at_run: Path) -> None:
    assert "Taken: 80 1/2 in" in told_of(at_run, "80.5")
    heard = told_of(at_run, ".back", ".go survey.floor_gap", ".5")
    assert "Taken: 1/2 in, about 13 mm\n" in heard


def test_text_that_begins_as_an_order_does_is_given_with_two_full_stops(at_run: Path) -> None:
    told_of(at_run, ".back", "..back room")
    assert resumed(at_run.parent).text("survey.section.left.name") == ".back room"


def test_an_empty_line_takes_the_usual_answer_where_there_is_one(tmp_path: Path) -> None:
    heard = told(tmp_path, f".new {NAME}", "")
    assert "Empty line: takes the usual, inches.\n" in heard
    assert 'standard = "inches"' in (tmp_path / "juniper-loft.toml").read_text(encoding="utf-8")


def test_an_empty_line_is_no_answer_where_one_is_needed_and_next_leaves_it_for_later(at_run: Path) -> None:
    heard = told_of(at_run, "", ".next")
    assert "Not taken: This one is needed" in heard
    assert "Left section: run near the floor\n" in after(heard, ".next")
    assert RUN in [each.key for each in resumed(at_run.parent).missing()]


def test_an_empty_line_keeps_an_answer_that_stands(at_run: Path) -> None:
    before = at_run.read_bytes()
    heard = told_of(at_run, ".go survey.rail", "")
    assert "Answered: solid wood\nEmpty line: keeps it.\n" in heard
    assert at_run.read_bytes() == before


def test_choices_are_numbered_and_picked_by_number(tmp_path: Path) -> None:
    path = job_at(tmp_path, "survey.rail")
    heard = told_of(path, "3")
    assert "\n3. Metal: " in heard
    assert resumed(tmp_path).text("survey.rail") == "metal"


def test_several_choices_are_picked_by_their_numbers(tmp_path: Path) -> None:
    told_of(job_at(tmp_path, "survey.watch"), "1, 3")
    assert resumed(tmp_path).text("survey.watch").count(",") == 1


def test_a_list_of_which_nothing_is_picked_says_so_when_one_comes_back_to_it(tmp_path: Path) -> None:
    heard = told_of(job_at(tmp_path, "survey.watch"), "0", ".go survey.watch")
    assert "Answered: none of them\nEmpty line: keeps it.\n" in heard


def test_as_many_figures_are_said_to_change_as_the_plan_marks_and_those_it_tells_no_more_are_counted(
    tmp_path: Path,
) -> None:
    path = copied(DEMO, tmp_path, "survey.section.left.run.1")
    heard = told_of(path, ".plan", "81", ".plan", ".go survey.section.left.left_end", "stops short", ".plan")
    first, second, third = (each.partition("\nAnswer: ")[0] for each in heard.split("Answer: .plan\n")[1:])
    assert f"Changed: {second.count(', changed, was ')} figures. .plan says which.\n" in heard
    # Widths and pins have no reason of their own, and are no figures.
    before, after_it = (len(re.findall(r"\n\d+\. (?!Cut|Steel pins)[^:]+: ", each)) for each in (second, third))
    gone = before - after_it
    assert second.count(": ") == first.count(": ")
    assert f"Not known for now: {gone} figures. .missing lists what is asked for.\n" in heard


def test_what_looks_wrong_is_asked_again_and_an_empty_line_goes_on(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", "79", "")
    asked = after(heard, "79")
    assert "Look again: " in asked
    assert "Way out: " in asked
    assert "drop at the head end\n" in heard.partition("Look again: ")[2]


def test_what_looks_wrong_can_be_read_again_at_once(at_run: Path) -> None:
    told_of(at_run, "76 5/8", "79", "76 1/2")
    session = resumed(at_run.parent)
    assert session.text("survey.section.left.run.2") == "76 1/2 in"
    assert not session.plan.findings


def test_what_looks_wrong_can_be_kept_and_is_asked_about_again_when_wanted(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", "79", ".keep")
    assert "Kept: " in heard
    assert [each.kept for each in resumed(at_run.parent).plan.findings] == [True]
    assert "Asked again: " in told_of(at_run, ".findings", "1", "3")
    assert [each.kept for each in resumed(at_run.parent).plan.findings] == [False]


def test_a_finding_is_gone_to_from_the_list(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", "79", "", ".findings", "1", "1")
    assert "Answered: 79 in\n" in heard.partition("1. Go to: Left section: run near the floor\n")[2]


def test_of_two_answers_held_against_each_other_either_is_read_again(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", "79", ".other", "79 1/8", ".other")
    asked = " ".join(heard.partition("Answer: 79\n")[2].split())
    assert "76 5/8 in at the rail and 79 in near the floor, 2 3/8 in more" in asked
    assert ".other goes to: Left section: run at the rail." in asked
    assert resumed(at_run.parent).text(RUN) == "79 1/8 in"
    assert "held against no other answer" in asked
    heard = told_of(at_run, ".go survey.section.left.run.2", "76 1/2", "", ".findings", "1", "2")
    assert "Answered: 79 1/8 in\n" in heard.partition("2. Go to: Left section: run at the rail\n")[2]


def test_undo_takes_an_answer_back_and_redo_gives_it_again(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", ".undo", ".file")
    assert "Taken back: Left section: run at the rail.\n" in heard
    assert resumed(at_run.parent).state(RUN) == "missing"
    told_of(at_run, "76 5/8", ".undo", ".redo")
    assert resumed(at_run.parent).text(RUN) == "76 5/8 in"


def test_an_answer_can_be_tried_without_being_given(at_run: Path) -> None:
    heard = told_of(at_run, ".try 6' 8 1/2\"", ".try nothing")
    assert "It would be: 80 1/2 in, about 2045 mm\n" in heard
    assert "It would not be taken: " in heard
    assert resumed(at_run.parent).state(RUN) == "missing"


def test_an_answer_is_taken_out_so_that_the_usual_one_stands(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN, MEASURED | {"survey.floor_gap": "1/4"})
    told_of(path, ".go survey.floor_gap", ".empty")
    assert resumed(tmp_path).text("survey.floor_gap") == "0 in"


def test_what_was_typed_and_not_taken_is_told_on_return_and_when_leaving(at_run: Path) -> None:
    heard = told_of(at_run, "12 bananas", ".next", ".back", ".quit")
    assert "Typed before, not entered: 12 bananas\n.take 1 enters it.\n" in heard
    assert "Not entered yet: 12 bananas.\nIt is offered again when you open the project.\n" in heard


def test_a_thing_in_the_way_is_added_named_and_taken_out(tmp_path: Path) -> None:
    path = job_at(tmp_path, "survey.section.left.in_the_way")
    heard = told_of(path, "centre [leg]", ".go survey.section.left.in_the_way", ".quit")
    assert "There already: centre [leg]\n" in heard
    assert "Asked now too" not in heard, "one is led to what is asked of it"
    told_of(path, ".go survey.section.left.in_the_way.centre-leg", ".remove")
    assert not resumed(tmp_path).project.survey.section["left"].in_the_way


def test_an_answer_that_brings_up_others_before_it_says_what_is_asked_now_too(tmp_path: Path) -> None:
    path = job_at(tmp_path, "cloth.face.kind")
    heard = told_of(path, ".go survey.section.head.on", "yes")
    assert "Asked now too: " in heard
    assert " more. .look lists them.\n" in heard


def test_what_is_to_look_at_again_is_listed_until_one_has_been_there(tmp_path: Path) -> None:
    path = job_at(tmp_path)
    change = ("done", ".go survey.section.left.run.1", "70", "", ".go cloth.face.width")
    heard = " ".join(told_of(path, ".go work.hem:face:left", *change, ".look", "1", ".look").split())
    assert "Changed since you ticked “Hem: face cloth, left section”. Left section: " in heard
    assert "1 to look at again since other answers. .look lists what." in heard
    assert "1. Hem: face cloth, left section: to look at again, changed since you ticked it; ticked" in heard
    assert "Nothing waits to be looked at again." in heard
    assert "upset" not in heard.casefold()


@pytest.mark.parametrize("begun", ["l", "look"])
def test_the_order_that_lists_what_is_to_look_at_again_is_taken_by_its_first_letter(at_run: Path, begun: str) -> None:
    assert "Nothing waits to be looked at again." in told_of(at_run, f".{begun}")


def test_no_word_of_the_help_says_upset(at_run: Path) -> None:
    assert "upset" not in told_of(at_run, ".help").casefold()


def test_what_is_asked_anyway_when_going_on_is_not_told_beforehand(at_run: Path) -> None:
    heard = told_of(at_run, "76 5/8", "76 5/8", "11 7/8", "12", "16")
    assert "Look again: " in heard
    assert "Asked now too" not in heard


def test_a_change_of_what_is_to_be_bought_is_told_beside_what_it_was(tmp_path: Path) -> None:
    heard = told_of(job_at(tmp_path), ".go fullness.want", "3")
    bought = next(each for each in heard.splitlines() if each.startswith("To buy, face cloth: "))
    assert ", was 4 yd" in bought


def test_control_characters_are_shown_and_do_nothing(tmp_path: Path) -> None:
    path = job_at(tmp_path, "survey.section.left.name")
    heard = told_of(path, "\x1b[31mred\x07", "[b]bold[/b]", "", ".go survey.section.left.name", ".quit")
    assert "\x1b" not in heard
    assert "\x07" not in heard
    assert "\\x1b[31mred\\x07" in heard
    assert "Answered: [b]bold[/b]\n" in heard


# Comparing the ways of cutting in plain lines, and following one.
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


# An order that finds nothing to do says so in a sentence, and changes nothing.
BEGUN = "survey.rail"
"""A job of which only the first questions are answered."""
AT_A_QUESTION = {
    ".findings": "Nothing looks wrong.",
    ".keep": "Say which: .keep and a number of the list that .findings reads.",
    ".keep 7": "Say which: .keep and a number of the list that .findings reads.",
    ".other": "What looks wrong here is held against no other answer. .findings lists all there is.",
    ".undo": "There is nothing to take back.",
    ".redo": "There is nothing to give again.",
    ".take 1": "Nothing is offered here.",
    ".ways": "There is no cloth to cut yet.",
    ".look": "Nothing waits to be looked at again.",
    ".work": "There are no steps yet: the plan is not complete.",
    ".hours": "There are no steps yet: they come once nothing is missing.",
    ".note slub": "This goes with a step of the work. .work goes to the steps.",
    ".untick": "This goes with a step of the work. .work goes to the steps.",
    ".time": "This goes with a step of the work. .work goes to the steps.",
    ".remove": "Nothing here was added: only added sections, things, lengths and readings can be taken out.",
    ".go 5": "There is nothing here yet: the plan is not complete. Next: Answer: ",
    ".go trapdoor": "Nothing is called “trapdoor”",
}
AT_A_STEP = {
    ".empty": "No question is in hand: this is a step of the work.",
    ".try 12 in": "No question is in hand: this is a step of the work.",
    ".take 1": "No question is in hand: this is a step of the work.",
    ".missing": "No answer is missing.",
    ".drawing": "No drawing goes with this.",
    "stop": "No step is timed. start begins.",
}


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """A job at a question, and one at a step."""
    folder = tmp_path_factory.mktemp("made")
    return {
        "question": job_at(folder, BEGUN).read_bytes(),
        "step": job_at(tmp_path_factory.mktemp("whole")).read_bytes(),
    }


@pytest.mark.parametrize(
    ("place", "order", "sentence"),
    [*(("question", *each) for each in AT_A_QUESTION.items()), *(("step", *each) for each in AT_A_STEP.items())],
)
def test_it_says_so_and_leaves_the_file_alone(
    files: dict[str, bytes], tmp_path: Path, place: str, order: str, sentence: str
) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(files[place])
    assert sentence in " ".join(told_of(path, order).split())
    assert path.read_bytes() == files[place]


def test_a_step_that_is_ticked_already_is_said_to_be_so(files: dict[str, bytes], tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(files["step"])
    assert "Ticked already. .untick takes the tick back." in told_of(path, "done", ".back", "done")
