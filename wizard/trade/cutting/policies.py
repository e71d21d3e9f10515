"""Whole and half widths: every strip gets a fixed number of them, and what is over is trimmed off or kept."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.trade.cutting.chains import joined
from wizard.trade.cutting.rows import Row
from wizard.trade.cutting.seams import Kind, cut_all, fewest_alone
from wizard.trade.cutting.strips import Policy, Surplus
from wizard.trade.cutting.ticks import Need, fewest_widths


def halves(need: Need, usable: int, join: int) -> int:
    """The least number of half widths that give a strip; a half is rounded down to the mark."""
    count = 1 if need.flat <= usable // 2 else 2
    while capacity(count, usable, join) < need.flat:
        count += 1
    return count


def halved(need: Need, usable: int, join: int) -> bool:
    """True when the policy can give a strip: no half that is joined to another piece is under the least piece."""
    if usable <= join:
        return need.flat <= usable
    count = halves(need, usable, join)
    return count % 2 == 0 or count == 1 or usable // 2 >= need.least


def capacity(count: int, usable: int, join: int) -> int:
    """The flat width that so many halves give: pairs are whole widths, and each piece but one takes a join."""
    return count // 2 * usable + count % 2 * (usable // 2) - join * (-(-count // 2) - 1)


def fixed_rows(
    needs: Sequence[Need],
    places: Sequence[int],
    cloth: tuple[int, int],
    policy: Policy,
    surplus: Surplus,
    *,
    matched: bool = False,
) -> list[Row]:
    """The widths of the strips at `places`, for a policy of whole or half widths on cloth of (usable width, join).
    `matched`: joins are to meet at selvedges, so that only outer pieces are trimmed where it can be done so."""
    usable, join = cloth
    rows: list[Row] = []
    odd: list[tuple[int, int]] = []
    for place in places:
        need = needs[place]
        if need.spans:
            rows += kept_clear(need, place, usable, join, matched=matched)
            continue
        count = halves(need, usable, join) if policy == "half widths" else 2 * (fewest_widths(need, usable, join) or 1)
        whole, part = divmod(count, 2)
        full = [usable] * whole + [usable // 2] * part
        widths = full if surplus == "keep" else trimmed(full, capacity(count, usable, join) - need.flat, need.least)
        rows += [Row(need.cut, ((place, width),), usable=usable) for width in widths[:whole]]
        odd += [(place, width) for width in widths[whole:]]
    return rows + paired(needs, odd, usable)


def kept_clear(need: Need, place: int, usable: int, join: int, *, matched: bool) -> list[Row]:
    """Whole widths for a strip with spans where no join may fall, each trimmed as the joins ask; none where it cannot
    be done with the outer ones alone and they are to be `matched`."""
    widths = outer_trimmed(need, usable, join) if matched else any_trimmed(need, usable, join)
    return [Row(need.cut, ((place, width),), usable=usable, orders=(n,)) for n, width in enumerate(widths, 1)]


def any_trimmed(need: Need, usable: int, join: int) -> list[int]:
    """The fewest pieces with every join where one may fall."""
    count = fewest_alone(need, usable, join) or 1
    cut = cut_all(need, join, [Kind(usable, count)])
    return [width for _, width in cut.pieces] if cut else []


def outer_trimmed(need: Need, usable: int, join: int) -> Sequence[int]:
    """The same with all but the first and the last piece whole."""
    if need.flat <= usable:
        return [need.flat]
    fewest = fewest_widths(need, usable, join) or 2
    counts = range(max(2, fewest), min(need.most, fewest + 1) + 1)
    return next(filter(None, (joined(need, count, usable, join, usable) for count in counts)), ())


def trimmed(full: list[int], over: int, least: int) -> list[int]:
    """The surplus taken equally off both outer pieces, the first and the last, but never below the least piece: what
    they cannot give is taken off those between."""
    if len(full) == 1:
        return [full[0] - over]
    last = min(over // 2, full[-1] - least)
    first = min(over - last, full[0] - least)
    left, between = over - last - first, list[int]()
    for width in full[1:-1]:
        off = min(left, width - least)
        left -= off
        between.append(width - off)
    return [full[0] - first, *between, full[-1] - last]


def paired(needs: Sequence[Need], odd: list[tuple[int, int]], usable: int) -> list[Row]:
    """Odd halves two to a width, the longest together: no other pairing takes less cloth."""
    odd = sorted(odd, key=lambda each: -needs[each[0]].cut)
    pairs = [tuple(odd[at : at + 2]) for at in range(0, len(odd), 2)]
    return [Row(needs[pair[0][0]].cut, pair, usable=usable) for pair in pairs]
