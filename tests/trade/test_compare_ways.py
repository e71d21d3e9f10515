"""Ways of cutting and rows to choose from: what is taken is followed everywhere, and each has its price."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import cloth, inches, known, plain_job, planned, straight
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, put_many
from wizard.render.choosing_sheet import ways_of_cutting
from wizard.render.document import Table
from wizard.trade.compare_ways import Comparison, Way, compare, offers_of_ways, reason_for, ways_of
from wizard.trade.cutting import Repeat, Stretch
from wizard.trade.formatting import SIXTEENTHS, number
from wizard.trade.fullness import ALL_OWNED, offered
from wizard.trade.fullness_offers import offers_of_fullness, takes_cells
from wizard.trade.job_fields import Cloth, CutWay, Job, Joins, Owned
from wizard.trade.lengths import Length, total
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer, Offer, Offers, Plan
from wizard.trade.steps.pattern_matching import matched_lines, ruled_in_print, widths_of


def two(
    first: tuple[int, int], second: tuple[int, int], least: str = "2", joins: Joins = "part widths", **more: Any
) -> Job:
    """Two sections of given cut width and cut length, on cloth of which 54 in can be used."""
    sections = {
        "left": straight("left", first[0] - 2, f"{first[1] - 2} 1/2"),
        "foot": straight("foot", second[0] - 2, f"{second[1] - 2} 1/2"),
    }
    values: Any = {"price": Decimal("18.00")} | more
    return plain_job(sections, fullness="1", cloth=cloth("54", **values), least=least, joins=joins)


SLIT = two((53, 18), (79, 12))
STACKED = two((30, 16), (40, 8))
"""The planted cases in which slitting saves 6 in of 42, and stacking 8 in of 24."""
PATTERN: dict[str, Any] = {"repeat": inches(27), "repeat_kind": "straight", "match": True}


def way(job: Job, chosen: CutWay) -> Job:
    return replace(job, cloth=replace(job.cloth, face=replace(job.cloth.face, way=chosen)))


def compared(job: Job) -> tuple[Plan, Layer, Comparison]:
    plan, face = planned(job)
    return plan, face, compare(plan, face)


def by_id(found: Comparison) -> dict[str, Way]:
    return {each.id: each for each in found.ways}


@pytest.mark.parametrize(("job", "name", "across", "used"), [(SLIT, "slit", 42, 36), (STACKED, "stacked", 24, 16)])
def test_the_way_that_is_chosen_is_followed_by_figures_work_and_marks(
    job: Job, name: CutWay, across: int, used: int
) -> None:
    plan, face, found = compared(job)
    assert by_id(found)["least cloth"].layout.used == inches(across)
    assert by_id(found)[name].layout.used == inches(used)
    assert dict(by_id(found)[name].answers) == {"cloth.face.way": name}
    assert [each.id for each in found.ways if each.followed] == ["least cloth"]
    followed, other = planned(way(job, name))
    assert (known(other.cutting).best.way, other.used.value, other.least) == (name, inches(used), face.least)
    assert known(other.buy.value) < known(face.buy.value)
    assert [each.id for each in compare(followed, other).ways if each.followed] == [name]
    cut, before = (next(step for step in each.work if step.id == "cut:face") for each in (followed, plan))
    assert cut.listed != before.listed
    assert any("from the left edge" in line for line in cut.listed)
    assert all(not each.id.startswith("way-gone") for each in followed.findings)


def test_a_way_in_use_is_told_on_the_cutting_step_and_the_sheet_for_choosing() -> None:
    plan, face = planned(way(SLIT, "slit"))
    assert max(each.across for each in known(face.cutting).best.pieces) == inches("27")
    assert next(step for step in plan.work if step.id == "cut:face").lines[:2] == (
        "First slit the roll to buy at 27 in from its left edge, up to the largest “to”.",
        "Cut across at each “to”, in the order of the cut list.",
    )
    ways = next(each for each in ways_of_cutting(plan) if isinstance(each, Table)).rows
    assert [(name, buy, marked) for name, buy, *_, marked in ways] == [
        ("across, part widths", "1 1/4 yd", ""),
        ("slit lengthwise", "1 yd", "in use, recommended"),
        ("across, half widths", "1 1/4 yd", ""),
        ("across, whole widths", "1 1/4 yd", ""),
        ("along the roll", "1 1/4 yd", ""),
    ]


def test_a_way_that_is_not_to_be_had_any_more_is_told_and_the_least_cloth_is_cut() -> None:
    plan, face = planned(way(two((53, 18), (79, 18)), "slit"))
    assert known(face.cutting).best == face.least
    (finding,) = [each for each in plan.findings if each.id == "way-gone:face"]
    assert_says(finding, "way-gone")
    plan, face = planned(replace(SLIT, cloth=replace(SLIT.cloth, face=Cloth())))
    assert compare(plan, face) == Comparison((), None, "", ()), "a layer that is not laid out has no ways"


def test_the_advice_is_what_buys_least_and_says_why() -> None:
    plan, face, found = compared(SLIT)
    assert found.advised is not None
    assert found.advised.layout.buy == min(each.layout.buy for each in found.ways)
    assert found.reason.startswith("It buys 1/8 yd ($2.25) less") or "less than the way in use" in found.reason
    best = replace(found.ways[0], followed=False)

    def reason(**of_the_other: Any) -> str:
        other = replace(best, followed=True, layout=replace(best.layout, **of_the_other))
        return reason_for(plan, face, best, (other, best))

    more, joins = best.layout.buy + inches(18), best.layout.joins
    assert reason(buy=more) == "It buys 1/2 yd (9.00) less than the way in use, with as many joins."
    assert reason(buy=more, joins=joins + 1) == "It buys 1/2 yd (9.00) less than the way in use, with 1 fewer join."
    assert reason(joins=joins + 2) == "It buys the same length as the way in use, with 2 fewer joins."
    used = best.layout.used + inches("1 1/2")
    assert reason(used=used) == "It buys the same with as many joins, and uses 1 1/2 in less of it."


def test_of_ways_that_buy_the_same_with_as_many_joins_the_one_that_looks_even_is_advised() -> None:
    """Two widths make the long section: part widths leave a broad and a narrow piece, half widths two alike."""
    _, _, found = compared(two((100, 12), (30, 12)))
    assert found.advised is not None
    least, advised = by_id(found)["least cloth"].layout, found.advised.layout
    assert (advised.buy, advised.joins) == (least.buy, least.joins)
    widths = [{each.width for each in way.pieces if each.strip == least.pieces[0].strip} for way in (least, advised)]
    assert [len(each) for each in widths] == [2, 1]
    assert found.reason == "It buys the same with as many joins, evenly placed in 1 more section."


def test_a_pattern_is_never_advised_to_lie_on_its_side() -> None:
    _, _, found = compared(two((120, 14), (90, 14), **PATTERN))
    assert found.advised is not None
    assert not found.advised.lies
    assert by_id(found)["along"].layout.buy < found.advised.layout.buy
    assert found.reason.endswith("less, but turns the pattern on its side.")
    # Where only a turned pattern is left, the reason does not deny it.
    plan, face, found = compared(two((120, 14), (90, 14), **PATTERN | {"match": None}))
    ways = {each.id: replace(each, followed=each.id == "least cloth") for each in found.ways}
    across, along = ways["least cloth"], ways["along"]
    said = "The other ways across the roll buy no less, or cannot be cut from this cloth."
    assert reason_for(plan, face, across, (across, along)).startswith(said)
    assert reason_for(plan, face, across, (across,)) == said


@pytest.mark.parametrize(
    ("more", "there"), [({"one_way": True}, False), ({"one_way": True, "sideways": True}, True), ({}, True)]
)
def test_one_way_cloth_has_no_way_along_the_roll_unless_it_may_lie_sideways(more: dict[str, Any], there: bool) -> None:
    plan, face = planned(two((120, 14), (90, 14), **more))
    assert any(each.lies for each in ways_of(plan, face)) is there


@pytest.mark.parametrize(
    ("job", "constraint", "costs"),
    [
        (two((40, 14), (60, 14), joins="whole widths"), "policy",
         "Whole widths cost 3/8 yd (6.75) more than part widths."),
        (two((52, 14), (60, 14)), "policy", None),
        (two((52, 14), (54, 14), least="9"), "least piece", "Cutting no piece under 9 in costs "),
        (two((120, 14), (90, 14), one_way=True), "one way up", "Keeping the cloth one way up costs "),
        (two((120, 14), (90, 14), **PATTERN), "matching", "more than leaving it unmatched."),
    ],
)  # fmt: skip
def test_every_constraint_states_what_it_costs_against_the_least(job: Job, constraint: str, costs: str | None) -> None:
    said: dict[str, str] = {each.id: each.sentence for each in compared(job)[2].prices}
    assert (constraint in said) == (costs is not None)
    assert (costs or "") in said.get(constraint, "")


HALF_DROP = two((120, 14), (90, 14), repeat=inches(9), repeat_kind="half-drop", match=True)


def test_the_half_drop_rules_in_print_stand_beside_ours_for_one_order_from_the_roll_only() -> None:
    _, face = planned(HALF_DROP)
    cuts, used = widths_of(known(face.cutting).best), {each.name: each.used for each in ruled_in_print(face)}
    whole = Length(18) * len(cuts)
    assert used["half a repeat an order"] == whole + Length(9) / 2
    assert used["a repeat for every other width"] == whole + Length(9) * (len(cuts) // 2)
    odd = "half a repeat a width, and a repeat if they are odd"
    assert used[odd] == total(cuts) + Length(9) / 2 * len(cuts) + Length(9) * (len(cuts) % 2)
    assert known(face.cutting).best.used < min(used.values())
    for other in (
        planned(two((120, 14), (90, 14)))[1],
        replace(face, rules=replace(known(face.rules), along=True)),
        replace(face, rules=replace(known(face.rules), repeat=Repeat(Length(9)))),
        replace(face, stock=(Stretch("chest", Length(200), Length(54)),)),
    ):
        assert ruled_in_print(other) == ()


@pytest.mark.parametrize(("level", "up"), [("hem", "away from"), ("top", "towards")])
def test_the_cutting_step_says_where_the_first_cut_lies_and_what_is_level(level: str, up: str) -> None:
    face = replace(HALF_DROP.cloth.face, match_from=level)
    plan, layer = planned(replace(HALF_DROP, cloth=replace(HALF_DROP.cloth, face=face)))
    lines = tuple(matched_lines(layer, level, SIXTEENTHS))
    assert set(lines) <= set(next(step for step in plan.work if step.id == "cut:face").lines)
    assert f"Cut each piece {level} end first, with its arrow pointing {up} the squared end." in lines[0]
    assert lines[-1].startswith("Pattern waste: ")


# The rows to choose from: every figure in them is what the plan comes to once the row is taken.
def job(fullness: str = "2", **more: Any) -> Job:
    """A small job on cloth of which 54 in can be used."""
    sections = {"left": straight("left", "60", "12"), "foot": straight("foot", "40", "9")}
    return plain_job(sections, fullness=fullness, cloth=cloth("54", **more))


OWNING: dict[str, Any] = {"owned": {"chest": Owned(length=inches(60))}}


def taken(plan: Plan, row: Offer) -> Plan:
    """The plan once a row was taken."""
    fields = {name: getattr(plan.job, name) for name in plan.job.__struct_fields__}
    return plan_of(put_many(Project(**fields), dict(row.entries)))


def assert_true(plan: Plan, offers: Offers) -> None:
    """Each row takes what it says, and the usual one is that in use."""
    for row in offers.rows:
        face = taken(plan, row).layers[0]
        buy, joins = known(face.cutting).best.buy, known(face.cutting).best.joins
        assert row.cells[1:3] == takes_cells(plan, face, (buy, joins, None))[:2], row.name
    assert offers.usual is next(row for row in offers.rows if row.in_use)


@pytest.mark.parametrize("given", [job(), job("2.5", **OWNING)])
def test_each_fullness_takes_what_its_row_says(given: Job) -> None:
    plan = make_plan(given)
    *_, offers = offers_of_fullness(plan)
    assert offers.whole
    assert offers.heads == ("fullness", "to buy", "joins", "cost")
    assert_true(plan, offers)
    best = [row for row in offers.rows if row.recommended]
    assert [row.entries["fullness.want"] for row in best] == [number(offered(given))]


def test_all_the_owned_cloth_is_a_row_and_taking_what_is_in_use_changes_nothing() -> None:
    *_, offers = offers_of_fullness(make_plan(job(**OWNING)))
    (every,) = [row for row in offers.rows if row.entries == {"fullness.aim": ALL_OWNED}]
    assert (every.name, every.cells[1]) == ("all the cloth you have", "nothing")
    assert all(row.entries["fullness.aim"] == "a number" for row in offers.rows if row is not every)
    assert offers.free is not None
    assert offers.free.entries == {"fullness.aim": "a number", "fullness.want": ""}
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
    plan = make_plan(Job(standard="inches"))
    for tables in (offers_of_fullness(plan), offers_of_ways(plan, plan.layers[0])):
        (offers,) = tables
        assert offers.rows == ()
        assert offers.waits.startswith("Needed first: ")


@pytest.mark.parametrize("given", [job("1.9", price=None), job(lay="across")])
def test_each_way_takes_what_its_row_says_and_one_is_recommended_at_the_end(given: Job) -> None:
    plan = make_plan(given)
    *before, offers = offers_of_ways(plan, plan.layers[0])
    assert not [row for each in before for row in each.rows if row.recommended]
    assert len([row for row in offers.rows if row.recommended]) == 1
    assert offers.reason
    assert_true(plan, offers)


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
