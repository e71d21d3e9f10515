"""What is worked out only when it is looked at."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Later(Generic[T]):
    """Works its value each time it is called. Never tells two records apart: what it works follows from the rest."""

    __slots__ = ("work",)

    def __init__(self, work: Callable[[], T]) -> None:
        self.work = work

    def __call__(self) -> T:
        """The value."""
        return self.work()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Later)

    def __hash__(self) -> int:
        return 0

    def __repr__(self) -> str:
        return "Later()"
