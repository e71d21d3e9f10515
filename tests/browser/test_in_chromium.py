"""The whole way in a real browser: the page loads, an answer is in the file, nothing is asked for elsewhere."""

from __future__ import annotations

import base64
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager, closing
from pathlib import Path
from typing import Any
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import urlopen

import pytest

from tests.browser.sites import WAIT, saved, served
from tests.commands.running import SMALL
from tests.render.browser import Browser, need_browser
from tests.screens.screen_texts import worded

pytestmark = pytest.mark.long

SCREEN = {"width": 1100, "height": 760, "deviceScaleFactor": 1, "mobile": False}
TABLET = {"width": 820, "height": 1180, "deviceScaleFactor": 1, "mobile": True}


class Page(Browser):
    """The browser's page, with hands to press its keys, and all that the wizard sent to be drawn."""

    def __init__(self, folder: Path, size: dict[str, Any]) -> None:
        self.drawn = ""
        need_browser(tools=False)
        super().__init__(folder)
        self.ask("Emulation.setDeviceMetricsOverride", **size)
        self.ask("Emulation.setTouchEmulationEnabled", enabled=size["mobile"])

    def _next(self) -> dict[str, Any]:
        heard = super()._next()
        method, said = heard.get("method"), heard.get("params", {})
        if method == "Network.webSocketCreated":
            self.requests.append(said["url"])
        elif method == "Network.webSocketFrameReceived" and said["response"]["opcode"] == 2:
            self.drawn += base64.b64decode(said["response"]["payloadData"]).decode("utf-8", "replace")
        elif method == "Runtime.exceptionThrown":
            self.complaints.append(str(said))
        return heard

    def until(self, met: Callable[[], object] | str) -> None:
        """Wait until it is met: a call gives something true, a script does, or that text was drawn."""
        end = time.monotonic() + WAIT
        while True:
            try:
                self.value("0")  # Takes in what came meanwhile.
                if met() if callable(met) else met in self.drawn:
                    return
            except AssertionError as exchanged:
                if "navigated" not in str(exchanged):
                    raise
            assert time.monotonic() < end, f"never came: {met}; {self.complaints}; {self.drawn[-3000:]!r}"
            time.sleep(0.05)

    def until_value(self, script: str) -> None:
        """Wait until a script gives something true."""
        self.until(lambda: self.value(script))

    def go(self, link: str) -> None:
        """Go to `link` and wait until the wizard is drawn on the page."""
        self.ask("Page.navigate", url=link)
        self.until_value("document.body?.classList.contains('-first-byte')")
        self.until_value("document.activeElement.className === 'xterm-helper-textarea'")

    def press(self, key: str, code: int = 0, ctrl: bool = False) -> None:
        """Press a key: a letter, or one that has a name and a number."""
        named = {"code": key, "windowsVirtualKeyCode": code} if code else {}
        text = {"text": "\r" if key == "Enter" else key} if (key == "Enter" or not code) and not ctrl else {}
        kind = "rawKeyDown" if ctrl else "keyDown"
        self.ask("Input.dispatchKeyEvent", type=kind, key=key, modifiers=2 if ctrl else 0, **named, **text)
        self.ask("Input.dispatchKeyEvent", type="keyUp", key=key, **named)

    def touch(self, what: str) -> None:
        """Put a finger on the middle of the first thing that the selector `what` finds, and lift it."""
        box = self.value(
            f"(b => [b.x + b.width / 2, b.y + b.height / 2])(document.querySelector('{what}').getBoundingClientRect())"
        )
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": box[0], "y": box[1]}])
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    def picture(self) -> bytes:
        """What is seen."""
        return base64.b64decode(self.ask("Page.captureScreenshot", format="png")["data"])


DOWN, ENTER, ESCAPE = ("ArrowDown", 40), ("Enter", 13), ("Escape", 27)


@pytest.fixture
def loft(tmp_path: Path) -> Path:
    folder = tmp_path / "it's here; $(touch gone)"
    folder.mkdir()
    path = folder / 'loft "two" & <b>.toml'
    path.write_text(SMALL, encoding="utf-8")
    return path


@asynccontextmanager
async def at_first_question(loft: Path, folder: Path, size: dict[str, Any]) -> AsyncIterator[tuple[Page, str]]:
    """The page of `loft` in a browser with these settings, and its link."""
    async with served(loft.name, folder=loft.parent) as (_, link):
        with closing(Page(folder / "browser", size)) as page:
            page.go(link)
            page.until(worded("system"))
            yield page, link


async def test_questions_are_answered_by_keys_until_the_end_is_said_and_it_goes_on_there(
    loft: Path, tmp_path: Path
) -> None:
    async with at_first_question(loft, tmp_path, SCREEN) as (page, link):
        bare, own = link.partition("?")[0], urlsplit(link)
        assert page.value("location.href") == bare, "the key is left neither in the address nor in the history"
        assert [each["url"] for each in page.ask("Page.getNavigationHistory")["entries"]] == ["about:blank", bare]
        assert page.value("document.cookie") == "", "no script sees the session"
        page.drawn = ""
        page.ask("Page.reload")
        page.until(worded("system"))
        with pytest.raises(HTTPError, match="403") as refused:
            urlopen(link)
        refused.value.close()
        assert page.value("document.title") == 'loft "two" & <b>.toml · railskirt'
        first = page.picture()
        page.press(*DOWN)
        page.press(*ENTER)
        await saved(loft, 'standard = "metric"')
        page.press(*ESCAPE)
        page.until(worded("name"))
        for each in " [b]two[/b] $(x) ½":
            page.press(each)
        page.press(*ENTER)
        await saved(loft, 'name = "Juniper loft [b]two[/b] $(x) ½"')
        shot = page.picture()
        assert len(shot) > 20_000, "letters are drawn, not one flat ground"
        assert shot != first
        assert page.value("document.fonts.check('16px \"Roboto Mono\"')")
        assert page.value("document.documentElement.scrollWidth <= window.innerWidth")
        assert page.complaints == []
        assert {urlsplit(each).netloc for each in page.requests if not each.startswith("data:")} == {own.netloc}
        assert own.hostname == "127.0.0.1"
        assert len(page.requests) >= 6

        page.press(*ENTER)
        page.until(worded("sides"))
        page.press("q", ord("Q"), ctrl=True)
        page.until("Leave?")
        page.press(*ENTER)
        page.until_value("getComputedStyle(document.querySelector('#ended')).display !== 'none'")
        page.drawn = ""
        page.value("document.querySelector('[data-again]').click()")
        page.until(worded("sides"))
    assert [each.name for each in loft.parent.iterdir() if "gone" in each.name] == []


async def test_the_keys_for_fingers_do_what_the_keys_do(loft: Path, tmp_path: Path) -> None:
    async with at_first_question(loft, tmp_path, TABLET) as (page, _):
        bottom = page.value("document.querySelector('.xterm-screen').getBoundingClientRect().bottom")
        assert bottom <= page.value("document.querySelector('#keys').getBoundingClientRect().top")
        for name in ("ArrowDown", "Enter"):
            page.touch(f"[data-press={name}]")
        await saved(loft, 'standard = "metric"')
        page.touch("#keys a[aria-label^=Larger]")
        page.until_value("document.querySelector('#terminal')?.dataset.fontSize === '18'")


async def test_sheets_are_saved_on_the_device_of_the_browser(loft: Path, tmp_path: Path) -> None:
    async with at_first_question(loft, tmp_path, SCREEN) as (page, _):
        page.ask("Browser.setDownloadBehavior", behavior="allow", downloadPath=str(tmp_path / "device"))
        page.press("s", ord("S"), ctrl=True)
        page.until("Download")
        page.press(*ENTER)
        # As Chromium writes a name with quotes, which some systems do not take.
        sheet = tmp_path / "device" / "loft _two_ & _b_.html"
        await saved(sheet, "</html>")
        assert "Juniper loft" in sheet.read_text(encoding="utf-8")
        page.until("Downloaded")
        assert page.complaints == []
    assert {each.suffix for each in loft.parent.iterdir()} <= {".toml", ".last"}


async def test_a_page_from_elsewhere_can_neither_show_nor_reach_the_wizard(loft: Path, tmp_path: Path) -> None:
    async with served(loft.name, folder=loft.parent) as (_, other), at_first_question(loft, tmp_path, SCREEN) as here:
        page, link = here
        # A page of another port is one from elsewhere; its own rules are lifted, so that only ours are in the way.
        page.ask("Page.setBypassCSP", enabled=True)
        page.go(other)
        page.ask("Page.navigate", url=f"{other.partition('?')[0]}own/page.css")
        page.until_value("document.readyState === 'complete' && location.href.endsWith('page.css')")
        wire = f"ws://{urlsplit(link).netloc}/ws"
        met = f"""new Promise(done => {{
            const wire = new WebSocket({wire!r});
            wire.onopen = () => done("open");
            wire.onerror = () => done("refused");
        }})"""
        read = f"fetch({link.partition('?')[0]!r}).then(() => 'read', () => 'refused')"
        assert [page.value(script) for script in (met, read)] == ["refused", "refused"]
