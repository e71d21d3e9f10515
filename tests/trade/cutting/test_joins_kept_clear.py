"""Spans in which no join may fall."""

from __future__ import annotations

from random import Random

from msgspec.structs import replace

from tests.trade.cutting.comparing import compare_spanned
from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import ROLL, best, rules_of, strips_of
from tests.trade.cutting.random_jobs import any_stock, spanned
from wizard.trade.cutting import Refusal, Stretch, Strip, lay_out
from wizard.trade.lengths import Length


def test_a_join_moves_out_of_the_span_at_no_price_where_there_is_room() -> None:
    strip = replace(strips_of((80, 12))[0], no_join=((Length(30), Length(50)),))
    plan = best([strip], rules_of())
    assert (plan.used, plan.joins, plan.proof.least) == (Length(24), 1, True)
    assert faults(plan, [strip], [ROLL], rules_of()) == []


def test_a_span_that_costs_a_width_states_the_saving_there_would_be_without_it() -> None:
    strip = replace(strips_of((107, 12))[0], no_join=((Length(50), Length(57)),))
    plan = best([strip], rules_of())
    assert (plan.used, plan.proof.least, plan.proof.bound) == (Length(36), False, Length(24))


def test_a_join_may_lie_on_the_very_edge_of_a_span() -> None:
    strip = replace(strips_of((107, 12))[0], no_join=((Length(10), Length(107) / 2), (Length(107) / 2, Length(100))))
    assert best([strip], rules_of()).used == Length(24)


def test_spans_that_leave_no_place_for_a_join_are_refused() -> None:
    strip = replace(strips_of((107, 12))[0], no_join=((Length(1), Length(106)),))
    answer = lay_out([strip], [ROLL], rules_of())
    assert isinstance(answer, Refusal)
    assert (answer.reason, answer.strip) == ("cannot join", "a")


def test_cloth_and_joins_equal_the_exact_model_or_the_gap_is_stated() -> None:
    jobs = [spanned(Random(seed), 2) for seed in range(20)]
    said = [compare_spanned(job, 3) for job in jobs]
    wrong = [
        (job, each) for job, each in zip(jobs, said, strict=True) if each not in ("equal", "not solved", "gap stated")
    ]
    assert wrong == []
    assert said.count("equal") > 10


def test_joins_keep_clear_on_any_cloth_by_any_policy() -> None:
    wrong = []
    for seed in range(60):
        random = Random(seed)
        job = spanned(random)
        policy = random.choice(["part widths", "half widths", "whole widths"])
        rules = replace(job.job.rules(), policy=policy, along=random.random() < 0.2, effort=2000)
        stock = any_stock(random, job.job.usable)
        answer = lay_out(job.strips(), stock, rules)
        if not isinstance(answer, Refusal):
            found = faults(answer.best, job.strips(), stock, rules)
            wrong += [(seed, found)] if found else []
    assert wrong == []


# Two strips that share two widths, with spans in which no join may fall.
PAIR = [
    Strip("a", "a", "face", Length(169) / 4, Length(47) / 4),
    Strip("b", "b", "face", Length(135) / 4, Length(25) / 2, no_join=((Length(29), Length(71) / 2),)),
]
HELD = Stretch("held", Length(129) / 4, Length(39), squared=True)
NARROW_ROLL = Stretch("roll", None, Length(39), squared=True)


def test_two_strips_share_two_widths_where_only_so_a_length_gives_them() -> None:
    plan = best(PAIR, rules_of(), [HELD])
    assert (plan.used, plan.joins) == (Length(25), 2)
    assert faults(plan, PAIR, [HELD], rules_of()) == []


def test_nothing_is_bought_where_two_widths_shared_twice_give_all() -> None:
    assert (best(PAIR, rules_of(), [HELD, NARROW_ROLL]).roll, best(PAIR, rules_of(), [NARROW_ROLL]).used) == (
        Length(0),
        Length(25),
    )
