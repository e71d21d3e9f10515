"""A whole job, from an empty file to a complete plan, by answering what is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import EVERYTHING, MEASURED, SLATTED, answering, asked, begun, finished, give, resumed
from wizard.interview.job_state import work_out
from wizard.project.encode import encode
from wizard.trade.plan_records import STAGES


@pytest.mark.parametrize("script", [MEASURED, EVERYTHING], ids=["measured", "everything"])
def test_measures_and_enter_give_a_plan_that_misses_nothing(tmp_path: Path, script: dict[str, str]) -> None:
    session = finished(tmp_path, script)
    assert (session.plan.missing, session.missing(), session.plan.complete) == ((), (), True)
    assert session.plan.work
    assert work_out(session.project).pages == session.pages
    stages = [STAGES.index(each.stage) for each in session.questions]
    assert stages == sorted(stages)
    for question in session.questions:
        for text in (question.usual, question.example, session.text(question.key) or None):
            if text is not None:
                assert isinstance(session.echo(question.key, text), str), (question.key, text)


def test_every_question_says_how_to_find_out_and_every_finding_leads_to_its_answers(tmp_path: Path) -> None:
    session = finished(tmp_path, EVERYTHING)
    for question in session.questions:
        assert question.words.endswith(("?", ".")), question.key
        assert question.how.endswith("."), question.key
        assert question.title[:1].isupper(), question.key
        assert question.example, question.key
        assert "{" not in question.words + question.how + question.title, question.key
        assert question.choices or question.kind not in ("choice", "choices"), question.key
    assert session.plan.findings
    for finding in session.plan.findings:
        for key in filter(None, (finding.key, finding.other)):
            assert session.go(key), finding
    text = encode(session.project).decode()
    for each in ('run = ["76 5/8 in", "76 1/2 in"]', 'warp_shrink = "3 %"', 'watch = ["antique", "heated"]'):
        assert each in text


def test_a_beginner_is_never_asked_what_does_not_apply_and_drops_by_the_end_they_are_read_at(tmp_path: Path) -> None:
    session = begun(tmp_path)
    met = list(answering(session, MEASURED))
    assert len(met) == len(set(met))
    for never in ("repeat_kind", "match", "shrink", "lap", "daylight", "free_height", "cloth.thread", "lining.width"):
        assert not [key for key in met if never in key], never
    assert not [key for key in met if key.startswith(("survey.post", "survey.section.head.run"))]
    titles = [each.title for each in session.questions if each.section == "right" and ".drop." in each.key]
    places = ("at the foot end", "in the middle", "at the head end")
    assert titles[:3] == [f"Right section: drop {each}" for each in places]


def test_half_filled_every_need_is_asked_and_resuming_lands_on_the_next_question(tmp_path: Path) -> None:
    session, script = begun(tmp_path), dict(SLATTED)
    while (question := session.current()) is not None:
        for need in session.plan.missing:
            assert any(need.key in each.file_keys for each in session.missing()), need
        give(session, question.key, script.pop(question.key, ""))
        again = resumed(tmp_path)
        assert again.plan.missing == session.plan.missing
        session.next()
        assert again.at == session.at
    assert session.plan.complete
    assert not script


def test_a_trade_default_stands_a_mere_offer_does_not_and_metric_jobs_have_their_own(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "sides.on", "left")
    assert session.state("survey.raised") == "usual"
    assert (asked(session, "corners.head").usual, session.state("corners.head")) == ("stop", "missing")
    give(session, "standard", "metric")
    offered = {"allowances.join": "1.5 cm", "cloth.face.step": "10 cm", "ruler": "1 mm", "cloth.thread.spool": "100 m"}
    assert {key: asked(session, key).usual for key in offered} == offered
