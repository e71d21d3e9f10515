"""One strip made up of pieces of widths that differ: which pieces, and how little is taken of the last of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, groupby
from typing import NamedTuple

from wizard.trade.cutting.seams import Cut, Kind, cut_narrow
from wizard.trade.cutting.ticks import Need


class Source(NamedTuple):
    """Where a piece may come from: how wide it can be, and how many such there are at the most."""

    widest: int
    name: int
    """A width already begun, counted from 0, or -1 - n for a new one of the n-th pool."""
    most: int


Made = tuple[tuple[int, int], ...]
"""A strip in pieces from its left end, as (name of its source, cut width)."""


class Maker:
    """Makes up strips, and remembers what it took trouble to find out."""

    def __init__(self, join: int, tries: int) -> None:
        """`tries`: how often it may look for joins that keep clear of spans."""
        self.join, self.left = join, tries
        self.known: dict[tuple[Need, tuple[int, ...], int], Cut | None] = {}

    def made_up(self, need: Need, sources: Sequence[Source]) -> Iterator[Made]:
        """Ways of making up a strip: all sources but one used to the full, of that one the least."""
        for full in filled_up(need, self.join, sources):
            for last in sources:
                if full.count(last) < last.most:
                    pieces = self.cut_from(need, full, last)
                    if pieces:
                        yield pieces

    def cut_from(self, need: Need, full: Sequence[Source], last: Source) -> Made | None:
        """The pieces of a strip; None where they cannot be cut."""
        pieces = anyhow(need, self.join, full, last)
        if pieces and need.spans:
            ordered = [(*pieces[:at], pieces[-1], *pieces[at:-1]) for at in range(len(pieces))]
            clear = [each for each in ordered if keeps_clear(need, self.join, each)]
            return clear[0] if clear else self.kept_clear(need, full, last)
        return pieces

    def kept_clear(self, need: Need, full: Sequence[Source], last: Source) -> Made | None:
        """The same in any order and with any widths, so that every join falls where one may."""
        full = sorted(full, key=lambda each: each.widest)
        groups = [list(group) for _, group in groupby(full, key=lambda each: each.widest)]
        key = (need, tuple([each.widest for each in full]), last.widest)
        if key not in self.known:
            self.left -= 1
            kinds = [Kind(group[0].widest, len(group)) for group in groups]
            made = cut_narrow(need, self.join, kinds, last.widest) if self.left >= 0 else None
            self.known[key] = made[1] if made else None
        cut = self.known[key]
        names = [[each.name for each in group] for group in groups]
        return tuple([(last.name if n < 0 else names[n].pop(), wide) for n, wide in cut.pieces]) if cut else None


def filled_up(
    need: Need, join: int, sources: Sequence[Source], at: int = 0, full: tuple[Source, ...] = ()
) -> Iterator[tuple[Source, ...]]:
    """Sources used to the full that leave something to be given by one more; of the widths begun one at the most. Where
    joins must keep clear of something there may be a piece more than that."""
    yield full
    for number in range(at, len(sources)):
        source = sources[number]
        again = full.count(source) >= source.most or (source.name >= 0 and any([each.name >= 0 for each in full]))
        if again or source.widest < need.least or len(full) + 1 >= need.most:
            continue
        given = sum([each.widest - join for each in full])
        if given + source.widest - join < need.net or (need.spans and given < need.net):
            yield from filled_up(need, join, sources, number, (*full, source))


def anyhow(need: Need, join: int, full: Sequence[Source], last: Source) -> Made | None:
    """The pieces of a strip whose joins may fall anywhere, the one that is as narrow as can be last."""
    total = need.flat + join * len(full)
    narrow = max(need.least, total - sum([each.widest for each in full])) if full else need.flat
    left = total - narrow
    if narrow > last.widest or left < need.least * len(full):
        return None
    pieces = []
    for more, each in zip(range(len(full) - 1, -1, -1), full, strict=True):
        pieces.append((each.name, min(each.widest, left - need.least * more)))
        left -= pieces[-1][1]
    return (*pieces, (last.name, narrow))


def keeps_clear(need: Need, join: int, pieces: Made) -> bool:
    """True when no join falls where none may."""
    ends = accumulate([wide - join for _, wide in pieces[:-1]])
    return not any([first <= end <= stop for end in ends for first, stop in need.spans])
