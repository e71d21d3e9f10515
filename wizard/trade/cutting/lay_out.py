"""`lay_out`: the cutting plan of some strips on some cloth, with its proof."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from functools import partial
from typing import Literal

from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import Unfit, could_save, fewest_within, room_of, stock_plan, too_little
from wizard.trade.cutting.cut_records import (
    LEAST_BOUGHT,
    Cutting,
    Layout,
    Proof,
    Refusal,
    Rules,
    Stretch,
    Strip,
    class_of,
)
from wizard.trade.cutting.grid_units import CutJob, demands_of, join_of, refused, scale_of, without_spans
from wizard.trade.cutting.no_join_spans import fewest_alone
from wizard.trade.cutting.pareto_partition import Choice, Cloth, by_area
from wizard.trade.cutting.partition import Least
from wizard.trade.cutting.pattern_plan import fewer_matched, on_pattern, pattern_of
from wizard.trade.cutting.piece_widths import halved, rows_of
from wizard.trade.cutting.place_pieces import layout, most_that_buys
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.cutting.stock_groups import StockPlan
from wizard.trade.cutting.work_budget import once, spend
from wizard.trade.lengths import ZERO


def lay_out(strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> Cutting | Refusal:
    """Lay strips out on cloth: least to buy, then least of the cloth in hand, then fewest joins; and how good that is
    known to be.

    Pure and deterministic. Never raises for values of the right types; returns a Refusal for what cannot be cut.
    Several strips may share a section and a layer; their ids must differ.
    """
    spend(250 + 25 * len(strips))
    if not strips:
        return Refusal("no strips", None, None, None)
    job = job_of(strips, stock, rules)
    if not job.stock:
        return Refusal("no cloth", None, None, None)
    if not rules.along:
        return next(refusals(job), None) or plan_for_cloth(job)
    # Late: most skirts are cut across, and what lies along the roll costs every start.
    from wizard.trade.cutting.railroaded import along_roll

    return along_roll(job)


def plan_for_cloth(job: CutJob) -> Cutting | Refusal:
    """The plan for the kind of cloth there is; a Refusal where there is not enough."""
    pattern = pattern_of(job)
    if pattern:
        plan = on_pattern(job, pattern)
        if not isinstance(plan, Layout):
            return plan or not_enough(job, certain=False)
        return Cutting(plan, once(partial(fewer_matched, job, pattern, plan)))
    if job.rules.policy == "part widths" and only_roll(job):
        return part_widths(job)
    found = stock_plan(job)
    if isinstance(found, Unfit):
        return not_enough(job, certain=found.certain)
    return with_other_layouts(job, found, layout(job, found.rows, proof_on_stock(job, found)))


def with_other_layouts(job: CutJob, found: StockPlan, plan: Layout) -> Cutting:
    """The plan with its other layouts; where all cloth in hand is left whole, those of the roll alone."""
    if job.rules.policy != "part widths":
        return Cutting(plan)
    roll = job.roll
    if roll is not None and not roll.damage and all(job.stock[row.stretch] is roll for row in found.rows):
        alone = part_widths(replace(job, stock=(roll,)))
        if alone.best.used == plan.used:
            return dataclasses.replace(alone, best=plan, fewer=once(partial(fewer_of_two, alone, plan)))
    return Cutting(plan, once(partial(fewer_joins, job, found, plan)), once(partial(other_layouts, job, plan)))


def other_layouts(job: CutJob, plan: Layout) -> tuple[Layout, ...]:
    """Slit and stacked layouts of what is bought."""
    # Late: they are laid out only when somebody looks.
    from wizard.trade.cutting.slit_stacked import shorter_beside, shorter_ways

    return shorter_ways(job, job.scale.down(plan.used)) if only_roll(job) else shorter_beside(job, plan)


def fewer_of_two(alone: Cutting, plan: Layout) -> Layout | None:
    """The fewest joins on the roll alone, where they are fewer than the plan's."""
    fewest = alone.fewest_joins
    return fewest if fewest and fewest.joins < plan.joins else None


def fewer_joins(job: CutJob, found: StockPlan, plan: Layout) -> Layout | None:
    """The fewest joins on cloth in hand and what the plan buys in shop steps, where they are fewer than the plan's."""
    fewer = fewest_within(job, found, most_that_buys(job, plan))
    if fewer is None or fewer.score[2] >= found.score[2]:
        return None
    words, least = plan.proof.among, found.score[0] - job.scale.up(plan.proof.saves or ZERO)
    saves = could_save(job, fewer.score[0], least)
    return layout(job, fewer.rows, Proof(False, plan.proof.bound, "none", words, fewer.finished, saves))


def only_roll(job: CutJob) -> bool:
    """True when all the cloth is one undamaged roll to be bought."""
    return len(job.stock) == 1 and job.stock[0].length is None and not job.stock[0].damage


def job_of(strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> CutJob:
    """The job in grid units. Of several rolls to be bought the first counts."""
    scale = scale_of(rules.mark, rules.join_cost)
    rolls = [stretch for stretch in stock if stretch.length is None]
    kept = tuple([stretch for stretch in stock if stretch.length is not None or stretch is rolls[0]])
    return CutJob(tuple(strips), demands_of(strips, rules, scale), kept, rules, scale, join_of(rules, scale))


def refusals(job: CutJob) -> Iterator[Refusal]:
    """Why strips cannot be cut from the widest cloth."""
    usable, length, strips = job.widest, job.scale.length, list(zip(job.strips, job.demands, strict=True))
    yield from filter(None, [refused(job.strips, job.demands, usable, job.join, job.scale)])
    for strip, demand in strips:
        if job.rules.policy == "half widths" and not halved(demand, usable, job.join):
            yield Refusal("piece too narrow", strip.id, length(demand.least), length(usable // 2))
    for strip, demand in strips:
        if demand.spans and fewest_alone(demand, usable, job.join) is None:
            yield Refusal("cannot join", strip.id, strip.flat, length(usable))
    if job.roll:
        return
    longest = max(stretch.length or ZERO for stretch in job.stock)
    for strip, demand in strips:
        if demand.cut > job.scale.down(longest):
            yield Refusal("cut too long", strip.id, strip.cut, longest)


def not_enough(job: CutJob, *, certain: bool) -> Refusal:
    """The least that all strips take, against all the sound cloth."""
    usable = job.widest
    joins = usable > job.join
    needed = by_area(job.demands, Cloth(usable, job.join)) if joins else sum(each.cut for each in job.demands)
    return too_little(job, needed, certain=certain)


def part_widths(job: CutJob) -> Cutting:
    """The least length of the roll, with the fewest joins that buy the same."""
    cloth = Cloth(job.scale.down(job.stock[0].usable), job.join)
    plans = ByLength(job.demands, cloth, job.rules.effort)
    found = limited_by_spans(job, cloth, plans.least)
    best = laid_choice(job, found, found.choice, cloth)
    fewer = once(partial(fewer_by_length, job, plans, found, best))
    return Cutting(best, fewer, once(partial(other_layouts, job, best)))


def fewer_by_length(job: CutJob, plans: ByLength, found: Least, best: Layout) -> Layout | None:
    """The fewest joins in as much roll as the plan buys in shop steps, where they are fewer than the plan's."""
    limit = most_that_buys(job, best)
    fewest, certain = plans.fewest(limit) if limit > found.choice.cost else (None, True)
    return laid_choice(job, replace(found, finished=certain), fewest, plans.cloth) if fewest else None


def limited_by_spans(job: CutJob, cloth: Cloth, found: Least) -> Least:
    """The proof of a plan with joins kept clear: only as far as it takes no more than one with joins anywhere."""
    if not job.spanned:
        return found
    without = ByLength(without_spans(job.demands), cloth, job.rules.effort)
    if len(without.batches) > 1 and not found.finished:
        return replace(found, bound=without.bound, simple=without.bound)
    free = without.least
    same = found.choice.key == free.choice.key
    return replace(found, bound=free.bound, simple=free.simple, finished=free.finished and same)


def laid_choice(job: CutJob, found: Least, choice: Choice, cloth: Cloth) -> Layout:
    """A choice laid out with its proof."""
    return layout(job, rows_of(choice, job.demands, cloth.usable, job.join), proof_of(job, found, choice))


def proof_of(job: CutJob, found: Least, choice: Choice) -> Proof:
    """Least where a bound is met, or the search is finished and nothing shorter is left."""
    bound, words = job.scale.length(found.bound), class_of(job.rules)
    if choice.cost > found.bound:
        return Proof(False, bound, "none", words, found.finished)
    return Proof(True, bound, "bound" if choice.cost == found.simple else "search", words, found.finished)


def proof_on_stock(job: CutJob, found: StockPlan) -> Proof:
    """A finished search proves it; with whole or half widths the policy leaves no choice."""
    used, words = job.scale.length(found.score[0] + found.score[1]), class_of(job.rules)
    if len(job.stock) > 1:
        words += LEAST_BOUGHT
    words += found.kept
    if not (found.finished and spans_cost_nothing(job, found)):
        usable = job.widest
        bound = min(by_area(job.demands, Cloth(max(usable, job.join + 1), job.join)), found.score[0] + found.score[1])
        saves = could_save(job, found.score[0], bound - room_of(job) if bound > room_of(job) else 0)
        return Proof(False, job.scale.length(bound), "none", words, False, saves)
    by: Literal["bound", "search"] = "search" if found.fewest else "bound"
    return Proof(True, used, by if job.rules.policy == "part widths" else "policy", words, found.fewest)


def spans_cost_nothing(job: CutJob, found: StockPlan) -> bool:
    """True when joins allowed anywhere would save nothing."""
    if not job.spanned:
        return True
    free = stock_plan(replace(job, demands=without_spans(job.demands)))
    return isinstance(free, StockPlan) and free.finished and free.score == found.score
