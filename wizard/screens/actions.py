"""What a person can do: one table that feeds keys, buttons, the list of all actions and the help.

An action's `id` is the name of the action method of the screen (or of the app) that does it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Literal

from msgspec import Struct

if TYPE_CHECKING:
    from textual.binding import BindingType

Context = Literal["list", "job", "roll", "anywhere"]
"""Where an action's keys work."""


_SHOWN: Final = {
    "escape": "Esc", "insert": "Ins", "pageup": "PgUp", "pagedown": "PgDn", "delete": "Del",
    "plus": "+", "minus": "-", "equals_sign": "=", "underscore": "_",
}  # fmt: skip


def shown_key(key: str) -> str:
    """Textual's `ctrl+g` as printed on keyboards: `Ctrl+G`."""
    return "+".join(_SHOWN.get(each, each.capitalize()) for each in key.split("+"))


class Action(Struct, frozen=True):
    """One thing a person can do."""

    id: str
    keys: str
    """As Textual names them, separated by commas; the first is the one shown."""
    words: str
    """On the button and in the list of all actions."""
    says: str
    """One sentence for the help."""
    context: Context
    button: bool = False
    """True for a button in the footer; all other actions are under More."""

    @property
    def shown(self) -> str:
        """The first key as printed on keyboards."""
        return shown_key(self.keys.split(",")[0])


ACTIONS: Final = (
    Action("step_back", "escape", "Back", "Closes what is open, else goes one page or step back.", "job", True),
    Action("step_next", "f8,ctrl+n", "Next", "Takes the page as it is filled in, and goes on.", "job", True),
    Action("why", "f2", "Why", "Shows the plan so far, and how each figure is worked out.", "job", True),
    Action("go_to", "f3,ctrl+g", "Go to", "Finds any page, field or step, and goes there.", "job", True),
    Action("findings", "f4", "Findings", "Lists what looks wrong, and what to do about it.", "job", True),
    Action("undo", "f5", "Undo", "Undoes the last change.", "job"),
    Action("redo", "f6", "Redo", "Makes the change again that was undone.", "job"),
    Action("cutting", "f7", "Cutting plan", "Shows how the cloth is cut.", "job"),
    Action("roll", "shift+f7", "Roll to scale", "Shows the roll and its cuts to scale; zoom and move.", "job"),
    Action("ways", "f11", "Ways of cutting", "Goes to the page that compares the ways of cutting.", "job"),
    Action("fullness", "f10", "Fullness", "Goes to the page that compares how full the skirt can be.", "job"),
    Action("work", "f9", "The work", "Shows the steps to tick off, where you stopped.", "job"),
    Action("large", "ctrl+f", "Large figures", "Fills the screen with one field or one step.", "job"),
    Action("sheets", "ctrl+s", "Sheets", "Writes the sheets to print, or to carry to the bed.", "job"),
    Action("copy", "ctrl+y", "Copy", "Copies a figure, a list or a sheet to the clipboard.", "job"),
    Action("note", "ctrl+o", "Note", "Writes a note to the current step.", "job"),
    Action("timer", "ctrl+d", "Timer", "Starts or stops the timer of the current step.", "job"),
    Action("minutes", "shift+f9", "Minutes", "Writes down the minutes that the current step took.", "job"),
    Action("take_out", "ctrl+r", "Remove", "Removes what was added here: a thing, a length, a drop.", "job"),
    Action("keep_template", "ctrl+t", "Save as template", "Saves the choices for later jobs.", "job"),
    Action("show_list", "ctrl+l", "Projects", "Goes back to the list of projects.", "job"),
    Action("zoom_in", "plus,equals_sign", "Zoom in", "On the roll to scale: zooms in.", "roll"),
    Action("zoom_out", "minus,underscore", "Zoom out", "On the roll to scale: zooms out.", "roll"),
    Action("go_left", "left", "Go left", "On the roll to scale: moves to the left edge.", "roll"),
    Action("go_right", "right", "Go right", "On the roll to scale: moves to the right edge.", "roll"),
    Action("go_up", "up,pageup", "Go up", "On the roll to scale: moves to the squared end.", "roll"),
    Action("go_down", "down,pagedown", "Go down", "On the roll to scale: moves on along the roll.", "roll"),
    Action("see_whole", "home", "Whole roll", "On the roll to scale: shows the whole length.", "roll"),
    Action("see_width", "end", "Width", "On the roll to scale: shows the whole width, large.", "roll"),
    Action("next_length", "n", "Next length", "On the roll to scale: the next length of cloth.", "roll"),
    Action("new_project", "f8,ctrl+n", "New", "Starts a new project.", "list", True),
    Action("more", "ctrl+p", "More", "Lists everything that can be done here.", "anywhere", True),
    Action("change_light", "f12", "Light or dark", "Switches between light and dark colours.", "anywhere"),
    Action("suspend_process", "ctrl+z", "To the shell", "Goes to the shell; fg comes back.", "anywhere"),
    Action("help", "f1", "Help", "Explains the field, and lists every key.", "anywhere", True),
    Action("leave", "ctrl+q,ctrl+c", "Leave", "Leaves. Every answer is in the file already.", "anywhere", True),
)  # fmt: skip
"""Every action, in the order of buttons and help."""


def actions_in(context: Context, table: tuple[Action, ...] = ACTIONS) -> tuple[Action, ...]:
    """The actions of a context and those that work anywhere; `table` has the keys in use."""
    return tuple(each for each in table if each.context in (context, "anywhere"))


def actions_of(app: object) -> tuple[Action, ...]:
    """All actions with the keys that an app uses."""
    table: tuple[Action, ...] = getattr(app, "actions", ACTIONS)
    return table


def key_shown(app: object, id: str) -> str:
    """The key of an action in an app, as printed on keyboards."""
    return next(each.shown for each in actions_of(app) if each.id == id)


def action_string(action: Action) -> str:
    """The action as Textual runs it: the app does what works anywhere, the screen what works there."""
    return f"{'app' if action.context == 'anywhere' else 'screen'}.{action.id}"


def bindings(context: Context) -> list[BindingType]:
    """The keys of one context, for the class where they work."""
    return [_binding(each) for each in ACTIONS if each.context == context]


def key_binding(id: str) -> BindingType:
    """The keys of one action, for a dialog that offers it too."""
    return _binding(next(each for each in ACTIONS if each.id == id))


def _binding(action: Action) -> BindingType:
    # Late, so that the table can be read without Textual.
    from textual.binding import Binding

    first = action.id == "large"  # Its key has to work in a field too, before the field has it.
    return Binding(action.keys, action_string(action), action.words, id=action.id, show=False, priority=first)
