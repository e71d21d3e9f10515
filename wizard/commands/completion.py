"""`railskirt completion SHELL`: what a shell needs to complete commands, options, sheets and files."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import Final, TextIO

import shtab

from wizard.commands.exits import Exit
from wizard.commands.parser import build

AFTER: Final[dict[str, str]] = {
    "bash": """
# A project file may stand where a command may. $1 is the word so far.
_railskirt_project_files() {
  local each
  compgen -f -X '!*.toml' -- "$1"
  compgen -d -- "$1"
  [[ $1 == */* ]] || for each in projects/*.toml; do
    [[ -f $each && $each == "$1"* ]] && printf '%s\\n' "$each"
  done
}
_shtab_railskirt_pos_0_COMPGEN=_railskirt_project_files
""",
    "zsh": """
# A project file may stand where a command may.
functions[_railskirt_commands_only]=$functions[_shtab_railskirt_commands]
_shtab_railskirt_commands() {
  _railskirt_commands_only
  local found=$?
  if [[ $PREFIX != */* ]]; then
    compadd -f -- projects/*.toml(N) && found=0
  fi
  _files -g '*.toml' && found=0
  return $found
}
""",
    "fish": """
# A project file may stand where a command may.
function _railskirt_project_files
  set -l word (commandline -ct)
  # Into a variable: a pattern that matches nothing is a complaint anywhere else.
  set -l here projects/*.toml
  string match -q -- '*/*' "$word"; or printf '%s\\n' $here
  for each in (__fish_complete_path "$word")
    string match -q -r -- '(\\.toml|/)(\\t|$)' "$each"; and printf '%s\\n' "$each"
  end
end
complete -c railskirt -n '_shtab_railskirt_using; and test $_shtab_railskirt_npos -eq 0' -a '(_railskirt_project_files)'
""",
}
"""Shell -> lines that complete `railskirt FILE`, of which shtab knows nothing: the project files of this folder and of
`./projects`, and the folders on the way to others."""


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
    made = shtab.complete(parser, shell).rstrip()
    mark = _BEFORE.get(shell)
    if mark is None:
        out.write(f"{made}\n{AFTER[shell]}")
    else:
        # The last lines of this completion run it: what they need must come before them.
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
