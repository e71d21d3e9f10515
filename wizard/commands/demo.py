"""`railskirt demo`: a copy of the demo job in the current folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.commands.shipped import demo as shipped_demo
from wizard.project.atomic import put
from wizard.render.plain_text import literal

Ask = Callable[[str], bool]
"""Puts a question that is answered with yes or no."""


def run(folder: Path, ask: Ask | None, out: TextIO, talk: TextIO) -> Path | Exit:
    """Copy the demo into `folder` and give the copy's path, or the status when there is none.

    A copy from earlier is replaced only when `ask` says so, else it is the one given; with nobody to ask it stays,
    and the status is NOT_SAVED.
    """
    source = shipped_demo()
    if source is None:
        print("railskirt: the demo job did not come with this installation; install railskirt again.", file=talk)
        return Exit.BAD_FILE
    target = folder / source.name
    try:
        if target.exists() and ask is None:
            print(_already(target), file=talk)
            return Exit.NOT_SAVED
        if not target.exists() or (ask is not None and ask(_replace(target))):
            put(target, source.read_bytes())
    except OSError as problem:
        print(f"railskirt: could not write {literal(str(target))}: {problem.strerror or problem}.", file=talk)
        return Exit.NOT_SAVED
    if ask is None:
        print(literal(str(target)), file=out)
    return target


def _replace(target: Path) -> str:
    return f"{literal(target.name)} is here already. Replace it, and lose what was done in it?"


def _already(target: Path) -> str:
    return (
        f"railskirt: {literal(target.name)} is here already and was left as it is. "
        "Take it away first, or run this on a terminal to be asked."
    )


def ask_on(talk: TextIO) -> Ask:
    """A yes-or-no question on `talk`, answered on standard input; anything but y or yes, and no answer, is a no."""

    def ask(question: str) -> bool:
        print(f"{question} [y/N] ", end="", file=talk, flush=True)
        try:
            return input().strip().lower() in ("y", "yes")
        except EOFError:
            return False

    return ask
