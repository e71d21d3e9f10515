"""Small faults to put into a source file, each at one place: what a mutant is, whatever is done with it."""

from __future__ import annotations

import ast
import hashlib
import re
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate, pairwise
from pathlib import Path
from typing import NamedTuple

COMPARED = {
    ast.Lt: ("<", "<="), ast.LtE: ("<=", "<"), ast.Gt: (">", ">="), ast.GtE: (">=", ">"),
    ast.Eq: ("==", "!="), ast.NotEq: ("!=", "=="), ast.In: ("in", "not in"), ast.NotIn: ("not in", "in"),
    ast.Is: ("is", "is not"), ast.IsNot: ("is not", "is"),
}  # fmt: skip
WORKED = {
    ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"),
    ast.FloorDiv: ("//", "*"), ast.Mod: ("%", "*"),
}  # fmt: skip
JOINED = {ast.And: ("and", "or"), ast.Or: ("or", "and")}
GUARDS = {"frozen", "strict"}
"""Keywords that only hold back mistakes of our own: what a program does is the same without them."""
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}


class Mutant(NamedTuple):
    """One fault: the bytes from `start` to `end` of the file read `text` instead."""

    path: Path
    line: int
    start: int
    end: int
    text: str
    fault: str
    """In words, as `< -> <=`."""
    key: str
    """What it is, whatever the file is called and wherever in it the line is."""

    def source(self) -> bytes:
        """The file with the fault in it."""
        whole = self.path.read_bytes()
        return whole[: self.start] + self.text.encode() + whole[self.end :]


def mutants_of(path: Path) -> Iterator[Mutant]:
    """Every fault that can be put into a file. Docstrings, annotations and sentences are left alone."""
    whole = path.read_bytes()
    lines = whole.splitlines(keepends=True)
    starts = list(accumulate(map(len, lines), initial=0))

    def at(line: int, column: int) -> int:
        return starts[line - 1] + column

    met: Counter[str] = Counter()
    for first, last, text in _faults(ast.parse(whole)):
        begin, end = at(*first), at(*last)
        found = whole[begin:end].decode()
        if isinstance(text, tuple):  # An operator: somewhere between its two sides.
            place = re.search(rf"(?<![\w<>=!*/]){re.escape(text[0])}(?![\w<>=*/])".replace(" ", r"\s+"), found)
            if place is None:
                continue
            begin, end = begin + len(found[: place.start()].encode()), begin + len(found[: place.end()].encode())
            found, text = place[0], text[1]
        line = whole[:begin].count(b"\n") + 1
        fault = f"{found} -> {text or 'nothing'}"
        said = f"{lines[line - 1].decode().strip()} | {fault}"
        met[said] += 1
        yield Mutant(path, line, begin, end, text, fault, f"{said} | {met[said]}")


def sampled(folder: Path, seed: int, number: int) -> list[Mutant]:
    """So many mutants of the files of a folder, the same ones for a seed as long as their lines stay the same."""
    every = [mutant for path in sorted(folder.rglob("*.py")) for mutant in mutants_of(path)]
    return sorted(every, key=lambda each: hashlib.sha256(f"{seed} {each.key}".encode()).digest())[:number]


Place = tuple[int, int]
Fault = tuple[Place, Place, str | tuple[str, str]]
"""From a place to a place (line, column in bytes), another text; of an operator, what is looked for and the other."""


def _faults(tree: ast.AST) -> Iterator[Fault]:
    for node in _code(tree):
        yield from _of_operators(node)
        yield from _of_values(node)


def _of_operators(node: ast.AST) -> Iterator[Fault]:
    match node:
        case ast.Compare(left=left, ops=ops, comparators=comparators):
            for one, operator, other in zip([left, *comparators], ops, comparators, strict=False):
                yield _end(one), _start(other), COMPARED[type(operator)]
        case ast.BinOp(left=left, op=op, right=right) if type(op) in WORKED:
            yield _end(left), _start(right), WORKED[type(op)]
        case ast.AugAssign(target=target, op=op, value=value) if type(op) in WORKED:
            old, new = WORKED[type(op)]
            yield _end(target), _start(value), (f"{old}=", f"{new}=")
        case ast.BoolOp(op=op, values=values):
            for one, other in pairwise(values):
                yield _end(one), _start(other), JOINED[type(op)]


def _of_values(node: ast.AST) -> Iterator[Fault]:
    match node:
        case ast.UnaryOp(op=ast.Not() | ast.USub() as op):
            line, column = _start(node)
            yield (line, column), (line, column + len("not" if isinstance(op, ast.Not) else "-")), ""
        case ast.Constant(value=bool(value)):
            yield _start(node), _end(node), str(not value)
        case ast.Constant(value=int(value)):
            yield _start(node), _end(node), str(value + 1)
        case ast.Name(id=name, ctx=ast.Load()) if name in CALLED:
            yield _start(node), _end(node), CALLED[name]


def _code(node: ast.AST) -> Iterator[ast.expr | ast.stmt]:
    """Every node that does something when it runs."""
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "type_params") or (isinstance(node, ast.keyword) and node.arg in GUARDS):
            continue
        for each in value if isinstance(value, list) else [value]:
            if isinstance(each, ast.expr | ast.stmt):
                yield each
            if isinstance(each, ast.AST) and not _of_types(each):
                yield from _code(each)


def _of_types(node: ast.AST) -> bool:
    """A block that only a type checker reads."""
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def _start(node: ast.expr | ast.stmt) -> Place:
    return node.lineno, node.col_offset


def _end(node: ast.expr | ast.stmt) -> Place:
    return node.end_lineno or node.lineno, node.end_col_offset or node.col_offset
