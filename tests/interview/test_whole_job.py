"""A whole job, from an empty file to a complete plan, by answering what is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import EVERYTHING, MEASURED, SLATTED, answer_all, begun, finished, give, resumed
from wizard.interview.job_state import work_out
from wizard.interview.outcome import Echo
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.trade.plan_records import STAGES


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Session:
    """The bed with everything about it, answered to the end."""
    return finished(tmp_path_factory.mktemp("everything"), EVERYTHING)


@pytest.fixture(scope="module")
def measured(tmp_path_factory: pytest.TempPathFactory) -> Session:
    """What a beginner makes."""
    return finished(tmp_path_factory.mktemp("measured"))


def test_a_beginner_who_gives_measures_and_otherwise_presses_enter_gets_a_complete_plan(measured: Session) -> None:
    assert measured.plan.missing == ()
    assert measured.missing() == ()
    assert measured.plan.complete
    assert measured.plan.work


def test_a_bed_with_everything_about_it_gets_a_plan_that_misses_nothing(everything: Session) -> None:
    assert everything.plan.missing == ()
    assert everything.missing() == ()
    assert everything.plan.complete


def test_a_beginner_is_never_asked_what_does_not_apply(tmp_path: Path) -> None:
    asked = answer_all(begun(tmp_path), MEASURED)
    assert len(asked) == len(set(asked))
    for never in ("repeat_kind", "match", "shrink", "lap", "daylight", "free_height", "cloth.thread", "lining.width"):
        assert not [key for key in asked if never in key], never
    assert not [key for key in asked if key.startswith(("survey.post", "survey.section.head.run"))]


def test_stages_are_gone_through_in_order(everything: Session) -> None:
    stages = [STAGES.index(each.stage) for each in everything.questions]
    assert stages == sorted(stages)


def test_drops_are_asked_by_the_end_they_are_read_at(measured: Session) -> None:
    titles = [each.title for each in measured.questions if each.section == "right" and ".drop." in each.key]
    assert titles[:3] == [
        "Right section: drop at the foot end",
        "Right section: drop in the middle",
        "Right section: drop at the head end",
    ]


def test_every_need_of_a_half_filled_plan_is_a_question_that_is_asked_in_turn(tmp_path: Path) -> None:
    session, script = begun(tmp_path), dict(SLATTED)
    while (question := session.current()) is not None:
        for need in session.plan.missing:
            assert any(need.key in each.file_keys for each in session.missing()), need
        give(session, question.key, script.pop(question.key, ""))
        session.next()
    assert not script


def test_half_filled_at_each_step_the_file_gives_a_plan_and_resuming_lands_on_the_next_question(tmp_path: Path) -> None:
    session, script = begun(tmp_path), dict(SLATTED)
    while (question := session.current()) is not None:
        following = give(session, question.key, script.pop(question.key, "")).following
        again = resumed(tmp_path)
        assert again.at == following
        assert again.plan.missing == session.plan.missing
        session.next()
    assert session.plan.complete


@pytest.mark.parametrize("made", ["measured", "everything"])
def test_every_usual_answer_and_every_example_is_taken_by_its_own_question(
    made: str, request: pytest.FixtureRequest
) -> None:
    session: Session = request.getfixturevalue(made)
    for question in session.questions:
        for text in (question.usual, question.example):
            if text is not None:
                assert isinstance(session.echo(question.key, text), Echo), (question.key, text)


def test_every_answer_given_is_taken_again_as_it_stands(everything: Session) -> None:
    for question in everything.questions:
        text = everything.text(question.key)
        assert not text or isinstance(everything.echo(question.key, text), Echo), (question.key, text)


def test_every_question_says_what_it_asks_and_how_to_find_out(everything: Session) -> None:
    for question in everything.questions:
        assert question.words.endswith(("?", ".")), question.key
        assert question.how.endswith("."), question.key
        assert question.title[:1].isupper(), question.key
        assert question.example, question.key
        assert "{" not in question.words + question.how + question.title, question.key
        assert question.choices or question.kind not in ("choice", "choices"), question.key


def test_a_trade_default_stands_and_a_mere_offer_does_not(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "sides.on", "left")
    assert session.state("survey.raised") == "usual"
    end = session.question("corners.head")
    assert end is not None
    assert end.usual == "stop"
    assert session.state("corners.head") == "missing"


def test_metric_jobs_are_offered_metric_values(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "standard", "metric")
    offered = {each.key: each.usual for each in session.questions if each.kind.startswith("length")}
    assert offered["allowances.join"] == "1.5 cm"
    assert offered["cloth.face.step"] == "10 cm"
    assert offered["ruler"] == "1 mm"
    assert offered["cloth.thread.spool"] == "100 m"


def test_the_interview_is_the_same_each_time_it_is_made(measured: Session) -> None:
    project = measured.project
    assert work_out(project).pages == work_out(project).pages


def test_the_file_holds_what_was_typed_with_its_unit(everything: Session) -> None:
    text = encode(everything.project).decode()
    assert 'run = ["76 5/8 in", "76 1/2 in"]' in text
    assert 'warp_shrink = "3 %"' in text
    assert 'watch = ["antique", "heated"]' in text


def test_from_every_finding_one_can_go_to_each_of_the_answers_it_rests_on(everything: Session) -> None:
    assert everything.plan.findings
    for finding in everything.plan.findings:
        for key in filter(None, (finding.key, finding.other)):
            assert everything.go(key), finding
