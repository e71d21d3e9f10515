"""Faults of railskirt's own on the screens: one is survived, the same one again within seconds is not."""

from __future__ import annotations

import traceback
from time import monotonic
from typing import Final

from textual.worker import WorkerFailed

AGAIN: Final = 10.0
"""Seconds within which a second fault in the same place shows that the screen cannot be used."""

Place = tuple[type[BaseException], str, int | None]


class Faults:
    """The faults met so far."""

    def __init__(self) -> None:
        self._last: dict[Place, float] = {}

    def survives(self, fault: BaseException) -> bool:
        """Count a fault. False when it came in the same place a moment ago."""
        place, now = _place(fault), monotonic()
        again = now - self._last.get(place, -AGAIN) < AGAIN
        self._last[place] = now
        return not again


def cause_of(fault: BaseException) -> BaseException:
    """The fault itself, where it came out of a worker."""
    return fault.error if isinstance(fault, WorkerFailed) else fault


def _place(fault: BaseException) -> Place:
    frames = traceback.extract_tb(fault.__traceback__)
    return (type(fault), frames[-1].filename, frames[-1].lineno) if frames else (type(fault), "", None)
