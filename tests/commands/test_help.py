"""The help: every command has an example, and the examples work."""

from __future__ import annotations

import argparse
import shlex
from pathlib import Path

import pytest

from tests.commands.running import within
from tests.render.jobs import WHOLE
from wizard.cli import main, with_command
from wizard.commands.exits import Exit
from wizard.commands.parser import build

COMMANDS = next(action for action in build()._actions if isinstance(action, argparse._SubParsersAction)).choices


def examples_of(parser: argparse.ArgumentParser) -> list[str]:
    """The command lines in a help text, without the program's name."""
    lines = (parser.epilog or "").splitlines()
    return [line.removeprefix("  railskirt").strip() for line in lines if line.startswith("  railskirt")]


EXAMPLES = sorted({each for parser in (build(), *COMMANDS.values()) for each in examples_of(parser)})

SERVED = {"serve juniper-loft.toml", "serve --address 192.168.1.20"}
"""These go on until they are ended; they are tried beside the browser."""

NEEDS_A_TERMINAL = {"open juniper-loft.toml", "juniper-loft.toml"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "juniper-loft.toml").write_text(WHOLE, encoding="utf-8")
    (tmp_path / "projects").mkdir()
    (tmp_path / "projects" / "rowan.toml").write_text(WHOLE, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_has_an_example(name: str) -> None:
    assert examples_of(COMMANDS[name])


def test_the_examples_that_go_on_are_known() -> None:
    assert {each for each in EXAMPLES if each.startswith("serve ")} == SERVED


@pytest.mark.parametrize("line", [each for each in EXAMPLES if each not in SERVED])
def test_every_example_of_the_help_works(line: str, folder: Path) -> None:
    run = within(*shlex.split(line), folder=folder)
    wanted = {Exit.NOT_A_TERMINAL} if line in NEEDS_A_TERMINAL else {Exit.OK, Exit.FOUND}
    assert run.returncode in wanted, run.stderr
    assert "Traceback" not in run.stderr


def test_the_help_explains_every_exit_status_and_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["--help"])
    text = capsys.readouterr().out
    assert left.value.code == Exit.OK
    for each in Exit:
        assert f" {each.value} {each.meaning} " in " ".join(text.split())
    for name in COMMANDS:
        assert f"\n    {name}" in text


def test_the_version_is_the_packages(capsys: pytest.CaptureFixture[str]) -> None:
    from wizard import __version__

    with pytest.raises(SystemExit) as left:
        main(["--version"])
    assert left.value.code == Exit.OK
    assert capsys.readouterr().out == f"railskirt {__version__}\n"


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        (["job.toml"], ["open", "job.toml"]),
        (["--", "-job.toml"], ["open", "--", "-job.toml"]),
        (["sheet", "job.toml"], ["sheet", "job.toml"]),
        (["--help"], ["--help"]),
        (["./sheet"], ["open", "./sheet"]),
    ],
)
def test_a_bare_file_is_opened_and_the_rest_stays(typed: list[str], meant: list[str]) -> None:
    assert with_command(typed) == meant


def test_the_help_fits_a_terminal_of_eighty_columns(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    for name in ("", *COMMANDS):
        with pytest.raises(SystemExit):
            main([*([name] if name else []), "--help"])
        assert [line for line in capsys.readouterr().out.splitlines() if len(line) > 80] == [], name
