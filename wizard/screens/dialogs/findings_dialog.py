"""What looks wrong, with the way out; each can be gone to, or kept as it is."""

from __future__ import annotations

from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Button, OptionList
from textual.widgets.option_list import Option

from wizard.interview.outcome import why_not_kept
from wizard.render.figure_text import LEVELS
from wizard.screens.actions import quiet_keys
from wizard.screens.dialogs.base_dialogs import Dialog, relabel
from wizard.screens.option_lists import LineList
from wizard.screens.screen_text import plain, words
from wizard.trade.plan_records import Finding, Level

STYLES: Final[dict[Level, str]] = {"stop": "$error", "warn": "$warning", "ask": "$accent", "note": "$primary"}

Response = tuple[str | None, Finding]
"""The key to go to, else None to keep the finding as it is or ask about it again."""


class FindingsDialog(Dialog[Response | None]):
    """Gives what to do, and about which. Of two answers held against each other one can go to either."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys("space=keep")

    LONG: ClassVar[dict[str, int]] = {"#findings": 100}

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("Findings", None, {"go": "Go there", "other": "Go to the other", "keep": "Keep as it is"})
        self.findings = findings
        none = [Option(Content.styled("Nothing looks wrong.", "$success"), disabled=True)]
        self.lines = LineList(*([Option(line(each)) for each in findings] or none), id="findings", markup=False)

    def inside(self) -> ComposeResult:
        """The list, open ones first."""
        yield self.lines

    def on_mount(self) -> None:
        """Select the first."""
        self.lines.highlighted = 0 if self.findings else None
        (self.lines if self.findings else self.query_one("#close")).focus()
        self._show_ways()

    @property
    def finding(self) -> Finding | None:
        """The selected one."""
        return None if self.lines.highlighted is None else self.findings[self.lines.highlighted]

    @on(OptionList.OptionHighlighted)
    def _show_ways(self) -> None:
        """The ways out show only where there are some."""
        finding = self.finding
        self.query_one("#go").display = finding is not None
        self.query_one("#other").display = finding is not None and bool(finding.other)
        keep = self.query_one("#keep", Button)
        keep.display = finding is not None and not _must_stay(finding)
        relabel(keep, words("Ask again" if finding and finding.kept else "Keep as it is"))

    @on(OptionList.OptionSelected)
    def action_go(self) -> None:
        """To the answer."""
        if self.finding is not None:
            self.answer((self.finding.key, self.finding))

    def action_other(self) -> None:
        """To the answer it is held against."""
        if self.finding is not None:
            self.answer((self.finding.other, self.finding))

    def action_keep(self) -> None:
        """Space keeps, or asks again."""
        if self.finding is None:
            return
        if must := _must_stay(self.finding):
            self.notify(must, markup=False)
        else:
            self.answer((None, self.finding))


def _must_stay(finding: Finding) -> str:
    """Why a finding cannot be kept; empty where it can be, or is and can be asked about again."""
    return "" if finding.kept else why_not_kept(finding)


def line(finding: Finding) -> Content:
    """A finding in the list: how grave, what was found, what would do."""
    level = "Kept" if finding.kept else LEVELS[finding.level]
    style = "$quiet" if finding.kept else STYLES[finding.level]
    return Content.assemble(
        (level, f"bold {style}"), "\n", plain(finding.sentence), "\n", (plain(finding.way_out), "$quiet")
    )
