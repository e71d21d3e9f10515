"""The README says what the product does: its example, its tables and its commands are held against the real thing."""

from __future__ import annotations

import json
import re
from pathlib import Path

from tests.commands.running import COMMANDS, within
from wizard.commands.parser import build
from wizard.project.parse import read_length

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(language: str, number: int = 0) -> str:
    """One of the README's code blocks."""
    found: list[str] = re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)
    return found[number]


def row(words: str) -> list[str]:
    """The cells of a row of the example's table."""
    line = next(line for line in README.splitlines() if line.startswith(f"| {words}"))
    return [cell.strip() for cell in line.strip("|").split("|")][1:]


def test_the_example_is_complete_and_the_sums_in_the_readme_are_its_own(tmp_path: Path) -> None:
    (tmp_path / "cloudberry-bunk.toml").write_text(block("toml"), encoding="utf-8")
    example = json.loads(within("sheet", "cloudberry-bunk.toml", "--as", "json", folder=tmp_path).stdout)
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
    assert set(re.findall(r"^\| `railskirt ([a-z]+)", README, re.MULTILINE)) | {"open"} == set(COMMANDS)


def test_every_option_it_names_is_one() -> None:
    options = {option for parser in (build(), *COMMANDS.values()) for option in parser._option_string_actions}
    assert set(re.findall(r"`[^`\n]*?(--[a-z]+)[^`\n]*`", re.sub(r"```.*?```", "", README, flags=re.DOTALL))) <= options


def test_it_reads_in_three_minutes() -> None:
    prose = re.sub(r"```.*?```|!\[.*?\]\(.*?\)", "", README, flags=re.DOTALL)
    assert len(re.findall(r"[A-Za-z]{2,}", prose)) < 3 * 240


def test_the_lengths_shown_as_typed_are_understood() -> None:
    line = re.search(r"Type lengths as you read them: (.*?)\. Every", README, re.DOTALL)
    assert line
    for typed in re.findall(r"`([^`]+)`", line[1]):
        read_length(typed, "in")


def test_the_picture_is_a_snapshot_and_the_test_command_what_the_clean_run_calls() -> None:
    picture = re.search(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert picture
    assert (ROOT / picture[1]).is_file()
    assert block("sh", 1).strip() in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
