"""The wire between a page and the wizard: a process a page, no shell between, fed literally, ended for certain."""

from __future__ import annotations

import asyncio
import os
import sys
from pathlib import Path

import pytest
from aiohttp import WSMsgType, WSServerHandshakeError, web

from tests.browser.sites import asking
from tests.browser.started import WAIT, gone, places
from tests.browser.wires import closed, drawn_until, saved, wire_to
from tests.commands.running import SMALL
from tests.screens.screen_texts import worded
from wizard.browser import server
from wizard.browser.page_process import DRIVER, argv_for, environment_for

ENTER = "\r"
NAMES = [
    "a b.toml",
    'it\'s "so".toml',
    "x; touch gone.toml",
    "$(touch gone).toml",
    "`touch gone`.toml",
    "--help.toml",
    "a&b|c>d.toml",
    "new",
]


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
        wire = await wire_to(client)
        await drawn_until(wire, "Juniper loft")
    assert [each.name for each in tmp_path.iterdir()] == [name]


def test_a_path_is_one_word_of_the_command_and_no_option() -> None:
    argv = argv_for(Path("-x; y.toml"))
    assert argv == [sys.executable, "-P", "-m", "wizard", "--", str(Path.cwd() / "-x; y.toml")]


async def test_a_folder_is_shown_as_a_list(loft: Path) -> None:
    async with asking(loft.parent) as client:
        drawn = await drawn_until(await wire_to(client), "Juniper loft")
    assert "Bed skirts" in drawn


async def test_a_file_in_the_folder_is_not_taken_for_a_part_of_python(
    loft: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(loft.parent)
    for name in ("wizard.py", "argparse.py"):
        Path(name).write_text("open('gone', 'w')\n", encoding="utf-8")
    async with asking(loft) as client:
        await drawn_until(await wire_to(client), "Juniper loft")
    assert not Path("gone").exists()


async def test_an_answer_typed_on_the_page_is_in_the_file(loft: Path) -> None:
    async with asking(loft) as client:
        wire = await wire_to(client)
        await drawn_until(wire, worded("usual in inches"))
        await wire.send_json(["stdin", "\x1b[B"])
        await drawn_until(wire, worded("usual in metric"))
        await wire.send_json(["stdin", ENTER])
        await saved(loft, 'standard = "metric"')


async def test_nonsense_on_the_wire_is_passed_over(loft: Path) -> None:
    nonsense = [
        "", "[", "null", "{}", "[]", '["stdin"]', '["stdin", 7]', '["resize"]', '["resize", {"width": "a"}]',
        '["quit"]', '["resize", {"width": -5, "height": 0}]', '["resize", {"width": 1e99, "height": 1}]',
        '["ping", 1]', "[" * 9000, '["stdin", "\\ud800"]',
    ]  # fmt: skip
    async with asking(loft) as client:
        wire = await wire_to(client)
        await drawn_until(wire, "Juniper loft")
        for each in nonsense:
            await wire.send_str(each)
        await wire.send_bytes(b"\xff\x00")
        await wire.send_json(["resize", {"width": 100, "height": 30}])
        await wire.send_json(["ping", "7"])
        async with asyncio.timeout(WAIT):
            while (message := await wire.receive()).type is not WSMsgType.TEXT:
                assert message.type is WSMsgType.BINARY
        assert message.json() == ["pong", "7"]
        await wire.send_json(["stdin", ENTER])
        await saved(loft, "standard = ")


@pytest.mark.parametrize(
    "query", ["", "?width=x&height=y", "?width=-1&height=99999999999", "?width=999999999&height=1"]
)
async def test_an_odd_size_opens_all_the_same(query: str, loft: Path) -> None:
    async with asking(loft) as client:
        wire = await wire_to(client, query)
        assert (await asyncio.wait_for(wire.receive(), WAIT)).type is WSMsgType.BINARY


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="the system does not list processes here")
async def test_a_page_that_goes_away_ends_its_process_and_keeps_the_place(loft: Path) -> None:
    before = places()
    async with asking(loft) as client:
        wire = await wire_to(client)
        await drawn_until(wire, worded("usual in inches"))
        assert len(places() - before) == 1
        await wire.send_json(["stdin", ENTER])
        await saved(loft, "standard = ")
        await wire.close()
        await gone(before)
    assert 'at = "sides.on"' in loft.read_text(encoding="utf-8")


async def test_leaving_the_wizard_closes_the_page(loft: Path) -> None:
    async with asking(loft) as client:
        wire = await wire_to(client)
        await drawn_until(wire, "Juniper loft")
        await wire.send_json(["stdin", "\x11"])
        await drawn_until(wire, "Leave?")
        await wire.send_json(["stdin", ENTER])
        await closed(wire)


async def test_a_wizard_that_cannot_start_closes_the_page(loft: Path) -> None:
    async with asking(loft, argv=[sys.executable, "-c", "raise SystemExit(3)"]) as client:
        await closed(await wire_to(client))


async def test_no_more_pages_than_there_are_seats(loft: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(server, "MOST_PAGES", 1)
    async with asking(loft) as client:
        wire = await wire_to(client)
        await drawn_until(wire, "Juniper loft")
        with pytest.raises(WSServerHandshakeError) as refused:
            await wire_to(client)
        assert refused.value.status == 503


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
    async with asking(loft, argv=[sys.executable, "-c", "import sys; sys.stdin.buffer.read(1)"]) as client:
        found = await asyncio.gather(wire_to(client), wire_to(client), return_exceptions=True)
        refused = [each.status for each in found if isinstance(each, WSServerHandshakeError)]
        assert refused == [503], found


def test_the_process_hears_of_the_page_and_not_of_the_servers_terminal() -> None:
    given = {"TERM": "dumb", "ACCESSIBLE": "1", "COLORFGBG": "0;15", "NO_COLOR": "1", "PYTHONPATH": "elsewhere"}
    told = environment_for(given, 90, 40)
    assert (told["TERM"], told["TEXTUAL_DRIVER"], told["COLUMNS"], told["ROWS"]) == (
        "xterm-256color",
        DRIVER,
        "90",
        "40",
    )
    assert "ACCESSIBLE" not in told
    assert "COLORFGBG" not in told
    assert told["NO_COLOR"] == "1", "a wish for no colour holds on a page too"
    assert told["PYTHONPATH"].split(os.pathsep) == [str(Path(__file__).parents[2]), "elsewhere"]
