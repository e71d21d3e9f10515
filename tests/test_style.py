"""The house rules that a program can see."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path
from typing import TypeGuard

import pytest

pytestmark = pytest.mark.source

TOP = Path(__file__).parents[1]
TEXTS = {
    path.relative_to(TOP).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted((TOP / "wizard").rglob("*.py"))
}
TREES = {name: ast.parse(text) for name, text in TEXTS.items()}
MOST_LINES = 600
EXACT = ("wizard/trade/", "wizard/render/", "wizard/project/parse/")
"""Where a float can only be an error: where lengths and money are read, worked and printed."""

BROAD = ("Exception", "BaseException")
LAST_RESORTS = ["wizard/cli.py", "wizard/screens/app.py", "wizard/screens/dialog_host.py"]
"""All that catches everything: a fault is then said in a sentence, and on the screens the work goes on."""


def run(*argv: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *argv], cwd=TOP, capture_output=True, text=True, timeout=600, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_ruff_finds_nothing() -> None:
    run("ruff", "check", "wizard", "tests")


def test_every_file_is_formatted() -> None:
    run("ruff", "format", "--check", "wizard", "tests")


def test_the_type_checker_finds_nothing() -> None:
    run("mypy")


def test_a_file_is_a_small_room() -> None:
    assert {name: lines for name, text in TEXTS.items() if (lines := len(text.splitlines())) > MOST_LINES} == {}


def test_every_module_and_public_name_says_what_it_is() -> None:
    assert [name for name, tree in TREES.items() if tree.body and not ast.get_docstring(tree)] == []
    silent = [
        f"{name}: {node.name}"
        for name, tree in TREES.items()
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


def test_nothing_is_caught_that_was_not_thought_of() -> None:
    found = [name for name, tree in TREES.items() for node in ast.walk(tree) if _catches_all(node)]
    assert found == LAST_RESORTS


def _catches_all(node: ast.AST) -> bool:
    if not isinstance(node, ast.ExceptHandler):
        return False
    caught = node.type.elts if isinstance(node.type, ast.Tuple) else [node.type]
    return any(each is None or (isinstance(each, ast.Name) and each.id in BROAD) for each in caught)


def test_no_float_stands_where_lengths_are_worked() -> None:
    exact = {name: tree for name, tree in TREES.items() if name.startswith(EXACT)}
    assert [f"{name}:{node.lineno}" for name, tree in exact.items() for node in ast.walk(tree) if _is_float(node)] == []


def _is_float(node: ast.AST) -> TypeGuard[ast.expr]:
    if isinstance(node, ast.Constant):
        return isinstance(node.value, float)
    return isinstance(node, ast.Name) and node.id == "float"


def test_nothing_typed_reaches_an_expression_parser_or_nfkc() -> None:
    parsing = [node for name, tree in TREES.items() if name.startswith(EXACT[-1]) for node in ast.walk(tree)]
    assert {each.id for each in parsing if isinstance(each, ast.Name)} & {"eval", "exec", "compile"} == set()
    attributes = {each.attr for each in parsing if isinstance(each, ast.Attribute)}
    assert attributes & {"literal_eval", "parse_expression", "parse_units", "Quantity"} == set()
    assert [each for each in parsing if isinstance(each, ast.Constant) and each.value == "NFKC"] == []
