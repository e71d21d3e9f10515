"""Repeats: where each width starts, which edges meet at a join, how phases are ordered; against trying every way."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise, permutations, product
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults, pattern_faults
from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from wizard.trade.cutting import Cutting, Phase, Policy, Refusal, Repeat, Stretch, lay_out
from wizard.trade.cutting.pattern_match import Pattern, matched
from wizard.trade.cutting.piece_widths import Row
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


Width = tuple[int, int]
"""Cut length and phase."""


def step(cut: int, repeat: Fraction, change: bool) -> Fraction:
    """The first multiple of the repeat, or odd half of it, that is not under the cut length."""
    at = repeat / 2 if change else repeat
    while at < cut:
        at += repeat
    return at


@cache
def least(widths: tuple[Width, ...], repeat: Fraction) -> Fraction:
    """What some widths take one after another, in the best of all orders."""
    return min(
        (
            sum((step(one[0], repeat, one[1] != other[1]) for one, other in pairwise(order)), Fraction(0))
            + order[-1][0]
            for order in set(permutations(widths))
            if order
        ),
        default=Fraction(0),
    )


def bought(widths: tuple[Width, ...], rooms: list[int], repeat: Fraction) -> Fraction:
    """The least that any sharing out buys beside owned lengths. One run sets the level, a repeat is lost on others."""
    found = []
    for level, share in product(range(len(rooms) + 1), product(range(len(rooms) + 1), repeat=len(widths))):
        lots = [
            tuple(sorted(w for w, run in zip(widths, share, strict=True) if run == n)) for n in range(len(rooms) + 1)
        ]
        lost = [repeat if lot and n != level else Fraction(0) for n, lot in enumerate(lots)]
        takes = [least(lot, repeat) + more for lot, more in zip(lots, lost, strict=True)]
        if all(take <= room for take, room in zip(takes, rooms, strict=False)):
            found.append(takes[-1])
    return min(found)


def jobs(phase: Phase) -> Iterator[tuple[list[tuple[int, int]], list[int], int]]:
    """Small jobs: flat and cut length of each strip, owned lengths, the repeat."""
    for seed in range(40):
        random = Random(f"{phase} {seed}")
        cuts = [random.randint(8, 20) for _ in range(2)]
        sizes = [(random.choice([40, 90, 100, 150]), random.choice(cuts)) for _ in range(2)]
        yield sizes, [random.randint(9, 60) for _ in range(random.randint(1, 2))], random.choice([5, 7, 12, 24])


def test_rows_of_two_phases_come_in_the_order_that_takes_least_of_all() -> None:
    for seed in range(200):
        random = Random(seed)
        pattern = Pattern(Fraction(random.choice([5, 7, 12, 24])), half_drop=True)
        rows = [Row(random.choice([8, 13, 21]), ((n, 1),), usable=10) for n in range(random.randint(1, 5))]
        phases = [random.randint(0, 1) for _ in rows]
        halves = [[row for row, phase in zip(rows, phases, strict=True) if phase == half] for half in (0, 1)]
        order = matched(halves, pattern)
        widths = tuple(sorted((row.cut, phase) for row, phase in zip(rows, phases, strict=True)))
        assert sorted(row.parts for row in order) == [row.parts for row in rows]
        assert [phases[row.parts[0][0]] for row in order] == [row.phase for row in order]
        assert sum(row.cut + row.after for row in order) == least(widths, pattern.length), seed


def whole_widths(sizes: list[tuple[int, int]], phase: Phase) -> Iterator[tuple[Width, ...]]:
    """The widths of each strip, which of its first lies on which row; of a half-drop the next lies on the other."""
    counts = [max(1, -(-(flat - 1) // 53)) for flat, _ in sizes]
    for firsts in product((0, 1), repeat=len(sizes)):
        rows = zip(sizes, firsts, counts, strict=True)
        yield tuple(
            (cut, (first + n) % 2 * (phase == "half-drop")) for (_, cut), first, count in rows for n in range(count)
        )


def widths_of_two(
    sizes: list[tuple[int, int]], usable: int, join: int, least_piece: int
) -> Iterator[tuple[Width, ...]]:
    """The widths that give two strips: each in its own, or one width shared by the tail of one and the head of the
    other. Counted up one at a time, and more than is needed never takes less."""
    (flat, cut), (other_flat, other_cut) = sizes
    alone = [next(n for n in range(1, 99) if n * usable - join * (n - 1) >= each) for each in (flat, other_flat)]
    yield tuple([(cut, 0)] * alone[0] + [(other_cut, 0)] * alone[1])
    for one, other in product(range(alone[0]), range(alone[1])):
        wide = max(least_piece if one else 0, flat - one * (usable - join))
        other_wide = max(least_piece if other else 0, other_flat - other * (usable - join))
        if wide + other_wide <= usable:
            yield tuple([(cut, 0)] * one + [(other_cut, 0)] * other + [(max(cut, other_cut), 0)])


@pytest.mark.parametrize(
    ("policy", "phase", "least_proven"),
    [("whole widths", "straight", 40), ("whole widths", "half-drop", 31), ("part widths", "straight", 36)],
)
def test_on_owned_lengths_no_matched_plan_buys_less_than_one_that_is_proven(
    policy: Policy, phase: Phase, least_proven: int
) -> None:
    proven = 0
    for sizes, owned, length in jobs(phase):
        stock = [*(Stretch(f"o{n}", Length(room), Length(54), squared=True) for n, room in enumerate(owned)), ROLL]
        rules = rules_of(repeat=Repeat(Length(length), phase), policy=policy)
        plan = best(strips_of(*sizes), rules, stock)
        assert not faults(plan, strips_of(*sizes), stock, rules) + pattern_faults(plan, rules)
        ours = next((use.length.inches for use in plan.uses if use.stretch == "roll"), Fraction(0))
        ways = whole_widths(sizes, phase) if policy == "whole widths" else widths_of_two(sizes, 54, 1, 6)
        theirs = min(bought(widths, owned, Fraction(length)) for widths in ways)
        assert ours >= theirs, "the trial of all ways misses one"
        if plan.proof.least:
            assert ours == theirs, (sizes, owned, length)
        proven += plan.proof.least
    assert proven >= least_proven


def test_a_second_dye_lot_has_a_repeat_set_aside_to_find_the_level_of_the_first() -> None:
    stock = [Stretch(name, Length(40), Length(54), squared=True, lot=name) for name in ("one", "two")]
    plan = best(strips_of((107, 12), (107, 12)), rules_of(repeat=Repeat(Length(6))), stock)
    starts = [min(each.start for each in plan.pieces if each.stretch == use.stretch) for use in plan.uses]
    assert sorted(starts) == [Length(0), Length(6)]


def test_a_half_drop_is_turned_for_the_lengths_there_are() -> None:
    # On 64 3/4 in: the half of a, and b one phase on; on 83 in, a repeat set aside, the other half of a, and c.
    rules = rules_of(repeat=Repeat(Length(Fraction(65, 4)), "half-drop"), join_cost=Length(3))
    stock = [Stretch(name, Length(room), Length(137), True) for name, room in (("one", 83), ("two", Fraction(259, 4)))]
    strips = strips_of(("269.75", "28.5"), ("94.25", "31"), ("119.5", "31"))
    plan = best(strips, rules, [*stock, Stretch("roll", None, Length(137))])
    assert not [use for use in plan.uses if use.stretch == "roll"]


@pytest.mark.parametrize("wide", [60, 50])
def test_matched_cloth_in_hand_of_another_width_than_the_roll_is_cut_where_it_does_and_nothing_is_bought(
    wide: int,
) -> None:
    """By hand: 100 flat and 12 long are two widths of 60 or three of 50; two repeats of 9 a width but the last."""
    rules = rules_of(repeat=Repeat(Length(9)), squaring=Length(0))
    enough = 18 * (1 if wide == 60 else 2) + 12
    for length, buys in ((enough, False), (enough - 1, True)):
        stock = (Stretch("shelf", Length(length), Length(wide)), Stretch("roll", None, Length(54)))
        plan = best(strips_of((100, 12)), rules, stock)
        assert (plan.roll > Length(0)) is buys
        assert plan.proof.least
        assert "on the cloth of one width" in plan.proof.among
        assert faults(plan, strips_of((100, 12)), stock, rules) + pattern_faults(plan, rules) == []


def test_wherever_the_level_is_found_on_a_length_the_plan_s_pieces_can_be_moved_to_it_and_keep_off_the_damage() -> None:
    """As the cutting step tells it: all measures back by as much as the row comes sooner; what would so come onto the
    damage, and all after it, a repeat further on."""
    moved = past_damage = 0
    for seed in range(60):
        random = Random(seed)
        repeat = Fraction(random.choice([9, 13, 11, 12]))
        phase: Phase = random.choice(["straight", "half-drop"])
        rules = rules_of(repeat=Repeat(Length(repeat), phase), squaring=Length(0))
        strips = strips_of(*((random.randrange(200, 330), random.randrange(9, 15)) for _ in range(3)))
        stock = []
        for name in ("one", "two"):
            start = random.randrange(25, 60)
            damage = ((Length(start), Length(start + random.randrange(2, 9))),)
            stock.append(Stretch(name, Length(random.randrange(110, 160)), Length(54), damage=damage))
        answer = lay_out(strips, (*stock, ROLL), rules)
        if not isinstance(answer, Cutting):
            continue
        assert faults(answer.best, strips, (*stock, ROLL), rules) + pattern_faults(answer.best, rules) == [], seed
        for stretch in stock:
            here = sorted((p.start.inches, p.cut.inches) for p in answer.best.pieces if p.stretch == stretch.id)
            rows = sorted(dict(here).items())  # pieces of one width begin together: the longest counts
            ends = {each.start + each.along for each in answer.best.offcuts
                    if (each.stretch, each.kind, each.along) == (stretch.id, "repeat", Length(repeat))}  # fmt: skip
            if not rows or Length(rows[0][0]) not in ends:
                continue
            for part in (0, 1, 3, 5, 7):
                moved += 1
                past_damage += keeps_off(rows, stretch, repeat * Fraction(part, 8), repeat)
    assert moved > 100
    assert past_damage > 5


def keeps_off(rows: list[tuple[Fraction, Fraction]], stretch: Stretch, back: Fraction, repeat: Fraction) -> bool:
    """Move widths, given as (start, cut length), back; assert that they lie on sound cloth. True where some had to go a
    repeat further on."""
    ((first, last),) = [(start.inches, end.inches) for start, end in stretch.damage]
    assert stretch.length is not None
    on, at = Fraction(0), Fraction(0)
    for start, cut in rows:
        if start >= last and start - back + on < last:
            on += repeat
        begin = start - back + on
        assert begin >= at
        at = begin + cut
        assert at <= first or begin >= last
        assert at <= stretch.length.inches
    return on > 0
