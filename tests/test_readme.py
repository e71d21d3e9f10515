"""The README says what the product does: its example, its tables and its commands are held against the real thing."""

from __future__ import annotations

import argparse
import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.commands.parser import build

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(language: str, number: int = 0) -> str:
    """One of the README's code blocks."""
    found: list[str] = re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)
    return found[number]


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The plan of the example, as the shell gives it."""
    folder = tmp_path_factory.mktemp("readme")
    file, out = folder / "cloudberry-bunk.toml", folder / "out.json"
    file.write_text(block("toml"), encoding="utf-8")
    assert main(["sheet", str(file), "--as", "json", "--out", str(out)]) == Exit.OK
    plan: dict[str, Any] = json.loads(out.read_text(encoding="utf-8"))
    return plan


def commands() -> dict[str, argparse.ArgumentParser]:
    """The parser of each command."""
    return next(each for each in build()._actions if isinstance(each, argparse._SubParsersAction)).choices


def row(words: str) -> list[str]:
    """The cells of a row of the example's table."""
    line = next(line for line in README.splitlines() if line.startswith(f"| {words}"))
    return [cell.strip() for cell in line.strip("|").split("|")][1:]


def test_the_example_is_complete_and_the_sums_in_the_readme_are_its_own(example: dict[str, Any]) -> None:
    assert example["complete"]
    sections, face = example["sections"], example["layers"][0]
    assert row("finished drop") == [each["drop"]["text"] for each in sections]
    assert row("cut length") == [each["length"]["text"] for each in face["cut"]]
    assert row("gathered length") == [each["gathered"]["text"] for each in sections]
    assert row("flat width") == [each["flat"]["text"] for each in sections]
    assert row("cut width") == [each["width"]["text"] for each in face["cut"]]
    assert row("tape") == [each["tape"]["text"] for each in sections]
    assert face["usable"]["text"] == "54 in"
    assert (face["cutting"]["widths"], face["cutting"]["joins"]) == (7, 5)
    assert face["cutting"]["used"]["in"] == "335/4"
    assert face["roll"]["in"] == "339/4"
    assert face["buy"]["in"] == "171/2"
    assert "83 3/4 in are used, with 5 joins" in README
    assert "84 3/4 in of roll" in README
    assert "2 3/8 yd" in README


def test_the_table_names_every_command_and_no_other() -> None:
    named = set(re.findall(r"^\| `railskirt ([a-z]+)", README, re.MULTILINE))
    known = {word for action in build()._actions if action.choices for word in action.choices}
    assert named | {"open"} == known


def test_every_option_it_names_is_one() -> None:
    options = {option for parser in (build(), *commands().values()) for option in parser._option_string_actions}
    assert set(re.findall(r"`[^`\n]*?(--[a-z]+)[^`\n]*`", re.sub(r"```.*?```", "", README, flags=re.DOTALL))) <= options


def test_it_reads_in_three_minutes() -> None:
    prose = re.sub(r"```.*?```|!\[.*?\]\(.*?\)", "", README, flags=re.DOTALL)
    assert len(re.findall(r"[A-Za-z]{2,}", prose)) < 3 * 240


def test_the_lengths_shown_as_typed_are_understood() -> None:
    from wizard.project.parse import read_length

    line = re.search(r"Type lengths as you read them: (.*?)\. Every", README, re.DOTALL)
    assert line
    for typed in re.findall(r"`([^`]+)`", line[1]):
        read_length(typed, "in")


def test_the_picture_is_a_snapshot_the_tests_check() -> None:
    picture = re.search(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert picture
    assert (ROOT / picture[1]).is_file()


def test_the_test_command_is_what_the_clean_run_calls() -> None:
    assert block("sh", 1).strip() in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_the_files_shown_are_toml() -> None:
    assert tomllib.loads(block("toml"))["name"] == "Cloudberry bunk"
