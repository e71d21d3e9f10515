"""The command line in one place: words, options, examples. Loads argparse and names, and nothing that takes time."""

from __future__ import annotations

import argparse
import datetime
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NoReturn, cast

from wizard import __version__
from wizard.commands.exits import exit_table
from wizard.render.sheet_names import BY_NAME, ENDINGS, TITLES, USUAL, SheetId

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

NARROWEST: Final = 60
"""Fewest columns a text sheet is laid out for."""
WIDEST: Final = 240
"""Most columns a text sheet is laid out for."""
ALL_SHEETS: Final = "all"
"""Names every sheet at once."""
SHELLS: Final = ("bash", "zsh", "fish")
"""Shells that a completion can be printed for."""

USUAL_PORT: Final = 8127
"""Where the page is on this computer unless another port is named."""
HIGHEST_PORT: Final = 65535
"""The last port there is."""

_ABOUT = """A guided wizard for bed skirts made in sections: measure, choose, cut, sew, hang.

Alone on a terminal it lists the projects of this folder; with a FILE it opens it where the work stopped. \
The commands print the same plan without a screen."""

_PLAIN = "plain numbered lines: for screen readers and scripts, and where ACCESSIBLE=1 or TERM=dumb is set"

_NO_MOUSE = "leave the mouse to the terminal, to mark and copy text with it"

_KEYS = "a file of your own keys; ~/.config/railskirt/keys.toml if there (see railskirt keys)"

_STREAMS = "Results go to standard output, remarks and errors to standard error."


def whole_columns(text: str) -> int:
    """A whole number of columns from NARROWEST to WIDEST; ArgumentTypeError with a sentence for anything else."""
    number = int(text) if text.isascii() and text.isdigit() and len(text) <= len(str(WIDEST)) else 0
    if not NARROWEST <= number <= WIDEST:
        raise argparse.ArgumentTypeError(f"{text!r} is no width from {NARROWEST} to {WIDEST} columns, such as 80")
    return number


def port(text: str) -> int:
    """A port from 0 to 65535; ArgumentTypeError with a sentence for anything else."""
    if not (text.isascii() and text.isdigit() and len(text) <= 5 and int(text) <= HIGHEST_PORT):
        raise argparse.ArgumentTypeError(f"{text!r} is no port from 0 to {HIGHEST_PORT}, such as {USUAL_PORT}")
    return int(text)


def sheet_names(text: str) -> tuple[SheetId, ...]:
    """Sheets by their names, with commas between them, or `all`; ArgumentTypeError with a sentence for another name."""
    if text == ALL_SHEETS:
        return tuple(TITLES)
    names = [each.strip() for each in text.split(",")]
    unknown = [each for each in names if each not in TITLES]
    if unknown:
        raise argparse.ArgumentTypeError(f"there is no sheet {unknown[0]!r}. There are {', '.join(TITLES)}; or all")
    return tuple(cast("SheetId", each) for each in names)


def sheet_date(text: str) -> str:
    """A date, year first; ArgumentTypeError with a sentence for anything else."""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date, year first, such as 2026-03-02") from None


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
    _wizard_options(parser)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands", prog="railskirt")
    for add in (_open, _list, _new, _demo, _sheet, _check, _schema, _keys, _completion, _serve):
        add(commands)
    return parser


def _wizard_options(parser: argparse.ArgumentParser) -> None:
    """How the wizard is shown."""
    parser.add_argument("--plain", action="store_true", help=_PLAIN)
    parser.add_argument("--no-mouse", action="store_true", help=_NO_MOUSE)
    parser.add_argument("--keys", metavar="KEYS", type=Path, help=_KEYS)


def _command(commands: Any, name: str, says: str, more: str, *examples: str) -> argparse.ArgumentParser:
    """One subcommand with its help, ending in examples that the tests run."""
    lines = "\n".join(f"  {each}" for each in examples)
    made: argparse.ArgumentParser = commands.add_parser(
        name,
        help=says,
        description=f"{says[0].upper()}{says[1:]}. {more}".strip(),
        epilog=f"example:\n{lines}",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    return made


def _open(commands: Any) -> None:
    made = _command(
        commands,
        "open",
        "open a project in the wizard",
        "It lands where the work stopped.\n`railskirt FILE` does the same.",
        "railskirt open juniper-loft.toml",
        "railskirt juniper-loft.toml",
        "railskirt --plain juniper-loft.toml",
    )
    made.add_argument("file", metavar="FILE", type=Path, help="the project file; a folder lists its projects")
    # An option given before the command is left alone.
    made.argument_default = argparse.SUPPRESS
    _wizard_options(made)


def _list(commands: Any) -> None:
    made = _command(
        commands,
        "list",
        "list the projects of a folder",
        "For each one its stage, its last change and what to do next. Other TOML files are passed over.",
        "railskirt list",
        "railskirt list projects",
    )
    made.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", help="where to look; ./projects if there, or .")


def _new(commands: Any) -> None:
    made = _command(
        commands,
        "new",
        "begin a project",
        "Prints the path of the new file; an existing one is never replaced.",
        'railskirt new "Juniper loft"',
        'railskirt new "Rowan room" --standard metric --folder .',
    )
    made.add_argument("name", metavar="NAME", help="what the job is called; the file is named after it")
    made.add_argument("--from", dest="template", metavar="TEMPLATE", help="a template's path, or its file's name")
    made.add_argument("--folder", metavar="DIR", type=Path, help="where to put it; ./projects if there, or .")
    made.add_argument("--standard", choices=("inches", "metric"), help="which usual values stand in; inches, or as the "
                      "template says")  # fmt: skip


def _demo(commands: Any) -> None:
    _command(
        commands,
        "demo",
        "copy the demo job into this folder and open it",
        "Asks before replacing a copy made earlier. Without a terminal it copies and says where.",
        "railskirt demo",
    )


def _sheet(commands: Any) -> None:
    made = _command(
        commands,
        "sheet",
        "write a job's sheets",
        "As text to read, HTML for the printer and the phone, SVG drawings, JSON (the whole plan) or CSV (the cut "
        "list). What is not known yet is named on the overview, and the exit status says so. Many files go into a "
        "folder; a bad one keeps no other back.\nThe JSON is described by python -m pydoc wizard.render.json_sheet",
        "railskirt sheet juniper-loft.toml",
        "railskirt sheet juniper-loft.toml --as html --out juniper-loft.html",
        "railskirt sheet juniper-loft.toml --only cutting,hanging --date 2026-03-02",
        "railskirt sheet juniper-loft.toml projects/rowan.toml --as csv --out sheets",
    )
    made.add_argument("files", metavar="FILE", type=Path, nargs="+", help="the project files")
    made.add_argument("--as", dest="form", choices=tuple(ENDINGS), default="text", help="what to write; text if not "
                      "said")  # fmt: skip
    made.add_argument("--only", metavar="SHEETS", type=sheet_names, help="some sheets, with commas between: "
                      f"{', '.join(USUAL)}; and by name only {', '.join(BY_NAME)}; or {ALL_SHEETS}. Of JSON what "
                      "stands on none of them is null; choosing has the fullness steps")  # fmt: skip
    made.add_argument("--date", metavar="DATE", type=sheet_date, help="what the sheets are dated, as 2026-03-02; today "
                      "if not said")  # fmt: skip
    made.add_argument("--columns", metavar="N", type=whole_columns, help=f"width of the text, {NARROWEST} to {WIDEST}; "
                      "as wide as the terminal up to 120, else 80")  # fmt: skip
    made.add_argument("--out", metavar="PATH", type=Path, help="a file to write to, or a folder, instead of standard "
                      "output; an earlier sheet there is replaced, another file only with --replace")  # fmt: skip
    made.add_argument("--replace", action="store_true", help="replace any file at --out but a project; its mode stays")


def _check(commands: Any) -> None:
    made = _command(
        commands,
        "check",
        "check project files",
        "Names every problem with its line and key; for a file that can be read, what is missing and looks wrong.",
        "railskirt check juniper-loft.toml",
    )
    made.add_argument("files", metavar="FILE", type=Path, nargs="+", help="the project files")


def _schema(commands: Any) -> None:
    _command(
        commands,
        "schema",
        "print the JSON Schema of the project file",
        "",
        "railskirt schema",
    )


def _keys(commands: Any) -> None:
    made = _command(
        commands,
        "keys",
        "print the wizard's keys as a file to change",
        "Each deed with the keys it has now.\nKept as ~/.config/railskirt/keys.toml (or railskirt/keys.toml in "
        "XDG_CONFIG_HOME), it is read at every start; what is wrong with it is said.",
        "railskirt keys",
    )
    made.add_argument("--keys", metavar="KEYS", type=Path, default=argparse.SUPPRESS, help="a file of keys to read; "
                      "the usual one, if there")  # fmt: skip


def _serve(commands: Any) -> None:
    made = _command(
        commands,
        "serve",
        "show the wizard in a browser",
        "Prints a link that works once, on this computer only; with --address a tablet can open it.\n"
        "Whoever opens it can read and change what is served and nothing else; sheets are downloads.\n"
        "Needs the extra named browser; Ctrl+C ends it.",
        "railskirt serve juniper-loft.toml",
        "railskirt serve --address 192.168.1.20",
    )
    made.add_argument("what", metavar="FILE|FOLDER", type=Path, nargs="?", help="a project, or a folder of them; "
                      "./projects if there, or .")  # fmt: skip
    made.add_argument(
        "--port", metavar="N", type=port, default=USUAL_PORT, help=f"{USUAL_PORT} unless named; 0 for any"
    )
    made.add_argument("--no-mouse", action="store_true", default=argparse.SUPPRESS, help="leave the mouse to the "
                      "browser, to mark and copy text with it")  # fmt: skip
    made.add_argument("--address", metavar="A", help="open it to the network at this computer's address A")


def _completion(commands: Any) -> None:
    made = _command(
        commands,
        "completion",
        "print what a shell needs to complete railskirt's words",
        "Put it where your shell looks for completions, or read it in at once.",
        "railskirt completion bash",
    )
    made.add_argument("shell", metavar="SHELL", choices=SHELLS, help=f"one of {', '.join(SHELLS)}")
