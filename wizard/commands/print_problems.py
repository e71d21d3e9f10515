"""Opening a project file for a command, and saying what is wrong with one that cannot be read."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

from wizard.project.parse.misread import shortened
from wizard.project.problems import Problem, Problems
from wizard.project.project import Project
from wizard.project.store import Store
from wizard.render.plain_text import literal


def open_project(path: Path) -> Project | Problems:
    """The project in the file at `path`, or every problem that keeps it from being read. Never changes the file."""
    opened = Store(path).open()
    return opened if isinstance(opened, Problems) else opened.project


def tell_problems(path: Path, problems: Problems, stream: TextIO) -> None:
    """Write every problem, a line each: `juniper.toml:12: survey.section.left.drop.2: sentence`."""
    for each in problems.all:
        print(problem_line(path, each), file=stream)


def problem_line(path: Path, problem: Problem) -> str:
    """One problem in one line: file, line and key as far as they are known, sentence."""
    name = shortened(literal(str(path)))
    where = name if problem.line is None else f"{name}:{problem.line}"
    return ": ".join(each for each in (where, literal(problem.key or ""), literal(problem.sentence)) if each)
