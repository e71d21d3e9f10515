"""The work of laying out, counted and never timed: the same job takes the same work on every machine.

A unit is about half a millionth of a second on a usual computer. What only adds to a plan, such as the fullness steps
of a JSON sheet, gets a limit of work and stops there.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from threading import local
from typing import Any, Final, ParamSpec, TypeVar

T = TypeVar("T")
P = ParamSpec("P")

ENDLESS: Final = 1 << 60
"""No limit: more work than anything takes."""


class Spent(Exception):  # noqa: N818  (it is no error: only the word that the work allowed is done)
    """The allowed work is done."""


class _Tally(local):
    """The work of one thread: what is worked beside the screen must not spend what a sheet is allowed.

    Kept here and not passed along: work is counted in the innermost steps of every search, and a counter handed down to
    them all would be a parameter of nearly every function. Nothing that is worked out depends on it but where it stops.
    """

    work = 0
    limit = ENDLESS
    counted: set[object] | None = None
    """What `measured` has counted already, so that remembered work counts once in one call."""


_TALLY: Final = _Tally()


def spend(work: int) -> None:
    """Count some work. Raises Spent past the limit."""
    _TALLY.work += work
    if _TALLY.work > _TALLY.limit:
        raise Spent


def measured(call: Callable[[], T], limit: int | None = None) -> tuple[T, int]:
    """What a call returns, and its work, which is not counted anywhere else. Raises Spent past `limit`, and where the
    limit around it leaves less."""
    before, most, counted_before = _TALLY.work, _TALLY.limit, _TALLY.counted
    left = most - before
    _TALLY.work, _TALLY.limit, _TALLY.counted = 0, left if limit is None else min(limit, left), set()
    try:
        return call(), _TALLY.work
    finally:
        _TALLY.work, _TALLY.limit, _TALLY.counted = before, most, counted_before


def within(call: Callable[[], T], limit: int) -> tuple[T | None, int]:
    """The same, but None where the call takes more than `limit`, which is its work then. Raises Spent only where the
    limit around it leaves less than `limit`: what was cut short is not taken for too much."""
    try:
        return measured(call, limit)
    except Spent:
        if _TALLY.limit - _TALLY.work < limit:
            raise
        return None, limit


def once(call: Callable[[], T]) -> Callable[[], T]:
    """A function that works a value when it is first called, and remembers it with its work."""

    return remembered(1)(call)


def remembered(most: int) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Remembers the last `most` values of a function, with their work."""

    def of(function: Callable[P, T]) -> Callable[P, T]:
        @lru_cache(maxsize=most)
        def known(*args: Any) -> tuple[T, int]:
            return measured(lambda: function(*args))  # type: ignore[call-arg]

        @wraps(function)
        def call(*args: P.args, **_: P.kwargs) -> T:
            """The value. Its work counts as if it were done again, so that no limit depends on what was looked at
            before; but only once within one `measured`."""
            value, work = known(*args)
            if _TALLY.counted is None or (function, args) not in _TALLY.counted:
                spend(work)
                if _TALLY.counted is not None:
                    _TALLY.counted.add((function, args))
            return value

        return call

    return of
