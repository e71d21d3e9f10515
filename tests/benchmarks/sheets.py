"""How long sheets of many jobs take, and how much memory, beside merely loading the same files.

    python -m tests.benchmarks.sheets
    python -m tests.benchmarks.sheets --jobs 1000 --form html

Beds of every kind (tests/render/random_beds.py), each run in a process of its own: the same files loaded, planned, and
written as sheets by one command. Memory is the most the process ever held; flat means the tenth part of the files
takes about as much.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.render.random_beds import random_file
from wizard.render.sheet_names import ENDINGS

_START = "import sys; from pathlib import Path; from wizard.project.store import open_project\n"
LOAD = f"{_START}for path in sys.argv[1:]: open_project(Path(path))"
PLAN = (
    f"{_START}from wizard.project.plan_of_project import plan_of\n"
    "for path in sys.argv[1:]: plan_of(open_project(Path(path)))"
)


def measured(*argv: str) -> tuple[float, float]:
    """Seconds and MiB that a run of Python takes."""
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *argv], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, argv[:8]
    return time.perf_counter() - began, used.ru_maxrss / 1024


def told(name: str, seconds: float, memory: float, files: int, beside: float) -> None:
    print(
        f"{name:<28}{seconds:9.2f} s{seconds / files * 1000:9.1f} ms a file{seconds / beside:7.1f} x{memory:8.0f} MiB"
    )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--jobs", type=int, default=200)
    parser.add_argument("--form", choices=tuple(ENDINGS), default="html")
    options = parser.parse_args()
    with TemporaryDirectory() as folder:
        files = [Path(folder) / f"bed-{seed}.toml" for seed in range(options.jobs)]
        for seed, file in enumerate(files):
            file.write_text(random_file(seed), encoding="utf-8")
        names = [str(file) for file in files]
        sheet = ("-m", "wizard", "sheet", "--as", options.form, "--out", str(Path(folder) / "sheets"))
        loading = measured("-c", LOAD, *names)
        told("loading", *loading, len(names), loading[0])
        told("loading and planning", *measured("-c", PLAN, *names), len(names), loading[0])
        tenth = names[: max(2, len(names) // 10)]
        told(f"sheets of a tenth ({options.form})", *measured(*sheet, *tenth), len(tenth), loading[0])
        told(f"sheets ({options.form})", *measured(*sheet, *names), len(names), loading[0])


if __name__ == "__main__":
    main()
