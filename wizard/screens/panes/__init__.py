"""What the middle of a job's screen can show. Each pane is loaded when it is first looked at: most are not needed for
days, and all of them together would delay the first page."""

from __future__ import annotations

from typing import Final, Literal

from textual.widget import Widget

Aside = Literal["cutting", "roll"]
"""Shown over the current page or step."""
View = Literal["page", "work", Aside]
Pane = Literal["cutting", "work", "roll", "large"]

CUTTING_PLAN: Final = "@cutting"
"""Place of the cutting plan, which is neither a question nor a step."""


def pane_of(pane: Pane) -> Widget:
    """A new pane; its id is its name."""
    match pane:
        case "cutting":
            from wizard.screens.panes.cutting_pane import CuttingPane

            return CuttingPane(id="cutting")
        case "work":
            from wizard.screens.panes.work_pane import WorkPane

            return WorkPane(id="work")
        case "roll":
            from wizard.screens.panes.roll_pane import RollPane

            return RollPane(id="roll")
        case "large":
            from wizard.screens.panes.large_view import LargePane

            return LargePane()
