"""The projects of a folder: name, stage, last change, what is next; and beginning a new one."""

from __future__ import annotations

import time
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard.interview.file_state import clock
from wizard.interview.job_files import OpenJob, begin_job, name_of, why_not_called
from wizard.interview.project_summary import summary_of
from wizard.interview.session import Session
from wizard.project.folder import Candidate, Found, candidates, find_templates, named, project_in
from wizard.project.problems import Problems
from wizard.project.project import Project, put
from wizard.project.store import Store
from wizard.screens.actions import bindings, key_binding
from wizard.screens.dialog_host import FullScreen, open_screen
from wizard.screens.dialogs.base_dialogs import ListDialog, MessageDialog
from wizard.screens.frame import ActionFooter
from wizard.screens.option_lists import Hanging, LineList, PickList
from wizard.screens.screen_text import one_line, words

NewProject = tuple[str, Project]
"""The name of the new project, and a template, or nothing but the system of lengths."""
SYSTEMS: Final = {"inches": "inches, nothing else filled in", "metric": "centimetres, nothing else filled in"}
"""What a project starts from without a template."""


class NewDialog(ListDialog[NewProject | None]):
    """Gives the name and what to start from, or None. The key that opened it takes it as it is."""

    BINDINGS: ClassVar[list[BindingType]] = [key_binding("new_project")]

    LONG: ClassVar[dict[str, int]] = {"#templates": 100}
    AROUND: ClassVar[int] = 12

    def __init__(self, templates: tuple[Found, ...]) -> None:
        super().__init__("A new project", None, {"new_project": "Start"}, "Cancel")
        self.begun_from = [(says, put(Project(), "standard", each)) for each, says in SYSTEMS.items()]
        own = ((f"the template {one_line(name_of(each))}", each.project) for each in templates)
        self.begun_from += [(says, each) for says, each in own if isinstance(each, Project)]
        self.field, self.said = Input(placeholder="such as Juniper loft", id="new-name"), Static(classes="refused")
        self.lines = PickList([each for each, _ in self.begun_from], "templates")

    def inside(self) -> ComposeResult:
        """The name, then what to start from."""
        yield Static(words("What do you want to call it? Use any name you will recognise the bed by."), classes="quiet")
        yield self.field
        yield Static("Start from", classes="quiet", id="from-words")
        yield from (self.lines, self.said)

    def on_mount(self) -> None:
        """The name is typed first."""
        self.lines.highlighted = 0
        self.field.focus()
        self._say()

    @on(Input.Changed)
    def _typed(self) -> None:
        """Remove what was said of the name before."""
        self._say()

    def _say(self, sentence: str = "") -> None:
        self.said.update(words(sentence))
        self.said.display = bool(sentence)

    @on(Input.Submitted)
    @on(OptionList.OptionSelected)
    def action_new_project(self) -> None:
        """What to begin, once it has a name."""
        if why := why_not_called(self.field.value):
            self._say(why)
            self.field.focus()
        else:
            self.answer((self.field.value, self.begun_from[self.lines.highlighted or 0][1]))


def resume(path: Path) -> OpenJob | str:
    """The job in a file, or all that keeps it from being read."""
    session = Session.resume(Store(path), clock)
    return "\n".join(session.lines) if isinstance(session, Problems) else OpenJob(session, path)


def list_line(found: Found) -> Content:
    """A project in the list: name, stage and file, then last change and what is next."""
    if isinstance(found.project, Problems):
        stage, action = "cannot be read", " ".join(found.project.lines)
    else:
        short = summary_of(found.project)
        stage, action = short.stage, short.next_action
    changed, file = f"{found.changed_at.astimezone():%d %b %Y, %H:%M}", one_line(found.path.name)
    below = f"   {file}\n{changed} · {one_line(action)}"
    return Content.assemble((one_line(name_of(found)), "bold"), (f"   {stage}", "$accent"), (below, "$quiet"))


EMPTY = """No project here yet.

A project is one bed: its measurements, its cloth, the cutting plan and the work, all in one file.
Start one and answer page by page. Every answer is saved at once, so you can leave at any time."""

TURN: Final = 0.05
"""Seconds of reading files before the screen has its turn: it answers keys while a folder of thousands is read."""
PAUSE: Final = 0.002
"""Seconds of that turn at least."""


def cannot_be_read(path: Path) -> str:
    """The heading over why a project cannot be read."""
    return f"{one_line(path.name)} cannot be read"


class ListScreen(FullScreen[None]):
    """The list of projects, the first screen."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("list")]

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder
        self.found: list[Found] = []
        self.unread: Iterator[Candidate] = iter(())
        """The files of the folder that were not looked into yet."""
        self.nothing = EMPTY
        """What is said where the folder holds no project."""

    def inside(self) -> ComposeResult:
        """Title, list, foot."""
        yield Static(words("Bed skirts"), id="list-title")
        yield Static(id="list-words", classes="quiet")
        yield LineList(id="projects", markup=False)
        yield ActionFooter("list")

    def on_mount(self, _: object = None) -> None:
        """List the folder anew: as much as is read in one turn at once, the rest a turn at a time."""
        self.found, self.nothing = [], EMPTY
        try:
            self.unread = iter(candidates(self.folder))
        except OSError as error:
            self.unread, self.nothing = iter(()), f"{one_line(str(self.folder))} cannot be read: {error.strerror}."
        projects = self.query_one("#projects", OptionList)
        projects.set_options(())
        projects.display = True
        projects.focus()
        self._read_on(self.unread)

    def _read_on(self, unread: Iterator[Candidate]) -> None:
        """Put up what is read in one turn, and go on after the screen had its own."""
        if unread is not self.unread or not self.is_attached:
            # The list was begun anew meanwhile.
            return
        rows, until = list[Found](), time.monotonic() + TURN
        for each in unread:
            found = project_in(each)
            rows += [] if found is None else [found]
            if time.monotonic() > until:
                self.set_timer(PAUSE, partial(self._read_on, unread))
                break
        else:
            if not self.found and not rows:
                # With nothing to choose from, the button that starts a project has the focus.
                self._say(self.nothing)
                self.query_one("#projects").display = False
                self.query_one("#do-new_project").focus()
        projects, first = self.query_one("#projects", OptionList), bool(rows) and not self.found
        self.found += rows
        projects.add_options(Option(Hanging(list_line(each), 2)) for each in rows)
        if first:
            self._say(f"Projects in {one_line(str(named(self.folder)))}")
            projects.highlighted = 0

    def _say(self, said: str) -> None:
        self.query_one("#list-words", Static).update(words(said))

    def action_new_project(self) -> None:
        """Ask for a name and begin."""
        try:
            templates = find_templates(self.folder)
        except OSError:
            templates = ()
        open_screen(self, NewDialog(templates), self._begin)

    @on(OptionList.OptionSelected, "#projects")
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        """Go on with a project, or say why it cannot be read."""
        event.stop()
        path = self.found[event.option_index].path
        job = resume(path)
        if isinstance(job, str):
            self.on_mount()
        self._open(job, cannot_be_read(path))

    def _begin(self, new: NewProject | None) -> None:
        if new is not None:
            self._open(begin_job(self.folder, *new), "The project could not be started")

    def _open(self, job: OpenJob | str, trouble: str) -> None:
        """Show a job; where there is none, why not, under the heading `trouble`."""
        # Late, so that the list is on the screen before the rest is loaded.
        from wizard.screens.job_screen import JobScreen

        if isinstance(job, str):
            open_screen(self, MessageDialog(trouble, job))
        else:
            open_screen(self, JobScreen(job.session, job.path), self.on_mount)
