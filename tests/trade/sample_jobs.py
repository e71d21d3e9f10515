"""The jobs that the tests plan: small, worked by hand, with everything in it; and ways of changing them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.figures import Ledger
from wizard.trade.job_fields import (
    Allowances,
    Cloth,
    Cloths,
    Fixing,
    Fullness,
    Job,
    Joins,
    Obstacle,
    Owned,
    Post,
    Section,
    Side,
    Survey,
    Tape,
    Thread,
)
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Finding, Layer, Plan, Purchase, Step
from wizard.trade.purchases import purchases_of
from wizard.trade.steps import work_of


def inches(amount: int | str | Fraction) -> Length:
    """`inches("12 1/2")` and the like, exact."""
    if isinstance(amount, str):
        return Length(sum(map(Fraction, amount.split()), Fraction(0)))
    return Length(Fraction(amount))


def section(run: str | int, *drops: str | int, **more: Any) -> Section:
    """A section that stops at both posts, read at three places."""
    readings = tuple(inches(drop) for drop in (drops if len(drops) > 1 else drops * 3))
    said: dict[str, Any] = {
        "on": True,
        "left_end": "stops",
        "right_end": "stops",
        "run": (inches(run),) * 2,
        "drop": readings,
    }
    return Section(**(said | more))


def small(**more: Any) -> Job:
    """Two sides and a foot, one layer, all in sixteenths: what most tests start from."""
    survey = Survey(
        rail="solid wood", rail_thickness=inches(1), floor="carpet", floor_gap=ZERO,
        section={"left": section(76, 12), "right": section(76, 12), "foot": section(58, 10)},
    )  # fmt: skip
    cloth = Cloths(face=Cloth(width=inches(55), weight="medium"), fixing=Fixing(kind="staples"))
    job = Job(survey=survey, cloth=cloth, fullness=Fullness(want=Fraction(5, 2)))
    return replace(job, **more)


def with_section(job: Job, section_id: str, **more: Any) -> Job:
    """The job with some answers about one section changed."""
    sections = dict(job.survey.section)
    sections[section_id] = replace(sections[section_id], **more)
    return replace(job, survey=replace(job.survey, section=sections))


def with_face(job: Job, **more: Any) -> Job:
    """The job with some answers about the face cloth changed."""
    return replace(job, cloth=replace(job.cloth, face=replace(job.cloth.face, **more)))


def surveyed(job: Job, **more: Any) -> Job:
    """The job with some answers about the bed changed."""
    return replace(job, survey=replace(job.survey, **more))


Value = TypeVar("Value")


def known(value: Value | None) -> Value:
    """What is known by now."""
    assert value is not None
    return value


def found(job: Job) -> dict[str, Finding]:
    """What looks wrong about a job, by id."""
    return {each.id: each for each in make_plan(job).findings}


# Jobs with nothing left to defaults that a published sum might not share.
def straight(side: Side, run: int | str, drop: int | str, **more: Any) -> Section:
    """A section that stops at both posts over a level floor."""
    return section(run, drop, side=side, **more)


def plain_job(
    sections: dict[str, Section], *, fullness: str, cloth: Cloth, end_hem: str = "1", join: str = "1/2",
    top: str = "1/2", least: str = "2", squaring: str = "0", joins: Joins = "part widths",
    interlining: Cloth | None = None,
) -> Job:  # fmt: skip
    """Sections of a cloth, every allowance said."""
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
    }  # fmt: skip
    return Cloth(**(values | more))


def planned(job: Job) -> tuple[Plan, Layer]:
    """The plan and its face."""
    plan = make_plan(job)
    return plan, plan.layers[0]


def value(plan: Plan, figure: str) -> Any:
    """The value of a figure of the plan."""
    return plan.figures[figure].value


# One invented bed whose plan is small enough to be worked by hand.
SIDE = section(40, 12, on=None, hem_line="level")
FACE = Cloth(name="reed cloth", kind="plain cotton", weight="light", width=inches("55"), wash="already washed")
INNER = Cloth(use=True, name="fleece", kind="flannel", weight="medium", width=inches("55"), wash="already washed")
SURVEY = Survey(
    rail="solid wood", rail_thickness=inches("1 1/8"), slatted=False, floor="carpet", floor_gap=ZERO,
    section={"left": SIDE},
)  # fmt: skip
BED = Job(survey=SURVEY, cloth=Cloths(face=FACE, fixing=Fixing(kind="staples")), fullness=Fullness(want=Fraction(5, 2)))
"""One side of 40 in at fullness 2 1/2, in 55 in cloth: 100 in flat, 102 in cut, two pieces with one join."""


def bed(*, section: dict[str, Section] | None = None, survey: dict[str, Any] | None = None, **cloth: Any) -> Job:
    """The bed with other sections, survey answers or cloths."""
    said = {**(survey or {}), **({"section": section} if section else {})}
    return replace(BED, survey=replace(SURVEY, **said), cloth=replace(BED.cloth, **cloth))


def side(**more: Any) -> Job:
    """The bed with other answers about its one side."""
    return bed(section={"left": replace(SIDE, **more)})


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


def everything() -> Job:
    """A job with every answer in it: uneven floor, posts, a split, three layers, washed and owned cloth."""
    left = section(
        "76 5/8", "11 1/2", "11 7/8", 12, side="left", name="window side", drop_at=(inches(1), inches(40), inches(76)),
        hem_line="follow the floor", right_end="returns", right_return=inches(1), returns_flat=True, rail="solid wood",
        rail_thickness=inches("7/8"), floor_gap=inches("1/8"), raised=inches("1/4"), fixing_face="inner face",
        free_height=inches(2), left_hook=inches(2), right_hook=inches(1), left_post="head-left", right_post="foot-left",
        left_daylight_top=ZERO, left_daylight_floor=inches("1/2"), right_daylight_top=ZERO,
        right_daylight_floor=inches("1/4"),
        in_the_way={"centre-leg": Obstacle("leg", "centre leg", inches(38), inches(3), inches(10), "no fixing")},
    )  # fmt: skip
    right = section(
        "76 1/2", 12, side="right", left_end="returns", left_return=inches(1), free_height=inches(2), hem_line="level",
        in_the_way={
            "drawer": Obstacle("drawer", "drawer", inches(30), inches(12), inches(8), "split here", inches(2)),
            "heater": Obstacle("heater", "heater", inches(60), inches(8), inches(20), "keep clear"),
        },
    )  # fmt: skip
    foot = section(58, "10 1/2", side="foot", left_end="overlaps", left_return=inches(2), hem_line="level")
    post = Post(inches(3), inches(3), inches("1/2"), inches("1/2"), may_fix=True, turned=False)
    survey = Survey(
        rail="solid wood", rail_thickness=inches(1), slatted=True, floor="hard floor", floor_gap=inches("1/8"),
        raised=ZERO, bed_size="US queen", taken_off="now and then", watch=("antique",),
        section={"left": left, "right": right, "foot": foot},
        post={each: post for each in ("head-left", "foot-left", "foot-right", "head-right")},
    )  # fmt: skip
    return Job(
        name="Everything", show="in", ruler=inches("1/16"), standard="inches", currency="£", survey=survey,
        allowances=Allowances(
            inches("1/2"), inches(1), inches("1/2"), inches(1), inches(6), inches("1/4"), inches("1/4")
        ),
        cloth=Cloths(
            face=_face(), interlining=_inner("flannel"), lining=replace(_inner("lawn"), setback=inches("1/4")),
            tape=Tape(inches(2), inches(1), "yd", inches(36), Decimal("0.80")),
            thread=Thread(Fraction(5, 2), Fraction(3, 20), inches(3600), Decimal("2.50")),
            fixing=Fixing("staples", inches(2), inches("1/2"), (inches("3/8"), inches("1/2")), 500, Decimal("4.00")),
        ),
        fullness=Fullness("a number", Fraction(2), "part widths", "trim"),
    )  # fmt: skip


def _face() -> Cloth:
    return Cloth(
        use=True, name="slate ticking", kind="fine silk", weight="light", width=inches(56), trim=inches("1/2"),
        one_way=False, sideways=False, repeat=ZERO, repeat_kind="straight", match=False, match_from="hem", lay="across",
        warp_shrink=Fraction(3, 100), weft_shrink=Fraction(1, 50), wash="washed first", sold_by="yd",
        step=inches("9/2"), price=Decimal("18.50"), hem=inches("1/2"), hem_kind="double", hem_turn=inches("1/4"),
        join="seam", lap=inches("1/2"),
        owned={
            "bolt": Owned(inches(108), inches(56), inches(20), inches(24), "A", False),
            "rest": Owned(inches(45), inches(54), lot="B", washed=True),
        },
    )  # fmt: skip


def _inner(kind: Any) -> Cloth:
    return Cloth(
        use=True, kind=kind, weight="light", width=inches(45), trim=inches("1/4"), one_way=False, sideways=False,
        repeat=ZERO, repeat_kind="straight", match=True, match_from="hem", lay="across", warp_shrink=Fraction(0),
        weft_shrink=Fraction(0), wash="already washed", sold_by="yd", step=inches(12), price=Decimal("7.25"),
        hem=inches("3/2"), hem_kind="double", hem_turn=inches("1/4"), setback=inches("1/2"), end_setback=inches("1/2"),
        join="lap", lap=inches("1/2"),
    )  # fmt: skip


def leaves(table: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The path of every answer in a job, every entry of a table and every item of a list among them."""
    names = list(table) if isinstance(table, Mapping) else table.__struct_fields__
    for name in names:
        value = table[name] if isinstance(table, Mapping) else getattr(table, name)
        if isinstance(value, Struct | Mapping):
            if isinstance(table, Mapping):
                yield (*path, name)
            yield from leaves(value, (*path, name))
        elif value is not None:
            yield (*path, name)


def without(table: Any, path: tuple[str, ...]) -> Any:
    """A job with one answer, or one whole entry, taken out; the same job where it is gone already."""
    name, rest = path[0], path[1:]
    if isinstance(table, Mapping):
        if name not in table:
            return table
        kept = {each: value for each, value in table.items() if each != name or rest}
        return kept | ({name: without(table[name], rest)} if rest else {})
    if rest:
        return replace(table, **{name: without(getattr(table, name), rest)})
    return replace(table, **{name: () if isinstance(getattr(table, name), tuple) else None})
