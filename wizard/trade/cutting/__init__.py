"""The cutting plan: strips of sections on lengths of cloth."""

from wizard.trade.cutting.cut_records import (
    Cutting,
    Layout,
    Offcut,
    Phase,
    Piece,
    Policy,
    Proof,
    Refusal,
    Repeat,
    Rules,
    Stretch,
    Strip,
    Surplus,
    Use,
)
from wizard.trade.cutting.lay_out import lay_out
from wizard.trade.cutting.pareto_partition import TOGETHER
from wizard.trade.cutting.pattern_match import printed_rules
from wizard.trade.cutting.place_pieces import as_cut, bought
from wizard.trade.cutting.purchase_bound import QuickBound
from wizard.trade.cutting.work_budget import Spent, measured, remembered, spend, within

__all__ = [
    "TOGETHER", "Cutting", "Layout", "Offcut", "Phase", "Piece", "Policy", "Proof", "QuickBound", "Refusal", "Repeat",
    "Rules", "Spent", "Stretch", "Strip", "Surplus", "Use", "as_cut", "bought", "lay_out", "measured", "printed_rules",
    "remembered", "spend", "within",
]  # fmt: skip
