"""A real browser without a window, spoken to over a pair of pipes: opens a page, asks it things, prints it to PDF.

Chromium as packaged by Debian, and poppler's tools to look into what it printed.
"""

from __future__ import annotations

import base64
import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

PROGRAM = next((found for found in map(shutil.which, ("chromium", "chromium-browser")) if found), None)
TOOLS = PROGRAM is not None and all(map(shutil.which, ("pdftotext", "pdftoppm", "pdfinfo")))
MUST = os.environ.get("RAILSKIRT_MUST_HAVE_BROWSER") == "1"
"""Set where a missing browser is to fail these tests rather than skip them; there they also take more cases."""

_FLAGS = (
    "--headless", "--disable-gpu", "--no-sandbox", "--no-first-run", "--disable-extensions", "--mute-audio",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--remote-debugging-pipe",
)  # fmt: skip


def need_browser(*, tools: bool = True) -> None:
    """Skips, or fails where it was promised, when there is no browser, or nothing to look into a PDF with."""
    if PROGRAM is None or (tools and not TOOLS):
        reason = "no Chromium, or no poppler-utils, on this computer"
        if MUST:
            pytest.fail(reason)
        pytest.skip(reason)


class Browser:
    """One browser with one page."""

    def __init__(self, folder: Path) -> None:
        assert PROGRAM is not None
        to_it, from_us = os.pipe()
        from_it, to_us = os.pipe()

        def hand_over() -> None:
            # The browser reads at 3 and writes at 4. High numbers first, so that neither treads on the other.
            high = (os.dup2(to_it, 100), os.dup2(to_us, 101))
            os.dup2(high[0], 3)
            os.dup2(high[1], 4)

        self._process = subprocess.Popen(
            [PROGRAM, *_FLAGS, f"--user-data-dir={folder}"],
            preexec_fn=hand_over, pass_fds=(3, 4), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, env={**os.environ, "HOME": str(folder)},
        )  # fmt: skip
        os.close(to_it)
        os.close(to_us)
        self._out, self._in = os.fdopen(from_us, "wb", 0), os.fdopen(from_it, "rb")
        self._number, self._session = 0, ""
        self._seen: set[str] = set()
        self.requests: list[str] = []
        """What the page fetched, its own file included."""
        self.complaints: list[str] = []
        """What the browser noted: errors, and what the page was not allowed."""
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.ask(f"{domain}.enable")

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait(20)
        self._out.close()
        self._in.close()

    def open(self, file: Path) -> None:
        """Open a file, and wait until it is all there."""
        self._load("Page.navigate", url=file.as_uri())

    def reload(self) -> None:
        """Open the page anew."""
        self._load("Page.reload")

    def value(self, script: str) -> Any:
        """What a script gives back."""
        answer = self.ask("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def without_scripts(self, off: bool) -> None:
        """Let the page run no scripts from the next time it is opened."""
        self.ask("Emulation.setScriptExecutionDisabled", value=off)

    @contextmanager
    def as_wide_as(self, pixels: int, media: str = "") -> Iterator[None]:
        """Show the page as wide as a phone, or with the rules for paper where `print` is said, and then on a desk."""
        size = {"width": pixels, "height": 800, "deviceScaleFactor": 1, "mobile": True}
        self.ask("Emulation.setDeviceMetricsOverride", **size)
        self.ask("Emulation.setEmulatedMedia", media=media)
        try:
            yield
        finally:
            self.ask("Emulation.setEmulatedMedia", media="")
            self.ask("Emulation.clearDeviceMetricsOverride")

    def print_to(self, target: Path) -> None:
        """Print the page on the paper that it asks for, with the page's own margins."""
        answer = self.ask("Page.printToPDF", printBackground=False, preferCSSPageSize=True)
        target.write_bytes(base64.b64decode(answer["data"]))

    def ask(self, method: str, **params: object) -> dict[str, Any]:
        """What the developer's wire answers."""
        self._number += 1
        words: dict[str, Any] = {"id": self._number, "method": method, "params": params}
        if self._session:
            words["sessionId"] = self._session
        self._out.write(json.dumps(words).encode() + b"\0")
        while True:
            answer = self._next()
            if answer.get("id") == self._number:
                assert "error" not in answer, (method, answer)
                return dict(answer["result"])

    def _load(self, method: str, **params: object) -> None:
        self._seen.discard("Page.loadEventFired")
        self.ask(method, **params)
        while "Page.loadEventFired" not in self._seen:
            self._next()

    def _next(self) -> dict[str, Any]:
        letters = bytearray()
        while (letter := self._in.read(1)) != b"\0":
            assert letter, "the browser has gone"
            letters += letter
        answer: dict[str, Any] = json.loads(letters)
        if "method" in answer:
            self._seen.add(answer["method"])
            if answer["method"] == "Network.requestWillBeSent":
                self.requests.append(answer["params"]["request"]["url"])
            if answer["method"] == "Log.entryAdded" and answer["params"]["entry"]["level"] == "error":
                self.complaints.append(answer["params"]["entry"]["text"])
        return answer


def pages_of(pdf: Path) -> list[str]:
    """The words of each page."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    return done.stdout.split("\f")[:-1]


def sizes_of(pdf: Path) -> set[tuple[int, int]]:
    """Width and height of the pages in points, rounded."""
    done = subprocess.run(["pdfinfo", "-f", "1", "-l", "999", str(pdf)], capture_output=True, text=True, check=True)
    found = re.findall(r"^Page +\d+ size: +([\d.]+) x ([\d.]+)", done.stdout, re.MULTILINE)
    return {(round(float(wide)), round(float(high))) for wide, high in found}


def longest_runs(pdf: Path, page: int, dots: int) -> set[int]:
    """Lengths in dots of the level black runs on a page at `dots` an inch, those of half an inch and more."""
    done = subprocess.run(
        ["pdftoppm", "-gray", "-r", str(dots), "-f", str(page), "-l", str(page), str(pdf)],
        capture_output=True, check=True,
    )  # fmt: skip
    kind, wide, high, greys = done.stdout.split(maxsplit=3)
    assert kind == b"P5"
    pixels = greys.split(b"\n", 1)[1]
    runs: set[int] = set()
    for row in range(int(high)):
        line = pixels[row * int(wide) : (row + 1) * int(wide)]
        dark = line.translate(bytes(1 if grey < 128 else 0 for grey in range(256)))
        runs |= {len(run) for run in dark.split(b"\0") if len(run) * 2 >= dots}
    return runs
