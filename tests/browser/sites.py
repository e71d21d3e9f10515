"""A site served on this computer only, and a client that may say anything."""

from __future__ import annotations

from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from pathlib import Path

from aiohttp.test_utils import TestClient, TestServer
from aiohttp.web import Application, Request

from tests.browser.started import gone, places
from wizard.browser.guard import OneTimeKey
from wizard.browser.page_process import argv_for
from wizard.browser.server import PageServer

Client = TestClient[Request, Application]


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
