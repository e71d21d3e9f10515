"""What a person with the link can do with the keys of a page: never more than what is served."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

import pyte
import pytest
from aiohttp import ClientWebSocketResponse, WSMsgType

from tests.browser.sites import Client, asking
from tests.browser.started import WAIT
from tests.browser.wires import closed, saved, wire_to
from tests.commands.running import SMALL
from tests.screens.screen_texts import worded

SAVE, LIST, TEMPLATE, MORE, QUIT, NEW = "\x13", "\x0c", "\x14", "\x10", "\x11", "\x0e"
ENTER, ESCAPE, DOWN, TAB = "\r", "\x1b", "\x1b[B", "\t"
RUN = "touch $(gone) ~/gone"
"""A job's name that would be a command where it stood in a file that a shell reads."""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The server's home folder: a folder to serve with two projects, one folder beside it, and a file to attack."""
    monkeypatch.setenv("HOME", str(tmp_path))
    for folder in ("served", "other"):
        (tmp_path / folder).mkdir()
    for name, path in (("Juniper loft", "served/loft.toml"), ("Rowan room", "served/rowan.toml"),
                       ("Hazel attic", "other/hazel.toml")):  # fmt: skip
        (tmp_path / path).write_text(SMALL.replace("Juniper loft", name), encoding="utf-8")
    (tmp_path / ".bashrc").write_text("# mine\n", encoding="utf-8")
    (tmp_path / ".bashrc").chmod(0o600)
    return tmp_path


def names(folder: Path) -> set[str]:
    return {str(each.relative_to(folder)) for each in folder.rglob("*") if each.is_file()}


class Page:
    """A page's wire, with what a person sees on it."""

    def __init__(self, wire: ClientWebSocketResponse) -> None:
        self.wire, self.screen = wire, pyte.Screen(100, 30)
        self._stream = pyte.ByteStream(self.screen)
        self.ever = ""
        """All that was ever sent to be seen."""

    async def keys(self, *pressed: str) -> None:
        for each in pressed:
            await self.wire.send_json(["stdin", each])

    async def sees(self, text: str) -> None:
        """Wait until `text` stands on a line."""
        try:
            async with asyncio.timeout(WAIT):
                while not any(text in line for line in self.screen.display):
                    message = await self.wire.receive()
                    assert message.type is WSMsgType.BINARY
                    self._stream.feed(message.data)
                    self.ever += message.data.decode("utf-8", "replace")
        except TimeoutError:
            raise AssertionError(f"{text!r} never came: {self.screen.display}") from None

    async def told(self) -> list[str]:
        """The next word that is no picture."""
        async with asyncio.timeout(WAIT):
            while (message := await self.wire.receive()).type is not WSMsgType.TEXT:
                self._stream.feed(message.data)
        word: list[str] = json.loads(message.data)
        return word


async def page_of(client: Client) -> Page:
    return Page(await wire_to(client))


async def test_sheets_go_to_the_persons_own_device_whatever_is_typed(home: Path) -> None:
    loft = home / "served" / "loft.toml"
    loft.write_text(SMALL.replace("Juniper loft", RUN), encoding="utf-8")
    before = names(home)
    async with asking(loft) as client:
        page = await page_of(client)
        await page.sees("(•) inches")
        await page.keys(SAVE)
        await page.sees("Download")
        await page.keys(TAB, "~/.bashrc", DOWN, "../../.bashrc", TAB, ENTER)
        kind, key = await page.told()
        assert kind == "deliver_file_start"
        answer = await client.get(f"/download/{key}")
        assert answer.headers["Content-Disposition"] == "attachment; filename*=UTF-8''loft.html"
        assert answer.headers["Content-Type"] == "application/octet-stream"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        sheet = await answer.text()
        assert sheet.startswith("<!DOCTYPE html>")
        assert sheet.endswith("</html>\n")
        assert "touch $(gone)" in sheet
        await page.sees("loft.html")
        client.session.cookie_jar.clear()
        assert (await client.get(f"/download/{key}")).status == 403, "another person has no key"
        await page.wire.close()
    assert names(home) - before <= {"served/.loft.toml.last"}
    assert (home / ".bashrc").read_text(encoding="utf-8") == "# mine\n"


async def test_what_was_downloaded_is_gone_with_its_page(home: Path) -> None:
    async with asking(home / "served" / "loft.toml") as client:
        page = await page_of(client)
        await page.sees("(•) inches")
        await page.keys(SAVE)
        await page.sees("Download")
        await page.keys(ENTER)
        _, key = await page.told()
        assert (await client.head(f"/download/{key}")).status == 200
        await page.wire.close()
        async with asyncio.timeout(WAIT):
            while (await client.get(f"/download/{key}")).status != 404:
                await asyncio.sleep(0.05)


async def test_a_page_of_one_file_shows_no_other_and_makes_none(home: Path) -> None:
    before = names(home)
    async with asking(home / "served" / "loft.toml") as client:
        page = await page_of(client)
        await page.sees("(•) inches")
        await page.keys(LIST)
        await page.sees(worded("one project"))
        await page.keys(TEMPLATE)
        await page.sees(worded("one template"))
        await page.keys(ENTER)
        await saved(home / "served" / "loft.toml", "standard = ")
        await page.keys(QUIT)
        await page.sees("Leave?")
        await page.keys(ENTER)
        await closed(page.wire)
    assert "Rowan" not in page.ever
    assert names(home) - before == {"served/.loft.toml.last"}


async def test_a_file_that_cannot_be_read_leads_to_no_list(home: Path) -> None:
    (home / "served" / "loft.toml").write_text("format = 1\nname = 7\n", encoding="utf-8")
    async with asking(home / "served" / "loft.toml") as client:
        page = await page_of(client)
        await page.sees(f"loft.toml {worded('unreadable')}")
        await page.keys(ENTER)
        await closed(page.wire)


async def test_from_comments_left_alone_no_list_is_reached(home: Path) -> None:
    (home / "served" / "loft.toml").write_text(f"# by hand\n{SMALL}", encoding="utf-8")
    async with asking(home / "served" / "loft.toml") as client:
        page = await page_of(client)
        await page.sees(worded("comments first"))
        await page.keys(ESCAPE)
        await closed(page.wire)


async def test_in_a_folder_no_link_leads_out_and_no_name_does(home: Path) -> None:
    """A link to a project elsewhere is neither shown nor written; one that dangles does not bring a file about."""
    served, other = home / "served", home / "other"
    (served / "loft.toml").unlink()
    (served / "rowan.toml").unlink()
    (served / "hazel.toml").symlink_to(other / "hazel.toml")
    (served / "a-b.toml").symlink_to(other / "a-b.toml")
    (served / "deeper").symlink_to(other)
    hazel = (other / "hazel.toml").read_bytes()
    async with asking(served) as client:
        page = await page_of(client)
        await page.sees("hazel.toml")
        await page.keys(ENTER)
        await page.sees(f"hazel.toml {worded('unreadable')}")
        await page.keys(ENTER)
        await asyncio.sleep(0.5)
        await page.keys(NEW)
        await page.sees("A new project")
        await page.keys("../a b")
        await page.sees(" ../a b ")
        await page.keys(ENTER)
        await page.sees("The bed from above")
        await page.keys(TEMPLATE)
        await page.sees(" ../a b template ")
        await page.keys(ENTER)
        await page.sees("Kept as")
        await page.wire.close()
    assert "Hazel" not in page.ever
    assert (other / "hazel.toml").read_bytes() == hazel
    assert {each.name for each in other.iterdir()} == {"hazel.toml"}
    assert "../a b" in (served / "a-b-2.toml").read_text(encoding="utf-8")
    assert (served / "a-b-template.toml").is_file()
    assert {each for each in names(home) if "/" not in each} == {".bashrc"}
