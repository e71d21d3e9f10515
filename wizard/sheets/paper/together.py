"""What stays on one page, where a page holds it: a smaller heading with all that stands under it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from wizard.sheets.matter import Drawing, Heading, Matter, Steps


def by_smaller_headings(matter: Iterable[Matter]) -> Iterator[list[Matter]]:
    """The matter in order: each smaller heading with what follows it up to the next heading, all the rest as it is."""
    group: list[Matter] = []
    for each in matter:
        if isinstance(each, Heading) and group:
            yield group
            group = []
        group.append(each)
    if group:
        yield group


def stays_whole(group: list[Matter]) -> bool:
    """True under a smaller heading. A drawing in several parts runs on: it would leave half a page empty."""
    first = group[0]
    long = any(isinstance(each, Steps) or (isinstance(each, Drawing) and len(each.on_paper) > 1) for each in group)
    return isinstance(first, Heading) and first.level > 1 and not long
