"""The plain mode, from the list of a folder's projects: open one by its number, or start one."""

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
from wizard.project.folder import Found, find_projects, find_templates, named
from wizard.project.problems import Problems
from wizard.project.project import Project
from wizard.project.store import Store
from wizard.prompts.console import (
    Console,
    Do,
    InputEnded,
    Interrupted,
    called,
    console_here,
    help_line,
    numbered,
    order_in,
    said,
)
from wizard.prompts.conversation import Conversation
from wizard.prompts.job_orders import converse
from wizard.trade.formatting import counted


def project_lines(number: int, found: Found) -> Iterator[str]:
    """A project in the list: name and stage, what is next, when it was changed last."""
    if isinstance(found.project, Problems):
        yield f"{number}. {found.path.name}: cannot be read, {counted(len(found.project.all), 'problem')}."
        return
    short = summary_of(found.project)
    yield f"{number}. {name_of(found)}: {short.stage}"
    yield f"Next: {short.next_action}"
    yield f"Changed: {found.changed_at.astimezone():%d %B %Y, %H:%M}"


@dataclass
class Home:
    """The list of a folder's projects."""

    lines: Console
    folder: Path
    found: tuple[Found, ...] = ()
    leaving: bool = False


def at_home(home: Home) -> None:
    """List, open and start projects until the maker leaves."""
    if not home.leaving:
        again(home, "")
    while not home.leaving:
        with suppress(Interrupted):
            line = home.lines.ask("Project:").strip()
            if (order := order_in(line, NAMES)) is not None:
                home.lines.carry_out(order, ORDERS, home)
            elif (place := numbered(line, len(home.found))) is not None:
                open_file(home, home.found[place].path)
            else:
                home.lines.say(said("begin", line) if line else "", said("projects"))


def again(home: Home, _: str) -> None:
    """Read the list again."""
    home.lines.names = NAMES
    home.lines.put([""])
    try:
        home.found = find_projects(home.folder)
    except OSError as error:
        home.found = ()
        home.lines.say(f"The folder {home.folder} cannot be read: {error.strerror}.")
        return
    home.lines.say("Bed skirts.", f"Projects in {named(home.folder)}:" if home.found else said("no project"))
    home.lines.say(*(line for at, each in enumerate(home.found, 1) for line in project_lines(at, each)))
    home.lines.say(said("projects") if home.found else "")


def talk_in(home: Home, session: Session, path: Path) -> None:
    """Go through a job, then come back here or leave."""
    home.leaving = converse(Conversation(home.lines, session, path)) == "leave"
    if not home.leaving:
        again(home, "")


def open_file(home: Home, path: Path) -> bool:
    """Go on with a project; False, with every problem told, when it cannot be read."""
    session = Session.resume(Store(path), clock)
    if isinstance(session, Problems):
        home.lines.say(f"{path.name} cannot be read:", *session.lines)
        return False
    talk_in(home, session, path)
    return True


def new(home: Home, name: str) -> None:
    """Start a project of that name."""
    name = name or home.lines.name("Name of the project:")
    if not name:
        home.lines.say(said("nameless"))
        return
    begun = begin_job(home.folder, name, _template(home))
    if isinstance(begun, str):
        home.lines.say(f"It could not be started: {begun}")
    else:
        talk_in(home, begun.session, begun.path)


def _template(home: Home) -> Project | None:
    """What a new project starts from; nothing where there is no template to choose, or none is chosen."""
    with suppress(OSError, Interrupted):
        if templates := find_templates(home.folder):
            home.lines.say("Start from:")
            names = ["Nothing: the trade's usual values", *map(name_of, templates)]
            project = templates[picked - 1].project if (picked := home.lines.choose("Number [1]:", names)) else None
            return project if isinstance(project, Project) else None
    return None


def help_(home: Home, _: str) -> None:
    """Say what can be done here."""
    home.lines.say("Type the number of a project to open it.", *map(help_line, ORDERS))


def quit_(home: Home, _: str) -> None:
    """Leave."""
    home.leaving = True


ORDERS: Final[tuple[Do[Home], ...]] = (help_, new, again, quit_)
"""All that can be done at the list besides opening a project."""
NAMES: Final = frozenset(called(each) for each in ORDERS)


def run(path: Path, lines: Console | None = None) -> bool:
    """Go on with the project in `path`, or list those of a folder and go through them; False, with all that is wrong
    told, when it cannot be read. KeyboardInterrupt passes through, after the job in hand is in its file."""
    folder = path if path.is_dir() else path.parent
    home = Home(lines or console_here(), folder)
    with suppress(InputEnded):
        if path != folder and not open_file(home, path):
            return False
        at_home(home)
    return True
