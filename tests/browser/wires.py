"""Holding the page's end of a wire, and watching what comes of it."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import aiohttp
from aiohttp import ClientWebSocketResponse, WSMsgType

from tests.browser.sites import Client, origin
from tests.browser.started import WAIT


@asynccontextmanager
async def let_in(link: str) -> AsyncIterator[tuple[aiohttp.ClientSession, str]]:
    """A browser's session that came in by `link`, and the page's address."""
    async with aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True)) as client:
        assert (await client.get(link)).status == 200
        yield client, link.partition("?")[0]


async def wire_from(client: aiohttp.ClientSession, page: str) -> ClientWebSocketResponse:
    return await client.ws_connect(f"{page}ws?width=90&height=30", headers={"Origin": page.rstrip("/")})


async def wire_to(client: Client, query: str = "?width=100&height=30") -> ClientWebSocketResponse:
    return await client.ws_connect(f"/ws{query}", headers={"Origin": origin(client)})


async def drawn_until(wire: ClientWebSocketResponse, wanted: str) -> str:
    """All that is drawn, up to and with `wanted`."""
    drawn = ""
    async with asyncio.timeout(WAIT):
        while wanted not in drawn:
            message = await wire.receive()
            assert message.type in (WSMsgType.BINARY, WSMsgType.TEXT), (
                f"closed before {wanted!r} came: {drawn[-500:]!r}"
            )
            drawn += message.data.decode("utf-8", "replace") if message.type is WSMsgType.BINARY else ""
    return drawn


async def closed(wire: ClientWebSocketResponse) -> None:
    async with asyncio.timeout(WAIT):
        while (await wire.receive()).type not in (WSMsgType.CLOSE, WSMsgType.CLOSED, WSMsgType.CLOSING):
            pass


async def saved(path: Path, wanted: str) -> None:
    async with asyncio.timeout(WAIT):
        while wanted not in path.read_text(encoding="utf-8"):
            await asyncio.sleep(0.05)
