"""Foreign Host and Origin are refused on every request, the network needs the key, and the page is all from here."""

from __future__ import annotations

import asyncio
import re
import secrets
from collections.abc import AsyncIterator, Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest
from aiohttp import WSServerHandshakeError
from yarl import URL

from tests.browser.sites import Client, asking, origin
from wizard.browser import guard
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


# The one-time key: used once, forgiving of how it is typed, and never the same.
def test_only_the_right_key_works_and_only_once() -> None:
    key, other = OneTimeKey(), OneTimeKey()
    assert not key.opened("")
    assert not key.opened(key._session), "no session is open before the key is used"
    for wrong in ("", key.text[:-1], f"{key.text}2", other.text, "ö", "\ud800"):
        assert key.spend(wrong) is None
    session = key.spend(key.text)
    assert session is not None
    assert key.opened(session)
    assert key.spend(key.text) is None
    assert key.opened(session), "a second try does not end the session"
    assert not key.opened(other.spend(other.text) or "")
    assert not key.opened("\ud800")


@pytest.mark.parametrize("typed", [str.upper, lambda key: key.replace("-", ""), lambda key: f" {key} "])
def test_a_key_may_be_typed_by_hand(typed: Callable[[str], str]) -> None:
    key = OneTimeKey()
    assert key.spend(typed(key.text)) is not None


def test_keys_have_no_letters_that_are_taken_for_others_and_never_come_twice() -> None:
    made = [OneTimeKey().text for _ in range(200)]
    assert len(set(made)) == 200
    assert not set("".join(made)) & set("il1o0")
    assert {len(each) for each in made} == {24}


def test_keys_and_sessions_are_compared_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared = []

    def compare(one: bytes, other: bytes) -> bool:
        compared.append((one, other))
        return one == other

    monkeypatch.setattr(secrets, "compare_digest", compare)
    key = OneTimeKey()
    session = key.spend(key.text)
    assert session is not None
    key.spend("wrong")
    key.opened("wrong")
    bare = key.text.replace("-", "").encode()
    assert compared == [(bare, bare), (b"wrong", bare), (b"wrong", session.encode())]


# The page: all of it from this computer, every name shown literally, no word in its address heeded but one.
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
