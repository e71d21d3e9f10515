"""Finished steps that told something else: kept when ticked, told at the step, on sheets, by `check`, in the JSON."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from tests.commands.running import within
from tests.interview.maker import finished, give, resumed
from wizard.commands.exits import Exit
from wizard.interview.session import Session
from wizard.project.finished_steps import as_done, changed_steps, mark_of
from wizard.project.marks import plan_mark
from wizard.project.plan_of_project import at_best, plan_of
from wizard.project.project import FinishedStep, put_many
from wizard.render.formats import Request, render
from wizard.render.json_sheet import plan_json
from wizard.render.sheet_names import SheetId
from wizard.trade.lengths import Length

OLD_FILE = Path(__file__).parent / "finished" / "cut-then-gap-changed.toml"
"""Cut, then the gap under the hem was changed; from before the lengths were kept."""
CUT = (
    "Left section: cut at 36.5 cm; the plan now says 35.5 cm. Foot section: cut at 33.8 cm; the plan now says 32.8 cm. "
    "Right section: cut at 36.6 cm; the plan now says 35.6 cm."
)
RELABEL = "Piece numbers and sizes may have changed: compare every label with the cut list before you join."
CUT_OUT = f"{CUT} What is too long: trim it at the raw hem edge before you hem."


@pytest.fixture
def cut(tmp_path: Path) -> Session:
    """The same job, cut with no gap, with a file of today."""
    shutil.copy(OLD_FILE, tmp_path / "job.toml")
    session = resumed(tmp_path)
    give(session, "survey.floor_gap", "0 cm")
    for step in session.plan.work[:5]:
        session.untick(step.id)
        session.tick(step.id)
    return session


@pytest.fixture
def changed(cut: Session) -> Session:
    """And the gap was changed after that."""
    give(cut, "survey.floor_gap", "1 cm")
    return cut


def said(session: Session) -> dict[str, str]:
    """What each changed step says."""
    return {each.id: " ".join(each.sentences) for each in session.changed_steps}


SAID = {
    "buy": "Cotton sateen lining: cloth to buy was 390 cm; the plan now says 380 cm.",
    "look-over:face": "Garden stripe: cloth used was 609.8 cm; the plan now says 608.8 cm.",
    "cut:face": CUT_OUT,
    "label:face": RELABEL,
}


def test_a_finished_step_says_what_it_told_and_what_the_plan_says_now(changed: Session, tmp_path: Path) -> None:
    assert said(changed) == SAID
    assert changed.changed_since("square:face") == ()
    told = resumed(tmp_path).resumed()[-1]
    assert (
        f"Changed since you ticked “Cut out: garden stripe”. {CUT_OUT} 3 more finished steps have changed too." in told
    )
    run = within("check", "job.toml", folder=tmp_path)
    assert run.returncode == Exit.FOUND
    assert run.stdout.startswith("job.toml: complete, but 4 finished steps changed\n")
    assert f"  changed: work.cut:face: Changed since you ticked “Cut out: garden stripe”. {CUT_OUT}\n" in run.stdout


def test_nothing_is_said_where_nothing_is_different(cut: Session, tmp_path: Path) -> None:
    assert cut.changed_steps == ()
    # Once the work has begun its next step comes next, though usual answers were never given.
    assert cut.next_action() == "Look over: cotton sateen lining."
    assert "Next: Look over: cotton sateen lining." in " ".join(cut.resumed())
    give(cut, "survey.floor_gap", "1 cm")
    assert cut.undo()
    assert cut.changed_steps == ()
    assert resumed(tmp_path).changed_steps == ()
    assert within("check", "job.toml", folder=tmp_path).returncode == Exit.OK
    cut.untick("cut:face")
    assert cut.project.work["cut:face"] == FinishedStep(), "one that is not done after all leaves nothing behind"


def test_ticked_steps_that_only_wait_for_an_answer_stay_in_the_list_and_are_not_said_to_be_gone(cut: Session) -> None:
    unanswered: dict[str, Any] = {"fullness.want": None}
    ticked = {each.id: (each.stage, each.title) for each in cut.steps if each.id in cut.project.work}
    cut.choose(unanswered)
    assert not cut.plan.complete
    assert cut.changed_steps == ()
    assert {each.id: (each.stage, each.title) for each in cut.steps if each.id in cut.project.work} == ticked
    assert len(ticked) == 5
    assert len({each.id for each in cut.plan.work} & ticked.keys()) < 5


@pytest.mark.parametrize(
    ("sheet", "told"),
    [("overview", 4), ("shop", 1), ("table", 4), ("making-up", 3), ("marks", 3), ("labels", 3), ("hanging", 0)],
)
def test_every_sheet_it_concerns_says_so_once(changed: Session, sheet: SheetId, told: int) -> None:
    plan = as_done(changed.plan, changed.project)
    text = render(plan, Request("text", (sheet,), columns=120))
    assert text.count("* Changed since you ticked ") == told
    assert "4 finished steps have changed since." in " ".join(text.split())
    assert render(plan, Request("html", (sheet,))).count("Changed since you ticked ") == told


def test_the_step_itself_its_pieces_and_the_json_say_so(changed: Session) -> None:
    plan = as_done(changed.plan, changed.project)
    text = " ".join(render(plan, Request("text", ["table"], columns=120)).split())
    assert f"* Changed since you ticked it: {CUT_OUT} [x] Cut out (" in text
    assert text.count(f"* Changed since you ticked it: {RELABEL} [x] Label (") == 1
    assert render(plan, Request("svg", ["table"])).count("Changed since you ticked “") == 4
    rows = csv.DictReader(io.StringIO(render(plan, Request("csv")), newline=""))
    assert {(row["layer"], row["changed since it was cut"]) for row in rows} == {
        ("face", CUT_OUT),
        ("lining", ""),
    }
    made = plan_json(plan)
    steps = {each["id"]: each["changed"] for each in made["work"]}
    assert (" ".join(steps["cut:face"]), steps["square:face"]) == (CUT_OUT, [])
    assert [each["id"] for each in made["changed"]] == list(SAID)


def test_a_file_from_before_says_it_as_well_as_it_can(tmp_path: Path) -> None:
    shutil.copy(OLD_FILE, tmp_path / "job.toml")
    assert within("check", "job.toml", folder=tmp_path).returncode == Exit.FOUND
    assert said(resumed(tmp_path)) == {
        "cut:face": (
            "The file does not record what this step said when you ticked it; the plan now says: cut length of left "
            "section 35.5 cm, foot section 32.8 cm and right section 35.6 cm."
        ),
        "label:face": RELABEL,
    }


def test_labels_count_where_only_the_pieces_are_others_and_a_step_that_is_gone_is_named(tmp_path: Path) -> None:
    session = finished(tmp_path)
    session.tick("label:face")
    session.tick("hem:face:right")
    give(session, "fullness.joins", "whole widths")
    assert session.changed_since("label:face") == (RELABEL,)
    give(session, "sides.on", "left, foot")
    gone = session.changed_steps[-1]
    assert (gone.title, gone.sentences) == ("Hem: face cloth, right section", ("The plan no longer has this step.",))
    assert gone in as_done(session.plan, session.project).changed


def test_another_wording_of_the_same_numbers_is_no_change(cut: Session) -> None:
    step = cut.plan.work[3]
    lines, listed = (tuple(line.replace("piece", "panel") for line in of) for of in (step.lines, step.listed))
    assert lines != step.lines
    assert mark_of(replace(step, lines=lines, listed=listed)) == mark_of(step)
    assert mark_of(replace(step, listed=step.listed[:-1])) != mark_of(step)
    assert mark_of(replace(step, lines=(*step.lines[:-1], "Cut 3 more."))) != mark_of(step)


@pytest.mark.parametrize("earlier", ["bdb2ad7f351d", "n7832830cce41"])
def test_the_mark_of_an_earlier_wording_says_nothing_and_the_lengths_alone_count(cut: Session, earlier: str) -> None:
    """A file of before step lists, ticked at the same lengths: nothing has changed until a length does."""
    assert cut.project.work["cut:face"].told == mark_of(cut.plan.work[3])
    old = put_many(cut.project, {f"work.{each.id}.told": earlier for each in cut.plan.work[:5]})
    assert changed_steps(old, cut.plan) == ()
    lower = put_many(old, {"survey.floor_gap": Length.of(1, "cm")})
    assert {each.id: " ".join(each.sentences) for each in changed_steps(lower, at_best(plan_of(lower)))} == SAID


def test_what_is_kept_for_a_finished_step_is_no_part_of_the_plan_mark(cut: Session, tmp_path: Path) -> None:
    project = resumed(tmp_path).project
    assert project.work["cut:face"].lengths["layer.face.cut.left"].text == "36.5 cm"
    without = put_many(project, {"work": None})
    assert plan_mark(at_best(plan_of(without)).job) == plan_mark(at_best(plan_of(project)).job)
    assert changed_steps(without, at_best(plan_of(without))) == ()


def test_in_another_unit_the_same_plan_is_no_change_and_the_same_lengths_are_compared(cut: Session) -> None:
    give(cut, "show", "mm")
    assert cut.changed_steps == ()
    give(cut, "survey.floor_gap", "1 cm")
    assert cut.changed_since("cut:face")[0] == "Left section: cut at 365 mm; the plan now says 355 mm."
