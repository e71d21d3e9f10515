"""The demo job in every form that is held byte for byte. Run as a module it writes the files anew:

    .venv-test/bin/python -m tests.render.golden_files

Look at what changed before keeping it.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tests.commands.running import data
from tests.render.jobs import project_of
from wizard.project.plan_of_project import plan_of
from wizard.render.formats import Request, render
from wizard.render.sheet_names import TITLES
from wizard.trade.plan_records import Plan

FOLDER = Path(__file__).parent / "golden"
DATE = "2026-03-02"
WANTED = {
    "demo-60.txt": Request("text", None, DATE, 60),
    "demo-80.txt": Request("text", None, DATE, 80),
    "demo-120.txt": Request("text", tuple(TITLES), DATE, 120),
    "demo.json": Request("json", tuple(TITLES), DATE),
    "demo.csv": Request("csv", None, DATE),
    "demo.svg": Request("svg", None, DATE),
}
"""Name of the file -> what is in it."""


@cache
def demo_plan() -> Plan:
    """The plan of the demo job."""
    return plan_of(project_of(data().decode()))


def fresh(name: str) -> bytes:
    """What the file should hold."""
    return render(demo_plan(), WANTED[name]).encode()


if __name__ == "__main__":
    for each in WANTED:
        (FOLDER / each).write_bytes(fresh(each))
