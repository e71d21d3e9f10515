"""The work as a checklist made for one job: only the steps that apply, with its own figures, in the order of doing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wizard.trade.figures import Ledger
from wizard.trade.formatting import ruler_of
from wizard.trade.notions import needle_through, row_figures
from wizard.trade.plan import Layer, Part, Purchase, Step
from wizard.trade.purchases import purchases_of
from wizard.trade.steps.cloth_steps import buy_steps, wash_steps
from wizard.trade.steps.cutting_steps import cutting_steps
from wizard.trade.steps.hanging_steps import hanging_steps
from wizard.trade.steps.kit import Kit
from wizard.trade.steps.seam_steps import seam_steps
from wizard.trade.steps.tape_steps import tape_steps
from wizard.trade.steps.top_steps import top_steps


def work_of(
    ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer], purchases: Sequence[Purchase] | None = None
) -> tuple[Step, ...]:
    """Every step whose figures are known, in the order of doing: cloth, cutting, making up part by part, hanging.

    `purchases` are those of :func:`purchases_of`, worked here where they are not given. Keeps the figures of rows and
    needles in the ledger, and those of the purchases.
    """
    row_figures(ledger)
    needle_through(ledger, [each.id for each in layers])
    kit = Kit(ledger, tuple(parts), tuple(layers), ruler_of(ledger.job))
    return tuple(_steps(kit, purchases_of(ledger, parts, layers) if purchases is None else purchases))


def _steps(kit: Kit, purchases: Sequence[Purchase]) -> Iterator[Step]:
    yield from buy_steps(kit, purchases)
    yield from wash_steps(kit)
    yield from cutting_steps(kit)
    for part in kit.parts:
        yield from seam_steps(kit, part)
        yield from top_steps(kit, part)
        yield from tape_steps(kit, part)
    yield from hanging_steps(kit)
