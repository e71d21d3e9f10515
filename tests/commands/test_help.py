"""The help: every command has an example, and the examples work."""

from __future__ import annotations

import argparse
import shlex
from pathlib import Path

import pytest

from tests.commands.running import COMMANDS, within
from tests.render.jobs import WHOLE
from wizard import __version__
from wizard.commands.exits import Exit
from wizard.commands.parser import build


def examples_of(parser: argparse.ArgumentParser) -> list[str]:
    """The command lines in a help text, without the program's name."""
    lines = (parser.epilog or "").splitlines()
    return [line.removeprefix("  railskirt").strip() for line in lines if line.startswith("  railskirt")]


EXAMPLES = {name: examples_of(parser) for name, parser in {"": build(), **COMMANDS}.items()}
SERVED = {"serve juniper-loft.toml", "serve --address 192.168.1.20"}
"""These go on until they are ended; they are tried beside the browser."""
NEEDS_A_TERMINAL = {"open juniper-loft.toml", "juniper-loft.toml"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "projects").mkdir()
    for name in ("juniper-loft.toml", "projects/rowan.toml"):
        (tmp_path / name).write_text(WHOLE, encoding="utf-8")
    return tmp_path


def test_every_command_has_an_example_and_those_that_go_on_are_known() -> None:
    assert [name for name, lines in EXAMPLES.items() if not lines] == []
    assert {each for lines in EXAMPLES.values() for each in lines if each.startswith("serve ")} == SERVED


@pytest.mark.parametrize("line", sorted({each for lines in EXAMPLES.values() for each in lines} - SERVED))
def test_every_example_of_the_help_works(line: str, folder: Path) -> None:
    run = within(*shlex.split(line), folder=folder)
    wanted = {Exit.NOT_A_TERMINAL} if line in NEEDS_A_TERMINAL else {Exit.OK, Exit.FOUND}
    assert run.returncode in wanted, run.stderr
    assert "Traceback" not in run.stderr


def test_the_help_explains_every_exit_status_and_names_every_command_and_the_version_is_the_packages(
    tmp_path: Path,
) -> None:
    run = within("--help", folder=tmp_path)
    assert run.returncode == Exit.OK
    for each in Exit:
        assert f" {each.value} {each.meaning} " in " ".join(run.stdout.split())
    for name in COMMANDS:
        assert f"\n    {name}" in run.stdout
    run = within("--version", folder=tmp_path)
    assert (run.returncode, run.stdout) == (Exit.OK, f"railskirt {__version__}\n")


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_help_fits_a_terminal_of_eighty_columns(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    said = within(*name.split(), "--help", folder=tmp_path).stdout
    assert [line for line in said.splitlines() if len(line) > 80] == []
