"""Foreign Host and Origin are refused on every request, and the network needs the key."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from aiohttp import WSServerHandshakeError
from yarl import URL

from tests.browser.sites import Client, asking, origin
from wizard.browser.guard import ASSETS, OneTimeKey, hosts

EVERYWHERE = ["/", "/ws", "/own/page.js", "/own/terminal.js", "/download/x", "/not-there"]
FOREIGN_HOSTS = [
    "attacker.invalid", "attacker.invalid:{port}", "127.0.0.1", "127.0.0.1:1", "127.0.0.2:{port}", "localhost", "",
    "127.0.0.1:{port}.attacker.invalid", "attacker.invalid@127.0.0.1:{port}", "localhost.:{port}", "[::1]:{port}",
    "0.0.0.0:{port}", "2130706433:{port}",
]  # fmt: skip
FOREIGN_ORIGINS = [
    "http://attacker.invalid", "null", "", "https://127.0.0.1:{port}", "http://127.0.0.1", "http://127.0.0.1:1",
    "http://localhost:{port}", "http://127.0.0.1:{port}.attacker.invalid", "http://127.0.0.1:{port}/",
]  # fmt: skip
ATTACKERS = [{"Host": "attacker.invalid"}, {"Origin": "http://attacker.invalid"}]


@pytest.fixture
async def client(tmp_path: Path) -> AsyncIterator[Client]:
    async with asking(tmp_path / "loft.toml") as client:
        yield client


@pytest.fixture
async def stranger(tmp_path: Path) -> AsyncIterator[tuple[Client, OneTimeKey]]:
    """One who was not let in, and the key."""
    key = OneTimeKey()
    async with asking(tmp_path / "loft.toml", key) as client:
        yield client, key


@pytest.mark.parametrize("path", EVERYWHERE)
async def test_a_foreign_host_or_origin_is_refused_everywhere(path: str, client: Client) -> None:
    foreign = [{"Host": each, "Origin": f"http://{each}"} for each in FOREIGN_HOSTS]
    for headers in (*foreign, *({"Origin": each} for each in FOREIGN_ORIGINS)):
        own = {name: each.format(port=client.port) for name, each in headers.items()}
        answer = await client.get(path, headers=own)
        assert answer.status == 403, own
        assert "attacker" not in f"{await answer.text()}{answer.headers}"


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "OPTIONS", "TRACE"])
async def test_a_foreign_host_is_refused_by_every_method(method: str, client: Client) -> None:
    assert (await client.request(method, "/", headers=ATTACKERS[0])).status == 403
    own = 200 if method == "HEAD" else 405
    assert (await client.request(method, "/")).status == own


@pytest.mark.parametrize("headers", [{}, *ATTACKERS], ids=["no origin", "foreign host", "foreign origin"])
async def test_the_wire_opens_to_its_own_page_only(headers: dict[str, str], client: Client) -> None:
    with pytest.raises(WSServerHandshakeError) as refused:
        await client.ws_connect("/ws", headers=headers)
    assert refused.value.status == 403


async def test_two_hosts_or_two_origins_or_an_address_in_place_of_a_host_are_refused(client: Client) -> None:
    own = f"127.0.0.1:{client.port}"
    two = [("Origin", origin(client)), ("Origin", "http://attacker.invalid")]
    assert (await client.get("/", headers=two)).status == 403
    session = client.session.cookie_jar.filter_cookies(URL(origin(client))).output(header="", sep=";")
    assert await plainly(client, f"GET / HTTP/1.1\r\nHost: {own}\r\nCookie: {session.strip()}\r\n\r\n") == 200
    # The parser of requests refuses some of these itself where it is strict.
    for hosts_of_it in (f"Host: {own}\r\nHost: {own}\r\n", f"Host: {own}\r\nHost: attacker.invalid\r\n", ""):
        assert await plainly(client, f"GET / HTTP/1.1\r\n{hosts_of_it}\r\n") in (400, 403)
    assert await plainly(client, f"GET http://{own}/ HTTP/1.1\r\nHost: attacker.invalid\r\n\r\n") == 403


async def plainly(client: Client, request: str) -> int:
    """The status of the answer to `request`, sent letter by letter."""
    reader, writer = await asyncio.open_connection("127.0.0.1", client.port)
    writer.write(request.encode())
    status = int((await reader.readline()).split()[1])
    writer.close()
    await writer.wait_closed()
    return status


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost", "LOCALHOST"])
async def test_this_computers_own_names_are_let_in(name: str, client: Client) -> None:
    host = f"{name}:{client.port}"
    for path in ("/", "/own/page.js"):
        assert (await client.get(path, headers={"Host": host, "Origin": f"http://{host}"})).status == 200


def test_the_port_may_be_missing_only_where_browsers_leave_it_out() -> None:
    assert hosts("127.0.0.1", "127.0.0.1", 80) == {"127.0.0.1", "127.0.0.1:80", "localhost", "localhost:80"}
    assert hosts("loft.invalid", "192.0.2.7", 8127) == {"loft.invalid:8127", "192.0.2.7:8127"}
    assert hosts("2001:db8::7", "2001:db8::7", 8127) == {"[2001:db8::7]:8127"}


async def test_nothing_is_shown_without_the_key_or_by_a_made_up_session(stranger: tuple[Client, OneTimeKey]) -> None:
    client, key = stranger
    for made_up in ({}, {f"railskirt-{client.port}": "made-up"}):
        client.session.cookie_jar.update_cookies(made_up, URL(origin(client)))
        for path in [*EVERYWHERE, "/?key=", "/?key=wrong", f"/own/page.js?key={key.text}", f"/ws?key={key.text}"]:
            answer = await client.get(path, headers={"Origin": origin(client)})
            assert answer.status == 403, path
            assert "Set-Cookie" not in answer.headers
        with pytest.raises(WSServerHandshakeError):
            await client.ws_connect("/ws", headers={"Origin": origin(client)})


async def test_the_key_opens_once_and_the_session_goes_on(stranger: tuple[Client, OneTimeKey]) -> None:
    client, key = stranger
    opening = f"/?key={key.text}"
    assert (await client.head(opening)).status == 403, "asking what would come does not use up the key"
    for headers in ATTACKERS:
        assert (await client.get(opening, headers=headers)).status == 403
    first = await client.get(opening)
    assert first.status == 200, "no foreign request used it up"
    assert key.text not in await first.text()
    cookie = first.cookies[f"railskirt-{client.port}"]
    assert (cookie["httponly"], cookie["samesite"], cookie["path"]) == (True, "Strict", "/")
    assert (cookie["max-age"], cookie["expires"], cookie["domain"]) == ("", "", ""), "it ends with the browser"
    for path in ("/", "/own/page.js"):
        assert (await client.get(path)).status == 200
    client.session.cookie_jar.clear()
    assert (await client.get(opening)).status == 403, "nobody else comes in by the same link"
    assert (await client.get("/")).status == 403


async def test_every_answer_forbids_what_comes_from_outside(client: Client) -> None:
    for path, headers in [("/", {}), ("/own/page.js", {}), ("/not-there", {}), ("/", ATTACKERS[0])]:
        answer = await client.get(path, headers=headers)
        rules = dict(each.split(" ", 1) for each in answer.headers["Content-Security-Policy"].split("; "))
        assert rules["default-src"] == rules["frame-ancestors"] == "'none'"
        assert rules["script-src"] == rules["font-src"] == "'self'"
        assert rules["connect-src"].split() == ["'self'", f"ws://127.0.0.1{'' if headers else f':{client.port}'}"]
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"
        assert answer.headers["Cache-Control"] == "no-store"


async def test_only_the_pages_own_parts_are_given_out(client: Client) -> None:
    for name in ASSETS:
        assert (await client.get(f"/own/{name}")).status == 200
    for path in (
        "/static/js/textual.js", "/own/", "/own/site.py", "/own/..%2fsite.py", "/download/", "/download/x",
        "/own/page.js/",
    ):  # fmt: skip
        assert (await client.get(path)).status == 404, path
