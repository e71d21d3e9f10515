"""A browser without a window, driven through its own developer's wire."""

from __future__ import annotations

import asyncio
import base64
import json
import os
import shutil
from asyncio.subprocess import DEVNULL
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import aiohttp
import pytest

from tests.browser.sites import WAIT

MUST = "RAILSKIRT_MUST_HAVE_BROWSER"
"""Set to 1 where a missing browser is to fail the tests rather than skip them."""
FOUND = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-component-update",
    "--disable-background-networking", "--disable-sync", "--remote-debugging-port=0", "--window-size=1100,760",
)  # fmt: skip


def need_browser() -> str:
    """The browser's path; skips, or fails where it was promised, when there is none."""
    if FOUND is None:
        reason = "no Chromium on this computer"
        if os.environ.get(MUST) == "1":
            pytest.fail(reason)
        pytest.skip(reason)
    return FOUND


class PageExchangedError(Exception):
    """The page went away for another one while it was asked."""


class Tab:
    """One page of the browser: what it asked for, what it was told, and hands to press its keys."""

    def __init__(self, wire: aiohttp.ClientWebSocketResponse) -> None:
        self._wire, self._number = wire, 0
        self._answers: dict[int, asyncio.Future[dict[str, Any]]] = {}
        self.asked_for: list[str] = []
        """Every address that was asked for, by whatever the page holds."""
        self.drawn = ""
        """All that the wizard sent to be drawn."""
        self.complaints: list[str] = []
        """What the browser noted: errors, and what the page was not allowed."""

    async def listen(self) -> None:
        async for message in self._wire:
            said = json.loads(message.data)
            if "id" in said:
                self._answers.pop(said["id"]).set_result(said)
            else:
                self._note(said["method"], said["params"])

    def _note(self, method: str, said: dict[str, Any]) -> None:
        match method:
            case "Network.requestWillBeSent":
                self.asked_for.append(said["request"]["url"])
            case "Network.webSocketCreated":
                self.asked_for.append(said["url"])
            case "Network.webSocketFrameReceived" if said["response"]["opcode"] == 2:
                self.drawn += base64.b64decode(said["response"]["payloadData"]).decode("utf-8", "replace")
            case "Log.entryAdded" if said["entry"]["level"] == "error":
                self.complaints.append(said["entry"]["text"])
            case "Runtime.exceptionThrown":
                self.complaints.append(json.dumps(said["exceptionDetails"]))

    async def tell(self, method: str, **params: object) -> dict[str, Any]:
        self._number += 1
        answer = self._answers[self._number] = asyncio.get_running_loop().create_future()
        await self._wire.send_json({"id": self._number, "method": method, "params": params})
        said = await asyncio.wait_for(answer, WAIT)
        if "navigated" in said.get("error", {}).get("message", ""):
            raise PageExchangedError
        assert "error" not in said, said
        result: dict[str, Any] = said["result"]
        return result

    async def value(self, script: str) -> Any:
        return (await self.tell("Runtime.evaluate", expression=script, returnByValue=True))["result"].get("value")

    async def until(self, met: Callable[[], object], what: str) -> None:
        """Wait until `met` gives something true."""
        try:
            async with asyncio.timeout(WAIT):
                while not met():
                    await asyncio.sleep(0.05)
        except TimeoutError:
            raise AssertionError(
                f"never came: {what}; complaints: {self.complaints}; drawn: {self.drawn[-3000:]!r}"
            ) from None

    async def _value_if_still(self, script: str) -> Any:
        """The value, or None when the page was just being exchanged for another: to be asked again."""
        try:
            return await self.value(script)
        except PageExchangedError:
            return None

    async def until_value(self, script: str) -> None:
        async with asyncio.timeout(WAIT):
            while not await self._value_if_still(script):
                await asyncio.sleep(0.05)

    async def type(self, text: str) -> None:
        """Press the key of each letter."""
        for each in text:
            await self._press(key=each, text=each)

    async def press(self, key: str, code: int) -> None:
        """Press a key that has a name and a number."""
        text = {"text": "\r"} if key == "Enter" else {}
        await self._press(key=key, code=key, windowsVirtualKeyCode=code, **text)

    async def _press(self, **key: object) -> None:
        await self.tell("Input.dispatchKeyEvent", type="keyDown", **key)
        await self.tell(
            "Input.dispatchKeyEvent", type="keyUp", **{name: it for name, it in key.items() if name != "text"}
        )

    async def picture(self, path: Path) -> bytes:
        """What is seen, written to `path` as well."""
        shot = base64.b64decode((await self.tell("Page.captureScreenshot", format="png"))["data"])
        path.write_bytes(shot)
        return shot


@asynccontextmanager
async def tab(folder: Path) -> AsyncIterator[Tab]:
    """A page of a new browser that has never been anywhere; both are gone at last."""
    profile = folder / "browser"
    process = await asyncio.create_subprocess_exec(
        need_browser(), *FLAGS, f"--user-data-dir={profile}", "about:blank",
        stdin=DEVNULL, stdout=DEVNULL, stderr=DEVNULL,
    )  # fmt: skip
    try:
        async with aiohttp.ClientSession() as client:
            port = await _port(profile / "DevToolsActivePort")
            async with client.get(f"http://127.0.0.1:{port}/json/list") as answer:
                pages = [each for each in await answer.json() if each["type"] == "page"]
            async with client.ws_connect(pages[0]["webSocketDebuggerUrl"], max_msg_size=0) as wire:
                made = Tab(wire)
                ears = asyncio.create_task(made.listen())
                for each in ("Network", "Page", "Runtime", "Log"):
                    await made.tell(f"{each}.enable")
                yield made
            await ears
    finally:
        process.terminate()
        await asyncio.wait_for(process.wait(), WAIT)


async def _port(written: Path) -> str:
    async with asyncio.timeout(WAIT):
        while not (written.exists() and written.read_text().count("\n")):
            await asyncio.sleep(0.05)
    return written.read_text().splitlines()[0]
