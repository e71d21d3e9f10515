"""Cloth of several usable widths or dye lots: no length in hand makes a plan dearer, and what is said of it is true."""

from __future__ import annotations

from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.comparing import ALIKE, compare_widths
from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import Held, Sample, best, quarter, rules_of, sample, strips_of
from tests.trade.sample_jobs import inches
from wizard.trade.cutting import Layout, Policy, Refusal, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import ZERO, Length, total

ROLL = Stretch("roll", None, Length(44))


def owned(length: int, width: int, name: str = "owned", lot: str | None = None) -> Stretch:
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
    alone = best(strips, rules, [ROLL])
    for wide in (8, 5, 1):
        beside = best(strips, rules, [owned(20, wide), ROLL])
        assert (beside.roll, beside.joins, beside.proof.least) == (alone.roll, alone.joins, True)
    if policy == "part widths":
        plan = best(strips, rules, [owned(61, 30), ROLL])
        assert (plan.roll, plan.proof.least, alone.roll) == (Length(133), True, Length(169))
        assert faults(plan, strips, [owned(61, 30), ROLL], rules) == []


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
        stock = [owned(random.randint(20, 90), random.choice([30, 36])), ROLL]
        at_once, all_ways = (best(strips, rules_of(effort=effort), stock) for effort in (400, 12_000))
        if at_once.proof.least:
            proven += 1
            assert bought_and_used(at_once) == bought_and_used(all_ways), seed
        assert bought_and_used(at_once) >= bought_and_used(all_ways), seed
    assert proven > 3


WIDE, NARROW = owned(13, 44, "wide"), owned(13, 31, "narrow")
CLEAR = Strip("a", "a", "face", Length(73), Length(12), no_join=((Length(40), Length(70)),))


@pytest.mark.parametrize(
    ("strips", "stock", "widths", "taken"),
    [
        # Neither width gives the section, or less is bought for it of both.
        (strips_of((73, 12)), [WIDE, NARROW], [30, 44], (0, 24)),
        (strips_of((73, 12)), [NARROW, ROLL], [30, 44], (12, 12)),
        # What is left of a width serves another section down to the least piece: 44 less 38, and 31 and 6 make 36.
        (strips_of((38, 12), (36, 12)), [WIDE, NARROW], [6, 31, 38], (0, 24)),
        (strips_of((45, 12)), [WIDE, NARROW], [15, 31], (0, 24)),
        ([CLEAR], [WIDE, NARROW], [30, 44], (0, 24)),
        # Dye lots are kept apart.
        (strips_of((73, 12)), [replace(NARROW, lot="A"), owned(5, 31, "scrap", lot="B"), ROLL], [30, 44], (24, 0)),
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
    assert isinstance(lay_out(strips_of((75, 12)), [WIDE, NARROW], rules_of()), Refusal)
    proof = best(strips_of((73, 12)), rules_of(), [WIDE, NARROW]).proof
    assert (proof.least, proof.fewest_joins) == (True, False)


@pytest.mark.parametrize("count", [8, 9, 12])
def test_no_section_mixes_dye_lots_where_none_has_to(count: int) -> None:
    stock = [owned(12 * count + 2, 44, lot, lot) for lot in "AB"]
    plan = best(strips_of(*[(65, 12)] * count), rules_of(), [*stock, ROLL])
    assert (mixing(plan), plan.roll) == ([], ZERO)
    assert plan.proof.among.endswith("each section from one width and dye lot")


def test_dye_lots_that_have_to_be_mixed_are_not_said_to_be_one_and_one_counts_with_the_roll() -> None:
    a, b = owned(13, 44, "a", "A"), owned(13, 44, "b", "B")
    plan = best(strips_of((75, 12), (25, 10)), rules_of(), [a, b, owned(15, 31, "c", "C")])
    assert mixing(plan) == ["a"]
    assert plan.proof.among.endswith("least of your own cloth, each section from one width")
    for stock, mixed, bought in (([a, ROLL], ["a"], 12), ([a, b, ROLL], [], 24)):
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
