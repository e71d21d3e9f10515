"""Exact mixed-integer models of cutting plans, written from the rules alone, solved by HiGHS; the engine beside them.

They know nothing of the engine: every strip may have a piece in every width or lane, a piece has a width of its own.
All measures are whole ticks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from tests.trade.cutting.jobs import Run, Sample, quarter
from wizard.trade.cutting import Layout, Policy, Refusal, lay_out
from wizard.trade.lengths import Length


@dataclass(frozen=True)
class Answer:
    """What HiGHS says: whether it has finished, the best it found, and the cloth nothing goes under in any case."""

    solved: bool
    score: tuple[int, int, int] | None
    """What is bought, what is used of the lengths in hand, and the pieces; none where nothing was found."""
    bound: float = -np.inf


@dataclass
class Model:
    """Rows and columns of a mixed-integer programme, added one at a time."""

    cost: list[float] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    rows: list[tuple[Mapping[int, float], float, float]] = field(default_factory=list)

    def column(self, lower: float, upper: float, whole: bool = False, cost: float = 0) -> int:
        self.cost.append(cost)
        self.lower.append(lower)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.cost) - 1

    def either(self, cost: float = 0) -> int:
        """A column that is 0 or 1."""
        return self.column(0, 1, True, cost)

    def row(self, terms: Mapping[int, float], lower: float, upper: float) -> None:
        self.rows.append((terms, lower, upper))

    def at_most(self, terms: Mapping[int, float], upper: float = 0) -> None:
        self.row(terms, -np.inf, upper)

    def exactly(self, terms: Mapping[int, float], value: float) -> None:
        self.row(terms, value, value)

    def solve(self, seconds: float) -> tuple[bool, np.ndarray | None, float]:
        """Whether it is solved or found impossible, the values, and the bound on the cost."""
        data, at, columns, lows, highs = [], [0], [], [], []
        for terms, low, high in self.rows:
            columns += list(terms)
            data += list(terms.values())
            at.append(len(columns))
            lows.append(low)
            highs.append(high)
        answer = milp(
            np.array(self.cost),
            constraints=LinearConstraint(
                csr_matrix((data, columns, at), shape=(len(self.rows), len(self.cost))), lows, highs
            ),
            bounds=Bounds(self.lower, self.upper),
            integrality=np.array(self.whole),
            options={"time_limit": seconds, "mip_rel_gap": 0},
        )
        bound = -np.inf if answer.mip_dual_bound is None else answer.mip_dual_bound
        return answer.status == 0 or (answer.status == 2 and answer.x is None), answer.x, bound


def ones(columns: Iterable[int], value: float = 1.0) -> dict[int, float]:
    """Each of the columns with the same factor."""
    return dict.fromkeys(columns, value)


def longest_first(job: Sample) -> list[int]:
    """The cut lengths there are."""
    return sorted({cut for _, cut in job.sizes}, reverse=True)


def strips_made(model: Model, job: Sample, held: list[list[int]], width: list[list[int]]) -> None:
    """Every strip is made from its pieces, or cut whole where it is under the least piece."""
    for i, (flat, _) in enumerate(job.sizes):
        pieces = ones(row[i] for row in held)
        model.exactly(ones(row[i] for row in width) | {each: -float(job.join) for each in pieces}, flat - job.join)
        if flat < job.least:
            model.exactly(pieces, 1)


def piece_in(model: Model, job: Sample, i: int, held: int, width: int, reach: Iterable[int], most: int) -> None:
    """A piece of a strip lies where the cloth is long enough for it, and is as wide as a piece may be."""
    model.at_most({held: 1.0} | ones(reach, -1.0))
    model.at_most({width: 1.0, held: -float(most)})
    model.row({width: 1.0, held: -float(min(job.least, job.sizes[i][0]))}, 0, np.inf)


def cross_cut(
    job: Sample, seconds: float = 10, *, widths: int = 0, within: int | None = None, apart: bool = False
) -> Answer:
    """The least bought, then the least used of the lengths in hand, then the fewest pieces; these first where no more
    than `within` may be bought. At most so many widths are cut: without a number as many as strips on their own take.
    `apart`: every strip is cut from cloth of one usable width."""
    model, cuts, runs, widths = Model(), longest_first(job), job.runs(), widths or job.widths()
    owned, endless = [run for run in runs if run.length], [n for n, run in enumerate(runs) if run.length is None]
    widest = max(run.usable for run in runs)
    pieces_most = len(job.sizes) * widths + 1
    cloth_most = widths * cuts[0] + sum(run.start + (run.length or 0) for run in owned) + 1
    costs = (pieces_most * (cloth_most if owned else 1), pieces_most, 1)
    if within is not None:
        costs = cloth_most, 1, cloth_most * cloth_most
    held = [[model.either(costs[2]) for _ in job.sizes] for _ in range(widths)]
    width = [[model.column(0, widest) for _ in job.sizes] for _ in range(widths)]
    lies = [
        [[model.either(0 if run.length else cut * costs[0]) for cut in cuts] for run in runs] for _ in range(widths)
    ]
    for r, row in enumerate(lies):
        model.row(ones(each for on in row for each in on), 0, 1)
        given = {each: -float(run.usable) for on, run in zip(row, runs, strict=True) for each in on}
        model.at_most(ones(width[r]) | given)
        for i, (_, cut) in enumerate(job.sizes):
            reach = [on[m] for on in row for m, each in enumerate(cuts) if each >= cut]
            piece_in(model, job, i, held[r][i], width[r][i], reach, widest)
        if r:  # Longer widths first: plans that differ by the order of widths alone are one.
            long = {on[m]: float(cut) for on in lies[r - 1] for m, cut in enumerate(cuts)}
            model.row(long | {on[m]: -float(cut) for on in row for m, cut in enumerate(cuts)}, 0, np.inf)
    if within is not None:
        model.row({row[n][m]: float(cut) for n in endless for row in lies for m, cut in enumerate(cuts)}, 0, within)
    last = {run.stretch: model.column(0, np.inf, cost=costs[1]) for run in owned}
    for n, run in enumerate(runs):
        if run.length:
            taken = {row[n][m]: float(cut) for row in lies for m, cut in enumerate(cuts)}
            any_here = model.either()
            model.at_most(taken | {any_here: -float(run.length)})
            model.at_most(taken | {any_here: float(run.start), last[run.stretch]: -1.0})
    strips_made(model, job, held, width)
    if apart:
        of_one_width(model, lies, held, runs)
    solved, x, bound = model.solve(seconds)
    bound = (bound - pieces_most + 1) / costs[0] if not owned else -np.inf
    if x is None:
        return Answer(solved, None, bound)
    bought = sum(round(x[row[n][m]]) * cut for n in endless for row in lies for m, cut in enumerate(cuts))
    used = sum(round(x[each]) for each in last.values())
    return Answer(solved, (bought, used, sum(round(x[each]) for row in held for each in row)), bound)


def of_one_width(model: Model, lies: list[list[list[int]]], held: list[list[int]], runs: list[Run]) -> None:
    """A strip's pieces lie on cloth of one usable width."""
    kinds = sorted({run.usable for run in runs})
    for i in range(len(held[0])):
        chosen = [model.either() for _ in kinds]
        model.exactly(ones(chosen), 1)
        for kind, choice in zip(kinds, chosen, strict=True):
            for row, there in zip(lies, held, strict=True):
                other = ones(each for on, run in zip(row, runs, strict=True) if run.usable != kind for each in on)
                model.at_most({there[i]: 1.0, choice: 1.0} | other, 2)


def lanes(job: Sample, seconds: float = 10) -> Answer:
    """The same in lanes along the cloth, any strip with a piece in any lane of any run: each the least with what is
    before it."""
    model, cuts = Model(), longest_first(job)
    held: list[list[int]] = []
    width: list[list[int]] = []
    stock = {run.stretch: run.length is None for run in job.runs()}
    ends = {stretch: model.column(0, 10_000, True) for stretch in stock}
    for run in job.runs():
        length = run.length or sum(flat for flat, _ in job.sizes)
        across, before = dict[int, float](), dict[int, float]()
        for _ in range(run.usable // cuts[-1]):
            deep = {model.either(): float(cut) for cut in cuts}
            model.row(ones(deep), 0, 1)
            if before:  # The deepest first.
                model.row(before | {each: -cut for each, cut in deep.items()}, 0, np.inf)
            before, across = deep, across | deep
            here, wide = [model.either() for _ in job.sizes], [model.column(0, flat, True) for flat, _ in job.sizes]
            for i, (flat, cut) in enumerate(job.sizes):
                piece_in(
                    model, job, i, here[i], wide[i], [each for each in deep if deep[each] >= cut], min(flat, length)
                )
                model.at_most(ones(wide) | {here[i]: float(run.start), ends[run.stretch]: -1.0})
            model.row(ones(wide), 0, length)
            held.append(here)
            width.append(wide)
        model.row(across, 0, run.usable) if across else None
    strips_made(model, job, held, width)
    score: list[int] = []
    least = -np.inf
    for columns in (
        [end for stretch, end in ends.items() if stock[stretch]],
        [end for stretch, end in ends.items() if not stock[stretch]],
        [each for row in held for each in row],
    ):
        model.cost = [float(n in columns) for n in range(len(model.cost))]
        solved, x, bound = model.solve(seconds)
        least = least if score else bound
        if x is None or not solved:
            return Answer(solved and not score, None, least)
        score.append(round(sum(x[each] for each in columns)))
        model.row(ones(columns), 0, score[-1]) if columns else None
    return Answer(True, (score[0], score[1], score[2]), least)


def fixed_widths(job: Sample, halves: bool, seconds: float = 10) -> tuple[bool, tuple[int, int] | None]:
    """(Cloth, pieces) where every strip is cut from whole widths, and with `halves` from at most one half besides; two
    halves may lie in one width, which is as long as the longer."""
    model, sizes, cuts = Model(), job.sizes, longest_first(job)
    most = sum(-(-flat // (job.usable - job.join)) + 2 for flat, _ in sizes) + 1
    whole = [model.column(0, most, True, cut * most + 1) for _, cut in sizes]
    half = [model.column(0, int(halves), True, 1) for _ in sizes]
    long = [[model.either(cut * most) for cut in cuts] for _ in sizes]
    lies = [[model.either() for _ in sizes] for _ in long]
    for i, (flat, _) in enumerate(sizes):
        given = {whole[i]: float(job.usable - job.join), half[i]: float(job.usable // 2 - job.join)}
        model.row(given, flat - job.join, np.inf)
        model.exactly(ones(row[i] for row in lies) | {half[i]: -1.0}, 0)
    for levels, row in zip(long, lies, strict=True):
        model.row(ones(levels), 0, 1)
        model.row(ones(row), 0, 2)
        for i, (_, cut) in enumerate(sizes):
            model.at_most({row[i]: 1.0} | ones((levels[m] for m, each in enumerate(cuts) if each >= cut), -1.0))
    solved, x, _ = model.solve(seconds)
    if x is None:
        return solved, None
    cloth = sum(round(x[n]) * cut for n, (_, cut) in zip(whole, sizes, strict=True))
    cloth += sum(round(x[levels[m]]) * cut for levels in long for m, cut in enumerate(cuts))
    return solved, (cloth, sum(round(x[n]) for n in (*whole, *half)))


def in_a_slot(
    model: Model, job: Sample, i: int, there: int, wide: int, long: list[list[int]], loads: list[dict[int, float]]
) -> None:
    """A piece of a strip: how wide it is, in which width it lies, and what it takes of it."""
    cuts = longest_first(job)
    lies = [model.either() for _ in long]
    model.exactly(ones(lies) | {there: -1.0}, 0)
    piece_in(model, job, i, there, wide, lies, job.usable)
    for r, levels in enumerate(long):
        reach = (levels[m] for m, each in enumerate(cuts) if each >= job.sizes[i][1])
        model.at_most({lies[r]: 1.0} | ones(reach, -1.0))
        load = model.column(0, job.usable)
        model.row({load: 1.0, wide: -1.0, lies[r]: -float(job.usable)}, -job.usable, np.inf)
        loads[r][load] = 1.0


def clear_of_spans(job: Sample, seconds: float = 10) -> Answer:
    """As `cross_cut` from the roll, with no join inside any of the spans of its strip. Pieces stand in order in slots;
    a strip may have several in one width."""
    model, usable, join, cuts = Model(), job.usable, job.join, longest_first(job)
    slots = [-(-(flat - join) // (usable - join)) + 2 if flat > usable else 3 for flat, _ in job.sizes]
    most = sum(slots) + 1
    long = [[model.either(cut * most) for cut in cuts] for _ in range(job.widths() + 1)]
    loads: list[dict[int, float]] = [{} for _ in long]
    used: list[int] = []
    for levels in long:
        model.row(ones(levels), 0, 1)
    for i, ((flat, _), count, clear) in enumerate(zip(job.sizes, slots, job.spans, strict=True)):
        there, wide = [model.either(1) for _ in range(count)], [model.column(0, usable) for _ in range(count)]
        used += there
        for k in range(count):
            in_a_slot(model, job, i, there[k], wide[k], long, loads)
            if k:
                model.row({there[k - 1]: 1.0, there[k]: -1.0}, 0, np.inf)
        model.exactly(ones(wide) | ones(there, -float(join)), flat - join)
        if flat < job.least:
            model.exactly(ones(there), 1)
        big = float(flat + usable)
        for k in range(count - 1):
            before = ones(wide[: k + 1]) | ones(there[: k + 1], -float(join))
            for first, last in clear:
                right = model.either()
                model.at_most(before | {right: -big, there[k + 1]: big}, first - join / 2 + big)
                model.row(before | {right: -big, there[k + 1]: -big}, last - join / 2 - 2 * big, np.inf)
    for load_of in loads:
        model.row(load_of, 0, usable)
    solved, x, bound = model.solve(seconds)
    bound = (bound - most + 1) / most
    if x is None:
        return Answer(solved, None, bound)
    cloth = sum(round(x[levels[m]]) * cut for levels in long for m, cut in enumerate(cuts))
    return Answer(solved, (cloth, 0, sum(round(x[each]) for each in used)), bound)


ALIKE = {"equal", "not solved", "gap stated"}
"""What may be said: equal, not solved by the model, or the engine states how much less there could be."""


def ticks(length: Length) -> int:
    """Whole quarters of an inch."""
    return int(length / quarter(1))


def score_of(plan: Layout) -> tuple[int, int, int]:
    """What is bought, what is used of the owned, and the pieces, in ticks."""
    uses = {use.stretch: ticks(use.length) for use in plan.uses}
    bought = uses.pop("roll", 0)
    return bought, sum(uses.values()), len(plan.pieces)


def verdict(answer: object, model: Answer) -> str:
    """One of `ALIKE`, or what differs."""
    if isinstance(answer, Refusal):
        fits = "equal" if model.solved else "not solved"
        return fits if model.score is None else f"refused: {answer}, but the model has {model}"
    plan: Layout = answer.best  # type: ignore[attr-defined]
    found, proof, wrong = (
        score_of(plan),
        plan.proof,
        f"the model has {model}, the engine {score_of(plan)}: {plan.proof}",
    )
    if model.bound > found[0] + 0.001 or (proof.least and model.score and model.score[:2] < found[:2]):
        return wrong
    if not model.solved:
        return "not solved"
    if model.score == found:
        return "equal"
    cloth = sum((model.score or (0, 0))[:2])
    open_yet = model.score and not (proof.least and proof.fewest_joins) and ticks(proof.bound) <= cloth
    return "gap stated" if open_yet and cloth <= sum(found[:2]) else wrong


def compare_roll(job: Sample, seconds: float = 10) -> str:
    """Cross cuts, from the roll or from lengths in hand."""
    return verdict(lay_out(job.strips(), job.stretches(), job.rules()), cross_cut(job, seconds))


def compare_lanes(job: Sample, seconds: float = 10) -> str:
    """Lanes along the roll."""
    return verdict(lay_out(job.strips(), job.stretches(), job.rules(along=True)), lanes(job, seconds))


def compare_spanned(job: Sample, seconds: float = 10) -> str:
    """Cross cuts with spans in which no join may fall."""
    return verdict(lay_out(job.strips(), [job.roll()], job.rules()), clear_of_spans(job, seconds))


def compare_widths(job: Sample, seconds: float = 10) -> str:
    """Cloth of several widths: what is bought and used, of the class that the proof names. Joins are not compared."""
    answer = lay_out(job.strips(), job.stretches(), job.rules())
    apart = not isinstance(answer, Refusal) and "each section from one width" in answer.best.proof.among
    model = cross_cut(job, seconds, widths=min(job.widths() + 2, 5), apart=apart)
    if isinstance(answer, Refusal) or not model.solved or model.score is None:
        return verdict(answer, model)
    return verdict(answer, Answer(True, (*model.score[:2], len(answer.best.pieces))))


def compare_fewest(job: Sample, step: int, seconds: float = 10) -> str:
    """The plan of fewest joins that buys the same length in shop steps of so many ticks; `none` where the least plan
    has the fewest."""
    answer = lay_out(job.strips(), job.stretches(), job.rules(step=quarter(step)))
    if isinstance(answer, Refusal):
        return "none"
    model = cross_cut(job, seconds, within=ticks(answer.best.buy))
    if not model.solved:
        return "not solved"
    fewest = answer.fewest_joins()
    found = score_of(fewest or answer.best)
    if model.score is None or model.score[2] != found[2] or (fewest and model.score != found):
        return f"the model has {model}, the engine {found}"
    return "equal" if fewest else "none"


def compare_policy(job: Sample, policy: Policy, seconds: float = 10) -> str:
    """Whole or half widths against the exact model, and against every pairing of the odd halves, tried one by one."""
    answer = lay_out(job.strips(), [job.roll()], job.rules(policy=policy))
    halves = [halves_of(flat, job.usable, job.join, policy) for flat, _ in job.sizes]
    if isinstance(answer, Refusal):
        narrow = any(count % 2 and count > 1 for count in halves) and job.usable // 2 < job.least
        return "equal" if answer.reason == "piece too narrow" and narrow else f"refused: {answer}"
    odd = tuple(cut for (_, cut), count in zip(job.sizes, halves, strict=True) if count % 2)
    least = sum(count // 2 * cut for (_, cut), count in zip(job.sizes, halves, strict=True)) + paired(odd)
    joins = sum(-(-count // 2) - 1 for count in halves)
    found = (ticks(answer.best.used), answer.best.joins)
    if found != (least, joins):
        return f"tried: {(least, joins)}, the engine {found}"
    solved, model = fixed_widths(job, policy == "half widths", seconds)
    if not solved or model is None:
        return "not solved"
    pieces = joins + len(job.sizes)
    return "equal" if model == (least, pieces) else f"the model has {model}, the engine {(least, pieces)}"


def halves_of(flat: int, usable: int, join: int, policy: Policy) -> int:
    """The least number of halves, counted up one at a time; of whole widths, two each."""
    step = 2 if policy == "whole widths" else 1
    count = step
    while count // 2 * usable + count % 2 * (usable // 2) - join * (-(-count // 2) - 1) < flat:
        count += step
    return count


def paired(odd: tuple[int, ...]) -> int:
    """The least cloth for odd halves, over every pairing."""
    if not odd:
        return 0
    alone = odd[0] + paired(odd[1:])
    pairs = [max(odd[0], odd[n]) + paired(odd[1:n] + odd[n + 1 :]) for n in range(1, len(odd))]
    return min([alone, *pairs])
