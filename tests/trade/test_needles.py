"""Needles and stitch lengths by cloth."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import inches
from tests.trade.worked_bed import BED, FACE, INNER, SIDE, bed, ledger_of
from wizard.trade.figures import Ledger
from wizard.trade.job_fields import Cloth, ClothKind, Cloths, Fixing, Fullness, Job, Thread, Weight
from wizard.trade.lengths import Length
from wizard.trade.notions import (
    PAIRS,
    STITCHES,
    needle_of,
    needle_through,
    size,
    stitch_in_words,
    thread_figures,
    thread_for,
)


def face(**cloth: Any) -> Ledger:
    return Ledger(Job(cloth=Cloths(face=Cloth(**cloth))))


@pytest.mark.parametrize("kind", [each for each in get_args(ClothKind) if each != "other"])
@pytest.mark.parametrize("weight", [None, *get_args(Weight)])
def test_the_kind_decides_whatever_the_weight(kind: ClothKind, weight: Weight | None) -> None:
    assert needle_of(face(kind=kind, weight=weight), "face").value == needle_of(face(kind=kind), "face").value


@pytest.mark.parametrize(("weight", "nm"), [("sheer", 60), ("light", 70), ("medium", 80), ("heavy", 100)])
@pytest.mark.parametrize("kind", [None, "other"])
def test_another_kind_or_none_goes_by_weight(kind: Any, weight: Any, nm: int) -> None:
    assert needle_of(face(kind=kind, weight=weight), "face").value == nm


def test_the_kind_is_asked_for_when_nothing_is_said() -> None:
    assert [each.key for each in needle_of(face(), "face").needs] == ["cloth.face.kind"]


def test_through_several_layers_goes_the_needle_of_the_stoutest() -> None:
    ledger = Ledger(Job(cloth=Cloths(face=Cloth(kind="fine silk"), interlining=Cloth(kind="flannel", use=True))))
    assert needle_through(ledger, ["face", "interlining"]).value == 90


def test_a_layer_not_known_leaves_the_needle_through_all_open() -> None:
    found = needle_through(face(kind="fine silk"), ["face", "lining"])
    assert (found.value, [each.key for each in found.needs]) == (None, ["cloth.lining.kind"])


def test_a_size_is_written_as_on_its_packet() -> None:
    assert [size(nm) for nm in (70, 90)] == ["70/10", "90/14"]
    assert all(size(nm) == f"{nm}/{older}" for nm, older in PAIRS.items())


def test_stitches_are_given_in_millimetres_and_about_an_inch() -> None:
    assert stitch_in_words("join") == "stitch length 2.5 mm (about 10 stitches per inch)"
    assert stitch_in_words("gathering") == "stitch length 4 mm (about 6 stitches per inch)"
    assert STITCHES["gathering"] == max(STITCHES.values())
    assert all(isinstance(each, Fraction) for each in STITCHES.values())


# Thread: every line of stitching, worked by hand for one small bed.
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
