"""Cloth: how it lies on the roll, the fullness that is offered for it, prices that belong to their kind and unit, and
damage that has two ends."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import get_args

import pytest
from msgspec.structs import replace

from tests.interview.interview_texts import worded
from tests.interview.maker import MEASURED, asked, begun, edit, finished, give, refused, resumed
from tests.prompts.talks import told_of
from tests.trade.sample_jobs import inches, small, with_face
from wizard.interview.session import Session
from wizard.project.encode import encode
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.compare_ways import ways_of
from wizard.trade.fullness import offered
from wizard.trade.fullness_offers import offer_words
from wizard.trade.job_fields import Cloth, Fullness, Job, Owned, Weight
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan

# Cloth laid along the roll: a way of cutting is one answer, so that nothing is left that holds across it only; an inner
# layer refuses that with its reason, and a file that has it says so.
LAY, WAY, JOINS, WAYS = "cloth.face.lay", "cloth.face.way", "fullness.joins", "ways.face"
LINED = {
    **{"cloth.lining.use": True, "cloth.lining.width": "54 in", "cloth.lining.kind": "plain cotton"},
    **{"cloth.lining.weight": "light", "cloth.lining.wash": "not washed", "cloth.lining.lay": "along"},
}


def with_file(folder: Path, keys: dict[str, object]) -> Session:
    """A job with every question answered, and these in its file, opened again."""
    project = put_many(finished(folder).project, keys)
    (folder / "job.toml").write_bytes(encode(project))
    return resumed(folder)


def found(plan: Plan) -> dict[str, tuple[str, str]]:
    """Key and level of what keeps the cloth from being laid out."""
    return {each.id: (each.key, each.level) for each in plan.findings if each.id.startswith("refused:")}


def test_every_way_of_the_list_can_be_taken_from_every_other_and_fits(tmp_path: Path) -> None:
    session = finished(tmp_path)
    ways = [each.id for each in ways_of(session.plan, session.plan.layers[0])]
    assert {"least cloth", "whole widths", "along"} <= {*ways}
    for way in (each for first in ways for second in ways for each in (first, second)):
        give(session, WAYS, way)
        assert (session.text(WAYS), found(session.plan)) == (way, {})
    give(session, WAYS, "whole widths")
    along = next(each for each in ways_of(session.plan, session.plan.layers[0]) if each.id == "along")
    assert dict(along.answers) == {LAY: "along", JOINS: "part widths"}
    assert session.choose(dict(along.answers)) is None
    assert found(plan_of(session.project)) == {}


@pytest.mark.parametrize(
    ("way", "why"),
    [("slit", "along, not strips"), ("stacked", "along, not strips"), ("fewest joins", "along, no better")],
)
def test_a_way_that_holds_across_the_roll_only_is_refused_with_its_reason(tmp_path: Path, way: str, why: str) -> None:
    session, said = with_file(tmp_path, LINED), worded(why, way)
    before = session.plan
    assert refused(session, "cloth.lining.way", way).sentence == said
    assert session.plan is before
    heard = told_of(tmp_path / "job.toml", ".go cloth.lining.way", way).replace("\n", " ")
    assert f"Not accepted: {said}" in heard


def test_cloth_is_not_laid_along_the_roll_while_another_choice_needs_it_across(tmp_path: Path) -> None:
    session = with_file(tmp_path, {**LINED, "cloth.lining.lay": "across", "cloth.lining.way": "slit"})
    assert refused(session, "cloth.lining.lay", "along").sentence == worded("across for strips")
    give(session, "cloth.lining.way", "least cloth")
    give(session, "cloth.lining.lay", "along")
    # The face may be joined of whole widths all the same.
    give(session, WAYS, "whole widths")
    assert found(session.plan) == {}


@pytest.mark.parametrize(
    ("key", "value"), [(WAY, "slit"), (WAY, "stacked"), (WAY, "fewest joins"), (JOINS, "half widths")]
)
def test_a_file_that_holds_one_says_so_and_the_cloth_waits(tmp_path: Path, key: str, value: str) -> None:
    session = with_file(tmp_path, {LAY: "along", key: value})
    plan = session.plan
    assert found(plan) == {"refused:face": (key, "stop")}
    assert not plan.complete
    assert plan.layers[0].cutting is None
    waiting = [plan.figures[f"layer.face.{each}"].value for each in ("used", "roll", "buy", "cost")]
    assert waiting == [None] * 4
    give(session, key, "least cloth")
    assert found(session.plan) == {}
    assert session.plan.figures["layer.face.buy"].value is not None


# The fullness that is offered, and what is said of the cloth in hand, agree with the guide the findings go by.
WEIGHTS: tuple[Weight, ...] = get_args(Weight)
OWNED = {
    **MEASURED,
    **{"cloth.face.weight": "light", "cloth.face.kind": "lawn", "cloth.face.owned": "14 yd"},
    **{"face.layers": "interlining", "cloth.interlining.width": "45", "cloth.interlining.kind": "flannel"},
    "cloth.interlining.weight": "medium",
}
"""Light cloth in hand, more than enough, over a thick interlining."""


def layered(face: Weight, inner: Weight | None) -> Job:
    """A small job of these weights."""
    job = with_face(small(), weight=face)
    layer = Cloth(use=inner is not None, width=inches(45), weight=inner)
    return replace(job, cloth=replace(job.cloth, interlining=layer))


@pytest.mark.parametrize(("face", "inner"), [*product(WEIGHTS, (None, *WEIGHTS))])
def test_what_is_offered_is_never_told_off(face: Weight, inner: Weight | None) -> None:
    job = layered(face, inner)
    for each in (job, with_face(job, owned={"bolt": Owned(length=inches(200))})):
        plan = make_plan(replace(each, fullness=Fullness(want=offered(each))))
        assert not [finding for finding in plan.findings if finding.id.startswith("fullness")], (face, inner)


def test_light_cloth_over_a_thick_layer_is_offered_two(tmp_path: Path) -> None:
    session, want = begun(tmp_path), "fullness.want"
    give(session, "cloth.face.weight", "light")
    assert asked(session, want).usual == "2.5"
    assert worded("light") in asked(session, want).how
    give(session, "face.layers", "interlining")
    give(session, "cloth.interlining.weight", "medium")
    assert asked(session, want).usual == "2"
    assert worded("light over more") in asked(session, want).how


def test_cloth_in_hand_is_offered_the_guides_upper_end_and_what_all_of_it_would_give_is_said(tmp_path: Path) -> None:
    assert offer_words(finished(tmp_path).plan) == ""
    session = finished(tmp_path, OWNED)
    assert asked(session, "fullness.want").usual == "2"
    in_hand = session.plan.fullness_in_hand
    assert in_hand is not None
    assert in_hand > 4
    thin = replace(session.plan.job.cloth, interlining=Cloth(use=False))
    assert offered(replace(session.plan.job, cloth=thin)) == Fraction(3)
    words = offer_words(session.plan)
    assert words.startswith(worded("left over"))
    assert worded("without buying", "≈ 9.58") in words
    assert words.endswith(worded("hard to gather"))
    # A file that says all the cloth keeps its meaning.
    give(session, "fullness.aim", "all the cloth I own")
    assert session.plan.figures["fullness"].value == session.plan.fullness_in_hand


# A price belongs to its kind of fixing and to its unit: another kind or unit is asked for its own.
STAPLES: dict[str, object] = {
    **{"currency": "£", "cloth.face.price": "14.00", "cloth.fixing.kind": "staples", "cloth.fixing.pack": 1000},
    **{"cloth.fixing.price": "6.00", "cloth.fixing.legs": ["8 mm"]},
}


def priced(folder: Path, **more: object) -> Session:
    """A job that has these."""
    return begun(folder, put_many(Project(), {**STAPLES, **more}))


def test_another_kind_of_fixing_takes_out_its_price_and_how_it_is_sold_until_undo(tmp_path: Path) -> None:
    session, kind = priced(tmp_path), "cloth.fixing.kind"
    session.go(kind)
    assert "price" not in give(session, kind, "staples").echo
    assert session.project.cloth.fixing.price is not None
    assert worded("price goes", "£6.00") in str(session.echo(kind, "tacks"))
    said = give(session, kind, "hook-and-loop").echo
    assert said.endswith(f"; {worded('price goes', '£6.00')} {worded('taken out')}")
    fixing = resumed(tmp_path).project.cloth.fixing
    assert (fixing.kind, fixing.price, fixing.pack) == ("hook-and-loop", None, None)
    assert [each.text for each in fixing.legs if each] == ["8 mm"]
    session.next()
    assert session.at == "cloth.fixing.price"
    assert session.undo()
    assert session.project.cloth.fixing == put_many(Project(), STAPLES).cloth.fixing
    assert resumed(tmp_path).project.cloth.fixing.kind == "staples"


@pytest.mark.parametrize("table", ["face", "tape", "fixing"])
def test_another_unit_takes_out_the_price_for_the_old_one(tmp_path: Path, table: str) -> None:
    kind = {"cloth.fixing.kind": "hook-and-loop", "cloth.fixing.pack": None}
    session = priced(tmp_path, **kind, **{f"cloth.{table}.price": "6.00", f"cloth.{table}.sold_by": "yd"})
    # A file by hand with both is taken as it stands.
    for unit, kept in (("", True), ("yd", True), ("m", False)):
        if unit:
            give(session, f"cloth.{table}.sold_by", unit)
        assert (getattr(session.plan.job.cloth, table).price is not None) == kept
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
def test_a_price_without_a_kind_goes_with_how_it_is_sold(
    tmp_path: Path, sold: dict[str, object], kind: str, kept: bool
) -> None:
    session = priced(tmp_path, **{"cloth.fixing.kind": None, **sold})
    give(session, "cloth.fixing.kind", kind)
    assert (session.project.cloth.fixing.price is not None) == kept


# Damage of a length in hand has two ends: given one, the other is asked for; without the first there is none.
FROM, TO = "cloth.face.owned.length.damage_from", "cloth.face.owned.length.damage_to"


def waited_for(session: Session) -> set[str]:
    return {FROM, TO} & session.plan.waits_for


def test_once_the_damage_begins_its_end_is_needed_and_without_a_beginning_there_is_none(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "cloth.face.owned", "3 yd")
    assert session.question(TO) is None
    give(session, FROM, "10 in")
    assert waited_for(session) == {TO}
    refused(session, TO, "")
    give(session, TO, "12 in")
    assert waited_for(session) == set()
    give(session, FROM, "")
    assert (session.text(FROM), session.text(TO), waited_for(session)) == ("", "", set())
    session.undo()
    assert (session.text(FROM), session.text(TO)) == ("10 in", "12 in")
    # An end alone in the file asks for the beginning, or is taken out.
    edit(tmp_path / "job.toml", ('damage_from = "10 in"\n', ""))
    session = resumed(tmp_path)
    assert waited_for(session) == {FROM}
    assert asked(session, FROM).how.endswith(worded("no damage"))
    give(session, TO, "")
    assert waited_for(session) == set()
    assert session.question(TO) is None
