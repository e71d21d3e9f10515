"""The rows to choose from: every figure in them is what the plan comes to once the row is taken."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from tests.outside.jobs import cloth, plain_job, straight
from tests.trade.sample_jobs import inches
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.compare_ways import offers_of_ways
from wizard.trade.formatting import number
from wizard.trade.fullness import ALL_OWNED, offered
from wizard.trade.fullness_offers import bought_words, offers_of_fullness
from wizard.trade.job_fields import Job, Owned
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Offer, Plan

SIDES = {"left": ("60", "12"), "foot": ("40", "9")}


def job(fullness: str = "2", **more: Any) -> Job:
    """A small job on cloth of which 54 in can be used."""
    sections = {side: straight(side, *figures) for side, figures in SIDES.items()}  # type: ignore[arg-type]
    return plain_job(sections, fullness=fullness, cloth=cloth("54", **more))


def taken(plan: Plan, row: Offer) -> Plan:
    """The plan once a row was taken."""
    fields = {name: getattr(plan.job, name) for name in plan.job.__struct_fields__}
    return plan_of(put_many(Project(**fields), dict(row.entries)))


OWNING: dict[str, Any] = {"owned": {"chest": Owned(length=inches(60))}}


@pytest.mark.parametrize("given", [job(), job("2.5", **OWNING)])
def test_each_fullness_takes_what_its_row_says(given: Job) -> None:
    plan = make_plan(given)
    *_, offers = offers_of_fullness(plan)
    assert offers.whole
    assert offers.heads == ("fullness", "to buy", "joins", "cost")
    for row in offers.rows:
        face = taken(plan, row).layers[0]
        assert face.cutting is not None
        buy, joins = face.cutting.best.buy, face.cutting.best.joins
        assert row.cells[1:3] == (bought_words(plan, face, buy), str(joins)), row.name
    best = [row for row in offers.rows if row.recommended]
    assert [row.entries["fullness.want"] for row in best] == [number(offered(given))]
    assert offers.usual is next(row for row in offers.rows if row.in_use)


def test_all_the_owned_cloth_is_a_row_and_a_number_there_unsets_it() -> None:
    *_, offers = offers_of_fullness(make_plan(job(**OWNING)))
    every = [row for row in offers.rows if row.entries == {"fullness.aim": ALL_OWNED}]
    assert [(row.name, row.cells[1]) for row in every] == [("all the cloth you have", "nothing")]
    assert all(row.entries["fullness.aim"] == "a number" for row in offers.rows if row not in every)
    assert offers.free is not None
    assert offers.free.entries == {"fullness.aim": "a number", "fullness.want": ""}


def test_taking_what_is_in_use_changes_nothing() -> None:
    *_, offers = offers_of_fullness(make_plan(job(**OWNING)))
    every = next(row for row in offers.rows if row.name == "all the cloth you have")
    chosen = every.cells[0].removeprefix("≈ ")
    for plan in (make_plan(job(chosen, **OWNING)), taken(make_plan(job(**OWNING)), every)):
        *_, offers = offers_of_fullness(plan)
        assert offers.usual is not None
        assert taken(plan, offers.usual).job.fullness == plan.job.fullness


def test_rows_come_one_by_one_and_none_is_lost_or_moved_past_another() -> None:
    names = [[row.name for row in offers.rows] for offers in offers_of_fullness(make_plan(job()))]
    for before, after in pairwise(names):
        assert [name for name in after if name in before] == before
        assert len(after) - len(before) in (0, 1)


def test_without_a_cut_length_it_says_what_it_waits_for() -> None:
    plan = make_plan(Job(standard="inches"))
    for tables in (offers_of_fullness(plan), offers_of_ways(plan, plan.layers[0])):
        (offers,) = tables
        assert offers.rows == ()
        assert offers.waits.startswith("This is worked out once ")


def test_each_way_takes_what_its_row_says_and_one_is_recommended_at_the_end() -> None:
    plan = make_plan(job("1.9", price=None))
    *before, offers = offers_of_ways(plan, plan.layers[0])
    assert not [row for each in before for row in each.rows if row.recommended]
    assert len([row for row in offers.rows if row.recommended]) == 1
    assert offers.reason
    for row in offers.rows:
        face = taken(plan, row).layers[0]
        assert face.cutting is not None
        buy, joins = face.cutting.best.buy, face.cutting.best.joins
        assert row.cells[1:3] == (bought_words(plan, face, buy), str(joins)), row.name


def test_the_usual_way_is_the_one_in_use() -> None:
    plan = make_plan(job(lay="across"))
    *_, offers = offers_of_ways(plan, plan.layers[0])
    assert offers.usual is not None
    assert offers.usual.in_use


def test_each_way_is_compared_with_the_one_in_use_by_its_cloth_and_its_joins() -> None:
    # Bought by the hundred inches, every way buys the same; the joins of each are in the table.
    sides = {"left": straight("left", "158", "10 1/2"), "foot": straight("foot", "170", "12 1/2")}
    plan = make_plan(plain_job(sides, fullness="1", cloth=cloth("54", step="100"), least="2"))
    rows = {row.cells[0]: row for row in list(offers_of_ways(plan, plan.layers[0]))[-1].rows}
    told = {name: (row.cells[2], row.said.partition("Compared with ")[2]) for name, row in rows.items()}
    usual = "across, part widths: as much cloth"
    assert told == {
        "across, part widths": ("5", ""),
        "slit lengthwise": ("11", f"{usual}, 6 more joins."),
        "across, half widths": ("5", f"{usual}, as many joins."),
        "across, whole widths": ("5", f"{usual}, as many joins."),
        "along the roll": ("3", f"{usual}, 2 fewer joins."),
        "along, fewest joins": ("2", f"{usual}, 3 fewer joins."),
    }
