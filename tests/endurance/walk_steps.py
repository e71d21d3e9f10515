"""A random walk as data: what is pressed, clicked, pasted and resized. The same seed gives the same walk."""

from __future__ import annotations

from random import Random
from typing import Final, Literal

from msgspec import Struct

Start = Literal["an empty job", "a full job", "the list of projects"]

STARTS: Final[tuple[Start, ...]] = ("an empty job", "a full job", "the list of projects")

SMALLEST, LARGEST = (20, 5), (200, 60)
SIZES: Final = (SMALLEST, (40, 12), (60, 20), (80, 24), (80, 24), (120, 40), LARGEST)

EVERYWHERE: Final = (
    *("f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f10", "f11", "f12"),
    *("shift+f7", "shift+f8", "shift+f9"),
    *("ctrl+p", "ctrl+f", "ctrl+s", "ctrl+y", "ctrl+o", "ctrl+d", "ctrl+r", "ctrl+t", "ctrl+l", "ctrl+g", "ctrl+q"),
    *("tab", "shift+tab", "home", "end", "pageup", "pagedown", "delete", "backspace", "ctrl+u", "ctrl+n", "ctrl+c"),
)
"""Each as likely as the others. Ctrl+Z is left out: there is no shell to come back from."""
OFTEN: Final = ("enter", "enter", "enter", "escape", "escape", "up", "down", "down", "left", "right", "space", "tab")
ANSWERS: Final = (
    *("76 5/8", "12 1/8", "9", "195 cm", "31,5 cm", "2.5", "2 1/4 yd", "18.50", "juniper", "oak leg", "none", "1", "3"),
    *("12 1/8 lb", "drop", "Loft <b>", "linen 140 cm"),
)
PASTED: Final = ("76 5/8", "two\nlines", "[red]loft[/red]", "9" * 300, "29,2 cm\r\n", "é€✂")
SINGLE: Final = "abefnwz0123456789+-. "


class Step(Struct, frozen=True):
    """What is done before the next look at the screen."""

    keys: tuple[str, ...] = ()
    """Pressed at once, as the toolkit names them; a letter stands for itself."""
    paste: str = ""
    click: tuple[float, float] | None = None
    """Where, as parts of the window."""
    wheel: int = 0
    """-1 up, 1 down, at `click`."""
    size: tuple[int, int] | None = None
    """Columns and lines of the window from now on."""
    pause: float = 0.0
    """Seconds before the next step."""

    @property
    def cost(self) -> int:
        """How many of the walk's keys it takes."""
        return max(1, len(self.keys))


class Walk(Struct, frozen=True):
    """Where it starts, and every step of it."""

    seed: int
    start: Start
    size: tuple[int, int]
    steps: tuple[Step, ...]


def walk_of(seed: int, keys: int) -> Walk:
    """The walk of a seed, of `keys` keys in all."""
    chance = Random(seed)
    steps: list[Step] = []
    left = keys
    while left > 0:
        step = _step(chance, left)
        steps.append(step)
        left -= step.cost
    return Walk(seed, STARTS[seed % len(STARTS)], _size(chance), tuple(steps))


def _step(chance: Random, left: int) -> Step:
    pause = chance.choice((0.0, 0.0, 0.0, 0.005, 0.02, 0.06))
    kind = chance.random()
    if kind < 0.05:
        return Step(size=_size(chance), pause=pause)
    if kind < 0.13:
        return Step(click=(chance.random(), chance.random()), wheel=chance.choice((0, 0, 0, -1, 1)), pause=pause)
    if kind < 0.16:
        return Step(paste=chance.choice(PASTED), pause=pause)
    if kind < 0.60:
        return Step(keys=(_key(chance),), pause=pause)
    if kind < 0.70:
        return Step(keys=(_key(chance),) * min(left, chance.randint(3, 15)), pause=pause)
    if kind < 0.82:
        return Step(keys=(*chance.choice(ANSWERS), "enter")[:left], pause=pause)
    return Step(keys=tuple(_key(chance) for _ in range(min(left, chance.randint(2, 12)))), pause=pause)


def _key(chance: Random) -> str:
    return chance.choice(chance.choice((EVERYWHERE, EVERYWHERE, OFTEN, OFTEN, SINGLE)))


def _size(chance: Random) -> tuple[int, int]:
    if chance.random() < 0.7:
        return chance.choice(SIZES)
    return chance.randint(SMALLEST[0], LARGEST[0]), chance.randint(SMALLEST[1], LARGEST[1])
