"""What a person can do: one table that feeds keys, buttons, the menu and the help.

The table is actions.txt: `CONTEXT ID (KEYS) = words > sentence for the help`. An action's `id` is the name of the
action method of the screen (or of the app) that does it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, Literal

from msgspec import Struct

from wizard.trade.formatting import text_beside, wordings_in

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


BUTTONS: Final = ("menu", "step_back", "step_next", "new_project", "help", "findings", "why", "go_to", "leave")
"""The actions with a button in the footer, all others are in the menu; what is needed most comes first."""


class Action(Struct, frozen=True):
    """One thing a person can do."""

    id: str
    keys: str
    """As Textual names them, separated by commas; the first is the one shown."""
    words: str
    """On the button and in the menu."""
    says: str
    """One sentence for the help."""
    context: Context

    @property
    def shown(self) -> str:
        """The first key as printed on keyboards."""
        return shown_key(self.keys.split(",")[0])


def _read() -> Iterator[Action]:
    for heading, wording in wordings_in(text_beside(__file__, "actions.txt")).items():
        context, id = heading.split()
        yield Action(id, wording.note, wording.sentence, wording.more, context)  # type: ignore[arg-type]


ACTIONS: Final = tuple(_read())
"""Every action, in the order of buttons and help."""


def actions_in(context: Context, table: tuple[Action, ...] = ACTIONS) -> tuple[Action, ...]:
    """The actions of a context and those that work anywhere; `table` has the keys in use."""
    return tuple(each for each in table if each.context in (context, "anywhere"))


def actions_of(app: object) -> tuple[Action, ...]:
    """All actions with the keys that an app uses."""
    table: tuple[Action, ...] = getattr(app, "actions", ACTIONS)
    return table


def action_string(action: Action) -> str:
    """The action as Textual runs it: the app does what works anywhere, the screen what works there."""
    return f"{'app' if action.context == 'anywhere' else 'screen'}.{action.id}"


def bindings(context: Context) -> list[BindingType]:
    """The keys of one context, for the class where they work."""
    return [_binding(each) for each in ACTIONS if each.context == context]


def key_binding(id: str) -> BindingType:
    """The keys of one action, for a dialog that offers it too."""
    return _binding(next(each for each in ACTIONS if each.id == id))


def quiet_keys(table: str) -> list[BindingType]:
    """Keys of one widget, which nobody gives others: `tab=screen.walk(1) shift+tab=screen.walk(-1)`."""
    from textual.binding import Binding

    pairs = (each.split("=") for each in table.split())
    return [Binding(key, action, show=False) for key, action in pairs]


def _binding(action: Action) -> BindingType:
    # Late, so that the table can be read without Textual.
    from textual.binding import Binding

    first = action.id == "large"  # Its key has to work in a field too, before the field has it.
    return Binding(action.keys, action_string(action), action.words, id=action.id, show=False, priority=first)
