"""`lay_out`: the cutting plan of some strips on some cloth, with its proof.

`PurchaseBound` bounds what strips buy from their widths alone: there is no search, so thousands can be tried.
"""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from typing import Literal

from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import could_save, fewest_within, room_of, stock_plan, too_little
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
from wizard.trade.cutting.grid_units import CutJob, demand_of, refused, scale_of, spans_of, without_spans
from wizard.trade.cutting.no_join_spans import fewest_alone
from wizard.trade.cutting.pareto_partition import Choice, Cloth, by_area
from wizard.trade.cutting.partition import Least
from wizard.trade.cutting.pattern_level import least_bought
from wizard.trade.cutting.pattern_match import grouped
from wizard.trade.cutting.pattern_plan import fewer_matched, on_pattern, pattern_of
from wizard.trade.cutting.piece_widths import halved, halves_of, rows_of
from wizard.trade.cutting.place_pieces import as_cut, bought, layout, most_that_buys
from wizard.trade.cutting.plan_by_length import ByLength
from wizard.trade.cutting.stock_groups import StockPlan, filled, sound_runs, squared_off
from wizard.trade.cutting.work_budget import once, spend
from wizard.trade.lengths import ZERO, Length


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
    found, certain = stock_plan(job)
    if found is None:
        return not_enough(job, certain=certain)
    return with_other_layouts(job, found, layout(job, found.rows, proof_on_stock(job, found)))


def with_other_layouts(job: CutJob, found: StockPlan, plan: Layout) -> Cutting:
    """The plan with its other layouts; where all cloth in hand is left whole, those of the roll alone."""
    if job.rules.policy != "part widths":
        return Cutting(plan)
    roll = job.roll
    if roll is not None and not roll.damage and all(job.stock[row.stretch] is roll for row in found.rows):
        alone = part_widths(replace(job, stock=(roll,)))
        if alone.best.used == plan.used:
            return dataclasses.replace(alone, best=plan, fewest_joins=once(partial(fewer_of_two, alone, plan)))
    return Cutting(plan, once(partial(fewer_joins, job, found, plan)), once(partial(other_layouts, job, plan)))


def other_layouts(job: CutJob, plan: Layout) -> tuple[Layout, ...]:
    """Slit and stacked layouts of what is bought."""
    # Late: they are laid out only when somebody looks.
    from wizard.trade.cutting.slit_stacked import shorter_beside, shorter_ways

    return shorter_ways(job, job.scale.down(plan.used)) if only_roll(job) else shorter_beside(job, plan)


def fewer_of_two(alone: Cutting, plan: Layout) -> Layout | None:
    """The fewest joins on the roll alone, where they are fewer than the plan's."""
    fewest = alone.fewest_joins()
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
    # Nothing is rounded after this.
    least, join, up = scale.up(rules.least_piece), max(scale.up(rules.join_cost), 0), scale.up
    demands = tuple([demand_of(up(s.flat), up(s.cut), least, join, spans_of(s.no_join, join, scale)) for s in strips])
    return CutJob(tuple(strips), demands, kept, rules, scale, join)


def refusals(job: CutJob) -> Iterator[Refusal]:
    """Why strips cannot be cut from the widest cloth."""
    usable, length, strips = job.widest, job.scale.length, list(zip(job.strips, job.demands, strict=True))
    yield from filter(None, [refused(job)])
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
    proven = found.finished
    if proven and job.spanned:
        # Joins allowed anywhere would save nothing.
        free, _ = stock_plan(replace(job, demands=without_spans(job.demands)))
        proven = free is not None and free.finished and free.score == found.score
    if not proven:
        usable = job.widest
        bound = min(by_area(job.demands, Cloth(max(usable, job.join + 1), job.join)), found.score[0] + found.score[1])
        saves = could_save(job, found.score[0], bound - room_of(job) if bound > room_of(job) else 0)
        return Proof(False, job.scale.length(bound), "none", words, False, saves)
    by: Literal["bound", "search"] = "search" if found.fewest else "bound"
    return Proof(True, used, by if job.rules.policy == "part widths" else "policy", words, found.fewest)


class PurchaseBound:
    """The bound of strips that differ in their flat widths only, for any such widths."""

    def __init__(self, strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> None:
        self.job = job = job_of(strips, stock, rules)
        self.pattern = None if rules.along else pattern_of(job)
        self.usable = job.widest
        self.ticks = job.scale.up(rules.mark)
        """Grid units in one ruler mark."""
        self.roll = job.roll
        self.places = sorted(range(len(strips)), key=lambda place: -job.demands[place].cut)
        """The numbers of the strips, longest cut first."""
        cuts = [job.demands[place].cut for place in self.places]
        least_step = self.pattern.least_step if self.pattern else int
        self.steps: list[int | Fraction] = [least_step(cut) for cut in cuts]
        """How far apart their widths start at the least."""
        self.saved = max(step - cut for step, cut in zip(self.steps, cuts, strict=True))
        """What the last width of a run may save of its step."""
        rooms = [run.room for run in sound_runs(job) if run.room]
        self.room = sum(rooms if rules.along or self.pattern else [filled(room, sorted({*cuts})) for room in rooms])
        """The most that widths of these strips use of the cloth in hand."""
        self.lanes = self.usable // cuts[-1]
        """The most strips that fit side by side where they go along the roll."""

    def buys(self, marks: Sequence[int], *, tied: bool = False) -> Length:
        """For flat widths in ruler marks, in the order of the strips: no layout buys less. If `tied`, none in which
        each strip shares widths with the next, as most do where that saves cloth."""
        least = self._least(marks, tied)
        used: int | Fraction = least - (self.saved if self.pattern else self.room)
        if self.pattern and self.room:
            # What the roll must give beside cloth in hand.
            used = least_bought(self.job, (Fraction(least), Fraction(self.saved)), self.pattern)
        if self.roll is None or used <= 0:
            return ZERO
        return bought(self.job.rules, as_cut(self.job.rules, self.roll, self.job.scale.length(used)))

    def has_room(self, marks: Sequence[int], *, tied: bool = False) -> bool:
        """False where flat widths in ruler marks cannot all be cut from the cloth in hand; if `tied`, not with widths
        shared from each strip to the next."""
        return self._least(marks, tied) - self.saved * len(sound_runs(self.job)) <= self.room

    def _least(self, marks: Sequence[int], tied: bool) -> int | Fraction:
        """The least that all widths add up to."""
        spend(10 + 3 * len(marks))
        flats = [marks[place] * self.ticks for place in self.places]
        rules, join, width = self.job.rules, self.job.join, self.usable - self.job.join
        if rules.along:
            area = sum([flat * self.job.demands[place].cut for flat, place in zip(flats, self.places, strict=True)])
            lanes = -(-sum(flats) // self.lanes) if self.lanes else 0
            return max(-(-area // self.usable), lanes)
        if width <= 0:
            return 0
        if rules.policy != "part widths":
            return self._of_fixed(flats)
        used: int | Fraction = 0
        net = -join if tied else 0
        for flat, step, below in zip(flats, self.steps, [*self.steps[1:], 0], strict=True):
            net += flat if tied else flat - join
            if below < step:
                used += max(1, -(-net // width)) * (step - below)
        return used

    def _of_fixed(self, flats: Sequence[int]) -> int | Fraction:
        """Whole widths by themselves; odd halves two to a width, the longest together."""
        half, join = self.job.rules.policy == "half widths", self.job.join
        used: int | Fraction = 0
        odd = False
        for flat, step in zip(flats, self.steps, strict=True):
            count = halves_of(demand_of(flat, 1, 1, join), self.usable, join, half=half)
            used += (count // 2 + (count % 2 and not odd)) * step
            odd = odd != bool(count % 2)
        return used

    def groups(self, layout: Layout, buys: Length) -> list[tuple[list[int], int]]:
        """The strips of a layout that share widths with each other, by number, and the ruler marks that all their
        widths can give them where this much is bought."""
        numbers = {strip.id: number for number, strip in enumerate(self.job.strips)}
        rows: dict[tuple[str, int], set[int]] = {}
        for piece in layout.pieces:
            rows.setdefault((piece.stretch, piece.row), set()).add(numbers[piece.strip])
        joins = Counter(numbers[piece.strip] for piece in layout.pieces)
        gives = {stretch.id: self._gives(stretch, buys) for stretch in self.job.stock}
        out = []
        for group in grouped(rows.values()):
            room = sum(gives[stretch] for (stretch, _), strips in rows.items() if strips <= group)
            lost = self.job.join * sum(joins[strip] - 1 for strip in group)
            out.append((sorted(group), (room - lost) // self.ticks))
        return out

    def _gives(self, stretch: Stretch, buys: Length) -> int:
        """The most a width of a stretch gives, or a lane along it."""
        if not self.job.rules.along:
            return self.job.scale.down(stretch.usable)
        whole, keeps = buys if stretch.length is None else stretch.length, self.job.rules.keeps
        left = whole - squared_off(self.job.rules, stretch)
        washed = stretch.length is None and 0 < keeps < 1
        return max(self.job.scale.down(left * keeps if washed else left), 0)
