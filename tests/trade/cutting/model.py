"""An exact mixed-integer model of cross-cut plans, written from the rules alone and solved by HiGHS.

It knows nothing of the engine: every strip may have a piece in every width, every piece has a width of its own.
All measures are whole ticks. It answers (cloth, pieces), or None where HiGHS does not finish.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_matrix


@dataclass(frozen=True)
class Answer:
    """What HiGHS says: the optimum if `solved`, and the cloth nothing goes under in any case."""

    solved: bool
    cloth: int
    pieces: int
    bound: float


@dataclass
class Model:
    """Rows and columns of a mixed-integer programme, added one at a time."""

    cost: list[float] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    rows: list[tuple[dict[int, float], float, float]] = field(default_factory=list)

    def column(self, lower: float, upper: float, whole: bool, cost: float = 0) -> int:
        self.cost.append(cost)
        self.lower.append(lower)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.cost) - 1

    def row(self, terms: dict[int, float], lower: float, upper: float) -> None:
        self.rows.append((terms, lower, upper))

    def solve(self, seconds: float) -> tuple[bool, np.ndarray | None, float]:
        """Whether it is solved, the values, and the bound on the cost."""
        answer = self.run(seconds)
        bound = answer.mip_dual_bound if answer.mip_dual_bound is not None else -np.inf
        return answer.status == 0, answer.x, bound

    def answer(self, seconds: float) -> tuple[int, np.ndarray | None]:
        """The status (0 solved, 2 impossible) and the values."""
        answer = self.run(seconds)
        return answer.status, answer.x

    def run(self, seconds: float) -> OptimizeResult:
        data, at, columns, lows, highs = [], [0], [], [], []
        for terms, low, high in self.rows:
            columns += list(terms)
            data += list(terms.values())
            at.append(len(columns))
            lows.append(low)
            highs.append(high)
        matrix = csr_matrix((data, columns, at), shape=(len(self.rows), len(self.cost)))
        return milp(
            np.array(self.cost),
            constraints=LinearConstraint(matrix, lows, highs),
            bounds=Bounds(self.lower, self.upper),
            integrality=np.array(self.whole),
            options={"time_limit": seconds, "mip_rel_gap": 0},
        )


class CrossCuts:
    """Up to `widths` widths cut across for (flat, cut) of each strip, at these costs of a tick of cloth and a piece."""

    def __init__(
        self,
        sizes: Sequence[tuple[int, int]],
        usable: int,
        join: int,
        least: int,
        widths: int,
        cloth_costs: int,
        piece_costs: int,
    ) -> None:
        model = self.model = Model()
        self.cuts = sorted({cut for _, cut in sizes}, reverse=True)
        self.long = [[model.column(0, 1, True, cut * cloth_costs) for cut in self.cuts] for _ in range(widths)]
        self.held = [[model.column(0, 1, True, piece_costs) for _ in sizes] for _ in range(widths)]
        width = [[model.column(0, usable, False) for _ in sizes] for _ in range(widths)]
        for r in range(widths):
            model.row(dict.fromkeys(self.long[r], 1.0), 0, 1)
            model.row(dict.fromkeys(width[r], 1.0), 0, usable)
            for i, (flat, cut) in enumerate(sizes):
                held = self.held[r][i]
                reach = {self.long[r][level]: -1.0 for level, each in enumerate(self.cuts) if each >= cut}
                model.row({held: 1.0, **reach}, -np.inf, 0)
                model.row({width[r][i]: 1.0, held: -float(usable)}, -np.inf, 0)
                model.row({width[r][i]: 1.0, held: -float(min(least, flat))}, 0, np.inf)
            if r:
                self._in_order(r)
        for i, (flat, _) in enumerate(sizes):
            terms = {width[r][i]: 1.0 for r in range(widths)} | {self.held[r][i]: -float(join) for r in range(widths)}
            model.row(terms, flat - join, flat - join)
            if flat < least:
                model.row({self.held[r][i]: 1.0 for r in range(widths)}, 1, 1)

    def _in_order(self, r: int) -> None:
        """Longer widths first: plans that differ by the order of widths alone are one."""
        longer = {self.long[r - 1][level]: float(cut) for level, cut in enumerate(self.cuts)}
        self.model.row(longer | {self.long[r][level]: -float(cut) for level, cut in enumerate(self.cuts)}, 0, np.inf)

    def within(self, most: int) -> None:
        """Take no more cloth than `most`."""
        self.model.row({row[level]: float(cut) for row in self.long for level, cut in enumerate(self.cuts)}, 0, most)

    def taken(self, x: np.ndarray) -> tuple[int, int]:
        """(Cloth, pieces) of a solution."""
        cloth = sum(round(x[row[level]]) * cut for row in self.long for level, cut in enumerate(self.cuts))
        return cloth, sum(round(x[each]) for row in self.held for each in row)


def cross_cut(
    sizes: Sequence[tuple[int, int]], usable: int, join: int, least: int, widths: int, seconds: float = 10
) -> Answer:
    """The least cloth, then the fewest pieces, with at most `widths` widths, for (flat, cut) of each strip."""
    most = len(sizes) * widths + 1
    cuts = CrossCuts(sizes, usable, join, least, widths, cloth_costs=most, piece_costs=1)
    solved, x, bound = cuts.model.solve(seconds)
    cloth, pieces = (-1, -1) if x is None else cuts.taken(x)
    return Answer(solved, cloth, pieces, (bound - most + 1) / most)


def fewest_pieces(
    sizes: Sequence[tuple[int, int]], usable: int, join: int, least: int, widths: int, within: int, seconds: float = 10
) -> tuple[bool, tuple[int, int]]:
    """(Cloth, pieces) of the fewest pieces that take no more cloth than `within`, then of the least cloth."""
    cuts = CrossCuts(sizes, usable, join, least, widths, cloth_costs=1, piece_costs=within + 1)
    cuts.within(within)
    solved, x, _ = cuts.model.solve(seconds)
    return (False, (-1, -1)) if x is None else (solved, cuts.taken(x))


def cut_from_stock(
    sizes: Sequence[tuple[int, int]],
    usable: int,
    join: int,
    least: int,
    widths: int,
    runs: Sequence[tuple[int, int, int]],
    roll: bool,
    seconds: float = 10,
    within: int | None = None,
) -> tuple[bool, tuple[int, int, int] | None]:
    """What is bought, what is used of the owned, and the pieces, in that order of weight; pieces first where no more
    than `within` may be bought. Runs are (stretch, start, length) of sound cloth; a stretch counts as used up to its
    last cut. (True, None) when there is not cloth enough."""
    model = Model()
    pieces_most = len(sizes) * widths + 1
    cloth_most = widths * max(cut for _, cut in sizes) + sum(start + length for _, start, length in runs) + 1
    costs = (pieces_most * cloth_most, pieces_most, 1) if within is None else (cloth_most, 1, cloth_most * cloth_most)
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    places = [*runs, None] if roll else list(runs)
    held = [[model.column(0, 1, True, costs[2]) for _ in sizes] for _ in range(widths)]
    width = [[model.column(0, usable, False) for _ in sizes] for _ in range(widths)]
    lies = [
        [[model.column(0, 1, True, cut * costs[0] if run is None else 0) for cut in cuts] for run in places]
        for _ in range(widths)
    ]
    for r in range(widths):
        model.row({each: 1.0 for run in lies[r] for each in run}, 0, 1)
        model.row(dict.fromkeys(width[r], 1.0), 0, usable)
        for i, (flat, cut) in enumerate(sizes):
            reach = {run[n]: -1.0 for run in lies[r] for n, each in enumerate(cuts) if each >= cut}
            model.row({held[r][i]: 1.0, **reach}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(usable)}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(min(least, flat))}, 0, np.inf)
        if r:
            order = {each: 1.0 for run in lies[r - 1] for each in run} | {each: -1.0 for run in lies[r] for each in run}
            model.row(order, 0, 1)
    if roll and within is not None:
        model.row({lies[r][-1][m]: float(cut) for r in range(widths) for m, cut in enumerate(cuts)}, 0, within)
    last = {stretch: model.column(0, np.inf, False, costs[1]) for stretch, _, _ in runs}
    for n, (stretch, start, length) in enumerate(runs):
        taken = {lies[r][n][m]: float(cut) for r in range(widths) for m, cut in enumerate(cuts)}
        any_here = model.column(0, 1, True)
        model.row(taken | {any_here: -float(length)}, -np.inf, 0)
        model.row(taken | {any_here: float(start), last[stretch]: -1.0}, -np.inf, 0)
    for i, (flat, _) in enumerate(sizes):
        terms = {width[r][i]: 1.0 for r in range(widths)} | {held[r][i]: -float(join) for r in range(widths)}
        model.row(terms, flat - join, flat - join)
        if flat < least:
            model.row({held[r][i]: 1.0 for r in range(widths)}, 1, 1)
    status, x = model.answer(seconds)
    if x is None:
        return status == 2, None
    bought = sum(round(x[lies[r][-1][m]]) * cut for r in range(widths) for m, cut in enumerate(cuts)) if roll else 0
    used = sum(round(x[each]) for each in last.values())
    return status == 0, (bought, used, sum(round(x[each]) for row in held for each in row))


def lanes(
    sizes: Sequence[tuple[int, int]], usable: int, join: int, least: int, seconds: float = 10
) -> tuple[bool, tuple[int, int] | None, float]:
    """(The shortest length, the pieces) in lanes along the roll, and a bound on the length."""
    model = Model()
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    count, most = usable // cuts[-1], len(sizes) * (usable // cuts[-1]) + 1
    long = sum(flat for flat, _ in sizes)
    deep = [[model.column(0, 1, True) for _ in cuts] for _ in range(count)]
    held = [[model.column(0, 1, True, 1) for _ in sizes] for _ in range(count)]
    width = [[model.column(0, long, False) for _ in sizes] for _ in range(count)]
    length = model.column(0, long, True, most)
    model.row({deep[r][m]: float(cut) for r in range(count) for m, cut in enumerate(cuts)}, 0, usable)
    for r in range(count):
        model.row(dict.fromkeys(deep[r], 1.0), 0, 1)
        model.row(dict.fromkeys(width[r], 1.0) | {length: -1.0}, -np.inf, 0)
        for i, (flat, cut) in enumerate(sizes):
            reach = {deep[r][m]: -1.0 for m, each in enumerate(cuts) if each >= cut}
            model.row({held[r][i]: 1.0, **reach}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(flat)}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(min(least, flat))}, 0, np.inf)
        if r:
            order = {deep[r - 1][m]: float(cut) for m, cut in enumerate(cuts)}
            model.row(order | {deep[r][m]: -float(cut) for m, cut in enumerate(cuts)}, 0, np.inf)
    for i, (flat, _) in enumerate(sizes):
        terms = {width[r][i]: 1.0 for r in range(count)} | {held[r][i]: -float(join) for r in range(count)}
        model.row(terms, flat - join, flat - join)
        if flat < least:
            model.row({held[r][i]: 1.0 for r in range(count)}, 1, 1)
    solved, x, bound = model.solve(seconds)
    if x is None:
        return solved, None, 0
    return solved, (round(x[length]), sum(round(x[each]) for row in held for each in row)), (bound - most + 1) / most


def fixed_widths(
    sizes: Sequence[tuple[int, int]], usable: int, join: int, halves: bool, seconds: float = 10
) -> tuple[bool, tuple[int, int] | None]:
    """(Cloth, pieces) where every strip is cut from whole widths, and with `halves` from at most one half besides; two
    halves may lie in one width, which is as long as the longer."""
    model = Model()
    most = sum(-(-flat // (usable - join)) + 2 for flat, _ in sizes) + 1
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    whole = [model.column(0, most, True, cut * most + 1) for _, cut in sizes]
    half = [model.column(0, int(halves), True, 1) for _ in sizes]
    long = [[model.column(0, 1, True, cut * most) for cut in cuts] for _ in sizes]
    lies = [[model.column(0, 1, True) for _ in sizes] for _ in long]
    for i, (flat, _) in enumerate(sizes):
        model.row({whole[i]: float(usable - join), half[i]: float(usable // 2 - join)}, flat - join, np.inf)
        model.row({row[i]: 1.0 for row in lies} | {half[i]: -1.0}, 0, 0)
    for levels, row in zip(long, lies, strict=True):
        model.row(dict.fromkeys(levels, 1.0), 0, 1)
        model.row(dict.fromkeys(row, 1.0), 0, 2)
        for i, (_, cut) in enumerate(sizes):
            model.row({row[i]: 1.0} | {levels[m]: -1.0 for m, each in enumerate(cuts) if each >= cut}, -np.inf, 0)
    solved, x, _ = model.solve(seconds)
    if x is None:
        return solved, None
    cloth = sum(round(x[n]) * cut for n, (_, cut) in zip(whole, sizes, strict=True))
    cloth += sum(round(x[levels[m]]) * cut for levels in long for m, cut in enumerate(cuts))
    return solved, (cloth, sum(round(x[n]) for n in (*whole, *half)))


def slots_of_one(
    size: tuple[int, int],
    slots: tuple[list[int], list[int]],
    rows: tuple[list[list[int]], list[dict[int, float]]],
    rules: tuple[int, int, list[int]],
    model: Model,
) -> None:
    """The pieces of one strip in order: how wide each is, in which width it lies, and what it takes of it."""
    (flat, cut), (there, wide), (long, loads), (usable, least, cuts) = size, slots, rows, rules
    for k in range(len(there)):
        lies = [model.column(0, 1, True) for _ in long]
        model.row(dict.fromkeys(lies, 1.0) | {there[k]: -1.0}, 0, 0)
        model.row({wide[k]: 1.0, there[k]: -float(usable)}, -np.inf, 0)
        model.row({wide[k]: 1.0, there[k]: -float(min(least, flat))}, 0, np.inf)
        if k:
            model.row({there[k - 1]: 1.0, there[k]: -1.0}, 0, np.inf)
        for r, levels in enumerate(long):
            reach = {levels[m]: -1.0 for m, each in enumerate(cuts) if each >= cut}
            model.row({lies[r]: 1.0, **reach}, -np.inf, 0)
            load = model.column(0, usable, False)
            model.row({load: 1.0, wide[k]: -1.0, lies[r]: -float(usable)}, -usable, np.inf)
            loads[r][load] = 1.0


def clear_of_spans(
    sizes: Sequence[tuple[int, int]],
    spans: Sequence[Sequence[tuple[int, int]]],
    usable: int,
    join: int,
    least: int,
    widths: int,
    seconds: float = 10,
) -> Answer:
    """As `cross_cut`, with no join of strip i inside any of its spans (from, to, in ticks from its left end).

    Pieces stand in order in slots; a strip may have several pieces in one width.
    """
    model = Model()
    slots = [-(-(flat - join) // (usable - join)) + 2 if flat > usable else 3 for flat, _ in sizes]
    most = sum(slots) + 1
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    long = [[model.column(0, 1, True, cut * most) for cut in cuts] for _ in range(widths)]
    loads: list[dict[int, float]] = [{} for _ in range(widths)]
    used: list[list[int]] = []
    for r in range(widths):
        model.row(dict.fromkeys(long[r], 1.0), 0, 1)
    for (flat, cut), count, clear in zip(sizes, slots, spans, strict=True):
        there = [model.column(0, 1, True, 1) for _ in range(count)]
        wide = [model.column(0, usable, False) for _ in range(count)]
        used.append(there)
        big = float(flat + usable)
        slots_of_one((flat, cut), (there, wide), (long, loads), (usable, least, cuts), model)
        model.row({each: 1.0 for each in wide} | {each: -float(join) for each in there}, flat - join, flat - join)
        if flat < least:
            model.row({each: 1.0 for each in there}, 1, 1)
        for k in range(count - 1):
            before = {each: 1.0 for each in wide[: k + 1]} | {each: -float(join) for each in there[: k + 1]}
            for first, last in clear:
                right = model.column(0, 1, True)
                low, high = first - join / 2, last - join / 2
                model.row(before | {right: -big, there[k + 1]: big}, -np.inf, low + big)
                model.row(before | {right: -big, there[k + 1]: -big}, high - 2 * big, np.inf)
    for r in range(widths):
        model.row(loads[r], 0, usable)
    solved, x, bound = model.solve(seconds)
    if x is None:
        return Answer(solved, -1, -1, (bound - most + 1) / most)
    cloth = sum(round(x[long[r][level]]) * cut for r in range(widths) for level, cut in enumerate(cuts))
    return Answer(solved, cloth, sum(round(x[each]) for each_of in used for each in each_of), (bound - most + 1) / most)
