"""Our own page: what it is made of, and the rules a browser keeps it under. Everything comes from this computer."""

from __future__ import annotations

from html import escape
from importlib.resources import files
from string import Template
from typing import Final

import textual_serve

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


def entry_page() -> str:
    """What answers the right key. It goes on to the page by itself, so that the key is left neither in the address nor
    in the history; it is a page of its own, since a browser sends no strict cookie along a redirection from elsewhere.
    """
    return _template("entry_page.html").substitute(page=PAGE)


def _template(name: str) -> Template:
    return Template(files("wizard.browser").joinpath(name).read_text(encoding="utf-8"))


def security_headers(host: str) -> dict[str, str]:
    """Headers of every answer: nothing is loaded from outside, shown inside another page, cached or passed on."""
    policy = (
        "default-src 'none'",
        "script-src 'self'",
        # The toolkit's script writes its own styles into the page.
        "style-src 'self' 'unsafe-inline'",
        "font-src 'self'",
        "img-src 'self' data:",
        f"connect-src 'self' ws://{host}",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
    return {
        "Content-Security-Policy": "; ".join(policy),
        "Cache-Control": "no-store",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Referrer-Policy": "no-referrer",
        "Server": "railskirt",
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
    }
