"""The process behind a page writes project files inside what is served, and nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.commands.running import uncounted
from wizard.browser.confinement import Confinement

READ, WRITE, NEW = os.O_RDONLY, os.O_WRONLY | os.O_TRUNC, os.O_WRONLY | os.O_CREAT | os.O_EXCL
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
        ("open", (os.fsencode(path), None, NEW)),
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
