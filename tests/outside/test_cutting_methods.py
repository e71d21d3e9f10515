"""The methods of the cutting plan, each held to what its literature says of it.

The plan is a partition of the strips into groups with a search within each; searches of that kind: A. H. Land and A. G.
Doig, "An automatic method of solving discrete programming problems", Econometrica 28(3), 1960, p. 497-520; cutting
stock: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations Research
9(6), 1961, p. 849-859 (both from memory).
"""

from __future__ import annotations

from random import Random

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_flow

from tests.trade.cutting.jobs import best, rules_of, strips_of
from wizard.trade.cutting import Stretch
from wizard.trade.cutting.connected_group import Group, lacking
from wizard.trade.cutting.grid_units import demand_of, sum_over_sets
from wizard.trade.cutting.lower_bounds import LengthBounds
from wizard.trade.lengths import ZERO, Length

UNCUT = Length(1000)
"""A least piece so wide that no strip is joined: what is left is packing into bins."""


def test_strips_that_cannot_be_joined_are_packed_better_than_first_fit_decreasing() -> None:
    """First fit decreasing takes 3 bins of 11 for these, 2 would do: D. S. Johnson and others, "Worst-case performance
    bounds for simple one-dimensional packing algorithms", SIAM Journal on Computing 3(4), 1974, p. 299-325 (from
    memory), shows how far off that rule can be."""
    sizes = (5, 4, 3, 3, 3, 3)
    plan = best(strips_of(*((each, 10) for each in sizes)), rules_of(least_piece=UNCUT), [roll(11)])
    assert (plan.used, plan.joins, plan.proof.least) == (Length(20), 0, True)


def test_where_joins_cost_nothing_cloth_is_filled_to_the_last_width() -> None:
    """R. McNaughton, "Scheduling with deadlines and loss functions", Management Science 6(1), 1959, p. 1-12 (from
    memory): jobs that may be interrupted are wrapped around from machine to machine, and the longest takes no more than
    its share. Strips are the jobs: `ceil(sum / width)` widths, and one join fewer at the most."""
    random = Random(0)
    for _ in range(20):
        flats = [random.randint(1, 160) for _ in range(random.randint(1, 12))]
        rules = rules_of(join_cost=ZERO, least_piece=ZERO)
        plan = best(strips_of(*((each, 10) for each in flats)), rules, [roll(54)])
        rows = -(-sum(flats) // 54)
        assert plan.used == Length(10 * rows)
        assert plan.joins <= rows - 1


def test_a_shape_passes_exactly_when_cloth_can_flow_from_its_widths_to_its_strips() -> None:
    """P. Hall, "On representatives of subsets", Journal of the London Mathematical Society 10(1), 1935, p. 26-30; flow:
    L. R. Ford and D. R. Fulkerson, "Maximal flow through a network", Canadian Journal of Mathematics 8, 1956, p.
    399-404 (both from memory). Every set of strips has to be met by the widths it reaches."""
    random, passed = Random(0), 0
    for _ in range(200):
        join, usable, count = 4, 60, random.randint(2, 4)
        demands = [demand_of(random.randint(20, 150), 1, 12, join) for _ in range(count)]
        group = Group(demands, usable, join)
        shared = tuple(random.choices(group.sets, k=random.randint(1, 3)))
        counts = [sum(mask >> i & 1 for mask in shared) for i in range(count)]
        pure = [random.randint(0, 3) for _ in demands]
        lacks = lacking(group, counts, shared)
        passes = all(given * group.width >= lack for given, lack in zip(sum_over_sets(pure), lacks, strict=True))
        assert passes == flows(group, counts, shared, pure)
        passed += passes
    assert 20 < passed < 180


def flows(group: Group, counts: list[int], shared: tuple[int, ...], pure: list[int]) -> bool:
    """True when a flow from the room of the widths over the least pieces meets what every strip needs beyond them."""
    needs = [
        max(0, net - count * slim - own * group.width)
        for net, count, slim, own in zip(group.own, counts, group.slims, pure, strict=True)
    ]
    strips = 1 + len(shared)
    sink = strips + group.size
    capacity = np.zeros((sink + 1, sink + 1), dtype=np.int32)
    for number, mask in enumerate(shared, 1):
        capacity[0, number] = group.usable - group.least[mask]
        for strip in range(group.size):
            capacity[number, strips + strip] = (mask >> strip & 1) * 10_000
    for strip, need in enumerate(needs):
        capacity[strips + strip, sink] = need
    return bool(maximum_flow(csr_array(capacity), 0, sink).flow_value == sum(needs))


def test_the_bound_of_a_group_is_that_of_packing_by_area_with_its_joins() -> None:
    """The continuous bound: S. Martello and P. Toth, Knapsack Problems: Algorithms and Computer Implementations, Wiley,
    1990, chapter 8 (from memory), with one join for each piece but the first of a group."""
    demands = [demand_of(flat, 10, 12, 4) for flat in (130, 90, 70)]
    floors = LengthBounds(demands, 60 - 4, 4)
    assert floors.rows[0b111] == -(-(130 + 90 + 70 - 4) // 56)
    assert floors.rows[0b001] == -(-(130 - 4) // 56)


def roll(width: int) -> Stretch:
    """Cloth to be bought, so wide."""
    return Stretch("roll", None, Length(width))
