"""What a person with the link can do with the keys of a page: never more than what is served."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest

from tests.browser.sites import DOWN, ENTER, ESCAPE, TAB, WAIT, asking, page_of, saved
from tests.commands.running import SMALL
from tests.screens.screen_texts import worded

SAVE, LIST, TEMPLATE, MORE, QUIT, NEW = "\x13", "\x0c", "\x14", "\x10", "\x11", "\x0e"
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
        assert (await client.head(f"/download/{key}")).status == 200
        await page.wire.close()
        async with asyncio.timeout(WAIT):
            while (await client.get(f"/download/{key}")).status != 404:
                await asyncio.sleep(0.05)  # What was downloaded is gone with its page.
        client.session.cookie_jar.clear()
        assert (await client.get(f"/download/{key}")).status == 403, "another person has no key"
    assert names(home) - before <= {"served/.loft.toml.last"}
    assert (home / ".bashrc").read_text(encoding="utf-8") == "# mine\n"


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
        await page.closed()
    assert "Rowan" not in page.ever
    assert names(home) - before == {"served/.loft.toml.last"}


@pytest.mark.parametrize(
    ("text", "said", "key"),
    [
        ("format = 1\nname = 7\n", f"loft.toml {worded('unreadable')}", ENTER),
        (f"# by hand\n{SMALL}", worded("comments first"), ESCAPE),
    ],
    ids=["cannot be read", "comments left alone"],
)
async def test_no_list_is_reached_from_what_does_not_open(text: str, said: str, key: str, home: Path) -> None:
    (home / "served" / "loft.toml").write_text(text, encoding="utf-8")
    async with asking(home / "served" / "loft.toml") as client:
        page = await page_of(client)
        await page.sees(said)
        await page.keys(key)
        await page.closed()


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
