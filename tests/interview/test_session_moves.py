"""Moving about: next, back, go; what is asked only where it applies; added things; resuming; the checklist."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import MEASURED, asked, begun, edit, finished, give, page_of, refused, resumed, with_left
from tests.project.test_better_plans import many_sections
from wizard.interview import session as session_module
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.finished_steps import OF_NUMBERS, mark_of
from wizard.project.plan_of_project import at_best, can_improve, plan_of
from wizard.project.project import Project, begin, put_many
from wizard.project.store import Store
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan

LEFT = "survey.section.left"


# Next, back, go.
def test_next_and_back_walk_the_same_way_end_at_both_ends_and_every_place_can_be_gone_to(tmp_path: Path) -> None:
    session = finished(tmp_path)
    session.go("name")
    there = [session.at]
    while session.next():
        there.append(session.at)
    assert session.current_step() is not None
    back = [session.at]
    while session.back():
        back.append(session.at)
    assert back == there[::-1]
    assert session.at == "name"
    for key in (each.key for each in session.questions):
        assert session.go(key)
        assert session.at == key
        assert session.next()
    for key, place in ((f"{LEFT}.drop", f"{LEFT}.drop.1"), ("survey.section.attic", "survey.section")):
        assert session.go(key)
        assert session.at == place
    assert not session.go("nowhere")
    # A level floor asks for no hem line: the first question about that section is nearest.
    assert session.go("survey.section.foot.hem_line")
    assert session.at == "survey.section.foot.run.1"


def test_what_is_behind_more_is_passed_over_but_for_what_is_needed_and_can_be_answered(tmp_path: Path) -> None:
    session, key = finished(tmp_path), "cloth.tape.turn_under"
    assert session.go(key)
    page = page_of(session)
    assert key in {each.key for each in page.more}
    assert session.state(key) == "usual"
    give(session, key, "3/8 in")
    assert session.state(key) == "answered"
    session.go(page.fields[-1].key)
    session.next()
    assert session.page() != page
    for number in range(4, 8):
        give(session, f"survey.section.foot.drop.{number}", "9")
        give(session, f"survey.section.foot.drop_at.{number}", f"{number}0")
    give(session, "survey.section.foot.drop.8", "9")
    session.go("survey.section.foot.run.1")
    page = page_of(session)
    assert len(page.fields) == 8
    while session.at != "survey.section.foot.drop_at.8":
        assert session.next()
        assert session.page() == page
    assert session.state(session.at) == "missing"


def test_an_allowance_is_written_only_where_it_is_another_than_the_usual_one(tmp_path: Path) -> None:
    session = finished(tmp_path)
    for text, written in (("", None), ("1/2", None), ("3/8", "3/8 in"), ("0.5 in", None)):
        give(session, "allowances.join", text)
        there = session.project.allowances.join
        assert (there and there.text) == written
    assert session.project.progress.usual_allowances


def test_what_is_typed_or_refused_holds_back_nothing_and_is_there_on_return(tmp_path: Path) -> None:
    session, key = begun(tmp_path), "survey.rail_thickness"
    session.go(key)
    session.type(key, "1 1/")
    for move in (session.next, session.back, session.back):
        assert move()
    session.go(key)
    assert session.text(key) == "1 1/"
    assert "1 1/" not in (tmp_path / "job.toml").read_text(encoding="utf-8")
    refused(session, key, "long")
    assert session.next()
    assert session.back()
    give(session, key, "1 1/8")
    session.type(key, "1")
    session.type(key, "1 1/8 in")
    assert (session.at, session.pending) == (key, {})


def test_when_the_question_in_hand_goes_one_stands_at_the_one_before(tmp_path: Path) -> None:
    session = begun(tmp_path)
    session.go("face.layers")
    give(session, session.at, "lining")
    session.next()
    session.go("cloth.lining.width")
    session.undo()
    assert session.at == "face.layers"


# What is asked only where it applies.
def test_the_hem_line_posts_and_daylight_are_asked_only_where_there_are_any(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for number in (1, 2, 3):
        give(session, f"{LEFT}.drop.{number}", "12")
    assert "hem" not in [each.id for each in session.pages]
    give(session, f"{LEFT}.drop.3", "12 5/8")
    hem = next(each for each in session.pages if each.id == "hem")
    assert "left section by 5/8 in" in hem.words
    assert hem.fields[0].how.count("5/8 in") == 2
    assert not [each for each in session.questions if "daylight_" in each.key]
    give(session, "corners.turned", "foot-left")
    daylight = [each.key for each in session.questions if "daylight_" in each.key]
    assert daylight == [f"{LEFT}.right_daylight_top", f"{LEFT}.right_daylight_floor"]
    give(session, "corners.turned", "none")
    give(session, "sides.on", "left, foot")
    post = "survey.post.foot-left.along_side"
    assert session.question(post) is None
    give(session, f"{LEFT}.right_end", "returns")
    give(session, "survey.section.foot.left_end", "returns")
    assert asked(session, post).keys == (post,)


def test_a_fixing_is_offered_that_suits_the_rail_and_how_often_the_skirt_comes_off(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "survey.rail", "metal")
    offered = [each.value for each in asked(session, "cloth.fixing.kind").choices]
    assert offered == ["adhesive hook-and-loop", "magnets"]
    give(session, "cloth.fixing.kind", "staples")
    session.undo()
    give(session, "survey.rail", "solid wood")
    give(session, "survey.taken_off", "often")
    assert asked(session, "cloth.fixing.kind").usual == "adhesive hook-and-loop"


# Added things.
def test_naming_things_in_the_way_gives_each_a_page_behind_that_of_its_side(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    session.go(f"{LEFT}.in_the_way")
    give(session, session.at, "The Old Leg! + Gramophone")
    session.next()
    assert session.at == f"{LEFT}.in_the_way.the-old-leg.at"
    give(session, f"{LEFT}.in_the_way", "Gramophone")
    things = ["the-old-leg", "gramophone", "gramophone-2"]
    assert [*session.project.survey.section["left"].in_the_way] == things
    after = [each for each in session.pages if each.id.startswith(("side.", "thing."))]
    assert [each.id for each in after] == ["side.left", *(f"thing.left.{each}" for each in things)]
    leaves = [[each.key.rpartition(".")[2] for each in page.fields] for page in after[1:3]]
    assert leaves == [["at", "width", "height", "do"], ["at", "width", "height", "kind", "do"]]
    assert session.project.survey.section["left"].in_the_way["the-old-leg"].kind == "centre leg"
    assert session.removable(f"{LEFT}.in_the_way.the-old-leg.at")


def test_an_added_section_is_asked_for_its_side_taken_out_and_put_back_by_undo(tmp_path: Path) -> None:
    session, desk = begun(tmp_path), "survey.section.by-the-desk"
    session.go("survey.section")
    give(session, session.at, "By the desk")
    session.go(desk)
    met = []
    for text in ("head", "20", "20", "12", "12", "12", "", "inner face"):
        met.append(session.at.removeprefix(f"{desk}."))
        give(session, session.at, text)
        session.next()
    assert met == ["side", "run.1", "run.2", "drop.1", "drop.2", "drop.3", "in_the_way", "fixing_face"]
    give(session, f"{desk}.left_post", "Middle leg")
    assert session.text(f"{desk}.left_post") == "middle-leg"
    session.go(f"{desk}.run.1")
    assert session.remove(session.at) is None
    assert session.question(f"{desk}.run.1") is None
    assert session.current() is not None
    session.undo()
    assert session.text(f"{desk}.run.1") == "20 in"


def test_what_was_not_added_cannot_be_taken_out(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    further = (f"{LEFT}.drop.4", f"{LEFT}.drop_at.4", "cloth.fixing.legs.1")
    for key in ("name", f"{LEFT}.run.1", f"{LEFT}.drop.2", *further):
        assert session.removable(key) is None, key
        with pytest.raises(KeyError):
            session.remove(key)


def test_further_drops_stand_in_order_along_the_rail_and_leave_no_hole_when_taken_out(tmp_path: Path) -> None:
    session = with_left(tmp_path)

    def drops() -> list[str]:
        return [each.text for each in session.project.survey.section["left"].drop if each]

    for leaf, text in (("run.1", "76"), ("drop.1", "11"), ("drop.2", "12"), ("drop.3", "12 1/2"), ("drop.4", "13")):
        found = give(session, f"{LEFT}.{leaf}", text).findings
    assert [each.id for each in found] == ["floor-uneven:left"]
    assert asked(session, f"{LEFT}.drop_at.4") in session.missing()
    assert give(session, f"{LEFT}.drop_at.4", "60").findings == ()
    assert drops() == ["11 in", "12 in", "13 in", "12 1/2 in"]
    places = session.project.survey.section["left"].drop_at
    assert [each.text if each is not None else None for each in places] == ["0 in", "38 in", "60 in", "76 in"]
    give(session, f"{LEFT}.drop.5", "15")
    give(session, f"{LEFT}.drop.4", "")
    assert drops() == ["11 in", "12 in", "13 in", "15 in"]
    # From the question about its place too.
    assert session.text(f"{LEFT}.drop_at.4") == ""
    assert session.removable(f"{LEFT}.drop_at.4")
    assert session.remove(f"{LEFT}.drop_at.4") is None
    assert len(drops()) == 3


# Resuming.
def test_resuming_stands_where_the_next_question_is_or_where_one_was_and_tells_what_was_done(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert session.resumed() == (worded("next", "Name"),)
    give(session, "name", "Juniper loft")
    session.go("survey.rail")
    session.leave()
    assert resumed(tmp_path).resumed() == (
        worded("done so far", "1 answer"),
        f"{worded('stopped at', worded('rail asked'))} {worded('next', worded('system asked'))}",
    )
    give(session, "standard", "inches")
    again = resumed(tmp_path)
    assert again.at == "sides.on"
    assert again.resumed() == (worded("done so far", "2 answers"), worded("next", worded("sides asked")))


def test_leaving_keeps_the_place_only_when_something_was_saved(tmp_path: Path) -> None:
    session = finished(tmp_path)
    before = (tmp_path / "job.toml").read_bytes()
    session.go("survey.floor")
    session.leave()
    assert (tmp_path / "job.toml").read_bytes() == before
    give(session, "survey.floor", "carpet")
    session.go("cloth.face.width")
    session.leave()
    assert resumed(tmp_path).at == "cloth.face.width"


def test_resuming_at_a_step_behind_others_that_are_not_ticked_names_one_place(tmp_path: Path) -> None:
    session = finished(tmp_path)
    first, _, third, *_ = session.plan.work
    session.tick(first.id)
    session.go(f"work.{third.id}")
    session.leave()
    again = resumed(tmp_path)
    assert again.at == f"work.{third.id}"
    assert again.resumed(brief=True)[1] == f"{worded('next', third.title)} {worded('unticked before')}"


def test_resuming_tells_which_parts_were_edited_by_hand_until_they_are_saved_again(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, f"{LEFT}.name", "window side")
    assert all("by hand" not in each for each in resumed(tmp_path).resumed())
    edit(tmp_path / "job.toml", ('"76 5/8 in"', '"77 5/8 in"'), ('width = "54 in"', 'width = "60 in"'))
    for _ in range(2):
        again = resumed(tmp_path)
        again.leave()
        assert again.resumed()[2] == worded("edited by hand", "window side, face cloth")
    assert again.plan.figures["section.left.run"].value == Length(Fraction(621, 8))
    give(again, "survey.floor", "hard floor")
    assert all("by hand" not in each for each in resumed(tmp_path).resumed())


def test_resuming_tells_that_the_template_has_changed_and_leaves_the_job_alone(tmp_path: Path) -> None:
    template = put_many(Project(), {"name": "Usual", "template": True, "allowances.top": "1/2 in", "show": "in"})
    path = tmp_path / "template-usual.toml"
    Store(path).save(template)
    session = begun(tmp_path, begin(template, "Juniper loft"))
    give(session, "survey.floor", "carpet")
    assert len(resumed(tmp_path).resumed()) == 2
    edit(path, ('"Usual"', '"Usual"\ncurrency = "€"'), ('"1/2 in"', '"3/4 in"'))
    before = (tmp_path / "job.toml").read_bytes()
    again = resumed(tmp_path)
    assert again.resumed()[2] == worded("template changed", "Usual")
    assert again.text("allowances.top") == "1/2 in"
    assert (tmp_path / "job.toml").read_bytes() == before
    path.unlink()
    assert len(resumed(tmp_path).resumed()) == 2


# The checklist.
def test_after_the_last_question_come_the_steps_ticked_noted_and_timed_in_any_order(tmp_path: Path) -> None:
    session = finished(tmp_path)
    first, second, third, *_ = session.plan.work
    assert (session.at, session.current_step()) == (f"work.{first.id}", first)
    assert session.tick(second.id, minutes=12) is None
    done = resumed(tmp_path).project.work[second.id]
    assert (done.done is not None, done.minutes) == (True, 12)
    assert session.next_action() == f"{first.title}."
    session.untick(second.id)
    assert resumed(tmp_path).project.work[second.id].done is None
    with pytest.raises(KeyError):
        session.tick("no-such-step")
    session.tick(first.id)
    assert resumed(tmp_path).at == f"work.{second.id}"
    session.next()
    assert session.at == f"work.{second.id}"
    assert session.note(third.id, "second width has a slub, turned inside") is None
    assert resumed(tmp_path).project.work[third.id].note == "second width has a slub, turned inside"
    assert session.note(third.id, "x" * 5000) is not None
    session.note(third.id, "")
    assert third.id not in session.project.work or session.project.work[third.id].note is None
    for step in session.plan.work:
        session.tick(step.id)
    assert session.next_action() == worded("all done")


def test_what_is_done_beside_the_way_does_not_move_the_place_nor_where_the_last_answer_leads(tmp_path: Path) -> None:
    session = finished(tmp_path)
    finding = give(session, f"{LEFT}.run.2", "70 in").findings[0]
    place = resumed(tmp_path).at
    session.keep(finding.id)
    session.note(session.plan.work[3].id, "mind the cat")
    session.tick(session.plan.work[2].id)
    assert resumed(tmp_path).at == place
    session.go(f"{LEFT}.in_the_way")
    give(session, session.at, "leg")
    session.unkeep(finding.id)
    session.keep(finding.id)
    session.next()
    assert session.at == f"{LEFT}.in_the_way.leg.at"


def test_a_ticked_step_that_reads_otherwise_after_an_answer_is_told_then_and_on_resuming(tmp_path: Path) -> None:
    session = finished(tmp_path)
    for step in session.plan.work:
        session.tick(step.id)
    assert session.stale() == ()
    upset = give(session, f"{LEFT}.run.1", "70 in").upset
    assert upset.steps
    assert session.stale() == upset.steps
    again = resumed(tmp_path)
    assert again.stale() == upset.steps
    assert worded("changed since ticked") in again.resumed()[2]
    session.undo()
    assert session.stale() == ()


LOOKED_OVER = "cut:face"
"""A step that tells how much of the cloth is used."""


def looked_over(project: Project, told: str) -> Project:
    """The job with that step ticked when it read so."""
    done = datetime(2026, 3, 2, 12, tzinfo=UTC)
    return put_many(project, {f"work.{LOOKED_OVER}.done": done, f"work.{LOOKED_OVER}.told": told})


def mark_in(plan: Plan) -> str:
    """The mark of what that step tells."""
    return next(mark_of(each) for each in plan.work if each.id == LOOKED_OVER)


def test_a_plan_is_searched_on_at_the_opening_only_for_ticked_steps_that_read_otherwise(tmp_path: Path) -> None:
    project, file = many_sections(tmp_path, longer=9), tmp_path / "job.toml"
    first, best = mark_in(plan_of(project)), mark_in(at_best(plan_of(project)))
    assert first != best
    for each in (project, looked_over(project, first)):
        file.write_bytes(encode(each))
        assert can_improve(resumed(tmp_path).plan)
    for told, stale in ((f"{OF_NUMBERS}another mark", (LOOKED_OVER,)), (best, ())):
        file.write_bytes(encode(looked_over(project, told)))
        session = resumed(tmp_path)
        assert (session.stale(), session.upset_places) == (stale, tuple(f"work.{each}" for each in stale))
        assert (worded("changed since ticked") in " ".join(session.resumed())) == bool(stale)
    assert session.reload() is None
    assert session.stale() == ()


def test_a_step_that_changed_stays_in_sight_until_it_is_ticked_again_or_tells_the_same(tmp_path: Path) -> None:
    session = finished(tmp_path)
    assert session.upset_places == ()
    for step in ("join:face:left", "hem:face:left", "join:face:foot"):
        session.tick(step)
    give(session, f"{LEFT}.run.1", "70 in")
    upset = session.upset_places
    assert "work.hem:face:left" in upset
    assert "work.join:face:foot" not in upset or "join:face:foot" in session.stale()
    give(session, "survey.floor", "hard floor")
    assert set(upset) <= set(session.upset_places)
    assert set(resumed(tmp_path).upset_places) >= set(upset)
    session.go("work.hem:face:left")
    assert "work.hem:face:left" in session.upset_places
    session.tick("hem:face:left")
    assert "work.hem:face:left" not in session.upset_places
    session.undo()
    give(session, f"{LEFT}.run.1", "76 5/8 in")
    session.undo()
    assert "hem:face:left" in session.stale()
    session.undo()
    session.undo()
    assert session.upset_places == ()
    session.redo()
    assert session.upset_places != ()


def test_a_question_that_comes_up_before_answered_ones_stays_in_sight(tmp_path: Path) -> None:
    session = finished(tmp_path)
    give(session, "survey.slatted", "yes")
    assert [*session.upset_places] == ["rails.free_height"]
    give(session, "rails.free_height", "2 in")
    assert [*session.upset_places] == []
    session.undo()
    assert session.at == "rails.free_height"
    session = new_one(tmp_path)
    while (question := session.current()) is not None and question.key != "cloth.face.kind":
        give(session, question.key, MEASURED.get(question.key, ""))
        assert session.upset_places == ()
        session.next()


def new_one(folder: Path) -> Session:
    """A session on a file of its own."""
    (folder / "new").mkdir()
    return begun(folder / "new")


def test_the_oldest_changes_of_a_long_session_are_forgotten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(session_module, "MOST_KEPT", 3)
    session = begun(tmp_path)
    for number in range(10):
        give(session, "name", f"job {number}")
    while session.undo():
        pass
    assert session.project.name == "job 6"
