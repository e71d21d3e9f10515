"""How far apart matched widths are cut: our rule, and the rules found in print for a half-drop."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.trade.cutting.matching import Pattern
from wizard.trade.cutting.strips import Repeat
from wizard.trade.lengths import Length, round_up, total


def spacing(cut: Length, repeat: Repeat, change: bool = False) -> Length:
    """From the start of a width to where the next may start, at the same phase or, for a half-drop, at the other.

    `V * ceil(C / V)`, or `V * (ceil(C / V - 1/2) + 1/2)` at a change. The last width takes its cut length only.
    """
    pattern = Pattern(repeat.length.inches, repeat.phase == "half-drop")
    return Length(pattern.step(cut.inches, change))


def printed_rules(cuts: Sequence[Length], repeat: Length) -> dict[str, Length]:
    """What the rules in print ask for these widths of a half-drop, each under its name. They know one cut length only;
    widths of several are counted one by one."""
    whole, widths = total(round_up(cut, repeat) for cut in cuts), len(cuts)
    return {
        "half a repeat an order": whole + repeat / 2,
        "a repeat for every other width": whole + repeat * (widths // 2),
        "half a repeat a width, and a repeat if they are odd": (
            total(cuts) + repeat / 2 * widths + repeat * (widths % 2)
        ),
    }
