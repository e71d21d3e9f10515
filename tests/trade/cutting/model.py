"""An exact mixed-integer model of cross-cut plans, written from the rules alone and solved by HiGHS.

It knows nothing of the engine: every strip may have a piece in every width, every piece has a width of its own.
All measures are whole ticks. It answers (cloth, pieces), or None where HiGHS does not finish.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
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
        data, at, columns, lows, highs = [], [0], [], [], []
        for terms, low, high in self.rows:
            columns += list(terms)
            data += list(terms.values())
            at.append(len(columns))
            lows.append(low)
            highs.append(high)
        matrix = csr_matrix((data, columns, at), shape=(len(self.rows), len(self.cost)))
        answer = milp(
            np.array(self.cost),
            constraints=LinearConstraint(matrix, lows, highs),
            bounds=Bounds(self.lower, self.upper),
            integrality=np.array(self.whole),
            options={"time_limit": seconds, "mip_rel_gap": 0},
        )
        bound = answer.mip_dual_bound if answer.mip_dual_bound is not None else -np.inf
        return answer.status == 0, answer.x, bound


def cross_cut(
    sizes: Sequence[tuple[int, int]], usable: int, join: int, least: int, widths: int, seconds: float = 10
) -> Answer:
    """The least cloth, then the fewest pieces, with at most `widths` widths, for (flat, cut) of each strip."""
    model = Model()
    most = len(sizes) * widths + 1
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    long = [[model.column(0, 1, True, cut * most) for cut in cuts] for _ in range(widths)]
    held = [[model.column(0, 1, True, 1) for _ in sizes] for _ in range(widths)]
    width = [[model.column(0, usable, False) for _ in sizes] for _ in range(widths)]
    for r in range(widths):
        model.row(dict.fromkeys(long[r], 1.0), 0, 1)
        model.row(dict.fromkeys(width[r], 1.0), 0, usable)
        for i, (flat, cut) in enumerate(sizes):
            bar = min(least, flat)
            reach = {long[r][level]: -1.0 for level, each in enumerate(cuts) if each >= cut}
            model.row({held[r][i]: 1.0, **reach}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(usable)}, -np.inf, 0)
            model.row({width[r][i]: 1.0, held[r][i]: -float(bar)}, 0, np.inf)
        if r:
            lengths = {long[r - 1][level]: float(cut) for level, cut in enumerate(cuts)}
            model.row(lengths | {long[r][level]: -float(cut) for level, cut in enumerate(cuts)}, 0, np.inf)
    for i, (flat, _) in enumerate(sizes):
        terms = {width[r][i]: 1.0 for r in range(widths)} | {held[r][i]: -float(join) for r in range(widths)}
        model.row(terms, flat - join, flat - join)
        if flat < least:
            model.row({held[r][i]: 1.0 for r in range(widths)}, 1, 1)
    solved, x, bound = model.solve(seconds)
    if x is None:
        return Answer(solved, -1, -1, bound / most)
    cloth = sum(round(x[long[r][level]]) * cut for r in range(widths) for level, cut in enumerate(cuts))
    pieces = sum(round(x[each]) for row in held for each in row)
    return Answer(solved, cloth, pieces, bound / most)
