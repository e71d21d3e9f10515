"""Completion: printed from the parser, understood by the shells."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pexpect
import pytest

from tests.commands.running import within
from wizard.commands.exits import Exit
from wizard.commands.parser import SHELLS


@pytest.fixture
def folder(tmp_path: Path) -> Path:
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
def test_bash_offers_what_may_stand_there(typed: str, offered: str, folder: Path) -> None:
    script = printed("bash") + (
        'COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _shtab_railskirt railskirt "${!#}" "${@: -2:1}"\n'
        'printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    heard = asked(folder, program("bash"), "-c", script, "-", "railskirt", *typed.split())
    assert heard.split() == offered.split()


def test_fish_offers_projects_beside_the_commands(folder: Path) -> None:
    lines = ("railskirt ju", "railskirt p", "railskirt sh", "railskirt juniper.toml ")
    script = printed("fish") + "".join(f"\ncomplete -C '{line}'\necho next" for line in lines)
    heard = asked(folder, program("fish"), "--no-config", "-c", script)
    offered = [[line.split("\t")[0] for line in each.split("\n") if line] for each in heard.split("next\n")]
    assert offered == [["juniper.toml"], ["projects/", "projects/gull.toml"], ["sheet"], [], []]


def test_zsh_offers_projects_beside_the_commands(folder: Path) -> None:
    (folder / "_railskirt").write_text(printed("zsh"), encoding="utf-8")
    # Ours is looked up before the shell's own, and nothing is remembered beyond this run.
    start = "PS1='ready> '\nunset zle_bracketed_paste\nfpath=($PWD $fpath)\nautoload -Uz compinit\ncompinit -u -D\n"
    (folder / ".zshrc").write_text(start, encoding="utf-8")
    env = {"PATH": os.environ["PATH"], "TERM": "dumb", "HOME": str(folder), "ZDOTDIR": str(folder)}
    shell = pexpect.spawn(program("zsh"), ["-i"], cwd=str(folder), dimensions=(40, 100), encoding="utf-8", env=env)
    shell.expect_exact("ready> ")
    for typed, whole in (("ju", "juniper.toml "), ("projects/g", "projects/gull.toml "), ("sh", "sheet ")):
        shell.send(f"railskirt {typed}\t")
        shell.expect_exact(f"railskirt {whole}")
        shell.send("\x15")
    shell.close(force=True)


def test_an_unknown_shell_is_refused_with_the_known_ones(tmp_path: Path) -> None:
    run = within("completion", "abacus", folder=tmp_path)
    assert run.returncode == Exit.USAGE
    assert "fish" in run.stderr
