"""Repeats: where each width starts, which edges meet at a join, and how the phases are ordered."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults, pattern_faults
from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from tests.trade.cutting.random_jobs import Sample, any_stock, of_many_joins, quarter, sample
from wizard.trade.cutting import Cutting, Phase, Policy, Refusal, Repeat, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length

HALF = Fraction(27, 2)


@pytest.mark.parametrize(
    ("sizes", "repeat", "used"),
    [
        # Every width but the last takes whole repeats, and the one that wastes most is cut last.
        ([(160, 12)], Repeat(Length(9)), 18 + 18 + 12),
        ([(54, 10), (54, 17)], Repeat(Length(9)), 18 + 10),
        # A half-drop alternates where a change is the shorter step, and changes once where it is the longer.
        ([(213, 13)], Repeat(Length(9), "half-drop"), 3 * HALF + 13),
        ([(213, 17)], Repeat(Length(9), "half-drop"), 18 + Fraction(45, 2) + 18 + 17),
    ],
)
def test_widths_lie_so_that_the_pattern_meets_and_are_proven(
    sizes: list[tuple[int, int]], repeat: Repeat, used: Fraction
) -> None:
    plan = best(strips_of(*sizes), rules_of(repeat=repeat))
    assert (plan.used, plan.proof.least) == (Length(used), True)
    if used == 3 * HALF + 13:
        assert [piece.start for piece in plan.pieces] == [Length(HALF) * n for n in range(4)]


def test_in_a_shared_width_the_tail_of_one_lies_left_and_the_head_of_the_next_right() -> None:
    plan = best(strips_of((80, 12), (80, 12)), rules_of(repeat=Repeat(Length(6))))
    assert plan.uses[0].rows == 3
    shared = [piece for piece in plan.pieces if sum(piece.row == other.row for other in plan.pieces) == 2]
    assert {(piece.order, piece.rip_side) for piece in shared} == {(2, "right"), (1, "left")}


def wrong_with(strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> list[str] | None:
    """What is wrong with the plan; None where it is refused."""
    answer = lay_out(strips, stock, rules)
    if isinstance(answer, Refusal):
        return None
    return faults(answer.best, strips, stock, rules) + pattern_faults(answer.best, rules)


@pytest.mark.parametrize("phase", ["straight", "half-drop"])
def test_every_join_meets_selvedge_to_selvedge_at_the_right_phase(phase: Phase) -> None:
    for seed in range(60):
        random = Random(seed)
        job = sample(random, 4, 3)
        repeat = Repeat(Length(Fraction(random.choice(["3", "5", "25/3", "27", "12"]))), phase)
        policy = random.choice(["part widths", "half widths", "whole widths"])
        rules = job.rules(repeat=repeat, squaring=quarter(4), policy=policy)
        assert not wrong_with(job.strips(), any_stock(random, job.usable), rules), seed


@pytest.mark.parametrize("policy", ["part widths", "half widths", "whole widths"])
def test_joins_kept_out_of_spans_still_meet_selvedge_to_selvedge(policy: Policy) -> None:
    found = []
    for seed in range(120):
        random = Random(seed)
        sizes = [(random.randint(60, 240), random.randint(8, 16)) for _ in range(random.randint(1, 3))]
        strips = []
        for strip in strips_of(*sizes):
            starts = sorted(random.randint(0, int(strip.flat.inches)) for _ in range(2))
            spans = tuple((Length(start), Length(start + random.randint(2, 8))) for start in starts)
            strips.append(replace(strip, no_join=spans))
        repeat = Repeat(Length(random.choice([5, 9, 13])))
        found.append(wrong_with(strips, [ROLL], rules_of(policy=policy, repeat=repeat)))
    assert [each for each in found if each] == []
    assert found.count([]) > 60


def test_a_section_of_matched_cloth_is_cut_from_one_dye_lot_where_that_can_be() -> None:
    stock = [Stretch(name, Length(40), Length(54), lot=name) for name in ("one", "two")]
    plan = best(strips_of((107, 12), (107, 12)), rules_of(repeat=Repeat(Length(6))), stock)
    lots = {piece.strip: {each.stretch for each in plan.pieces if each.strip == piece.strip} for piece in plan.pieces}
    assert sorted(lots.values()) == [{"one"}, {"two"}]
    short = [Stretch(name, Length(31), Length(54), lot=name) for name in ("one", "two")]
    both = best(strips_of((180, 12)), rules_of(repeat=Repeat(Length(6))), short)
    assert {use.stretch: use.rows for use in both.uses} == {"one": 2, "two": 2}


def test_eight_sections_of_matched_cloth_meet_the_bound_and_are_proven() -> None:
    flats = (612, 2699, 1070, 2519, 972, 1354, 1621, 1574)
    strips = strips_of(*((Fraction(flat, 16), (10, 12)[n % 2]) for n, flat in enumerate(flats)))
    plan = best(strips, rules_of(repeat=Repeat(Length(5))))
    assert plan.proof.least
    assert plan.proof.bound == plan.used


def test_whole_widths_that_would_need_an_inner_one_trimmed_cannot_meet_the_pattern() -> None:
    # Two widths give 107 in. Three have 50 in over, and the outer two can lose 24 in each.
    rules = rules_of(policy="whole widths", least_piece=Length(30), repeat=Repeat(Length(6)))
    answer = lay_out(strips_of((110, 12)), [ROLL], rules)
    assert answer == Refusal("cannot join", None, Length(30), ROLL.usable)
    assert best(strips_of((112, 12)), rules).joins == 2


def test_a_length_whose_area_would_do_but_not_with_the_pattern_is_not_said_to_be_too_short_for_certain() -> None:
    # Two widths of 12 in take 24 in. On a repeat of 20 in the second begins 20 in further on, so they take 32.
    own, rules = Stretch("own", Length(30), ROLL.usable, squared=True), rules_of(repeat=Repeat(Length(20)))
    answer = lay_out(strips_of((54, 12), (54, 12)), [own], rules)
    assert answer == Refusal("no cloth", None, Length(24), Length(30), certain=False)
    assert isinstance(lay_out(strips_of((54, 12), (54, 12)), [replace(own, length=Length(32))], rules), Cutting)


def faults_of_fewest(job: Sample, stock: list[Stretch], repeat: Repeat) -> list[object] | None:
    """What is wrong with the plan of fewest joins; None where there is none beside the least."""
    rules = job.rules(repeat=repeat, squaring=quarter(4), step=quarter(150), effort=400)
    answer = lay_out(job.strips(), stock, rules)
    if isinstance(answer, Refusal) or answer.fewest_joins is None:
        return None
    fewer, plan = answer.fewest_joins, answer.best
    said: list[object] = [*faults(fewer, job.strips(), stock, rules), *pattern_faults(fewer, rules)]
    return [*said, *([(fewer, plan)] if fewer.joins >= plan.joins or fewer.buy > plan.buy else [])]


def many_joins(random: Random, seed: int) -> list[object] | None:
    job = of_many_joins(random)
    repeat = Repeat(quarter(random.choice([8, 12, 20])), random.choice(["straight", "half-drop"]))
    own = Stretch("own", quarter(random.randint(60, 200)), quarter(job.usable))
    return faults_of_fewest(job, [own, job.roll()] if seed % 2 else [job.roll()], repeat)


def any_job(random: Random, seed: int) -> list[object] | None:
    job = sample(random, 5, 3)
    repeat = Repeat(Length(random.choice([3, 5, 12])), random.choice(["straight", "half-drop"]))
    return faults_of_fewest(job, any_stock(random, job.usable) if seed % 2 else [job.roll()], repeat)


@pytest.mark.parametrize(
    ("made", "jobs", "most"), [(many_joins, 40, 20), pytest.param(any_job, 160, 3, marks=pytest.mark.long)]
)
def test_the_fewest_joins_on_matched_cloth_buy_the_same_and_still_match(
    made: Callable[[Random, int], list[object] | None], jobs: int, most: int
) -> None:
    found = [made(Random(seed), seed) for seed in range(jobs)]
    assert [each for each in found if each] == []
    assert found.count([]) > most
