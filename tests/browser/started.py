"""The processes that were started here, and waiting for their end."""

from __future__ import annotations

import asyncio
from pathlib import Path

WAIT = 60
"""Seconds after which what was waited for counts as never coming."""


def places() -> set[int]:
    """The processes that this one started and that are still there; none where the system does not list them."""
    tasks = Path("/proc/self/task").glob("*/children")
    return {int(each) for task in tasks for each in task.read_text().split()}


async def gone(before: set[int]) -> None:
    """Wait until none is there that was not there before."""
    async with asyncio.timeout(WAIT):
        while places() - before:
            await asyncio.sleep(0.05)
