"""One run of the server: says what is open and to whom, goes on until a signal, closes every page in good order."""

from __future__ import annotations

import asyncio
import errno
import logging
import signal
import socket
import sys
from contextlib import suppress
from ipaddress import ip_address
from pathlib import Path
from typing import Final

from aiohttp.web import AppRunner, TCPSite

from wizard.browser.faults import NotServed
from wizard.browser.keys import OneTimeKey
from wizard.browser.seat import argv_for
from wizard.browser.site import Site
from wizard.render.plain_text import clipped, literal

THIS_COMPUTER: Final = "127.0.0.1"
"""Where the page is unless the maker opens it: nothing outside this computer reaches it there."""

_LONGEST: Final = 200
"""Columns of a line of trouble."""

_WAIT: Final = 15
"""Seconds in which every page and its process has ended, or is made to."""


async def run(path: Path, address: str | None, port: int, *, mouse: bool) -> int:
    """Serve `path` until a signal comes, and give its number. Raises NotServed."""
    key = OneTimeKey()
    title = literal(path.name or str(path.absolute()))
    site = Site(argv_for(path, mouse=mouse), title, THIS_COMPUTER if address is None else address, key)
    ended = _signalled()
    # Whichever library has something to say.
    logging.basicConfig(handlers=[_OneLine()], level=logging.WARNING)
    runner = AppRunner(await site.app(), access_log=None, shutdown_timeout=_WAIT)
    await runner.setup()
    try:
        link = await _listen(runner, site.host, port)
        _tell(f"{link}?key={key.text}", path, address)
        return await ended
    finally:
        await runner.cleanup()


async def _listen(runner: AppRunner, address: str, port: int) -> str:
    """Begin to answer; gives the page's address."""
    name = f"[{address}]" if ":" in address else address
    try:
        await _refuse_all_at_once(address, port)
        await TCPSite(runner, address, port).start()
    except (OSError, UnicodeError) as trouble:
        raise NotServed(_why_not(trouble, address, port)) from None
    return f"http://{name}:{runner.addresses[0][1]}/"


async def _refuse_all_at_once(address: str, port: int) -> None:
    """Raise NotServed for an address that stands for every one of this computer's, however it is written."""
    found = await asyncio.get_running_loop().getaddrinfo(address or "::", port, type=socket.SOCK_STREAM)
    if any(ip_address(str(each[4][0]).partition("%")[0]).is_unspecified for each in found):
        raise NotServed(f"{literal(address) or 'an empty address'} would open every address there is. {_SUCH_AS}")


_SUCH_AS: Final = "Name one of this computer's, as its network settings show it, such as 192.168.1.20"


def _why_not(trouble: OSError | UnicodeError, address: str, port: int) -> str:
    where = literal(address)
    # From Python 3.13 on an address that is not this computer's is passed over, and what is raised has no number.
    missing = (errno.EADDRNOTAVAIL, None)
    if not isinstance(trouble, OSError) or isinstance(trouble, socket.gaierror) or trouble.errno in missing:
        return f"{where} is no address of this computer. {_SUCH_AS}"
    if trouble.errno == errno.EADDRINUSE:
        return f"something else answers at port {port} of {where} already. Name another one: --port {port + 1}"
    if trouble.errno in (errno.EACCES, errno.EPERM):
        return f"port {port} is not for everybody on this computer. Name one above 1023: --port 8127"
    return f"could not answer at port {port} of {where}: {trouble.strerror or trouble}."


def _tell(link: str, path: Path, address: str | None) -> None:
    """The link on standard output; all else that is to be known on standard error."""
    shown = literal(str(path.absolute()))
    whom = "browsers on this computer" if address is None else f"whatever reaches {literal(address)}"
    reach = _FOLDER if path.is_dir() else _FILE
    print(f"railskirt: WARNING: {shown} is open to {whom}.\n{_ONCE} {reach}", file=sys.stderr)
    if address is not None:
        print("Nothing is encrypted: on a network you do not trust, others can read along.", file=sys.stderr)
    print("Open this link; Ctrl+C here ends it. Every answer is saved as it is given.", file=sys.stderr, flush=True)
    print(link, flush=True)


_ONCE: Final = "The first browser to open the link below gets in, and no other: the link works once."
_SHEETS: Final = "Its sheets are downloads; it can open and write no other file on this computer."
_FILE: Final = f"It can read and change this project. {_SHEETS}"
_FOLDER: Final = f"It can read and change every project and template in this folder, and begin new ones. {_SHEETS}"


def _signalled() -> asyncio.Future[int]:
    """The number of the first signal to end; where the system has no such handlers, Ctrl+C ends it as ever."""
    loop = asyncio.get_running_loop()
    ended: asyncio.Future[int] = loop.create_future()
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        # One that was to be let pass, as nohup sees to, is let pass.
        if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
            with suppress(NotImplementedError):
                loop.add_signal_handler(number, _end, ended, int(number))
    return ended


def _end(ended: asyncio.Future[int], number: int) -> None:
    if not ended.done():
        ended.set_result(number)


class _OneLine(logging.Handler):
    """Trouble of the server's own in one line: no traceback reaches a person, nor all of what a stranger sent."""

    def emit(self, record: logging.LogRecord) -> None:
        trouble = record.exc_info[1] if record.exc_info else None
        said = " ".join(f"{record.getMessage()} {trouble or ''}".split())
        print(f"railskirt: {clipped(literal(said), _LONGEST)}", file=sys.stderr)
