"""Beginning a project: its name, and what it begins from."""

from __future__ import annotations

from typing import ClassVar, Final

from msgspec import Struct
from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard.interview.job_files import name_of, why_not_called
from wizard.project.folder import Found
from wizard.project.project import Project, put
from wizard.screens.dialogs.base_dialogs import Dialog
from wizard.screens.screen_text import one_line, words
from wizard.screens.widgets.option_lists import LineList


class NewProject(Struct, frozen=True):
    """What to begin."""

    name: str
    begun_from: Project
    """A template, or nothing but the system of lengths."""


SYSTEMS: Final = {"inches": "inches, with nothing else chosen", "metric": "centimetres, with nothing else chosen"}
"""What is begun from without a template."""


class NewDialog(Dialog[NewProject | None]):
    """Gives the name and what to begin from, or None."""

    LONG: ClassVar[dict[str, int]] = {"#templates": 100}
    AROUND: ClassVar[int] = 12

    def __init__(self, templates: tuple[Found, ...]) -> None:
        super().__init__("A new project", None, {"begin": "Begin"}, "Cancel")
        self.templates = [(each, each.project) for each in templates if isinstance(each.project, Project)]

    def inside(self) -> ComposeResult:
        """The name, then what to begin from."""
        yield Static(words("What do you want to call it? Any name that you will know the bed by."), classes="quiet")
        yield Input(placeholder="such as Juniper loft", id="new-name")
        yield Static("Begin with", classes="quiet", id="from-words")
        titles = (*SYSTEMS.values(), *(f"the template {one_line(name_of(each))}" for each, _ in self.templates))
        yield LineList(*(Option(words(each)) for each in titles), id="templates", markup=False)
        yield Static(id="said", classes="refused")

    def on_mount(self) -> None:
        """The name is typed first."""
        self.query_one(LineList).highlighted = 0
        self.query_one("#new-name").focus()
        self._say("")

    def _say(self, sentence: str) -> None:
        said = self.query_one("#said", Static)
        said.update(words(sentence))
        said.display = bool(sentence)

    @on(Input.Changed, "#new-name")
    def _typed(self) -> None:
        """Remove what was said of the name before."""
        self._say("")

    @on(Input.Submitted, "#new-name")
    @on(OptionList.OptionSelected, "#templates")
    def action_begin(self) -> None:
        """What to begin, once it has a name."""
        name = self.query_one("#new-name", Input).value
        if why := why_not_called(name):
            self._say(why)
            self.query_one("#new-name").focus()
        else:
            plain = [put(Project(), "standard", each) for each in SYSTEMS]
            projects = [*plain, *(project for _, project in self.templates)]
            self.answer(NewProject(name, projects[self.query_one(LineList).highlighted or 0]))
