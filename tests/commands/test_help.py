"""The help: every command has an example, and the examples work; completion, understood by the shells."""

from __future__ import annotations

import argparse
import os
import shlex
import shutil
import subprocess
from pathlib import Path

import pexpect
import pytest

from tests.commands.running import COMMANDS, kill, within
from tests.render.jobs import WHOLE
from wizard import __version__
from wizard.commands.exits import Exit
from wizard.commands.parser import SHELLS, build


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


# Completion: printed from the parser, understood by the shells.
@pytest.fixture
def with_projects(tmp_path: Path) -> Path:
    """A folder with a project, and with a folder of projects; and a file that is none."""
    (tmp_path / "projects").mkdir()
    for name in ("juniper.toml", "just-a-note.txt", "projects/gull.toml"):
        (tmp_path / name).write_text("", encoding="utf-8")
    return tmp_path


def program(shell: str) -> str:
    found = shutil.which(shell)
    if found is None:
        pytest.skip(f"no {shell} on this computer")
    return found


def printed(shell: str) -> str:
    """What the shell needs to complete."""
    run = within("completion", shell, folder=Path.cwd())
    assert run.returncode == Exit.OK
    return run.stdout


def asked(folder: Path, *argv: str) -> str:
    """What a shell prints when it is run like this, without a complaint."""
    run = subprocess.run(argv, capture_output=True, text=True, cwd=folder, check=False)
    assert (run.returncode, run.stderr) == (0, "")
    return run.stdout


@pytest.mark.parametrize("shell", SHELLS)
def test_every_command_and_option_is_in_it_and_the_shell_reads_it(shell: str, tmp_path: Path) -> None:
    text = printed(shell)
    words = "open list new demo sheet check schema completion only date html csv"
    assert [word for word in words.split() if word not in text] == []
    (tmp_path / "completion").write_text(text, encoding="utf-8")
    asked(tmp_path, program(shell), "-n", "completion")


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("sh", "sheet"),
        ("sheet --as h", "html"),
        ("sheet --on", "--only"),
        ("check jun", "juniper.toml"),
        ("completion f", "fish"),
        ("jun", "juniper.toml"),
        ("--plain jun", "juniper.toml"),
        ("p", "projects projects/gull.toml"),
        ("projects/g", "projects/gull.toml"),
    ],
)
def test_bash_offers_what_may_stand_there(typed: str, offered: str, with_projects: Path) -> None:
    script = printed("bash") + (
        'COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _shtab_railskirt railskirt "${!#}" "${@: -2:1}"\n'
        'printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    heard = asked(with_projects, program("bash"), "-c", script, "-", "railskirt", *typed.split())
    assert heard.split() == offered.split()


def test_fish_offers_projects_beside_the_commands(with_projects: Path) -> None:
    lines = ("railskirt ju", "railskirt p", "railskirt sh", "railskirt juniper.toml ")
    script = printed("fish") + "".join(f"\ncomplete -C '{line}'\necho next" for line in lines)
    heard = asked(with_projects, program("fish"), "--no-config", "-c", script)
    offered = [[line.split("\t")[0] for line in each.split("\n") if line] for each in heard.split("next\n")]
    assert offered == [["juniper.toml"], ["projects/", "projects/gull.toml"], ["sheet"], [], []]


def test_zsh_offers_projects_beside_the_commands(with_projects: Path) -> None:
    (with_projects / "_railskirt").write_text(printed("zsh"), encoding="utf-8")
    # Ours is looked up before the shell's own, and nothing is remembered beyond this run.
    start = "PS1='ready> '\nunset zle_bracketed_paste\nfpath=($PWD $fpath)\nautoload -Uz compinit\ncompinit -u -D\n"
    (with_projects / ".zshrc").write_text(start, encoding="utf-8")
    env = {"PATH": os.environ["PATH"], "TERM": "dumb", "HOME": str(with_projects), "ZDOTDIR": str(with_projects)}
    shell = pexpect.spawn(
        program("zsh"), ["-i"], cwd=str(with_projects), dimensions=(40, 100), encoding="utf-8", env=env
    )
    shell.expect_exact("ready> ")
    for typed, whole in (("ju", "juniper.toml "), ("projects/g", "projects/gull.toml "), ("sh", "sheet ")):
        shell.send(f"railskirt {typed}\t")
        shell.expect_exact(f"railskirt {whole}")
        shell.send("\x15")
    kill(shell)


def test_an_unknown_shell_is_refused_with_the_known_ones(tmp_path: Path) -> None:
    run = within("completion", "abacus", folder=tmp_path)
    assert run.returncode == Exit.USAGE
    assert "fish" in run.stderr
