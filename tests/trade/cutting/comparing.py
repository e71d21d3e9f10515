"""The engine beside the exact model, one job at a time, in words."""

from __future__ import annotations

from msgspec.structs import replace

from tests.trade.cutting.model import clear_of_spans, cross_cut, cut_from_stock, fewest_pieces, fixed_widths, lanes
from tests.trade.cutting.random_jobs import Owned, Sample, Spanned, quarter
from wizard.trade.cutting import Cutting, Layout, Policy, Refusal, lay_out


def compare_roll(job: Sample, seconds: float = 10) -> str:
    """`equal`, `not solved` (by the model), `gap stated`, or what differs."""
    answer = lay_out(job.strips(), [job.roll()], job.rules())
    if isinstance(answer, Refusal):
        return f"refused: {answer}"
    plan = answer.best
    cloth = int(plan.used / quarter(1))
    model = cross_cut(job.sizes, job.usable, job.join, job.least, job.widths(), seconds)
    if model.bound > cloth + 0.001 or (plan.proof.least and 0 <= model.cloth < cloth):
        return f"the model has {model}, the engine {cloth}"
    if not model.solved:
        return "not solved"
    if (model.cloth, model.pieces) == (cloth, len(plan.pieces)):
        return "equal"
    if not (plan.proof.least and plan.proof.fewest_joins) and int(plan.proof.bound / quarter(1)) <= model.cloth:
        return "gap stated"
    return f"the model has {model}, the engine {cloth} in {len(plan.pieces)} pieces: {plan.proof}"


def compare_owned(job: Owned, seconds: float = 10) -> str:
    """The same for cloth in hand."""
    answer = lay_out(job.job.strips(), job.stock(), job.job.rules())
    one = job.job
    solved, model = cut_from_stock(
        one.sizes, one.usable, one.join, one.least, one.widths(), job.runs(), job.roll, seconds
    )
    if not solved:
        return "not solved"
    if isinstance(answer, Refusal) or model is None:
        return "equal" if isinstance(answer, Refusal) and model is None else f"{answer} but the model has {model}"
    found = score(answer)
    if found == model:
        return "equal"
    return f"the model has {model}, the engine {found}: {answer.best.proof}"


def score(answer: Cutting) -> tuple[int, ...]:
    """What is bought, what is used of the owned, and the pieces, in ticks."""
    return score_of(answer.best)


def score_of(plan: Layout) -> tuple[int, ...]:
    """The same of any layout."""
    uses = {use.stretch: int(use.length / quarter(1)) for use in plan.uses}
    bought = uses.pop("roll", 0)
    return bought, sum(uses.values()), len(plan.pieces)


def compare_lanes(job: Sample, seconds: float = 10) -> str:
    """The same for lanes along the roll."""
    answer = lay_out(job.strips(), [job.roll()], replace(job.rules(), along=True))
    if isinstance(answer, Refusal):
        return f"refused: {answer}"
    plan = answer.best
    found = (int(plan.used / quarter(1)), len(plan.pieces))
    solved, model, bound = lanes(job.sizes, job.usable, job.join, job.least, seconds)
    if bound > found[0] + 0.001 or (plan.proof.least and model and model[0] < found[0]):
        return f"the model has {model} and bound {bound}, the engine {found}"
    if not solved:
        return "not solved"
    if model == found:
        return "equal"
    if model and not (plan.proof.least and plan.proof.fewest_joins) and int(plan.proof.bound / quarter(1)) <= model[0]:
        return "gap stated"
    return f"the model has {model}, the engine {found}: {plan.proof}"


def compare_spanned(job: Spanned, seconds: float = 10) -> str:
    """The same with spans in which no join may fall."""
    one = job.job
    answer = lay_out(job.strips(), [one.roll()], one.rules())
    widths = one.widths() + 1
    model = clear_of_spans(one.sizes, job.spans, one.usable, one.join, one.least, widths, seconds)
    if isinstance(answer, Refusal):
        return f"refused: {answer}, the model {model}" if model.cloth >= 0 else "equal"
    plan, cloth = answer.best, int(answer.best.used / quarter(1))
    if model.bound > cloth + 0.001 or (plan.proof.least and 0 <= model.cloth < cloth):
        return f"the model has {model}, the engine {cloth}"
    if not model.solved:
        return "not solved"
    if (model.cloth, model.pieces) == (cloth, len(plan.pieces)):
        return "equal"
    if (
        not (plan.proof.least and plan.proof.fewest_joins)
        and int(plan.proof.bound / quarter(1)) <= model.cloth <= cloth
    ):
        return "gap stated"
    return f"the model has {model}, the engine {cloth} in {len(plan.pieces)} pieces: {plan.proof}"


def compare_fewest(job: Sample, step: int, seconds: float = 10) -> str:
    """The plan of fewest joins that buys the same length in shop steps of so many ticks; `none` where the least plan
    has the fewest."""
    answer = lay_out(job.strips(), [job.roll()], replace(job.rules(), step=quarter(step)))
    if isinstance(answer, Refusal):
        return f"refused: {answer}"
    plan = answer.fewest_joins or answer.best
    found = (int(plan.used / quarter(1)), len(plan.pieces))
    within = int(answer.best.buy / quarter(1))
    solved, model = fewest_pieces(job.sizes, job.usable, job.join, job.least, job.widths(), within, seconds)
    if not solved:
        return "not solved"
    if model != found:
        return f"the model has {model}, the engine {found}"
    return "equal" if answer.fewest_joins else "none"


def compare_fewest_owned(job: Owned, step: int, seconds: float = 10) -> str:
    """The same on cloth in hand, and what is bought with it."""
    one = job.job
    answer = lay_out(one.strips(), job.stock(), replace(one.rules(), step=quarter(step)))
    if isinstance(answer, Refusal):
        return "none"
    within = int(answer.best.buy / quarter(1))
    solved, model = cut_from_stock(
        one.sizes, one.usable, one.join, one.least, one.widths(), job.runs(), job.roll, seconds, within
    )
    if not solved:
        return "not solved"
    found = score_of(answer.fewest_joins or answer.best)
    if model is None or model[2] != found[2] or (answer.fewest_joins and model != found):
        return f"the model has {model}, the engine {found}, within {within}"
    return "equal" if answer.fewest_joins else "none"


def compare_policy(job: Sample, policy: Policy, seconds: float = 10) -> str:
    """Whole or half widths against the exact model, and against every pairing of the odd halves, tried one by one."""
    answer = lay_out(job.strips(), [job.roll()], replace(job.rules(), policy=policy))
    halves = [halves_of(flat, job.usable, job.join, policy) for flat, _ in job.sizes]
    if isinstance(answer, Refusal):
        narrow = any(count % 2 and count > 1 for count in halves) and job.usable // 2 < job.least
        return "equal" if answer.reason == "piece too narrow" and narrow else f"refused: {answer}"
    odd = tuple(cut for (_, cut), count in zip(job.sizes, halves, strict=True) if count % 2)
    least = sum(count // 2 * cut for (_, cut), count in zip(job.sizes, halves, strict=True)) + paired(odd)
    joins = sum(-(-count // 2) - 1 for count in halves)
    found = (int(answer.best.used / quarter(1)), answer.best.joins)
    if found != (least, joins):
        return f"tried: {(least, joins)}, the engine {found}"
    solved, model = fixed_widths(job.sizes, job.usable, job.join, policy == "half widths", seconds)
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
