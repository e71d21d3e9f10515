"""The wire between a page and the wizard: a process a page, no shell between, fed literally, ended for certain."""

from __future__ import annotations

import asyncio
import os
import sys
from pathlib import Path

import pytest
from aiohttp import WSMsgType, WSServerHandshakeError, web

from tests.browser.sites import DOWN, ENTER, WAIT, asking, gone, page_of, places, saved
from tests.commands.running import SMALL
from tests.screens.screen_texts import worded
from wizard.browser import server
from wizard.browser.page_process import DRIVER, argv_for, environment_for

NAMES = [
    "a b.toml", 'it\'s "so".toml', "x; touch gone.toml", "$(touch gone).toml", "`touch gone`.toml", "--help.toml",
    "a&b|c>d.toml", "new",
]  # fmt: skip
WAITING = [sys.executable, "-c", "import sys; sys.stdin.buffer.read(1)"]
"""A program in place of the wizard that does nothing until it is told something."""


@pytest.fixture
def loft(tmp_path: Path) -> Path:
    path = tmp_path / "loft.toml"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", NAMES)
async def test_no_name_is_ever_read_as_a_command(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path(name).write_text(SMALL, encoding="utf-8")
    async with asking(Path(name)) as client:
        page = await page_of(client)
        await page.sees("Juniper loft")
    assert [each.name for each in tmp_path.iterdir()] == [name]


def test_the_process_is_told_of_the_page_in_words_of_the_command_and_not_of_the_servers_terminal() -> None:
    argv = argv_for(Path("-x; y.toml"))
    assert argv == [sys.executable, "-P", "-m", "wizard", "--", str(Path.cwd() / "-x; y.toml")]
    given = {"TERM": "dumb", "ACCESSIBLE": "1", "COLORFGBG": "0;15", "NO_COLOR": "1", "PYTHONPATH": "elsewhere"}
    told = environment_for(given, 90, 40)
    wanted = {"TERM": "xterm-256color", "TEXTUAL_DRIVER": DRIVER, "COLUMNS": "90", "ROWS": "40"}
    assert {name: told.get(name) for name in wanted} == wanted
    assert not {"ACCESSIBLE", "COLORFGBG"} & set(told)
    assert told["NO_COLOR"] == "1", "a wish for no colour holds on a page too"
    assert told["PYTHONPATH"].split(os.pathsep) == [str(Path(__file__).parents[2]), "elsewhere"]


async def test_a_folder_is_shown_as_a_list(loft: Path) -> None:
    async with asking(loft.parent) as client:
        page = await page_of(client)
        await page.sees("Juniper loft")
    assert "Bed skirts" in page.ever


async def test_an_answer_typed_on_the_page_is_in_the_file_and_no_file_is_taken_for_a_part_of_python(
    loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(loft.parent)
    for name in ("wizard.py", "argparse.py"):
        Path(name).write_text("open('gone', 'w')\n", encoding="utf-8")
    async with asking(loft) as client:
        page = await page_of(client)
        await page.sees(worded("usual in inches"))
        await page.keys(DOWN)
        await page.sees(worded("usual in metric"))
        await page.keys(ENTER)
        await saved(loft, 'standard = "metric"')
    assert not Path("gone").exists()


async def test_nonsense_on_the_wire_is_passed_over(loft: Path) -> None:
    nonsense = [
        "", "[", "null", "{}", "[]", '["stdin"]', '["stdin", 7]', '["resize"]', '["resize", {"width": "a"}]',
        '["quit"]', '["resize", {"width": -5, "height": 0}]', '["resize", {"width": 1e99, "height": 1}]',
        '["ping", 1]', "[" * 9000, '["stdin", "\\ud800"]',
    ]  # fmt: skip
    async with asking(loft) as client:
        page = await page_of(client)
        await page.sees("Juniper loft")
        for each in nonsense:
            await page.wire.send_str(each)
        await page.wire.send_bytes(b"\xff\x00")
        await page.wire.send_json(["resize", {"width": 100, "height": 30}])
        await page.wire.send_json(["ping", "7"])
        assert await page.told() == ["pong", "7"]
        await page.keys(ENTER)
        await saved(loft, "standard = ")


@pytest.mark.parametrize(
    "query", ["", "?width=x&height=y", "?width=-1&height=99999999999", "?width=999999999&height=1"]
)
async def test_an_odd_size_opens_all_the_same(query: str, loft: Path) -> None:
    async with asking(loft) as client:
        page = await page_of(client, query)
        assert (await asyncio.wait_for(page.wire.receive(), WAIT)).type is WSMsgType.BINARY


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="the system does not list processes here")
async def test_a_page_that_goes_away_ends_its_process_and_keeps_the_place(loft: Path) -> None:
    before = places()
    async with asking(loft) as client:
        page = await page_of(client)
        await page.sees(worded("usual in inches"))
        assert len(places() - before) == 1
        await page.keys(ENTER)
        await saved(loft, "standard = ")
        await page.wire.close()
        await gone(before)
    assert 'at = "sides.on"' in loft.read_text(encoding="utf-8")


async def test_a_wizard_that_cannot_start_closes_the_page(loft: Path) -> None:
    async with asking(loft, argv=[sys.executable, "-c", "raise SystemExit(3)"]) as client:
        await (await page_of(client)).closed()


async def test_pages_that_come_at_the_same_moment_get_no_more_seats_than_there_are(
    loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(server, "MOST_PAGES", 1)
    both, rules = asyncio.Barrier(2), server._add_security_headers

    async def with_the_other(request: web.Request, response: web.StreamResponse) -> None:
        """No answer to a page is begun before both have come."""
        if request.path == "/ws":
            await asyncio.wait_for(both.wait(), WAIT)
        await rules(request, response)

    monkeypatch.setattr(server, "_add_security_headers", with_the_other)
    async with asking(loft, argv=WAITING) as client:
        found = await asyncio.gather(page_of(client), page_of(client), return_exceptions=True)
        assert [each.status for each in found if isinstance(each, WSServerHandshakeError)] == [503], found
