"""Small jobs for checks against published values: straight sections, every allowance said."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from tests.trade.sample_jobs import inches
from wizard.trade.job_fields import Allowances, Cloth, Cloths, Fullness, Job, Joins, Section, Side, Survey
from wizard.trade.lengths import ZERO
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Layer, Plan


def straight(side: Side, run: int | str, drop: int | str, **more: Any) -> Section:
    """A section that stops at both posts over a level floor."""
    return Section(
        on=True, side=side, run=(inches(run), inches(run)), drop=(inches(drop),) * 3,
        left_end="stops", right_end="stops", **more,
    )  # fmt: skip


def plain_job(
    sections: dict[str, Section], *, fullness: str, cloth: Cloth, end_hem: str = "1", join: str = "1/2",
    top: str = "1/2", least: str = "2", squaring: str = "0", joins: Joins = "part widths",
    interlining: Cloth | None = None,
) -> Job:  # fmt: skip
    """A job with nothing left to defaults that a published sum might not share."""
    return Job(
        name="outside value", show="in", standard="inches",
        survey=Survey(rail="solid wood", rail_thickness=inches(1), floor="carpet", floor_gap=ZERO, section=sections),
        allowances=Allowances(
            join=inches(join), end_hem=inches(end_hem), top=inches(top), least_piece=inches(least),
            squaring=inches(squaring),
        ),
        cloth=Cloths(face=cloth, interlining=interlining or Cloth(use=False), lining=Cloth(use=False)),
        fullness=Fullness(aim="a number", want=Fraction(fullness), joins=joins, surplus="trim"),
    )  # fmt: skip


def cloth(usable: str, *, hem: str = "1/2", step: str = "9/2", **more: Any) -> Cloth:
    """Plain cloth whose usable width is said outright."""
    values: dict[str, Any] = {
        "use": True, "kind": "plain cotton", "weight": "medium", "width": inches(usable), "trim": ZERO,
        "hem": inches(hem), "hem_kind": "double", "step": inches(step), "sold_by": "yd",
    } | more  # fmt: skip
    return Cloth(**values)


def planned(job: Job) -> tuple[Plan, Layer]:
    """The plan and its face."""
    plan = make_plan(job)
    return plan, plan.layers[0]


def value(plan: Plan, figure: str) -> Any:
    """The value of a figure of the plan."""
    return plan.figures[figure].value
