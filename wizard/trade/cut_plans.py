"""The cutting plan of a layer: the first one at once, and better ones where it is not proven.

`first_plan` is remembered: a layer is laid out again only when its strips, its cloth or its rules change. `better_plan`
searches on from a plan, one bounded try at a time and never by a clock, so that a job ends at the same plan on every
machine. What is found is not kept here: whoever searches hands it on (`Better`).

`ways_found` lists the ways in which a layer can be cut, `followed` takes the chosen one.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Final

from msgspec.structs import replace

from wizard.trade.cutting import (
    Cutting,
    Layout,
    Refusal,
    Rules,
    Stretch,
    Strip,
    lay_out,
    measured,
    remembered,
    spend,
    within,
)
from wizard.trade.job_fields import CutWay
from wizard.trade.lengths import total

MOST_WIDTHS: Final = 1000
"""A layer with more widths than this is no bed skirt but a slip in typing; listing them would take for ever."""

EFFORTS: Final = (3_000, 12_000)
"""The effort of the first and the second try to improve a layer: about a tenth and a third of a second."""

MOST_WORK: Final = (1_000_000, 1_500_000)
"""The work each try may take. One that takes more is given up, and the plan known before it stays. Few do: cloth in
hand of several widths, and half-drops on several lengths."""

KEPT: Final = 256
"""Better plans kept in a session."""

Asked = tuple[tuple[Strip, ...], tuple[Stretch, ...], Rules]
"""The strips of a layer, the cloth they are cut from, and the rules."""
Better = Mapping[Asked, Cutting]
"""The better plans found so far."""
NONE_BETTER: Final[Better] = {}


def cut_plan(asked: Asked, better: Better = NONE_BETTER) -> Cutting | Refusal:
    """The best plan known, or why there is none."""
    return better.get(asked) or first_plan(*asked)


@remembered(512)
def first_plan(strips: tuple[Strip, ...], stock: tuple[Stretch, ...], rules: Rules) -> Cutting | Refusal:
    """What `lay_out` answers at once, or a refusal of what is far too much to cut. A refusal that is not certain gets
    one more try: nothing improves on it later."""
    answer = _too_much(strips, stock) or lay_out(strips, stock, rules)
    if isinstance(answer, Refusal) and not answer.certain:
        found, work = _tried(0, (strips, stock, rules))
        spend(work)
        return found or answer
    return answer


def _tried(tries: int, asked: Asked) -> tuple[Cutting | Refusal | None, int]:
    """What one try gives, and its work; None where it takes more than it may."""
    strips, stock, rules = asked
    return within(lambda: lay_out(strips, stock, replace(rules, effort=EFFORTS[tries])), MOST_WORK[tries])


def better_plan(asked: Asked, known: Cutting) -> Cutting:
    """The plan after one more try: a better one, or the same. `improvable` says whether there is a try left."""
    found, work = _tried(known.tries, asked)
    best = found if isinstance(found, Cutting) and _weight(found) <= _weight(known) else known
    return dataclasses.replace(best, tries=known.tries + 1, searched=known.searched + work)


def improvable(known: Cutting) -> bool:
    """True while something is left to prove of the plan in use, and a try is left."""
    proof = known.best.proof
    return not (proof.least and proof.fewest_joins) and known.tries < len(EFFORTS)


def work_of(asked: Asked, known: Cutting | None = None) -> int:
    """The work of a layer's plan, with what improved it."""
    return measured(lambda: first_plan(*asked))[1] + (known.searched if known else 0)


def _weight(cutting: Cutting) -> tuple[object, ...]:
    """Less is better: bought, used, joins; then the gap."""
    best = cutting.best
    return best.roll, best.used, best.joins, best.used - best.proof.bound


def _too_much(strips: tuple[Strip, ...], stock: tuple[Stretch, ...]) -> Refusal | None:
    """A refusal where even without joins there would be more widths (or lanes as long as a width is wide) than that."""
    widest = max((stretch.usable for stretch in stock), default=None)
    needed = total(strip.flat for strip in strips)
    if widest is None or needed <= widest * MOST_WIDTHS:
        return None
    longest = max(strips, key=lambda strip: strip.flat)
    return Refusal("too much", longest.id, needed, widest * MOST_WIDTHS)


def ways_found(found: Cutting) -> dict[CutWay, Layout]:
    """The layouts besides the least cloth, by the names under which they are chosen."""
    ways: dict[CutWay, Layout] = {}
    if fewest := found.fewest_joins():
        ways["fewest joins"] = fewest
    for each in found.others():
        if each.way in ("slit", "stacked"):
            ways["slit" if each.way == "slit" else "stacked"] = each
    return ways


def followed(found: Cutting, way: CutWay | None) -> Cutting:
    """`found` with the layout of the chosen way in use; `found` itself where that way does not exist.

    Other layouts are not worked out unless chosen.
    """
    chosen = found.fewest_joins() if way == "fewest joins" else None
    if way in ("slit", "stacked"):
        chosen = ways_found(found).get(way)
    return found if chosen is None else dataclasses.replace(found, best=chosen, least=found.best)


def not_along(found: Cutting, rules: Rules, way: CutWay | None, *, all_along: bool) -> Refusal | None:
    """Why a choice cannot apply to a layer along the roll; None where all can. `all_along`: no layer goes across, so
    that whole or half widths are joined in none."""
    if all_along and rules.policy != "part widths":
        return Refusal("joins along", None, None, None)
    if way in ("slit", "stacked") or (way == "fewest joins" and found.fewest_joins() is None):
        return Refusal("way along", None, None, None)
    return None
