"""Moving about: next, back, go; pending text; added things; resuming; the checklist."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import MEASURED, begun, finished, give, resumed, with_left
from tests.project.test_better_plans import many_sections
from wizard.interview import session as session_module
from wizard.interview.outcome import Accepted, Refused
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.finished_steps import OF_NUMBERS, mark_of
from wizard.project.plan_of_project import best_plan_of, can_improve, plan_of
from wizard.project.project import Project, begin, put_many
from wizard.project.store import Store
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan


@pytest.fixture(scope="module")
def complete(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a job with every question answered."""
    folder = tmp_path_factory.mktemp("complete")
    finished(folder)
    return folder


def copied(complete: Path, folder: Path) -> Session:
    (folder / "job.toml").write_bytes((complete / "job.toml").read_bytes())
    return resumed(folder)


def test_next_and_back_walk_the_same_way_and_end_at_both_ends(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
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


def test_every_place_can_be_gone_to_and_left_both_ways(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    keys = [each.key for each in session.questions]
    for key in keys:
        assert session.go(key)
        assert session.at == key
        assert session.next()
        assert session.go(key)
        assert session.back() == (key != keys[0])


def test_what_is_behind_more_is_passed_over_but_can_be_gone_to_and_answered(complete: Path, tmp_path: Path) -> None:
    session, key = copied(complete, tmp_path), "cloth.tape.turn_under"
    page = session.page() if session.go(key) else None
    assert page is not None
    assert key in {each.key for each in page.more}
    assert session.state(key) == "usual"
    give(session, key, "3/8 in")
    assert session.state(key) == "answered"
    session.go(page.fields[-1].key)
    session.next()
    assert session.page() != page


def test_an_allowance_is_written_only_where_it_is_another_than_the_usual_one(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    for text, written in (("", None), ("1/2", None), ("3/8", "3/8 in"), ("0.5 in", None)):
        give(session, "allowances.join", text)
        there = session.project.allowances.join
        assert (there and there.text) == written
    assert session.project.progress.usual_allowances


def test_what_is_needed_behind_more_is_walked_all_the_same(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    for number in range(4, 8):
        give(session, f"survey.section.foot.drop.{number}", "9")
        give(session, f"survey.section.foot.drop_at.{number}", f"{number}0")
    give(session, "survey.section.foot.drop.8", "9")
    session.go("survey.section.foot.run.1")
    page = session.page()
    assert page is not None
    assert len(page.fields) == 8
    while session.at != "survey.section.foot.drop_at.8":
        assert session.next()
        assert session.page() == page
    assert session.state(session.at) == "missing"


def test_a_key_above_or_below_a_question_leads_to_it(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    assert session.go("survey.section.left.drop")
    assert session.at == "survey.section.left.drop.1"
    assert session.go("survey.section.attic")
    assert session.at == "survey.section"
    assert not session.go("nowhere")


def test_an_unfinished_answer_is_shown_again_on_return_and_is_never_in_the_file(tmp_path: Path) -> None:
    session = begun(tmp_path)
    session.go("survey.rail_thickness")
    session.type("survey.rail_thickness", "1 1/")
    assert session.back()
    session.go("survey.rail_thickness")
    assert session.text("survey.rail_thickness") == "1 1/"
    assert "1 1/" not in (tmp_path / "job.toml").read_text(encoding="utf-8")
    give(session, "survey.rail_thickness", "1 1/8")
    assert session.pending == {}


def test_typing_the_answer_that_stands_leaves_nothing_pending(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "name", "Juniper loft")
    session.type("name", "Junip")
    session.type("name", "Juniper loft")
    assert session.pending == {}


def test_a_refused_answer_holds_back_neither_next_nor_back(tmp_path: Path) -> None:
    session = begun(tmp_path)
    session.go("survey.rail_thickness")
    assert isinstance(session.answer(session.at, "long"), Refused)
    assert session.next()
    assert session.back()
    assert session.at == "survey.rail_thickness"


def test_naming_things_in_the_way_gives_each_a_page_behind_that_of_its_side(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    session.go("survey.section.left.in_the_way")
    give(session, session.at, "The Old Leg! + Gramophone")
    session.next()
    assert session.at == "survey.section.left.in_the_way.the-old-leg.at"
    after = [each.id for each in session.pages if each.id.startswith(("side.", "thing."))]
    assert after == ["side.left", "thing.left.the-old-leg", "thing.left.gramophone"]
    leaves = [[each.key.rpartition(".")[2] for each in page.fields] for page in session.pages if page.id in after[1:]]
    assert leaves == [["at", "width", "height", "do"], ["at", "width", "height", "kind", "do"]]
    assert session.project.survey.section["left"].in_the_way["the-old-leg"].kind == "centre leg"
    assert session.removable("survey.section.left.in_the_way.the-old-leg.at")


def test_an_added_section_is_asked_for_its_side_and_its_posts_can_be_named(tmp_path: Path) -> None:
    session = begun(tmp_path)
    session.go("survey.section")
    give(session, session.at, "By the desk")
    session.go("survey.section.by-the-desk")
    asked = []
    for text in ("head", "20", "20", "12", "12", "12", "", "inner face"):
        asked.append(session.at.removeprefix("survey.section.by-the-desk."))
        give(session, session.at, text)
        session.next()
    assert asked == ["side", "run.1", "run.2", "drop.1", "drop.2", "drop.3", "in_the_way", "fixing_face"]
    give(session, "survey.section.by-the-desk.left_post", "Middle leg")
    assert session.text("survey.section.by-the-desk.left_post") == "middle-leg"


def test_two_things_of_one_name_are_two_things(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for _ in range(2):
        give(session, "survey.section.left.in_the_way", "leg")
    assert sorted(session.plan.job.survey.section["left"].in_the_way) == ["leg", "leg-2"]


def test_an_owned_length_is_added_by_its_length(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert isinstance(session.answer("cloth.face.owned", "a bit"), Refused)
    give(session, "cloth.face.owned", "2 1/4 yd")
    give(session, "cloth.face.owned", "1 yd")
    assert [session.text(f"cloth.face.owned.{each}.length") for each in ("length", "length-2")] == ["2 1/4 yd", "1 yd"]


def test_what_was_added_can_be_taken_out_and_put_back_by_undo(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "survey.section", "by the desk")
    session.go("survey.section.by-the-desk.run.1")
    assert session.remove(session.at) is None
    assert session.question("survey.section.by-the-desk.run.1") is None
    assert session.current() is not None
    session.undo()
    assert session.question("survey.section.by-the-desk.run.1") is not None


def test_what_was_not_added_cannot_be_taken_out(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    further = ("survey.section.left.drop.4", "survey.section.left.drop_at.4", "cloth.fixing.legs.1")
    for key in ("name", "survey.section.left.run.1", "survey.section.left.drop.2", *further):
        assert session.removable(key) is None, key
        with pytest.raises(KeyError):
            session.remove(key)


def test_a_further_reading_is_taken_out_from_the_question_about_its_place_too(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for key, text in (("run.1", "76"), *((f"drop.{number}", "12") for number in range(1, 5))):
        give(session, f"survey.section.left.{key}", text)
    place = "survey.section.left.drop_at.4"
    assert session.text(place) == ""
    assert session.removable(place)
    assert session.remove(place) is None
    assert session.text("survey.section.left.drop.4") == ""


def test_a_fourth_drop_keeps_the_places_of_the_three_and_all_stand_in_order_along_the_rail(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for leaf, text in (("run.1", "76"), ("drop.1", "11"), ("drop.2", "12"), ("drop.3", "12 1/2"), ("drop.4", "13")):
        found = give(session, f"survey.section.left.{leaf}", text).findings
    assert [each.id for each in found] == ["floor-uneven:left"]
    assert session.question("survey.section.left.drop_at.4") in session.missing()
    assert give(session, "survey.section.left.drop_at.4", "60").findings == ()
    section = session.project.survey.section["left"]
    assert [each and each.text for each in section.drop] == ["11 in", "12 in", "13 in", "12 1/2 in"]
    assert [each.text if each is not None else None for each in section.drop_at] == ["0 in", "38 in", "60 in", "76 in"]


def test_a_further_drop_left_empty_is_taken_out_without_a_hole(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for number in range(1, 6):
        give(session, "survey.section.left.run.1", "76")
        give(session, f"survey.section.left.drop.{number}", f"1{number}")
    give(session, "survey.section.left.drop.4", "")
    assert [each and each.text for each in session.project.survey.section["left"].drop] == [
        "11 in",
        "12 in",
        "13 in",
        "15 in",
    ]


def test_the_hem_line_is_asked_only_where_the_floor_is_uneven_and_says_what_each_costs(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    for number in (1, 2, 3):
        give(session, f"survey.section.left.drop.{number}", "12")
    assert "hem" not in [each.id for each in session.pages]
    give(session, "survey.section.left.drop.3", "12 5/8")
    hem = next(each for each in session.pages if each.id == "hem")
    assert "left section by 5/8 in" in hem.words
    assert hem.fields[0].how.count("5/8 in") == 2


def test_a_fixing_is_offered_that_suits_the_rail(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "survey.rail", "metal")
    question = session.question("cloth.fixing.kind")
    assert question is not None
    assert [each.value for each in question.choices] == ["adhesive hook-and-loop", "magnets"]
    assert isinstance(session.answer("cloth.fixing.kind", "staples"), Accepted)


def test_what_comes_off_easily_is_offered_first_where_the_skirt_comes_off_often(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "survey.rail", "solid wood")
    give(session, "survey.taken_off", "often")
    question = session.question("cloth.fixing.kind")
    assert question is not None
    assert question.usual == "adhesive hook-and-loop"


def test_posts_are_measured_only_where_cloth_returns_behind_them_and_shared_ones_once(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "sides.on", "left, foot")
    assert session.question("survey.post.foot-left.along_side") is None
    give(session, "survey.section.left.right_end", "returns")
    give(session, "survey.section.foot.left_end", "returns")
    sizes = session.question("survey.post.foot-left.along_side")
    assert sizes is not None
    assert sizes.keys == ("survey.post.foot-left.along_side",)


def test_the_daylight_beside_a_leg_is_asked_only_where_the_leg_is_turned(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    assert not [each for each in session.questions if "daylight_" in each.key]
    give(session, "corners.turned", "foot-left")
    assert [each.key for each in session.questions if "daylight_" in each.key] == [
        "survey.section.left.right_daylight_top",
        "survey.section.left.right_daylight_floor",
    ]


def test_when_the_question_in_hand_goes_one_stands_at_the_one_before(tmp_path: Path) -> None:
    session = begun(tmp_path)
    session.go("face.layers")
    give(session, session.at, "lining")
    session.next()
    session.go("cloth.lining.width")
    session.undo()
    assert session.at == "face.layers"


def test_resuming_stands_where_the_next_question_is_and_tells_what_was_done(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert session.resumed() == (worded("next", "Name"),)
    give(session, "name", "Juniper loft")
    give(session, "standard", "inches")
    again = resumed(tmp_path)
    assert again.at == "sides.on"
    assert again.resumed() == (worded("done so far", "2 answers"), worded("next", worded("sides asked")))


def test_resuming_elsewhere_than_at_what_is_next_says_both(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "name", "Juniper loft")
    session.go("survey.rail")
    session.leave()
    assert resumed(tmp_path).resumed() == (
        worded("done so far", "1 answer"),
        f"{worded('stopped at', worded('rail asked'))} {worded('next', worded('system asked'))}",
    )


def test_resuming_at_a_step_behind_others_that_are_not_ticked_names_one_place(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    first, _, third, *_ = session.plan.work
    session.tick(first.id)
    session.go(f"work.{third.id}")
    session.leave()
    again = resumed(tmp_path)
    assert again.at == f"work.{third.id}"
    assert again.resumed(brief=True)[1] == f"{worded('next', third.title)} {worded('unticked before')}"


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_resuming_tells_which_parts_were_edited_by_hand_until_they_are_saved_again(
    complete: Path, tmp_path: Path
) -> None:
    session = copied(complete, tmp_path)
    give(session, "survey.section.left.name", "window side")
    assert all("by hand" not in each for each in resumed(tmp_path).resumed())
    edit(tmp_path / "job.toml", '"76 5/8 in"', '"77 5/8 in"')
    edit(tmp_path / "job.toml", 'width = "54 in"', 'width = "60 in"')
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
    edit(path, '"Usual"', '"Usual"\ncurrency = "€"')
    edit(path, '"1/2 in"', '"3/4 in"')
    before = (tmp_path / "job.toml").read_bytes()
    again = resumed(tmp_path)
    assert again.resumed()[2] == worded("template changed", "Usual")
    assert again.text("allowances.top") == "1/2 in"
    assert (tmp_path / "job.toml").read_bytes() == before
    path.unlink()
    assert len(resumed(tmp_path).resumed()) == 2


def test_leaving_keeps_the_place_only_when_something_was_saved(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    before = (tmp_path / "job.toml").read_bytes()
    session.go("survey.floor")
    session.leave()
    assert (tmp_path / "job.toml").read_bytes() == before
    give(session, "survey.floor", "carpet")
    session.go("cloth.face.width")
    session.leave()
    assert resumed(tmp_path).at == "cloth.face.width"


def test_after_the_last_question_comes_the_first_step_and_steps_can_be_ticked_in_any_order(
    complete: Path, tmp_path: Path
) -> None:
    session = copied(complete, tmp_path)
    first, second, *_ = session.plan.work
    assert session.at == f"work.{first.id}"
    assert session.current_step() == first
    assert session.tick(second.id, minutes=12) is None
    done = resumed(tmp_path).project.work[second.id]
    assert done.done is not None
    assert done.minutes == 12
    assert session.next_action() == f"{first.title}."
    session.untick(second.id)
    assert resumed(tmp_path).project.work[second.id].done is None
    with pytest.raises(KeyError):
        session.tick("no-such-step")


def test_ticking_the_step_in_hand_goes_on_to_the_next_one(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    first, second, *_ = session.plan.work
    session.tick(first.id)
    assert resumed(tmp_path).at == f"work.{second.id}"
    session.next()
    assert session.at == f"work.{second.id}"


def test_what_is_done_beside_the_way_does_not_move_the_place(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    give(session, "survey.section.left.run.2", "70 in")
    place = resumed(tmp_path).at
    finding = next(each for each in session.plan.findings if not each.kept)
    session.keep(finding.id)
    session.note(session.plan.work[3].id, "mind the cat")
    session.tick(session.plan.work[2].id)
    assert resumed(tmp_path).at == place


def test_keeping_a_finding_does_not_forget_where_the_last_answer_leads(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, "survey.section.left.run.1", "76 in")
    finding = give(session, "survey.section.left.run.2", "70 in").findings[0]
    session.go("survey.section.left.in_the_way")
    give(session, session.at, "leg")
    session.keep(finding.id)
    session.next()
    assert session.at == "survey.section.left.in_the_way.leg.at"


def test_notes_stay_with_their_step_and_a_bad_one_is_refused(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    step = session.plan.work[0].id
    assert session.note(step, "second width has a slub, turned inside") is None
    assert resumed(tmp_path).project.work[step].note == "second width has a slub, turned inside"
    assert isinstance(session.note(step, "x" * 5000), Refused)
    session.note(step, "")
    assert step not in session.project.work or session.project.work[step].note is None


def test_a_ticked_step_that_reads_otherwise_after_an_answer_is_told_then_and_on_resuming(
    complete: Path, tmp_path: Path
) -> None:
    session = copied(complete, tmp_path)
    for step in session.plan.work:
        session.tick(step.id)
    assert session.stale() == ()
    upset = give(session, "survey.section.left.run.1", "70 in").upset
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


def marks_of(plan: Plan) -> dict[str, str]:
    """The mark of what each step tells."""
    return {each.id: mark_of(each) for each in plan.work}


def test_steps_ticked_on_a_better_plan_read_as_ticked_when_one_comes_back(tmp_path: Path) -> None:
    project, file = many_sections(tmp_path, longer=9), tmp_path / "job.toml"
    first, best = (marks_of(plan) for plan in (plan_of(project), best_plan_of(project)))
    assert first[LOOKED_OVER] != best[LOOKED_OVER]
    for told, stale in ((best[LOOKED_OVER], ()), (f"{OF_NUMBERS}another mark", (LOOKED_OVER,))):
        file.write_bytes(encode(looked_over(project, told)))
        session = resumed(tmp_path)
        assert (session.stale(), session.upset_places) == (stale, tuple(f"work.{each}" for each in stale))
        assert (worded("changed since ticked") in " ".join(session.resumed())) == bool(stale)
    file.write_bytes(encode(looked_over(project, best[LOOKED_OVER])))
    assert session.reload() is None
    assert session.stale() == ()


def test_a_plan_is_searched_on_before_the_first_question_only_for_ticked_steps_that_read_otherwise(
    tmp_path: Path,
) -> None:
    project = many_sections(tmp_path, longer=9)
    for each in (project, looked_over(project, marks_of(plan_of(project))[LOOKED_OVER])):
        (tmp_path / "job.toml").write_bytes(encode(each))
        assert can_improve(resumed(tmp_path).plan)


def test_what_an_answer_upset_stays_in_sight_until_one_stands_there_or_it_waits_no_more(
    complete: Path, tmp_path: Path
) -> None:
    session = copied(complete, tmp_path)
    assert session.upset_places == ()
    for step in ("join:face:left", "hem:face:left", "join:face:foot"):
        session.tick(step)
    give(session, "survey.section.left.run.1", "70 in")
    upset = session.upset_places
    assert "work.hem:face:left" in upset
    assert "work.join:face:foot" not in upset or "join:face:foot" in session.stale()
    give(session, "survey.floor", "hard floor")
    assert set(upset) <= set(session.upset_places)
    assert set(resumed(tmp_path).upset_places) >= set(upset)
    session.go("work.hem:face:left")
    assert "work.hem:face:left" not in session.upset_places
    give(session, "survey.section.left.run.1", "76 5/8 in")
    session.undo()
    assert "hem:face:left" in session.stale()
    session.undo()
    session.undo()
    assert session.upset_places == ()
    session.redo()
    assert session.upset_places != ()


def test_a_question_that_comes_up_before_others_that_are_answered_stays_in_sight_until_it_is_answered(
    complete: Path, tmp_path: Path
) -> None:
    session = copied(complete, tmp_path)
    give(session, "survey.slatted", "yes")
    assert [*session.upset_places] == ["rails.free_height"]
    give(session, "rails.free_height", "2 in")
    assert [*session.upset_places] == []
    session.undo()
    assert session.at == "rails.free_height"


def test_what_comes_up_further_on_in_a_new_interview_upsets_nothing(tmp_path: Path) -> None:
    session, script = begun(tmp_path), dict(MEASURED)
    while (question := session.current()) is not None and question.key != "cloth.face.kind":
        give(session, question.key, script.get(question.key, ""))
        assert session.upset_places == ()
        session.next()


def test_when_every_step_is_ticked_nothing_is_left_to_do(complete: Path, tmp_path: Path) -> None:
    session = copied(complete, tmp_path)
    for step in session.plan.work:
        session.tick(step.id)
    assert session.next_action() == worded("all done")


def test_the_oldest_changes_of_a_long_session_are_forgotten(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(session_module, "MOST_KEPT", 3)
    session = begun(tmp_path)
    for number in range(10):
        give(session, "name", f"job {number}")
    while session.undo():
        pass
    assert session.project.name == "job 6"
