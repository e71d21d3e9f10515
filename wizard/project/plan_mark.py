"""The plan mark: a short digest of a job, by which a sheet and a file can be told to belong together."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Final

from msgspec import Struct

from wizard.trade.job import Job
from wizard.trade.lengths import Length

LEFT_OUT: Final = frozenset({"kept"})
"""Tables of the job that change no figure: what was looked at and kept. Progress and ticks are never in a job."""
LETTERS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Thirty-two that are not taken for one another when read aloud or by hand: no I, L, O, U."""
GROUP: Final = 4
GROUPS: Final = 2
"""Eight letters, forty bits: of a thousand jobs, no two share a mark but by a chance of one in two million."""


def plan_mark(job: Job) -> str:
    """The mark, as `7KQ2-M4XD`. It changes with anything that is measured, chosen or named, and with nothing else.

    A length counts by its value, so the same job typed in another unit keeps its mark.
    """
    content = "\n".join(_leaves("", job))
    number = int.from_bytes(hashlib.sha256(content.encode("utf-8", "surrogatepass")).digest(), "big")
    letters = [LETTERS[number >> 5 * at & 31] for at in range(GROUP * GROUPS)]
    return "-".join("".join(letters[at : at + GROUP]) for at in range(0, len(letters), GROUP))


def _leaves(key: str, value: object) -> Iterator[str]:
    """Every leaf that is said, a line each, in the order in which the job holds them."""
    if isinstance(value, Struct):
        for name in value.__struct_fields__:
            if key or name not in LEFT_OUT:
                yield from _leaves(f"{key}.{name}", getattr(value, name))
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            # What is entered first comes first in the plan, so the order belongs to the job; so do empty tables.
            yield f"{key}.{name!a}:"
            yield from _leaves(f"{key}.{name!a}", inner)
    elif isinstance(value, tuple):
        for number, inner in enumerate(value, start=1):
            yield from _leaves(f"{key}.{number}", inner)
    elif value is not None:
        yield f"{key} = {_leaf(value)}"


def _leaf(value: object) -> str:
    """One value, its kind with it, written one way only."""
    if isinstance(value, Length):
        return f"length {value.inches}"
    if isinstance(value, Decimal):
        return f"number {Fraction(value)}"
    if isinstance(value, bool) or not isinstance(value, int | Fraction):
        return f"{type(value).__name__} {value!a}"
    return f"number {Fraction(value)}"
