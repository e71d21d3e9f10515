"""`railskirt serve` as it is run, and the wire between a page and the wizard: a process a page, ended for certain."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import aiohttp
import pytest
from aiohttp import WSMsgType, WSServerHandshakeError, web
from yarl import URL

from tests.browser.sites import DOWN, ENTER, WAIT, asking, gone, let_in, page_at, page_of, places, saved, served
from tests.commands.message_texts import message, text_of
from tests.commands.running import SMALL, railskirt, uncounted
from tests.screens.screen_texts import worded
from wizard.browser import server
from wizard.browser.page_process import DRIVER, argv_for, environment_for
from wizard.commands.exits import Exit

MOUSE_ON = "\x1b[?1000h"
"""Asks for the mouse: xterm's control sequences, DEC private mode 1000."""
LINK = r"http://127\.0\.0\.1:[0-9]+/\?key=([a-z2-9]{4}-){4}[a-z2-9]{4}"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "loft.toml").write_text(SMALL, encoding="utf-8")
    return tmp_path


async def said(process: asyncio.subprocess.Process) -> str:
    assert process.stderr is not None
    return (await asyncio.wait_for(process.stderr.read(), WAIT)).decode()


@pytest.mark.parametrize("open_to", ["this computer", "an address"])
async def test_what_is_open_to_whom_is_said_and_only_the_key_lets_in(open_to: str, folder: Path) -> None:
    here = open_to == "this computer"
    async with served(*(["loft.toml"] if here else ["--address", "127.0.0.1"]), folder=folder) as (process, link):
        assert re.fullmatch(LINK, link)
        bare = link.partition("?")[0]
        async with aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True)) as client:
            statuses = [(await client.get(each)).status for each in (bare, link, bare)]
        assert statuses == [403, 200, 200], "another person on this computer has no key"
        process.send_signal(signal.SIGINT if here else signal.SIGTERM)
        heard = await said(process)
        assert await process.wait() == (Exit.INTERRUPTED if here else Exit.ENDED)
    if here:
        assert heard == (
            f"{message('served', folder / 'loft.toml', 'browsers on this computer')}"
            f"{text_of('works once')} {text_of('reach of a file')}\n{text_of('open this')}\n"
        )
    else:
        assert heard == (
            f"{message('served', folder, 'anybody who can reach 127.0.0.1')}"
            f"{text_of('works once')} {text_of('reach of a folder')}\n"
            f"{text_of('not encrypted')}\n{text_of('open this')}\n"
        )


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="the system does not list processes here")
@pytest.mark.parametrize("end", [signal.SIGINT, signal.SIGKILL])
async def test_its_end_ends_every_page_and_its_process_and_keeps_the_place(end: signal.Signals, folder: Path) -> None:
    async with served("loft.toml", folder=folder) as (process, link), let_in(link) as (client, address):
        page = await page_at(client, address)
        await page.sees(worded("usual in inches"))
        await page.keys(ENTER)
        await saved(folder / "loft.toml", "standard = ")
        (child,) = Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text().split()
        process.send_signal(end)
        assert await asyncio.wait_for(process.wait(), WAIT) in (Exit.INTERRUPTED, -signal.SIGKILL)
        await saved(folder / "loft.toml", 'at = "sides.on"')
        command = Path(f"/proc/{child}/cmdline")
        async with asyncio.timeout(WAIT):
            while command.exists() and command.read_bytes():
                await asyncio.sleep(0.05)
        assert "Traceback" not in await said(process)


@pytest.mark.parametrize(
    ("argv", "status", "sentence"),
    [
        (["gone.toml"], Exit.BAD_FILE, text_of("no such file", "'gone.toml'")),
        (["--address", "192.0.2.1"], Exit.NOT_SERVED, text_of("not ours", "192.0.2.1")),
        (["--address", "a b"], Exit.NOT_SERVED, text_of("not ours", "a b")),
        (["--address", "\x1b[31m"], Exit.NOT_SERVED, text_of("not ours", "\\x1b[31m")),
        (["--address", "a..b"], Exit.NOT_SERVED, text_of("not ours", "a..b")),
        (["--address", "0.0.0.0"], Exit.NOT_SERVED, text_of("every address", "0.0.0.0")),
        (["--address", "0x0"], Exit.NOT_SERVED, text_of("every address", "0x0")),
        (["--address", "::"], Exit.NOT_SERVED, text_of("every address", "::")),
        (["--address", ""], Exit.NOT_SERVED, text_of("every address", "an empty address")),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, list) else "",
)
def test_what_cannot_be_served_is_said_in_a_sentence(
    argv: list[str], status: Exit, sentence: str, folder: Path
) -> None:
    run = railskirt("serve", "--port", "0", *argv, folder=folder)
    assert (run.returncode, run.stdout, run.stderr) == (status, "", f"railskirt: {sentence}\n")


@pytest.mark.parametrize("port", ["-1", "65536", "x", "", "8e3", "٨"])
def test_a_port_that_is_none_is_a_mistake_in_the_command(port: str, folder: Path) -> None:
    run = railskirt("serve", f"--port={port}", folder=folder)
    assert run.returncode == Exit.USAGE
    assert text_of("no port", port) in run.stderr


def test_a_port_that_is_taken_is_said_with_another_to_try(folder: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        run = railskirt("serve", "--port", str(port), folder=folder)
    assert run.returncode == Exit.NOT_SERVED
    assert run.stderr == message("port in use", port, "127.0.0.1", port + 1)


WITHOUT_THE_EXTRA = """
import sys
from wizard.cli import main
try:
    main(['serve', '--help'])
except SystemExit:
    print({'textual_serve', 'aiohttp', 'textual'} & set(sys.modules))
sys.modules['textual_serve'] = None
sys.exit(main(['serve', 'loft.toml']))
"""


def test_help_does_not_load_the_extra_and_without_it_is_said_how_to_add_it(folder: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-c", WITHOUT_THE_EXTRA],
        cwd=folder, env=uncounted(), capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert run.stdout.endswith("\nset()\n")
    assert (run.returncode, run.stderr) == (Exit.NOT_SERVED, message("no extra"))


async def test_nonsense_sent_to_the_port_is_told_in_short_lines_without_a_raw_sign(folder: Path) -> None:
    async with served("loft.toml", folder=folder) as (process, link), let_in(link) as (client, page):
        host = page.removeprefix("http://").rstrip("/")
        session = client.cookie_jar.filter_cookies(URL(page)).output(header="", sep=";").strip()
        wire = (
            f"GET /ws HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nCookie: {session}\r\n"
            "Upgrade: websocket\r\nConnection: upgrade\r\nSec-WebSocket-Version: 13\r\n"
            "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\nSec-WebSocket-Protocol: \x9b31m\xff\u202e\r\n\r\n"
        )
        nonsense = (
            b"\x16\x03\x01\x02\x00\r\n\r\n",
            b"GET\r\n\r\n",
            b"GET / HTTP/1.1\r\nHost: \x1b[31m\r\n\r\n",
            b"GET / HTTP/1.1\r\nX: " + "\x1b[31m\x9b\r".encode() * 5000 + b"\r\n\r\n",
            wire.encode(),
        )
        for sent in nonsense:
            reader, writer = await asyncio.open_connection(*host.split(":"))
            writer.write(sent)
            assert (await asyncio.wait_for(reader.readline(), WAIT)).startswith(b"HTTP/1."), sent
            writer.close()
            await writer.wait_closed()
        process.terminate()
        lines = (await said(process)).splitlines()
    trouble = [each for each in lines[3:] if not each.startswith("Saved in ")]
    assert len(trouble) >= 2
    for each in trouble:
        assert each.startswith("railskirt: ")
        assert len(each) <= 220
        assert each.isprintable()


@pytest.mark.parametrize(("flags", "taken"), [((), True), (("--no-mouse",), False)], ids=["mouse", "no mouse"])
async def test_the_mouse_is_taken_unless_it_is_to_be_left_to_the_browser(
    flags: tuple[str, ...], taken: bool, folder: Path
) -> None:
    async with served("loft.toml", *flags, folder=folder) as (_, link), let_in(link) as (client, address):
        page = await page_at(client, address)
        await page.sees(worded("usual in inches"))
        assert (MOUSE_ON in page.ever) is taken


# The wire between a page and the wizard: a process a page, no shell between, fed literally, ended for certain.
NAMES = [
    "a b.toml", 'it\'s "so".toml', "x; touch gone.toml", "$(touch gone).toml", "`touch gone`.toml", "--help.toml",
    "a&b|c>d.toml", "new",
]  # fmt: skip
WAITING = [sys.executable, "-c", "import sys; sys.stdin.buffer.read(1)"]
"""A program in place of the wizard that does nothing until it is told something."""


@pytest.fixture
def loft(folder: Path) -> Path:
    return folder / "loft.toml"


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
