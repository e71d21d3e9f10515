"""How long sheets of many jobs take, and how much memory, beside merely loading the same files.

    python -m tests.benchmarks.sheets --jobs 1000 --form html

Jobs of every kind, each run in a process of its own: the same files loaded, planned, and written as sheets by one
command. Memory is the most the process ever held; flat means the tenth part of the files takes about as much.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.listing import random_files
from tests.benchmarks.options import options
from wizard.render.sheet_names import ENDINGS

LOAD = """
import sys
from pathlib import Path
from wizard.project.plan_of_project import plan_of
from wizard.project.store import open_project
for path in sys.argv[1:]:
    project = open_project(Path(path))
"""
PLAN = f"{LOAD}    plan_of(project)\n"


def measured(*argv: str) -> tuple[float, float]:
    """Seconds and MiB that a run of Python takes; a sheet may be unfinished."""
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *argv], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode in (0, 3), argv[:8]
    return time.perf_counter() - began, used.ru_maxrss / 1024


def main() -> None:
    """Measure and print."""
    asked = options(__doc__, jobs=200, form=("html", *sorted({*ENDINGS} - {"html"})))
    with TemporaryDirectory() as folder:
        names = [str(each) for each in random_files(Path(folder), asked.jobs, 0)]
        sheet = ("-m", "wizard", "sheet", "--as", asked.form, "--out", str(Path(folder) / "sheets"))
        tenth = names[: max(2, len(names) // 10)]
        runs = {
            "loading": ("-c", LOAD, *names),
            "loading and planning": ("-c", PLAN, *names),
            f"sheets of a tenth ({asked.form})": (*sheet, *tenth),
            f"sheets ({asked.form})": (*sheet, *names),
        }
        beside = 0.0
        for name, argv in runs.items():
            took, memory = measured(*argv)
            beside = beside or took
            each = took / len(tenth if "tenth" in name else names) * 1000
            print(f"{name:<28}{took:9.2f} s{each:9.1f} ms a file{took / beside:7.1f} x{memory:8.0f} MiB")


if __name__ == "__main__":
    main()
