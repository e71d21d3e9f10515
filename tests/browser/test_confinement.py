"""What the process behind a page may do with files, and a person with its keys: never more than what is served."""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.browser.sites import DOWN, ENTER, ESCAPE, TAB, WAIT, asking, page_of, saved
from tests.commands.running import SMALL, uncounted
from tests.screens.screen_texts import worded
from wizard.browser.confinement import Confinement

READ, WRITE, MAKE = os.O_RDONLY, os.O_WRONLY | os.O_TRUNC, os.O_WRONLY | os.O_CREAT | os.O_EXCL
OWN = ["loft.toml", "loft.toml.before", "loft.toml.before-2", ".loft.toml.last", ".loft.toml.0a1b2c3d.new"]
"""A project with its backups, and what lies beside it for a moment."""
OUTSIDE = [
    "../elsewhere/loft.toml", "../.bashrc", "../served-not/loft.toml", "inner/loft.toml", "loft.html", ".bashrc",
    "loft.toml/../../.bashrc", "loft", ".toml", "loft.toml.before-x", "link.toml", "dangling.toml",
    "inner-link/loft.toml",
]  # fmt: skip
"""What is no project file in the folder, or leads elsewhere."""
NEIGHBOURS = ["rowan.toml", "rowan.toml.before", ".rowan.toml.last", "loft.toml.toml", "xloft.toml", "loft_toml"]


@pytest.fixture
def served(tmp_path: Path) -> Path:
    for each in ("elsewhere", "served/inner", "served-not"):
        (tmp_path / each).mkdir(parents=True)
    for each in ("elsewhere", "served", "served/inner", "served-not"):
        (tmp_path / each / "loft.toml").write_text("format = 1\n", encoding="utf-8")
    folder = tmp_path / "served"
    (folder / "link.toml").symlink_to(tmp_path / "elsewhere" / "loft.toml")
    (folder / "dangling.toml").symlink_to(tmp_path / "elsewhere" / "new.toml")
    (folder / "inner-link").symlink_to(tmp_path / "elsewhere")
    return folder


def events_on(path: Path) -> list[tuple[str, tuple[Any, ...]]]:
    """Every way to change what a name leads to."""
    return [
        ("open", (str(path), "r+", os.O_RDWR)),
        ("open", (path, "w", WRITE)),
        ("open", (os.fsencode(path), None, MAKE)),
        ("os.chmod", (str(path), 0o777, -1)),
        ("os.truncate", (str(path), 0)),
        ("os.utime", (str(path), None, None, -1)),
    ]


def refused(bounds: Confinement, event: str, args: tuple[Any, ...]) -> bool:
    try:
        bounds.audit(event, args)
    except PermissionError:
        return True
    return False


def test_a_project_of_the_folder_and_what_belongs_to_it_may_be_written(served: Path) -> None:
    bounds = Confinement(served)
    for name in (*OWN, *NEIGHBOURS[:4]):
        assert not any(refused(bounds, *each) for each in events_on(served / name)), name
    for event in ("os.rename", "os.link"):
        assert not refused(bounds, event, (str(served / OWN[-1]), str(served / OWN[0]), -1, -1))
    assert not refused(bounds, "os.remove", (str(served / OWN[-1]), -1))


@pytest.mark.parametrize("name", OUTSIDE)
def test_nothing_else_may_be_written_or_put_in_its_place(name: str, served: Path) -> None:
    bounds, own = Confinement(served), str(served / "loft.toml")
    for event, args in events_on(served / name):
        assert refused(bounds, event, args), event
    if "link" in name or "dangling" in name:
        return
    # Of a link in the folder these change the link alone.
    for event, args in (
        ("os.rename", (own, str(served / name), -1, -1)),
        ("os.rename", (str(served / name), own, -1, -1)),
        ("os.link", (str(served / name), own, -1, -1)),
        ("os.remove", (str(served / name), -1)),
    ):
        assert refused(bounds, event, args), event


def test_no_folder_or_link_is_made_and_no_program_started(served: Path) -> None:
    bounds = Confinement(served)
    for event, args in (
        ("os.mkdir", (str(served / "new"), 0o777, -1)),
        ("os.symlink", ("loft.toml", str(served / "x.toml"), -1)),
        ("subprocess.Popen", ("sh", ["sh"], None, None)),
        ("os.system", ("true",)),
        ("os.posix_spawn", ("sh", ["sh"], {})),
    ):
        assert refused(bounds, event, args), event


def test_a_link_that_leads_out_is_not_read_and_all_else_is(served: Path) -> None:
    bounds = Confinement(served)
    for name in ("link.toml", "dangling.toml"):
        assert refused(bounds, "open", (str(served / name), "r", READ)), name
    for path in (served / "loft.toml", Path(os.__file__), Path(os.devnull)):
        assert not refused(bounds, "open", (str(path), "r", READ)), path
    assert not refused(bounds, "open", (os.devnull, None, os.O_WRONLY))


def test_of_one_file_no_neighbour_is_read_or_written(served: Path) -> None:
    bounds = Confinement(served / "loft.toml")
    for name in OWN:
        assert not any(refused(bounds, *each) for each in events_on(served / name)), name
    for name in (*NEIGHBOURS, *OUTSIDE):
        assert all(refused(bounds, *each) for each in events_on(served / name)), name
    for name in NEIGHBOURS:
        assert refused(bounds, "open", (str(served / name), "r", READ)), name


def test_of_a_link_to_a_file_the_file_is_what_is_served(served: Path) -> None:
    there = served.parent / "elsewhere" / "loft.toml"
    bounds = Confinement(served / "link.toml")
    assert not any(refused(bounds, *each) for each in events_on(there))
    assert all(refused(bounds, *each) for each in events_on(served / "loft.toml"))


TRIES = """
import os, subprocess, sys, tempfile
from pathlib import Path
from wizard.browser.confinement import confine
from wizard.project.atomic import put
served = Path(sys.argv[1])
confine(served)
put(served / 'loft.toml', b'format = 1', last=served / '.loft.toml.last')
tries = (
    lambda: put(served / '../x.toml', b''), lambda: (served / 'link.toml').write_text(''),
    lambda: (served / 'loft.html').write_text(''), lambda: tempfile.mkstemp(), lambda: os.mkdir(served / 'a'),
    lambda: os.replace(served / 'loft.toml', served.parent / 'x.toml'), lambda: subprocess.run(['true']),
    lambda: (served / 'link.toml').read_text(), lambda: os.unlink(served.parent / 'elsewhere/loft.toml'),
)
for number, each in enumerate(tries):
    try:
        each()
    except OSError:
        continue
    print(number)
"""


def test_the_interpreter_itself_goes_by_it(served: Path) -> None:
    before = set(served.parent.rglob("*"))
    run = subprocess.run(
        [sys.executable, "-c", TRIES, str(served)],
        env=uncounted(), capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    assert run.stdout == ""
    assert set(served.parent.rglob("*")) - before == {served / ".loft.toml.last"}
    assert before <= set(served.parent.rglob("*"))
    assert (served.parent / "elsewhere" / "loft.toml").read_text(encoding="utf-8") == "format = 1\n"


# What a person with the link can do with the keys of a page.
SAVE, LIST, TEMPLATE, QUIT, NEW = "\x13", "\x0c", "\x14", "\x11", "\x0e"
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
        await page.sees("Saved as")
        await page.wire.close()
    assert "Hazel" not in page.ever
    assert (other / "hazel.toml").read_bytes() == hazel
    assert {each.name for each in other.iterdir()} == {"hazel.toml"}
    assert "../a b" in (served / "a-b-2.toml").read_text(encoding="utf-8")
    assert (served / "a-b-template.toml").is_file()
    assert {each for each in names(home) if "/" not in each} == {".bashrc"}
