"""Who is let in: the holder of the key in the link, asking this computer for its own page.

Every request is looked at before anything answers it. A page from elsewhere can make a browser send requests to this
computer, or give its own name this computer's address. Such requests carry a foreign Origin or Host, which a page
cannot change.

The page itself is ours too: what it is made of, and the rules a browser keeps it under, are here. Everything comes from
this computer."""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable
from functools import cache
from html import escape
from importlib.resources import files
from ipaddress import ip_address
from string import Template
from typing import Final

import textual_serve
from aiohttp import web

_LETTERS: Final = "abcdefghjkmnpqrstuvwxyz23456789"
"""What a key is made of: no letter that is taken for another one, since a person may have to type it on a tablet."""


class OneTimeKey:
    """One key and the one session that it opens."""

    def __init__(self) -> None:
        # Twenty letters of 31, or 99 bits: no number of guesses gets near it.
        self.text: Final = "-".join("".join(secrets.choice(_LETTERS) for _ in range(4)) for _ in range(5))
        """As written in the link: `k7mw-3xqa-9hvt-2pzc-d6rf`."""
        self._session: Final = secrets.token_urlsafe(32)
        self._spent = False

    def spend(self, typed: str) -> str | None:
        """The session's secret when `typed` is the key and nobody used it before, else None.

        Capital letters and missing hyphens are forgiven. Takes as long for a wrong key as for a right one.
        """
        right = secrets.compare_digest(_bare(typed), _bare(self.text))
        if not right or self._spent:
            return None
        self._spent = True
        return self._session

    def opened(self, secret: str) -> bool:
        """True when the key was used and `secret` is its session's. A wrong one takes as long as a right one."""
        return secrets.compare_digest(secret.encode("utf-8", "replace"), self._session.encode()) and self._spent


def _bare(key: str) -> bytes:
    return key.replace("-", "").strip().lower().encode("utf-8", "replace")


KEY: Final = "key"
"""What the one-time key is called in the link."""

Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


class Guard:
    """Answers requests that this computer's own page makes of it, and only for the holder of the key."""

    def __init__(self, address: str, key: OneTimeKey) -> None:
        """`address` is what the server listens on, as the maker typed it."""
        self._address, self._key = address.lower(), key

    @web.middleware
    async def check(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Answer with 403, with the way in for the right key, or as `handler` does."""
        asked = request.headers.getall("Host", [])
        if len(asked) != 1 or asked[0].lower() not in hosts(self._address, *_here(request)):
            return _refused("Open this page at the address that railskirt printed.")
        if not _from_our_page(request):
            return _refused("Another page asked for this one. Open the link that railskirt printed.")
        if self._key.opened(request.cookies.get(cookie_of(request), "")):
            return await handler(request)
        return self._enter(request)

    def _enter(self, request: web.Request) -> web.StreamResponse:
        # HEAD only asks what would come: it must not use up the key.
        first = request.method == "GET" and request.path == PAGE
        session = self._key.spend(request.query.get(KEY, "")) if first else None
        if session is None:
            return _refused("This link was used already, or is cut short. Start railskirt serve again for a new one.")
        # It goes on to the page by itself, so that the key is left neither in the address nor in the history; it is a
        # page of its own, since a browser sends no strict cookie along a redirection from elsewhere.
        response = web.Response(text=_template("entry_page.html").substitute(page=PAGE), content_type="text/html")
        response.set_cookie(cookie_of(request), session, path="/", httponly=True, samesite="Strict")
        return response


def hosts(address: str, ip: str, port: int) -> set[str]:
    """What the Host of a request may be: the address as typed, the one the request came in on, and, where that is this
    computer's own, `localhost`; each with its port, of which browsers leave out 80."""
    names = {bracketed(address), bracketed(ip)} | ({"localhost"} if ip_address(ip).is_loopback else set())
    return {f"{name}:{port}" for name in names} | (names if port == 80 else set())


def cookie_of(request: web.Request) -> str:
    """The name of the session's cookie. Cookies are shared by all ports of a computer, so the port is in the name."""
    return f"railskirt-{_here(request)[1]}"


def _here(request: web.Request) -> tuple[str, int]:
    """The address and port at our end of the request's connection; nothing in the request itself can change them."""
    transport = request.transport
    ip, port = (transport.get_extra_info("sockname") if transport else ("0.0.0.0", 0))[:2]
    return ip, port


def _from_our_page(request: web.Request) -> bool:
    """True when the Origin is our own. It may be missing, as for a typed address, but not where the keys go through."""
    origins = request.headers.getall("Origin", [])
    if not origins:
        return request.path != WIRE and "Upgrade" not in request.headers
    return origins == [f"http://{request.headers['Host']}"]


def bracketed(address: str) -> str:
    """An address as a link has it."""
    return f"[{address}]" if ":" in address else address


def _refused(sentence: str) -> web.Response:
    return web.Response(status=403, text=f"{sentence}\n")


PAGE: Final = "/"
"""Where the page is."""
WIRE: Final = "/ws"
"""Where keys and pictures go through."""

LETTERS: Final = "letters"
"""What the size of the letters is called in the address of the page."""
USUAL_LETTERS: Final = 16
"""Height of the letters in pixels when nothing else is asked for."""
SMALLEST, LARGEST = 8, 48
"""Least and greatest height of the letters in pixels."""

ASSETS: Final[dict[str, tuple[str, str, str]]] = {
    "page.css": ("wizard.browser", "page.css", "text/css"),
    "page.js": ("wizard.browser", "page.js", "text/javascript"),
    "terminal.css": (textual_serve.__name__, "static/css/xterm.css", "text/css"),
    "terminal.js": (textual_serve.__name__, "static/js/textual.js", "text/javascript"),
    "letters.ttf": (textual_serve.__name__, "static/fonts/RobotoMono-VariableFont_wght.ttf", "font/ttf"),
    "slanted.ttf": (textual_serve.__name__, "static/fonts/RobotoMono-Italic-VariableFont_wght.ttf", "font/ttf"),
}
"""Name in the address -> package, file in it, kind. Only these are given out."""


def asset(name: str) -> tuple[bytes, str]:
    """What the asset `name` holds and its kind; KeyError for none such."""
    package, path, kind = ASSETS[name]
    return files(package).joinpath(path).read_bytes(), kind


def index(title: str, host: str, letters: int) -> str:
    """The page. `title` is shown literally, `host` is the checked name and port that the page was asked for by."""
    return _template("page.html").substitute(
        title=escape(title),
        wire=escape(f"ws://{host}{WIRE}"),
        letters=letters,
        smaller=max(SMALLEST, letters - 2),
        larger=min(LARGEST, letters + 2),
    )


@cache
def _template(name: str) -> Template:
    return Template(files("wizard.browser").joinpath(name).read_text(encoding="utf-8"))


def security_headers(host: str) -> dict[str, str]:
    """Headers of every answer, as `page_headers.txt` has them. `host` is what the page may open its wire to."""
    lines = _template("page_headers.txt").substitute(host=host).splitlines()
    return dict(line.split(": ", 1) for line in lines if line[0] != "#")
