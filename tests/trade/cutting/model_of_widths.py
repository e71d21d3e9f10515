"""An exact model of cross cuts on cloth of several usable widths, written from the rules alone and solved by HiGHS."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from tests.trade.cutting.model import Model


class Cloth(NamedTuple):
    """A sound length, or the roll where it has none; in ticks."""

    length: int | None
    usable: int


def least_cloth(
    sizes: Sequence[tuple[int, int]], join: int, least: int, cloths: Sequence[Cloth], widths: int, apart: bool
) -> tuple[bool, tuple[int, int] | None]:
    """(Solved, (bought, used of the owned)) with at most so many widths; (True, None) when there is not cloth enough.
    `apart`: every strip is cut from cloth of one usable width."""
    model, widest = Model(), max(cloth.usable for cloth in cloths)
    cuts = sorted({cut for _, cut in sizes}, reverse=True)
    much = 1 + sum(cloth.length or 0 for cloth in cloths)
    lies = [
        [[model.column(0, 1, True, cut * (1 if cloth.length else much)) for cut in cuts] for cloth in cloths]
        for _ in range(widths)
    ]
    held = [[model.column(0, 1, True) for _ in sizes] for _ in lies]
    wide = [[model.column(0, widest, False) for _ in sizes] for _ in lies]
    for r, row in enumerate(lies):
        model.row({each: 1.0 for on in row for each in on}, 0, 1)
        given = {each: -float(cloth.usable) for on, cloth in zip(row, cloths, strict=True) for each in on}
        model.row(dict.fromkeys(wide[r], 1.0) | given, -np.inf, 0)
        for i, (flat, cut) in enumerate(sizes):
            reach = {on[m]: -1.0 for on in row for m, each in enumerate(cuts) if each >= cut}
            model.row({held[r][i]: 1.0} | reach, -np.inf, 0)
            model.row({wide[r][i]: 1.0, held[r][i]: -float(widest)}, -np.inf, 0)
            model.row({wide[r][i]: 1.0, held[r][i]: -float(min(least, flat))}, 0, np.inf)
        if r:
            order = {each: 1.0 for on in lies[r - 1] for each in on} | {each: -1.0 for on in row for each in on}
            model.row(order, 0, 1)
    for n, cloth in enumerate(cloths):
        if cloth.length:
            model.row({row[n][m]: float(cut) for row in lies for m, cut in enumerate(cuts)}, 0, cloth.length)
    for i, (flat, _) in enumerate(sizes):
        pieces = {row[i]: 1.0 for row in held}
        model.row({row[i]: 1.0 for row in wide} | {row[i]: -float(join) for row in held}, flat - join, flat - join)
        if flat < least:
            model.row(pieces, 1, 1)
        if apart:
            of_one_width(model, lies, [row[i] for row in held], cloths)
    status, x = model.answer(10)
    if x is None:
        return status == 2, None
    taken = [sum(round(x[row[n][m]]) * cut for row in lies for m, cut in enumerate(cuts)) for n in range(len(cloths))]
    bought = sum(each for each, cloth in zip(taken, cloths, strict=True) if cloth.length is None)
    return status == 0, (bought, sum(taken) - bought)


def of_one_width(model: Model, lies: list[list[list[int]]], held: list[int], cloths: Sequence[Cloth]) -> None:
    """A strip's pieces lie on cloth of one usable width."""
    kinds = sorted({cloth.usable for cloth in cloths})
    chosen = [model.column(0, 1, True) for _ in kinds]
    model.row(dict.fromkeys(chosen, 1.0), 1, 1)
    for kind, choice in zip(kinds, chosen, strict=True):
        for row, there in zip(lies, held, strict=True):
            other = {each: 1.0 for on, cloth in zip(row, cloths, strict=True) if cloth.usable != kind for each in on}
            model.row({there: 1.0, choice: 1.0} | other, -np.inf, 2)
