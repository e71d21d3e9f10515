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

WHOLE = Path(__file__).with_name("whole.toml").read_text(encoding="utf-8")
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
