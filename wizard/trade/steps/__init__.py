"""The work as a checklist made for one job: only the steps that apply, with its own figures, in the order of doing."""

from __future__ import annotations

from collections.abc import Sequence

from wizard.trade.figures import Ledger
from wizard.trade.formatting import ruler_of
from wizard.trade.notions import needle_through, row_figures
from wizard.trade.plan_records import Layer, Part, Purchase, Step
from wizard.trade.purchases import purchases_of
from wizard.trade.steps.cloth_steps import cloth_steps
from wizard.trade.steps.hanging_steps import hanging_steps
from wizard.trade.steps.making_up_steps import making_up_steps
from wizard.trade.steps.step_writer import StepWriter


def work_of(
    ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer], purchases: Sequence[Purchase] | None = None
) -> tuple[Step, ...]:
    """Every step whose figures are known, in the order of doing: cloth, cutting, making up part by part, hanging.

    `purchases` are those of :func:`purchases_of`, worked here where they are not given. Keeps the figures of rows and
    needles in the ledger, and those of the purchases.
    """
    row_figures(ledger)
    needle_through(ledger, [each.id for each in layers])
    write = StepWriter(ledger, tuple(parts), tuple(layers), ruler_of(ledger.job))
    bought = purchases_of(ledger, parts, layers) if purchases is None else purchases
    making_up = (step for part in parts for step in making_up_steps(write, part))
    return (*cloth_steps(write, bought), *making_up, *hanging_steps(write))
