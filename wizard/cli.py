"""Arguments, the check for a terminal, and late imports: nothing is loaded before it is needed."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper, UnsupportedOperation
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Final, cast

from wizard.commands.exits import Exit, say
from wizard.commands.streams import NAME as PLAIN_SIGNS
from wizard.commands.streams import let_go, talk_may_be_lost

if TYPE_CHECKING:
    from argparse import Namespace

    from wizard.interview.session import Session

PAGE: Final = "TEXTUAL_DRIVER"
"""Set in the environment of a process that a page in a browser shows in place of a terminal."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line and give the exit status, one of :class:`Exit`. SystemExit only from argparse's own exits.

    `argv` holds the arguments without the program's name; None takes them from the interpreter.
    """
    # Objects made before the first look for cycles to clear away. The toolkits make a hundred thousand as they are
    # loaded, hardly one of them to be cleared: at the usual 700 a tenth of every start goes into looking.
    gc.set_threshold(50_000)
    _open_what_is_closed()
    for stream in (sys.stdout, sys.stderr):
        # A stream that cannot show a letter shows a plain one: a fraction or a name must not end the run.
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors=PLAIN_SIGNS)
    with talk_may_be_lost():
        return _ended(list(sys.argv[1:] if argv is None else argv))


def _ended(argv: list[str]) -> int:
    """Run the command line; whatever ends it, say so and give the status."""
    try:
        try:
            return _run(argv)
        finally:
            # Here, not when the interpreter ends: a reader gone or a full disk is then answered like any other trouble.
            sys.stdout.flush()
    except KeyboardInterrupt:
        print("\nrailskirt: stopped.", file=sys.stderr)
        return Exit.INTERRUPTED
    except BrokenPipeError:
        let_go(sys.stdout)
        return Exit.PIPE_CLOSED
    except OSError as trouble:
        let_go(sys.stdout)
        why = "standard output is closed" if isinstance(trouble, UnsupportedOperation) else trouble.strerror or trouble
        return say(f"could not go on: {why}.", Exit.NOT_SAVED)
    except Exception as fault:
        # The one place that catches everything: below it a fault is never hidden, above it nobody reads a traceback.
        from wizard.project.crash_report import fault_words, keep_report

        return say(fault_words(fault, keep_report(fault)), Exit.FAULT)


def _open_what_is_closed() -> None:
    """Put an output that takes nothing where standard output was closed (`>&-`), and one that forgets all for errors.

    Python has None there; and the next file that is opened, a project's, would get the number of what was closed.
    """
    if sys.stdout is None:
        sys.stdout = os.fdopen(os.open(os.devnull, os.O_RDONLY))
    if sys.stderr is None:
        sys.stderr = os.fdopen(os.open(os.devnull, os.O_WRONLY), "w")


def _run(argv: list[str]) -> int:
    if not argv:
        # To read no arguments would take a tenth of a start.
        return _home(cast("Namespace", SimpleNamespace(plain=False, no_mouse=False, keys=None, folder=None)))
    from wizard.commands.parser import build

    options = build().parse_args(with_command(argv))
    return _home(options) if options.command is None else _RUNNERS[options.command](options)


def with_command(argv: list[str]) -> list[str]:
    """Put `open` before a bare file, so that `railskirt FILE` opens it; options and commands stay as they are."""
    first = argv[0]
    ahead = 2 if first == "--keys" else 1
    if (first in ("--plain", "--no-mouse", "--keys") or first.startswith("--keys=")) and len(argv) > ahead:
        return [*argv[:ahead], *with_command(argv[ahead:])]
    if first in _RUNNERS or (first.startswith("-") and first != "--"):
        return argv
    return ["open", *argv]


def on_a_terminal() -> bool:
    """True when both ends are a terminal: the wizard can be seen, and typed to."""
    return sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()


def in_plain_lines(asked: bool) -> bool:
    """True when the wizard runs in plain lines: by option, also in a script; or because ACCESSIBLE is set to anything
    but 0 on this terminal, or it can only print."""
    wished = os.environ.get("ACCESSIBLE", "0") not in ("", "0") or os.environ.get("TERM") == "dumb"
    return asked or (on_a_terminal() and wished)


def _home(options: Namespace) -> int:
    """`railskirt` alone: the list of projects, on a screen where there is one."""
    if not in_plain_lines(options.plain) and not on_a_terminal():
        return _list(options)
    from wizard.project.folder import home_folder

    return _in_the_wizard(home_folder(Path()), options)


def _open(options: Namespace) -> int:
    path: Path = options.file
    if os.path.exists(path):
        return _in_the_wizard(path, options)
    from difflib import get_close_matches

    near = get_close_matches(str(path), _RUNNERS, 1)
    return _nothing_at(path, "file", f" Did you mean the command {near[0]!r}? See railskirt --help." if near else "")


def _nothing_at(path: Path, what: str, hint: str = "") -> Exit:
    from wizard.project.parse.misread import shortened

    return say(f"there is no {what} {shortened(repr(str(path)))} here.{hint}", Exit.BAD_FILE)


def _in_the_wizard(path: Path, options: Namespace) -> int:
    if PAGE in os.environ:
        from wizard.browser.confinement import confine

        confine(path)
    if in_plain_lines(options.plain):
        from wizard.prompts import project_list

        return Exit.OK if project_list.run(path) else Exit.BAD_FILE
    if not on_a_terminal() and PAGE not in os.environ:
        way_out = "To print the plan instead: railskirt sheet FILE"
        return say(f"the wizard needs a terminal, and there is none here.\n{way_out}", Exit.NOT_A_TERMINAL)
    return _on_the_screens(path, options) if path.is_dir() else _on_a_job(path, options)


def _on_a_job(path: Path, options: Namespace) -> int:
    """Go on with a job; on a terminal the problems of a file are printed where they can be read and copied."""
    from wizard.commands.check import tell_problems
    from wizard.interview.file_state import clock
    from wizard.interview.session import Session
    from wizard.project.problems import Problems
    from wizard.project.store import Store

    session = Session.resume(Store(path), clock)
    if isinstance(session, Problems) and on_a_terminal():
        tell_problems(path, session, sys.stderr)
        return Exit.BAD_FILE
    return _on_the_screens(path, options, None if isinstance(session, Problems) else session)


def _on_the_screens(path: Path, options: Namespace, session: Session | None = None) -> int:
    """The list of a folder's projects, or one project, as the options have it. `session`: that of the project."""
    from wizard.screens import keymap, launch

    try:
        return launch.run(path, session, keys_file=options.keys, mouse=not options.no_mouse)
    except keymap.NoKeysError as no:
        return say(str(no), Exit.BAD_FILE)


def _list(options: Namespace) -> int:
    from wizard.commands import listing

    return listing.run(options.folder)


def _new(options: Namespace) -> int:
    from wizard.commands.new_project import run_new

    return run_new(options.name, options.template, options.folder, options.standard)


def _demo(options: Namespace) -> int:
    from wizard.commands.new_project import confirmed, run_demo

    copied = run_demo(Path.cwd(), confirmed if on_a_terminal() else None)
    return copied if isinstance(copied, Exit) else _in_the_wizard(copied, options)


def _sheet(options: Namespace) -> int:
    from wizard.commands import sheet

    return sheet.run(options)


def _check(options: Namespace) -> int:
    from wizard.commands import check

    return check.run_check(options.files, sys.stdout)


def _serve(options: Namespace) -> int:
    from wizard.browser import NotServed
    from wizard.browser.serve import serve
    from wizard.project.folder import home_folder

    path: Path = options.what or home_folder(Path())
    if not os.path.exists(path):
        return _nothing_at(path, "file or folder")
    try:
        # As a shell has it for the number of the signal that ended a program.
        return 128 + serve(path, options.address, options.port, mouse=not options.no_mouse)
    except NotServed as refused:
        return say(str(refused), Exit.NOT_SERVED)


def _keys(options: Namespace) -> int:
    from wizard.screens import keymap

    return Exit.OK if keymap.print_keys(options.keys, sys.stdout, sys.stderr) else Exit.BAD_FILE


def _completion(options: Namespace) -> int:
    from wizard.commands.parser import print_completion

    print_completion(options.shell)
    return Exit.OK


def _schema(options: Namespace) -> int:
    import json

    from wizard.project.file_schema import schema

    print(json.dumps(schema(), ensure_ascii=False, indent=2))
    return Exit.OK


_RUNNERS: Final[dict[str, Callable[[Namespace], int]]] = {
    "open": _open,
    "list": _list,
    "new": _new,
    "demo": _demo,
    "sheet": _sheet,
    "check": _check,
    "schema": _schema,
    "keys": _keys,
    "completion": _completion,
    "serve": _serve,
}
