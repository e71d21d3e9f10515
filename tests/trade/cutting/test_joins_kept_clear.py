"""Spans in which no join may fall."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.comparing import ALIKE, compare_spanned
from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from tests.trade.cutting.random_jobs import any_stock, spanned
from wizard.trade.cutting import Refusal, Stretch, Strip, lay_out
from wizard.trade.lengths import Length


@pytest.mark.parametrize(
    ("flat", "spans", "used", "least"),
    [
        (80, [(30, 50)], 24, True),
        # A span that costs a width states the saving there would be without it; a join may lie on the edge of one.
        (107, [(50, 57)], 36, False),
        (107, [(10, Fraction(107, 2)), (Fraction(107, 2), 100)], 24, True),
    ],
)
def test_a_join_moves_out_of_a_span_at_no_price_where_there_is_room(
    flat: int, spans: list[tuple[int, int]], used: int, least: bool
) -> None:
    strip = replace(strips_of((flat, 12))[0], no_join=tuple((Length(a), Length(b)) for a, b in spans))
    plan = best([strip], rules_of())
    assert (plan.used, plan.proof.least, plan.proof.bound) == (Length(used), least, Length(24))
    assert faults(plan, [strip], [ROLL], rules_of()) == []


def test_spans_that_leave_no_place_for_a_join_are_refused() -> None:
    strip = replace(strips_of((107, 12))[0], no_join=((Length(1), Length(106)),))
    answer = lay_out([strip], [ROLL], rules_of())
    assert isinstance(answer, Refusal)
    assert (answer.reason, answer.strip) == ("cannot join", "a")


def test_cloth_and_joins_equal_the_exact_model_or_the_gap_is_stated() -> None:
    jobs = [spanned(Random(seed), 2) for seed in range(20)]
    said = [compare_spanned(job, 3) for job in jobs]
    assert [(job, each) for job, each in zip(jobs, said, strict=True) if each not in ALIKE] == []
    assert said.count("equal") > 10


def test_joins_keep_clear_on_any_cloth_by_any_policy() -> None:
    wrong = []
    for seed in range(60):
        random = Random(seed)
        job = spanned(random)
        policy = random.choice(["part widths", "half widths", "whole widths"])
        rules = job.rules(policy=policy, along=random.random() < 0.2, effort=2000)
        stock = any_stock(random, job.usable)
        answer = lay_out(job.strips(), stock, rules)
        if not isinstance(answer, Refusal):
            wrong += [(seed, each) for each in faults(answer.best, job.strips(), stock, rules)]
    assert wrong == []


# Two strips that share two widths, with spans in which no join may fall.
PAIR = [
    Strip("a", "a", "face", Length(169) / 4, Length(47) / 4),
    Strip("b", "b", "face", Length(135) / 4, Length(25) / 2, no_join=((Length(29), Length(71) / 2),)),
]
HELD = Stretch("held", Length(129) / 4, Length(39), squared=True)
NARROW_ROLL = Stretch("roll", None, Length(39), squared=True)


def test_two_strips_share_two_widths_where_only_so_a_length_gives_them_and_nothing_is_bought() -> None:
    plan = best(PAIR, rules_of(), [HELD])
    assert (plan.used, plan.joins) == (Length(25), 2)
    assert faults(plan, PAIR, [HELD], rules_of()) == []
    assert best(PAIR, rules_of(), [HELD, NARROW_ROLL]).roll == Length(0)
    assert best(PAIR, rules_of(), [NARROW_ROLL]).used == Length(25)
