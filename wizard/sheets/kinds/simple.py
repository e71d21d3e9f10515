"""The sheets that put blocks one after the other. Work and its cautions come before the figures it is done by."""

from __future__ import annotations

from wizard.sheets.blocks.buying import buying_list, shop_steps, steps_of_fullness
from wizard.sheets.blocks.layers import layers
from wizard.sheets.blocks.measures import section_measures
from wizard.sheets.blocks.remarks import cautions, findings, missing
from wizard.sheets.blocks.ways import ways_of_cutting
from wizard.sheets.blocks.work import work
from wizard.sheets.matter import Matter
from wizard.trade.plan import Plan


def overview(plan: Plan) -> list[Matter]:
    """What looks wrong, what is missing, every section's measures, all cautions."""
    return [*findings(plan), *missing(plan), *section_measures(plan), *cautions(plan)]


def buying(plan: Plan) -> list[Matter]:
    """For the shop: what to buy and how it is sold; then buying and washing."""
    return [*buying_list(plan), *shop_steps(plan), *work(plan, "Cloth", "Fullness")]


def choosing(plan: Plan) -> list[Matter]:
    """Before buying: what more or less cloth would give, and what each way of cutting takes."""
    return [*steps_of_fullness(plan), *ways_of_cutting(plan)]


def cutting(plan: Plan) -> list[Matter]:
    """For the cutting table: the steps, then each layer's cut list and drawing."""
    return [*work(plan, "Cutting"), *layers(plan)]


def making_up(plan: Plan) -> list[Matter]:
    """For the sewing machine: every step with its figures."""
    return work(plan, "Making up")
