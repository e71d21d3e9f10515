"""Answers: how they are understood, refused, saved, kept though they look wrong, taken back."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.interview.interview_texts import worded
from tests.interview.maker import (
    SLATTED,
    Clock,
    asked,
    begun,
    edit,
    finished,
    give,
    left_at,
    refused,
    resumed,
    with_left,
)
from tests.project.refusal_texts import refusal_text
from wizard.interview.outcome import Accepted, Conflict, why_not_kept
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.project import Project, Unfit, put_many
from wizard.project.store import Store

LEFT = "survey.section.left"
RUN, NEAR = f"{LEFT}.run.1", f"{LEFT}.run.2"


# Understood.
def test_a_length_is_echoed_in_both_systems_and_saved_with_its_unit_only_once_it_is_given(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    before, saved_at = (tmp_path / "job.toml").read_bytes(), session.file.saved_at
    assert session.echo(RUN, "80 1/2") == "80 1/2 in · ≈ 2045 mm"
    assert ((tmp_path / "job.toml").read_bytes(), session.file.saved_at) == (before, saved_at)
    give(session, RUN, "76 5/8")
    assert saved_at is not None
    assert session.file.saved_at is not None
    assert session.file.saved_at > saved_at
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"
    give(session, "standard", "metric")
    give(session, "show", "cm")
    assert give(session, RUN, "204,5").echo == "204.5 cm · ≈ 80 1/2 in"


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


def test_an_empty_answer_is_the_usual_one_or_none_but_where_one_is_needed(tmp_path: Path) -> None:
    session, name = with_left(tmp_path), f"{LEFT}.name"
    assert give(session, "survey.raised", "").echo == "0 in · 0 mm"
    assert 'raised = "0 in"' in (tmp_path / "job.toml").read_text(encoding="utf-8")
    give(session, "survey.watch", "")
    assert session.state("survey.watch") == "answered"
    give(session, "survey.watch", "antique, 4")
    assert session.text("survey.watch") == "antique, heated"
    assert "needed" in refused(session, RUN, " ").sentence
    for text in ("window side", ""):
        give(session, name, text)
    assert session.state(name) == "skipped"


# What a maker cannot know yet may wait: it is kept as that, asked again by name, and never called missing.
HEIGHT = "rails.free_height"
HEIGHTS = [f"survey.section.{side}.free_height" for side in ("left", "right")]


def test_what_is_found_out_later_is_not_missing_and_asked_before_the_step_it_matters_for(tmp_path: Path) -> None:
    session = finished(tmp_path)
    assert give(session, "survey.slatted", "yes").upset.questions == (HEIGHT,)
    assert session.state(HEIGHT) == "missing"
    assert give(session, HEIGHT, "").echo == "to find out later"
    assert (session.state(HEIGHT), session.missing()) == ("later", ())
    assert tomllib.loads(encode(session.project).decode())["progress"]["later"] == HEIGHTS
    assert [each.key for each in session.plan.later] == HEIGHTS
    for step in session.plan.work:
        first = session.next_action().startswith(worded("find out first", "left section: free height"))
        assert (first, bool(session.find_out_first(step))) == (step.stage == "Hanging",) * 2, step
        session.tick(step.id)
    give(session, HEIGHT, "2 1/2")
    assert (session.state(HEIGHT), session.project.progress.later) == ("answered", ())
    assert session.undo()
    assert session.state(HEIGHT) == "later"
    give(session, "corners.foot", "sides")
    assert give(session, "corners.hooks", "").echo == "left empty"
    assert session.state("corners.hooks") == "skipped"
    assert give(session, "corners.hooks", "later").echo == "to find out later"
    assert session.state("corners.hooks") == "later"
    for key, state in (("posts.along_side", "later"), ("survey.rail", "answered")):
        session.go(key)
        assert session.postpone() is None
        assert session.state(key) == state


# Refused.
@pytest.mark.parametrize(
    ("key", "text", "offers"),
    [
        (RUN, "12,300 mm", ("12300 mm", "12.3 mm")),
        (RUN, "1,200 mm", ("1200 mm",)),
        (RUN, "6 ft 1,200", ("6 ft 1.2",)),
        ("survey.rail_thickness", "12,345 in", ("12.345 in",)),
        ("survey.rail_thickness", "1,200 mm", ("1.2 mm",)),
        ("survey.floor_gap", "1,200 mm", ("1.2 mm",)),
        ("survey.rail_thickness", "987,654 in", ()),
    ],
)
def test_of_a_doubtful_length_what_would_do_is_offered(
    tmp_path: Path, key: str, text: str, offers: tuple[str, ...]
) -> None:
    session = with_left(tmp_path)
    usual = asked(session, key).example
    doubtful = refused(session, key, text)
    assert (doubtful.offers, doubtful.example) == (offers, offers[0] if offers else usual)
    assert offers or doubtful.sentence == worded("wide apart", text)
    for each in offers:
        give(session, key, each)


@pytest.mark.parametrize(
    ("text", "why", "shown"),
    [
        ("201 ft", "too much of a run", "201 ft"),
        ("1/4", "too little of a run", "1/4 in"),
        ("1 mm", "too little of a run", "1 mm"),
    ],
)
def test_a_length_beyond_its_limits_is_refused_in_units_of_the_job(
    tmp_path: Path, text: str, why: str, shown: str
) -> None:
    beyond = refused(with_left(tmp_path), RUN, text)
    assert (beyond.sentence, beyond.example) == (worded(why, shown), "76 5/8 in")


@pytest.mark.parametrize(
    ("key", "texts"),
    [
        (RUN, ("0", "-3", "long", "3 kg", "3 zorks")),
        ("survey.floor_gap", ("soft", "-1 in")),
        ("survey.slatted", ("perhaps",)),
        ("survey.rail", ("cardboard",)),
        ("survey.watch", ("antique, dragons",)),
        ("sides.on", ("left, dragons",)),
        ("corners.head", ("dragons",)),
        ("face.surface", ("dragons",)),
        ("face.layers", ("yes",)),
        ("name", ("a\x1bb", "x" * 500)),
        ("fullness.want", ("0.5",)),
        ("cloth.face.price", ("lots",)),
        ("cloth.face.owned", ("a bit",)),
    ],
)
def test_what_cannot_be_read_is_refused_by_example_and_kept(tmp_path: Path, key: str, texts: tuple[str, ...]) -> None:
    session = with_left(tmp_path)
    before = (tmp_path / "job.toml").read_bytes()
    for text in texts:
        answer = refused(session, key, text)
        assert answer.sentence.endswith((".", "?"))
        assert not asked(session, key).kind.startswith("length") or answer.example == asked(session, key).example
        assert session.pending[key] == session.text(key) == text
        assert (tmp_path / "job.toml").read_bytes() == before
    assert key != "survey.slatted" or answer.sentence == refusal_text("yes or no", text)
    give(session, key, answer.example)


def test_what_two_lines_of_a_list_begin_with_is_asked_again_by_both(tmp_path: Path) -> None:
    session, key = finished(tmp_path), f"{LEFT}.left_end"
    for typed in ("sto", "stop"):
        assert worded("two lines") in refused(session, key, typed).sentence
    give(session, key, "stops at")
    assert session.project.survey.section["left"].left_end == "stops"


def test_a_question_that_does_not_apply_cannot_be_answered(tmp_path: Path) -> None:
    session, key = begun(tmp_path), "survey.section.attic.run.1"
    assert key in refused(session, key, "3 in").sentence
    with pytest.raises(KeyError):
        session.state(key)


@pytest.mark.parametrize("name", ["[bold]red[/]", "{brace} {section}", "\\", "日本の布", '"""', "$(rm -rf)", "%s %d"])
def test_names_stand_as_they_were_typed_in_titles_and_questions(tmp_path: Path, name: str) -> None:
    session = with_left(tmp_path)
    give(session, f"{LEFT}.name", name)
    give(session, f"{LEFT}.in_the_way", name)
    assert asked(session, RUN).title.casefold() == f"{name}: run at the rail".casefold()
    assert any(name in each.words for each in session.questions if ".in_the_way." in each.key)
    assert resumed(tmp_path).text(f"{LEFT}.name") == name


@pytest.mark.parametrize("side", ["left", "foot"])
def test_two_sections_of_one_side_overlap_whatever_side_it_is(tmp_path: Path, side: str) -> None:
    there: dict[str, object] = {f"survey.section.{side}.on": True, "survey.section.more.side": side}
    session = begun(tmp_path, put_many(Project(), there))
    give(session, "corners.between", "overlap")
    meeting = session.project.survey.section
    assert (meeting[side].right_end, meeting["more"].left_end) == ("overlaps", "stops")
    assert session.text("corners.between") == "overlap"


# What looks wrong.
def test_a_surprising_answer_is_asked_about_once_kept_and_again_when_its_values_change(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, RUN, "76 in")
    (finding,) = give(session, NEAR, "70 in").findings
    assert give(session, f"{LEFT}.name", "window side").findings == ()

    def kept(session: Session) -> list[bool]:
        return [each.kept for each in session.plan.findings if each.id == finding.id]

    assert session.keep(finding.id) is None
    session.unkeep(finding.id)
    assert kept(session) == [False]
    session.keep(finding.id)
    with pytest.raises(KeyError):
        session.keep("no-such-finding")
    again = resumed(tmp_path)
    assert kept(again) == [True]
    assert finding.id not in [each.id for each in give(again, "survey.floor", "carpet").findings]
    assert finding.id in [each.id for each in give(again, NEAR, "69 in").findings]


def test_what_stops_the_plan_cannot_be_kept_and_says_so_with_the_way_out(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "cloth.face.width", "2 in")
    before, stops = (tmp_path / "job.toml").read_bytes(), [e for e in session.plan.findings if e.level == "stop"]
    assert stops
    for each in stops:
        with pytest.raises(Unfit) as unfit:
            session.keep(each.id)
        said = f"{worded('stays')} {each.way_out}"
        assert unfit.value.sentence == why_not_kept(each) == said
    assert (tmp_path / "job.toml").read_bytes() == before


# Taken back.
def without_place(project: Project) -> Project:
    return replace(project, progress=replace(project.progress, at=None))


def test_undo_and_redo_bring_back_every_draft_and_stand_where_the_change_was_made(tmp_path: Path) -> None:
    session = begun(tmp_path)
    projects = [session.project]
    keys: list[str] = []
    while len(keys) < 20:
        keys.append(session.at)
        give(session, session.at, SLATTED.get(session.at, ""))
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
    session.undo()
    give(session, "name", "Rowan loft")
    assert not session.redo()


def test_an_answer_says_which_figures_it_changed_and_what_was_taken_back_is_told_by_its_name(tmp_path: Path) -> None:
    session = finished(tmp_path)
    assert "part.left.run" in give(session, RUN, "70 in").changed
    for move in (session.undo, session.redo):
        assert move()
        assert session.turned_words() == worded("run asked")
    session.choose({each: "9 in" for each in (RUN, f"{LEFT}.drop.1", f"{LEFT}.drop.2")})
    assert session.undo()
    assert session.turned_words().endswith(", and 1 more")


def test_a_page_of_usual_values_is_done_once_it_is_taken_and_what_is_taken_back_has_a_name(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(left_at(SLATTED, "allowances.join"))
    session = resumed(tmp_path)
    session.go("allowances.join")
    assert isinstance(session.accept(), Accepted)
    assert session.next()
    here = session.position()
    assert here.finished == (True,) * (here.number - 1)
    assert session.undo()
    assert session.turned_words() == worded("allowances taken")
    give(session, "rails.free_height", "")
    assert session.undo()
    assert session.turned_words().startswith(worded("put off"))


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


# Another hand in the file.
@pytest.mark.parametrize("mine", [False, True])
def test_a_change_by_another_hand_is_reloaded_or_kept_beside_mine(tmp_path: Path, mine: bool) -> None:
    session, other = begun(tmp_path), resumed(tmp_path)
    give(other, "survey.floor", "carpet")
    theirs = (tmp_path / "job.toml").read_bytes()
    result = session.answer("name", "Rowan loft")
    assert isinstance(result, Conflict)
    assert (session.file.conflict, session.pending["name"]) == (result, "Rowan loft")
    assert (tmp_path / "job.toml").read_bytes() == theirs
    if mine:
        assert session.overwrite() is None
        assert session.pending == {}
        assert (resumed(tmp_path).text("name"), resumed(tmp_path).state("survey.floor")) == ("Rowan loft", "missing")
        assert (tmp_path / "job.toml.before").read_bytes() == theirs
    else:
        assert session.reload() is None
        assert session.file.conflict is None
        assert (session.text("survey.floor"), session.text("name")) == ("carpet", "Rowan loft")
        assert session.state("name") == "missing"
        session.undo()
        assert session.state("survey.floor") == "missing"


@pytest.mark.parametrize(
    "broken", [b"name = ", b"\xff\xfe\x00", b"", b"x" * 1_100_000], ids=["toml", "code", "empty", "big"]
)
def test_a_file_broken_by_another_hand_is_left_or_kept_beside_mine(broken: bytes, tmp_path: Path) -> None:
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
    conflict = session.overwrite()
    assert conflict is not None
    assert worded("a folder") in conflict.sentence


def test_a_new_job_does_not_begin_over_a_file_and_comments_are_kept_beside_it(tmp_path: Path) -> None:
    begun(tmp_path)
    assert isinstance(Session.begin(Store(tmp_path / "job.toml"), Project(name="Rowan loft"), Clock()), Conflict)
    edit(tmp_path / "job.toml", ("format", "# mind the cat\nformat"))
    text = (tmp_path / "job.toml").read_text(encoding="utf-8")
    session = resumed(tmp_path)
    assert session.file.comments
    assert (tmp_path / "job.toml").read_text(encoding="utf-8") == text
    give(session, "name", "Juniper loft")
    assert not session.file.comments
    assert (tmp_path / "job.toml.before").read_text(encoding="utf-8") == text
