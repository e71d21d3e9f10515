"""Jobs whose plans the record keeps: named cases, the demo, and any number of random ones by seed."""

from __future__ import annotations

import tomllib
from pathlib import Path
from random import Random
from typing import Any

import tomli_w

from tests.render.random_beds import random_file

CASES = Path(__file__).parent / "cases"
DEMO = Path(__file__).parents[2] / "projects" / "demo-gannet-stair.toml"


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
