"""The work in plain lines: cautions first, ticks, notes, times."""

from __future__ import annotations

import io
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.interview.maker import resumed
from tests.prompts.sentences import heard, said
from tests.prompts.talks import Script, another_hand, job_at, told_of
from wizard.interview.session import Session
from wizard.project.store import Store
from wizard.prompts.console import Console, InputEnded
from wizard.prompts.conversation import Conversation
from wizard.prompts.job_orders import converse


def test_done_ticks_and_goes_to_the_next_step_and_an_empty_line_only_goes_on(whole: Path) -> None:
    first, second, third = resumed(whole.parent).plan.work[:3]
    talk = told_of(whole, "work", "done 25 minutes", "", "quit")
    assert heard("ticked", talk, first.title)
    assert heard("step", talk, 3, len(resumed(whole.parent).plan.work), third.title)
    kept = resumed(whole.parent).project.work
    assert (kept[first.id].minutes, second.id in kept) == (25, False)


def test_what_is_not_done_is_asked_again(whole: Path) -> None:
    talk = told_of(whole, "work", "perhaps")
    assert heard("not understood", talk, "perhaps")
    assert heard("stuck", talk)
    assert not resumed(whole.parent).project.work


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


def test_a_timed_step_keeps_the_minutes_that_went_by(whole: Path) -> None:
    times = [datetime(2026, 3, 2, 10, 0, tzinfo=UTC)]
    session = Session.resume(Store(whole), lambda: times[-1])
    assert isinstance(session, Session)
    script = Script("work", "start", lambda: times.append(times[-1] + timedelta(minutes=7, seconds=20)), "done")
    lines = Console(script, io.StringIO())
    with pytest.raises(InputEnded):
        converse(Conversation(lines, session, whole))
    assert resumed(whole.parent).project.work[session.plan.work[0].id].minutes == 8


def test_start_and_stop_write_the_minutes_down_and_a_number_corrects_them(whole: Path) -> None:
    first = resumed(whole.parent).plan.work[0]
    talk = " ".join(told_of(whole, "work", "start", "stop", "25", "again", "hours", "0", "quit").split())
    assert heard("timer stopped", talk, first.title, "It took 1 minute.")
    assert f"Time: about {first.minutes} minutes. It took 25 minutes." in talk
    assert "took 25 minutes." in talk.partition("Cloth: about ")[2].partition("Cutting: ")[0]
    assert "No minutes are written down." in talk
    assert resumed(whole.parent).project.work[first.id].minutes is None


@pytest.mark.parametrize("lines", [("start", "start"), ("start", "", "start")], ids=["the same step", "the next step"])
def test_minutes_that_starting_again_cannot_write_down_are_asked_about(whole: Path, lines: tuple[str, ...]) -> None:
    first = resumed(whole.parent).plan.work[0]
    *before, again = lines
    talk = told_of(whole, "work", *before, another_hand(whole), again, "2", "quit")
    assert "Not saved: " in talk.partition(said("timer"))[2]
    assert heard("written over", talk, "job.toml.before")
    assert talk.count(said("timer")) == 2
    assert resumed(whole.parent).project.work[first.id].minutes


def test_starting_again_and_leaving_write_the_minutes_down(whole: Path) -> None:
    first, second = resumed(whole.parent).plan.work[:2]
    talk = told_of(whole, "work", "start", "start", "", "start", "quit")
    assert heard("timer stopped", talk, first.title, "It took 1 minute. Timer started.")
    assert heard("timer stopped", talk, first.title, "It took 2 minutes. Timer started.")
    assert resumed(whole.parent).project.work[second.id].minutes == 1


def test_a_ticked_step_that_has_changed_says_so(whole: Path) -> None:
    talk = told_of(whole, "work", "done", "go fullness.how", "3", "go work.buy", "quit")
    assert "Changed since you ticked “Buy”. Face cloth: cloth to buy was " in " ".join(talk.split())
    assert heard("step changed", talk, "Face cloth: cloth to buy was ")


def test_the_end_of_the_questions_says_what_to_buy_and_leads_to_the_first_step(tmp_path: Path) -> None:
    talk = told_of(job_at(tmp_path, "ways.face"), "")
    assert heard("questions done", talk, "4 yd")
    assert "Step 1 of " in talk


def test_behind_the_last_step_is_the_end(whole: Path) -> None:
    last = resumed(whole.parent).plan.work[-1]
    assert said("end") in told_of(whole, f"go work.{last.id}", "")
