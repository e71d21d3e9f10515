"""A price belongs to its kind of fixing and to its unit: another kind or unit is asked for its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.interview_texts import worded
from tests.interview.maker import begun, give, resumed
from wizard.interview.session import Session
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many

STAPLES = {
    "currency": "£",
    "cloth.face.price": "14.00",
    "cloth.fixing.kind": "staples",
    "cloth.fixing.pack": 1000,
    "cloth.fixing.price": "6.00",
    "cloth.fixing.legs": ["8 mm"],
}


def job(folder: Path, **more: object) -> Session:
    """A job that has these."""
    return begun(folder, put_many(Project(), {**STAPLES, **more}))


def test_another_kind_of_fixing_takes_out_the_price_and_how_it_is_sold_and_undo_brings_them_back(
    tmp_path: Path,
) -> None:
    session = job(tmp_path)
    session.go("cloth.fixing.kind")
    said = give(session, "cloth.fixing.kind", "hook-and-loop").echo.text
    assert said.endswith(f"; {worded('price goes', '£6.00')} {worded('taken out')}")
    fixing = resumed(tmp_path).project.cloth.fixing
    assert (fixing.kind, fixing.price, fixing.pack) == ("hook-and-loop", None, None)
    assert [each.text for each in fixing.legs if each] == ["8 mm"]
    session.next()
    assert session.at == "cloth.fixing.price"
    assert session.undo()
    assert session.project.cloth.fixing == put_many(Project(), STAPLES).cloth.fixing
    assert resumed(tmp_path).project.cloth.fixing.kind == "staples"


def test_the_same_kind_again_takes_out_nothing(tmp_path: Path) -> None:
    session = job(tmp_path)
    assert "price" not in give(session, "cloth.fixing.kind", "staples").echo.text
    assert session.project.cloth.fixing.price is not None


def test_what_is_typed_says_so_before_it_is_given(tmp_path: Path) -> None:
    echo = job(tmp_path).echo("cloth.fixing.kind", "tacks")
    assert worded("price goes", "£6.00") in str(echo)


@pytest.mark.parametrize("table", ["face", "tape", "fixing"])
def test_another_unit_takes_out_the_price_for_the_old_one(tmp_path: Path, table: str) -> None:
    kind = {"cloth.fixing.kind": "hook-and-loop", "cloth.fixing.pack": None}
    session = job(tmp_path, **kind, **{f"cloth.{table}.price": "6.00", f"cloth.{table}.sold_by": "yd"})
    give(session, f"cloth.{table}.sold_by", "yd")
    assert getattr(session.project.cloth, table).price is not None
    give(session, f"cloth.{table}.sold_by", "m")
    assert getattr(session.project.cloth, table).price is None
    assert session.undo()
    assert getattr(session.project.cloth, table).price is not None


@pytest.mark.parametrize(
    ("sold", "kind", "kept"),
    [
        ({"cloth.fixing.pack": 1000}, "staples", True),
        ({"cloth.fixing.pack": 1000}, "hook-and-loop", False),
        ({"cloth.fixing.pack": None, "cloth.fixing.sold_by": "m"}, "staples", False),
        ({"cloth.fixing.pack": None, "cloth.fixing.sold_by": "m"}, "hook-and-loop", True),
    ],
)
def test_the_price_of_a_template_without_a_kind_goes_with_how_it_is_sold(
    tmp_path: Path, sold: dict[str, object], kind: str, kept: bool
) -> None:
    session = job(tmp_path, **{"cloth.fixing.kind": None, **sold})
    give(session, "cloth.fixing.kind", kind)
    assert (session.project.cloth.fixing.price is not None) == kept


def test_a_file_by_hand_with_both_is_taken_as_it_stands() -> None:
    project = put_many(Project(), {**STAPLES, "cloth.fixing.kind": "hook-and-loop", "cloth.fixing.sold_by": "m"})
    assert plan_of(project).job.cloth.fixing.price is not None
