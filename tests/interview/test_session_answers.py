"""Answers: how they are understood, refused, saved, taken back."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.interview.interview_texts import worded
from tests.interview.maker import SLATTED, Clock, begun, finished, give, resumed, with_left
from tests.project.refusal_texts import refusal_text
from wizard.interview.outcome import Accepted, Conflict, Echo, Refused, why_not_kept
from wizard.interview.session import Session
from wizard.project.project import Project, Unfit, put_many
from wizard.project.store import Store

RUN = "survey.section.left.run.1"


def refused(session: Session, key: str, text: str) -> Refused:
    result = session.answer(key, text)
    assert isinstance(result, Refused)
    return result


def test_a_length_is_echoed_in_both_systems_and_nothing_is_saved(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    before, saved_at = (tmp_path / "job.toml").read_bytes(), session.file.saved_at
    assert session.echo(RUN, "80 1/2") == Echo("80 1/2 in · ≈ 2045 mm")
    assert (tmp_path / "job.toml").read_bytes() == before
    assert session.file.saved_at == saved_at


def test_what_was_worked_out_while_a_hand_rests_is_taken_for_that_answer_alone(tmp_path: Path) -> None:
    (tmp_path / "beside").mkdir()
    session, beside = with_left(tmp_path), with_left(tmp_path / "beside")
    for typed, entered in (("81", "80"), ("81", "81.0"), ("no length", "82"), ("83", "83")):
        session.foresee(RUN, typed)
        assert session.answer(RUN, entered) == beside.answer(RUN, entered)
        assert (session.text(RUN), session.plan.job) == (beside.text(RUN), beside.plan.job)
        assert session._foreseen is not None
        assert (session.plan is session._foreseen[3].plan) == (typed == entered)


def test_while_a_unit_is_typed_no_library_is_loaded_and_a_whole_one_is_looked_up_when_given(tmp_path: Path) -> None:
    code = f"""
import sys
from pathlib import Path
from tests.interview.maker import with_left
session = with_left(Path({str(tmp_path)!r}))
for word in ("in", "inches", "ft", "feet", "yards", "mm", "millimetres", "cm", "centimeters", "metres"):
    for end in range(1, len(word) + 1):
        session.echo({RUN!r}, f"5 ft 5 {{word[:end]}}"), session.foresee({RUN!r}, f"55 {{word[:end].upper()}}")
        session.answer({RUN!r}, f"55 {{word[:end]}}")
assert session.text({RUN!r}) == "55 metres"
session.foresee({RUN!r}, "9 fathoms")
print(session.echo({RUN!r}, "9 fathoms", typing=True).sentence)
assert "pint" not in sys.modules
print(session.echo({RUN!r}, "9 fathoms").sentence)
print(session.echo({RUN!r}, "8 rods", typing=True).sentence)
"""
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout.splitlines() == [
        worded("looked up"),
        refusal_text("not taken", "", "fathoms"),
        refusal_text("not taken", "", "rods"),
    ]


def test_what_is_neither_yes_nor_no_is_refused(tmp_path: Path) -> None:
    assert refused(with_left(tmp_path), "survey.slatted", "perhaps").sentence == refusal_text("yes or no", "perhaps")


def test_an_answer_counts_as_given_when_saved_has_changed(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    before = session.file.saved_at
    give(session, RUN, "76 5/8")
    assert session.file.saved_at is not None
    assert before is not None
    assert session.file.saved_at > before
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"


def test_the_unit_of_the_job_is_taken_where_none_is_typed(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, "standard", "metric")
    give(session, "show", "cm")
    assert give(session, RUN, "204,5").echo.text == "204.5 cm · ≈ 80 1/2 in"


def test_two_readings_of_a_length_are_both_offered_and_either_is_taken(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    offers = refused(session, RUN, "12,300 mm").offers
    assert offers == ("12300 mm", "12.3 mm")
    assert all(isinstance(session.answer(RUN, each), Accepted) for each in offers)


def test_a_reading_that_would_be_refused_is_not_offered(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    assert refused(session, RUN, "1,200 mm").offers == ("1200 mm",)
    assert refused(session, RUN, "6 ft 1,200").offers == ("6 ft 1.2",)
    thick = refused(session, "survey.rail_thickness", "12,345 in")
    assert (thick.offers, thick.example) == (("12.345 in",), "12.345 in")
    wide = refused(session, "survey.rail_thickness", "987,654 in")
    assert wide.sentence == worded("wide apart", "987,654 in")
    assert (wide.offers, wide.example) == ((), "1 1/8 in")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("201 ft", worded("too much of a run", "201 ft")),
        ("1/4", worded("too little of a run", "1/4 in")),
        ("1 mm", worded("too little of a run", "1 mm")),
    ],
)
def test_a_length_beyond_its_limits_is_refused_in_the_units_of_the_job(
    tmp_path: Path, text: str, sentence: str
) -> None:
    beyond = refused(with_left(tmp_path), RUN, text)
    assert (beyond.sentence, beyond.example) == (sentence, "76 5/8 in")


@pytest.mark.parametrize(
    ("key", "text"),
    [
        (RUN, "0"),
        (RUN, "-3"),
        (RUN, "long"),
        (RUN, "3 kg"),
        ("survey.slatted", "perhaps"),
        ("survey.rail", "cardboard"),
        ("survey.watch", "antique, dragons"),
        ("sides.on", "left, dragons"),
        ("corners.head", "dragons"),
        ("face.surface", "dragons"),
        ("face.layers", "yes"),
        ("name", "a\x1bb"),
        ("name", "x" * 500),
        ("fullness.want", "0.5"),
        ("cloth.face.price", "lots"),
    ],
)
def test_what_cannot_be_read_is_refused_with_a_sentence_and_an_example_and_kept_to_be_mended(
    tmp_path: Path, key: str, text: str
) -> None:
    session = with_left(tmp_path)
    before = (tmp_path / "job.toml").read_bytes()
    answer = refused(session, key, text)
    assert answer.sentence.endswith((".", "?"))
    assert answer.example
    assert session.pending[key] == text
    assert session.text(key) == text
    assert (tmp_path / "job.toml").read_bytes() == before


def test_the_example_of_a_refusal_is_an_answer_that_is_taken(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for key, text in ((RUN, "long"), ("survey.rail", "wodo"), ("survey.slatted", "?"), ("fullness.want", "0.5")):
        assert isinstance(session.answer(key, refused(session, key, text).example), Accepted)


def test_an_empty_answer_takes_the_usual_one_and_writes_it_down(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert give(session, "survey.raised", "").echo.text == "0 in · 0 mm"
    assert 'raised = "0 in"' in (tmp_path / "job.toml").read_text(encoding="utf-8")


def test_an_empty_answer_to_a_needed_question_is_refused_and_to_an_optional_one_takes_it_out(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    assert "needed" in refused(session, RUN, " ").sentence
    give(session, "survey.section.left.name", "window side")
    give(session, "survey.section.left.name", "")
    assert session.state("survey.section.left.name") == "skipped"


def test_none_of_the_things_to_watch_is_an_answer(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "survey.watch", "")
    assert session.state("survey.watch") == "answered"
    give(session, "survey.watch", "antique, 4")
    assert session.text("survey.watch") == "antique, heated"


def test_a_question_that_does_not_apply_cannot_be_answered(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert "survey.section.attic.run.1" in refused(session, "survey.section.attic.run.1", "3 in").sentence
    with pytest.raises(KeyError):
        session.state("survey.section.attic.run.1")


@pytest.mark.parametrize("name", ["[bold]red[/]", "{brace} {section}", "\\", "日本の布", '"""', "$(rm -rf)", "%s %d"])
def test_names_stand_as_they_were_typed_in_titles_and_questions(tmp_path: Path, name: str) -> None:
    session = with_left(tmp_path)
    give(session, "survey.section.left.name", name)
    give(session, "survey.section.left.in_the_way", name)
    question = session.question(RUN)
    assert question is not None
    assert question.title.casefold() == f"{name}: run at the rail".casefold()
    assert any(name in each.words for each in session.questions if ".in_the_way." in each.key)
    assert resumed(tmp_path).text("survey.section.left.name") == name


def test_a_surprising_answer_is_saved_and_brings_a_finding_once(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, RUN, "76 in")
    found = give(session, "survey.section.left.run.2", "70 in").findings
    assert [each.key for each in found if "run" in each.key]
    assert give(session, "survey.section.left.name", "window side").findings == ()


def test_a_kept_finding_is_asked_again_only_when_its_values_change(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, RUN, "76 in")
    finding = give(session, "survey.section.left.run.2", "70 in").findings[0]
    assert session.keep(finding.id) is None
    again = resumed(tmp_path)
    assert [each.kept for each in again.plan.findings if each.id == finding.id] == [True]
    assert finding.id not in [each.id for each in give(again, "survey.floor", "carpet").findings]
    assert finding.id in [each.id for each in give(again, "survey.section.left.run.2", "69 in").findings]


def test_a_finding_let_go_is_open_again(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, RUN, "76 in")
    finding = give(session, "survey.section.left.run.2", "70 in").findings[0]
    session.keep(finding.id)
    session.unkeep(finding.id)
    assert [each.kept for each in session.plan.findings if each.id == finding.id] == [False]
    with pytest.raises(KeyError):
        session.keep("no-such-finding")


def test_what_stops_the_plan_cannot_be_kept_and_says_so_with_the_way_out(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "cloth.face.width", "2 in")
    before, stops = (tmp_path / "job.toml").read_bytes(), [e for e in session.plan.findings if e.level == "stop"]
    assert stops
    for each in stops:
        with pytest.raises(Unfit) as refused:
            session.keep(each.id)
        said = f"{worded('stays')} Way out: {each.way_out}"
        assert refused.value.sentence == why_not_kept(each) == said
    assert (tmp_path / "job.toml").read_bytes() == before


def test_an_answer_says_which_figures_it_changed(tmp_path: Path) -> None:
    assert "part.left.run" in give(finished(tmp_path), RUN, "70 in").changed


def test_an_answer_that_makes_more_needed_says_what(tmp_path: Path) -> None:
    session = finished(tmp_path)
    assert give(session, "survey.slatted", "yes").upset.questions == ("rails.free_height",)


def test_undo_and_redo_bring_back_every_draft_and_stand_where_the_change_was_made(tmp_path: Path) -> None:
    session = begun(tmp_path)
    projects = [session.project]
    keys: list[str] = []
    while len(keys) < 20:
        keys.append(session.at)
        question = session.current()
        assert question is not None
        give(session, question.key, SLATTED.get(question.key, ""))
        if without_place(session.project) == without_place(projects[-1]):
            keys.pop()  # left open: there is nothing to take back
        else:
            projects.append(session.project)
        session.next()
    for key, project in zip(reversed(keys), reversed(projects[:-1]), strict=True):
        assert session.undo()
        assert session.at == key
        assert without_place(session.project) == without_place(project)
        assert without_place(resumed(tmp_path).project) == without_place(project)
    assert not session.undo()
    for key, project in zip(keys, projects[1:], strict=True):
        assert session.redo()
        assert session.at == key
        assert without_place(session.project) == without_place(project)
    assert not session.redo()


def without_place(project: Project) -> Project:
    return replace(project, progress=replace(project.progress, at=None))


def test_a_new_answer_after_undo_leaves_nothing_to_redo(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "name", "Juniper loft")
    session.undo()
    give(session, "name", "Rowan loft")
    assert not session.redo()
    assert session.text("name") == "Rowan loft"


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_whatever_is_typed_is_saved_or_refused_and_one_can_always_move(tmp_path: Path, data: st.DataObject) -> None:
    (tmp_path / "job.toml").unlink(missing_ok=True)
    session = begun(tmp_path)
    typed = st.text(max_size=30) | st.sampled_from(["yes", "no", "12 1/2", "1", "metal", "0", "2,5 cm", ""])
    for _ in range(12):
        here = session.at
        saved = (tmp_path / "job.toml").read_bytes()
        result = session.answer(here, data.draw(typed))
        assert isinstance(result, Accepted) or (tmp_path / "job.toml").read_bytes() == saved
        assert session.next()
        assert session.back()
        assert session.next()


def test_a_change_by_another_hand_is_never_written_over_unasked(tmp_path: Path) -> None:
    session, other = begun(tmp_path), resumed(tmp_path)
    give(other, "survey.floor", "carpet")
    theirs = (tmp_path / "job.toml").read_bytes()
    result = session.answer("name", "Rowan loft")
    assert isinstance(result, Conflict)
    assert session.file.conflict == result
    assert session.pending["name"] == "Rowan loft"
    assert (tmp_path / "job.toml").read_bytes() == theirs


def test_reload_takes_what_the_other_hand_wrote_and_undo_brings_mine_back(tmp_path: Path) -> None:
    session, other = begun(tmp_path), resumed(tmp_path)
    give(other, "survey.floor", "carpet")
    session.answer("name", "Rowan loft")
    assert session.reload() is None
    assert session.file.conflict is None
    assert session.text("survey.floor") == "carpet"
    assert session.text("name") == "Rowan loft"
    assert session.state("name") == "missing"
    session.undo()
    assert session.state("survey.floor") == "missing"


def test_overwrite_saves_mine_and_keeps_theirs_beside_the_file(tmp_path: Path) -> None:
    session, other = begun(tmp_path), resumed(tmp_path)
    give(other, "survey.floor", "carpet")
    theirs = (tmp_path / "job.toml").read_bytes()
    session.answer("name", "Rowan loft")
    assert session.overwrite() is None
    assert session.pending == {}
    assert resumed(tmp_path).text("name") == "Rowan loft"
    assert resumed(tmp_path).state("survey.floor") == "missing"
    assert (tmp_path / "job.toml.before").read_bytes() == theirs


@pytest.mark.parametrize(
    "broken", [b"name = ", b"\xff\xfe\x00", b"", b"x" * 1_100_000], ids=["toml", "code", "empty", "big"]
)
def test_a_file_broken_by_another_hand_is_left_until_mine_is_to_stand_and_is_then_kept_beside(
    broken: bytes, tmp_path: Path
) -> None:
    session = begun(tmp_path)
    (tmp_path / "job.toml").write_bytes(broken)
    assert isinstance(session.answer("name", "Rowan loft"), Conflict)
    assert session.reload() is not None
    assert (tmp_path / "job.toml").read_bytes() == broken
    assert session.overwrite() is None
    assert resumed(tmp_path).text("name") == "Rowan loft"
    assert session.file.kept == tmp_path / "job.toml.before"
    assert session.file.kept.read_bytes() == broken
    assert session.undo()


def test_a_third_change_while_mine_is_written_over_the_second_is_seen(tmp_path: Path) -> None:
    session = begun(tmp_path)
    for text in ("name = ", "name = 1"):
        (tmp_path / "job.toml").write_text(text, encoding="utf-8")
        assert isinstance(session.answer("name", "Rowan loft"), Conflict)
    (tmp_path / "job.toml").unlink()
    (tmp_path / "job.toml").mkdir()
    refused = session.overwrite()
    assert refused is not None
    assert worded("a folder") in refused.sentence


def test_a_new_job_does_not_begin_over_a_file_that_is_there(tmp_path: Path) -> None:
    begun(tmp_path)
    assert isinstance(Session.begin(Store(tmp_path / "job.toml"), Project(name="Rowan loft"), Clock()), Conflict)


def test_comments_by_hand_are_said_before_the_first_save_and_the_old_file_is_kept(tmp_path: Path) -> None:
    begun(tmp_path)
    text = "# mind the cat\n" + (tmp_path / "job.toml").read_text(encoding="utf-8")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    session = resumed(tmp_path)
    assert session.file.comments
    assert (tmp_path / "job.toml").read_text(encoding="utf-8") == text
    give(session, "name", "Juniper loft")
    assert not session.file.comments
    assert (tmp_path / "job.toml.before").read_text(encoding="utf-8") == text


def test_what_was_taken_back_and_given_again_is_told_by_its_name(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, RUN, "70 in")
    assert session.undo()
    assert session.turned_words() == worded("run asked")
    assert session.redo()
    assert session.turned_words() == worded("run asked")
    session.choose({each: "9 in" for each in (RUN, "survey.section.left.drop.1", "survey.section.left.drop.2")})
    assert session.undo()
    assert session.turned_words().endswith(", and 1 more")


def test_what_two_lines_of_a_list_begin_with_is_asked_again_by_both(tmp_path: Path) -> None:
    session, key = finished(tmp_path), "survey.section.left.left_end"
    for typed in ("sto", "stop"):
        refused = session.answer(key, typed)
        assert isinstance(refused, Refused)
        assert worded("two lines") in refused.sentence
    assert not isinstance(session.answer(key, "stops at"), Refused)
    assert session.project.survey.section["left"].left_end == "stops"


@pytest.mark.parametrize(
    ("key", "reading"),
    [("survey.rail_thickness", "1.2 mm"), ("survey.floor_gap", "1.2 mm"), ("survey.section.left.run.1", "1200 mm")],
)
def test_a_refusal_gives_an_example_that_is_likely_where_it_is_asked(tmp_path: Path, key: str, reading: str) -> None:
    session = with_left(tmp_path)
    question = session.question(key)
    assert question is not None
    for text in ("soft", "-1 in", "3 zorks"):
        refused = session.answer(key, text)
        assert isinstance(refused, Refused)
        assert refused.example == question.example
    meant = session.answer(key, "1,200 mm")
    assert isinstance(meant, Refused)
    assert meant.example == reading


@pytest.mark.parametrize("side", ["left", "foot"])
def test_two_sections_of_one_side_overlap_whatever_side_it_is(tmp_path: Path, side: str) -> None:
    there: dict[str, object] = {f"survey.section.{side}.on": True, "survey.section.more.side": side}
    session = begun(tmp_path, put_many(Project(), there))
    give(session, "corners.between", "overlap")
    meeting = session.project.survey.section
    assert (meeting[side].right_end, meeting["more"].left_end) == ("overlaps", "stops")
    assert session.text("corners.between") == "overlap"
