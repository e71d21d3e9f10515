"""The yardstick: a bare Textual app with the same kinds of widget as the screen of a job, and nothing of the trade.

It repeats under its field what is typed there, and asks the next question on Enter.
"""

from __future__ import annotations

from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.widgets import Button, Input, OptionList, Static

READY = "The first question"


class BareApp(App[None]):
    """Heading, six marks, a question with its field, two lists, a foot of buttons."""

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding(f"f{number}", "nothing", "Nothing") for number in range(1, 13)]
    CSS = """
    #heading, #foot, #offers, #buttons { height: 1; }
    #foot { dock: bottom; }
    #stages { height: 2; }
    #stages Static, Button { width: auto; min-width: 0; height: 1; border: none; margin-right: 2; }
    #middle { height: 1fr; }
    #body { width: 1fr; }
    #scrolled { height: 1fr; }
    #answer { height: auto; }
    #side { width: 44; }
    #other, #picks { display: none; }
    """

    def compose(self) -> ComposeResult:
        """Everything there is."""
        with HorizontalGroup(id="heading"):
            yield Static("A heading")
            yield Static("saved")
        with HorizontalGroup(id="stages"):
            for number in range(6):
                yield Static(f"Mark {number}\n------")
        with HorizontalGroup(id="middle"):
            yield from self._body()
            yield OptionList(*(f"  figure {number}" for number in range(24)), id="side", markup=False)
        with HorizontalGroup(id="foot"):
            for number in range(8):
                yield Button(f"F{number} Do {number}", compact=True)

    def _body(self) -> ComposeResult:
        with Vertical(id="body"):
            yield Static(READY, id="title")
            with VerticalScroll(id="scrolled", can_focus=False):
                for number in range(3):
                    yield Static(f"Some words in line {number}.")
                yield Static("\n".join("|" * 60 for _ in range(9)))
            with Vertical(id="answer"):
                yield Input(id="field", select_on_focus=False)
                yield OptionList(id="picks", markup=False)
                yield Static(id="echo")
                with HorizontalGroup(id="offers"):
                    for _ in range(3):
                        yield Button("Offer", compact=True)
            with HorizontalGroup(id="other"):
                yield OptionList(id="steps", markup=False)
                with VerticalScroll():
                    yield Static()
                with HorizontalGroup(id="buttons"):
                    yield Button("Tick", compact=True)
                    yield Button("Note", compact=True)

    def on_mount(self) -> None:
        """Type at once."""
        self.query_one("#field").focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Say what was typed."""
        self.query_one("#echo", Static).update(f"= {event.value}" if event.value else "")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Empty the field."""
        event.input.value = ""


if __name__ == "__main__":
    BareApp().run()
