"""Strips planned by length: all together where they are few, in batches where they are many."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from msgspec.structs import replace

from wizard.trade.cutting.fewest import fewest_within
from wizard.trade.cutting.grouping import Choice, Cloth, batches_of, by_area, groups_of, whole
from wizard.trade.cutting.parting import Least, Parting, chained, in_one_width
from wizard.trade.cutting.sharing import Shape
from wizard.trade.cutting.tally import spend
from wizard.trade.cutting.ticks import Need
from wizard.trade.cutting.wrap_around import wrap_around


class ByLength:
    """The least plan of some strips, and beside it the one of fewest joins."""

    def __init__(self, needs: Sequence[Need], cloth: Cloth, effort: int) -> None:
        if cloth.usable <= cloth.join:
            needs, cloth = [whole(need) for need in needs], replace(cloth, join=0)
        self.needs, self.cloth = needs, cloth
        self.batches = batches_of(needs, effort)
        """Strips by their numbers, those of longest cut first."""
        share = effort // len(self.batches)
        spend(30)
        self.partings = [Parting([needs[place] for place in batch], cloth, share) for batch in self.batches]
        self.effort = effort

    @cached_property
    def found(self) -> list[Least]:
        """The least plan of each batch."""
        return [parting.least() for parting in self.partings]

    @cached_property
    def bound(self) -> int:
        """What no plan goes under: of several batches the layered bound by area."""
        return self.found[0].bound if len(self.batches) == 1 else by_area(self.needs, self.cloth)

    @cached_property
    def least(self) -> Least:
        """The plans of all batches; or a wrap-around of all strips, where that is shorter."""
        shape = in_one_width(self.needs, self.cloth.usable) if len(self.batches) > 1 else None
        if shape is not None:
            return Least(chained([((1 << len(self.needs)) - 1, shape)]), shape.key[0], shape.key[0], True)
        choice = self.joined([found.choice for found in self.found])
        alone = self.found[0] if len(self.batches) == 1 else Least(choice, self.bound, self.bound, False)
        if alone.finished or choice.cost == self.bound:
            return replace(alone, choice=choice)
        other = wrap_around(self.needs, self.cloth, self.effort, self.bound)
        return replace(alone, choice=other if other and other.key < choice.key else choice)

    def fewest(self, limit: int) -> tuple[Choice | None, bool]:
        """The plan of fewer joins than the least that takes at most `limit`, where there is one; is that certain?

        Batches have what is over one after the other; none is looked for where they take more than that together.
        """
        plans, certain = list[Choice](), len(self.batches) == 1
        over = limit - sum([found.choice.cost for found in self.found])
        if over < 0:
            return None, False
        for parting, found in zip(self.partings, self.found, strict=True):
            choice, sure = fewest_within(parting, found.choice.cost + over, found.choice.joins)
            plans.append(choice or found.choice)
            certain = certain and sure
            over -= plans[-1].cost - found.choice.cost
        if sum([plan.joins for plan in plans]) >= self.least.choice.joins:
            return None, certain
        return self.joined(plans), certain

    def joined(self, plans: Sequence[Choice]) -> Choice:
        """The plans of all batches as one, its sets numbered as in the whole job."""
        return chained(
            renumbered(mask, shape, batch)
            for batch, plan in zip(self.batches, plans, strict=True)
            for mask, shape in groups_of(plan)
        )


def renumbered(mask: int, shape: Shape, batch: Sequence[int]) -> tuple[int, Shape]:
    """A group as a set of the whole job's strips, and its shape with its strips in the order they have there."""
    if not mask & (mask - 1):
        return 1 << batch[mask.bit_length() - 1], shape
    members = [place for n, place in enumerate(batch) if mask >> n & 1]
    order = sorted(range(len(members)), key=members.__getitem__)
    shared = tuple([sum([1 << n for n, before in enumerate(order) if each >> before & 1]) for each in shape.shared])
    return sum([1 << place for place in members]), Shape(shape.key, shared, tuple([shape.pure[n] for n in order]))
