"""One order list for several jobs: cloth summed exactly and rounded up once, notions by the pack, who needs what."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from msgspec.structs import replace

from tests.trade.sample_jobs import FACE, bed, inches
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.render.document import Para, Table
from wizard.render.shop_sheet import order_list
from wizard.trade.job_fields import Cloth, Fixing, Tape, Thread
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan


def job(name: str, price: str | None = "16.00", currency: str = "$", face: Cloth = FACE, **cloth: Any) -> Plan:
    """One side of 40 in: 28 in of cloth with its squaring, 42 in of tape, 21 staples, 34 yd of thread, 30 pins."""
    made = bed(
        face=replace(face, price=None if price is None else Decimal(price)),
        tape=Tape(price=Decimal("0.75")),
        thread=Thread(price=Decimal("2.20")),
        **({"fixing": Fixing(kind="staples", pack=20, price=Decimal("1.10"))} | cloth),
    )
    return make_plan(replace(made, name=name, currency=currency))


def listed(*plans: Plan) -> dict[str, tuple[str, ...]]:
    """What is bought -> how much, what it costs, and for whom."""
    table = order_list(plans)[0]
    assert isinstance(table, Table)
    assert (table.heads, table.blank) == (("what", "buy", "total", "for", "bought"), (4,))
    return {row[0]: row[1:4] for row in table.rows}


def test_four_jobs_alike() -> None:
    """By hand: 4 × 28 in = 3 1/9 yd, so 3 1/8 yd at 16.00 (each by itself 7/8 yd: 3 1/2 yd). 4 × 42 in = 4 2/3 yd, so
    5 yd (each 2 yd: 8 yd). 84 staples in boxes of 20 are 5 (each 2: 8). 135 yd of thread are 2 spools (each one: 4).
    The same 30 pins serve one job after the other."""
    found = listed(*(job(each) for each in "ABCD"))
    assert found == {
        "reed cloth, 55 in wide": ("3 1/8 yd", "$50.00", "A: 28 in; B: 28 in; C: 28 in; D: 28 in"),
        "twill tape, 2 in wide": ("5 yd", "$3.75", "A: 42 in; B: 42 in; C: 42 in; D: 42 in"),
        "sewing thread": ("2 spools of 100 yd", "$4.40", "A: 34 yd; B: 34 yd; C: 34 yd; D: 34 yd"),
        "staples, 3/8 in leg": ("5 boxes of 20", "$5.50", "A: 21; B: 21; C: 21; D: 21"),
        "machine needles, 80/12": ("4 packets", "", "A; B; C; D"),
        "steel pins, which a magnet finds": (
            "1 box of 100", "", "A: at least 30; B: at least 30; C: at least 30; D: at least 30",
        ),
    }  # fmt: skip
    assert order_list([job(each) for each in "ABCD"])[1] == Para("Total $63.65, without the items that have no price.")


def test_the_sum_is_rounded_once_and_of_several_prices_the_dearest_counts() -> None:
    """By hand: three times 28 in are 84 in, 18 2/3 steps of 1/8 yd: 19 of them are 2 3/8 yd. Rounded before, each would
    be 7 steps, and three 2 5/8 yd. At 20.00 a yd they are 47.50; what has no price goes with it."""
    for prices, cost in ((("16.00",) * 3, "$38.00"), (("16.00", "20.00", None), "$47.50")):
        plans = [job(name, price) for name, price in zip("ABC", prices, strict=True)]
        assert [each.needs for plan in plans for each in plan.purchases if each.id == "cloth:face"] == [inches(28)] * 3
        bought = listed(*plans)["reed cloth, 55 in wide"]
        assert bought == ("2 3/8 yd", cost, "A: 28 in; B: 28 in; C: 28 in")


def test_cloth_is_one_line_whatever_layer_it_becomes_and_another_cloth_is_another() -> None:
    reed, fleece = job("A"), job("B", face=replace(FACE, name="fleece"))
    found = listed(reed, fleece, job("C"))
    assert found["reed cloth, 55 in wide"] == ("1 5/8 yd", "$26.00", "A: 28 in; C: 28 in")
    assert found["fleece, 55 in wide"] == ("7/8 yd", "$14.00", "B: 28 in")


def test_other_fixings_are_other_lines_in_the_order_of_the_shop() -> None:
    found = listed(job("A", fixing=Fixing(kind="magnets")), job("B"))
    assert list(found) == [
        "reed cloth, 55 in wide", "twill tape, 2 in wide", "sewing thread", "staples, 3/8 in leg", "magnets",
        "machine needles, 80/12", "steel pins, which a magnet finds",
    ]  # fmt: skip
    assert found["magnets"] == ("2 packs of 10", "", "A: 14")


def test_sums_in_two_currencies_are_never_added_together() -> None:
    plans = [job("A"), job("B", currency="€")]
    table, summed = order_list(plans)
    assert isinstance(table, Table)
    assert [row[1:3] for row in table.rows if row[0].startswith("reed")] == [("7/8 yd", "$14.00"), ("7/8 yd", "€14.00")]
    # 14.00 of cloth, 2 yd of tape, a spool and two boxes of 20 each.
    assert summed == Para("Total $19.90 and €19.90, without the items that have no price.")
    assert order_list([plan_of(Project())]) == [], "no list where nothing is bought"
