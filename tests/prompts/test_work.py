"""The work in plain lines: cautions first, ticks, notes, times."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import resumed
from tests.prompts.sentences import heard, said
from tests.prompts.talks import another_hand, job_at, told_of


def test_done_ticks_and_goes_on_an_empty_line_only_goes_on_and_what_is_neither_is_asked_again(whole: Path) -> None:
    first, second, third = resumed(whole.parent).plan.work[:3]
    talk = told_of(whole, "work", "perhaps")
    assert heard("not understood", talk, "perhaps")
    assert heard("stuck", talk)
    assert not resumed(whole.parent).project.work
    talk = told_of(whole, "work", "done 25 minutes", "", "quit")
    assert heard("ticked", talk, first.title)
    assert heard("step", talk, 3, len(resumed(whole.parent).plan.work), third.title)
    kept = resumed(whole.parent).project.work
    assert (kept[first.id].minutes, second.id in kept) == (25, False)


def test_a_tick_is_taken_back_and_undone_and_a_second_one_is_told(whole: Path) -> None:
    first = resumed(whole.parent).plan.work[0]
    talk = told_of(whole, "work", "done", "back", "done", "back", "untick", "undo")
    assert heard("ticked already", talk)
    assert heard("unticked", talk, first.title)
    assert resumed(whole.parent).project.work[first.id].done is not None


def test_a_note_is_written_read_out_refused_where_it_cannot_be_kept_and_removed(whole: Path) -> None:
    first = resumed(whole.parent).plan.work[0]
    talk = told_of(whole, "work", "note a slub, turned inside", f"note {'long ' * 2000}", "again", "note", "none")
    assert talk.count("Note: a slub, turned inside\n") == 2
    assert said("refused", "") in talk
    assert "Note removed.\n" in talk
    kept = resumed(whole.parent).project.work.get(first.id)
    assert kept is None or kept.note is None


def test_stop_starting_again_and_leaving_write_the_minutes_down_and_a_number_corrects_them(whole: Path) -> None:
    first, second = resumed(whole.parent).plan.work[:2]
    talk = " ".join(told_of(whole, "work", "start", "stop", "25", "again", "hours", "0", "quit").split())
    assert heard("timer stopped", talk, first.title, "It took 1 minute.")
    assert f"Time: about {first.minutes} minutes. It took 25 minutes." in talk
    assert "took 25 minutes." in talk.partition("Cloth: about ")[2].partition("Cutting: ")[0]
    assert "No minutes are recorded." in talk
    assert resumed(whole.parent).project.work[first.id].minutes is None
    talk = told_of(whole, "work", "start", "start", "", "start", "quit")
    assert heard("timer stopped", talk, first.title, "It took 1 minute. Timer started.")
    assert heard("timer stopped", talk, first.title, "It took 2 minutes. Timer started.")
    assert resumed(whole.parent).project.work[second.id].minutes == 1
    told_of(whole, "start", "done", "quit")
    assert resumed(whole.parent).project.work[second.id].minutes == 2


@pytest.mark.parametrize("lines", [("start", "start"), ("start", "", "start")], ids=["the same step", "the next step"])
def test_minutes_that_starting_again_cannot_write_down_are_asked_about(whole: Path, lines: tuple[str, ...]) -> None:
    first = resumed(whole.parent).plan.work[0]
    *before, again = lines
    talk = told_of(whole, "work", *before, another_hand(whole), again, "2", "quit")
    assert "Not saved: " in talk.partition(said("timer"))[2]
    assert heard("written over", talk, "job.toml.before")
    assert talk.count(said("timer")) == 2
    assert resumed(whole.parent).project.work[first.id].minutes


def test_a_ticked_step_that_has_changed_says_so(whole: Path) -> None:
    talk = told_of(whole, "work", "done", "go fullness.how", "3", "go work.buy", "quit")
    assert "Changed since you ticked “Buy”. Face cloth: cloth to buy was " in " ".join(talk.split())
    assert heard("step changed", talk, "Face cloth: cloth to buy was ")


def test_the_end_of_the_questions_says_what_to_buy_and_behind_the_steps_is_the_end(tmp_path: Path) -> None:
    talk = told_of(job_at(tmp_path, "ways.face"), "")
    assert heard("questions done", talk, "4 yd")
    assert "Step 1 of " in talk
    last = resumed(tmp_path).plan.work[-1]
    assert said("end") in told_of(tmp_path / "job.toml", f"go work.{last.id}", "")
