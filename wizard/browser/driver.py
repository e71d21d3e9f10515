"""How the wizard's own process talks to the page: as the toolkit's web driver does, and it leaves well when cut off."""

from __future__ import annotations

import os
import signal
from contextlib import suppress

from textual.drivers.web_driver import WebDriver


class PageDriver(WebDriver):
    """Named to the toolkit in the environment of the process that draws for a page."""

    def write(self, data: str) -> None:
        """Send what is to be drawn; nothing when nobody is there to see it."""
        with suppress(BrokenPipeError):
            super().write(data)

    def _enable_mouse_support(self) -> None:
        # The toolkit's own takes it always.
        if self._mouse:
            super()._enable_mouse_support()

    def write_meta(self, data: dict[str, object]) -> None:
        """Send word to the server; nothing when it is gone."""
        with suppress(BrokenPipeError):
            super().write_meta(data)

    def run_input_thread(self) -> None:
        """Take keys until the app ends. When the server goes away first, that is a terminal hanging up."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            _hang_up()

    def on_meta(self, packet_type: str, payload: dict[str, object]) -> None:
        """Heed a word from the server. A page that was closed is a terminal hanging up: the place is kept."""
        if packet_type == "quit" and hasattr(signal, "SIGHUP"):
            _hang_up()
        else:
            super().on_meta(packet_type, payload)


def _hang_up() -> None:
    os.kill(os.getpid(), getattr(signal, "SIGHUP", signal.SIGTERM))
