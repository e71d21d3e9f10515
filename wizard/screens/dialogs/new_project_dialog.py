"""Beginning a project: its name, and what it begins from."""

from __future__ import annotations

from typing import ClassVar

from msgspec import Struct
from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard.interview.job_files import name_of, why_not_called
from wizard.project.folder import Found
from wizard.project.project import Project
from wizard.screens.dialogs.base_dialogs import Dialog
from wizard.screens.screen_text import one_line, words
from wizard.screens.widgets.option_lists import LineList


class NewProject(Struct, frozen=True):
    """What to begin."""

    name: str
    template: Project | None


class NewDialog(Dialog[NewProject | None]):
    """Gives the name and the template, or None."""

    LONG: ClassVar[dict[str, int]] = {"#templates": 100}
    AROUND: ClassVar[int] = 13

    def __init__(self, templates: tuple[Found, ...]) -> None:
        super().__init__("A new project", None, {"begin": "Begin"})
        self.templates = templates

    def inside(self) -> ComposeResult:
        """Name, and templates where there are any."""
        yield Static(words("What is it to be called? Any name that you will know the bed by."), classes="quiet")
        yield Input(placeholder="such as Juniper loft", id="new-name")
        yield Static("Begin from", classes="quiet", id="from-words")
        yield LineList(id="templates", markup=False)
        yield Static(id="said", classes="refused")

    def on_mount(self) -> None:
        """One types at once."""
        templates = self.query_one("#templates", OptionList)
        templates.set_options(
            [
                Option("nothing: the trade's usual values"),
                *(Option(words(one_line(name_of(each)))) for each in self.templates),
            ]
        )
        templates.highlighted = 0
        templates.display = self.query_one("#from-words").display = bool(self.templates)
        self.query_one("#said").display = False
        self.query_one("#new-name").focus()

    @on(Input.Changed, "#new-name")
    def _typed(self) -> None:
        """Remove what was said of the name before."""
        self.query_one("#said").display = False

    @on(Input.Submitted, "#new-name")
    @on(OptionList.OptionSelected, "#templates")
    def _entered(self) -> None:
        self.pressed("begin")

    def pressed(self, button: str) -> None:
        """What to begin, once it has a name."""
        name = self.query_one("#new-name", Input).value
        if button == "close":
            self.answer(None)
        elif why := why_not_called(name):
            said = self.query_one("#said", Static)
            said.update(words(why))
            said.display = True
            self.query_one("#new-name").focus()
        else:
            self.answer(NewProject(name, self._template()))

    def _template(self) -> Project | None:
        at = self.query_one("#templates", OptionList).highlighted
        project = self.templates[at - 1].project if at else None
        return project if isinstance(project, Project) else None
