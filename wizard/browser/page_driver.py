"""How the wizard's own process talks to the page: as the toolkit's web driver does, and it leaves well when cut off."""

from __future__ import annotations

import os
import signal
from contextlib import suppress
from functools import partial
from pathlib import Path
from threading import Lock
from typing import Any, BinaryIO, TextIO

from textual.drivers.web_driver import WebDriver


class PageDriver(WebDriver):
    """Named to the toolkit in the environment of the process that draws for a page."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._turn = Lock()
        self._write = partial(self._send)

    def _send(self, data: bytes) -> int:
        """Send all of one packet, never in the middle of another; nothing when the server is gone."""
        with self._turn, suppress(BrokenPipeError):
            left = memoryview(data)
            while left:
                left = left[os.write(self.fileno, left) :]
        return len(data)

    def deliver_binary(self, binary: BinaryIO | TextIO, *, delivery_key: str, save_path: Path, **kwargs: Any) -> None:
        """Send a text to the page, which saves it on the person's own device; the folder of `save_path` is passed over.

        In one piece: the toolkit's own way leaves out what does not come within four seconds.
        """
        with binary:
            held = binary.read()
        text = held.decode() if isinstance(held, bytes) else held
        self.write_meta({"type": "deliver", "key": delivery_key, "name": save_path.name, "text": text})

    def _enable_mouse_support(self) -> None:
        # The toolkit's own takes it always.
        if self._mouse:
            super()._enable_mouse_support()

    def run_input_thread(self) -> None:
        """Take keys until the app ends. When the server goes away first, that is a terminal hanging up."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            _hang_up()

    def on_meta(self, packet_type: str, payload: dict[str, object]) -> None:
        """Heed a word from the server. A page that was closed is a terminal hanging up: the place is kept."""
        if packet_type == "quit":
            _hang_up()
        else:
            super().on_meta(packet_type, payload)


def _hang_up() -> None:
    os.kill(os.getpid(), signal.SIGHUP)
