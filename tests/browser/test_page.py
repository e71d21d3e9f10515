"""The page: all of it from this computer, every name shown literally, no word in its address heeded but one."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.browser.sites import asking
from wizard.browser import guard

POINTING = ("href", "src", "action", "data-session-websocket-url")


class Parts(HTMLParser):
    """Collects what a page points at, and what it says."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.pointed, self.tags, self.title = list[str](), list[str](), ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.pointed += [value or "" for name, value in attrs if name in POINTING]

    def handle_data(self, data: str) -> None:
        self.title += data if self.tags[-1:] == ["title"] else ""


async def test_everything_that_the_page_points_at_is_on_this_computer_and_there(tmp_path: Path) -> None:
    async with asking(tmp_path) as client:
        found = Parts(await (await client.get("/")).text())
        wire = f"ws://127.0.0.1:{client.port}/ws"
        assert wire in found.pointed
        local = [each for each in found.pointed if each not in (wire, "data:,")]
        assert len(local) >= 6
        for each in local:
            assert re.match("/[^/]", each)
            assert (await client.get(each)).status == 200, each


@pytest.mark.parametrize("name", ["page.css", "page.js", "terminal.css", "terminal.js"])
def test_no_part_of_the_page_fetches_from_elsewhere(name: str) -> None:
    text = re.sub(r"/\*.*?\*/", "", guard.asset(name)[0].decode(), flags=re.DOTALL)
    assert re.findall(r"""["'`(](?:https?:|wss?:)?//[a-z0-9-]+\.""", text) == []
    if name.endswith(".css"):
        assert "@import" not in text
        assert set(re.findall(r"url\(([^)]*)\)", text)) <= {'"/own/letters.ttf"', '"/own/slanted.ttf"'}


@pytest.mark.parametrize("title", ["<script>alert(1)</script>", '"><img src=x>', "$wire ${letters} $$", "a & b"])
def test_a_name_is_shown_literally(title: str) -> None:
    found = Parts(guard.index(title, "127.0.0.1:8127", 16))
    assert found.title.strip() == f"{title} · railskirt"
    assert found.tags.count("script") == 2
    assert "img" not in found.tags


async def test_the_letters_may_be_larger_and_any_other_word_in_the_address_is_dropped(tmp_path: Path) -> None:
    async with asking(tmp_path) as client:
        for query, size in (("", 16), ("?letters=24", 24), ("?letters=48", 48), ("?letters=999", 48)):
            answer = await client.get(f"/{query}", allow_redirects=False)
            assert answer.status == 200
            assert f'data-font-size="{size}"' in await answer.text()
        for query in (
            "ping=http://attacker.invalid", "delay=1", "letters=16&ping=x", "letters=x", "letters=", "letters=-9",
            "letters=٣٣",
        ):  # fmt: skip
            answer = await client.get(f"/?{query}", allow_redirects=False)
            assert (answer.status, answer.headers["Location"]) == (303, "/"), query
