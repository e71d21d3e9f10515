"""`railskirt serve`: loads the browser extra only when it is asked for."""

from __future__ import annotations

import asyncio
from pathlib import Path

from wizard.browser import NotServed


def serve(path: Path, address: str | None, port: int, *, mouse: bool) -> int:
    """Show `path`, a project or a folder of them, in browsers until a signal comes; gives the signal's number.

    With no `address` only this computer reaches it. The link that is printed has a key that works once.
    Port 0 takes any free one. Without `mouse` it is left to the browser. Raises NotServed.
    """
    try:
        from wizard.browser.server import run
    except ModuleNotFoundError as missing:
        # All that the extra brings.
        if (missing.name or "").partition(".")[0] not in ("textual_serve", "aiohttp", "aiohttp_jinja2", "jinja2"):
            raise
        way_out = "To add it, run this in railskirt's own folder: pip install '.[browser]'"
        raise NotServed(f"the wizard needs an extra for browsers, and it is not installed.\n{way_out}") from None
    return asyncio.run(run(path, address, port, mouse=mouse))
