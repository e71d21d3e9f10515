"""The server: listens, says what is open and to whom, answers each request, and closes every page at a signal."""

from __future__ import annotations

import asyncio
import errno
import json
import logging
import signal
import socket
import sys
from collections.abc import Sequence
from ipaddress import ip_address
from pathlib import Path
from typing import Final
from urllib.parse import quote

from aiohttp import WSMsgType, web
from aiohttp.web import AppRunner, TCPSite

from wizard.browser import NotServed, guard
from wizard.browser.guard import Guard, OneTimeKey
from wizard.browser.page_process import PageProcess, argv_for
from wizard.render.plain_text import clipped, literal

THIS_COMPUTER: Final = "127.0.0.1"
"""Where the page is unless the maker opens it: nothing outside this computer reaches it there."""


async def run(path: Path, address: str | None, port: int, *, mouse: bool) -> int:
    """Serve `path` until a signal comes, and give its number. Raises NotServed."""
    key = OneTimeKey()
    title = literal(path.name or str(path.absolute()))
    site = PageServer(argv_for(path, mouse=mouse), title, THIS_COMPUTER if address is None else address, key)
    signals = _signals()
    # Whichever library has something to say.
    logging.basicConfig(handlers=[_OneLine()], level=logging.WARNING)
    # In so many seconds every page and its process has ended, or is made to.
    runner = AppRunner(site.app(), access_log=None, shutdown_timeout=15)
    await runner.setup()
    try:
        link = await _listen(runner, site.host, port)
        _tell(f"{link}?key={key.text}", path, address)
        return await signals.get()
    finally:
        await runner.cleanup()


async def _listen(runner: AppRunner, address: str, port: int) -> str:
    """Begin to answer; gives the page's address."""
    try:
        await _refuse_all_at_once(address, port)
        await TCPSite(runner, address, port).start()
    except (OSError, UnicodeError) as trouble:
        raise NotServed(_why_not(trouble, address, port)) from None
    return f"http://{guard.bracketed(address)}:{runner.addresses[0][1]}/"


async def _refuse_all_at_once(address: str, port: int) -> None:
    """Raise NotServed for an address that means all addresses of this computer, however it is written."""
    found = await asyncio.get_running_loop().getaddrinfo(address or "::", port, type=socket.SOCK_STREAM)
    if any(ip_address(str(each[4][0]).partition("%")[0]).is_unspecified for each in found):
        raise NotServed(
            f"{literal(address) or 'an empty address'} would open every address of this computer. {_SUCH_AS}"
        )


_SUCH_AS: Final = "Use one address from this computer's network settings, such as 192.168.1.20"


def _why_not(trouble: OSError | UnicodeError, address: str, port: int) -> str:
    where = literal(address)
    # From Python 3.13 on an address that is not this computer's is passed over, and what is raised has no number.
    missing = (errno.EADDRNOTAVAIL, None)
    if not isinstance(trouble, OSError) or isinstance(trouble, socket.gaierror) or trouble.errno in missing:
        return f"{where} is not an address of this computer. {_SUCH_AS}"
    if trouble.errno == errno.EADDRINUSE:
        return f"port {port} of {where} is in use. Choose another one: --port {port + 1}"
    if trouble.errno in (errno.EACCES, errno.EPERM):
        return f"you may not use port {port} on this computer. Choose one above 1023: --port 8127"
    return f"could not open port {port} of {where}: {trouble.strerror or trouble}."


def _tell(link: str, path: Path, address: str | None) -> None:
    """Print the link on standard output, and everything else about it on standard error."""
    shown = literal(str(path.absolute()))
    whom = "browsers on this computer" if address is None else f"anybody who can reach {literal(address)}"
    reach = "every project and template in this folder, and start new ones" if path.is_dir() else "this project"
    print(
        f"railskirt: WARNING: {shown} is open to {whom}.\n"
        "The link below works once: only the first browser that opens it gets in. "
        f"It can read and change {reach}. "
        "Its sheets are downloads; it can open and write no other file on this computer.",
        file=sys.stderr,
    )
    if address is not None:
        print("Nothing is encrypted: on a network you do not trust, others can read everything.", file=sys.stderr)
    print("Open this link. Press Ctrl+C here to stop. Every answer is saved at once.", file=sys.stderr, flush=True)
    print(link, flush=True)


def _signals() -> asyncio.Queue[int]:
    """The numbers of the signals to end, as they come."""
    came = asyncio.Queue[int]()
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        # One that was to be let pass, as nohup sees to, is let pass.
        if signal.getsignal(number) is not signal.SIG_IGN:
            asyncio.get_running_loop().add_signal_handler(number, came.put_nowait, int(number))
    return came


class _OneLine(logging.Handler):
    """Trouble of the server's own in one line: no traceback reaches a person, nor all of what a stranger sent."""

    def emit(self, record: logging.LogRecord) -> None:
        trouble = record.exc_info[1] if record.exc_info else None
        said = " ".join(f"{record.getMessage()} {trouble or ''}".split())
        print(f"railskirt: {clipped(literal(said), 200)}", file=sys.stderr)


MOST_PAGES: Final = 8
"""Most pages open at a time: each has its own process."""


class PageServer:
    """Serves `argv`, a process for each page."""

    def __init__(self, argv: Sequence[str], title: str, address: str, key: OneTimeKey) -> None:
        """`title` names what is served; `key` must come with the first request."""
        self._argv: Final = tuple(argv)
        self._title: Final = title
        self.host: Final = address
        self._guard: Final = Guard(address, key)
        self._open: dict[PageProcess, web.WebSocketResponse] = {}
        self._stopping: set[asyncio.Future[None]] = set()

    def app(self) -> web.Application:
        """All that is answered, and the guard before it."""
        app = web.Application(middlewares=[self._guard.check])
        app.add_routes(
            [
                web.get(guard.PAGE, self._page),
                web.get(guard.WIRE, self._wizard),
                web.get("/own/{name}", self._own),
                # Where the toolkit's script looks for what is delivered.
                web.get("/download/{key}", self._delivered),
            ]
        )
        app.on_response_prepare.append(_add_security_headers)
        app.on_shutdown.append(self._close_all)
        app.on_cleanup.append(self._all_stopped)
        return app

    async def _page(self, request: web.Request) -> web.Response:
        letters = _whole(request.query.get(guard.LETTERS, str(guard.USUAL_LETTERS)), 0, guard.LARGEST)
        if letters < guard.SMALLEST or set(request.query) - {guard.LETTERS}:
            # The toolkit's script heeds words in the address, and would ask for a page from elsewhere. It gets none.
            raise web.HTTPSeeOther(guard.PAGE)
        return web.Response(text=guard.index(self._title, request.host, letters), content_type="text/html")

    async def _own(self, request: web.Request) -> web.Response:
        try:
            body, kind = guard.asset(request.match_info["name"])
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

    async def _wizard(self, request: web.Request) -> web.WebSocketResponse:
        """Run the wizard for one page until either goes."""
        if len(self._open) >= MOST_PAGES:
            raise web.HTTPServiceUnavailable(text="Too many pages are open: close one.\n")
        # Bytes of the longest word taken from a page: a pasted note is shorter by far.
        wire = web.WebSocketResponse(heartbeat=15, timeout=2, max_msg_size=1 << 18)
        process = PageProcess(wire)
        # Taken before anything is waited for: another page may be counting the seats meanwhile.
        self._open[process] = wire
        try:
            await wire.prepare(request)
            await process.start(self._argv, *_size(request.query.get("width"), request.query.get("height")))
            async for message in wire:
                if message.type is WSMsgType.TEXT:
                    await _heed(message.data, process, wire)
        finally:
            # A page that goes away may cancel this request: its process ends all the same, and then its place is free.
            stopping = asyncio.ensure_future(process.stop())
            self._stopping.add(stopping)
            stopping.add_done_callback(self._stopping.discard)
            stopping.add_done_callback(lambda _: self._open.pop(process))
            await asyncio.shield(stopping)
        return wire

    async def _close_all(self, app: web.Application) -> None:
        """Close every page; each then ends its own process."""
        # One that was not answered yet has nothing to close, and says so.
        await asyncio.gather(*(wire.close() for wire in self._open.values()), return_exceptions=True)

    async def _all_stopped(self, app: web.Application) -> None:
        """Wait for the processes whose request was cancelled: none is left when the server is gone."""
        await asyncio.gather(*self._stopping)


async def _heed(text: str, process: PageProcess, wire: web.WebSocketResponse) -> None:
    """Do what one word of a page says: keys, a new size, in sight or not, or still there. What cannot be understood is
    passed over."""
    try:
        word = json.loads(text)
    except (ValueError, RecursionError):
        return
    match word:
        case ["stdin", str(keys)]:
            # Nothing at all would end the program: it is how an end of input reads.
            if typed := keys.encode("utf-8", "ignore"):
                await process.type(typed)
        case ["resize", {"width": int(width), "height": int(height)}]:
            columns, rows = _size(str(width), str(height))
            await process.tell(type="resize", width=columns, height=rows)
        case ["ping", str(moment)]:
            await wire.send_json(["pong", moment])
        case ["blur" | "focus" as sight]:
            await process.tell(type=sight)


async def _add_security_headers(request: web.Request, response: web.StreamResponse) -> None:
    # The Host of a stranger's request goes into no answer.
    host = THIS_COMPUTER if response.status == 403 else request.host
    response.headers.update(guard.security_headers(host))


def _size(columns: str | None, rows: str | None) -> tuple[int, int]:
    return _whole(columns, 80, 1000), _whole(rows, 24, 500)


def _whole(text: str | None, usual: int, most: int) -> int:
    """The whole number in `text`, from 1 to `most`; `usual` where it is none."""
    if text is None or not (text.isascii() and text.isdigit()) or len(text) > 9:
        return usual
    return max(1, min(most, int(text)))
