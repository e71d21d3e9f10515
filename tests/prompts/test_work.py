"""The work in plain lines: cautions first, ticks, notes, times."""

from __future__ import annotations

import io
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.interview.maker import resumed
from tests.prompts.talks import another_hand, job_at, told_by, told_of
from wizard.interview.session import Session
from wizard.project.store import Store
from wizard.prompts.console import Console, InputEnded
from wizard.prompts.conversation import Conversation
from wizard.prompts.job_loop import converse


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The file of a job with every question answered."""
    return job_at(tmp_path_factory.mktemp("made")).read_bytes()


@pytest.fixture
def path(made: bytes, tmp_path: Path) -> Path:
    """Such a job, to be worked at."""
    file = tmp_path / "job.toml"
    file.write_bytes(made)
    return file


def test_done_ticks_and_goes_to_the_next_step_and_an_empty_line_only_goes_on(path: Path) -> None:
    first, second, third = resumed(path.parent).plan.work[:3]
    heard = told_of(path, ".work", "done", "", ".quit")
    assert f"Ticked: {first.title}\n" in heard
    assert f"Step 3 of {len(resumed(path.parent).plan.work)}: {third.title}\n" in heard
    kept = resumed(path.parent).project.work
    assert (first.id in kept, second.id in kept) == (True, False)


def test_the_minutes_it_took_go_with_the_tick(path: Path) -> None:
    first = resumed(path.parent).plan.work[0]
    told_of(path, ".work", "done 25 minutes")
    assert resumed(path.parent).project.work[first.id].minutes == 25


def test_what_is_not_done_is_asked_again(path: Path) -> None:
    assert "Not understood: “perhaps”.\ndone ticks it" in told_of(path, ".work", "perhaps")
    assert not resumed(path.parent).project.work


def test_a_tick_is_taken_back_and_undone(path: Path) -> None:
    first = resumed(path.parent).plan.work[0]
    heard = told_of(path, ".work", "done", ".back", ".untick", ".undo")
    assert f"Not ticked any more: {first.title}\n" in heard
    assert resumed(path.parent).project.work[first.id].done is not None


def test_a_note_is_written_read_out_and_taken_out(path: Path) -> None:
    first = resumed(path.parent).plan.work[0]
    heard = told_of(path, ".work", ".note a slub, turned inside", ".again", ".note", "none")
    assert heard.count("Note: a slub, turned inside\n") == 2
    assert "Note taken out.\n" in heard
    kept = resumed(path.parent).project.work.get(first.id)
    assert kept is None or kept.note is None


def test_a_note_that_cannot_be_kept_is_refused_with_a_sentence(path: Path) -> None:
    heard = told_of(path, ".work", f".note {'long ' * 2000}")
    assert "Not taken: " in heard


def test_a_timed_step_keeps_the_minutes_that_went_by(path: Path) -> None:
    now = datetime(2026, 3, 2, 10, 0, tzinfo=UTC)

    def clock() -> datetime:
        nonlocal now
        now += timedelta(minutes=7, seconds=20)
        return now

    session = Session.resume(Store(path), lambda: datetime(2026, 3, 2, 9, 0, tzinfo=UTC))
    assert isinstance(session, Session)
    lines = Console(io.StringIO(".work\n.time\ndone\n"), io.StringIO())
    with pytest.raises(InputEnded):
        converse(Conversation(lines, session, path, clock))
    assert resumed(path.parent).project.work[session.plan.work[0].id].minutes == 8


def test_start_and_stop_write_the_minutes_down_and_a_number_mends_them(path: Path) -> None:
    first = resumed(path.parent).plan.work[0]
    heard = told_of(path, ".work", "stop", "start", "stop", "25", ".again", ".hours", "0", ".quit").replace("\n", " ")
    assert "No step is timed. start begins." in heard
    assert f"Timing ends: {first.title} It took 1 minute." in heard
    assert f"Time: about {first.minutes} minutes. It took 25 minutes." in heard
    assert "took 25 minutes." in heard.partition("Cloth: about ")[2].partition("Cutting: ")[0]
    assert "No minutes are written down." in heard
    assert resumed(path.parent).project.work[first.id].minutes is None


@pytest.mark.parametrize("lines", [("start", "start"), ("start", "", "start")], ids=["the same step", "the next step"])
def test_minutes_that_starting_again_cannot_write_down_are_asked_about(path: Path, lines: tuple[str, ...]) -> None:
    first = resumed(path.parent).plan.work[0]
    *before, again = lines
    told = told_by(path, ".work", *before, another_hand(path), again, "2", ".quit").replace("\n", " ")
    assert "Not saved: " in told.partition("Timing begins.")[2]
    assert "Saved: my change stands. " in told
    assert told.count("Timing begins.") == 2
    assert resumed(path.parent).project.work[first.id].minutes


def test_starting_again_says_what_was_written_down(path: Path) -> None:
    first, second = resumed(path.parent).plan.work[:2]
    heard = told_of(path, ".work", "start", "start", "", "start", ".quit").replace("\n", " ")
    assert f"Timing ends: {first.title} It took 1 minute. Timing begins." in heard
    assert f"Timing ends: {first.title} It took 2 minutes. Timing begins." in heard
    assert resumed(path.parent).project.work[second.id].minutes == 1


def test_leaving_writes_the_minutes_of_a_step_that_is_timed(path: Path) -> None:
    first = resumed(path.parent).plan.work[0]
    told_of(path, ".work", "start", ".quit")
    assert resumed(path.parent).project.work[first.id].minutes == 1


def test_a_ticked_step_that_reads_otherwise_now_says_so(path: Path) -> None:
    heard = told_of(path, ".work", "done", ".go fullness.want", "3", ".go work.buy", ".quit")
    heard = heard.replace("\n", " ")
    assert "Changed since you ticked “Buy”. Face cloth: cloth to buy was " in heard
    assert "Changed since you ticked it: Face cloth: cloth to buy was " in heard


def test_the_end_of_the_questions_says_what_to_buy_and_leads_to_the_first_step(tmp_path: Path) -> None:
    heard = told_of(job_at(tmp_path, "fullness.joins"), "")
    assert re.search(
        r"The questions are done\.\nTo buy, face cloth: 4 yd\. 11 widths, .*\n\.cut reads the cutting plan\.",
        heard.replace("yd.\n", "yd. "),
    )
    assert "Step 1 of " in heard


def test_the_last_step_has_nothing_behind_it(path: Path) -> None:
    last = resumed(path.parent).plan.work[-1]
    assert "This is the last step.\n" in told_of(path, f".go work.{last.id}", "")
