"""The projects of a folder: name, stage, last change, what is next. Each row is filled in after the list is there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from wizard.project.folder import Found, find_projects, find_templates
from wizard.questions.jobs import OpenJob, begin_job
from wizard.screens.deeds import bindings
from wizard.screens.dialogs import Told
from wizard.screens.foot import Foot
from wizard.screens.lines import Lines
from wizard.screens.literal import one_line, words
from wizard.screens.new_dialog import NewDialog, NewProject
from wizard.screens.projects import WAITING, list_line, resume, stage_and_action
from wizard.screens.room import RoomScreen

EMPTY = """No project here yet.

A project is one bed: its measures, its cloth, the cutting plan and the work, all in one file.
Begin one and answer one question after the other. Every answer is saved at once, so you can leave at any time."""


def unreadable(path: Path, why: str) -> Told:
    """Says that a project cannot be read, and why."""
    return Told(f"{one_line(path.name)} cannot be read", why)


class ListScreen(RoomScreen[None]):
    """The first screen."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("list")]

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder
        self.found: tuple[Found, ...] = ()
        self.waiting: Iterator[int] = iter(())

    def inside(self) -> ComposeResult:
        """Title, list, foot."""
        yield Static(words("Bed skirts"), id="list-title")
        yield Static(id="list-words", classes="quiet")
        yield Lines(id="projects", markup=False)
        yield Foot("list")

    def on_mount(self) -> None:
        """List what is there."""
        self.read_folder()

    def read_folder(self) -> None:
        """List the folder anew; the plans, which take longer, are worked once the list is shown."""
        try:
            self.found = find_projects(self.folder)
            said = f"Projects in {one_line(str(self.folder))}" if self.found else EMPTY
        except OSError as error:
            self.found, said = (), f"{one_line(str(self.folder))} cannot be read: {error.strerror}."
        self.query_one("#list-words", Static).update(words(said))
        projects = self.query_one("#projects", OptionList)
        projects.set_options(Option(list_line(each, "", WAITING)) for each in self.found)
        projects.display = bool(self.found)
        projects.highlighted = 0 if self.found else None
        self.query_one("#projects" if self.found else "#do-new_project").focus()
        self.waiting = iter(range(len(self.found)))
        self.call_after_refresh(self._fill_in)

    def action_new_project(self) -> None:
        """Ask for a name and begin."""
        try:
            templates = find_templates(self.folder)
        except OSError:
            templates = ()
        self.app.push_screen(NewDialog(templates), self._begin)

    def open_file(self, path: Path) -> None:
        """Go on with a project, or say why it cannot be read."""
        job = resume(path)
        if isinstance(job, str):
            self.read_folder()
            self.app.push_screen(unreadable(path, job))
        else:
            self._open(job)

    @on(OptionList.OptionSelected, "#projects")
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.open_file(self.found[event.option_index].path)

    def _begin(self, new: NewProject | None) -> None:
        if new is None:
            return
        job = begin_job(self.folder, new.name, new.template)
        if isinstance(job, str):
            self.app.push_screen(Told("It could not be begun", job))
        else:
            self._open(job)

    def _open(self, job: OpenJob) -> None:
        # Late, so that the list is on the screen before the rest is loaded.
        from wizard.screens.job_screen import JobScreen

        self.app.push_screen(JobScreen(job.session, job.path), self._came_back)

    def _came_back(self, _: object) -> None:
        self.read_folder()

    def _fill_in(self) -> None:
        """One row, then the next after the screen had its turn."""
        number = next(self.waiting, None)
        if number is None or not self.is_attached:
            return
        found = self.found[number]
        line = list_line(found, *stage_and_action(found))
        self.query_one("#projects", OptionList).replace_option_prompt_at_index(number, line)
        self.call_after_refresh(self._fill_in)
