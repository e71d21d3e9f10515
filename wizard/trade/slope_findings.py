"""A floor that falls one way along one side of the bed and the other way along the other side: more likely readings
given in the wrong order, since one side is read from head to foot and the other from foot to head."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.trade.corners import section_name, sections_on, side_of
from wizard.trade.findings import Finding
from wizard.trade.lengths import ZERO, Length
from wizard.trade.saying import Sayer


def slope_findings(say: Sayer) -> Iterator[Finding]:
    """Both sides are read, both slope more than the floor's tolerance, and they slope against each other."""
    tolerance = say.ledger.read("allowances.floor_tolerance").value
    left, right = _falls(say, "left"), _falls(say, "right")
    if tolerance is None or left is None or right is None:
        return
    (_, left_fall), (right_id, right_fall) = left, right
    against = (left_fall > ZERO) != (right_fall > ZERO)
    if not against or min(abs(left_fall), abs(right_fall)) <= tolerance:
        return
    name, ends = section_name(say.ledger.job, right_id), ("foot end", "head end")
    low = ends if left_fall > ZERO else ends[::-1]
    yield say.finding(
        "floor-slopes:left:right", "ask", f"survey.section.{right_id}.drop.1",
        f"On the left the floor falls {say.length(abs(left_fall))} towards the {low[0]}, on the right "
        f"{say.length(abs(right_fall))} towards the {low[1]}. Either the floor has a twist, or drops stand in the "
        "wrong order.",
        f"Each section is read from its left end as you face it, so {name} begins at the foot end. Read both again, or "
        "keep them.",
        left_fall, right_fall,
    )  # fmt: skip


def _falls(say: Sayer, side: str) -> tuple[str, Length] | None:
    """The only section of a side, and how much more its foot end reads than its head end; None while that is open."""
    found = [(each, section) for each, section in sections_on(say.ledger.job) if side_of(each, section) == side]
    if len(found) != 1:
        return None
    section_id, section = found[0]
    first, last = (section.drop[0], section.drop[-1]) if len(section.drop) > 1 else (None, None)
    if first is None or last is None:
        return None
    return section_id, last - first if side == "left" else first - last
