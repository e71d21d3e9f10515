"""Whole and half widths, owned lengths of one width and of several: none makes a plan dearer, damage is kept off."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, Held, Sample, best, cutting, quarter, rules_of, sample, strips_of
from tests.trade.cutting.model import ALIKE, compare_widths
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Layout, Policy, Refusal, Rules, Stretch, Strip, lay_out
from wizard.trade.cutting.assign_stock import could_save
from wizard.trade.cutting.lay_out import job_of
from wizard.trade.lengths import ZERO, Length, total


def widths(plan: Layout, strip: str) -> list[Length]:
    """A strip's piece widths from its left end."""
    pieces = sorted((piece for piece in plan.pieces if piece.strip == strip), key=lambda piece: piece.order)
    return [piece.width for piece in pieces]


@pytest.mark.parametrize(
    ("flat", "width", "rules", "pieces"),
    [
        # Whole widths trim the surplus equally off both outer pieces.
        ("140", 54, {"policy": "whole widths"}, ["44", "54", "44"]),
        # By hand: 3 x 10 - 2 x 1 = 28 in of three widths, 8 1/4 too many; 10 to 6 in at either end leaves 1/4 in.
        ("19 3/4", 10, {"policy": "whole widths"}, ["9 3/4", "6", "6"]),
        # Kept, they make the strip wider than asked; half a width that is kept stays a full half.
        ("140", 54, {"policy": "whole widths", "surplus": "keep"}, ["54", "54", "54"]),
        ("75", 54, {"policy": "half widths", "surplus": "keep"}, ["54", "27"]),
    ],
)
def test_the_surplus_of_whole_and_half_widths_is_trimmed_or_kept(
    flat: str, width: int, rules: dict[str, Any], pieces: list[str]
) -> None:
    plan = best(strips_of((flat, 12)), rules_of(**rules), [Stretch("roll", None, Length(width))])
    assert sorted(widths(plan, "a")) == sorted(inches(each) for each in pieces)
    assert len(pieces) == 2 or widths(plan, "a") == [inches(each) for each in pieces], "in order"
    assert plan.used == Length(12) * plan.uses[0].rows
    made = sum((inches(each) for each in pieces), -Length(len(pieces) - 1))
    assert plan.flats == (("a", made),)


@pytest.mark.parametrize(
    ("strips", "stock", "least", "refusal"),
    [
        ([], [ROLL], 6, Refusal("no strips", None, None, None)),
        (strips_of((50, 12)), [], 6, Refusal("no cloth", None, None, None)),
        # A strip that would need pieces under the least is refused with the piece it would get.
        (strips_of((56, 12)), [ROLL], 30, Refusal("piece too narrow", "a", Length(30), Length(57) / 2)),
    ],
)
def test_what_cannot_be_cut_is_refused(strips: list[Strip], stock: list[Stretch], least: int, refusal: Refusal) -> None:
    assert lay_out(strips, stock, rules_of(least_piece=Length(least))) == refusal
    narrow = lay_out(strips_of((50, 12)), [Stretch("roll", None, Length(1))], rules_of())
    assert isinstance(narrow, Refusal)
    assert narrow.reason == "usable too narrow"


def owned(name: str, length: str | int | Fraction, **more: object) -> Stretch:
    """A length in hand, 54 in wide."""
    return Stretch(name, inches(length), Length(54), **more)  # type: ignore[arg-type]


TWO = [owned("long", Fraction(23, 10) * 36), owned("short", Fraction(16, 10) * 36)]


@pytest.mark.parametrize(
    ("sizes", "stock", "squaring", "widths", "bought"),
    [
        # Two lengths give six and four widths, and not the eleven they would if they pooled.
        ([(531, Fraction(25, 2))], TWO, 0, {"long": 6, "short": 4}, 0),
        ([(532, Fraction(25, 2))], TWO, 0, None, 0),
        # Each length is squared on its own unless it is square already.
        ([(54, 12), (54, 12)], [owned("a", 12), owned("b", 12)], 1, None, 0),
        ([(54, 12), (54, 12)], [owned("a", 12, squared=True), owned("b", 12, squared=True)], 1, {"a": 1, "b": 1}, 0),
        # A cut longer than a length leaves it unused. Only what is left over is bought.
        ([(54, 20)], [owned("short", 15), owned("long", 30)], 1, {"long": 1}, 0),
        ([(160, 12)], [owned("a", 25), ROLL], 1, {"a": 2, "roll": 1}, 13),
        ([(100, 12)], [owned("a", 25), ROLL], 1, {"a": 2}, 0),
        # A section is cut from two dye lots only where there is no other way.
        ([(180, 12)], [owned("a", 25, lot="1"), owned("b", 25, lot="2")], 1, {"a": 2, "b": 2}, 0),
        # A narrow length gives its own narrower widths.
        ([(80, 12)], [Stretch("narrow", Length(25), Length(45))], 1, {"narrow": 2}, 0),
    ],
)
def test_how_many_widths_each_length_gives(
    sizes: list[tuple[int, int]], stock: list[Stretch], squaring: int, widths: dict[str, int] | None, bought: int
) -> None:
    rules = rules_of(squaring=Length(squaring))
    answer = lay_out(strips_of(*sizes), stock, rules)
    if isinstance(answer, Refusal):
        assert (answer.reason, widths) == ("no cloth", None)
    else:
        assert widths == {use.stretch: use.rows for use in answer.best.uses}
        assert answer.best.roll == Length(bought)
        assert faults(answer.best, strips_of(*sizes), stock, rules) == []


def test_a_cut_longer_than_every_length_is_refused_with_both_lengths() -> None:
    answer = lay_out(strips_of((54, 20)), [owned("short", 15)], rules_of())
    assert answer == Refusal("cut too long", "a", Length(20), Length(15))


def test_no_piece_touches_a_damaged_stretch_and_what_is_left_before_it_is_not_called_the_end() -> None:
    kinds = []
    for strips, damage in ((strips_of((54, 12), (54, 12)), (14, 20)), (strips_of((107, 12)), (16, 20))):
        hurt = owned("a", 60, damage=((Length(damage[0]), Length(damage[1])),))
        plan = best(strips, rules_of(squaring=ZERO), [hurt])
        assert sorted(piece.start for piece in plan.pieces) == [ZERO, Length(20)]
        kinds.append({each.kind: (each.start, each.along) for each in plan.offcuts if each.width == Length(54)})
    assert kinds[1] == {
        "before": (Length(12), Length(4)), "damage": (Length(16), Length(4)), "end": (Length(32), Length(28))
    }  # fmt: skip


def test_a_section_is_cut_from_one_dye_lot_where_that_can_be() -> None:
    stock = [owned("a", 37, lot="1"), owned("b", 37, lot="2")]
    plan = best(strips_of((107, 12), (107, 12)), rules_of(), stock)
    assert len({(piece.strip, piece.stretch) for piece in plan.pieces}) == 2


def test_a_length_that_is_left_whole_takes_none_of_the_other_ways_away() -> None:
    scrap = Stretch("scrap", Length(5), Length(54))
    alone, beside = (cutting(strips_of((53, 18), (79, 12)), rules_of(), stock) for stock in ([ROLL], [scrap, ROLL]))
    assert [(each.way, each.used) for each in beside.others()] == [("slit", Length(36))]
    assert [(each.way, each.used) for each in alone.others()] == [(each.way, each.used) for each in beside.others()]
    sizes, step = [(86, 12), (86, 12), (86, 12)], rules_of(step=Length(100))
    alone, beside = (cutting(strips_of(*sizes), step, stock) for stock in ([ROLL], [scrap, ROLL]))
    fewest, fewest_beside = alone.fewest_joins(), beside.fewest_joins()
    assert fewest is not None
    assert fewest_beside is not None
    assert (fewest_beside.used, fewest_beside.joins) == (fewest.used, fewest.joins)


def test_too_little_cloth_is_said_for_certain_only_where_every_way_was_looked_at() -> None:
    # 2 widths on each length: 4 of the 5 that two strips take, though by area there is enough
    stock = [owned("a", 34), owned("b", 34)]
    refused = lay_out(strips_of((130, 12), (100, 12)), stock, rules_of())
    assert isinstance(refused, Refusal)
    assert refused.needed is not None
    assert refused.found is not None
    assert (refused.certain, refused.needed <= refused.found) == (True, True)
    narrow = [Stretch("narrow", Length(34), Length(45)), owned("b", 34)]
    refused = lay_out(strips_of((102, 12), (95, 12)), narrow, rules_of())
    assert isinstance(refused, Refusal)
    assert not refused.certain


def test_cloth_in_hand_and_a_roll_have_their_fewest_joins_beside_the_least_cloth() -> None:
    # One width in hand and one bought give all three with a join; another bought, and none is joined.
    stock = [owned("a", 14), ROLL]
    found = cutting(strips_of((35, 12), (35, 12), (35, 12)), rules_of(step=Length(40)), stock)
    fewest = found.fewest_joins()
    assert fewest is not None
    assert (found.best.joins, fewest.joins) == (1, 0)
    assert fewest.buy == found.best.buy


def test_what_is_bought_beside_cloth_in_hand_may_be_slit_where_that_is_shorter() -> None:
    # 53 at 18 with 79 at 12 takes 42 in across and 36 in slit; the third strip is cut from the length in hand.
    strips, stock = strips_of((53, 18), (79, 12), (53, 12)), [owned("a", 14), ROLL]
    found = cutting(strips, rules_of(), stock)
    assert bought_of(found.best) == Length(42)
    slit = found.others()[0]
    assert (slit.way, bought_of(slit), slit.used) == ("slit", Length(36), Length(48))
    assert faults(slit, strips, stock, rules_of()) == []
    assert cutting(strips_of((53, 12), (79, 12), (53, 12)), rules_of(), stock).others() == ()


def bought_of(plan: Layout) -> Length:
    """What is used of the roll."""
    return total([use.length for use in plan.uses if use.stretch == ROLL.id])


def test_what_an_unproven_plan_could_save_is_what_it_could_buy_less() -> None:
    # nine strips, two narrow lengths: the area of all three leaves more to be saved on the roll than in all
    strips = strips_of(*[(65 + 3 * n, 12 + n % 2) for n in range(9)])
    stock = [Stretch("one", Length(40), Length(31)), Stretch("two", Length(30), Length(37)), ROLL]
    plan = best(strips, rules_of(), stock)
    assert not plan.proof.least
    assert plan.proof.saves is not None
    area = sum((strip.flat.inches * strip.cut.inches for strip in strips), Fraction(0))
    owned_area = 39 * 31 + 29 * 37
    assert bought_of(plan) - plan.proof.saves <= Length((area + len(strips) * 13 * 9 - owned_area) / 54)
    assert bought_of(plan) > plan.proof.saves


@pytest.mark.parametrize(("least", "saved"), [(30, Fraction(100, 9)), (0, Fraction(409, 9))])
def test_what_could_be_saved_is_told_in_cloth_as_bought(least: int, saved: Fraction) -> None:
    """Nine tenths are left once washed: 10 less used is 10 / 0.9 less bought; nothing bought saves the squaring too."""
    rules = rules_of(squaring=Length(1), keeps=Fraction(9, 10))
    job = job_of(strips_of((100, 12)), (Stretch("chest", Length(60), Length(54)), ROLL), rules)
    ticks = [job.scale.down(Length(each)) for each in (40, least)]
    assert could_save(job, *ticks) == Length(saved)


@pytest.mark.parametrize("count", [9, 12, 15])
@pytest.mark.parametrize("more", [owned("long", 2000), ROLL])
def test_more_strips_than_are_searched_as_one_are_planned_in_batches_with_nothing_left_out(
    count: int, more: Stretch
) -> None:
    strips, stock = strips_of(*((20 + 13 * n, 12 + n % 3) for n in range(count))), [owned("short", 100), more]
    rules = rules_of(step=Length(9))
    assert faults(best(strips, rules, stock), strips, stock, rules) == []


ROLL_44 = Stretch("roll", None, Length(44))


def square(length: int, width: int, name: str = "owned", lot: str | None = None) -> Stretch:
    """A length in hand that is square."""
    return Stretch(name, Length(length), Length(width), squared=True, lot=lot)


def mixing(plan: Layout) -> list[str]:
    """The strips with pieces from more than one length."""
    places = {piece.strip: {each.stretch for each in plan.pieces if each.strip == piece.strip} for piece in plan.pieces}
    return [strip for strip, found in places.items() if len(found) > 1]


@pytest.mark.parametrize("policy", ["part widths", "half widths", "whole widths"])
def test_a_scrap_that_gives_nothing_changes_nothing_for_nine_sections_and_a_remnant_gives_what_it_can(
    policy: Policy,
) -> None:
    strips, rules = strips_of(*[(65, 12)] * 9), rules_of(policy=policy)
    alone = best(strips, rules, [ROLL_44])
    for wide in (8, 5, 1):
        beside = best(strips, rules, [square(20, wide), ROLL_44])
        assert (beside.roll, beside.joins, beside.proof.least) == (alone.roll, alone.joins, True)
    if policy == "part widths":
        plan = best(strips, rules, [square(61, 30), ROLL_44])
        assert (plan.roll, plan.proof.least, alone.roll) == (Length(133), True, Length(169))
        assert faults(plan, strips, [square(61, 30), ROLL_44], rules) == []


def bought_and_used(plan: Layout) -> tuple[Length, Length]:
    """What is taken of the roll, and of the lengths in hand."""
    roll = total([use.length for use in plan.uses if use.stretch == "roll"])
    return roll, plan.used - roll


@pytest.mark.long
def test_what_is_proven_at_once_of_eight_sections_is_what_looking_at_every_way_finds() -> None:
    proven = 0
    for seed in range(12):
        random = Random(seed)
        strips = strips_of(*[(random.randint(30, 200), random.choice([11, 13])) for _ in range(8)])
        stock = [square(random.randint(20, 90), random.choice([30, 36])), ROLL_44]
        at_once, all_ways = (best(strips, rules_of(effort=effort), stock) for effort in (400, 12_000))
        if at_once.proof.least:
            proven += 1
            assert bought_and_used(at_once) == bought_and_used(all_ways), seed
        assert bought_and_used(at_once) >= bought_and_used(all_ways), seed
    assert proven > 3


WIDE_44, NARROW = square(13, 44, "wide"), square(13, 31, "narrow")
CLEAR = Strip("a", "a", "face", Length(73), Length(12), no_join=((Length(40), Length(70)),))


@pytest.mark.parametrize(
    ("strips", "stock", "widths", "taken"),
    [
        # Neither width gives the section, or less is bought for it of both.
        (strips_of((73, 12)), [WIDE_44, NARROW], [30, 44], (0, 24)),
        (strips_of((73, 12)), [NARROW, ROLL_44], [30, 44], (12, 12)),
        # What is left of a width serves another section down to the least piece: 44 less 38, and 31 and 6 make 36.
        (strips_of((38, 12), (36, 12)), [WIDE_44, NARROW], [6, 31, 38], (0, 24)),
        (strips_of((45, 12)), [WIDE_44, NARROW], [15, 31], (0, 24)),
        ([CLEAR], [WIDE_44, NARROW], [30, 44], (0, 24)),
        # Dye lots are kept apart.
        (strips_of((73, 12)), [replace(NARROW, lot="A"), square(5, 31, "scrap", lot="B"), ROLL_44], [30, 44], (24, 0)),
    ],
)
def test_a_section_has_pieces_of_two_widths_where_that_is_what_there_is(
    strips: list[Strip], stock: list[Stretch], widths: list[int], taken: tuple[int, int]
) -> None:
    plan = best(strips, rules_of(), stock)
    assert sorted(piece.width for piece in plan.pieces) == [Length(width) for width in widths]
    assert bought_and_used(plan) == (Length(taken[0]), Length(taken[1]))
    assert faults(plan, strips, stock, rules_of()) == []
    assert "one width" not in plan.proof.among or taken != (12, 12)


def test_a_section_too_wide_for_all_the_cloth_is_refused_and_no_least_piece_nor_joins_are_proven_of_two_widths() -> (
    None
):
    assert isinstance(lay_out(strips_of((75, 12)), [WIDE_44, NARROW], rules_of()), Refusal)
    proof = best(strips_of((73, 12)), rules_of(), [WIDE_44, NARROW]).proof
    assert (proof.least, proof.fewest_joins) == (True, False)


@pytest.mark.parametrize("count", [8, 9, 12])
def test_no_section_mixes_dye_lots_where_none_has_to(count: int) -> None:
    stock = [square(12 * count + 2, 44, lot, lot) for lot in "AB"]
    plan = best(strips_of(*[(65, 12)] * count), rules_of(), [*stock, ROLL_44])
    assert (mixing(plan), plan.roll) == ([], ZERO)
    assert plan.proof.among.endswith("each section from one width and dye lot")


def test_dye_lots_that_have_to_be_mixed_are_not_said_to_be_one_and_one_counts_with_the_roll() -> None:
    a, b = square(13, 44, "a", "A"), square(13, 44, "b", "B")
    plan = best(strips_of((75, 12), (25, 10)), rules_of(), [a, b, square(15, 31, "c", "C")])
    assert mixing(plan) == ["a"]
    assert plan.proof.among.endswith("least of your own cloth, each section from one width")
    for stock, mixed, bought in (([a, ROLL_44], ["a"], 12), ([a, b, ROLL_44], [], 24)):
        plan = best(strips_of((75, 12)), rules_of(squaring=ZERO), stock)
        assert (mixing(plan), plan.roll) == (mixed, Length(bought))


def any_length(random: Random, usable: int) -> Stretch:
    """A length that is short, narrow or damaged, or all of these."""
    length = random.randint(40, 500)
    at = random.randint(1, length - 30)
    damage = ((quarter(at), quarter(at + random.randint(1, 25))),) if random.random() < 0.3 else ()
    narrow = usable - random.choice([0, 0, 20, 60, usable - 24])
    return Stretch(f"owned{random.random()}", quarter(length), quarter(narrow), random.random() < 0.5, damage)


@pytest.mark.parametrize("count", range(1, 13))
def test_a_length_more_in_hand_never_buys_more(count: int) -> None:
    for seed in range(5):
        random = Random(seed * 100 + count)
        first = sample(random, 1, 3)
        flats = [random.randint(20, 3 * first.usable) for _ in range(random.choice([1, 2, count]))]
        cuts = [random.randint(30, 70) for _ in range(random.choice([1, 2]))]
        sizes = tuple((random.choice(flats), random.choice(cuts)) for _ in range(count))
        job = Sample(sizes, first.usable, first.join, first.least)
        rules = job.rules(squaring=quarter(4), effort=400)
        stock, bought = [job.roll()], Length(100_000)
        for _ in range(4):
            plan = best(job.strips(), rules, stock)
            assert plan.roll <= bought, (seed, stock)
            assert plan.proof.bound <= plan.used
            assert faults(plan, job.strips(), stock, rules) == []
            stock, bought = [any_length(random, job.usable), *stock], plan.roll


def on_two_widths(random: Random, roll: bool) -> Sample:
    """A job on a wide and a narrow length."""
    job = sample(random, 2, 2)
    cut, narrow = max(cut for _, cut in job.sizes), job.usable - random.choice([20, 30, 60])
    held = [Held(random.randint(1, 2) * cut + random.randint(0, 9), wide) for wide in (job.usable, narrow)]
    return replace(job, stock=(*held, Held(None, job.usable)) if roll else tuple(held))


@pytest.mark.parametrize("roll", [True, False])
def test_nothing_proven_on_two_widths_is_beaten_by_the_exact_model(roll: bool) -> None:
    said = [compare_widths(on_two_widths(Random(seed), roll)) for seed in range(16)]
    assert [each for each in said if each not in ALIKE] == []
    assert said.count("equal") > 8


def test_a_full_width_of_the_narrowest_cloth_has_a_cut_edge_on_wider_cloth() -> None:
    sizes = strips_of(("72.5", "19.5"), ("83.25", "19.5"), ("69.25", "13.75"), ("56.5", "13.75"))
    stock = [Stretch("a", inches("98.25"), Length(49), True), Stretch("b", Length(15), Length(54), True)]
    rules = Rules(join_cost=Length(1), least_piece=Length(2), mark=quarter(1))
    plan = best(sizes, rules, stock)
    assert faults(plan, sizes, stock, rules) == []
    assert {each.rip_side for each in plan.pieces if each.stretch == "b" and not each.across} == {"right"}
