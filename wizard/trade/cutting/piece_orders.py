"""The order of a strip's pieces, chosen so that its joins keep out of some spans where that alone does it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

T = TypeVar("T")

LOOKED_AT = 2_000
"""Choices of pieces looked at for one strip."""

Spans = Sequence[tuple[int, int]]
"""Places (first, last) in net measure, each piece counting its width less a join, where no join should fall."""


def clear_order(pieces: Sequence[T], net: Callable[[T], int], spans: Spans) -> list[T]:
    """The pieces from the left end in the first order whose joins keep out of the spans: as they are, turned end for
    end, or any other. As they are where no order found does."""
    for order in (list(pieces), list(pieces)[::-1]):
        if not any(in_span(at, spans) for at in ends([net(each) for each in order])):
            return order
    widths = dict.fromkeys(net(each) for each in pieces)
    found = Orders(list(widths), [sum(net(each) == width for each in pieces) for width in widths], spans).found()
    left = {width: [each for each in pieces if net(each) == width] for width in widths}
    return [left[width].pop(0) for width in found] if found else list(pieces)


def ends(nets: Sequence[int]) -> list[int]:
    """Where each piece but the last ends."""
    return [sum(nets[: count + 1]) for count in range(len(nets) - 1)]


def in_span(at: int, spans: Spans) -> bool:
    """True for a place where no join should fall."""
    return any(first <= at <= last for first, last in spans)


class Orders:
    """The orders of pieces of some widths. Where a join falls hangs only on how many of each lie before it."""

    def __init__(self, widths: list[int], counts: list[int], spans: Spans) -> None:
        self.widths, self.counts, self.spans = widths, tuple(counts), spans
        self.in_vain: set[tuple[int, ...]] = set()

    def found(self) -> list[int] | None:
        """The widths in the first order that is clear; None where there is none, or it is not found in time."""
        return self.after((0,) * len(self.widths))

    def after(self, used: tuple[int, ...]) -> list[int] | None:
        """The widths that follow on those used already."""
        if used == self.counts:
            return []
        for kind, width in enumerate(self.widths):
            more = tuple(n + (place == kind) for place, n in enumerate(used))
            if more[kind] > self.counts[kind] or more in self.in_vain or len(self.in_vain) > LOOKED_AT:
                continue
            rest = self.after(more) if more == self.counts or not in_span(self.end(more), self.spans) else None
            if rest is not None:
                return [width, *rest]
            self.in_vain.add(more)
        return None

    def end(self, used: tuple[int, ...]) -> int:
        """Where pieces of so many of each width end."""
        return sum(width * count for width, count in zip(self.widths, used, strict=True))
