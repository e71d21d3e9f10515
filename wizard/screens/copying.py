"""Choosing what is copied, and copying it."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

from wizard.screens.dialog_host import open_screen
from wizard.screens.job_base import JobBase
from wizard.screens.literal import one_line
from wizard.screens.side_panel import SidePanel

if TYPE_CHECKING:
    from wizard.screens.copies import Copy


class Copying(JobBase):
    """Copies from the job that is open."""

    def action_copy(self) -> None:
        """Choose what to copy, from what is in hand to whole sheets."""
        from wizard.screens.copies import copies
        from wizard.screens.search_dialog import Entry, SearchDialog

        panel = self.query_one(SidePanel)
        figure = panel.figure_in_hand() if panel.has_focus else self.session.at
        step = self.session.current_step() if self.view == "work" else None
        found = copies(self.session.draft, self.session.plan, figure, step, self.session.now().astimezone().date())
        found = tuple(sorted(found, key=lambda each: ("In hand", "Lists", "Sheets").index(each.group)))
        entries = tuple(Entry(each.id, each.group, "", one_line(each.what), "") for each in found)
        dialog = SearchDialog("What is to be copied?", entries, entries[0].id, "type to narrow: buying, marks…", "Copy")
        open_screen(self, dialog, lambda id: self._copy(next((each for each in found if each.id == id), None)))

    def _copy(self, chosen: Copy | None) -> None:
        if chosen is not None:
            from wizard.screens.clipboard import copy

            command = f"railskirt sheet {one_line(shlex.quote(str(self.path)))} {chosen.instead}"
            copy(self.app, chosen.what, chosen.text(), command)
