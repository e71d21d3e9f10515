"""An order that finds nothing to do says so in a sentence, and changes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.prompts.talks import job_at, told_of

BEGUN = "survey.rail"
"""A job of which only the first questions are answered."""

AT_A_QUESTION = {
    ".findings": "Nothing looks wrong.",
    ".keep": "Say which: .keep and a number of the list that .findings reads.",
    ".keep 7": "Say which: .keep and a number of the list that .findings reads.",
    ".other": "What looks wrong here is held against no other answer. .findings lists all there is.",
    ".redo": "There is nothing to give again.",
    ".take 1": "Nothing is offered here.",
    ".ways": "There is no cloth to cut yet.",
    ".look": "Nothing waits to be looked at again.",
    ".work": "There are no steps yet: the plan is not complete.",
    ".hours": "There are no steps yet: they come once nothing is missing.",
    ".note slub": "This goes with a step of the work. .work goes to the steps.",
    ".untick": "This goes with a step of the work. .work goes to the steps.",
}
AT_A_STEP = {
    ".empty": "No question is in hand: this is a step of the work.",
    ".try 12 in": "No question is in hand: this is a step of the work.",
    ".take 1": "No question is in hand: this is a step of the work.",
    ".missing": "No answer is missing.",
    ".remove": "Nothing here was added: only added sections, things, lengths and readings can be taken out.",
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
