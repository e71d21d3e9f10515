"""`railskirt completion SHELL`: what a shell needs to complete commands, options, sheets and files."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

import shtab

from wizard.commands.exits import Exit
from wizard.commands.parser import build


def run(shell: str, out: TextIO) -> Exit:
    """Write the completion for `shell`, one of the parser's SHELLS, on `out`; made from the parser itself."""
    parser = build()
    for action in _actions(parser):
        if action.type is Path:
            # What the library looks for: how the shell finds what may stand here.
            vars(action)["complete"] = shtab.DIRECTORY if action.metavar in ("FOLDER", "DIR") else shtab.FILE
    out.write(shtab.complete(parser, shell).rstrip() + "\n")
    return Exit.OK


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    """Every action of the parser and of its commands."""
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from _actions(inner)
