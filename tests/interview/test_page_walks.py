"""Walks through the pages: how many there are, where one lands, what taking a page, a copy, undo and leaving do."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.interview.beds_at_random import project_of
from tests.interview.interview_texts import worded
from tests.interview.maker import (
    EVERYTHING,
    HERON,
    MEASURED,
    SLATTED,
    an_answer,
    begun,
    by_page,
    finished,
    give,
    page_of,
    pages_by_enter,
    resumed,
    with_left,
)
from wizard.interview.outcome import Accepted, Refused
from wizard.interview.pages.bed_pages import are_alike
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, begin, put_many
from wizard.project.reading import read
from wizard.render.formats import Request, render
from wizard.trade.first_figures import first_figures
from wizard.trade.lengths import Length

FIVE = {"survey.section.right-2.on": True, "survey.section.right-2.side": "right"}
"""One more part of the right side, to be ticked with the others."""
FIVE_SCRIPT = {
    **MEASURED,
    "sides.on": "left, foot, right, right-2, head",
    **{key.replace(".right.", ".right-2."): text for key, text in MEASURED.items() if ".right." in key},
    **{key.replace(".foot.", ".head."): text for key, text in MEASURED.items() if ".foot." in key},
}


def sheet(project: Project) -> str:
    """The plan as JSON."""
    return render(plan_of(project), Request("json"))


def without_habits(script: dict[str, str]) -> dict[str, str]:
    """What of a script a template does not answer."""
    habits = ("fullness.", "cloth.fixing", "face.layers", "cloth.interlining.", "cloth.face.w", "cloth.face.k")
    return {key: text for key, text in script.items() if not key.startswith(habits) or key.endswith(".owned")}


# How many pages, and how soon a figure.
def test_three_sections_take_22_pages_at_most_and_give_the_figures_worked_out_for_them(tmp_path: Path) -> None:
    session = begun(tmp_path)
    assert len(pages_by_enter(session, HERON)) <= 22
    figures = {
        "layer.face.cut.left": Length(Fraction(53, 4)),
        "layer.face.cut.foot": Length(Fraction(107, 8)),
        "layer.face.cut.right": Length(Fraction(213, 16)),
        "layer.face.width.left": Length(Fraction(1571, 8)),
        "layer.face.used": Length(Fraction(1171, 8)),
        "layer.face.buy": Length(0),
        "layer.interlining.cut.foot": Length(Fraction(119, 8)),
        "layer.interlining.buy": Length(Fraction(387, 2)),
        "part.left.fixings_set": 39,
        "part.right.fixing_spacing": Length(Fraction(77, 39)),
        "section.foot.right_step": Length(Fraction(11, 8)),
    }
    assert {id: session.plan.figures[id].value for id in figures} == figures
    assert session.plan.complete


@pytest.mark.parametrize("script", [HERON, MEASURED])
def test_the_first_cut_length_is_there_by_the_twentieth_field(tmp_path: Path, script: dict[str, str]) -> None:
    session, fields = begun(tmp_path), 0
    while not first_figures(session.plan).sections:
        fields += 1
        give(session, session.at, script.get(session.at, ""))
        session.next()
    assert fields <= 20


def test_a_plain_bed_takes_18_pages_at_most_and_five_sections_22(tmp_path: Path) -> None:
    (tmp_path / "five").mkdir()
    assert len(pages_by_enter(begun(tmp_path), MEASURED)) <= 18
    assert len(pages_by_enter(begun(tmp_path / "five", put_many(Project(), FIVE)), FIVE_SCRIPT)) <= 22


def test_from_a_template_three_sections_take_12_pages_at_most_and_five_13(tmp_path: Path) -> None:
    for name in ("usual", "five"):
        (tmp_path / name).mkdir()
    project = begin(put_many(finished(tmp_path / "usual", HERON).project, {"name": "Usual"}), "Next")
    assert project.began_from
    five = begun(tmp_path / "five", put_many(project, FIVE))
    assert len(pages_by_enter(five, without_habits(FIVE_SCRIPT))) <= 13
    session = begun(tmp_path, project)
    assert len(pages_by_enter(session, without_habits(HERON))) <= 12
    assert (session.plan.complete, five.plan.complete) == (True, True)
    for layer in ("face", "interlining"):
        give(session, f"cloth.{layer}.wash", "washed first")
    assert "Face cloth; do you already have some?" in [each.title for each in session.pages]
    page = next(each for each in session.pages if each.id == "rest")
    wanted = {"washing.face.shrinkage", "washing.interlining.shrinkage", "washing.face.washed"}
    assert wanted < {each.key for each in page.fields}
    assert len(page.fields) <= 8
    session.go("cloth.face.wash")
    session.next()
    assert session.at == "washing.face.shrinkage"


def test_on_usual_answers_the_walk_ends_at_the_last_page_and_the_number_never_rises(tmp_path: Path) -> None:
    session, left, numbers = begun(tmp_path), dict(MEASURED), list[int]()
    while session.current() is not None:
        here = session.position()
        numbers.append(here.of)
        give(session, session.at, left.pop(session.at, ""))
        session.next()
    assert numbers == sorted(numbers, reverse=True)
    assert (here.number, all(session.position().finished)) == (here.of, True)


def test_a_page_taken_with_a_needed_field_open_is_finished_once_that_is_put_off(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    give(session, "survey.slatted", "yes")
    for key, text in {"survey.rail": "metal", "survey.rail_thickness": "1 in"}.items():
        session.go(key)
        session.type(key, text)
    assert isinstance(session.accept(), Accepted)
    assert not session.position().finished[2]
    give(session, "rails.free_height", "")
    assert session.position().finished[2]


# Anything answered.
ADDING = ("sides.on", "progress.posts_alike")
"""What may bring up more pages, besides tables and readings: sections, a page for each post."""


def answer_to(session: Session, question: Question, random: Random) -> None:
    """Give an answer where none is given, that adds nothing."""
    adds = question.kind == "add" or ".drop" in question.key or question.key in ADDING
    if not adds and session.state(question.key) != "answered":
        give(session, question.key, an_answer(question, random))


@pytest.mark.parametrize("seed", range(8))
def test_without_adding_the_pages_never_grow_in_number(tmp_path: Path, seed: int) -> None:
    random, session = Random(seed), begun(tmp_path, project_of(seed, 0.9) if seed else Project())
    give(session, "sides.on", "left, foot, right, head")
    session.go("name")
    before = session.position()
    while (page := session.page()) is not None:
        for question in random.sample(page.more, min(1, len(page.more))):
            answer_to(session, question, random)
        answer_to(session, session.current() or page.fields[0], random)
        if not random.choice([session.next, session.next, session.next, session.back])():
            session.next()
        here = session.position()
        assert here.number <= here.of <= before.of, page.id
        before = here


@pytest.mark.parametrize("seed", range(3))
def test_one_may_stop_anywhere_and_nothing_unfit_is_ever_in_the_file(tmp_path: Path, seed: int) -> None:
    random, session = Random(seed), begun(tmp_path, project_of(seed, 0.5))
    for _ in range(40):
        session.go(random.choice(session.questions).key)
        question = session.current()
        assert question is not None
        text = random.choice([an_answer(question, random), "", "12 1/2", "1/", "no such thing", "-3", "5 %"])
        result = session.answer(question.key, text)
        if isinstance(result, Accepted):
            session.next()
        session.leave()
        there = read((tmp_path / "job.toml").read_bytes())
        assert isinstance(there, Project)
        assert encode(there) == (tmp_path / "job.toml").read_bytes()
        again = resumed(tmp_path)
        if isinstance(result, Accepted):
            assert again.at == session.at
            assert again.page() == session.page()
        elif isinstance(result, Refused) and question.kind not in ("choice", "choices", "yes-no"):
            assert again.text(question.key) == session.text(question.key)


@pytest.mark.parametrize("seed", range(3))
def test_undo_and_redo_give_the_same_bytes_each_time(tmp_path: Path, seed: int) -> None:
    random, session = Random(seed), begun(tmp_path, project_of(seed, 0.5))
    file = tmp_path / "job.toml"
    for _ in range(30):
        question = random.choice(session.questions)
        given = session.project
        assert isinstance(session.answer(question.key, an_answer(question, random)), Accepted)
        answered = session.project
        if without_place(given) == without_place(answered):
            continue
        assert session.undo()
        undone = file.read_bytes()
        assert session.redo()
        redone = file.read_bytes()
        assert (without_place(session.project), session.undo()) == (without_place(answered), True)
        assert (without_place(session.project), file.read_bytes()) == (without_place(given), undone)
        assert session.redo()
        assert file.read_bytes() == redone


def without_place(project: Project) -> Project:
    return replace(project, progress=replace(project.progress, at=None, written=None))


# Taking a whole page.
@pytest.mark.parametrize("script", [MEASURED, SLATTED, HERON, EVERYTHING])
def test_taking_every_page_of_a_finished_job_changes_nothing(tmp_path: Path, script: dict[str, str]) -> None:
    session = finished(tmp_path, script)
    before = sheet(session.project)
    for page in session.pages:
        if page.shown:
            session.go(page.fields[0].key)
            assert isinstance(session.accept(), Accepted)
            assert page_of(session).id == page.id
    assert sheet(session.project) == before


@pytest.mark.parametrize("script", [MEASURED, HERON])
def test_page_by_page_and_field_by_field_give_the_same_plan(tmp_path: Path, script: dict[str, str]) -> None:
    (tmp_path / "pages").mkdir()
    one, other = begun(tmp_path), begun(tmp_path / "pages")
    pages_by_enter(one, script)
    by_page(other, script)
    assert without_place(one.project) == without_place(other.project)
    assert other.plan.complete


def test_a_page_is_taken_once_and_undone_once_with_what_is_typed_to_add_something(tmp_path: Path) -> None:
    session = with_left(tmp_path)
    before = session.project.survey
    session.go("survey.rail")
    session.type("survey.rail", "metal")
    session.type("survey.rail_thickness", "1 in")
    assert isinstance(session.accept(), Accepted)
    assert (session.project.survey.rail, session.project.survey.slatted) == ("metal", False)
    assert session.undo()
    assert session.project.survey == before
    assert page_of(session).id == "rails"
    for place, key, text in (
        ("survey.section.left.run.1", "survey.section.left.in_the_way", "leg"),
        ("cloth.face.owned", "cloth.face.owned", "4 yd + 3 yd"),
    ):
        session.go(place)
        session.type(key, text)
        assert isinstance(session.accept(), Accepted)
    assert [*session.project.survey.section["left"].in_the_way] == ["leg"]
    assert [*session.project.cloth.face.owned] == ["length", "length-2"]


@pytest.mark.parametrize("key", ["survey.section.left.run.1", "survey.section.left.floor_gap"])
def test_a_text_that_cannot_be_read_holds_its_page_behind_more_too(tmp_path: Path, key: str) -> None:
    session = with_left(tmp_path)
    session.go("survey.section.left.run.1")
    session.type(key, "1/")
    for _ in range(2):
        assert isinstance(session.accept(), Refused)
        assert (session.at, session.text(key)) == (key, "1/")


# The same as the other side.
ACROSS = {"left": "right", "right": "left"}
READ = {"run": ["76 3/4 in", "76 5/8 in"], "drop": ["11 7/8 in", "12 in", "12 1/8 in", "12 1/4 in"],
        "drop_at": ["0 in", "38 in", "60 in", "76 3/4 in"]}  # fmt: skip


LEFT_SIDE = {
    **{leaf: value for leaf, value in READ.items() if leaf != "drop_at"},
    **{"left_end": "stops", "right_end": "returns", "right_return": "1 in", "left_hook": "1 1/2 in"},
    **{"raised": "1/2 in", "right_post": "middle-leg", "name": "window side"},
    "in_the_way": {"leg": {"name": "leg", "kind": "centre leg", "at": "38 in", "width": "3 in", "do": "no fixing"}},
}
"""A side with all that may be alike, and with a name and a post of its own."""


def taken_over(folder: Path, of: str, read: dict[str, Any]) -> Session:
    """A session at a side that has just been taken over from the side across, `of`, which was read so."""
    sides: dict[str, object] = {f"survey.section.{each}.on": True for each in ("left", "right")}
    session = begun(folder, put_many(Project(), sides | {f"survey.section.{of}.{leaf}": read[leaf] for leaf in read}))
    session.go(f"survey.section.{ACROSS[of]}.run.1")
    assert page_of(session).copy is not None
    assert session.copy() is None
    assert page_of(session).copy is None
    return session


def test_a_side_taken_over_twice_is_the_first_again(tmp_path: Path) -> None:
    (tmp_path / "back").mkdir()
    read = READ
    for folder, of in ((tmp_path, "left"), (tmp_path / "back", "right")):
        session = taken_over(folder, of, read)
        section = session.project.survey.section[ACROSS[of]]
        read = {leaf: [each.text for each in getattr(section, leaf)] for leaf in READ}
        if of == "left":
            assert read["drop"] == READ["drop"][::-1]
            assert read["drop_at"] == ["0 in", "16 3/4 in", "38 3/4 in", "76 3/4 in"]
        assert session.undo()
        assert not session.project.survey.section[ACROSS[of]].run
    assert read == READ


def offered_on(session: Session, side: str) -> str:
    """What the page of a side offers to take over, in words."""
    page = next(each for each in session.pages if each.id == f"side.{side}")
    return page.copy.words if page.copy else ""


def test_a_side_takes_over_ends_and_things_in_the_way_from_the_other_mirrored(tmp_path: Path) -> None:
    session = taken_over(tmp_path, "left", LEFT_SIDE)
    left, right = (session.project.survey.section[each] for each in ("left", "right"))
    assert (right.left_end, right.left_return, right.right_end, right.right_hook) == (
        *("returns", left.right_return, "stops"),
        left.left_hook,
    )
    # Both are measured from the head.
    assert right.in_the_way == left.in_the_way
    assert right.raised == left.raised
    assert (right.name, right.left_post, right.right_post) == (None, None, None)
    assert session.undo()
    assert session.project.survey.section["right"].in_the_way == {}


@pytest.mark.parametrize("changed", ["left", "right"])
def test_a_change_to_a_side_that_is_like_the_other_offers_the_same_there(tmp_path: Path, changed: str) -> None:
    session = taken_over(tmp_path, "left", LEFT_SIDE)
    other = ACROSS[changed]
    outcome = give(session, f"survey.section.{changed}.drop.2", "12 5/8 in")
    names = {"left": "window side", "right": "right section"}
    assert outcome.alike == names[other]
    assert offered_on(session, changed) == worded("same there", names[other])
    assert offered_on(session, other) == worded("same as", names[changed])
    assert offered_on(resumed(tmp_path), other) == worded("same as", names[changed])
    # A further change is offered with it, and is said no more.
    assert give(session, f"survey.section.{changed}.right_end", "stops").alike == ""
    session.go(f"survey.section.{changed}.run.1")
    assert session.copy() is None
    assert are_alike(session.project, changed, other)
    assert are_alike(session.project, other, changed)
    assert (offered_on(session, changed), offered_on(session, other)) == ("", "")


def test_two_sides_are_unlinked_by_changing_the_other_too_and_by_undo(tmp_path: Path) -> None:
    session = taken_over(tmp_path, "left", LEFT_SIDE)
    give(session, "survey.section.left.drop.2", "12 5/8 in")
    assert session.undo()
    assert (offered_on(session, "left"), offered_on(session, "right")) == ("", "")
    give(session, "survey.section.left.drop.2", "12 5/8 in")
    give(session, "survey.section.right.drop.2", "11 1/8 in")
    assert (offered_on(session, "left"), offered_on(session, "right")) == ("", "")
    assert give(session, "survey.section.left.drop.2", "12 3/4 in").alike == ""


def test_a_layer_of_which_nothing_is_said_takes_over_the_details_of_the_face(tmp_path: Path) -> None:
    session = begun(tmp_path)
    face = {"width": "54", "kind": "lawn", "weight": "light", "price": "18.50"}
    for leaf, text in {**face, "owned": "3 yd"}.items():
        give(session, f"cloth.face.{leaf}", text)
    give(session, "face.layers", "lining")
    session.go("cloth.lining.width")
    copy = page_of(session).copy
    assert copy is not None
    assert copy.words == worded("same as", "face cloth")
    assert session.copy() is None
    lining = session.project.cloth.lining
    assert (lining.width, lining.kind, lining.weight, lining.price, lining.owned) == (
        *(getattr(session.project.cloth.face, leaf) for leaf in face),
        {},
    )
    assert page_of(session).copy is None
    give(session, "cloth.lining.kind", "linen")
    assert session.project.cloth.face.kind == "lawn"
    for _ in range(2):
        assert session.undo()
    assert session.project.cloth.lining.width is None
