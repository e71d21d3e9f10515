"""Jobs as project files: a whole one, one with two layers, random ones by seed, those of the record; their plans."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, get_args

import tomli_w

from wizard.project.plan_of_project import at_best, plan_of
from wizard.project.problems import Problems
from wizard.project.project import Project, put_many
from wizard.project.reading import read
from wizard.trade.job_fields import FixingKind, Watch
from wizard.trade.plan_records import Plan

WHOLE = Path(__file__).with_name("whole.toml").read_text(encoding="utf-8")
"""A job with everything the sheets can show: owned cloth, two layers, a hem along the floor, a thing in the way."""

CASES = Path(__file__).parents[1] / "record" / "cases"
DEMO = Path(__file__).parents[2] / "projects" / "demo-gannet-stair.toml"
LOFT = CASES / "heron-loft.toml"
"""Two layers on three sections, one of them interlined cloth to buy, with posts and a centre leg: much to print."""
TWO_MORE: dict[str, dict[str, Any]] = {
    "head": {"run": ["58 1/4 in"] * 2, "drop": ["12 in", "12 1/8 in", "12 in"]},
    "right-2": {"side": "right", "run": ["41 1/2 in"] * 2, "drop": ["12 in", "12 3/8 in", "12 1/2 in"]},
}
"""A section at the head and a second one on the right, whose hems follow the floor."""


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
        ends = {"left_end": "stops", "right_end": "stops", "hem_line": "follow the floor"}
        tables["survey"]["section"] |= {id: {**each, **ends} for id, each in TWO_MORE.items()}
    return project_of(tomli_w.dumps(tables))


@cache
def loft_plan(sections: int = 3) -> Plan:
    """The plan of that job."""
    return at_best(plan_of(loft(sections)))


@cache
def growing_plans() -> tuple[Plan, ...]:
    """A plan for every stage of filling: the first lines of the file, a key or a table more each time."""
    lines = WHOLE.splitlines()
    return tuple(plan_of(project_of("\n".join(lines[:count]))) for count in range(1, len(lines) + 1))


WORDS = (
    "heather", "birch", "lantern", "quay", "window-seat", "north", "gull", "harbour", "Überbreite-mit-langem-Namen",
    "attic", "stair",
)  # fmt: skip
KINDS = ("fine silk", "lawn", "plain cotton", "linen", "flannel", "velvet or other heavy cloth")
FIVE_FIXINGS = ("staples", "tacks", "magnets", "adhesive hook-and-loop", "glue")


@cache
def random_plan(seed: int) -> Plan:
    """The plan of the bed with that seed."""
    return plan_of(project_of(random_file(seed)))


def random_file(seed: int) -> str:
    """A project file with nothing missing. Sections, layers, names, units and fixings all vary."""
    random = Random(seed)
    metric = random.random() < 0.4
    sides = random.sample(["left", "foot", "right", "head"], random.randint(1, 4))
    parts = [
        _top(random, metric),
        *(_section(random, side, metric) for side in sorted(sides)),
        *_cloths(random, metric),
    ]
    return "\n".join(parts)


def _name(random: Random) -> str:
    return " ".join(random.choices(WORDS, k=random.randint(1, 5)))


def _length(random: Random, least: int, greatest: int, metric: bool) -> str:
    """About so many inches."""
    return f"{random.randint(least * 254, greatest * 254) // 10} mm" if metric else (
        f"{random.randint(least, greatest - 1)} {random.randint(1, 15)}/16 in"
    )  # fmt: skip


def _top(random: Random, metric: bool) -> str:
    show, standard = ("cm", "metric") if metric else ("in", "inches")
    return f"""format = 1
name = "{_name(random)}"
show = "{show}"
standard = "{standard}"
[survey]
rail = "solid wood"
rail_thickness = "1 1/8 in"
floor = "hard floor"
floor_gap = "{random.choice(["0 in", "1/4 in"])}"
[fullness]
want = "{random.choice(["1.5", "2", "2.5", "3"])}"
joins = "{random.choice(["part widths", "part widths", "whole widths", "half widths"])}"
[cloth.fixing]
kind = "{random.choice(FIVE_FIXINGS)}"
"""


def _section(random: Random, side: str, metric: bool) -> str:
    run = _length(random, *((20, 60) if side in ("foot", "head") else (30, 84)), metric)
    base = random.randint(8, 20)
    drops = ", ".join(f'"{_length(random, base, base + random.choice([1, 1, 2]), metric)}"' for _ in range(3))
    text = f"""[survey.section.{side}]
on = true
side = "{side}"
name = "{_name(random)}"
run = ["{run}", "{run}"]
drop = [{drops}]
hem_line = "{random.choice(["level", "follow the floor"])}"
left_end = "stops"
right_end = "stops"
"""
    if random.random() < 0.4:
        text += f"""[survey.section.{side}.in_the_way.thing]
name = "{_name(random)}"
kind = "{random.choice(["centre leg", "heater", "socket"])}"
at = "12 in"
width = "2 in"
height = "8 in"
do = "no fixing"
"""
    return text


def _cloths(random: Random, metric: bool) -> list[str]:
    layers = ["face", *(each for each in ("interlining", "lining") if random.random() < 0.4)]
    return [
        f"""[cloth.{layer}]
use = true
name = "{_name(random)}"
kind = "{random.choice(KINDS)}"
weight = "medium"
width = "{_length(random, 44, 60, metric)}"
price = "12.50"
"""
        for layer in layers
    ]


def named_jobs() -> dict[str, str]:
    """Name -> project file, for each case and the demo."""
    return {path.stem: path.read_text(encoding="utf-8") for path in (*sorted(CASES.glob("*.toml")), DEMO)}


def random_job(seed: int) -> str:
    """The project file of that seed: a random bed with ends, posts, patterns, cloth in hand and washing added."""
    random, tables = Random(f"record {seed}"), tomllib.loads(random_file(seed))
    for section in tables["survey"]["section"].values():
        _ends(random, section)
    if random.random() < 0.5:
        tables["survey"]["post"] = {f"{end}-{side}": _post(random) for end in ("head", "foot") for side in SIDES}
    for cloth in (each for layer, each in tables["cloth"].items() if layer in ("face", "interlining", "lining")):
        for vary in (_pattern, _owned, _washing, _along):
            if random.random() < 0.3:
                vary(random, cloth)
    if random.random() < 0.3:
        tables["allowances"] = {"join": _inches(random, 4, 12), "least_piece": _inches(random, 32, 160)}
    return tomli_w.dumps(tables)


SIDES = ("left", "right")


def _inches(random: Random, least: int, greatest: int) -> str:
    """Between so many sixteenths of an inch."""
    return f"{random.randint(least, greatest)}/16 in"


def _ends(random: Random, section: dict[str, Any]) -> None:
    for end in SIDES:
        if random.random() < 0.4:
            section[f"{end}_end"] = "returns"
            section[f"{end}_return"] = _inches(random, 8, 40)


def _post(random: Random) -> dict[str, Any]:
    sizes = {name: _inches(random, 32, 72) for name in ("along_side", "along_end")}
    set_ins = {name: _inches(random, 0, 16) for name in ("side_set_in", "end_set_in")}
    return {**sizes, **set_ins, "may_fix": random.random() < 0.5}


def _pattern(random: Random, cloth: dict[str, Any]) -> None:
    cloth["repeat"] = _inches(random, 64, 400)
    cloth["repeat_kind"] = random.choice(["straight", "half-drop"])
    cloth["match"] = random.random() < 0.6
    cloth["match_from"] = random.choice(["hem", "top"])


def _owned(random: Random, cloth: dict[str, Any]) -> None:
    numbers = range(random.randint(1, 3))
    cloth["owned"] = {f"length-{number}": {"length": _inches(random, 400, 6000)} for number in numbers}


def _washing(random: Random, cloth: dict[str, Any]) -> None:
    cloth["wash"] = random.choice(["washed first", "not washed"])
    cloth["warp_shrink"], cloth["weft_shrink"] = f"{random.randint(0, 7)} %", f"{random.randint(0, 4)} %"


def _along(_: Random, cloth: dict[str, Any]) -> None:
    cloth["lay"] = "along"
