"""What an installation holds: every module, the style sheets, the demo, the template, the command."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tomllib
import zipfile
from configparser import ConfigParser
from pathlib import Path

import pytest

from wizard import __version__

TOP = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    """A wheel built from a copy of the tree, so that the tree itself stays clean."""
    source, target = tmp_path_factory.mktemp("source"), tmp_path_factory.mktemp("wheel")
    left_out = shutil.ignore_patterns("__pycache__")
    for name in ("wizard", "projects"):
        shutil.copytree(TOP / name, source / name, ignore=left_out)
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(TOP / name, source / name)
    options = ["--no-deps", "--no-build-isolation", "--no-index", "--disable-pip-version-check", "--quiet"]
    run = subprocess.run(
        [sys.executable, "-m", "pip", "wheel", *options, "--wheel-dir", str(target), str(source)],
        capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    return zipfile.ZipFile(next(target.glob("railskirt-*.whl")))


def inside(folder: str, ending: str) -> set[str]:
    """Files of the tree by their paths in it."""
    return {path.relative_to(TOP).as_posix() for path in (TOP / folder).rglob(f"*{ending}")}


def test_all_of_the_product_is_in_the_wheel_and_nothing_else(wheel: zipfile.ZipFile) -> None:
    held = set(wheel.namelist())
    kinds = (".py", ".tcss", ".css", ".js", ".html", ".txt", ".bash", ".zsh", ".fish", "py.typed")
    assert set().union(*(inside("wizard", each) for each in kinds)) - held == set()
    shipped = {name for name in held if name.startswith("wizard/projects/")}
    assert {f"wizard/{name}" for name in inside("projects", ".toml")} == shipped
    assert all(any(word in name for name in shipped) for word in ("demo-", "template"))
    assert {name.split("/")[0] for name in held} == {"wizard", f"railskirt-{__version__}.dist-info"}


def test_the_list_of_packages_is_complete_and_names_nothing_that_is_gone() -> None:
    settings = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    packages = {path.parent.relative_to(TOP).as_posix().replace("/", ".") for path in (TOP / "wizard").rglob("*.py")}
    assert set(settings["packages"]) == packages | {"wizard.projects"}


def test_the_command_is_installed_and_the_demo_reaches_somebody(wheel: zipfile.ZipFile, tmp_path: Path) -> None:
    points = ConfigParser()
    points.read_string(wheel.read(f"railskirt-{__version__}.dist-info/entry_points.txt").decode())
    assert points["console_scripts"]["railskirt"] == "wizard.cli:main"
    installed, folder = tmp_path / "installed", tmp_path / "folder"
    folder.mkdir()
    wheel.extractall(installed)
    code = f"import sys; sys.path.insert(0, {str(installed)!r}); from wizard.cli import main; sys.exit(main(['demo']))"
    run = subprocess.run(
        [sys.executable, "-P", "-c", code], capture_output=True, text=True, stdin=subprocess.DEVNULL, cwd=folder,
        timeout=120, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    (copied,) = folder.iterdir()
    assert copied.name.startswith("demo-")
