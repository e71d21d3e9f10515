"""Which character draws which lines meeting in a cell."""

from __future__ import annotations

from typing import Final

UP, DOWN, LEFT, RIGHT = 1, 2, 4, 8
"""Directions a line leaves a cell in; a cell holds their sum."""

_LIGHT: Final = " │││─┘┐┤─└┌├─┴┬┼"
_HEAVY: Final = " ┃┃┃━┛┓┫━┗┏┣━┻┳╋"
_DOUBLE: Final = " ║║║═╝╗╣═╚╔╠═╩╦╬"
_FINE: Final = " ┊┊┊┄┘┐┤┄└┌├┄┴┬┼"

RANKS: Final = ("fine", "line", "heavy", "picked")
"""Pens from the one that yields to the one that stays where they meet."""

_SETS: Final = {"line": _LIGHT, "heavy": _HEAVY, "picked": _DOUBLE, "fine": _FINE}

TIPS: Final = {UP: "▲", DOWN: "▼", LEFT: "◄", RIGHT: "►"}
"""Arrow tips by the direction they point in."""

HATCH: Final = "░"
"""What an offcut is filled with."""


def character(pen: str, directions: int) -> str:
    """The character of `pen` for lines leaving in `directions`, the sum of some of UP, DOWN, LEFT and RIGHT."""
    return _SETS[pen][directions]
