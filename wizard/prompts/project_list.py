"""The plain mode, from the list of a folder's projects: open one by its number, or begin one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wizard.interview.file_state import clock
from wizard.interview.job_files import begin_job, name_of
from wizard.interview.project_summary import summary_of
from wizard.interview.session import Session
from wizard.project.folder import Found, find_projects, find_templates
from wizard.project.problems import Problems
from wizard.project.project import Project
from wizard.project.store import Store
from wizard.prompts.console import (
    Command,
    Console,
    InputEnded,
    command_in,
    console_here,
    help_lines,
    meant,
    numbered,
    unclear,
)
from wizard.prompts.conversation import Conversation, problem_lines
from wizard.prompts.job_loop import converse
from wizard.render.figure_text import counted


def project_lines(number: int, found: Found) -> Iterator[str]:
    """A project in the list: name and stage, what is next, when it was changed last."""
    if isinstance(found.project, Problems):
        yield f"{number}. {found.path.name}: cannot be read, {counted(len(found.project.all), 'problem')}."
        return
    short = summary_of(found.project)
    yield f"{number}. {name_of(found)}: {short.stage}"
    yield f"Next: {short.next_action}"
    yield f"Changed: {found.changed_at.astimezone():%d %B %Y, %H:%M}"


EMPTY: Final = (
    "No project here yet.",
    "A project is one bed: its measures, its cloth, the cutting plan and the work, all in one file.",
    "Begin one with .new and a name, such as .new Juniper loft",
)
NAMELESS: Final = "It needs a name. For example: .new Juniper loft"


@dataclass
class Home:
    """The list of a folder's projects."""

    lines: Console
    folder: Path
    found: tuple[Found, ...] = ()
    leaving: bool = False
    listed: bool = False
    """True when the list was read out and has not changed since."""


def at_home(home: Home) -> None:
    """List, open, begin, until one leaves."""
    while not home.leaving:
        if not home.listed:
            read_list(home)
        _take(home, home.lines.ask("Project:"))


def read_list(home: Home) -> None:
    """Read the list out. A folder that cannot be read says why."""
    home.listed = True
    home.lines.gap()
    try:
        home.found = find_projects(home.folder)
    except OSError as error:
        home.found = ()
        home.lines.say(f"The folder {home.folder} cannot be read: {error.strerror}.")
        return
    home.lines.say(
        "Bed skirts.", f"Projects in {home.folder}:" if home.found else EMPTY[0], *EMPTY[1:] * (not home.found)
    )
    for number, each in enumerate(home.found, 1):
        home.lines.say(*project_lines(number, each))
    if home.found:
        home.lines.say("Give a number to open one. .new and a name begins one. .quit leaves. .help says more.")


def talk_in(home: Home, session: Session, path: Path) -> None:
    """Go through a job, then come back here or leave."""
    home.listed = False
    home.leaving = converse(Conversation(home.lines, session, path, clock)) == "leave"


def open_file(home: Home, path: Path) -> bool:
    """Go on with a project; False, with every problem told, when it cannot be read."""
    session = Session.resume(Store(path), clock)
    if isinstance(session, Problems):
        home.lines.say(f"{path.name} cannot be read:", *problem_lines(session))
        return False
    talk_in(home, session, path)
    return True


def _take(home: Home, line: str) -> None:
    order, text = command_in(line), line.strip()
    if order is not None:
        found = meant(LIST_COMMANDS, order[0])
        found[0].do(home, order[1]) if len(found) == 1 else home.lines.say(unclear(found, order[0]))
    elif (place := numbered(text, len(home.found))) is not None:
        open_file(home, home.found[place].path)
    elif text:
        home.lines.say(f"Not in the list: “{text}”. To begin a project of that name: .new {text}")
    else:
        home.lines.say("Give the number of a project, or .new and a name. .quit leaves.")


def _new(home: Home, name: str) -> None:
    name = name or home.lines.ask("Name of the project:").strip()
    if not name or command_in(name):
        home.lines.say(NAMELESS)
        return
    begun = begin_job(home.folder, name, _template(home))
    if isinstance(begun, str):
        home.lines.say(f"It could not be begun: {begun}")
    else:
        talk_in(home, begun.session, begun.path)


def _template(home: Home) -> Project | None:
    """What a new project begins from; nothing where there is no template to choose."""
    try:
        templates = find_templates(home.folder)
    except OSError:
        return None
    if not templates:
        return None
    home.lines.say("Begin from:")
    choices = ["Nothing: the trade's usual values", *(name_of(each) for each in templates)]
    picked = home.lines.choose("Number, or an empty line for 1:", choices)
    project = templates[picked - 1].project if picked else None
    return project if isinstance(project, Project) else None


def _again(home: Home, _: str) -> None:
    home.listed = False


def _help(home: Home, _: str) -> None:
    home.lines.say("Type the number of a project to open it.", *help_lines(LIST_COMMANDS))


def _leave(home: Home, _: str) -> None:
    home.leaving = True


LIST_COMMANDS: Final[tuple[Command[Home], ...]] = (
    Command("help", "", "Says what can be done here.", "Projects", _help),
    Command("new", "NAME", "Begins a project.", "Projects", _new),
    Command("again", "", "Reads the list again.", "Projects", _again),
    Command("quit", "", "Leaves.", "Projects", _leave),
)
"""All that can be done at the list besides opening a project."""


def run(folder: Path, lines: Console | None = None) -> bool:
    """List the projects of `folder` and go through them; True once it is left. KeyboardInterrupt passes through,
    after the job in hand is in its file."""
    with suppress(InputEnded):
        at_home(Home(lines or console_here(), folder))
    return True


def run_file(path: Path, lines: Console | None = None) -> bool:
    """Go on with the project in `path`, or list it where it is a folder; False, with all that is wrong told, when it
    cannot be read."""
    if path.is_dir():
        return run(path, lines)
    home = Home(lines or console_here(), path.parent)
    with suppress(InputEnded):
        if not open_file(home, path):
            return False
        at_home(home)
    return True
