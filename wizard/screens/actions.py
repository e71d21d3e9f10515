"""What a person can do: one table that feeds keys, buttons, the list of all actions and the help.

A deed's `id` is the name of the action method of the screen (or of the app) that does it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Literal

from msgspec import Struct

if TYPE_CHECKING:
    from textual.binding import BindingType


Context = Literal["list", "job", "roll", "anywhere"]


class Action(Struct, frozen=True):
    """One thing a person can do."""

    id: str
    keys: str
    """As the toolkit names them, several with commas between; the first is the one shown. Empty where there is no key
    of its own: it is in the list of all actions, and has a button where it is wanted."""
    shown: str
    """The first key as it stands on keyboards."""
    words: str
    """On the button and in the list of all actions."""
    says: str
    """One sentence for the help."""
    room: Context
    button: bool = False
    """True when it has a place of its own in the foot of the screen; all others are under More."""

    @property
    def first(self) -> bool:
        """True when it takes a key from the field one types in, because it has to be at hand there."""
        return self.id == "large"


ACTIONS: Final = (
    Action("step_back", "escape", "Esc", "Back", "Goes back one question or step. Nothing is lost.", "job", True),
    Action("step_next", "f8,ctrl+n", "F8", "Next", "Takes the answer and goes on, as Enter does.", "job", True),
    Action("why", "f2", "F2", "Why", "Shows the plan so far; each figure tells how it was worked.", "job", True),
    Action("go_to", "f3,ctrl+g", "F3", "Go to", "Lists every question and step; go anywhere.", "job", True),
    Action("findings", "f4", "F4", "Findings", "Lists what looks wrong, with the way out of each.", "job", True),
    Action("undo", "f5", "F5", "Undo", "Takes the last answer back.", "job"),
    Action("redo", "f6", "F6", "Redo", "Gives the answer again that was taken back.", "job"),
    Action("cutting", "f7", "F7", "Cutting plan", "Shows how the cloth is cut.", "job"),
    Action("roll", "shift+f7", "Shift+F7", "Roll to scale", "Shows the roll and its cuts to scale, to move over.",
           "job"),
    Action("ways", "f11", "F11", "Ways of cutting", "Sets the ways of cutting beside each other.", "job"),
    Action("fullness", "f10", "F10", "Fullness steps", "Moves along the fullness each length of roll gives.", "job"),
    Action("work", "f9", "F9", "The work", "Shows the steps to tick off, where the work stopped.", "job"),
    Action("large", "ctrl+f", "Ctrl+F", "Large figures", "One question or step fills the screen, or no more.", "job"),
    Action("sheets", "ctrl+s", "Ctrl+S", "Sheets", "Writes the sheets to print, or to carry to the bed.", "job"),
    Action("copy", "ctrl+y", "Ctrl+Y", "Copy", "Copies a figure, a list or a sheet to the clipboard.", "job"),
    Action("note", "ctrl+o", "Ctrl+O", "Note", "Writes a note to the step in hand.", "job"),
    Action("timer", "ctrl+d", "Ctrl+D", "Timer", "Times the step in hand, or times it no more.", "job"),
    Action("minutes", "shift+f9", "Shift+F9", "Minutes", "Writes down the minutes that the step in hand took.", "job"),
    Action("take_out", "ctrl+r", "Ctrl+R", "Take out", "Takes out what was added and is asked about here.", "job"),
    Action("keep_template", "ctrl+t", "Ctrl+T", "Keep as template", "Writes the choices down for later jobs.", "job"),
    Action("show_list", "ctrl+l", "Ctrl+L", "Projects", "Goes back to the list of projects.", "job"),
    Action("zoom_in", "plus,equals_sign", "+", "Nearer", "On the roll to scale: comes nearer.", "roll"),
    Action("zoom_out", "minus,underscore", "-", "Farther", "On the roll to scale: goes farther away.", "roll"),
    Action("go_left", "left", "←", "Left", "On the roll to scale: moves to the left edge.", "roll"),
    Action("go_right", "right", "→", "Right", "On the roll to scale: moves to the right edge.", "roll"),
    Action("go_up", "up,pageup", "↑", "Up", "On the roll to scale: moves to the squared end.", "roll"),
    Action("go_down", "down,pagedown", "↓", "Down", "On the roll to scale: moves on along the roll.", "roll"),
    Action("see_whole", "home", "Home", "All", "On the roll to scale: shows all of the length.", "roll"),
    Action("see_width", "end", "End", "Width", "On the roll to scale: shows the whole width, large.", "roll"),
    Action("next_length", "n", "N", "Next length", "On the roll to scale: the next length of cloth.", "roll"),
    Action("new_project", "f8,ctrl+n", "F8", "New", "Begins a new project.", "list", True),
    Action("more", "ctrl+p", "Ctrl+P", "More", "Lists everything that can be done here.", "anywhere", True),
    Action("change_light", "f12", "F12", "Light or dark", "Changes between the light and the dark colours.",
           "anywhere"),
    Action("suspend_process", "ctrl+z", "Ctrl+Z", "To the shell", "Goes to the shell; fg comes back.", "anywhere"),
    Action("help", "f1", "F1", "Help", "Says how to answer, and every key.", "anywhere", True),
    Action("leave", "ctrl+q,ctrl+c", "Ctrl+Q", "Leave", "Leaves. Every answer is in the file already.",
           "anywhere", True),
)  # fmt: skip
"""Every deed, in the order of buttons and help."""


def actions_in(room: Context, table: tuple[Action, ...] = ACTIONS) -> tuple[Action, ...]:
    """What can be done in `room`, with what can be done anywhere; `table` has the keys in use."""
    return tuple(each for each in table if each.room in (room, "anywhere"))


def actions_of(app: object) -> tuple[Action, ...]:
    """The deeds with the keys that an app goes by."""
    table: tuple[Action, ...] = getattr(app, "deeds", ACTIONS)
    return table


def key_shown(app: object, id: str) -> str:
    """The key of a deed in an app, as it stands on keyboards."""
    return next(each.shown for each in actions_of(app) if each.id == id)


def action_string(deed: Action) -> str:
    """The action as the toolkit runs it from a screen: what can be done anywhere is done by the app."""
    if deed.room == "roll":
        return f"focused.{deed.id}"
    return f"app.{deed.id}" if deed.room == "anywhere" else deed.id


def bindings(room: Context) -> list[BindingType]:
    """The keys of one room only, for the class that has the action methods."""
    return [_bound(each) for each in ACTIONS if each.room == room and each.keys]


def key_binding(id: str) -> BindingType:
    """The keys of one deed, for a dialog where it can be done too."""
    deed = next(each for each in ACTIONS if each.id == id)
    return _bound(deed, action_string(deed))


def _bound(deed: Action, action: str = "") -> BindingType:
    # Late, so that the table can be read without the toolkit.
    from textual.binding import Binding

    return Binding(
        deed.keys, action or deed.id, deed.words, tooltip=deed.says, id=deed.id, show=False, priority=deed.first
    )
