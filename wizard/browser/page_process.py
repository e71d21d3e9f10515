"""One page, one process: starts the wizard for a page without any shell between, and ends it for certain."""

from __future__ import annotations

import asyncio
import json
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Awaitable, Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Final, NamedTuple

from textual_serve.app_service import AppService

import wizard

DRIVER: Final = "wizard.browser.page_driver:PageDriver"
PATIENCE: Final = 3
"""Seconds that a process gets to end by itself, and again after each signal."""

_NOT_PASSED_ON: Final = ("ACCESSIBLE", "COLORFGBG", "TEXTUAL", "TEXTUAL_LOG", "TEXTUAL_FPS")
"""What is true of the terminal the server was started in, and not of the page."""

_INSTALLED: Final = ("site-packages", "dist-packages")


def argv_for(path: Path, *, mouse: bool = True) -> list[str]:
    """The command that opens `path`, a file or a folder, a word an item: nothing in a name is ever read as a command.

    -P keeps a file in the current folder from being taken for a part of Python.
    """
    return [sys.executable, "-P", "-m", "wizard", *(() if mouse else ("--no-mouse",)), "--", str(path.resolve())]


def environment_for(environ: Mapping[str, str], columns: int, rows: int) -> dict[str, str]:
    """The environment of the process: `environ`, that a page shows it, and the size of that page."""
    kept = {name: value for name, value in environ.items() if name not in _NOT_PASSED_ON}
    home = Path(wizard.__file__).parents[1]
    if home.name not in _INSTALLED:
        # Run from a checkout, which -P leaves out.
        kept["PYTHONPATH"] = os.pathsep.join(filter(None, (str(home), environ.get("PYTHONPATH"))))
    return kept | {
        "TERM": "xterm-256color",
        "TEXTUAL_COLOR_SYSTEM": "truecolor",
        "TEXTUAL_DRIVER": DRIVER,
        "COLUMNS": str(columns),
        "ROWS": str(rows),
    }


class Download(NamedTuple):
    """A file for the person's own device."""

    key: str
    """What the page asks for it by."""
    name: str
    data: bytes


class PageProcess(AppService):
    """The toolkit's service for one page, with its own way to start, to listen and to stop."""

    argv: Sequence[str] = ()
    """Set before it is started."""
    delivered: Download | None = None
    """What the wizard gave out last."""

    async def _open_app_process(self, width: int = 80, height: int = 24) -> Process:
        self._process = await asyncio.create_subprocess_exec(
            *self.argv,
            stdin=PIPE,
            stdout=PIPE,
            env=environment_for(os.environ, width, height),
            # Ctrl+C is for the server, which ends its pages in good order.
            start_new_session=True,
        )
        self._stdin = self._process.stdin
        return self._process

    async def run(self) -> None:
        """Pass on what the process draws until it ends, then close the page."""
        process = self._process
        assert process is not None
        assert process.stdout is not None
        with suppress(asyncio.IncompleteReadError):
            await process.stdout.readuntil(b"__GANGLION__\n")
            while True:
                await self._pass_on(*await _packet(process.stdout))
        await self._tell_page(self.remote_close())

    async def _pass_on(self, kind: bytes, payload: bytes) -> None:
        # A page that is gone is no reason to stop reading: the process would wait for us for ever.
        if kind == b"D":
            await self._tell_page(self.on_data(payload))
        elif kind == b"M":
            await self._handle_meta(json.loads(payload))

    async def _handle_meta(self, said: object) -> None:
        match said:
            case {"type": "exit"}:
                await self._tell_page(self.remote_close())
            case {"type": "deliver", "key": str(key), "name": str(name), "text": str(text)}:
                self.delivered = Download(key, name, text.encode())
                # As the toolkit's script has it: the page then asks for it by its key.
                await self._tell_page(self.remote_write_str(json.dumps(["deliver_file_start", key])))

    @staticmethod
    async def _tell_page(word: Awaitable[object]) -> None:
        with suppress(ConnectionError, RuntimeError):
            await word

    async def stop(self) -> None:
        """End the process: by a message, then by SIGTERM, then by SIGKILL; takes at most three times PATIENCE."""
        process, self._process = self._process, None
        if process is None or self._task is None:
            return
        with suppress(TimeoutError):
            await asyncio.wait_for(self.send_meta({"type": "quit"}), PATIENCE)
        for end in (None, process.terminate, process.kill):
            if await _ended(process, end):
                break
        await self._task


async def _packet(stream: asyncio.StreamReader) -> tuple[bytes, bytes]:
    """The next packet: its kind, the length in four bytes, what it holds. IncompleteReadError at the end."""
    kind = await stream.readexactly(1)
    length = int.from_bytes(await stream.readexactly(4), "big")
    return kind, await stream.readexactly(length)


async def _ended(process: Process, end: Callable[[], None] | None) -> bool:
    if end is not None:
        with suppress(ProcessLookupError):
            end()
    with suppress(TimeoutError):
        await asyncio.wait_for(process.wait(), PATIENCE)
    return process.returncode is not None
