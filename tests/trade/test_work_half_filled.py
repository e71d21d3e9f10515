"""The work and the buying list are total: a hole or an odd answer leaves steps out and raises nothing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace

from tests.trade.worked_bed import BED, INNER, SIDE, bed, inches, ledger_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Fixing, Job, Obstacle, Owned
from wizard.trade.purchases import purchases_of
from wizard.trade.steps import work_of

THINGS = {"leg": Obstacle(kind="centre leg", at=inches("20"), width=inches("3"), do="no fixing")}
SPLIT = {"leg": replace(THINGS["leg"], do="split here", overlap=inches("4"))}
UNEVEN = (inches("11"), inches("12"), inches("13"))
FULL = bed(
    section={
        "left": replace(SIDE, in_the_way=THINGS, hem_line="follow the floor", drop=UNEVEN),
        "right": replace(SIDE, in_the_way=SPLIT),
    },
    interlining=replace(INNER, wash="washed first", owned={"shelf": Owned(length=inches("90"), washed=True)}),
    fixing=Fixing(kind="staples", pack=20),
)


def holes(value: Any) -> Iterator[Any]:
    """Every copy of a job with one leaf taken out."""
    if isinstance(value, Struct):
        for name in value.__struct_fields__:
            inner = getattr(value, name)
            if inner is not None and not isinstance(inner, Length):
                yield from (replace(value, **{name: other}) for other in holes(inner))
            if inner is not None and not isinstance(inner, Struct) and not isinstance(inner, dict):
                yield replace(value, **{name: () if isinstance(inner, tuple) else None})
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from ({**value, key: other} for other in holes(inner))
            yield {other: kept for other, kept in value.items() if other != key}


def plan_again(job: Job) -> tuple[Any, Any]:
    ledger, plan = ledger_of(job)
    return work_of(ledger, plan.parts, plan.layers), purchases_of(ledger, plan.parts, plan.layers)


def test_any_one_hole_leaves_a_plan_that_says_no_more_than_the_whole_one() -> None:
    whole = {each.id.split("/")[0] for each in plan_again(FULL)[0]}
    jobs = list(holes(FULL))
    assert len(jobs) > 40
    for job in jobs:
        work, purchases = plan_again(job)
        assert {each.id.split("/")[0] for each in work} <= whole | {"gather:right", "hang:right"}
        assert all(each.amount for each in purchases)


@pytest.mark.parametrize("run", ["1/64", "3", "241"])
def test_an_odd_run_raises_nothing(run: str) -> None:
    job = bed(section={"left": replace(SIDE, run=(inches(run), inches(run)))})
    assert [each.id for each in plan_again(job)[0]][-1] == "care"


@pytest.mark.parametrize("ruler", [Length(1000), Length.of(1, "mm")])
def test_an_odd_ruler_raises_nothing(ruler: Length) -> None:
    assert [each.id for each in plan_again(replace(BED, ruler=ruler))[0]][-1] == "care"


@pytest.mark.parametrize(
    "thing",
    [
        Obstacle(at=ZERO, width=ZERO, do="no fixing"),
        Obstacle(at=inches("500"), width=inches("3"), do="no fixing"),
        Obstacle(at=inches("20"), width=inches("500"), do="no fixing"),
        Obstacle(at=inches("500"), width=inches("3"), do="split here", overlap=inches("2")),
        Obstacle(do="no fixing"),
    ],
)
def test_an_odd_thing_in_the_way_raises_nothing(thing: Obstacle) -> None:
    job = bed(section={"left": replace(SIDE, in_the_way={"thing": thing})})
    assert [each.id for each in plan_again(job)[0]][-1] == "care"
