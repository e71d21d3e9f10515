"""One whole job as a project file, and plans made of it, of parts of it, and of jobs that are all holes."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import get_args

import tomli_w

from wizard.project.plan_of_project import best_plan_of, plan_of
from wizard.project.problems import Problems
from wizard.project.project import Project, put_many
from wizard.project.reading import read
from wizard.trade.job_fields import FixingKind, Watch
from wizard.trade.plan_records import Plan

WHOLE = """format = 1
name = "Juniper loft"
show = "in"
standard = "inches"
currency = "¤"

[survey]
rail = "solid wood"
rail_thickness = "1 1/8 in"
slatted = true
floor = "hard floor"
floor_gap = "1/4 in"
taken_off = "now and then"

[survey.section.left]
side = "left"
run = ["76 5/8 in", "76 1/2 in"]
drop = ["11 7/8 in", "12 in", "12 1/4 in"]
hem_line = "level"
free_height = "3 in"
left_end = "returns"
left_return = "1 in"
right_end = "stops"

[survey.section.left.in_the_way.centre-leg]
name = "centre leg"
kind = "centre leg"
at = "38 in"
width = "3 in"
height = "9 in"
do = "no fixing"

[survey.section.foot]
side = "foot"
run = ["58 in", "58 in"]
drop = ["9 in", "9 in", "9 in"]
hem_line = "level"
free_height = "3 in"
left_end = "stops"
right_end = "stops"

[survey.section.right]
side = "right"
run = ["76 1/2 in", "76 1/2 in"]
drop = ["12 in", "12 1/2 in", "12 3/4 in"]
hem_line = "follow the floor"
free_height = "3 in"
left_end = "stops"
right_end = "returns"
right_return = "1 in"

[cloth.face]
name = "slate ticking"
kind = "linen"
weight = "medium"
width = "55 in"
price = "18.50"

[cloth.face.owned.first]
length = "1 1/4 yd"

[cloth.interlining]
use = true
name = "cotton domette"
kind = "flannel"
weight = "heavy"
width = "54 in"

[cloth.fixing]
kind = "staples"

[fullness]
want = "2.5"
"""
"""A job with everything the sheets can show: owned cloth, two layers, a hem along the floor, a thing in the way."""

LOFT = Path(__file__).parents[1] / "record" / "cases" / "heron-loft.toml"
"""Two layers on three sections, one of them interlined cloth to buy, with posts and a centre leg: much to print."""
TWO_MORE = """
[head]
run = ["58 1/4 in", "58 1/4 in"]
drop = ["12 in", "12 1/8 in", "12 in"]
left_end = "stops"
right_end = "stops"

[right-2]
side = "right"
run = ["41 1/2 in", "41 1/2 in"]
drop = ["12 in", "12 3/8 in", "12 1/2 in"]
hem_line = "follow the floor"
left_end = "stops"
right_end = "stops"
"""
"""A section at the head and a second one on the right, whose hem follows the floor."""


def project_of(text: str) -> Project:
    """The project of a file that is known to be readable."""
    project = read(text.encode())
    assert not isinstance(project, Problems), project
    return project


@cache
def whole_plan() -> Plan:
    """The plan of WHOLE."""
    return plan_of(project_of(WHOLE))


@cache
def metric_plan() -> Plan:
    """The same bed shown in centimetres and made to the metric habits."""
    return plan_of(put_many(project_of(WHOLE), {"show": "cm", "standard": "metric"}))


FIXINGS = get_args(FixingKind)


def with_every_caution(fixing: str) -> str:
    """The file of a job with everything about the bed and its runs that calls for a caution, fixed in one way."""
    tables = tomllib.loads(WHOLE)
    tables["survey"]["watch"] = list(get_args(Watch))
    tables["survey"]["section"]["foot"]["in_the_way"] = {
        kind: {"kind": kind, "at": "20 in", "width": "1 in", "do": "no fixing"} for kind in ("heater", "vent", "socket")
    }
    tables["cloth"]["fixing"]["kind"] = fixing
    return tomli_w.dumps(tables)


@cache
def cautioned_plan(fixing: str) -> Plan:
    """The plan of that job."""
    return plan_of(project_of(with_every_caution(fixing)))


def loft(sections: int = 3) -> Project:
    """The job of LOFT before any work was done, with three sections or five."""
    tables = tomllib.loads(LOFT.read_text(encoding="utf-8"))
    del tables["work"], tables["progress"]
    if sections == 5:
        tables["survey"]["section"] |= tomllib.loads(TWO_MORE)
    return project_of(tomli_w.dumps(tables))


@cache
def loft_plan(sections: int = 3) -> Plan:
    """The plan of that job."""
    return best_plan_of(loft(sections))


@cache
def growing_plans() -> tuple[Plan, ...]:
    """A plan for every stage of filling: the first lines of the file, a key or a table more each time."""
    lines = WHOLE.splitlines()
    return tuple(plan_of(project_of("\n".join(lines[:count]))) for count in range(1, len(lines) + 1))
