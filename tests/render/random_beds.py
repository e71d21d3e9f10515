"""Whole jobs from a seed, as project files: beds of every shape, long names, many staples, hems along odd floors."""

from __future__ import annotations

from functools import cache
from random import Random

from tests.render.jobs import project_of
from wizard.project.plan_of_project import plan_of
from wizard.trade.plan_records import Plan

WORDS = (
    "heather", "birch", "lantern", "quay", "window-seat", "north", "gull", "harbour", "Überbreite-mit-langem-Namen",
    "attic", "stair",
)  # fmt: skip
KINDS = ("fine silk", "lawn", "plain cotton", "linen", "flannel", "velvet or other heavy cloth")
FIXINGS = ("staples", "tacks", "magnets", "adhesive hook-and-loop", "glue")


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
kind = "{random.choice(FIXINGS)}"
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
