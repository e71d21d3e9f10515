"""The one door to the cutting plan."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.trade.cutting.grouping import Choice, Cloth, Found, search
from wizard.trade.cutting.laid import Job, as_cut, bought, layout
from wizard.trade.cutting.rows import rows_of
from wizard.trade.cutting.strips import Cutting, Layout, Proof, Refusal, Rules, Stretch, Strip
from wizard.trade.cutting.ticks import join_of, needs_of, refused, scale_of
from wizard.trade.cutting.words import class_of


def lay_out(strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> Cutting | Refusal:
    """Lay strips out on cloth: the least length of the asked class, then the fewest joins, and what is known of it.

    Pure and deterministic; never raises for values of the right types, and refuses what cannot be cut.
    """
    if not strips:
        return Refusal("no strips", None, None, None)
    roll = next((stretch for stretch in stock if stretch.length is None), None)
    if roll is None:
        return Refusal("no cloth", None, None, None)
    scale = scale_of(rules)
    needs, join, usable = needs_of(strips, rules, scale), join_of(rules, scale), scale.down(roll.usable)
    refusal = refused(strips, needs, usable, join, scale)
    if refusal:
        return refusal
    job = Job(tuple(strips), needs, (roll,), rules, scale, join)
    return part_widths(job, usable)


def part_widths(job: Job, usable: int) -> Cutting:
    """The least roll, and beside it the fewest joins that buy the same."""
    found = search(job.needs, Cloth(usable, job.join), job.rules.effort)
    best = chosen(job, found, found.front[0], usable)
    same = [each for each in found.front if buys(job, each.cost) == buys(job, found.front[0].cost)]
    fewest = min(same, key=lambda each: (each.joins, each.cost))
    return Cutting(best, None if fewest is found.front[0] else chosen(job, found, fewest, usable), ())


def buys(job: Job, cost: int) -> object:
    """What is bought for a length of roll in ticks."""
    return bought(job.rules, as_cut(job.rules, job.stock[0], job.scale.length(cost)))


def chosen(job: Job, found: Found, choice: Choice, usable: int) -> Layout:
    """A choice laid out with its proof."""
    return layout(job, rows_of(choice, job.needs, usable, job.join), proof_of(job, found, choice))


def proof_of(job: Job, found: Found, choice: Choice) -> Proof:
    """Least when a bound is met or the search is finished with nothing shorter left."""
    least = choice.cost == found.bound
    by = "none" if not least else "bound" if choice.cost == found.simple else "search"
    return Proof(least, job.scale.length(found.bound), by, class_of(job.rules), found.finished)  # type: ignore[arg-type]
