"""Every key of a TOML text is found at its line, and comments are told from text."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given

from tests.project.projects import projects
from wizard.project.encode import encode
from wizard.project.project import Project
from wizard.project.toml_lines import places

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
