"""Broken project files: every problem is told in a whole sentence with its key and line, and the file stays as it is.

What each file is told stands in `broken/told.txt`: the file, then a line for each problem: line, key, sentence.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

import pytest

from wizard.project.project import Project
from wizard.project.reading import Problem, Problems, read
from wizard.project.store import Store

BROKEN: Final = Path(__file__).parent / "broken"
FILES: Final = sorted(each.name for each in BROKEN.glob("*.toml"))

MADE: Final = {
    "deep-lists": b"format = 1\n\n[survey]\nwatch = " + b"[" * 5000 + b"]" * 5000 + b"\n",
    "deep-lists-on-many-lines": b"format = 1\n\n[survey]\nwatch = [\n" + b"[\n" * 900 + b"]" * 901 + b"\n",
    "deep-inline-tables": b"format = 1\n\n[survey]\nrail = " + b"{a=" * 3000 + b"1" + b"}" * 3000 + b"\n",
    "lists-nearly-too-deep": b"format = 1\nwatch = " + b"[" * 300 + b"]" * 300 + b"\n",
    "deep-key": b"format = 1\n\n" + b"a." * 50_000 + b"b = 1\n",
    "key-as-deep-as-may-be": b"format = 1\n\n" + b"a." * 1990 + b"b = 1\n",
    "huge-number": b"format = 1\n\n[cloth.fixing]\npack = " + b"9" * 5000 + b"\n",
    "huge-number-in-hexadecimal": b"format = 1\n\n[cloth.fixing]\npack = 0x" + b"f" * 6000 + b"\n",
    "huge-number-with-decimals": b"format = 1\n\n[cloth.face]\nprice = 1" + b"0" * 6000 + b".5e999999999999\n",
    "one-byte-too-large": b"format = 1\n#" + b"x" * (1_000_001 - 12),
}
"""Files too large to lie in a folder, and made here."""


def told() -> dict[str, list[Problem]]:
    """What each file is told, by its name without ending."""
    expected: dict[str, list[Problem]] = {}
    for row in (BROKEN / "told.txt").read_text(encoding="utf-8").splitlines():
        if not row.startswith(" "):
            expected[row] = []
            continue
        line, key, sentence = row.strip().split(" | ", 2)
        problem = Problem("" if key == "-" else key, None if line == "-" else int(line), sentence)
        expected[list(expected)[-1]].append(problem)
    return expected


def test_there_are_at_least_fifty_broken_files_and_each_is_told_something() -> None:
    assert len(FILES) >= 50
    assert sorted(told()) == sorted([*(name.removesuffix(".toml") for name in FILES), *MADE])
    assert all(told().values())


@pytest.mark.parametrize("name", FILES)
def test_a_broken_file_is_told_all_its_problems_and_left_as_it_is(name: str, tmp_path: Path) -> None:
    before = (BROKEN / name).read_bytes()
    path = tmp_path / name
    path.write_bytes(before)
    opened = Store(path).open()
    assert isinstance(opened, Problems)
    assert list(opened.all) == told()[name.removesuffix(".toml")]
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("name", MADE)
def test_a_file_of_absurd_size_or_depth_is_told_so(name: str) -> None:
    problems = read(MADE[name])
    assert isinstance(problems, Problems)
    assert list(problems.all) == told()[name]


EXAMPLES: Final = [
    (problem.key, example[1])
    for problems in told().values()
    for problem in problems
    if problem.key and (example := re.search(r"For example: (.+)$", problem.sentence))
]


@pytest.mark.parametrize(("key", "example"), EXAMPLES)
def test_an_example_told_would_be_taken_where_it_is_told(key: str, example: str) -> None:
    """Each stands in the sentence as a line, an item of a list, the name of a table, or an id."""
    path = re.findall(r"“[^”]*”|[^.]+", key)
    table = ".".join(f'"{name}"' for name in path[:-1])
    if example.startswith("["):
        text = f"{example}\n"
    elif path[-1].isdecimal():
        text = f"[{'.'.join(path[:-2])}]\n{path[-2]} = [{example}]\n"
    elif "=" in example:
        text = f"[{table}]\n{example}\n" if table else f"{example}\n"
    else:
        text = f'[{table}."{example}"]\n'
    start = b"" if key == "format" else b"format = 1\n"
    assert isinstance(read(start + text.encode()), Project)


def test_no_problem_holds_what_could_upset_a_terminal() -> None:
    sentences = [problem.sentence + problem.key for problems in told().values() for problem in problems]
    assert [each for each in sentences if not each.isprintable()] == []


def test_a_file_of_exactly_the_largest_size_is_read() -> None:
    assert not isinstance(read(b"format = 1\n#" + b"x" * (1_000_000 - 12)), Problems)
