"""Two strips that meet their floor are planned without a search: as the search would plan them."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

import pytest

from wizard.trade.cutting.grid_units import Demand, demand_of
from wizard.trade.cutting.pareto_partition import Cloth
from wizard.trade.cutting.partition import PartitionSearch


class Searching(PartitionSearch):
    """Searches every pair."""

    def pair(self, mask: int, members: Sequence[int]) -> bool:
        return False


def demands_from(random: Random, least: int, join: int) -> list[Demand]:
    """Strips that can all be cut from cloth of 216 ticks, the longest first."""
    demands = [
        demand_of(random.randint(40, 700), random.choice([50, 60, 75]), least, join)
        for _ in range(random.randint(2, 6))
    ]
    return sorted(demands, key=lambda demand: -demand.cut)


@pytest.mark.parametrize("effort", [1, 2, 3, 7, 60, 400])
def test_a_pair_that_meets_its_floor_is_planned_as_the_search_would_plan_it_and_takes_as_much_effort(
    effort: int,
) -> None:
    quick = 0
    for seed in range(150):
        random = Random(seed)
        join = random.choice([0, 4, 6])
        demands, cloth = demands_from(random, random.choice([join + 4, 24, 90]), join), Cloth(216, join)
        ours, searched = PartitionSearch(demands, cloth, effort), Searching(demands, cloth, effort)
        assert ours.least() == searched.least()
        assert ours.left == searched.left
        quick += len([mask for mask in ours.shapes if mask.bit_count() == 2 and mask not in ours.groups])
    assert (quick > 0) == (effort > 1)
