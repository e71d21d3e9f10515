"""Keys by the names that stand on keyboards, and the toolkit's names for them. Says which keys cannot be given away."""

from __future__ import annotations

from typing import Final

_NAMED: Final = {
    "esc": "escape", "escape": "escape", "ins": "insert", "insert": "insert", "up": "up", "down": "down",
    "left": "left", "right": "right", "home": "home", "end": "end", "pgup": "pageup", "pageup": "pageup",
    "pgdn": "pagedown", "pagedown": "pagedown", "enter": "enter", "return": "enter", "tab": "tab", "space": "space",
    "backspace": "backspace", "del": "delete", "delete": "delete",
}  # fmt: skip
_SHOWN: Final = {
    "escape": "Esc", "insert": "Ins", "pageup": "PgUp", "pagedown": "PgDn", "delete": "Del",
    "plus": "+", "minus": "-", "equals_sign": "=", "underscore": "_",
}  # fmt: skip
_MODIFIERS: Final = {"ctrl": "Ctrl", "control": "Ctrl", "shift": "Shift", "alt": "Alt"}

_ANSWERING: Final = frozenset(
    {"up", "down", "left", "right", "home", "end", "pageup", "pagedown", "enter", "tab", "space", "backspace", "delete"}
)
"""Keys that have work of their own wherever one answers, most of them with a modifier too."""
_SAME_AS: Final = {"h": "Backspace", "i": "Tab", "j": "Enter", "m": "Enter"}
"""Letters that a terminal cannot tell from another key when Ctrl is held."""
_EDITS: Final = frozenset("acdefkuvwx")
"""Letters that edit the field when Ctrl is held."""


class NoKey(ValueError):  # noqa: N818
    """A name that cannot be given to a deed. Its text is a clear sentence."""


def toolkit_key(name: str) -> str:
    """The toolkit's name of a key: `ctrl+g` for `Ctrl+G`. NoKey for one that cannot be given to a deed."""
    *modifiers, base = (each.strip().casefold() for each in name.split("+")) if name.strip() else [""]
    held = [_MODIFIERS.get(each, "") for each in modifiers]
    if not base or "" in held or len(held) > 1:
        raise NoKey(f"{name!r} is no key: one key, or one with Ctrl, Shift or Alt.")
    key = _NAMED.get(base, base)
    _refuse(name, held[0] if held else "", key)
    return "+".join([*(each.lower() for each in held), key])


def shown_key(key: str) -> str:
    """How the toolkit's `ctrl+g` stands on keyboards: `Ctrl+G`."""
    *modifiers, base = key.split("+")
    word = _SHOWN.get(base, base.capitalize())
    return "+".join([*(each.capitalize() for each in modifiers), word])


def _refuse(name: str, held: str, key: str) -> None:
    """NoKey with the reason why; nothing for a key that can be given away."""
    if _is_function_key(key) or (key in ("escape", "insert") and not held):
        return
    if not held and key in _ANSWERING:
        raise NoKey(f"{name!r} has work of its own wherever one answers.")
    if not held and len(key) == 1:
        raise NoKey(f"{name!r} is typed into answers: hold Ctrl with a letter.")
    if (held in ("Ctrl", "Alt") and key in ("up", "down")) or (held == "Alt" and key in ("pageup", "pagedown")):
        return
    if held == "Ctrl" and key.isascii() and key.isalpha() and len(key) == 1:
        _refuse_letter(name, key)
    elif held in ("Alt", "Shift") and len(key) == 1:
        raise NoKey(f"{name!r} arrives as the bare {key!r}, which is typed into answers.")
    elif key in _ANSWERING:
        raise NoKey(f"{name!r} moves or edits in the field, or is not sent by every terminal.")
    else:
        raise NoKey(f"{name!r} is no key that a terminal sends.")


def _refuse_letter(name: str, letter: str) -> None:
    if letter in _SAME_AS:
        raise NoKey(f"{name!r} is sent as {_SAME_AS[letter]} by every terminal.")
    if letter in _EDITS:
        raise NoKey(f"{name!r} edits the field one types in.")


def _is_function_key(key: str) -> bool:
    return key[:1] == "f" and key[1:].isdigit() and key[1:2] != "0" and 1 <= int(key[1:]) <= 12
