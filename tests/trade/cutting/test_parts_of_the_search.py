"""Parts of the search, each against trying everything or worked by hand."""

from __future__ import annotations

from random import Random

from tests.trade.cutting.jobs import best, rules_of, strips_of
from wizard.trade.cutting import PurchaseBound, Stretch
from wizard.trade.cutting.grid_units import ENDLESS, Demand, demand_of
from wizard.trade.cutting.pareto_partition import Cloth
from wizard.trade.cutting.plan_by_length import Wrapping
from wizard.trade.cutting.slit_stacked import Slot, length_bound, spread
from wizard.trade.lengths import ZERO, Length


def test_a_lane_no_wider_than_a_join_has_a_bound_as_well() -> None:
    narrow = [demand_of(2, 10, 1, 4), demand_of(3, 8, 1, 4)]
    assert [length_bound(narrow, usable, 4) <= 18 for usable in (3, 4, 5)] == [True] * 3
    assert length_bound([demand_of(9, 10, 1, 4)], 4, 4) == ENDLESS
    roll = Stretch("roll", None, Length(1))
    assert PurchaseBound(strips_of((30, 12), (20, 12)), (roll,), rules_of()).buys([480, 320]) == ZERO


def slots_and_strip(random: Random) -> tuple[Demand, list[Slot]]:
    """Some spaces beside longer pieces, and a strip that is shorter than most are high."""
    join = 2
    demand = demand_of(random.randint(10, 130), random.randint(4, 9), random.randint(3, 12), join)
    return demand, [Slot(n, random.randint(0, 30), random.randint(0, 20)) for n in range(random.randint(0, 4))]


def test_a_strip_beside_others_is_whole_keeps_the_least_piece_and_takes_fewest_widths_of_its_own() -> None:
    random, usable, join = Random(0), 50, 2
    for _ in range(450):
        demand, slots = slots_and_strip(random)
        taken, own = spread(demand, slots, usable, join)
        pieces = [width for _, width in taken] + own
        assert sum(pieces) == demand.flat + join * (len(pieces) - 1)
        assert min(pieces) >= demand.least
        assert all(width <= slot.width for slot, width in taken)
        assert all(width <= usable for width in own)
        for slot in slots:
            assert sum(each is slot for each, _ in taken) * demand.cut <= slot.height
        places = sorted((s.width for s in slots for _ in range(s.height // demand.cut)), reverse=True)
        places = [width for width in places if width >= demand.least]
        # With fewer widths of its own, no number of spaces gives it.
        for fewer in range(len(own)):
            for beside in range(len(places) + 1):
                fits = sum(places[:beside]) + fewer * usable >= demand.flat + join * (fewer + beside - 1)
                assert not (0 < fewer + beside <= demand.most and fits)


def test_the_plan_kept_in_an_order_is_the_best_of_all_in_that_order() -> None:
    for seed in range(200):
        random = Random(seed)
        cuts = sorted((random.randint(8, 12) for _ in range(random.randint(2, 4))), reverse=True)
        demands = [demand_of(random.randint(10, 150), cut, random.randint(5, 20), 2) for cut in cuts]
        wrapping = Wrapping(demands, Cloth(54, 2))
        every = [wrapping.start]  # Every plan in one order, none dropped.
        for place in range(len(demands)):
            every = [further for state in every for further in wrapping.added(state, place)]
        found = wrapping.in_order([*range(len(demands))])
        assert (found and found[:2]) == min((state[:2] for state in every), default=None)


def test_many_sections_side_by_side_in_one_width_are_proven_by_the_bound() -> None:
    plan = best(strips_of(*[(3, cut) for cut in range(7, 24)]), rules_of())
    assert (plan.used, plan.joins, plan.proof.least, plan.proof.by) == (Length(23), 0, True, "bound")
