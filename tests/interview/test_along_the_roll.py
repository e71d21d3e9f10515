"""Cloth laid along the roll: what holds across it only is refused with its reason, and a file that has it says so."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.interview.maker import MEASURED, finished, resumed
from tests.prompts.talks import told_of
from tests.screens.pilots import job, opened, sees, typed
from wizard.interview.outcome import Accepted, Refused
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.compare_ways import ways_of
from wizard.trade.plan_records import Plan

LAY, WAY, JOINS = "cloth.face.lay", "cloth.face.way", "fullness.joins"
NO_JOINS = "The cloth is laid along the roll, where no widths are joined. Lay it across the roll first."
SLIT = "The face cloth is laid along the roll, and slit pieces are cut across it. Lay it across first."
FEWEST = "The face cloth is laid along the roll, and there the least cloth has the fewest joins already."


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
    keys = {"way": WAY, "joins": JOINS, "use": "cloth.lining.use", "lining": "cloth.lining.lay"}
    project = put_many(answered(), {LAY: "along", **{keys[name]: value for name, value in more.items()}})
    (folder / "job.toml").write_bytes(encode(project))
    return resumed(folder)


def found(plan: Plan) -> dict[str, tuple[str, str]]:
    """Key and level of what keeps the cloth from being laid out."""
    return {each.id: (each.key, each.level) for each in plan.findings if each.id.startswith("refused:")}


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        (JOINS, "whole widths", NO_JOINS),
        (JOINS, "2", NO_JOINS),
        (WAY, "slit", SLIT),
        (WAY, "stacked", SLIT.replace("slit", "stacked")),
        (WAY, "fewest joins", FEWEST),
    ],
)
def test_a_choice_that_holds_across_the_roll_only_is_refused_with_its_reason(
    tmp_path: Path, key: str, typed: str, said: str
) -> None:
    session = along(tmp_path)
    before = session.plan
    answer = session.answer(key, typed)
    assert isinstance(answer, Refused)
    assert answer.sentence == said
    assert session.plan is before


def test_cloth_is_not_laid_along_the_roll_while_another_choice_needs_it_across(tmp_path: Path) -> None:
    session = across(tmp_path)
    assert isinstance(session.answer(JOINS, "whole widths"), Accepted)
    answer = session.answer(LAY, "along")
    assert isinstance(answer, Refused)
    assert answer.sentence == (
        "Widths are joined as whole widths, and along the roll no widths are joined. Choose part widths first."
    )
    assert isinstance(session.answer(JOINS, "part widths"), Accepted)
    assert isinstance(session.answer(LAY, "along"), Accepted)


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
    fits = "part widths" if key == JOINS else "least cloth"
    assert isinstance(session.answer(key, fits), Accepted)
    assert found(session.plan) == {}
    assert session.plan.figures["layer.face.buy"].value is not None


def test_widths_may_be_joined_whole_while_another_layer_lies_across(tmp_path: Path) -> None:
    session = along(tmp_path, use=True)
    for key, text in (("width", "54"), ("kind", "plain cotton"), ("weight", "light")):
        assert isinstance(session.answer(f"cloth.lining.{key}", text), Accepted)
    assert isinstance(session.answer(JOINS, "whole widths"), Accepted)
    assert found(session.plan) == {}


def test_following_the_way_along_the_roll_takes_the_whole_widths_back(tmp_path: Path) -> None:
    session = across(tmp_path)
    assert isinstance(session.answer(JOINS, "whole widths"), Accepted)
    way = next(each for each in ways_of(session.plan, session.plan.layers[0]) if each.id == "along")
    assert dict(way.answers) == {LAY: "along", JOINS: "part widths"}
    assert session.choose(dict(way.answers)) is None
    assert found(plan_of(session.project)) == {}


def test_plain_lines_refuse_it_with_the_reason_too(tmp_path: Path) -> None:
    along(tmp_path)
    heard = told_of(tmp_path / "job.toml", f".go {JOINS}", "whole widths").replace("\n", " ")
    assert f"Not taken: {NO_JOINS}" in heard


async def test_a_line_of_the_list_is_refused_with_the_reason_on_the_full_screen(tmp_path: Path) -> None:
    along(tmp_path)
    async with opened(tmp_path / "job.toml") as pilot:
        screen = job(pilot)
        screen.session.go(JOINS)
        screen.show()
        await pilot.pause()
        await typed(pilot, "3")
        await pilot.press("enter")
        await sees(pilot, NO_JOINS.partition(",")[0])
        assert screen.session.project.fullness.joins != "whole widths"
