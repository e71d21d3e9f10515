"""What another cutting plan could save, in words."""

from __future__ import annotations

from wizard.trade.cutting import Layout
from wizard.trade.formatting import Ruler, shown


def saving_text(layout: Layout, ruler: Ruler) -> str:
    """What another plan could do better: what it could save, or beside cloth in hand take less of the roll."""
    if layout.proof.saves is not None:
        return f"take at most {shown(layout.proof.saves, ruler, 'up')} less of the roll"
    return f"save at most {shown(layout.used - layout.proof.bound, ruler, 'up')}"
