"""The house rules that a program can see."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
FILES = sorted((TOP / "wizard").rglob("*.py"))
MOST_LINES = 400
EXACT = ("trade", "sheets")
"""Rooms in which a float can only be an error: where lengths and money are worked, and where they are printed."""


def ids(path: Path) -> str:
    return path.relative_to(TOP).as_posix()


def run(*argv: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *argv], cwd=TOP, capture_output=True, text=True, timeout=600, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_ruff_finds_nothing() -> None:
    run("ruff", "check", "wizard", "tests")


def test_every_file_is_formatted() -> None:
    run("ruff", "format", "--check", "wizard", "tests")


@pytest.mark.slow
def test_the_type_checker_finds_nothing() -> None:
    run("mypy")


@pytest.mark.parametrize("path", FILES, ids=ids)
def test_a_file_is_a_small_room(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= MOST_LINES


@pytest.mark.parametrize("path", FILES, ids=ids)
def test_every_module_and_public_name_says_what_it_is(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree) or not tree.body
    silent = [
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and not ast.get_docstring(node)
        and not _only_types(node)
    ]
    assert silent == []


def _only_types(node: ast.stmt) -> bool:
    """An overload is described where the function itself stands."""
    marks = getattr(node, "decorator_list", [])
    return any(isinstance(each, ast.Name) and each.id == "overload" for each in marks)


@pytest.mark.parametrize("path", FILES, ids=ids)
def test_nothing_is_caught_that_was_not_thought_of(path: Path) -> None:
    broad = {None, "Exception", "BaseException"}
    last_resort = 1 if path.relative_to(TOP).as_posix() == "wizard/cli.py" else 0
    found = 0
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ExceptHandler):
            caught = node.type.elts if isinstance(node.type, ast.Tuple) else [node.type]
            found += bool({each.id if isinstance(each, ast.Name) else "" if each else None for each in caught} & broad)
    assert found == last_resort, "only the command line's outermost door catches everything, and says so in a sentence"


@pytest.mark.parametrize("path", [path for path in FILES if path.relative_to(TOP).parts[1] in EXACT], ids=ids)
def test_no_float_stands_where_lengths_are_worked(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        assert not (isinstance(node, ast.Constant) and isinstance(node.value, float)), node.lineno
        assert not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "float")
