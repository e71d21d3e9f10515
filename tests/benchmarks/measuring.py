"""What benchmarks and longer runs share: options, the time a call takes, and random jobs in files.

The standard library only, but for the jobs: it runs where nothing but the product and its needs is installed too.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median, quantiles


def options(doc: str | None, **usual: object) -> argparse.Namespace:
    """What is asked for on the command line: each with its usual value, or a tuple of choices, the usual one first."""
    parser = argparse.ArgumentParser(description=doc, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name, value in usual.items():
        option = f"--{name.replace('_', '-')}"
        if isinstance(value, tuple):
            parser.add_argument(option, choices=value, default=value[0])
        else:
            parser.add_argument(option, type=type(value), default=value)
    return parser.parse_args()


def seconds(call: Callable[[], object], times: int = 11) -> float:
    """The median of some calls."""
    took = []
    for _ in range(times):
        began = time.perf_counter()
        call()
        took.append(time.perf_counter() - began)
    return median(took)


def spread(values: Sequence[float]) -> str:
    """Median, 99th percentile and most of several, in words."""
    high = quantiles(values, n=100)[-1] if len(values) > 1 else values[0]
    return f"median {median(values):.2f}, 99th percentile {high:.2f}, most {max(values):.2f}"


def random_files(folder: Path, count: int, seed: int = 0) -> list[Path]:
    """So many jobs of every kind in files, a tenth of them half filled."""
    from tests.record.jobs import random_job

    files = [folder / f"job-{number:05}.toml" for number in range(count)]
    for number, file in enumerate(files):
        text = random_job(seed + number)
        file.write_text(text if number % 10 else text.partition("[cloth.face]")[0], encoding="utf-8")
    return files
