"""Random jobs of every kind, checked piece by piece; and more strips than are searched at once, wrapped around."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults, pattern_faults
from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from tests.trade.cutting.work_record import KINDS, Asked
from wizard.trade.cutting import Cutting, Refusal, Repeat, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length


def wrong_with(asked: Asked) -> list[object] | None:
    """What is wrong with any layout of a job; None where it is refused."""
    answer = lay_out(asked.strips, asked.stock, asked.rules)
    if isinstance(answer, Refusal):
        return None
    fewest = [each for each in [answer.fewest_joins()] if each]
    plans = [answer.best, *answer.others(), *fewest]
    said: list[object] = [fault for plan in plans for fault in faults(plan, asked.strips, asked.stock, asked.rules)]
    if asked.rules.repeat and not asked.rules.along:
        said += [fault for plan in (answer.best, *fewest) for fault in pattern_faults(plan, asked.rules)]
    best = answer.best
    return said + [(fewer, best) for fewer in fewest if fewer.joins >= best.joins or fewer.buy > best.buy]


def wrong_of(kind: str, jobs: range) -> dict[int, list[object]]:
    """The jobs of a kind of which something is wrong. More than half can be cut, so that it means something."""
    found = {number: wrong_with(KINDS[kind](number)) for number in jobs}
    assert [*found.values()].count([]) > len(jobs) / 2
    return {number: wrong for number, wrong in found.items() if wrong}


@pytest.mark.parametrize("kind", sorted({*KINDS} - {"along_the_roll"}))
def test_pieces_and_offcuts_tile_every_stretch_make_every_strip_and_meet_the_pattern(kind: str) -> None:
    assert wrong_of(kind, range(160)) == {}


@pytest.mark.parametrize("jobs", [range(160), pytest.param(range(160, 800), marks=pytest.mark.long)], ids=len)
def test_pieces_and_offcuts_of_lanes_do_so_too(jobs: range) -> None:
    assert wrong_of("along_the_roll", jobs) == {}


# What holds of every plan: more flat or a longer cut never needs less cloth, and nothing raises.
SIZES = st.lists(st.tuples(st.integers(20, 160), st.sampled_from([10, 12, 13, 18])), min_size=1, max_size=4)
ANY = st.builds(Length, st.fractions(-5, 120, max_denominator=16))


@settings(deadline=None, max_examples=25)
@given(SIZES, st.integers(0, 3), st.integers(1, 30), st.integers(0, 6))
def test_a_larger_flat_or_a_longer_cut_never_needs_less_cloth(
    sizes: list[tuple[int, int]], which: int, wider: int, longer: int
) -> None:
    which %= len(sizes)
    flat, cut = sizes[which]
    more = [*sizes[:which], (flat + wider, cut + longer), *sizes[which + 1 :]]
    rules = rules_of(least_piece=Length(3), effort=50_000)
    assert best(strips_of(*more), rules).used >= best(strips_of(*sizes), rules).used


@settings(deadline=None, max_examples=25)
@given(SIZES)
def test_nothing_goes_under_the_bound_or_the_area(sizes: list[tuple[int, int]]) -> None:
    plan = best(strips_of(*sizes), rules_of())
    assert plan == best(strips_of(*sizes), rules_of()), "the same job gives the same plan"
    assert plan.used >= plan.proof.bound
    assert plan.proof.bound >= plan.area_bound
    assert plan.proof.least == (plan.used == plan.proof.bound)


PAIRS = st.lists(st.tuples(ANY, ANY), max_size=2).map(tuple)
STRIP = st.builds(Strip, st.sampled_from("abcd"), st.just("s"), st.just("face"), ANY, ANY, PAIRS)
STRETCH = st.builds(Stretch, st.sampled_from("rs"), st.none() | ANY, ANY, st.booleans(), PAIRS)
RULES = st.builds(
    Rules,
    join_cost=ANY,
    least_piece=ANY,
    mark=st.sampled_from([Length(1), Length(Fraction(1, 16)), Length(0)]),
    squaring=ANY,
    policy=st.sampled_from(["part widths", "half widths", "whole widths"]),
    surplus=st.sampled_from(["trim", "keep"]),
    repeat=st.none() | st.builds(Repeat, ANY, st.sampled_from(["straight", "half-drop"])),
    step=st.none() | ANY,
    keeps=st.fractions(0, 1, max_denominator=10),
    along=st.booleans(),
    effort=st.integers(0, 200),
)


@settings(deadline=None, max_examples=120)
@given(st.lists(STRIP, max_size=3), st.lists(STRETCH, max_size=3), RULES)
def test_whatever_is_asked_there_is_a_plan_or_a_refusal(
    strips: list[Strip], stock: list[Stretch], rules: Rules
) -> None:
    assert isinstance(lay_out(strips, stock, rules), Cutting | Refusal)


CUT = Length(12)
RUNS = "45 17/32, 42 9/32, 35 3/4, 31 9/32, 42 5/8, 58 7/16, 22 13/32, 59 5/32, 68 7/16, 29 15/16, 14 3/8, 32 11/32"


def strips_of_flats(flats: Sequence[Fraction], cut: Length = CUT) -> list[Strip]:
    return [Strip(f"s{n}", f"s{n}", "face", Length(flat), cut) for n, flat in enumerate(flats)]


def random_flats(random: Random) -> list[Fraction]:
    """13 to 40 flats on the sixteenth, some of them within a width."""
    widest = random.choice([900, 2400, 3200])
    return [Fraction(random.randint(200, widest), 16) for _ in range(random.randint(13, 40))]


def wrapped(flats: Sequence[Fraction], usable: int) -> int:
    """The widths of one connected group, a join taking 1 in: `ceil((sum A - 1) / (U - 1))`."""
    return -((1 - sum(flats)) // (usable - 1))


def by_simple_groups(flats: Sequence[Fraction], usable: int) -> int:
    """The fewest widths of the groups of so many neighbours, as they stand, by size, and by side of the bed."""
    orders = [list(flats), sorted(flats), [flat for side in range(4) for flat in flats[side::4]]]
    return min(
        sum(wrapped(order[at : at + size], usable) for at in range(0, len(order), size))
        for order in orders
        for size in range(1, len(order) + 1)
    )


def test_thirteen_sections_take_the_21_widths_of_one_wrap_around() -> None:
    runs = [sum(map(Fraction, run.split()), Fraction(0)) for run in [*RUNS.split(", "), "60 1/8"]]
    plan = best(strips_of_flats([2 * run + 2 for run in runs], Length(Fraction("17.4375"))), rules_of())
    assert (plan.uses[0].rows, plan.used) == (21, Length(Fraction("366.1875")))
    assert plan.proof.least == (plan.used == plan.proof.bound)


@pytest.mark.parametrize("first", range(0, 40, 10))
def test_no_grouping_by_a_simple_rule_takes_fewer_widths(first: int) -> None:
    for seed in range(first, first + 10):
        random = Random(f"wrap around {seed}")
        flats, usable = random_flats(random), random.choice([45, 54, 60, 110])
        strips, roll, rules = strips_of_flats(flats), Stretch("roll", None, Length(usable)), rules_of()
        plan = best(strips, rules, [roll])
        assert plan.uses[0].rows <= by_simple_groups(flats, usable), seed
        assert faults(plan, strips, [roll], rules) == []


LOTS = [Stretch("one", Length(130), Length(54), lot="a"), Stretch("two", Length(95), Length(54), lot="b")]
KEPT_CLEAR = ((Length(20), Length(24)), (Length(60), Length(64)))


@pytest.mark.parametrize("count", [13, 21, 40])
@pytest.mark.parametrize(
    ("rules", "stock", "change"),
    [
        (rules_of(), [*LOTS, ROLL], {}),
        (rules_of(), [ROLL], {"no_join": KEPT_CLEAR}),
        (rules_of(policy="whole widths"), [ROLL], {}),
        (rules_of(policy="half widths", surplus="keep"), [ROLL], {}),
        (rules_of(repeat=Repeat(Length(7))), [ROLL], {}),
        (rules_of(repeat=Repeat(Length(7), "half-drop")), [ROLL], {}),
        (rules_of(along=True), [ROLL], {}),
    ],
)
def test_every_hard_rule_is_kept(count: int, rules: Rules, stock: list[Stretch], change: dict[str, object]) -> None:
    random = Random(f"hard rules {count}")
    flats = [Fraction(random.randint(1100, 2400), 16) for _ in range(count)]
    strips = [replace(strip, cut=Length(random.choice([12, 13]))) for strip in strips_of_flats(flats)]
    strips = [replace(strip, **change) for strip in strips]
    plan = best(strips, rules, stock)
    assert faults(plan, strips, stock, rules) == []
    if rules.repeat:
        assert pattern_faults(plan, rules) == []
    if plan.uses[0].stretch in ("one", "two"):
        assert all(len({piece.stretch for piece in plan.pieces if piece.strip == strip.id}) == 1 for strip in strips)
