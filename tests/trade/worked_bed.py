"""One invented bed whose plan is small enough to be worked by hand, for the tests of making up and hanging."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from msgspec.structs import replace

from tests.trade.sample_jobs import inches
from wizard.trade.figures import Ledger
from wizard.trade.job_fields import Cloth, Cloths, Fixing, Fullness, Job, Section, Survey
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Purchase, Step
from wizard.trade.purchases import purchases_of
from wizard.trade.steps import work_of

SIDE = Section(
    run=(inches("40"), inches("40")),
    drop=(inches("12"), inches("12"), inches("12")),
    hem_line="level",
    left_end="stops",
    right_end="stops",
)
FACE = Cloth(name="reed cloth", kind="plain cotton", weight="light", width=inches("55"), wash="already washed")
INNER = Cloth(use=True, name="fleece", kind="flannel", weight="medium", width=inches("55"), wash="already washed")
SURVEY = Survey(
    rail="solid wood",
    rail_thickness=inches("1 1/8"),
    slatted=False,
    floor="carpet",
    floor_gap=inches("0"),
    section={"left": SIDE},
)
BED = Job(
    survey=SURVEY,
    cloth=Cloths(face=FACE, fixing=Fixing(kind="staples")),
    fullness=Fullness(want=Fraction(5, 2)),
)
"""One side of 40 in at fullness 2 1/2, in 55 in cloth: 100 in flat, 102 in cut, two pieces with one join."""


def bed(*, section: dict[str, Section] | None = None, survey: dict[str, Any] | None = None, **cloth: Any) -> Job:
    """The bed with other sections, survey answers or cloths."""
    said = {**(survey or {}), **({"section": section} if section else {})}
    return replace(BED, survey=replace(SURVEY, **said), cloth=replace(BED.cloth, **cloth))


def ledger_of(job: Job) -> tuple[Ledger, Any]:
    """The plan, and a ledger with its figures to go on from."""
    plan = make_plan(job)
    return Ledger(job, dict(plan.figures)), plan


def steps(job: Job) -> dict[str, Step]:
    """The work by step id, in order."""
    ledger, plan = ledger_of(job)
    found = work_of(ledger, plan.parts, plan.layers)
    assert len({each.id for each in found}) == len(found)
    return {each.id: each for each in found}


def purchases(job: Job) -> dict[str, Purchase]:
    """The buying list by id, in order."""
    ledger, plan = ledger_of(job)
    return {each.id: each for each in purchases_of(ledger, plan.parts, plan.layers)}
