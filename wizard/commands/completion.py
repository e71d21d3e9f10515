"""`railskirt completion SHELL`: what a shell needs to complete commands, options, sheets and files."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import Final, TextIO

import shtab

from wizard.commands.bare_file import AFTER
from wizard.commands.exits import Exit
from wizard.commands.parser import build

_BEFORE: Final = {"zsh": "\ntypeset -A opt_args\n"}
"""Shell -> what our own lines stand before, where they cannot come last."""


def run(shell: str, out: TextIO) -> Exit:
    """Write the completion for `shell`, one of the parser's SHELLS, on `out`; made from the parser itself."""
    parser = build()
    for action in _actions(parser):
        if isinstance(action, argparse._SubParsersAction):
            _say_shortly(action)
        if action.type is Path:
            # What the library looks for: how the shell finds what may stand here.
            vars(action)["complete"] = shtab.DIRECTORY if action.metavar in ("FOLDER", "DIR") else shtab.FILE
    made = shtab.complete(parser, shell).rstrip()
    mark = _BEFORE.get(shell)
    if mark is None:
        out.write(f"{made}\n{AFTER[shell]}")
    else:
        # The last lines of this one call it: what it needs has to stand before them.
        out.write(made.replace(mark, f"{AFTER[shell]}\n{mark}") + "\n")
    return Exit.OK


def _say_shortly(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """A shell has one line for a command: what it does, not the first line of its help."""
    for each in commands._get_subactions():
        commands.choices[each.dest].description = each.help


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    """Every action of the parser and of its commands."""
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from _actions(inner)
