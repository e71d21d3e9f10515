"""The list of projects in plain lines: open one by its number, or begin one."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from wizard.project.draft import Draft
from wizard.project.folder import Found, find_projects, find_templates
from wizard.project.problems import Problems
from wizard.project.store import Store
from wizard.prompts.job import converse
from wizard.prompts.lines import Lines
from wizard.prompts.order import Order, help_lines, meant, order_in, unclear
from wizard.prompts.projects import project_lines
from wizard.prompts.talk import Talk
from wizard.prompts.troubles import problem_lines
from wizard.questions.jobs import begin_job, name_of
from wizard.questions.keeping import clock
from wizard.questions.session import Session

EMPTY: Final = (
    "No project here yet.",
    "A project is one bed: its measures, its cloth, the cutting plan and the work, all in one file.",
    "Begin one with .new and a name, such as .new Juniper loft",
)
NAMELESS: Final = "It needs a name. For example: .new Juniper loft"


@dataclass
class Home:
    """The list of a folder's projects."""

    lines: Lines
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
    home.leaving = converse(Talk(home.lines, session, path, clock)) == "leave"


def open_file(home: Home, path: Path) -> bool:
    """Go on with a project; False, with every problem told, when it cannot be read."""
    session = Session.resume(Store(path), clock)
    if isinstance(session, Problems):
        home.lines.say(f"{path.name} cannot be read:", *problem_lines(session))
        return False
    talk_in(home, session, path)
    return True


def _take(home: Home, line: str) -> None:
    order, text = order_in(line), line.strip()
    if order is not None:
        found = meant(HOME_ORDERS, order[0])
        found[0].do(home, order[1]) if len(found) == 1 else home.lines.say(unclear(found, order[0]))
    elif text.isdecimal() and len(text) < 5 and 1 <= int(text) <= len(home.found):
        open_file(home, home.found[int(text) - 1].path)
    elif text:
        home.lines.say(f"Not in the list: “{text}”. To begin a project of that name: .new {text}")
    else:
        home.lines.say("Give the number of a project, or .new and a name. .quit leaves.")


def _new(home: Home, name: str) -> None:
    name = name or home.lines.ask("Name of the project:").strip()
    if not name or order_in(name):
        home.lines.say(NAMELESS)
        return
    begun = begin_job(home.folder, name, _template(home))
    if isinstance(begun, str):
        home.lines.say(f"It could not be begun: {begun}")
    else:
        talk_in(home, begun.session, begun.path)


def _template(home: Home) -> Draft | None:
    """What a new project begins from; nothing where there is no template to choose."""
    try:
        templates = find_templates(home.folder)
    except OSError:
        return None
    if not templates:
        return None
    home.lines.say("Begin from:", "1. Nothing: the trade's usual values")
    home.lines.say(*(f"{number}. {name_of(each)}" for number, each in enumerate(templates, 2)))
    picked = home.lines.pick("Number, or an empty line for 1:", len(templates) + 1)
    draft = templates[picked - 1].draft if picked else None
    return draft if isinstance(draft, Draft) else None


def _again(home: Home, _: str) -> None:
    home.listed = False


def _help(home: Home, _: str) -> None:
    home.lines.say("Type the number of a project to open it.", *help_lines(HOME_ORDERS))


def _leave(home: Home, _: str) -> None:
    home.leaving = True


HOME_ORDERS: Final[tuple[Order[Home], ...]] = (
    Order("help", "", "Says what can be done here.", "Projects", _help),
    Order("new", "NAME", "Begins a project.", "Projects", _new),
    Order("again", "", "Reads the list again.", "Projects", _again),
    Order("quit", "", "Leaves.", "Projects", _leave),
)
"""All that can be done at the list besides opening a project."""
