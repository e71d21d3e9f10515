"""Clearing away what showing an answer left behind, as soon as it is shown and before the next key comes.

Left to itself the interpreter does it after some ten answers at once, for a tenth of a second, in the middle of one.
"""

from __future__ import annotations

import gc
from itertools import count
from typing import Final

SELDOM: Final = 8
"""How many times the newest is gone through until what has stood longer is; and as often that, until all is."""

_turns = count(1)


def tidy() -> None:
    """Some milliseconds' worth, hardly ever more."""
    turn = next(_turns)
    gc.collect(2 if turn % SELDOM**2 == 0 else 1 if turn % SELDOM == 0 else 0)
