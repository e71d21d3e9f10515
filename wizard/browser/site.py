"""The server: the toolkit's own, with our page, our guard at the door, and no shell between it and the wizard."""

from __future__ import annotations

import asyncio
import json
import shlex
from collections.abc import Awaitable, Callable, Sequence
from contextlib import suppress
from functools import partial
from typing import Any, Final
from urllib.parse import quote

from aiohttp import WSMsgType, web
from textual_serve.server import Server

from wizard.browser import page
from wizard.browser.guards import Guard
from wizard.browser.keys import OneTimeKey
from wizard.browser.seat import Seat

SEATS: Final = 8
"""Most pages at a time: each is a process of its own."""
LONGEST: Final = 1 << 18
"""Bytes of the longest word taken from a page; a pasted note is shorter by far."""
WIDEST, TALLEST = 1000, 500
"""Most columns and rows that a page may say it has."""


class Site(Server):
    """Serves `argv`, a process for each page."""

    def __init__(self, argv: Sequence[str], title: str, address: str, key: OneTimeKey) -> None:
        """`title` names what is served; `key` must come with the first request."""
        super().__init__(shlex.join(argv), host=address, title=title)
        self.argv = tuple(argv)
        self.guard = Guard(address, key)
        self._open: dict[Seat, web.WebSocketResponse] = {}

    async def app(self) -> web.Application:
        """All that is answered, and the guard before it."""
        app = web.Application(middlewares=[self.guard.look])
        app.add_routes(
            [
                web.get(page.PAGE, self._page),
                web.get(page.WIRE, self.handle_websocket),
                web.get("/own/{name}", self._own),
                # Where the toolkit's script looks for what is delivered.
                web.get("/download/{key}", self._delivered),
            ]
        )
        app.on_response_prepare.append(_lay_down_rules)
        app.on_shutdown.append(self.on_shutdown)
        return app

    async def _make_app(self) -> web.Application:
        # The toolkit's own way in leads through the same guard.
        return await self.app()

    async def _page(self, request: web.Request) -> web.Response:
        letters = _letters(request.query.get(page.LETTERS, str(page.USUAL_LETTERS)))
        if letters is None or set(request.query) - {page.LETTERS}:
            # The toolkit's script heeds words in the address, and would ask for a page from elsewhere. It gets none.
            raise web.HTTPSeeOther(page.PAGE)
        return web.Response(text=page.index(self.title, request.host, letters), content_type="text/html")

    async def _own(self, request: web.Request) -> web.Response:
        try:
            body, kind = page.asset(request.match_info["name"])
        except KeyError:
            raise web.HTTPNotFound(text="There is nothing here.\n") from None
        return web.Response(body=body, content_type=kind, charset="utf-8" if kind.startswith("text/") else None)

    async def _delivered(self, request: web.Request) -> web.Response:
        key = request.match_info["key"]
        given = next((each.delivered for each in self._open if each.delivered and each.delivered.key == key), None)
        if given is None:
            raise web.HTTPNotFound(text="There is nothing here.\n")
        # Never shown as a page of ours: only saved.
        saved = {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(given.name, safe='', errors='replace')}"}
        return web.Response(body=given.data, content_type="application/octet-stream", headers=saved)

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """Run the wizard for one page until either goes."""
        if len(self._open) >= SEATS:
            raise web.HTTPServiceUnavailable(text="Too many pages are open; close one.\n")
        wire = web.WebSocketResponse(heartbeat=15, timeout=2, max_msg_size=LONGEST)
        seat = Seat(
            self.command,
            write_bytes=wire.send_bytes,
            write_str=wire.send_str,
            close=partial(_close, wire),
            download_manager=self.download_manager,
        )
        seat.argv = self.argv
        # Taken before anything is waited for: another page may be counting the seats meanwhile.
        self._open[seat] = wire
        try:
            await wire.prepare(request)
            await seat.start(*_size(request.query.get("width"), request.query.get("height")))
            await self._listen(wire, seat)
        finally:
            await seat.stop()
            del self._open[seat]
        return wire

    async def _listen(self, wire: web.WebSocketResponse, seat: Seat) -> None:
        """Heed what the page says until it goes; what cannot be understood is passed over."""
        async for message in wire:
            if message.type is WSMsgType.TEXT:
                await heed(message.data, seat, wire.send_json)

    async def on_shutdown(self, app: web.Application) -> None:
        """Close every page; each then ends its own process."""
        await asyncio.gather(*(_close(wire) for wire in self._open.values()))


async def heed(text: str, seat: Seat, answer: Callable[[object], Awaitable[None]]) -> None:
    """Do what one word of a page says: keys, a new size, in sight or not, or still there."""
    match _read(text):
        case ["stdin", str(keys)]:
            # Nothing at all would end the program: it is how an end of input reads.
            if typed := keys.encode("utf-8", "ignore"):
                await seat.send_bytes(typed)
        case ["resize", {"width": int(width), "height": int(height)}]:
            await seat.set_terminal_size(*_size(str(width), str(height)))
        case ["ping", str(moment)]:
            await answer(["pong", moment])
        case ["blur"]:
            await seat.blur()
        case ["focus"]:
            await seat.focus()


def _read(text: str) -> Any:
    try:
        return json.loads(text)
    except (ValueError, RecursionError):
        return None


async def _close(wire: web.WebSocketResponse) -> None:
    # A page that was not answered yet has nothing to close.
    with suppress(RuntimeError):
        await wire.close()


async def _lay_down_rules(request: web.Request, response: web.StreamResponse) -> None:
    if response.status != 403:
        response.headers.update(page.rules(request.host))
    else:
        # The Host of a stranger's request goes into no answer.
        response.headers.update(page.rules("127.0.0.1"))


def _size(columns: str | None, rows: str | None) -> tuple[int, int]:
    return _whole(columns, 80, WIDEST), _whole(rows, 24, TALLEST)


def _whole(text: str | None, usual: int, most: int) -> int:
    """The whole number in `text`, from 1 to `most`; `usual` where it is none."""
    if text is None or not (text.isascii() and text.isdigit()) or len(text) > 9:
        return usual
    return max(1, min(most, int(text)))


def _letters(text: str) -> int | None:
    whole = _whole(text, 0, page.LARGEST)
    return whole if whole >= page.SMALLEST else None
