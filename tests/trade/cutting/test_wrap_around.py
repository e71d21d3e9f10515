"""More strips than are searched at once: never more widths than by wrapping around, over all of them or over groups."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults, pattern_faults
from tests.trade.cutting.jobs import ROLL, best, rules_of
from wizard.trade.cutting import Repeat, Rules, Stretch, Strip
from wizard.trade.lengths import Length

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


def in_widths(left: Fraction) -> tuple[int, Fraction]:
    """How many widths of 54 in so much takes, all but the last of them full; and the last piece."""
    count = max(-((1 - left) // 53), 1)
    return count, left - 53 * (count - 1)


def one_after_the_other(flats: Sequence[Fraction], least: int) -> int:
    """Widths of 54 in that strips take in turn, each begun in what the last one left unless a piece were too narrow."""
    rows, room = 0, Fraction(0)
    for flat in flats:
        if flat <= room:
            room -= flat
            continue
        count, last = in_widths(flat + 1 - room)
        if room < least or last < least:
            count, last = in_widths(flat)
        rows, room = rows + count, 54 - max(last, Fraction(least) if count > 1 else last)
    return rows


@pytest.mark.parametrize("least", [6, 15, 20])
def test_a_wide_least_piece_is_kept_at_no_more_than_one_wrap_around(least: int) -> None:
    for seed in range(10):
        flats = random_flats(Random(f"least {least} {seed}"))
        strips, rules = strips_of_flats(flats), rules_of(least_piece=Length(least))
        plan = best(strips, rules)
        assert plan.uses[0].rows <= one_after_the_other(flats, least)
        assert faults(plan, strips, [ROLL], rules) == []


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
