"""Joins of an inner layer: kept away from the face's by the order of the pieces, where that costs nothing."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.sample_jobs import inches, section, small
from wizard.trade.cutting import Layout
from wizard.trade.cutting.no_join_spans import clear_order, ends, in_span
from wizard.trade.job_fields import Cloth, Cloths, Fullness, Job
from wizard.trade.layers import APART, joins_at, least_apart
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan


def lined(runs: dict[str, str], widths: tuple[str, str], joins: str) -> Job:
    """A bed with these runs in three times its length, face and lining of these usable widths."""
    sections = {side: section(run, 12) for side, run in runs.items()}
    job = small()
    face = Cloth(width=inches(widths[0]), trim=ZERO, weight="medium")
    lining = Cloth(use=True, width=inches(widths[1]), trim=ZERO, weight="light", wash="already washed")
    return replace(
        job,
        survey=replace(job.survey, section=sections),
        cloth=Cloths(face=face, lining=lining, fixing=job.cloth.fixing),
        fullness=Fullness(want=Fraction(3), joins=joins),  # type: ignore[arg-type]
    )


def close(plan: Plan) -> set[str]:
    """The parts of which `check` says that joins lie close."""
    return {each.id.rpartition(":")[2] for each in plan.findings if each.id.startswith("joins-close")}


def could_be_cleared(plan: Plan, part: str) -> bool:
    """True where some order of a part's lining pieces keeps every join off the face's."""
    face, lining = (each.cutting.best for each in plan.layers if each.cutting)
    there, setback = joins_at(face, part, Length(1)), inches("1/2")
    pieces = [each for each in lining.pieces if each.strip == part]
    return any(
        (near := least_apart(there, joins_at(as_ordered(lining, part, order), part, Length(1)), setback)) is None
        or near >= APART
        for order in permutations(range(1, len(pieces) + 1))
    )


def as_ordered(layout: Layout, part: str, order: tuple[int, ...]) -> Layout:
    """A layout with the pieces of one part in another order."""
    orders = iter(order)
    return replace(
        layout,
        pieces=tuple(replace(each, order=next(orders)) if each.strip == part else each for each in layout.pieces),
    )


def test_pieces_turned_end_for_end_clear_the_joins() -> None:
    # The lining of a foot in half widths, as a maker turned it by hand.
    runs = {"left": "75 1/8", "foot": "41 3/16", "right": "20 3/16", "head": "87 3/8"}
    plan = make_plan(lined(runs, ("57 1/8", "56 1/16"), "half widths"))
    assert not {each for each in close(plan) if could_be_cleared(plan, each)}
    assert len(close(plan)) <= 1


@pytest.mark.parametrize("joins", ["part widths", "half widths", "whole widths"])
def test_check_never_advises_what_an_order_of_the_pieces_would_do(joins: str) -> None:
    random = Random(f"joins apart {joins}")
    for _ in range(25):
        runs = {side: f"{random.randint(25, 90)} {random.randint(0, 15)}/16" for side in ("left", "foot", "right")}
        widths = (f"{random.randint(42, 60)}", f"{random.randint(42, 60)}")
        plan = make_plan(lined(runs, widths, joins))
        assert not [part for part in close(plan) if could_be_cleared(plan, part)], (runs, widths)
        lining = plan.layers[1]
        assert lining.cutting is not None
        assert lining.rules is not None
        assert faults(lining.cutting.best, lining.strips, lining.stock, lining.rules) == []
    assert all("end for end" not in each.way_out for each in plan.findings)


@pytest.mark.parametrize("seed", range(20))
def test_an_order_is_found_wherever_there_is_one(seed: int) -> None:
    random = Random(seed)
    nets = [random.choice([53, 53, 26, random.randint(5, 50)]) for _ in range(6)]
    spans = [(at, at + 4) for at in random.sample(range(sum(nets)), 9)]
    found = clear_order(nets, int, spans)
    clear = [each for each in permutations(nets) if not any(in_span(at, spans) for at in ends(each))]
    assert sorted(found) == sorted(nets)
    assert (tuple(found) in clear) == bool(clear)
    assert clear or found == nets
