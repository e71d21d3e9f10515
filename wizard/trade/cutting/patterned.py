"""The plan on cloth whose pattern is matched at every join."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import partial

from msgspec.structs import replace

from wizard.trade.cutting.by_length import ByLength
from wizard.trade.cutting.chains import STRUNG, State, rows_of_string, string
from wizard.trade.cutting.grouping import PATIENCE, TOGETHER, Cloth, groups_of
from wizard.trade.cutting.in_vain import in_vain
from wizard.trade.cutting.laid import layout
from wizard.trade.cutting.level import Placed, least_bought, over_runs
from wizard.trade.cutting.matching import FLIPS, MANY, Pattern, phased
from wizard.trade.cutting.packing import runs_of
from wizard.trade.cutting.policies import fixed_rows, halved
from wizard.trade.cutting.pools import by_lot, could_save
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.strips import Layout, Proof, Refusal
from wizard.trade.cutting.ticks import ENDLESS, Job, fewest_widths, refused, without_spans
from wizard.trade.cutting.turning import bought_for, on_lengths, taken
from wizard.trade.cutting.words import class_of
from wizard.trade.lengths import ZERO, Length

FEW = 4
"""So many strips are strung in every order at once."""


def pattern_of(job: Job) -> Pattern | None:
    """The repeat in ticks; None for cloth that is not matched."""
    repeat = job.rules.repeat
    if repeat is None or repeat.length.inches <= 0:
        return None
    return Pattern(repeat.length / job.scale.tick, repeat.phase == "half-drop")


def on_pattern(asked: Job, pattern: Pattern) -> Layout | Refusal | None:
    """The shortest matched plan found, on owned lengths first; None when they do not suffice.

    The selvedges must meet, so all of it is cut from cloth of one width: of the widths there are, the one that buys
    least.
    """
    jobs = of_each_width(asked)
    answers = [on_one_width(job, pattern) for job in jobs]
    plans = [each for each in answers if isinstance(each, Layout)]
    if len(jobs) == 1 or not plans:
        return answers[0]
    best = min(plans, key=lambda each: (each.roll, each.used))
    others = [each for each in zip(jobs, answers, strict=True) if each[1] is not best]
    saves = max([best.proof.saves or ZERO, *(best.roll - least_roll(*each, best.roll, pattern) for each in others)])
    proof = replace(best.proof, among=f"{best.proof.among}, on the cloth of one width")
    if saves > ZERO:
        proof = replace(proof, least=False, by="none", saves=saves)
    return replace(best, proof=proof)


def least_roll(job: Job, answer: Layout | Refusal | None, most: Length, pattern: Pattern) -> Length:
    """What of the roll the cloth of one width takes at the least, as far as is known and up to `most`; `most` where it
    cannot do."""
    if isinstance(answer, Layout):
        return min(most, answer.roll if answer.proof.least else answer.roll - (answer.proof.saves or ZERO))
    # That no strip was found that joins is not certain to be so.
    if (isinstance(answer, Refusal) and answer.reason != "cannot join") or in_vain(job):
        return most
    usable = job.scale.down(job.stock[0].usable)
    steps = least_steps(job, rows_for(job, usable, pattern), usable, pattern)
    return most if least_bought(job, steps, pattern) > 0 else ZERO


def on_one_width(job: Job, pattern: Pattern) -> Layout | Refusal | None:
    """The same on cloth that is all as wide."""
    usable = job.scale.down(job.stock[0].usable)
    refusal = refused(job.strips, job.needs, usable, job.join, job.scale)
    if refusal:
        return refusal
    if job.rules.policy == "half widths" and not all(halved(need, usable, job.join) for need in job.needs):
        return Refusal("piece too narrow", None, job.rules.least_piece, job.scale.length(usable // 2))
    rows = rows_for(job, usable, pattern)
    if not rows:
        return Refusal("cannot join", None, job.rules.least_piece, job.scale.length(usable))
    placed = lot_by_lot(job, usable, pattern) or on_lengths(job, rows, pattern, partial(least_steps, job, rows, usable))
    if placed is None:
        return None
    return layout(job, placed.rows, proof_of(job, placed, usable, pattern), as_given=True)


def rows_for(job: Job, usable: int, pattern: Pattern) -> list[Row]:
    """The widths of all strips, by the policy; nothing where one cannot be joined so that it matches."""
    return policy_rows(job, usable) if job.rules.policy != "part widths" else shared_rows(job, usable, pattern)


def lot_by_lot(job: Job, usable: int, pattern: Pattern) -> Placed | None:
    """Every strip from one dye lot: the largest that fit together on each lot, the roll's own last. None where there
    is one lot only, or where some strips are left over: then lots are put together."""
    lots = sorted(by_lot(job), key=lambda numbers: any(job.stock[number].length is None for number in numbers))
    left, placed = sorted(range(len(job.needs)), key=lambda n: -job.needs[n].flat * job.needs[n].cut), list[Row]()
    for numbers in lots if len(lots) > 1 else ():
        here: list[int] = []
        rows: list[Row] = []
        for place in left:
            trial = on_lot(job, sorted([*here, place]), numbers, (usable, pattern), is_set=bool(placed))
            if trial:
                here, rows = [*here, place], trial
        placed += rows
        left = [place for place in left if place not in here]
    return None if left or not placed else Placed(placed)


def on_lot(
    job: Job, places: list[int], numbers: list[int], cloth: tuple[int, Pattern], *, is_set: bool
) -> list[Row] | None:
    """Some strips on some of the stretches, numbered as in the whole job; None where they do not fit. `is_set`: another
    lot sets the level of the pattern."""
    usable, pattern = cloth
    part = replace(
        job,
        strips=tuple(job.strips[place] for place in places),
        needs=tuple(job.needs[place] for place in places),
        stock=tuple(job.stock[number] for number in numbers),
    )
    laid = over_runs(part, phased(rows_for(part, usable, pattern), pattern), pattern, is_set=is_set)
    if laid is None:
        return None
    return [
        replace(row, stretch=numbers[row.stretch], parts=tuple((places[n], width) for n, width in row.parts))
        for row in laid.rows
    ]


def of_each_width(job: Job) -> list[Job]:
    """The job on the stretches of each width there is: first the roll's, or that of most cloth."""
    cloth: dict[int, int] = {}
    for number, each in enumerate(job.stock):
        usable = job.scale.down(each.usable)
        for run in runs_of(number, each, job.rules, job.scale):
            cloth[usable] = cloth.get(usable, 0) + (ENDLESS if run.room is None else run.room)
    widths = sorted(cloth, key=lambda usable: (-cloth[usable], -usable)) or [job.scale.down(job.stock[0].usable)]
    return [
        replace(job, stock=tuple(each for each in job.stock if job.scale.down(each.usable) == usable))
        for usable in widths
    ]


def shared_rows(job: Job, usable: int, pattern: Pattern) -> list[Row]:
    """Strips strung together; nothing where one cannot be joined so that it matches.

    Strung group by group as the least plan without regard to the edges shares them out; where that comes out longer,
    few strips, or with patience more, are strung in every order, and more than that all in a few plain orders.
    """
    parts = pattern.length.denominator * 2
    spaced = [replace(need, cut=int(pattern.least_step(need.cut) * parts)) for need in job.needs]
    plan = ByLength(spaced, Cloth(usable, job.join), job.rules.effort).least.choice
    rows, cost = strung(job, usable, pattern, [places_in(mask) for mask, _ in groups_of(plan)])
    most = TOGETHER if job.rules.effort >= PATIENCE else FEW
    if rows and (cost * parts == plan.cost or most < len(job.needs) <= STRUNG):
        return rows
    order = sorted(range(len(job.needs)), key=lambda place: (-job.needs[place].cut, place))
    count = 1 if len(order) > STRUNG else -(-len(order) // most)
    batches = [sorted(order[len(order) * n // count : len(order) * (n + 1) // count]) for n in range(count)]
    others, least = strung(job, usable, pattern, batches)
    return others if others and (not rows or least < cost) else rows


def places_in(mask: int) -> list[int]:
    """The strips of a set."""
    return [place for place in range(mask.bit_length()) if mask >> place & 1]


def strung(
    job: Job,
    usable: int,
    pattern: Pattern,
    batches: Sequence[Sequence[int]],
    known: dict[tuple[int, ...], State | None] | None = None,
) -> tuple[list[Row], Fraction]:
    """The widths of some batches of strips, each strung on its own, and how much they step over; none where one of
    them cannot be strung. `known`: the strings of batches strung already."""
    rows: list[Row] = []
    cost = Fraction(0)
    known = {} if known is None else known
    for batch in batches:
        needs, key = [job.needs[place] for place in batch], tuple(batch)
        if key not in known:
            known[key] = string(needs, usable, job.join, pattern.least_in_parts)
        string_of = known[key]
        if string_of is None:
            return [], cost
        cost += Fraction(string_of.cost, pattern.parts)
        for row in rows_of_string(string_of, needs, usable):
            rows.append(replace(row, parts=tuple((batch[strip], width) for strip, width in row.parts)))
    return rows, cost


def policy_rows(job: Job, usable: int) -> list[Row]:
    """Whole and half widths; nothing where a strip cannot be had with its inner widths whole. Of two halves in one
    width, the left is a strip's tail and the right another's head."""
    cloth, places = (usable, job.join), range(len(job.needs))
    rows = fixed_rows(job.needs, places, cloth, job.rules.policy, job.rules.surplus, matched=True)
    counts = [sum(strip == place for row in rows for strip, _ in row.parts) for place in places]
    if not all(counts) or any(narrower_inside(rows, place, usable) for place in places):
        return []
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


def narrower_inside(rows: Sequence[Row], place: int, usable: int) -> bool:
    """True where a strip has a piece between two others that is not a whole width: it cannot meet both."""
    widths = [width for row in rows for strip, width in row.parts if strip == place]
    return any(width < usable for width in widths[1:-1])


def proof_of(job: Job, placed: Placed, usable: int, pattern: Pattern) -> Proof:
    """Proven where a bound is met, or where the policy leaves nothing to choose but an order, the best of which is
    known. On owned lengths it is the cloth to be bought that is proven."""
    rows, words = placed.rows, f"{class_of(job.rules)}, the pattern matched at every join"
    used = taken(rows)
    fixed = job.rules.policy != "part widths"
    alone = sum((fewest_widths(need, usable, job.join) or 1) for need in job.needs)
    fewest = fixed or sum(len(row.parts) for row in rows) == alone
    total, saved = least_steps(job, rows, usable, pattern)
    bound, saves = total - saved + once_longer(job, usable, pattern), None
    if len(job.stock) > 1:
        words += ", a repeat set aside on each length but one, least bought"
        least_roll = least_bought(job, (total, saved), pattern)
        least, saves = bought_for(job, placed) <= least_roll, could_save(job, bought_for(job, placed), least_roll)
        if not least and fixed and placed.finished and not pattern.half_drop:
            return Proof(True, job.scale.length(bound), "policy", words, fewest)
    elif used > bound and fixed and settled(job, rows, pattern):
        return Proof(True, job.scale.length(used), "policy", words, fewest)
    else:
        least = used == bound
    # Which halves share a width, and so where joins fall, is not tried in every way.
    least = least and not (job.rules.policy == "half widths" and any(need.spans for need in job.needs))
    return Proof(least, job.scale.length(bound), "bound" if least else "none", words, fewest, None if least else saves)


def settled(job: Job, rows: Sequence[Row], pattern: Pattern) -> bool:
    """True where fixed numbers of widths were tried in every phase they can have. Of two odd halves in one width it is
    not tried which share it, where that has to do with the phases."""
    if not pattern.half_drop:
        return True
    return job.rules.policy == "whole widths" and len(rows) <= MANY and len(job.needs) <= FLIPS


def least_steps(job: Job, rows: Sequence[Row], usable: int, pattern: Pattern) -> tuple[Fraction, Fraction]:
    """What the steps of no matched plan add up to less than, in ticks, each width taking the shorter one the pattern
    allows; and what the last width of a run may save of its own. As the policy has the widths, else cut without regard
    to the edges."""
    saved = max(pattern.least_step(need.cut) - need.cut for need in job.needs)
    if job.rules.policy != "part widths":
        return sum((pattern.least_step(row.cut) for row in rows), Fraction(0)), saved
    parts = pattern.length.denominator * 2
    needs = [replace(need, cut=int(pattern.least_step(need.cut) * parts)) for need in job.needs]
    least = ByLength(without_spans(needs), Cloth(usable, job.join), job.rules.effort).bound
    return Fraction(least, parts), saved


def once_longer(job: Job, usable: int, pattern: Pattern) -> Fraction:
    """What the one change of phase costs that a joined strip of a half-drop must have, where every change is the
    longer step; nothing where a change may be the shorter one."""
    joined = any(need.flat > usable for need in job.needs)
    keeps = all(pattern.step(need.cut) < pattern.step(need.cut, True) for need in job.needs)
    return pattern.length / 2 if pattern.half_drop and joined and keeps else Fraction(0)
