"""The whole way in a real browser: the page loads, an answer is in the file, nothing is asked for elsewhere."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from urllib.parse import urlsplit

import aiohttp
import pytest

from tests.browser.browsers import Tab, tab
from tests.browser.sites import saved, served
from tests.commands.running import SMALL
from tests.screens.screen_texts import worded

pytestmark = pytest.mark.long

DOWN, ENTER, ESCAPE = ("ArrowDown", 40), ("Enter", 13), ("Escape", 27)


@pytest.fixture
def loft(tmp_path: Path) -> Path:
    folder = tmp_path / "it's here; $(touch gone)"
    folder.mkdir()
    path = folder / 'loft "two" & <b>.toml'
    path.write_text(SMALL, encoding="utf-8")
    return path


async def opened(page: Tab, link: str) -> None:
    """Go to `link` and wait until the wizard is drawn on the page."""
    await page.tell("Page.navigate", url=link)
    await page.until_value("document.body?.classList.contains('-first-byte')")
    await page.until_value("document.activeElement.className === 'xterm-helper-textarea'")


@asynccontextmanager
async def at_first_question(loft: Path, folder: Path, **settings: dict[str, object]) -> AsyncIterator[tuple[Tab, str]]:
    """The page of `loft` in a browser with these settings, and its link."""
    async with served(loft.name, folder=loft.parent) as (_, link), tab(folder) as page:
        for method, given in settings.items():
            await page.tell(method, **given)
        await opened(page, link)
        await page.until(lambda: worded("system") in page.drawn, "the first question")
        yield page, link


async def press_with_ctrl(page: Tab, letter: str) -> None:
    await page.tell(
        "Input.dispatchKeyEvent",
        type="rawKeyDown", key=letter, code=f"Key{letter.upper()}",
        windowsVirtualKeyCode=ord(letter.upper()), modifiers=2,
    )  # fmt: skip


async def test_questions_are_answered_by_keys_until_the_end_is_said_and_it_goes_on_there(
    loft: Path, tmp_path: Path
) -> None:
    async with at_first_question(loft, tmp_path) as (page, link):
        bare = link.partition("?")[0]
        assert await page.value("location.href") == bare, "the key is left neither in the address nor in the history"
        entries = (await page.tell("Page.getNavigationHistory"))["entries"]
        assert [each["url"] for each in entries] == ["about:blank", bare]
        assert await page.value("document.cookie") == "", "no script sees the session"
        page.drawn = ""
        await page.tell("Page.reload")
        await page.until(lambda: worded("system") in page.drawn, "the page again, by its session")
        async with aiohttp.ClientSession() as other, other.get(link) as answer:
            assert answer.status == 403
        assert await page.value("document.title") == 'loft "two" & <b>.toml · railskirt'
        first = await page.picture(tmp_path / "first.png")
        await page.press(*DOWN)
        await page.press(*ENTER)
        await saved(loft, 'standard = "metric"')
        await page.press(*ESCAPE)
        await page.until(lambda: worded("name") in page.drawn, "the question for the name")
        await page.type(" [b]two[/b] $(x) ½")
        await page.press(*ENTER)
        await saved(loft, 'name = "Juniper loft [b]two[/b] $(x) ½"')
        shot = await page.picture(tmp_path / "answered.png")
        assert len(shot) > 20_000, "letters are drawn, not one flat ground"
        assert shot != first
        assert await page.value("document.fonts.check('16px \"Roboto Mono\"')")
        assert await page.value("document.documentElement.scrollWidth <= window.innerWidth")
        assert page.complaints == []
        own = urlsplit(link)
        assert {urlsplit(each).netloc for each in page.asked_for if not each.startswith("data:")} == {own.netloc}
        assert own.hostname == "127.0.0.1"
        assert len(page.asked_for) >= 6

        await page.press(*ENTER)
        await page.until(lambda: worded("sides") in page.drawn, "the next question")
        await press_with_ctrl(page, "q")
        await page.until(lambda: "Leave?" in page.drawn, "the question before leaving")
        await page.press(*ENTER)
        await page.until_value("getComputedStyle(document.querySelector('#ended')).display !== 'none'")
        await page.picture(tmp_path / "ended.png")
        page.drawn = ""
        await page.value("document.querySelector('[data-again]').click()")
        await page.until(lambda: worded("sides") in page.drawn, "the place it was left at")
    assert [each.name for each in loft.parent.iterdir() if "gone" in each.name] == []


TABLET: dict[str, dict[str, object]] = {
    "Emulation.setTouchEmulationEnabled": {"enabled": True},
    "Emulation.setDeviceMetricsOverride": {"width": 820, "height": 1180, "deviceScaleFactor": 1, "mobile": True},
}


async def test_the_keys_for_fingers_do_what_the_keys_do(loft: Path, tmp_path: Path) -> None:
    async with at_first_question(loft, tmp_path, **TABLET) as (page, _):
        bottom = await page.value("document.querySelector('.xterm-screen').getBoundingClientRect().bottom")
        assert bottom <= await page.value("document.querySelector('#keys').getBoundingClientRect().top")
        for name in ("ArrowDown", "Enter"):
            await touch(page, f"[data-press={name}]")
        await saved(loft, 'standard = "metric"')
        await page.picture(tmp_path / "tablet.png")
        await touch(page, "#keys a[aria-label^=Larger]")
        await page.until_value("document.querySelector('#terminal')?.dataset.fontSize === '18'")


async def touch(page: Tab, what: str) -> None:
    """Put a finger on the middle of the first thing that the selector `what` finds, and lift it."""
    box = await page.value(
        f"(b => [b.x + b.width / 2, b.y + b.height / 2])(document.querySelector('{what}').getBoundingClientRect())"
    )
    await page.tell("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": box[0], "y": box[1]}])
    await page.tell("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])


async def test_sheets_are_saved_on_the_device_of_the_browser(loft: Path, tmp_path: Path) -> None:
    device = tmp_path / "device"
    download: dict[str, object] = {"behavior": "allow", "downloadPath": str(device)}
    async with at_first_question(loft, tmp_path, **{"Browser.setDownloadBehavior": download}) as (page, _):
        await press_with_ctrl(page, "s")
        await page.until(lambda: "Download" in page.drawn, "the choice of sheets")
        await page.press(*ENTER)
        # As Chromium writes a name with quotes, which some systems do not take.
        sheet = device / "loft _two_ & _b_.html"
        await saved(sheet, "</html>")
        assert "Juniper loft" in sheet.read_text(encoding="utf-8")
        await page.until(lambda: "Downloaded" in page.drawn, "what became of it")
        await page.picture(tmp_path / "downloaded.png")
        assert page.complaints == []
    assert {each.suffix for each in loft.parent.iterdir()} <= {".toml", ".last"}


async def test_a_page_from_elsewhere_can_neither_show_nor_reach_the_wizard(loft: Path, tmp_path: Path) -> None:
    here, there = (served(loft.name, folder=loft.parent) for _ in range(2))
    async with here as (_, link), there as (_, other), tab(tmp_path) as page:
        # A page of another port is one from elsewhere; its own rules are lifted, so that only ours are in the way.
        await page.tell("Page.setBypassCSP", enabled=True)
        for each in (link, other):
            await opened(page, each)
        await page.tell("Page.navigate", url=f"{other.partition('?')[0]}own/page.css")
        await page.until_value("document.readyState === 'complete' && location.href.endsWith('page.css')")
        wire = f"ws://{urlsplit(link).netloc}/ws"
        met = f"""new Promise(done => {{
            const wire = new WebSocket({wire!r});
            wire.onopen = () => done("open");
            wire.onerror = () => done("refused");
        }})"""
        read = f"fetch({link.partition('?')[0]!r}).then(() => 'read', () => 'refused')"
        for script in (met, read):
            said = await page.tell("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
            assert said["result"]["value"] == "refused"
