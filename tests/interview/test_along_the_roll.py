"""Cloth laid along the roll: a way of cutting is one answer, so that nothing is left that holds across it only; an
inner layer refuses that with its reason, and a file that has it says so."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import MEASURED, finished, resumed
from tests.prompts.talks import told_of
from wizard.interview.outcome import Accepted, Refused
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.compare_ways import ways_of
from wizard.trade.plan_records import Plan

LAY, WAY, JOINS, WAYS = "cloth.face.lay", "cloth.face.way", "fullness.joins", "ways.face"
LINED = {
    "cloth.lining.use": True,
    "cloth.lining.width": "54 in",
    "cloth.lining.kind": "plain cotton",
    "cloth.lining.weight": "light",
    "cloth.lining.wash": "not washed",
}


@cache
def answered() -> Project:
    """A job with every question answered."""
    with TemporaryDirectory() as folder:
        return finished(Path(folder), MEASURED).project


def across(folder: Path) -> Session:
    """That job as a file that was opened again."""
    (folder / "job.toml").write_bytes(encode(answered()))
    return resumed(folder)


def along(folder: Path, **more: object) -> Session:
    """A job whose only cloth is laid along the roll, and more of its file."""
    keys = {"way": WAY, "joins": JOINS}
    project = put_many(answered(), {LAY: "along", **{keys[name]: value for name, value in more.items()}})
    (folder / "job.toml").write_bytes(encode(project))
    return resumed(folder)


def found(plan: Plan) -> dict[str, tuple[str, str]]:
    """Key and level of what keeps the cloth from being laid out."""
    return {each.id: (each.key, each.level) for each in plan.findings if each.id.startswith("refused:")}


def lined(folder: Path, **more: object) -> Session:
    """That job with a lining laid along the roll."""
    file = {**LINED, "cloth.lining.lay": "along", **{f"cloth.lining.{leaf}": value for leaf, value in more.items()}}
    (folder / "job.toml").write_bytes(encode(put_many(answered(), file)))
    return resumed(folder)


def test_every_way_of_the_list_can_be_taken_from_every_other_and_fits(tmp_path: Path) -> None:
    session = across(tmp_path)
    ways = [each.id for each in ways_of(session.plan, session.plan.layers[0])]
    assert {"least cloth", "whole widths", "along"} <= {*ways}
    for way in (each for first in ways for second in ways for each in (first, second)):
        assert isinstance(session.answer(WAYS, way), Accepted)
        assert (session.text(WAYS), found(session.plan)) == (way, {})


@pytest.mark.parametrize(
    ("way", "why"),
    [("slit", "along, not strips"), ("stacked", "along, not strips"), ("fewest joins", "along, no better")],
)
def test_a_way_that_holds_across_the_roll_only_is_refused_with_its_reason(tmp_path: Path, way: str, why: str) -> None:
    session, said = lined(tmp_path), worded(why, way)
    before = session.plan
    answer = session.answer("cloth.lining.way", way)
    assert isinstance(answer, Refused)
    assert answer.sentence == said
    assert session.plan is before
    heard = told_of(tmp_path / "job.toml", ".go cloth.lining.way", way).replace("\n", " ")
    assert f"Not taken: {said}" in heard


def test_cloth_is_not_laid_along_the_roll_while_another_choice_needs_it_across(tmp_path: Path) -> None:
    session = lined(tmp_path, lay="across", way="slit")
    answer = session.answer("cloth.lining.lay", "along")
    assert isinstance(answer, Refused)
    assert answer.sentence == worded("across for strips")
    assert isinstance(session.answer("cloth.lining.way", "least cloth"), Accepted)
    assert isinstance(session.answer("cloth.lining.lay", "along"), Accepted)


@pytest.mark.parametrize(
    ("leaf", "value", "key"),
    [("way", "slit", WAY), ("way", "stacked", WAY), ("way", "fewest joins", WAY), ("joins", "half widths", JOINS)],
)
def test_a_file_that_holds_one_opens_with_an_error_at_its_key_and_the_cloth_waits(
    tmp_path: Path, leaf: str, value: str, key: str
) -> None:
    session = along(tmp_path, **{leaf: value})
    plan = session.plan
    assert found(plan) == {"refused:face": (key, "stop")}
    assert not plan.complete
    assert plan.layers[0].cutting is None
    waiting = [plan.figures[f"layer.face.{each}"].value for each in ("used", "roll", "buy", "cost")]
    assert waiting == [None] * 4
    assert isinstance(session.answer(key, "least cloth"), Accepted)
    assert found(session.plan) == {}
    assert session.plan.figures["layer.face.buy"].value is not None


def test_widths_may_be_joined_whole_while_another_layer_lies_across(tmp_path: Path) -> None:
    session = lined(tmp_path)
    assert isinstance(session.answer(WAYS, "whole widths"), Accepted)
    assert found(session.plan) == {}


def test_following_the_way_along_the_roll_takes_the_whole_widths_back(tmp_path: Path) -> None:
    session = across(tmp_path)
    assert isinstance(session.answer(WAYS, "whole widths"), Accepted)
    way = next(each for each in ways_of(session.plan, session.plan.layers[0]) if each.id == "along")
    assert dict(way.answers) == {LAY: "along", JOINS: "part widths"}
    assert session.choose(dict(way.answers)) is None
    assert found(plan_of(session.project)) == {}
