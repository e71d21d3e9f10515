"""Figures as they read on the screens."""

from __future__ import annotations

from tests.render.jobs import whole_plan
from wizard.screens.figure_words import bought_words, figure_words, sold_by


def test_what_is_to_be_bought_reads_in_the_unit_it_is_sold_by_wherever_it_stands() -> None:
    plan = whole_plan()
    layer = plan.layers[0]
    assert figure_words(layer.buy, plan) == bought_words(layer.buy, sold_by(plan, layer.id)) == "2 3/4 yd"
    assert figure_words(layer.roll, plan).endswith(" in")
