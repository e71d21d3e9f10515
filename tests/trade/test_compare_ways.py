"""Ways of cutting beside each other: what is chosen is followed everywhere, and every constraint has its price."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from msgspec.structs import replace

from tests.outside.jobs import cloth, plain_job, planned, straight
from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches
from wizard.render.choosing_sheet import ways_of_cutting
from wizard.render.document import Table
from wizard.trade.compare_ways import Comparison, Way, compare, reason_for, ways_of
from wizard.trade.cutting import Repeat, Stretch
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.job_fields import Cloth, CutWay, Job, Joins, Section, Side
from wizard.trade.lengths import Length, total
from wizard.trade.plan_records import Layer, Plan
from wizard.trade.steps.pattern_matching import matched_lines, ruled_in_print, widths_of


def two(
    first: tuple[str, str], second: tuple[str, str], least: str = "2", joins: Joins = "part widths", **more: Any
) -> Job:
    """Two sections of given cut width and cut length, on cloth of which 54 in can be used."""
    sides: tuple[tuple[Side, tuple[str, str]], ...] = (("left", first), ("foot", second))
    sections: dict[str, Section] = {
        side: straight(side, str(int(width) - 2), f"{int(cut) - 2} 1/2") for side, (width, cut) in sides
    }
    values: Any = {"price": Decimal("18.00")} | more
    return plain_job(sections, fullness="1", cloth=cloth("54", **values), least=least, joins=joins)


SLIT = two(("53", "18"), ("79", "12"))
"""The planted case in which slitting saves 6 in of 42."""
STACKED = two(("30", "16"), ("40", "8"))
"""The planted case in which stacking saves 8 in of 24."""


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
    assert other.cutting is not None
    assert (other.cutting.best.way, other.used.value, other.least) == (name, inches(used), face.least)
    assert other.buy.value is not None
    assert face.buy.value is not None
    assert other.buy.value < face.buy.value
    assert [each.id for each in compare(followed, other).ways if each.followed] == [name]
    cut = next(step for step in followed.work if step.id == "cut:face")
    assert cut.listed != next(step for step in plan.work if step.id == "cut:face").listed
    assert any("from the left edge" in line for line in cut.listed)
    assert not followed.findings or all(not each.id.startswith("way-gone") for each in followed.findings)


def test_cloth_is_slit_before_it_is_cut_across() -> None:
    plan, face = planned(way(SLIT, "slit"))
    assert face.cutting is not None
    lane = max(each.across for each in face.cutting.best.pieces)
    lines = next(step for step in plan.work if step.id == "cut:face").lines
    assert lane == inches("27")
    assert lines[:2] == (
        "First slit the roll to buy at 27 in from its left edge, from end to end.",
        "Cut across in the order of the cut list, at each “to”.",
    )


def test_the_sheet_for_choosing_names_every_way_and_which_is_in_use() -> None:
    plan, _ = planned(way(SLIT, "slit"))
    ways = next(each for each in ways_of_cutting(plan) if isinstance(each, Table)).rows
    assert [(name, buy, marked) for name, buy, *_, marked in ways] == [
        ("across, part widths", "1 1/4 yd", ""),
        ("slit lengthwise", "1 yd", "in use, recommended"),
        ("across, half widths", "1 1/4 yd", ""),
        ("across, whole widths", "1 1/4 yd", ""),
        ("along the roll", "1 1/4 yd", ""),
    ]


def test_a_way_that_is_not_to_be_had_any_more_is_told_and_the_least_cloth_is_cut() -> None:
    plan, face = planned(way(two(("53", "18"), ("79", "18")), "slit"))
    assert face.cutting is not None
    assert face.cutting.best == face.least
    (finding,) = [each for each in plan.findings if each.id == "way-gone:face"]
    assert_says(finding, "way-gone")


def test_the_advice_is_what_buys_least_and_says_why() -> None:
    _, _, found = compared(SLIT)
    assert found.advised is not None
    assert found.advised.layout.buy == min(each.layout.buy for each in found.ways)
    assert found.reason.startswith("It buys 1/8 yd ($2.25) less") or "less than the way in use" in found.reason


def test_of_ways_that_buy_the_same_with_as_many_joins_the_one_that_looks_even_is_advised() -> None:
    """Two widths make the long section: part widths leave a broad and a narrow piece, half widths two alike."""
    _, _, found = compared(two(("100", "12"), ("30", "12")))
    assert found.advised is not None
    least, advised = by_id(found)["least cloth"].layout, found.advised.layout
    long = {
        id: [each.width for each in way.pieces if each.strip == least.pieces[0].strip]
        for id, way in (("least", least), ("advised", advised))
    }
    assert (advised.buy, advised.joins) == (least.buy, least.joins)
    assert len(set(long["least"])) == 2
    assert len(set(long["advised"])) == 1
    assert found.reason == "It buys the same with as many joins, and they come even in 1 more section."


def test_a_pattern_is_never_advised_to_lie_on_its_side() -> None:
    upright = two(("120", "14"), ("90", "14"), repeat=inches(27), repeat_kind="straight", match=True)
    _, _, found = compared(upright)
    assert found.advised is not None
    assert not found.advised.lies
    assert by_id(found)["along"].layout.buy < found.advised.layout.buy
    assert found.reason.endswith("less, but the pattern would lie on its side.")


def test_where_only_a_turned_pattern_is_left_the_reason_does_not_deny_it() -> None:
    plan, face, found = compared(two(("120", "14"), ("90", "14"), repeat=inches(27), repeat_kind="straight"))
    ways = {each.id: replace(each, followed=each.id == "least cloth") for each in found.ways}
    across, along = ways["least cloth"], ways["along"]
    said = "The other ways across the roll buy no less, or cannot be cut from this cloth."
    assert reason_for(plan, face, across, (across, along)).startswith(said)
    assert reason_for(plan, face, across, (across,)) == said


def test_one_way_cloth_has_no_way_along_the_roll_unless_it_may_lie_sideways() -> None:
    cases: list[tuple[dict[str, Any], bool]] = [
        ({"one_way": True}, False),
        ({"one_way": True, "sideways": True}, True),
        ({}, True),
    ]
    for more, there in cases:
        plan, face = planned(two(("120", "14"), ("90", "14"), **more))
        assert any(each.lies for each in ways_of(plan, face)) is there


def sentences(job: Job) -> dict[str, str]:
    return {each.id: each.sentence for each in compared(job)[2].prices}


def test_every_constraint_states_what_it_costs_against_the_least() -> None:
    whole = sentences(two(("40", "14"), ("60", "14"), joins="whole widths"))
    assert whole["policy"] == "Whole widths cost 3/8 yd (6.75) more than part widths."
    assert "policy" not in sentences(two(("52", "14"), ("60", "14")))
    narrow = sentences(two(("52", "14"), ("54", "14"), least="9"))["least piece"]
    assert narrow.startswith("A least piece of 9 in costs ")
    upright = sentences(two(("120", "14"), ("90", "14"), one_way=True))["one way up"]
    assert upright.startswith("Keeping the cloth one way up costs ")
    matched = two(("120", "14"), ("90", "14"), repeat=inches(27), repeat_kind="straight", match=True)
    assert "matching" in sentences(matched)
    assert sentences(matched)["matching"].endswith("more than leaving it unmatched.")


HALF_DROP = two(("120", "14"), ("90", "14"), repeat=inches(9), repeat_kind="half-drop", match=True)


def test_the_half_drop_rules_in_print_stand_beside_ours_with_what_each_would_buy() -> None:
    _, face = planned(HALF_DROP)
    assert face.cutting is not None
    cuts, used = widths_of(face.cutting.best), {each.name: each.used for each in ruled_in_print(face)}
    whole = Length(18) * len(cuts)
    assert used["half a repeat an order"] == whole + Length(9) / 2
    assert used["a repeat for every other width"] == whole + Length(9) * (len(cuts) // 2)
    odd = "half a repeat a width, and a repeat if they are odd"
    assert used[odd] == total(cuts) + Length(9) / 2 * len(cuts) + Length(9) * (len(cuts) % 2)
    assert face.cutting.best.used < min(used.values())
    assert ruled_in_print(planned(two(("120", "14"), ("90", "14")))[1]) == ()


@pytest.mark.parametrize(("level", "up"), [("hem", "away from"), ("top", "towards")])
def test_the_cutting_step_says_where_the_first_cut_lies_and_what_is_level(level: str, up: str) -> None:
    face = replace(HALF_DROP.cloth.face, match_from=level)
    plan, layer = planned(replace(HALF_DROP, cloth=replace(HALF_DROP.cloth, face=face)))
    lines = tuple(matched_lines(layer, level, SIXTEENTHS))
    step = next(step for step in plan.work if step.id == "cut:face")
    assert set(lines) <= set(step.lines)
    assert f"Cut each piece {level} end first, with its arrow pointing {up} the squared end." in lines[0]
    assert lines[-1].startswith("Pattern waste: ")


def test_rules_in_print_are_for_one_order_from_the_roll_only() -> None:
    _, face = planned(HALF_DROP)
    assert face.rules is not None
    assert ruled_in_print(replace(face, rules=replace(face.rules, along=True))) == ()
    straight_repeat = replace(face, rules=replace(face.rules, repeat=Repeat(Length(9))))
    assert ruled_in_print(straight_repeat) == ()
    owned = replace(face, stock=(Stretch("chest", Length(200), Length(54)), *face.stock))
    assert ruled_in_print(replace(owned, stock=(owned.stock[0],))) == ()


def test_a_layer_that_is_not_laid_out_has_no_ways() -> None:
    plan, face = planned(replace(SLIT, cloth=replace(SLIT.cloth, face=Cloth())))
    assert compare(plan, face) == Comparison((), None, "", ())


def test_the_reason_says_what_is_saved_against_the_way_in_use() -> None:
    plan, face, found = compared(SLIT)
    best = replace(found.ways[0], followed=False)

    def reason(**of_the_other: Any) -> str:
        other = replace(best, followed=True, layout=replace(best.layout, **of_the_other))
        return reason_for(plan, face, best, (other, best))

    more, joins = best.layout.buy + inches(18), best.layout.joins
    assert reason(buy=more) == "It buys 1/2 yd (9.00) less than the way in use, with as many joins."
    assert reason(buy=more, joins=joins + 1) == ("It buys 1/2 yd (9.00) less than the way in use, with 1 fewer join.")
    assert reason(joins=joins + 2) == "It buys the same length as the way in use, with 2 fewer joins."
    assert reason(used=best.layout.used + inches("1 1/2")) == (
        "It buys the same with as many joins, and uses 1 1/2 in less of it."
    )
