"""What more and less cloth would give, for JSON: the fullness steps and the cloth in hand, within bounds."""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from typing import Any, Final

from wizard.sheets.json_values import value_json
from wizard.trade.compare_ways import LaidWithin
from wizard.trade.cutting import measured
from wizard.trade.formatting import Ruler, length_json
from wizard.trade.fullness_offers import finds_in_words
from wizard.trade.fullness_steps import in_hand_within, steps_within
from wizard.trade.plan import Plan

FULLNESS: Final = ("fullness_steps", "fullness_finds", "fullness_in_hand", "stopped")
"""The keys."""
BESIDE: Final = Fraction(3, 2)
"""So many times the work of the plan may go into all that is laid out beside it, the ways of cutting first."""
IN_HAND: Final = Fraction(1, 2)
"""And so many times into how full the cloth in hand makes the skirt at the least, however much those took."""
STEPS: Final = Fraction(1, 4)
"""And so many times into the steps at the least."""
BY_NAME: Final = 30
"""So many times as much where the sheet is asked for by its name."""


def fullness_json(plan: Plan, ruler: Ruler, work: int, lay: LaidWithin) -> dict[str, Any]:
    """The keys as described in json_sheet. `work`: of all of the plan. `lay`: how its ways of cutting were laid out."""
    left = int(BESIDE * work) - lay.taken
    (in_hand, found_out), took = measured(partial(in_hand_within, plan, max(left, int(IN_HAND * work))))
    steps, all_steps = steps_within(plan, max(left - took, int(STEPS * work)))
    whole = {"ways": lay.whole, "fullness_steps": all_steps, "fullness_in_hand": found_out}
    return {
        "fullness_steps": [
            {
                "roll": length_json(each.roll, ruler),
                "fullness": value_json(each.fullness, ruler),
                "handy": value_json(each.handy, ruler),
                "joins": each.joins,
                "cost": value_json(each.cost, ruler),
            }
            for each in steps
        ],
        "fullness_finds": list(finds_in_words(plan, steps)),
        "fullness_in_hand": value_json(in_hand, ruler),
        "stopped": [key for key, each in whole.items() if not each],
    }
