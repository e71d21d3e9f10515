"""The command line in one place: its arguments, its help, its completion. Loads argparse and names, and nothing that
takes time."""

from __future__ import annotations

import argparse
import datetime
import re
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NoReturn, cast

from wizard import __version__
from wizard.commands.exits import Exit
from wizard.render.sheet_names import ALSO, BY_NAME, ENDINGS, LABEL_GRIDS, PAPERS, TITLES, USUAL, SheetId

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

Arguments = Mapping[str, Mapping[str, Any]]
"""What a command takes: name -> what argparse is told of it."""

SHELLS: Final = ("bash", "zsh", "fish")
"""Shells that a completion can be printed for."""
PORT: Final = 8127
"""Where the page is on this computer unless another port is named."""


def _whole(what: str, least: int, most: int, such_as: int) -> Callable[[str], int]:
    """Reads a whole number from `least` to `most`; ArgumentTypeError with a sentence for anything else."""

    def read(text: str) -> int:
        number = int(text) if text.isascii() and text.isdigit() and len(text) <= len(str(most)) else -1
        if not least <= number <= most:
            raise argparse.ArgumentTypeError(f"{text!r} is not a {what.format(least, most)}, such as {such_as}")
        return number

    return read


def _sheet_names(text: str) -> tuple[SheetId, ...]:
    """Sheets by their names, with commas between them, or `all`; ArgumentTypeError with a sentence for another name."""
    asked = [*TITLES] if text == "all" else [each.strip() for each in text.split(",")]
    names = tuple(ALSO.get(each, each) for each in asked)
    unknown = [each for each in names if each not in TITLES]
    if unknown:
        raise argparse.ArgumentTypeError(f"there is no sheet {unknown[0]!r}. The sheets: {', '.join(TITLES)}; or all")
    return cast("tuple[SheetId, ...]", names)


def _date(text: str) -> str:
    """A date, year first; ArgumentTypeError with a sentence for anything else."""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is not a date like 2026-03-02") from None


class _Help(argparse.HelpFormatter):
    """Help as wide as the terminal: every line stays a line, and is broken where there is no room for it."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return "\n".join(_broken(line, width) for line in text.split("\n"))


def _broken(line: str, width: int) -> str:
    # Late: most starts print no help.
    import textwrap

    if line.startswith("  railskirt"):
        # An example is meant to be copied, so it is not wrapped.
        return line
    number = re.match(r" *\d+  ", line)
    return textwrap.fill(line, width, subsequent_indent=" " * (number.end() if number else 0))


class _Parser(argparse.ArgumentParser):
    """Says what was not understood, a word of any length cut short."""

    def error(self, message: str) -> NoReturn:
        # Late: hardly any start comes here.
        from wizard.project.parse.misread import shortened

        super().error(shortened(message))

    def _print_message(self, message: str, file: SupportsWrite[str] | None = None) -> None:
        """In place of argparse's own, which ends with status 0 where the help or the version could not be written."""
        if message:
            (file or sys.stderr).write(message)


_FLAG: Final = {"action": "store_true"}
_PATH: Final = {"type": Path}
_KEYS: Final = {"metavar": "KEYS", **_PATH}
_FOLDER: Final = {"metavar": "FOLDER", "nargs": "?", **_PATH}
_FILES: Final = {"metavar": "FILE", "nargs": "+", **_PATH}
_GIVEN_BEFORE: Final = {"default": argparse.SUPPRESS}
"""What was given before the command stays where it is not given again."""

_ALWAYS: Final[Arguments] = {"--plain": _FLAG, "--no-mouse": _FLAG, "--keys": _KEYS}
_COMMANDS: Final[Mapping[str, Arguments]] = {
    "open": {
        "file": {"metavar": "FILE", **_PATH},
        **{name: {**how, **_GIVEN_BEFORE} for name, how in _ALWAYS.items()},
    },
    "list": {"folder": _FOLDER},
    "new": {
        "name": {"metavar": "NAME"},
        "--from": {"dest": "template", "metavar": "TEMPLATE"},
        "--folder": {"metavar": "DIR", **_PATH},
        "--standard": {"choices": ("inches", "metric")},
    },
    "demo": {},
    "sheet": {
        "files": _FILES,
        "--as": {"dest": "form", "choices": tuple(ENDINGS), "default": "text"},
        "--only": {"metavar": "SHEETS", "type": _sheet_names},
        "--date": {"metavar": "DATE", "type": _date},
        "--columns": {"metavar": "N", "type": _whole("width from {} to {} columns", 60, 240, 80)},
        "--out": {"metavar": "PATH", **_PATH},
        "--replace": _FLAG,
        "--paper": {"choices": tuple(PAPERS)},
        "--labels": {"choices": tuple(LABEL_GRIDS), "default": "cut"},
        "--together": _FLAG,
    },
    "check": {"files": _FILES},
    "schema": {},
    "keys": {"--keys": {**_KEYS, **_GIVEN_BEFORE}},
    "completion": {"shell": {"metavar": "SHELL", "choices": SHELLS}},
    "serve": {
        "what": {**_FOLDER, "metavar": "FILE|FOLDER"},
        "--port": {"metavar": "N", "default": PORT, "type": _whole("port from {} to {}", 0, 65535, PORT)},
        "--no-mouse": {**_FLAG, **_GIVEN_BEFORE},
        "--address": {"metavar": "A"},
    },
}
"""Every command with what it takes; what the help says of each is in `help.txt`."""


def _help() -> Callable[..., str]:
    """Gives the text of `help.txt` at the first of some keys that is there, without the indent of its further lines."""
    text = Path(__file__).with_name("help.txt").read_text(encoding="utf-8")
    entries = re.split(r"^(?=[\w-])", text, flags=re.MULTILINE)[1:]
    said = dict(each.rstrip().replace("\n  ", "\n").split(": ", 1) for each in entries)
    filled = {
        "folder": "usually ./projects, or . where there is none",
        "usual": ", ".join(USUAL),
        "by_name": ", ".join(BY_NAME),
        "grids": "; ".join(f"{name} ({of})" for name, of in LABEL_GRIDS.items() if name != "cut"),
        "shells": ", ".join(SHELLS),
        "port": PORT,
    }
    return lambda *keys: next(said[each] for each in keys if each in said).format(**filled)


def build() -> argparse.ArgumentParser:
    """The whole parser. Its result has `command`, and what that command takes."""
    said = _help()
    statuses = "\n".join(f"  {each.value:>3}  {each.meaning}" for each in Exit)
    usual: dict[str, Any] = {"formatter_class": _Help, "allow_abbrev": False}
    parser = _Parser(
        prog="railskirt",
        usage="railskirt [--plain] [--no-mouse] [--keys KEYS] [FILE]\n       railskirt COMMAND ...",
        description=said("about"),
        epilog=f"example:\n  railskirt list\n\nexit status:\n{statuses}\n\n{said('streams')}",
        **usual,
    )
    parser.add_argument("--version", action="version", version=f"railskirt {__version__}")
    for name, how in _ALWAYS.items():
        parser.add_argument(name, help=said(name), **how)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands", prog="railskirt")
    for command, arguments in _COMMANDS.items():
        does, *lines = said(command).split("\n")
        more = "\n".join(each for each in lines if each[0] != ">")
        examples = "".join(f"\n  {each[2:]}" for each in lines if each[0] == ">")
        about = f"{does[0].upper()}{does[1:]}. {more}".strip()
        made = commands.add_parser(command, help=does, description=about, epilog=f"example:{examples}", **usual)
        for name, how in arguments.items():
            made.add_argument(name, help=said(f"{command} {name}", name), **how)
    return parser


def print_completion(shell: str) -> None:
    """Print what one of SHELLS needs to complete commands, options, sheets and files; made from the parser itself."""
    import shtab

    parser = build()
    (commands,) = (each for each in parser._actions if isinstance(each, argparse._SubParsersAction))
    for each in commands._get_subactions():
        # A shell has one line for a command: what it does, not the first line of its help.
        commands.choices[each.dest].description = each.help
    for action in (each for made in (parser, *commands.choices.values()) for each in made._actions):
        if action.type is Path:
            # The attribute that shtab reads: how the shell completes this argument.
            vars(action)["complete"] = shtab.DIRECTORY if action.metavar in ("FOLDER", "DIR") else shtab.FILE
    # Completes `railskirt FILE`, of which shtab knows nothing: with the project files of this folder and of
    # `./projects`, and the folders on the way to others.
    own = Path(__file__).with_name(f"complete_files.{shell}").read_text(encoding="utf-8")
    made = shtab.complete(parser, shell).rstrip()
    # The last lines of the one for zsh run it: what they need must come before them.
    last = made.rfind("\ntypeset -A opt_args\n") if shell == "zsh" else len(made)
    print(f"{made[:last]}\n\n{own}{made[last:]}")
