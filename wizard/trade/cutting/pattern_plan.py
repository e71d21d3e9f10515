"""The plan on cloth whose pattern is matched at every join.

A join matches only where both its edges are selvedges. So a joined strip has a head, whose right edge is a selvedge,
full widths, and a tail, whose left edge is one. A width that two strips share holds the tail of one on its left, the
head of the next on its right, and between them only strips that need no join: strips are strung one after the other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import partial

from msgspec.structs import replace

from wizard.trade.cutting.assign_stock import by_lot, could_save, infeasible
from wizard.trade.cutting.cut_records import MATCHED, ONE_CLOTH, SET_ASIDE, Layout, Proof, Refusal, class_of
from wizard.trade.cutting.grid_units import ENDLESS, CutJob, Demand, fewest_widths, members, refused, without_spans
from wizard.trade.cutting.no_join_spans import head_and_tail
from wizard.trade.cutting.pareto_partition import PATIENCE, TOGETHER, Cloth, batches_of
from wizard.trade.cutting.pattern_level import Placed, bought_for, least_bought, on_lengths, over_runs, taken
from wizard.trade.cutting.pattern_match import FLIPS, MANY, Pattern, phased
from wizard.trade.cutting.piece_widths import Row, WidthPiece, fixed_rows, halved, row_with
from wizard.trade.cutting.place_pieces import layout, most_that_buys
from wizard.trade.cutting.plan_by_length import ByLength, Strung, plain_orders
from wizard.trade.cutting.stock_groups import runs_of
from wizard.trade.cutting.work_budget import spend
from wizard.trade.lengths import ZERO, Length

KEPT = 8
"""Ways kept for each set of strips cut so far."""

STRUNG = 8
"""Up to this many strips are strung in every order; more in a few plain ones."""


def shortest_string(demands: Sequence[Demand], usable: int, join: int, step: Callable[[int], int]) -> Strung | None:
    """The shortest string of all strips that is found; `step` is how far apart widths of one length start, and the
    length of a string is in its parts.

    None where a strip cannot be joined with its inner widths whole and both ends at least the least piece.
    """

    def extend(held: list[Strung], states: Iterable[Strung], place: int) -> list[Strung]:
        """`held` with what some states become with one strip more."""
        for state in states:
            for further in added(state, place, demands[place], usable, join, step):
                keep(held, further)
        return held

    held: list[Strung] = []
    if len(demands) > STRUNG:
        for plain in plain_orders(demands):
            states = [Strung(0, 0, usable, 0)]
            for place in plain:
                states = extend([], states, place)
            held += states
        return min(held, key=rank, default=None)
    order = sorted(range(len(demands)), key=lambda place: -demands[place].cut)
    full = (1 << len(order)) - 1
    ways: dict[int, list[Strung]] = {0: [Strung(0, 0, usable, 0)]}
    for done in range(full + 1):
        for place in order:
            if not done >> place & 1:
                held = extend(ways.setdefault(done | 1 << place, []), ways[done], place)
        del held[KEPT:]
        ways[done] = ways[done] if done == full else []
    return min(ways[full], key=rank, default=None)


def rank(state: Strung) -> tuple[int, int]:
    """Less is better: cloth, then joins."""
    return state.length, state.joins


def keep(held: list[Strung], state: Strung) -> None:
    """Keep a state unless another is as good in everything."""
    if any(as_good(each, state) for each in held):
        return
    kept = sorted((each for each in held if not as_good(state, each)), key=rank)
    held[:] = [*kept[:KEPT], state]


def as_good(one: Strung, other: Strung) -> bool:
    """True when nothing that follows can make `other` better than `one`."""
    less = one.length <= other.length and one.joins <= other.joins
    return less and one.taken <= other.taken and one.cut >= other.cut


def added(
    state: Strung, strip: int, demand: Demand, usable: int, join: int, step: Callable[[int], int]
) -> Iterator[Strung]:
    """Every way of cutting one more strip: whole or joined, in the open width or from a new one."""
    spend(18)

    def further(length: int, taken: int, cut: int, pieces: tuple[int, ...], shares: bool) -> Strung:
        """The string with the strip in these pieces."""
        joins = state.joins + len(pieces) - 1
        return Strung(length, joins, taken, cut, strip=strip, shares=shares, before=state, pieces=pieces)

    longer = max(state.cut, demand.cut)
    opened = state.length + (step(longer) - step(state.cut) if state.cut else 0)
    room = usable - state.taken if state.cut else 0
    if demand.flat <= room:
        yield further(opened, state.taken + demand.flat, longer, (demand.flat,), True)
    if demand.flat <= usable:
        yield further(state.length + step(demand.cut), demand.flat, demand.cut, (demand.flat,), False)
    fewest = max(2, fewest_widths(demand, usable, join) or 2)
    for count in range(fewest, min(fewest + 1, demand.most) + 1):
        for shares, space in ((True, room), (False, usable)):
            widths = head_and_tail(demand, count, usable, join, space)
            if widths:
                length = (opened if shares else state.length) + (count - shares) * step(demand.cut)
                yield further(length, widths[-1], demand.cut, widths, shares)


def rows_of_string(state: Strung, demands: Sequence[Demand], usable: int) -> list[Row]:
    """The widths of a string, in order, each with its pieces from left to right."""
    parts: list[list[WidthPiece]] = []
    for each in state.from_first():
        for order, width in enumerate(each.pieces, 1):
            piece = (each.strip, width, order)
            if order == 1 and each.shares:
                parts[-1].append(piece)
            else:
                parts.append([piece])
    rows = [row_with(row, demands, range(len(demands)), usable) for row in parts]
    # The head of a joined strip is at the right edge.
    heads = [order == 1 and width < demands[strip].flat for strip, width, order in (row[-1] for row in parts)]
    return [replace(row, right=head) for row, head in zip(rows, heads, strict=True)]


FEW = 4
"""Up to this many strips are strung in every order at once."""


def pattern_of(job: CutJob) -> Pattern | None:
    """The repeat in grid units; None for cloth that is not matched."""
    repeat = job.rules.repeat
    if repeat is None or repeat.length.inches <= 0:
        return None
    return Pattern(repeat.length / job.scale.tick, repeat.phase == "half-drop")


def on_pattern(asked: CutJob, pattern: Pattern) -> Layout | Refusal | None:
    """The shortest matched plan found, on cloth in hand first; None where that is not enough.

    Selvedges must meet, so all is cut from cloth of one width: of several widths, the one that buys least.
    """
    jobs = of_each_width(asked)
    answers = [on_one_width(job, pattern) for job in jobs]
    plans = [each for each in answers if isinstance(each, Layout)]
    if len(jobs) == 1 or not plans:
        return answers[0]
    best = min(plans, key=lambda each: (each.roll, each.used))
    others = [each for each in zip(jobs, answers, strict=True) if each[1] is not best]
    saves = max([best.proof.saves or ZERO, *(best.roll - least_roll(*each, best.roll, pattern) for each in others)])
    proof = replace(best.proof, among=best.proof.among + ONE_CLOTH)
    unproven = replace(proof, least=False, by="none", saves=saves)
    return replace(best, proof=unproven if saves > ZERO else proof)


def least_roll(job: CutJob, answer: Layout | Refusal | None, most: Length, pattern: Pattern) -> Length:
    """The least that the cloth of one width takes of the roll, as far as known and up to `most`; `most` where it cannot
    do."""
    if isinstance(answer, Layout):
        return min(most, answer.roll if answer.proof.least else answer.roll - (answer.proof.saves or ZERO))
    # That no strip was found that joins is not certain to be so.
    if (isinstance(answer, Refusal) and answer.reason != "cannot join") or infeasible(job):
        return most
    steps = least_steps(job, rows_for(job, pattern), pattern)
    return most if least_bought(job, steps, pattern) > 0 else ZERO


def on_one_width(job: CutJob, pattern: Pattern) -> Layout | Refusal | None:
    """The same on cloth of one width."""
    usable = job.widest
    if refusal := refused(job):
        return refusal
    if job.rules.policy == "half widths" and not all(halved(demand, usable, job.join) for demand in job.demands):
        return Refusal("piece too narrow", None, job.rules.least_piece, job.scale.length(usable // 2))
    rows = rows_for(job, pattern)
    if not rows:
        return Refusal("cannot join", None, job.rules.least_piece, job.scale.length(usable))
    placed = lot_by_lot(job, pattern) or on_lengths(job, rows, pattern, partial(least_steps, job, rows))
    if placed is None:
        return None
    return layout(job, placed.rows, proof_of(job, placed, pattern), as_given=True)


def rows_for(job: CutJob, pattern: Pattern) -> list[Row]:
    """The widths of all strips by the policy; none where a strip cannot be joined so that it matches."""
    return policy_rows(job) if job.rules.policy != "part widths" else shared_rows(job, pattern)


def lot_by_lot(job: CutJob, pattern: Pattern) -> Placed | None:
    """Every strip from one dye lot: on each lot the largest strips that fit together, on the roll's lot last. None
    where there is only one lot, and where strips are left over: then lots are put together."""
    lots = sorted(by_lot(job), key=lambda numbers: any(job.stock[number].length is None for number in numbers))
    left, placed = sorted(range(len(job.demands)), key=lambda n: -job.demands[n].flat * job.demands[n].cut), list[Row]()
    for numbers in lots if len(lots) > 1 else ():
        here: list[int] = []
        rows: list[Row] = []
        for place in left:
            places = sorted([*here, place])
            part = job.part(places, numbers)
            laid = over_runs(part, phased(rows_for(part, pattern), pattern), pattern, is_set=bool(placed))
            if laid and laid.rows:
                here, rows = places, [row.renumbered(places, numbers[row.stretch]) for row in laid.rows]
        placed += rows
        left = [place for place in left if place not in here]
    return None if left or not placed else Placed(placed)


def of_each_width(job: CutJob) -> list[CutJob]:
    """The job on the stretches of each width, first the roll's or the one with most cloth."""
    cloth: dict[int, int] = {}
    for number, each in enumerate(job.stock):
        usable = job.scale.down(each.usable)
        for run in runs_of(job, number):
            cloth[usable] = cloth.get(usable, 0) + (ENDLESS if run.room is None else run.room)
    widths = sorted(cloth, key=lambda usable: (-cloth[usable], -usable)) or [job.widest]
    stocks = [tuple(each for each in job.stock if job.scale.down(each.usable) == usable) for usable in widths]
    return [replace(job, stock=stock) for stock in stocks]


def shared_rows(job: CutJob, pattern: Pattern) -> list[Row]:
    """Strips strung together; none where one cannot be joined so that it matches.

    They are strung group by group as in the least plan that ignores the edges. Where that comes out longer, few strips
    (with patience more) are strung in every order, and more than that in a few plain orders.
    """
    spaced = [replace(demand, cut=pattern.least_in_parts(demand.cut)) for demand in job.demands]
    plan = ByLength(spaced, Cloth(job.widest, job.join), job.rules.effort).least.choice
    rows, cost = string_batches(job, pattern, [members(mask) for mask, _ in plan.groups], {})
    count, few = len(job.demands), TOGETHER if job.rules.effort >= PATIENCE else FEW
    most = few if count <= STRUNG else count
    if rows and (cost * pattern.parts == plan.cost or most < count):
        return rows
    batches = [sorted(batch) for batch in batches_of(job.demands, most)]
    others, least = string_batches(job, pattern, batches, {})
    return others if others and (not rows or least < cost) else rows


Batches = Sequence[Sequence[int]]
"""The numbers of the strips in each batch."""

Known = dict[tuple[int, ...], Strung | None]
"""The strings of batches strung before."""


def string_batches(job: CutJob, pattern: Pattern, batches: Batches, known: Known) -> tuple[list[Row], Fraction]:
    """The widths of some batches of strips, each strung by itself, and how much they step over; none where a batch
    cannot be strung."""
    rows: list[Row] = []
    cost = Fraction(0)
    for batch in batches:
        demands, key = [job.demands[place] for place in batch], tuple(batch)
        if key not in known:
            known[key] = shortest_string(demands, job.widest, job.join, pattern.least_in_parts)
        string_of = known[key]
        if string_of is None:
            return [], cost
        cost += Fraction(string_of.length, pattern.parts)
        rows += [row.renumbered(batch) for row in rows_of_string(string_of, demands, job.widest)]
    return rows, cost


def policy_rows(job: CutJob) -> list[Row]:
    """Whole and half widths; none where a strip cannot be made with its inner widths whole. Of two halves in one width,
    the left is the tail of a strip and the right the head of another."""
    usable, places = job.widest, range(len(job.demands))
    rows = fixed_rows(job, places, usable, matched=True)
    pieces = [[width for row in rows for strip, width in row.parts if strip == place] for place in places]
    counts = [len(widths) for widths in pieces]
    # A piece between two others that is not a whole width cannot meet both.
    if not all(counts) or any(width < usable for widths in pieces for width in widths[1:-1]):
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


def proof_of(job: CutJob, placed: Placed, pattern: Pattern) -> Proof:
    """Proven where a bound is met, or where the policy leaves only the order open and the best order is known. On cloth
    in hand the cloth to buy is what is proven."""
    rows, words = placed.rows, class_of(job.rules) + MATCHED
    used = taken(rows)
    fixed = job.rules.policy != "part widths"
    alone = sum((fewest_widths(demand, job.widest, job.join) or 1) for demand in job.demands)
    fewest = fixed or pieces_in(rows) == alone
    total, saved = least_steps(job, rows, pattern)
    bound, saves = total - saved + once_longer(job, pattern), None
    if len(job.stock) > 1:
        words += SET_ASIDE
        least_roll = least_bought(job, (total, saved), pattern)
        least, saves = bought_for(job, placed) <= least_roll, could_save(job, bought_for(job, placed), least_roll)
        if not least and fixed and placed.finished and not pattern.half_drop:
            return Proof(True, job.scale.length(bound), "policy", words, fewest)
    elif used > bound and fixed and settled(job, rows, pattern):
        return Proof(True, job.scale.length(used), "policy", words, fewest)
    else:
        least = used == bound
    # Which halves share a width, and so where joins fall, is not tried in every way.
    least = least and not (job.rules.policy == "half widths" and job.spanned)
    return Proof(least, job.scale.length(bound), "bound" if least else "none", words, fewest, None if least else saves)


def settled(job: CutJob, rows: Sequence[Row], pattern: Pattern) -> bool:
    """True where fixed numbers of widths were tried in every phase they can have. Which odd halves share a width is not
    tried where that affects the phases."""
    few = len(rows) <= MANY and len(job.demands) <= FLIPS
    return not pattern.half_drop or (job.rules.policy == "whole widths" and few)


def least_steps(job: CutJob, rows: Sequence[Row], pattern: Pattern) -> tuple[Fraction, Fraction]:
    """A bound of the sum of the steps of all matched plans, in grid units, each width taking the shorter step the
    pattern allows; and what the last width of a run may save of its own step. With the widths of the policy, else cut
    without regard to the edges."""
    saved = max(pattern.least_step(demand.cut) - demand.cut for demand in job.demands)
    if job.rules.policy != "part widths":
        return sum((pattern.least_step(row.cut) for row in rows), Fraction(0)), saved
    demands = [replace(demand, cut=pattern.least_in_parts(demand.cut)) for demand in job.demands]
    least = ByLength(without_spans(demands), Cloth(job.widest, job.join), job.rules.effort).bound
    return Fraction(least, pattern.parts), saved


def once_longer(job: CutJob, pattern: Pattern) -> Fraction:
    """The cost of the one change of phase that a joined strip of a half-drop must have, where every change is the
    longer step; nothing where a change may be the shorter one."""
    joined = any(demand.flat > job.widest for demand in job.demands)
    keeps = all(pattern.step(demand.cut) < pattern.step(demand.cut, True) for demand in job.demands)
    return pattern.length / 2 if pattern.half_drop and joined and keeps else Fraction(0)


PARTED = 5
"""Up to this many strips every partition into groups is tried; of more only each strip by itself."""


def fewer_matched(asked: CutJob, pattern: Pattern, plan: Layout) -> Layout | None:
    """The fewest joins that buy the same in shop steps as a matched plan, where they are fewer than the plan's. None
    for fixed numbers of widths and for several dye lots, which leave no choice."""
    cut_from = {each.stretch for each in plan.uses}
    job = next(each for each in of_each_width(asked) if cut_from & {stretch.id for stretch in each.stock})
    if job.rules.policy != "part widths" or len(by_lot(job)) > 1:
        return None
    alone = [[place] for place in range(len(job.demands))]
    parted = partitions(range(len(job.demands))) if len(job.demands) <= PARTED else iter([alone])
    known, most = Known(), Fraction(most_that_buys(job, plan))
    made = [rows for groups in parted if (rows := string_batches(job, pattern, groups, known)[0])]
    best: tuple[int, Fraction, list[Row]] | None = None
    for rows in sorted(made, key=pieces_in):
        pieces = pieces_in(rows)
        if pieces - len(job.demands) >= plan.joins or (best and pieces > best[0]):
            break
        placed = over_runs(job, phased(rows, pattern), pattern)
        bought = bought_for(job, placed) if placed else most
        if placed and bought <= most and (best is None or bought < best[1]):
            best = (pieces, bought, placed.rows)
    if best is None:
        return None
    return layout(job, best[2], Proof(False, plan.proof.bound, "none", plan.proof.among, False), as_given=True)


def pieces_in(rows: Sequence[Row]) -> int:
    """The number of pieces in some widths."""
    return sum(len(row.parts) for row in rows)


def partitions(places: Sequence[int]) -> Iterator[list[list[int]]]:
    """Every partition of some places into groups."""
    if not places:
        yield []
        return
    first, rest = places[0], places[1:]
    for groups in partitions(rest):
        yield [[first], *groups]
        for n, group in enumerate(groups):
            yield [*groups[:n], [first, *group], *groups[n + 1 :]]
