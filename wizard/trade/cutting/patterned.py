"""The plan on cloth whose pattern is matched at every join."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from wizard.trade.cutting.bounds import Bounds
from wizard.trade.cutting.chains import rows_of_string, string
from wizard.trade.cutting.grouping import TOGETHER, Cloth, by_area
from wizard.trade.cutting.laid import layout
from wizard.trade.cutting.matching import MANY, Pattern, length_of, matched, phased
from wizard.trade.cutting.packing import Run, runs_of
from wizard.trade.cutting.policies import fixed_rows, halved
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.sharing import LENGTH
from wizard.trade.cutting.strips import Layout, Proof, Refusal
from wizard.trade.cutting.ticks import Job, fewest_widths, refused
from wizard.trade.cutting.words import class_of

ENDLESS = 1 << 60
"""More than any length in hand, for a roll."""


def pattern_of(job: Job) -> Pattern | None:
    """The repeat in ticks; None for cloth that is not matched."""
    repeat = job.rules.repeat
    if repeat is None or repeat.length.inches <= 0:
        return None
    return Pattern(repeat.length / job.scale.tick, repeat.phase == "half-drop")


def on_pattern(asked: Job, pattern: Pattern) -> Layout | Refusal | None:
    """The shortest matched plan found, on owned lengths first; None when they do not suffice."""
    job = of_one_width(asked)
    usable = job.scale.down(job.stock[0].usable)
    refusal = refused(job.strips, job.needs, usable, job.join, job.scale)
    if refusal:
        return refusal
    if job.rules.policy == "half widths" and not all(halved(need, usable, job.join) for need in job.needs):
        return Refusal("piece too narrow", None, job.rules.least_piece, job.scale.length(usable // 2))
    rows = policy_rows(job, usable) if job.rules.policy != "part widths" else shared_rows(job, usable, pattern)
    if not rows:
        return Refusal("cannot join", None, job.rules.least_piece, job.scale.length(usable))
    placed = over_runs(job, phased(rows, pattern), pattern)
    return None if placed is None else layout(job, placed, proof_of(job, placed, usable, pattern), as_given=True)


def of_one_width(job: Job) -> Job:
    """The job on stretches of one width only, for the selvedges must meet: the roll's, or that of most cloth."""
    cloth: dict[int, int] = {}
    for number, each in enumerate(job.stock):
        usable = job.scale.down(each.usable)
        for run in runs_of(number, each, job.rules, job.scale):
            cloth[usable] = cloth.get(usable, 0) + (ENDLESS if run.room is None else run.room)
    widest = max(cloth, key=lambda usable: (cloth[usable], usable), default=job.scale.down(job.stock[0].usable))
    return replace(job, stock=tuple(each for each in job.stock if job.scale.down(each.usable) == widest))


def shared_rows(job: Job, usable: int, pattern: Pattern) -> list[Row]:
    """Strips strung together, many of them in batches; nothing where one cannot be joined so that it matches."""
    rows: list[Row] = []
    for first in range(0, len(job.needs), TOGETHER):
        batch = job.needs[first : first + TOGETHER]
        strung = string(batch, usable, job.join, pattern.least_step)
        if strung is None:
            return []
        for row in rows_of_string(strung, batch, usable):
            rows.append(replace(row, parts=tuple((first + strip, width) for strip, width in row.parts)))
    return rows


def policy_rows(job: Job, usable: int) -> list[Row]:
    """Whole and half widths. Of two halves in one width, the left is a strip's tail and the right another's head."""
    cloth = (usable, job.join)
    rows = fixed_rows(job.needs, range(len(job.needs)), cloth, job.rules.policy, job.rules.surplus)
    counts = [sum(strip == place for row in rows for strip, _ in row.parts) for place in range(len(job.needs))]
    headed = {row.parts[1][0] for row in rows if len(row.parts) == 2}
    seen = [0] * len(counts)
    out = []
    for row in rows:
        orders = []
        for spot, (strip, _) in enumerate(row.parts):
            seen[strip] += 1
            orders.append(1 if spot else counts[strip] + 1 - seen[strip] if strip in headed else seen[strip])
        last = row.parts[-1][0]
        out.append(replace(row, orders=tuple(orders), right=orders[-1] == 1 and counts[last] > 1))
    return out


def over_runs(job: Job, halves: list[list[Row]], pattern: Pattern) -> list[Row] | None:
    """The rows on the owned runs, as many as fit on each, and the rest on the roll; None when some are left.

    On another stretch than the first a whole repeat is set aside, to find the level of the first; further along the
    same stretch the pattern says where the next width may start.
    """
    runs = [run for number, each in enumerate(job.stock) for run in runs_of(number, each, job.rules, job.scale)]
    runs.sort(key=lambda run: run.room is None)
    left = [sorted(half, key=lambda row: -row.cut) for half in halves]
    placed: list[Row] = []
    for run in runs:
        lost = pattern.length if placed else Fraction(0)
        taken = left if run.room is None else fitting(left, run.room - lost, pattern)
        left = [[row for row in half if row not in used] for half, used in zip(left, taken, strict=True)]
        placed += begun(matched(taken, pattern), run, placed, pattern) if any(taken) else []
    return None if any(left) else placed


def fitting(left: list[list[Row]], room: Fraction, pattern: Pattern) -> list[list[Row]]:
    """The longest rows of each phase that fit a run together."""
    taken: list[list[Row]] = [[], []]
    for phase in (0, 1):
        for row in left[phase]:
            trial = [half + [row] * (n == phase) for n, half in enumerate(taken)]
            if length_of(matched(trial, pattern)) <= room:
                taken = trial
            elif len(left[phase]) > MANY:
                break
    return taken


def begun(rows: list[Row], run: Run, placed: list[Row], pattern: Pattern) -> list[Row]:
    """Rows laid on a run, with what is set aside before the first."""
    rows = [replace(row, stretch=run.stretch, start=run.start) for row in rows]
    here = next((row for row in placed if row.stretch == run.stretch), None)
    lost = pattern.length if placed else Fraction(0)
    if here:
        level = here.start + here.before + pattern.length / 2 * (rows[0].phase - here.phase)
        lost = (level - run.start) % pattern.length
    return [replace(rows[0], before=lost), *rows[1:]]


def proof_of(job: Job, rows: Sequence[Row], usable: int, pattern: Pattern) -> Proof:
    """Proven only where the bound is met: the layered bound of the least steps, less what the last width saves."""
    words = f"{class_of(job.rules)}, the pattern matched at every join"
    used = sum((row.before + row.cut + row.after for row in rows), Fraction(0))
    bound = least_matched(job, usable, pattern)
    fixed = job.rules.policy != "part widths"
    alone = sum((fewest_widths(need, usable, job.join) or 1) for need in job.needs)
    fewest = fixed or sum(len(row.parts) for row in rows) == alone
    least = len(job.stock) == 1 and used == bound
    return Proof(least, job.scale.length(bound), "bound" if least else "none", words, fewest)


def least_matched(job: Job, usable: int, pattern: Pattern) -> Fraction:
    """No matched plan takes less, in ticks."""
    parts = pattern.length.denominator * 2
    needs = [replace(need, cut=int(pattern.least_step(need.cut) * parts)) for need in job.needs]
    saved = max(need.cut - each.cut * parts for need, each in zip(needs, job.needs, strict=True))
    if len(needs) > TOGETHER or usable <= job.join:
        return Fraction(by_area(needs, Cloth(max(usable, job.join + 1), job.join)) - saved, parts)
    bounds = Bounds(needs, usable - job.join, job.join, LENGTH)
    for mask in range(1, 1 << len(needs)):
        bounds.add(mask)
    return Fraction(bounds.apart[-1][-1].cost - saved, parts)
