"""Keys in the order they were typed, on a slow machine too.

The toolkit lets a widget insert a letter at once, while a key with a binding first travels up to the app: of `12`,
Enter, `13` it would take `1213`. And a key on its way to a widget arrives there though the focus has gone on. Where one
answers, neither may be.
"""

from __future__ import annotations

from textual import events
from textual.widget import Widget

from wizard.screens.room import RoomScreen


def nobody(text: str) -> None:
    """Stands for whoever will listen: nobody does yet."""


async def in_order(widget: Widget, event: events.Key) -> bool:
    """Do what a key is bound to, before any later key. False for a key the widget itself has to handle.

    A key that comes when `widget` has the focus no more goes to what has it now.
    """
    if isinstance(widget.screen, RoomScreen) and widget.screen.coming is not None:
        await widget.screen.coming.wait()
    if widget.app.screen is not widget.screen or widget.screen.focused is not widget:
        _take(event)
        widget.app.post_message(events.Key(event.key, event.character))
        return True
    if event.is_printable:
        return False
    bound = widget.screen.active_bindings.get(event.key)
    if bound is None or not bound.enabled:
        return False
    # Copying where nothing is marked passes the key on: it then means what it means everywhere else.
    done = await widget.app.run_action(bound.binding.action, bound.node)
    if done:
        _take(event)
    return done


def _take(event: events.Key) -> None:
    event.stop()
    event.prevent_default()
