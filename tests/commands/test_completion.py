"""Completion: printed from the parser, understood by the shells."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pexpect
import pytest

from wizard.cli import main
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


def printed(shell: str, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["completion", shell]) == Exit.OK
    return capsys.readouterr().out


@pytest.mark.parametrize("shell", SHELLS)
def test_every_command_and_option_is_in_it(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(shell, capsys)
    for word in (
        "open",
        "list",
        "new",
        "demo",
        "sheet",
        "check",
        "schema",
        "completion",
        "only",
        "date",
        "html",
        "csv",
    ):
        assert word in text


@pytest.mark.parametrize("shell", SHELLS)
def test_the_shell_reads_it_without_complaint(shell: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "completion"
    file.write_text(printed(shell, capsys), encoding="utf-8")
    run = subprocess.run([program(shell), "-n", str(file)], capture_output=True, text=True, check=False)
    assert (run.returncode, run.stderr) == (0, "")


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["railskirt", "sh"], ["sheet"]),
        (["railskirt", "sheet", "--as", "h"], ["html"]),
        (["railskirt", "sheet", "--on"], ["--only"]),
        (["railskirt", "check", "jun"], ["juniper.toml"]),
        (["railskirt", "completion", "f"], ["fish"]),
        (["railskirt", "jun"], ["juniper.toml"]),
        (["railskirt", "--plain", "jun"], ["juniper.toml"]),
        (["railskirt", "p"], ["projects", "projects/gull.toml"]),
        (["railskirt", "projects/g"], ["projects/gull.toml"]),
    ],
)
def test_bash_offers_what_may_stand_there(
    typed: list[str], offered: list[str], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bash = program("bash")
    script = printed("bash", capsys) + (
        'COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _shtab_railskirt railskirt "${!#}" "${@: -2:1}"\n'
        'printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    run = subprocess.run([bash, "-c", script, "-", *typed], capture_output=True, text=True, cwd=folder, check=False)
    assert run.stdout.split() == offered, run.stderr


def test_fish_offers_projects_beside_the_commands(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    script = printed("fish", capsys)
    lines = ("railskirt ju", "railskirt p", "railskirt sh", "railskirt juniper.toml ")
    asked = "".join(f"\ncomplete -C '{line}'\necho next" for line in lines)
    run = subprocess.run(
        [program("fish"), "--no-config", "-c", script + asked], capture_output=True, text=True, cwd=folder, check=False
    )
    offered = [[line.split("\t")[0] for line in each.split("\n") if line] for each in run.stdout.split("next\n")]
    assert offered == [["juniper.toml"], ["projects/", "projects/gull.toml"], ["sheet"], [], []], run.stderr
    assert run.stderr == ""


def test_zsh_offers_projects_beside_the_commands(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "_railskirt").write_text(printed("zsh", capsys), encoding="utf-8")
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


def test_an_unknown_shell_is_refused_with_the_known_ones(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["completion", "abacus"])
    assert left.value.code == Exit.USAGE
    assert "fish" in capsys.readouterr().err
