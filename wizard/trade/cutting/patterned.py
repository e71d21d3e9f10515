"""The plan on cloth whose pattern is matched at every join."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from wizard.trade.cutting.by_length import ByLength
from wizard.trade.cutting.chains import rows_of_string, string
from wizard.trade.cutting.grouping import PATIENCE, TOGETHER, Cloth, groups_of
from wizard.trade.cutting.laid import layout
from wizard.trade.cutting.matching import MANY, Pattern, length_of, matched, phased
from wizard.trade.cutting.packing import Run, runs_of
from wizard.trade.cutting.policies import fixed_rows, halved
from wizard.trade.cutting.pools import by_lot
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Proof, Refusal
from wizard.trade.cutting.ticks import Job, fewest_widths, refused, without_spans
from wizard.trade.cutting.words import class_of

FEW = 4
"""So many strips are strung in every order at once."""

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
    rows = rows_for(job, usable, pattern)
    if not rows:
        return Refusal("cannot join", None, job.rules.least_piece, job.scale.length(usable))
    placed = lot_by_lot(job, usable, pattern) or over_runs(job, phased(rows, pattern), pattern)
    return None if placed is None else layout(job, placed, proof_of(job, placed, usable, pattern), as_given=True)


def rows_for(job: Job, usable: int, pattern: Pattern) -> list[Row]:
    """The widths of all strips, by the policy; nothing where one cannot be joined so that it matches."""
    return policy_rows(job, usable) if job.rules.policy != "part widths" else shared_rows(job, usable, pattern)


def lot_by_lot(job: Job, usable: int, pattern: Pattern) -> list[Row] | None:
    """Every strip from one dye lot: the largest that fit together on each lot, the roll's own last. None where there
    is one lot only, or where some strips are left over: then lots are put together."""
    lots = sorted(by_lot(job), key=lambda numbers: any(job.stock[number].length is None for number in numbers))
    left, placed = sorted(range(len(job.needs)), key=lambda n: -job.needs[n].flat * job.needs[n].cut), list[Row]()
    for numbers in lots if len(lots) > 1 else ():
        here: list[int] = []
        rows: list[Row] = []
        for place in left:
            trial = on_lot(job, sorted([*here, place]), numbers, (usable, pattern))
            if trial:
                here, rows = [*here, place], trial
        placed += rows
        left = [place for place in left if place not in here]
    return None if left else placed


def on_lot(job: Job, places: list[int], numbers: list[int], cloth: tuple[int, Pattern]) -> list[Row] | None:
    """Some strips on some of the stretches, numbered as in the whole job; None where they do not fit."""
    usable, pattern = cloth
    part = replace(
        job,
        strips=tuple(job.strips[place] for place in places),
        needs=tuple(job.needs[place] for place in places),
        stock=tuple(job.stock[number] for number in numbers),
    )
    rows = over_runs(part, phased(rows_for(part, usable, pattern), pattern), pattern)
    return rows and [
        replace(row, stretch=numbers[row.stretch], parts=tuple((places[n], width) for n, width in row.parts))
        for row in rows
    ]


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
    """Strips strung together; nothing where one cannot be joined so that it matches.

    Strung group by group as the least plan without regard to the edges shares them out; where that comes out longer,
    few strips, or with patience more, are strung in every order.
    """
    parts = pattern.length.denominator * 2
    spaced = [replace(need, cut=int(pattern.least_step(need.cut) * parts)) for need in job.needs]
    plan = ByLength(spaced, Cloth(usable, job.join), job.rules.effort).least.choice
    rows, cost = strung(job, usable, pattern, [places_in(mask) for mask, _ in groups_of(plan)])
    most = TOGETHER if job.rules.effort >= PATIENCE else FEW
    if rows and (cost * parts == plan.cost or len(job.needs) > most):
        return rows
    order = sorted(range(len(job.needs)), key=lambda place: (-job.needs[place].cut, place))
    count = -(-len(order) // most)
    batches = [sorted(order[len(order) * n // count : len(order) * (n + 1) // count]) for n in range(count)]
    others, least = strung(job, usable, pattern, batches)
    return others if others and (not rows or least < cost) else rows


def places_in(mask: int) -> list[int]:
    """The strips of a set."""
    return [place for place in range(mask.bit_length()) if mask >> place & 1]


def strung(job: Job, usable: int, pattern: Pattern, batches: Sequence[Sequence[int]]) -> tuple[list[Row], Fraction]:
    """The widths of some batches of strips, each strung on its own, and how much they step over; none where one of
    them cannot be strung."""
    rows: list[Row] = []
    cost = Fraction(0)
    for batch in batches:
        needs = [job.needs[place] for place in batch]
        string_of = string(needs, usable, job.join, pattern.least_step)
        if string_of is None:
            return [], cost
        cost += string_of.cost
        for row in rows_of_string(string_of, needs, usable):
            rows.append(replace(row, parts=tuple((batch[strip], width) for strip, width in row.parts)))
    return rows, cost


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
    """No matched plan takes less, in ticks: cut without regard to the edges, less what the last width may save."""
    parts = pattern.length.denominator * 2
    needs = [replace(need, cut=int(pattern.least_step(need.cut) * parts)) for need in job.needs]
    saved = max(need.cut - each.cut * parts for need, each in zip(needs, job.needs, strict=True))
    saved -= int(once_longer(job, usable, pattern) * parts)
    least = ByLength(without_spans(needs), Cloth(usable, job.join), job.rules.effort).least.bound
    return Fraction(least - saved, parts)


def once_longer(job: Job, usable: int, pattern: Pattern) -> Fraction:
    """What the one change of phase costs that a joined strip of a half-drop must have, where every change is the
    longer step; nothing where a change may be the shorter one."""
    joined = any(need.flat > usable for need in job.needs)
    keeps = all(pattern.step(need.cut) < pattern.step(need.cut, True) for need in job.needs)
    return pattern.length / 2 if pattern.half_drop and joined and keeps else Fraction(0)
