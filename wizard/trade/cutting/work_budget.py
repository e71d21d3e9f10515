"""The work of laying out, counted as it is done and never timed: the same job takes as much on every machine.

A unit is about half a millionth of a second on a usual computer. What only adds to a plan, such as the fullness steps
of a JSON sheet, is allowed so much work, and stops where that is spent.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache, wraps
from threading import local
from typing import Any, Final, ParamSpec, TypeVar

T = TypeVar("T")
P = ParamSpec("P")

ENDLESS: Final = 1 << 60
"""More work than anything takes."""


class Spent(Exception):  # noqa: N818  (it is no error: only the word that the work allowed is done)
    """All the work that was allowed is done."""


class _Tally(local):
    """The work of one thread: what is worked beside the screen must not spend what a sheet is allowed.

    Kept here and not passed along: work is counted in the innermost steps of every search, and a counter handed down to
    them all would be a parameter of nearly every function. Nothing that is worked out depends on it but where it stops.
    """

    work = 0
    limit = ENDLESS
    counted: set[object] | None = None
    """What is remembered and was counted already: nothing is counted twice of one call."""


_TALLY: Final = _Tally()


def spend(work: int) -> None:
    """Count some work. Spent where that is more than is allowed."""
    _TALLY.work += work
    if _TALLY.work > _TALLY.limit:
        raise Spent


def measured(call: Callable[[], T], limit: int | None = None) -> tuple[T, int]:
    """What a call gives, and the work it took, which is not counted any further. Spent where it takes more than
    `limit`, or than is left of what is allowed around it."""
    before, most, counted_before = _TALLY.work, _TALLY.limit, _TALLY.counted
    left = most - before
    _TALLY.work, _TALLY.limit, _TALLY.counted = 0, left if limit is None else min(limit, left), set()
    try:
        return call(), _TALLY.work
    finally:
        _TALLY.work, _TALLY.limit, _TALLY.counted = before, most, counted_before


def within(call: Callable[[], T], limit: int) -> tuple[T | None, int]:
    """The same, but nothing where the call takes more than `limit`: all of that is its work then. Spent only where less
    is left of what is allowed around it, so that nothing is taken for too much that was only cut short."""
    try:
        return measured(call, limit)
    except Spent:
        if _TALLY.limit - _TALLY.work < limit:
            raise
        return None, limit


def counted(key: object, known: tuple[T, int]) -> T:
    """What was measured before. Its work counts as if it were worked anew, so that nothing depends on what was looked
    at before; but once only of what `measured` calls."""
    value, work = known
    if _TALLY.counted is None or key not in _TALLY.counted:
        spend(work)
        if _TALLY.counted is not None:
            _TALLY.counted.add(key)
    return value


def once(call: Callable[[], T]) -> Callable[[], T]:
    """Works a value when it is first asked for, and remembers it with the work it took."""

    @cache
    def known() -> tuple[T, int]:
        return measured(call)

    return lambda: counted(known, known())


def remembered(most: int) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Remembers what a function gave, so many times at most, and the work it took."""

    def of(function: Callable[P, T]) -> Callable[P, T]:
        @lru_cache(maxsize=most)
        def known(*args: Any) -> tuple[T, int]:
            return measured(lambda: function(*args))  # type: ignore[call-arg]

        @wraps(function)
        def call(*args: P.args, **_: P.kwargs) -> T:
            return counted((function, args), known(*args))

        return call

    return of
