"""Random cases are not timed here: a busy computer must not fail a test. Ctrl+C is heard, however the run began. No
program that a test starts outlives it."""

from __future__ import annotations

import gc
import os
import signal
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("untimed", deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")

# As the wizard has it: the toolkit's own 60 frames a second keep the screens' tests waiting.
os.environ.setdefault("TEXTUAL_FPS", "120")
# The screens open in all colours, whatever the terminal of this run has.
os.environ["COLORTERM"] = "truecolor"

# A run begun in the background of a shell ignores Ctrl+C, and so would every program that the tests start.
signal.signal(signal.SIGINT, signal.default_int_handler)


gc.set_threshold(50_000)


def pytest_collection_finish() -> None:
    """Five thousand tests stay to the end: whoever looks for cycles to clear away passes them by."""
    gc.collect()
    gc.freeze()


def pytest_xdist_auto_num_workers() -> int:
    """Half as many again as there are processors: the tests of the screens wait as much as they work."""
    return max(1, len(os.sched_getaffinity(0)) * 3 // 2)


def running() -> dict[str, str]:
    """Number -> command of every program started here that still runs; none where the system lists none."""
    found: dict[str, str] = {}
    for threads in Path("/proc/self/task").glob("*/children"):
        with suppress(FileNotFoundError, ProcessLookupError):
            for number in threads.read_text().split():
                # What has ended, and was not asked how, has no command any more.
                command = Path(f"/proc/{number}/cmdline").read_text(errors="replace").replace("\0", " ")
                found |= {number: command} if command else {}
    return found


@pytest.fixture(autouse=True)
def _nothing_is_left_running() -> Iterator[None]:
    """What a test starts ends with it; a browser that several tests share was there before."""
    before = running()
    yield
    assert running().items() <= before.items()
