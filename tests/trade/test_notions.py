"""Tape, thread and needles, and the buying list: what is on it, how much, and what it costs."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import BED, FACE, INNER, SIDE, bed, inches, ledger_of, purchases, side
from wizard.trade import notions
from wizard.trade.figures import Ledger
from wizard.trade.job_fields import (
    Cloth,
    ClothKind,
    Cloths,
    Fixing,
    FixingKind,
    Fullness,
    Job,
    Owned,
    Tape,
    Thread,
    Weight,
)
from wizard.trade.lengths import Length


# Tape: its fold, the rows under it, and how much to buy.
@pytest.mark.parametrize(
    ("job", "rows"),
    [(Job(), [inches("1"), inches("1/4"), inches("3/8")]),
     (Job(standard="metric"), [Length.of(25, "mm"), Length.of(6, "mm"), Length.of(9, "mm")])],
)  # fmt: skip
def test_the_tape_folds_in_half_and_the_rows_lie_below_the_raw_edge(job: Job, rows: list[Length]) -> None:
    assert [each.value for each in notions.row_figures(Ledger(job))] == rows


def test_tape_to_buy_is_every_cut_up_to_the_step_at_its_price() -> None:
    long = replace(SIDE, run=(inches("80 1/2"),) * 2)
    for price, cost in ((Decimal("1.25"), Decimal("6.25")), (None, None)):
        ledger, plan = ledger_of(bed(section={"left": long, "right": long}, tape=Tape(price=price)))
        notions.tape_figures(ledger, plan.parts)
        found = [ledger.figures[f"tape.{each}"].value for each in ("length", "buy", "cost")]
        assert found == [inches("165"), Length.of(5, "yd"), cost]
    assert notions.round_up_to(inches("165"), inches("0")) == inches("165"), "a step of nothing buys the very length"
    assert notions.tape_figures(Ledger(Job()), ()).value is None


# Needles and stitch lengths by cloth.
def face(**cloth: Any) -> Ledger:
    return Ledger(Job(cloth=Cloths(face=Cloth(**cloth))))


@pytest.mark.parametrize("weight", [None, *get_args(Weight)])
def test_the_kind_decides_the_needle_and_another_kind_or_none_goes_by_weight(weight: Weight | None) -> None:
    for kind in get_args(ClothKind):
        if kind != "other":
            assert (
                notions.needle_of(face(kind=kind, weight=weight), "face").value
                == notions.needle_of(face(kind=kind), "face").value
            )
    by_weight = {"sheer": 60, "light": 70, "medium": 80, "heavy": 100}
    for other in (None, "other"):
        assert notions.needle_of(face(kind=other, weight=weight), "face").value == by_weight.get(weight or "")
    assert [each.key for each in notions.needle_of(face(), "face").needs] == ["cloth.face.kind"]


def test_through_several_layers_goes_the_needle_of_the_stoutest_once_all_are_known() -> None:
    ledger = Ledger(Job(cloth=Cloths(face=Cloth(kind="fine silk"), interlining=Cloth(kind="flannel", use=True))))
    assert notions.needle_through(ledger, ["face", "interlining"]).value == 90
    found = notions.needle_through(face(kind="fine silk"), ["face", "lining"])
    assert (found.value, [each.key for each in found.needs]) == (None, ["cloth.lining.kind"])


def test_needles_are_written_as_on_the_packet_and_stitches_in_millimetres_and_by_the_inch_too() -> None:
    assert [notions.size(nm) for nm in (70, 90)] == ["70/10", "90/14"]
    assert notions.stitch_in_words("join", metric=False) == "stitch length 2.5 mm (about 10 stitches per inch)"
    assert notions.stitch_in_words("gathering", metric=True) == "stitch length 4 mm"
    assert notions.STITCHES["gathering"] == max(notions.STITCHES.values())
    assert all(isinstance(each, Fraction) for each in notions.STITCHES.values())


# Thread: every line of stitching, worked by hand for one small bed.
def figures(job: Job) -> dict[str, Any]:
    ledger, plan = ledger_of(job)
    notions.thread_figures(ledger, plan.parts, plan.layers)
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
    flat = figures(replace(BED, fullness=Fullness(want=Fraction(1))))
    assert (flat["thread.stay"], flat["thread.gathering"]) == (inches("40"), inches("0"))
    # A loop side is sewn along both edges.
    assert figures(bed(fixing=Fixing(kind="adhesive hook-and-loop")))["thread.loop"] == inches("80")


def test_an_inner_layer_adds_its_joins_and_hems_and_no_rows() -> None:
    """Inner layer: 99 in flat; 1/2 in top, 11 1/2 in and 3 in of hem cut 15 in long."""
    plain, lined = figures(BED), figures(bed(interlining=INNER))
    assert lined["thread.joins"] - plain["thread.joins"] == inches("15")
    assert lined["thread.hems"] - plain["thread.hems"] == inches("99") + 2 * inches("15")
    assert lined["thread.rows"] == plain["thread.rows"]


def test_ratio_waste_and_spool_can_be_set() -> None:
    said = Thread(ratio=Fraction(3), waste=Fraction(0), spool=inches("1000"), price=Decimal("2.40"))
    found = figures(bed(thread=said))
    assert found["thread.length"] == 3 * inches("422 1/2")
    assert (found["thread.spools"], found["thread.cost"]) == (2, Decimal("4.80"))
    assert figures(bed(thread=Thread(spool=inches("0"))))["thread.spools"] is None
    assert notions.thread_for(inches("1/3"), Fraction(5, 2), Fraction(15, 100)) == Length(Fraction(23, 24)), "exact"


def test_what_the_cloth_waits_for_the_thread_waits_for() -> None:
    ledger, plan = ledger_of(bed(face=replace(FACE, width=None)))
    assert "cloth.face.width" in [each.key for each in notions.thread_figures(ledger, plan.parts, plan.layers).needs]
    assert notions.thread_figures(Ledger(Job()), (), ()).value is None


@settings(max_examples=20, deadline=None)
@given(st.integers(min_value=1, max_value=200))
def test_a_longer_run_never_takes_less_thread(quarters: int) -> None:
    longer = side(run=(inches("40") + Length(Fraction(quarters, 4)),) * 2)
    assert figures(longer)["thread.length"] > figures(BED)["thread.length"]


# The buying list.
def test_the_list_of_a_plain_bed() -> None:
    """Two widths of 13 1/2 in and 1 in of squaring: 28 in, 7 steps of 1/8 yd; 42 in of tape; 21 staples 2 in apart;
    five marks of six pins. What is needed is kept exactly beside what is bought."""
    found = {key: (each.what, each.amount, each.needs, each.cost) for key, each in purchases(BED).items()}
    thread = found["thread"][2]
    assert found == {
        "cloth:face": ("reed cloth (face), 55 in wide", "7/8 yd", inches(28), None),
        "tape": ("twill tape, 2 in wide", "2 yd", inches(42), None),
        "thread": ("sewing thread", "1 spool of 100 yd", thread, None),
        "fixing": ("staples, 3/8 in leg", "1 box of 1,000", 21, None),
        "needles": ("machine needles, 80/12", "1 packet", found["needles"][2], None),
        "pins": ("steel pins, which a magnet finds", "1 box of 100", 30, None),
    }
    lined = purchases(bed(interlining=INNER))["needles"]
    assert (lined.what, lined.amount) == ("machine needles, 80/12 and 90/14", "1 packet of each")
    metric = purchases(replace(BED, standard="metric", show="cm"))
    assert (metric["tape"].amount, metric["thread"].amount) == ("2 m", "1 spool of 100 m")


def test_everything_with_a_price_has_its_cost() -> None:
    job = bed(
        face=replace(FACE, price=Decimal("16.00")), tape=Tape(price=Decimal("0.75")),
        thread=Thread(price=Decimal("2.20")), fixing=Fixing(kind="staples", pack=20, price=Decimal("1.10")),
    )  # fmt: skip
    costs = {key: str(each.cost) for key, each in purchases(job).items() if each.cost is not None}
    assert costs == {"cloth:face": "14.00", "tape": "1.50", "thread": "2.20", "fixing": "2.20"}


@pytest.mark.parametrize(
    ("kind", "what", "amount"),
    [
        ("tacks", "tacks, 3/8 in leg", "1 box of 100"), ("magnets", "magnets", "2 packs of 10"),
        ("upholstery pins", "upholstery pins", "1 packet of 50"),
        ("adhesive hook-and-loop", "hook-and-loop, adhesive hook side and sewn loop side", "2 yd"),
        ("hook-and-loop", "hook-and-loop, both sides sewn", "2 yd"), ("glue", "hot-melt glue", "for 40 in of tape"),
    ],
)  # fmt: skip
def test_each_kind_of_fixing_is_bought_as_the_shop_sells_it(kind: FixingKind, what: str, amount: str) -> None:
    found = purchases(bed(fixing=Fixing(kind=kind)))["fixing"]
    assert (found.what, found.amount) == (what, amount)


def test_fixings_are_bought_by_the_pack_and_hook_and_loop_by_its_length() -> None:
    amounts = [purchases(bed(fixing=Fixing(kind="staples", pack=pack)))["fixing"].amount for pack in (20, 21)]
    assert amounts == ["2 boxes of 20", "1 box of 21"]
    priced = Fixing(kind="adhesive hook-and-loop", price=Decimal("3.10"))
    assert purchases(bed(fixing=priced))["fixing"].cost == Decimal("6.20")


def test_only_what_is_known_and_not_owned_already_is_on_the_list() -> None:
    owned = replace(FACE, owned={"shelf": Owned(length=Length.of(2, "yd"))})
    job = replace(bed(face=owned), fullness=replace(BED.fullness, aim="all the cloth I own", want=None))
    assert "cloth:face" not in purchases(job)
    assert purchases(Job()) == purchases(Job(cloth=Cloths(fixing=Fixing(kind="glue")))) == {}
    assert list(purchases(replace(BED, cloth=Cloths(fixing=Fixing(kind="magnets"))))) == ["tape", "fixing"]
    open_run = bed(section={"left": SIDE, "right": replace(SIDE, run=(None, inches("40")))})
    assert not {"tape", "fixing"} & set(purchases(open_run)), "a part of unknown length leaves both open"
