"""Working an answer out before Enter: whoever types stops to look at what was typed, and the time is used."""

from __future__ import annotations

from functools import partial
from typing import Final

from textual.geometry import Size
from textual.timer import Timer

from wizard.screens.drawing import Drawing
from wizard.screens.job_base import JobBase

PAUSE: Final = 0.04
"""Seconds without another key; while keys come faster nothing is worked out beside them."""


class Foreseeing(JobBase):
    """Has the answer that stands in the field worked out beside the screen. Nothing is shown of it, nothing saved."""

    _pause: Timer | None = None

    def foresee(self, text: str) -> None:
        """Work out `text` as the answer to the question in hand, once it has stood for a moment."""
        if self._pause is not None:
            self._pause.stop()
        question = self.session.current()
        if question is not None:
            self._pause = self.set_timer(PAUSE, partial(self._look_ahead, self.pane.drawing, question.key, text))

    def _look_ahead(self, drawing: Drawing, key: str, text: str) -> None:
        look = partial(self._foreseeing, drawing, drawing.size, key, text)
        self.run_worker(look, thread=True, exclusive=True, group="ahead", exit_on_error=False)

    def _foreseeing(self, drawing: Drawing, room: Size, key: str, text: str) -> None:
        """Beside the screen."""
        found = self.session.foresee(key, text)
        if found and found.ahead:
            drawing.prepare(found.ahead, found.standing.plan, room)
