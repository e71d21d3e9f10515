"""Broken project files: every problem is told in a whole sentence with key and line, and the file stays as it is."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any, Final

import pytest
from hypothesis import given

from tests.project.projects import projects
from wizard.project.encode import encode
from wizard.project.problems import Problem, Problems
from wizard.project.project import Project
from wizard.project.reading import read
from wizard.project.store import Store
from wizard.project.toml_lines import places

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


# Every key of a TOML text is found at its line, and comments are told from text.
AWKWARD = '''\
# the first line
title = "a # in text"

"quoted key" . 'another' . bare = 1
dotted.below.it = [ 1, 2, # a comment in a list
  [ "inside [ a ] list", """
two
lines ] with "quotes" in them""" ],
  {  in-line = 'x # y' , "deep"."er" = [ ] }, ]

[survey.section]   # a header
left.run = [
  "80 in",

  "79 in"]
'right' = { run = ["1 in"], drop = [] }
"esc\\u0061ped" = \'\'\'
a literal ' text''
of lines'\'\'\'

[[rows]]
a = 1
[[rows]]
a = 2026-03-02 10:42:00Z
[rows.below]
b = """a\\"""b"""
[ spaced . "out" ]
last = inf'''


def paths(tree: Any, path: tuple[str, ...] = ()) -> set[tuple[str, ...]]:
    below = tree.items() if isinstance(tree, dict) else enumerate(tree, start=1) if isinstance(tree, list) else ()
    found = {path} if path else set()
    return found.union(*(paths(each, (*path, str(name))) for name, each in below))


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ("title", 3), ("quoted key|another|bare", 5), ("quoted key", 5), ("dotted|below|it|1", 6),
        ("dotted|below|it|2", 6),
        ("dotted|below|it|3", 7), ("dotted|below|it|3|1", 7), ("dotted|below|it|3|2", 7), ("dotted|below|it|4", 10),
        ("dotted|below|it|4|deep|er", 10), ("survey", 12), ("survey|section", 12), ("survey|section|left", 13),
        ("survey|section|left|run|1", 14), ("survey|section|left|run|2", 16), ("survey|section|right|drop", 17),
        ("survey|section|escaped", 18), ("rows|1", 22), ("rows|1|a", 23), ("rows|2", 24), ("rows|2|a", 25),
        ("rows|2|below", 26), ("rows|2|below|b", 27), ("spaced|out|last", 29),
    ],
)  # fmt: skip
def test_a_key_of_an_awkward_text_is_found_at_its_line(path: str, line: int) -> None:
    assert places("\n" + AWKWARD).line(tuple(path.split("|"))) == line


def test_what_is_not_there_is_found_at_what_it_would_lie_in() -> None:
    assert places("\n" + AWKWARD).line(("survey", "section", "left", "drop", "2")) == 13
    assert places(AWKWARD).line(("nowhere",)) is None


@given(project=projects())
def test_every_key_of_a_written_project_is_found_at_its_line(project: Project) -> None:
    text = encode(project).decode()
    lines = places(text).lines
    assert set(lines) == paths(tomllib.loads(text))
    written = text.split("\n")
    for path, line in lines.items():
        if not path[-1].isdecimal():
            assert path[-1] in written[line - 1]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('format = 1\nname = "loft # 2"\n', False),
        ("format = 1\nname = 'loft # 2'\n", False),
        ('format = 1\nname = """\n# no comment\n"""\n', False),
        ("format = 1\nname = '''\n# no comment'''\n", False),
        ('format = 1\n["kept"]\n"a#b" = "#"\n', False),
        ('format = 1\nname = "a \\" # still text"\n', False),
        ("format = 1 # a comment\n", True),
        ("# a comment\nformat = 1\n", True),
        ("format = 1\n[survey] # a comment\n", True),
        ('format = 1\n[survey]\nwatch = ["antique", # a comment\n]\n', True),
        ("format = 1\n#", True),
    ],
)
def test_a_comment_is_told_from_text(text: str, expected: bool) -> None:
    assert places(text).has_comments is expected
