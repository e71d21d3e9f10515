"""The command line in one place: words, options, examples. Loads argparse and names, and nothing that takes time."""

from __future__ import annotations

import argparse
import datetime
import re
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple, NoReturn, cast

from wizard import __version__
from wizard.commands.exits import exit_table
from wizard.render.sheet_names import ALSO, BY_NAME, ENDINGS, TITLES, USUAL, SheetId

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

ALL_SHEETS: Final = "all"
"""Names every sheet at once."""
SHELLS: Final = ("bash", "zsh", "fish")
"""Shells that a completion can be printed for."""
USUAL_PORT: Final = 8127
"""Where the page is on this computer unless another port is named."""

_ABOUT = """A guided wizard for bed skirts made in sections: measure, choose, cut, sew, hang.

On a terminal, railskirt alone lists the projects of this folder; with a FILE it opens that project where you stopped. \
The commands print the same plan without a screen."""

_STREAMS = "Results go to standard output, messages and errors to standard error."


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
    asked = [*TITLES] if text == ALL_SHEETS else [each.strip() for each in text.split(",")]
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


class _Argument(NamedTuple):
    """An argument of a command: its name, and what argparse is told of it."""

    name: str
    how: dict[str, Any]


def _argument(name: str, help: str, **how: Any) -> _Argument:
    return _Argument(name, {"help": help, **how})


_PLAIN: Final = _argument(
    "--plain", "plain numbered lines, for screen readers and scripts; also with ACCESSIBLE=1 or TERM=dumb",
    action="store_true",
)  # fmt: skip
_NO_MOUSE: Final = _argument("--no-mouse", "leave the mouse to the terminal, to select and copy text",
                             action="store_true")  # fmt: skip
_KEYS: Final = _argument("--keys", "a file of your own keys; usually ~/.config/railskirt/keys.toml (see railskirt "
                         "keys)", metavar="KEYS", type=Path)  # fmt: skip
_FILES: Final = _argument("files", "the project files", metavar="FILE", type=Path, nargs="+")
_USUAL_FOLDER: Final = "usually ./projects, or . where there is none"


def _given_before(each: _Argument) -> _Argument:
    """The same after a command: what was given before the command stays where it is not given again."""
    return _Argument(each.name, {**each.how, "default": argparse.SUPPRESS})


class _Command(NamedTuple):
    """A command with its help, ending in examples that the tests run."""

    name: str
    says: str
    more: str
    examples: tuple[str, ...]
    arguments: tuple[_Argument, ...] = ()


_COMMANDS: Final = (
    _Command(
        "open",
        "open a project in the wizard",
        "It opens where you stopped.\n`railskirt FILE` does the same.",
        (
            "railskirt open juniper-loft.toml",
            "railskirt juniper-loft.toml",
            "railskirt --plain juniper-loft.toml",
        ),
        (
            _argument("file", "the project file; for a folder, the wizard lists its projects", metavar="FILE",
                      type=Path),
            *map(_given_before, (_PLAIN, _NO_MOUSE, _KEYS)),
        ),
    ),
    _Command(
        "list",
        "list the projects of a folder",
        "For each project: its stage, its last change and what to do next. Other TOML files are skipped.",
        ("railskirt list", "railskirt list projects"),
        (_argument("folder", f"the folder to list; {_USUAL_FOLDER}", metavar="FOLDER", type=Path, nargs="?"),),
    ),
    _Command(
        "new",
        "start a project",
        "Prints the path of the new file. Never replaces an existing one.",
        ('railskirt new "Juniper loft"', 'railskirt new "Rowan room" --standard metric --folder .'),
        (
            _argument("name", "the name of the job; the file is named after it", metavar="NAME"),
            _argument("--from", "the path or the file name of a template", dest="template", metavar="TEMPLATE"),
            _argument("--folder", f"where to put it; {_USUAL_FOLDER}", metavar="DIR", type=Path),
            _argument("--standard", "which usual values to fill in; inches, or as in the template",
                      choices=("inches", "metric")),
        ),
    ),
    _Command(
        "demo",
        "copy the demo job into this folder and open it",
        "Asks before it replaces an earlier copy. Without a terminal it copies the job and prints where.",
        ("railskirt demo",),
    ),
    _Command(
        "sheet",
        "write a job's sheets",
        "As text to read, HTML for the printer and the phone, SVG drawings, JSON (the whole plan) or CSV (the cut "
        "list). The overview lists what is still missing, and the exit status says so. The sheets of several files go "
        "into a folder; one bad file does not stop the others.\n"
        "For what the JSON means: python -m pydoc wizard.render.json_sheet",
        (
            "railskirt sheet juniper-loft.toml",
            "railskirt sheet juniper-loft.toml --as html --out juniper-loft.html",
            "railskirt sheet juniper-loft.toml --only cutting,hanging --date 2026-03-02",
            "railskirt sheet juniper-loft.toml projects/rowan.toml --as csv --out sheets",
        ),
        (
            _FILES,
            _argument("--as", "what to write; usually text", dest="form", choices=tuple(ENDINGS), default="text"),
            _argument("--only", f"some sheets, with commas between: {', '.join(USUAL)}; written only when named: "
                      f"{', '.join(BY_NAME)}; or {ALL_SHEETS}. In JSON the keys of other sheets are null; the "
                      "fullness steps are in choosing", metavar="SHEETS", type=_sheet_names),
            _argument("--date", "the date on the sheets, such as 2026-03-02; usually today", metavar="DATE",
                      type=_date),
            _argument("--columns", "width of the text, 60 to 240; usually that of the terminal up to 120, or 80",
                      metavar="N", type=_whole("width from {} to {} columns", 60, 240, 80)),
            _argument("--out", "write to this file or folder, not to standard output; replaces an earlier sheet, and "
                      "another file only with --replace", metavar="PATH", type=Path),
            _argument("--replace", "replace any file at --out except a project; its mode stays", action="store_true"),
        ),
    ),
    _Command(
        "check",
        "check project files",
        "Lists every problem with its line and key; for a file that can be read, what is missing and what looks "
        "wrong.",
        ("railskirt check juniper-loft.toml",),
        (_FILES,),
    ),
    _Command("schema", "print the JSON Schema of the project file", "", ("railskirt schema",)),
    _Command(
        "keys",
        "print the wizard's keys, as a file to change",
        "Every action with the key it has now.\nSave it as ~/.config/railskirt/keys.toml (or railskirt/keys.toml in "
        "XDG_CONFIG_HOME) and change the keys there. It is read at every start; mistakes are reported.",
        ("railskirt keys",),
        (_given_before(_argument("--keys", "the file of keys to read; usually your own, if there is one",
                                 metavar="KEYS", type=Path)),),
    ),
    _Command(
        "completion",
        "print shell completion for railskirt",
        "Put it where your shell looks for completions, or load it straight away.",
        ("railskirt completion bash",),
        (_argument("shell", f"one of {', '.join(SHELLS)}", metavar="SHELL", choices=SHELLS),),
    ),
    _Command(
        "serve",
        "show the wizard in a browser",
        "Prints a link that works once, on this computer only; with --address a tablet can open it.\n"
        "Whoever opens it can read and change what you serve, and nothing else; sheets are downloads.\n"
        "Needs the extra named browser. Ctrl+C ends it.",
        ("railskirt serve juniper-loft.toml", "railskirt serve --address 192.168.1.20"),
        (
            _argument("what", f"a project, or a folder of projects; {_USUAL_FOLDER}", metavar="FILE|FOLDER",
                      type=Path, nargs="?"),
            _argument("--port", f"usually {USUAL_PORT}; 0 for any free one", metavar="N", default=USUAL_PORT,
                      type=_whole("port from {} to {}", 0, 65535, USUAL_PORT)),
            _given_before(_argument("--no-mouse", "leave the mouse to the browser, to select and copy text",
                                    action="store_true")),
            _argument("--address", "open it to your network at this address of this computer", metavar="A"),
        ),
    ),
)  # fmt: skip


def build() -> argparse.ArgumentParser:
    """The whole parser. Its result has `command`, and what that command takes."""
    parser = _Parser(
        prog="railskirt",
        usage="railskirt [--plain] [--no-mouse] [--keys KEYS] [FILE]\n       railskirt COMMAND ...",
        description=_ABOUT,
        epilog=f"example:\n  railskirt list\n\nexit status:\n{exit_table()}\n\n{_STREAMS}",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"railskirt {__version__}")
    _add(parser, (_PLAIN, _NO_MOUSE, _KEYS))
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands", prog="railskirt")
    for each in _COMMANDS:
        lines = "\n".join(f"  {line}" for line in each.examples)
        made = commands.add_parser(
            each.name,
            help=each.says,
            description=f"{each.says[0].upper()}{each.says[1:]}. {each.more}".strip(),
            epilog=f"example:\n{lines}",
            formatter_class=_Help,
            allow_abbrev=False,
        )
        _add(made, each.arguments)
    return parser


def _add(parser: argparse.ArgumentParser, arguments: Iterable[_Argument]) -> None:
    for name, how in arguments:
        parser.add_argument(name, **how)
