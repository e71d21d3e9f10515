"""Completion: printed from the parser, understood by the shells."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.commands.parser import SHELLS


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
    program = shutil.which(shell)
    if program is None:
        pytest.skip(f"no {shell} on this computer")
    file = tmp_path / "completion"
    file.write_text(printed(shell, capsys), encoding="utf-8")
    run = subprocess.run([program, "-n", str(file)], capture_output=True, text=True, check=False)
    assert (run.returncode, run.stderr) == (0, "")


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["railskirt", "sh"], ["sheet"]),
        (["railskirt", "sheet", "--as", "h"], ["html"]),
        (["railskirt", "sheet", "--on"], ["--only"]),
        (["railskirt", "check", "jun"], ["juniper.toml"]),
        (["railskirt", "completion", "f"], ["fish"]),
    ],
)
def test_bash_offers_what_may_stand_there(
    typed: list[str], offered: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bash = shutil.which("bash")
    if bash is None:
        pytest.skip("no bash on this computer")
    (tmp_path / "juniper.toml").write_text("", encoding="utf-8")
    script = printed("bash", capsys) + (
        'COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _shtab_railskirt railskirt "${!#}" "${@: -2:1}"\n'
        'printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    run = subprocess.run([bash, "-c", script, "-", *typed], capture_output=True, text=True, cwd=tmp_path, check=False)
    assert run.stdout.split() == offered, run.stderr


def test_an_unknown_shell_is_refused_with_the_known_ones(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["completion", "abacus"])
    assert left.value.code == Exit.USAGE
    assert "fish" in capsys.readouterr().err
