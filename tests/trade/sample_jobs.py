"""Jobs for the tests of the plan: one with everything in it, and ways of taking answers out of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.job_fields import (
    Allowances,
    Cloth,
    Cloths,
    Fixing,
    Fullness,
    Job,
    Obstacle,
    Owned,
    Post,
    Section,
    Survey,
    Tape,
    Thread,
)
from wizard.trade.lengths import ZERO, Length


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
    for name, value in _inside(table):
        if isinstance(value, Struct | Mapping):
            if isinstance(table, Mapping):
                yield (*path, name)
            yield from leaves(value, (*path, name))
        elif value is not None:
            yield (*path, name)


def _inside(table: Any) -> list[tuple[str, Any]]:
    if isinstance(table, Mapping):
        return list(table.items())
    return [(name, getattr(table, name)) for name in table.__struct_fields__]


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
