"""The buying list: what is on it, how much, and what it costs."""

from __future__ import annotations

from decimal import Decimal

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import inches
from tests.trade.worked_bed import BED, FACE, INNER, SIDE, bed, purchases
from wizard.trade.job_fields import Cloths, Fixing, FixingKind, Job, Owned, Tape, Thread
from wizard.trade.lengths import Length


def test_the_list_of_a_plain_bed() -> None:
    """Two widths of 13 1/2 in and 1 in of squaring: 28 in, 7 steps of 1/8 yd; 42 in of tape; 21 staples 2 in apart;
    five marks of six pins."""
    found = {key: (each.what, each.amount, each.cost) for key, each in purchases(BED).items()}
    assert found == {
        "cloth:face": ("reed cloth (face), 55 in wide", "7/8 yd", None),
        "tape": ("twill tape, 2 in wide", "2 yd", None),
        "thread": ("sewing thread", "1 spool of 100 yd", None),
        "fixing": ("staples, 3/8 in leg", "1 box of 1,000", None),
        "needles": ("machine needles, 80/12", "1 packet", None),
        "pins": ("steel pins, which a magnet finds", "1 box of 100", None),
    }


def test_what_is_needed_is_kept_exactly_beside_what_is_bought() -> None:
    needs = {key: each.needs for key, each in purchases(BED).items()}
    assert (needs["cloth:face"], needs["tape"]) == (inches("28"), inches("42"))
    assert (needs["fixing"], needs["pins"]) == (21, 30)


def test_everything_with_a_price_has_its_cost() -> None:
    job = bed(
        face=replace(FACE, price=Decimal("16.00")),
        tape=Tape(price=Decimal("0.75")),
        thread=Thread(price=Decimal("2.20")),
        fixing=Fixing(kind="staples", pack=20, price=Decimal("1.10")),
    )
    costs = {key: each.cost for key, each in purchases(job).items() if each.cost is not None}
    assert costs == {
        "cloth:face": Decimal("14.00"),
        "tape": Decimal("1.50"),
        "thread": Decimal("2.20"),
        "fixing": Decimal("2.20"),
    }


def test_fixings_are_bought_by_the_pack() -> None:
    assert purchases(bed(fixing=Fixing(kind="staples", pack=20)))["fixing"].amount == "2 boxes of 20"
    assert purchases(bed(fixing=Fixing(kind="staples", pack=21)))["fixing"].amount == "1 box of 21"


@pytest.mark.parametrize(
    ("kind", "what", "amount"),
    [
        ("tacks", "tacks, 3/8 in leg", "1 box of 100"),
        ("magnets", "magnets", "2 packs of 10"),
        ("upholstery pins", "upholstery pins", "1 packet of 50"),
        ("adhesive hook-and-loop", "hook-and-loop, adhesive hook side and sewn loop side", "2 yd"),
        ("hook-and-loop", "hook-and-loop, both sides sewn", "2 yd"),
        ("glue", "hot-melt glue", "for 40 in of tape"),
    ],
)
def test_each_kind_of_fixing_is_bought_as_the_shop_sells_it(kind: FixingKind, what: str, amount: str) -> None:
    found = purchases(bed(fixing=Fixing(kind=kind)))["fixing"]
    assert (found.what, found.amount) == (what, amount)


def test_hook_and_loop_is_priced_by_its_length() -> None:
    found = purchases(bed(fixing=Fixing(kind="adhesive hook-and-loop", price=Decimal("3.10"))))["fixing"]
    assert found.cost == Decimal("6.20")


def test_a_needle_of_each_size_for_every_layer() -> None:
    found = purchases(bed(interlining=INNER))["needles"]
    assert (found.what, found.amount) == ("machine needles, 80/12 and 90/14", "1 packet of each")


def test_a_metric_job_buys_in_metres() -> None:
    found = purchases(replace(BED, standard="metric", show="cm"))
    assert (found["tape"].amount, found["thread"].amount) == ("2 m", "1 spool of 100 m")


def test_cloth_that_is_owned_already_is_not_on_the_list() -> None:
    owned = replace(FACE, owned={"shelf": Owned(length=Length.of(2, "yd"))})
    job = replace(bed(face=owned), fullness=replace(BED.fullness, aim="all the cloth I own", want=None))
    assert "cloth:face" not in purchases(job)


def test_nothing_is_bought_before_anything_is_known() -> None:
    assert purchases(Job()) == {}
    assert purchases(Job(cloth=Cloths(fixing=Fixing(kind="glue")))) == {}


def test_what_is_known_already_is_on_the_list_of_a_half_filled_job() -> None:
    known = purchases(replace(BED, cloth=Cloths(fixing=Fixing(kind="magnets"))))
    assert list(known) == ["tape", "fixing"]


def test_a_part_without_a_known_length_leaves_tape_and_fixings_open() -> None:
    job = bed(section={"left": SIDE, "right": replace(SIDE, run=(None, inches("40")))})
    assert not {"tape", "fixing"} & set(purchases(job))
