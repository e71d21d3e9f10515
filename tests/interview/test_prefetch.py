"""An answer worked out beforehand is the answer, and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread
from unittest.mock import patch

import pytest

from tests.interview.maker import SLATTED, begun, finished
from wizard.interview import job_state, read_answer
from wizard.interview.job_state import JobState, work_out
from wizard.interview.outcome import Accepted, Refused
from wizard.interview.session import Session
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.trade.cut_plans import Better
from wizard.trade.plan_records import Plan


@contextmanager
def looking_held_up() -> Iterator[tuple[Callable[[Session, str, str], None], Event]]:
    """Begins to look at an answer beside the test, and holds it up until the event is set."""
    begun, go_on = Event(), Event()
    threads: list[Thread] = []

    def held_up(project: Project, before: JobState | None = None) -> JobState:
        begun.set()
        assert go_on.wait(10)
        return work_out(project, before)

    def looking(job: Session, key: str, text: str) -> None:
        threads.append(Thread(target=job.prefetch, args=(key, text)))
        threads[-1].start()
        assert begun.wait(10)

    with patch.object(read_answer, "work_out", held_up):
        yield looking, go_on
        go_on.set()
        for each in threads:
            each.join(10)


ANSWERS = (
    ("survey.section.left.run.1", "77 1/4"),
    ("survey.section.left.left_end", "returns"),
    ("cloth.lining.use", "yes"),
    ("fullness.want", ""),
)


@contextmanager
def plans_counted() -> Iterator[list[Project]]:
    """The projects a plan was asked for."""
    asked: list[Project] = []

    def counted(project: Project, before: Plan | None, better: Better) -> Plan:
        asked.append(project)
        return plan_of(project, before, better)

    with patch.object(job_state, "plan_of", counted):
        yield asked


@pytest.mark.parametrize(("key", "text"), ANSWERS)
def test_a_foreseen_answer_does_what_the_same_answer_does_unforeseen(tmp_path: Path, key: str, text: str) -> None:
    for folder in ("one", "other"):
        (tmp_path / folder).mkdir()
    ahead, plain = finished(tmp_path / "one", SLATTED), finished(tmp_path / "other", SLATTED)
    ahead.prefetch(key, text)
    with plans_counted() as asked:
        one = ahead.answer(key, text)
    other = plain.answer(key, text)
    assert isinstance(one, Accepted)
    assert one == other
    assert (ahead.plan, ahead.project, ahead.questions, ahead.at) == (
        plain.plan,
        plain.project,
        plain.questions,
        plain.at,
    )
    assert (tmp_path / "one/job.toml").read_bytes() == (tmp_path / "other/job.toml").read_bytes()
    assert not asked


def test_looking_ahead_saves_nothing_and_changes_nothing(tmp_path: Path) -> None:
    job = finished(tmp_path, SLATTED)
    before = (job.plan, job.project, job.at, dict(job.pending), job.file.saved_at, (tmp_path / "job.toml").read_bytes())
    job.prefetch("survey.section.left.run.1", "77 1/4")
    job.prefetch("survey.section.left.run.1", "a yard or so")
    job.prefetch("no.such.key", "1")
    now = (job.plan, job.project, job.at, dict(job.pending), job.file.saved_at, (tmp_path / "job.toml").read_bytes())
    assert now == before


def test_what_was_foreseen_is_let_go_once_the_job_or_the_text_is_another(tmp_path: Path) -> None:
    job = finished(tmp_path, SLATTED)
    job.prefetch("survey.section.left.run.1", "77 1/4")
    assert isinstance(job.answer("survey.section.left.run.1", "77"), Accepted)
    assert job.text("survey.section.left.run.1") == "77 in"
    job.prefetch("survey.section.left.run.1", "77 1/4")
    assert isinstance(job.answer("survey.section.foot.run.1", "58 1/2"), Accepted)
    assert isinstance(job.answer("survey.section.left.run.1", "77 1/4"), Accepted)
    assert job.text("survey.section.foot.run.1") == "58 1/2 in"
    assert job.text("survey.section.left.run.1") == "77 1/4 in"


def test_what_cannot_be_taken_is_refused_whether_foreseen_or_not(tmp_path: Path) -> None:
    job = begun(tmp_path)
    job.prefetch("survey.section.left.run.1", "a yard or so")
    assert isinstance(job.answer("survey.section.left.run.1", "a yard or so"), Refused)


def test_an_answer_given_while_it_is_being_worked_out_waits_for_it(tmp_path: Path) -> None:
    job, key, text = finished(tmp_path, SLATTED), "survey.section.left.run.1", "77 1/4"
    with plans_counted() as asked, looking_held_up() as (looking, go_on):
        looking(job, key, text)
        answering = Thread(target=job.answer, args=(key, text))
        answering.start()
        answering.join(0.1)
        assert answering.is_alive()
        go_on.set()
        answering.join(10)
    assert job.text(key) == "77 1/4 in"
    assert len(asked) == 1


def test_an_answer_does_not_wait_for_another_that_is_being_worked_out(tmp_path: Path) -> None:
    job, key = finished(tmp_path, SLATTED), "survey.section.left.run.1"
    with looking_held_up() as (looking, _):
        looking(job, key, "77 1/4")
        assert isinstance(job.answer(key, "77"), Accepted)
    assert job.text(key) == "77 in"


def test_of_several_answers_looked_at_in_turn_only_those_still_wanted_are_worked_out(tmp_path: Path) -> None:
    job, key = finished(tmp_path, SLATTED), "survey.section.left.run.1"
    with plans_counted() as asked, looking_held_up() as (looking, go_on):
        looking(job, key, "77 1/4")
        further = [Thread(target=job.prefetch, args=(key, text)) for text in ("77 1/2", "77 3/4", "78")]
        for each in further:
            each.start()
            each.join(0.05)
        go_on.set()
        for each in further:
            each.join(10)
        assert isinstance(job.answer(key, "78"), Accepted)
    assert len(asked) == 2
