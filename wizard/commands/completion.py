"""`railskirt completion SHELL`: what a shell needs to complete commands, options, sheets and files."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Final, TextIO

import shtab

from wizard.commands.exits import Exit
from wizard.commands.parser import build

_BEFORE: Final = {"zsh": "\ntypeset -A opt_args\n"}
"""Shell -> the text before which our own lines go, where they cannot come last."""


def run(shell: str, out: TextIO) -> Exit:
    """Write the completion for `shell`, one of the parser's SHELLS, on `out`; made from the parser itself."""
    parser = build()
    for action in _actions(parser):
        if isinstance(action, argparse._SubParsersAction):
            _say_shortly(action)
        if action.type is Path:
            # The attribute that shtab reads: how the shell completes this argument.
            vars(action)["complete"] = shtab.DIRECTORY if action.metavar in ("FOLDER", "DIR") else shtab.FILE
    made, own = shtab.complete(parser, shell).rstrip(), own_lines(shell)
    mark = _BEFORE.get(shell)
    # The last lines of this completion run it: what they need must come before them.
    out.write(f"{made}\n\n{own}" if mark is None else made.replace(mark, f"\n{own}\n{mark}") + "\n")
    return Exit.OK


def own_lines(shell: str) -> str:
    """Lines that complete `railskirt FILE`, of which shtab knows nothing: the project files of this folder and of
    `./projects`, and the folders on the way to others."""
    return (files("wizard.commands") / f"complete_files.{shell}").read_text(encoding="utf-8")


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
