"""A site served on this computer only, a client that may say anything, and a page of it as a person sees it."""

from __future__ import annotations

import asyncio
import json
import sys
from asyncio.subprocess import DEVNULL, PIPE, Process
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from pathlib import Path

import aiohttp
import pyte
from aiohttp import ClientWebSocketResponse, WSMsgType
from aiohttp.test_utils import TestClient, TestServer
from aiohttp.web import Application, Request

from tests.commands.running import uncounted
from wizard.browser.guard import OneTimeKey
from wizard.browser.page_process import argv_for
from wizard.browser.server import PageServer

Client = TestClient[Request, Application]
WAIT = 60
"""Seconds after which what was waited for counts as never coming."""
SIZE = "?width=100&height=30"
ENTER, ESCAPE, DOWN, TAB = "\r", "\x1b", "\x1b[B", "\t"


@asynccontextmanager
async def asking(path: Path, key: OneTimeKey | None = None, argv: Sequence[str] | None = None) -> AsyncIterator[Client]:
    """A client of a site that serves `path`, or runs `argv`; let in already, unless `key` is given to be tried."""
    before, used = places(), key or OneTimeKey()
    site = PageServer(argv or argv_for(path), "loft.toml", "127.0.0.1", used)
    async with TestClient(TestServer(site.app())) as client:
        if key is None:
            assert (await client.get(f"/?key={used.text}")).status == 200
        yield client
    # The client's going away ends a page, and closing the site does not everywhere wait for that.
    await gone(before)


def origin(client: Client) -> str:
    """What the site's own page sends as its Origin."""
    return f"http://127.0.0.1:{client.port}"


def places() -> set[int]:
    """The processes that this one started and that are still there; none where the system does not list them."""
    tasks = Path("/proc/self/task").glob("*/children")
    return {int(each) for task in tasks for each in task.read_text().split()}


async def gone(before: set[int]) -> None:
    """Wait until none is there that was not there before."""
    async with asyncio.timeout(WAIT):
        while places() - before:
            await asyncio.sleep(0.05)


@asynccontextmanager
async def served(*argv: str, folder: Path) -> AsyncIterator[tuple[Process, str]]:
    """`railskirt serve` running in `folder`, and the link it printed; ended at last, whatever happens."""
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "wizard", "serve", "--port", "0", *argv,
        cwd=folder, env=uncounted(HOME=str(folder)), stdin=DEVNULL, stdout=PIPE, stderr=PIPE,
    )  # fmt: skip
    try:
        assert process.stdout is not None
        link = await asyncio.wait_for(process.stdout.readline(), WAIT)
        assert link, (await process.communicate())[1].decode()
        yield process, link.decode().strip()
    finally:
        if process.returncode is None:
            process.terminate()
        await asyncio.wait_for(process.communicate(), WAIT)


@asynccontextmanager
async def let_in(link: str) -> AsyncIterator[tuple[aiohttp.ClientSession, str]]:
    """A browser's session that came in by `link`, and the page's address."""
    async with aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True)) as client:
        assert (await client.get(link)).status == 200
        yield client, link.partition("?")[0]


class Page:
    """A page's wire, with what a person sees on it."""

    def __init__(self, wire: ClientWebSocketResponse) -> None:
        self.wire, self.screen = wire, pyte.Screen(100, 30)
        self._stream = pyte.ByteStream(self.screen)
        self.ever = ""
        """All that was ever sent to be seen."""

    async def keys(self, *pressed: str) -> None:
        """Press these."""
        for each in pressed:
            await self.wire.send_json(["stdin", each])

    async def sees(self, text: str) -> None:
        """Wait until `text` stands on a line."""
        try:
            async with asyncio.timeout(WAIT):
                while not any(text in line for line in self.screen.display):
                    message = await self.wire.receive()
                    assert message.type is WSMsgType.BINARY, f"closed before {text!r} came: {self.screen.display}"
                    self._drawn(message.data)
        except TimeoutError:
            raise AssertionError(f"{text!r} never came: {self.screen.display}") from None

    async def told(self) -> list[str]:
        """The next word that is no picture."""
        async with asyncio.timeout(WAIT):
            while (message := await self.wire.receive()).type is not WSMsgType.TEXT:
                assert message.type is WSMsgType.BINARY
                self._drawn(message.data)
        word: list[str] = json.loads(message.data)
        return word

    def _drawn(self, data: bytes) -> None:
        self._stream.feed(data)
        self.ever += data.decode("utf-8", "replace")

    async def closed(self) -> None:
        """Wait until the other end closes it."""
        async with asyncio.timeout(WAIT):
            while (await self.wire.receive()).type not in (WSMsgType.CLOSE, WSMsgType.CLOSED, WSMsgType.CLOSING):
                pass


async def page_of(client: Client, query: str = SIZE) -> Page:
    """A page of the site."""
    return Page(await client.ws_connect(f"/ws{query}", headers={"Origin": origin(client)}))


async def page_at(client: aiohttp.ClientSession, address: str) -> Page:
    """A page of a server that runs by itself."""
    return Page(await client.ws_connect(f"{address}ws{SIZE}", headers={"Origin": address.rstrip("/")}))


async def saved(path: Path, wanted: str) -> None:
    """Wait until the file is there and holds that."""
    async with asyncio.timeout(WAIT):
        while not path.exists() or wanted not in path.read_text(encoding="utf-8"):
            await asyncio.sleep(0.05)
