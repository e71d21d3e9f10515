"""The engine beside the exact model, one job at a time, in words."""

from __future__ import annotations

from tests.trade.cutting.jobs import Sample, quarter
from tests.trade.cutting.model import Answer, clear_of_spans, cross_cut, fixed_widths, lanes
from wizard.trade.cutting import Layout, Policy, Refusal, lay_out
from wizard.trade.lengths import Length

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
    found = score_of(answer.fewest_joins or answer.best)
    if model.score is None or model.score[2] != found[2] or (answer.fewest_joins and model.score != found):
        return f"the model has {model}, the engine {found}"
    return "equal" if answer.fewest_joins else "none"


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
