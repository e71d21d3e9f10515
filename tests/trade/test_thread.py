"""Thread: every line of stitching, worked by hand for one small bed."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.worked_bed import BED, FACE, INNER, SIDE, bed, inches, ledger_of
from wizard.trade.figures import Ledger
from wizard.trade.lengths import Length
from wizard.trade.model import Fixing, Fullness, Job, Thread
from wizard.trade.notions import thread_figures, thread_for


def figures(job: Job) -> dict[str, Any]:
    ledger, plan = ledger_of(job)
    thread_figures(ledger, plan.parts, plan.layers)
    return {key: figure.value for key, figure in ledger.figures.items() if key.startswith("thread.")}


def test_one_side_of_one_layer_worked_by_hand() -> None:
    """100 in flat on 40 in of tape, two pieces cut 13 1/2 in long: one join; the tape is 2 in wide."""
    found = figures(BED)
    assert found["thread.joins"] == inches("13 1/2")
    assert found["thread.hems"] == inches("100") + 2 * inches("13 1/2")
    assert found["thread.stay"] == found["thread.gathering"] == inches("100")
    assert found["thread.tape"] == 2 * inches("40") + 2 * inches("1")
    assert found["thread.loop"] == inches("0")
    assert found["thread.lines"] == inches("422 1/2")
    assert found["thread.length"] == inches("422 1/2") * Fraction(5, 2) * Fraction(115, 100)
    assert found["thread.spools"] == 1


def test_an_inner_layer_adds_its_joins_and_hems_and_no_rows() -> None:
    """Inner layer: 99 in flat; 1/2 in top, 11 1/2 in and 3 in of hem cut 15 in long."""
    plain, lined = figures(BED), figures(bed(interlining=INNER))
    assert lined["thread.joins"] - plain["thread.joins"] == inches("15")
    assert lined["thread.hems"] - plain["thread.hems"] == inches("99") + 2 * inches("15")
    assert lined["thread.rows"] == plain["thread.rows"]


def test_a_flat_skirt_takes_no_gathering_row() -> None:
    found = figures(replace(BED, fullness=Fullness(want=Fraction(1))))
    assert (found["thread.stay"], found["thread.gathering"]) == (inches("40"), inches("0"))


def test_a_loop_side_is_sewn_along_both_edges() -> None:
    assert figures(bed(fixing=Fixing(kind="adhesive hook-and-loop")))["thread.loop"] == inches("80")


def test_ratio_waste_and_spool_can_be_set() -> None:
    said = Thread(ratio=Fraction(3), waste=Fraction(0), spool=inches("1000"), price=Decimal("2.40"))
    found = figures(bed(thread=said))
    assert found["thread.length"] == 3 * inches("422 1/2")
    assert (found["thread.spools"], found["thread.cost"]) == (2, Decimal("4.80"))


def test_what_the_cloth_waits_for_the_thread_waits_for() -> None:
    ledger, plan = ledger_of(bed(face=replace(FACE, width=None)))
    assert "cloth.face.width" in [each.key for each in thread_figures(ledger, plan.parts, plan.layers).needs]


def test_a_spool_of_nothing_gives_no_count() -> None:
    assert figures(bed(thread=Thread(spool=inches("0"))))["thread.spools"] is None


def test_without_parts_no_thread_is_counted() -> None:
    assert thread_figures(Ledger(Job()), (), ()).value is None


@settings(max_examples=20, deadline=None)
@given(st.integers(min_value=1, max_value=200))
def test_a_longer_run_never_takes_less_thread(quarters: int) -> None:
    run = inches("40") + Length(Fraction(quarters, 4))
    longer = bed(section={"left": replace(SIDE, run=(run, run))})
    assert figures(longer)["thread.length"] > figures(BED)["thread.length"]


def test_thread_is_exact() -> None:
    assert thread_for(inches("1/3"), Fraction(5, 2), Fraction(15, 100)) == Length(Fraction(23, 24))
