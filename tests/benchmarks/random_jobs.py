"""Whole jobs of one to twelve sections from a seed, as project files: every kind of cloth that can be laid out.

Patterned cloth, straight and half-drop; lengths in hand, damaged, narrow and of several dye lots; inner layers; cloth
laid along the roll; part, half and whole widths; inches and centimetres.
"""

from __future__ import annotations

from random import Random

MOST_SECTIONS = 12


def random_job(seed: int) -> str:
    """The file of the job with that seed; nothing is missing in it."""
    random = Random(f"job {seed}")
    sections = [_section(random, number) for number in range(random.randint(1, MOST_SECTIONS))]
    layers = ["face", *(each for each in ("interlining", "lining") if random.random() < 0.3)]
    return "\n".join([_top(random), *sections, *(_cloth(random, each) for each in layers)])


def _inches(random: Random, least: int, greatest: int) -> str:
    return f"{random.randint(least, greatest - 1)} {random.randint(1, 15)}/16 in"


def _top(random: Random) -> str:
    show, standard = random.choice([("in", "inches"), ("in", "inches"), ("cm", "metric")])
    return f"""format = 1
name = "random job"
show = "{show}"
standard = "{standard}"
[survey]
rail = "solid wood"
rail_thickness = "1 1/8 in"
floor = "hard floor"
floor_gap = "1/4 in"
[allowances]
least_piece = "{random.choice([4, 6, 8])} in"
[fullness]
want = "{random.choice(["1.1", "1.5", "2", "2.5", "3"])}"
joins = "{random.choice(["part widths", "part widths", "whole widths", "half widths"])}"
surplus = "{random.choice(["trim", "keep"])}"
[cloth.fixing]
kind = "staples"
"""


def _section(random: Random, number: int) -> str:
    base = random.choice([9, 11, 11, 14])
    drop = f'"{base} {random.choice([1, 2, 2, 3])}/4 in"'
    return f"""[survey.section.part-{number}]
on = true
side = "{random.choice(["left", "foot", "right", "head"])}"
run = ["{(run := _inches(random, 20, 80))}", "{run}"]
drop = [{drop}, {drop}, {drop}]
hem_line = "level"
left_end = "stops"
right_end = "stops"
"""


def _cloth(random: Random, layer: str) -> str:
    text = f"""[cloth.{layer}]
use = true
kind = "plain cotton"
weight = "medium"
width = "{_inches(random, 42, 60)}"
wash = "{random.choice(["washed first", "not washed"])}"
price = "12.50"
step = "{random.choice(["1/8 yd", "1/4 yd", "10 cm", "1/2 m"])}"
"""
    if random.random() < 0.35:
        text += f"""repeat = "{_inches(random, 3, 26)}"
repeat_kind = "{random.choice(["straight", "half-drop"])}"
match_from = "hem"
"""
    elif random.random() < 0.25:
        text += 'lay = "along"\n'
    if random.random() < 0.4:
        text += "".join(_owned(random, layer, number) for number in range(random.randint(1, 3)))
    return text


def _owned(random: Random, layer: str, number: int) -> str:
    text = f"""[cloth.{layer}.owned.length-{number}]
length = "{_inches(random, 20, 160)}"
washed = {random.choice(["true", "false"])}
"""
    if random.random() < 0.2:
        text += f'width = "{_inches(random, 38, 60)}"\n'
    if random.random() < 0.2:
        text += 'damage_from = "10 in"\ndamage_to = "13 in"\n'
    return text + (f'lot = "{random.choice("AB")}"\n' if random.random() < 0.3 else "")
