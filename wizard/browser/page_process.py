"""One page, one process: starts the wizard for a page without any shell between, and ends it for certain."""

from __future__ import annotations

import asyncio
import json
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Final, NamedTuple

from aiohttp import web

import wizard

DRIVER: Final = "wizard.browser.page_driver:PageDriver"
PATIENCE: Final = 3
"""Seconds that a process gets to end by itself, and again after each signal."""

_NOT_PASSED_ON: Final = ("ACCESSIBLE", "COLORFGBG", "TEXTUAL", "TEXTUAL_LOG", "TEXTUAL_FPS")
"""What is true of the terminal the server was started in, and not of the page."""


def argv_for(path: Path, *, mouse: bool = True) -> list[str]:
    """The command that opens `path`, a file or a folder, a word an item: nothing in a name is ever read as a command.

    -P keeps a file in the current folder from being taken for a part of Python.
    """
    return [sys.executable, "-P", "-m", "wizard", *(() if mouse else ("--no-mouse",)), "--", str(path.resolve())]


def environment_for(environ: Mapping[str, str], columns: int, rows: int) -> dict[str, str]:
    """The environment of the process: `environ`, that a page shows it, and the size of that page."""
    kept = {name: value for name, value in environ.items() if name not in _NOT_PASSED_ON}
    home = Path(wizard.__file__).parents[1]
    if home.name not in ("site-packages", "dist-packages"):
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


class PageProcess:
    """The process that draws for one page, and takes its keys. What they say to each other goes in packets: a kind,
    `D` for data or `M` for a word in JSON, a length in four bytes, and what it holds."""

    def __init__(self, wire: web.WebSocketResponse) -> None:
        self._wire: Final = wire
        self._process: Process | None = None
        self._reading: asyncio.Task[None] | None = None
        self.delivered: Download | None = None
        """What the wizard gave out last."""

    async def start(self, argv: Sequence[str], columns: int, rows: int) -> None:
        """Start `argv` for a page of that size, and pass on what it draws."""
        self._process = await asyncio.create_subprocess_exec(
            *argv,
            stdin=PIPE,
            stdout=PIPE,
            env=environment_for(os.environ, columns, rows),
            # Ctrl+C is for the server, which ends its pages in good order.
            start_new_session=True,
        )
        self._reading = asyncio.create_task(self._pass_all_on(self._process))

    async def type(self, keys: bytes) -> None:
        """Send keys to the process."""
        await self._send(b"D", keys)

    async def tell(self, **word: str | int) -> None:
        """Tell the process something that is no key, such as the size of the page."""
        await self._send(b"M", json.dumps(word).encode())

    async def _send(self, kind: bytes, payload: bytes) -> None:
        process = self._process
        if process is None or process.stdin is None:
            return
        with suppress(ConnectionError, RuntimeError):
            process.stdin.write(kind + len(payload).to_bytes(4, "big") + payload)
            await process.stdin.drain()

    async def _pass_all_on(self, process: Process) -> None:
        """Pass on what the process draws until it ends, then close the page."""
        assert process.stdout is not None
        with suppress(asyncio.IncompleteReadError):
            await process.stdout.readuntil(b"__GANGLION__\n")
            while True:
                # A packet: its kind, the length in four bytes, what it holds.
                kind = await process.stdout.readexactly(1)
                length = int.from_bytes(await process.stdout.readexactly(4), "big")
                payload = await process.stdout.readexactly(length)
                # A page that is gone is no reason to stop reading: the process would wait for us for ever.
                with suppress(ConnectionError, RuntimeError):
                    await self._pass_on(kind, payload)
        with suppress(ConnectionError, RuntimeError):
            await self._wire.close()

    async def _pass_on(self, kind: bytes, payload: bytes) -> None:
        if kind == b"D":
            await self._wire.send_bytes(payload)
            return
        match json.loads(payload):
            case {"type": "exit"}:
                await self._wire.close()
            case {"type": "deliver", "key": str(key), "name": str(name), "text": str(text)}:
                self.delivered = Download(key, name, text.encode())
                # As the toolkit's script has it: the page then asks for it by its key.
                await self._wire.send_json(["deliver_file_start", key])

    async def stop(self) -> None:
        """End the process: by a message, then by SIGTERM, then by SIGKILL; takes at most three times PATIENCE."""
        process, reading = self._process, self._reading
        if process is None or reading is None:
            return
        with suppress(TimeoutError):
            await asyncio.wait_for(self.tell(type="quit"), PATIENCE)
        for end in (None, process.terminate, process.kill):
            if await _ended(process, end):
                break
        await reading


async def _ended(process: Process, end: Callable[[], None] | None) -> bool:
    if end is not None:
        with suppress(ProcessLookupError):
            end()
    with suppress(TimeoutError):
        await asyncio.wait_for(process.wait(), PATIENCE)
    return process.returncode is not None
