"""Your own keys: their names, the file that gives them to actions, its clashes, and `railskirt keys`."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from itertools import combinations
from pathlib import Path
from typing import Any, Final, TextIO

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.parse.misread import shortened
from wizard.project.problems import Problems
from wizard.project.toml_text import Places, places, tables_of, text_of
from wizard.project.value_faults import found
from wizard.render.plain_text import literal
from wizard.screens.actions import ACTIONS, Action

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
"""Keys that move or edit in every answer, most of them with a modifier too."""
_SAME_AS: Final = {"h": "Backspace", "i": "Tab", "j": "Enter", "m": "Enter"}
"""Letters that a terminal cannot tell from another key when Ctrl is held."""
_EDITS: Final = frozenset("acdefkuvwx")
"""Letters that edit the field when Ctrl is held."""


USUAL: Final = {each.id: each for each in ACTIONS}
"""Action id -> the action with its usual keys."""


class NoKey(ValueError):  # noqa: N818
    """A name that no action can have as its key. Its text is a clear sentence."""


def toolkit_key(name: str) -> str:
    """Textual's name of a key: `ctrl+g` for `Ctrl+G`. Raises NoKey for one that no action can have."""
    *modifiers, base = (each.strip().casefold() for each in name.split("+")) if name.strip() else [""]
    held = [_MODIFIERS.get(each, "") for each in modifiers]
    if not base or "" in held or len(held) > 1:
        raise NoKey(f"{name!r} is not a key: give one key, or one with Ctrl, Shift or Alt.")
    key = _NAMED.get(base, base)
    _refuse(name, held[0] if held else "", key)
    return "+".join([*(each.lower() for each in held), key])


def shown_key(key: str) -> str:
    """Textual's `ctrl+g` as printed on keyboards: `Ctrl+G`."""
    *modifiers, base = key.split("+")
    word = _SHOWN.get(base, base.capitalize())
    return "+".join([*(each.capitalize() for each in modifiers), word])


def _refuse(name: str, held: str, key: str) -> None:
    """NoKey with the reason why; nothing for a key that can be given away."""
    if _is_function_key(key) or (key in ("escape", "insert") and not held):
        return
    if not held and key in _ANSWERING:
        raise NoKey(f"{name!r} already moves or edits in every field.")
    if not held and len(key) == 1:
        raise NoKey(f"{name!r} is typed into fields: use Ctrl with a letter.")
    if (held in ("Ctrl", "Alt") and key in ("up", "down")) or (held == "Alt" and key in ("pageup", "pagedown")):
        return
    if held == "Ctrl" and key.isascii() and key.isalpha() and len(key) == 1:
        _refuse_letter(name, key)
    elif held in ("Alt", "Shift") and len(key) == 1:
        raise NoKey(f"{name!r} arrives as the bare {key!r}, which is typed into fields.")
    elif key in _ANSWERING:
        raise NoKey(f"{name!r} moves or edits in the field, or is not sent by every terminal.")
    else:
        raise NoKey(f"{name!r} is not a key that a terminal sends.")


def _refuse_letter(name: str, letter: str) -> None:
    if letter in _SAME_AS:
        raise NoKey(f"{name!r} is sent as {_SAME_AS[letter]} by every terminal.")
    if letter in _EDITS:
        raise NoKey(f"{name!r} edits in the field.")


def _is_function_key(key: str) -> bool:
    return key[:1] == "f" and key[1:].isdigit() and key[1:2] != "0" and 1 <= int(key[1:]) <= 12


class Wish(Struct, frozen=True):
    """The keys that an action is to have."""

    action: Action
    line: int = 0
    """Line of the file that says so; 0 for the usual keys."""


def without_clashes(wishes: dict[str, Wish]) -> Iterator[tuple[int, str]]:
    """Gives an action whose key another one of its context has its usual keys, last line first; yields line and why."""
    while clash := _clash(wishes):
        lost, kept, key = clash
        loser, other = lost.action.id, kept.action.id
        wishes[loser] = Wish(USUAL[loser])
        yield (
            lost.line,
            f"{shown_key(key)} is the key of {other} already, so {loser} keeps its usual one. "
            f"Give {other} another key too, or choose a free one, such as {_free(wishes)}.",
        )


def _clash(wishes: Mapping[str, Wish]) -> tuple[Wish, Wish, str] | None:
    """The last wish of the file that clashes, the one it clashes with, and the key."""
    found: list[tuple[Wish, Wish, str]] = []
    for pair in combinations(wishes.values(), 2):
        kept, lost = sorted(pair, key=lambda each: each.line)
        shared = set(lost.action.keys.split(",")) & set(kept.action.keys.split(",")) - {""}
        if lost.line and shared and _meet(lost.action, kept.action):
            found.append((lost, kept, min(shared)))
    return max(found, key=lambda each: each[0].line, default=None)


def _meet(one: Action, other: Action) -> bool:
    """True when both work in one place: everything but the list of projects is shown over the job."""
    contexts = {one.context, other.context}
    return "list" not in contexts or contexts <= {"list", "anywhere"}


def _free(wishes: Mapping[str, Wish]) -> str:
    taken = {key for each in wishes.values() for key in each.action.keys.split(",")}
    return next((f"Shift+F{number}" for number in range(1, 9) if f"shift+f{number}" not in taken), "Ctrl+B")


NAME: Final = "keys.toml"
MOST_BYTES: Final = 65_536
"""A longer file is hardly one of keys."""
MOST_KEYS: Final = 4
"""Keys that one action may have."""


class Keys(Struct, frozen=True):
    """The actions with the keys they have now, and what was wrong with the file."""

    actions: tuple[Action, ...] = ACTIONS
    mistakes: tuple[str, ...] = ()
    """A sentence each, with the line."""
    path: Path | None = None

    @property
    def changed(self) -> dict[str, str]:
        """Action id -> its keys as Textual names them, for those that differ from the usual ones."""
        return {each.id: each.keys for each in self.actions if each.keys != USUAL[each.id].keys}


def usual_place(environ: Mapping[str, str]) -> Path:
    """Where the file is looked for: `railskirt/keys.toml` in XDG_CONFIG_HOME, else in ~/.config."""
    given = environ.get("XDG_CONFIG_HOME", "")
    # The standard says to ignore a path that is not absolute.
    base = Path(given) if given.startswith("/") else Path(environ.get("HOME") or "/") / ".config"
    return base / "railskirt" / NAME


def keys_in_use(named: Path | None, environ: Mapping[str, str]) -> Keys:
    """The keys of the file that was named, else of the one in its usual place, else the usual keys.

    OSError when a file that was named cannot be read; one that was not is a mistake to be told.
    """
    path = named or usual_place(environ)
    try:
        return read_keys(path)
    except FileNotFoundError:
        if named:
            raise
        return Keys()
    except OSError as trouble:
        if named:
            raise
        return Keys(mistakes=(f"The file cannot be read: {trouble.strerror}.",), path=path)


def unread(path: Path | None, trouble: OSError) -> str:
    """Why a file of keys that was named is not read."""
    why = "there is none there" if isinstance(trouble, FileNotFoundError) else trouble.strerror
    return (
        f"the file of keys {shortened(repr(str(path)))} cannot be read: {why}. railskirt keys prints one to begin with."
    )


def read_keys(path: Path) -> Keys:
    """The keys that a file gives. OSError when there is none or it cannot be read."""
    with path.open("rb") as stream:
        data = stream.read(MOST_BYTES + 1)
    if not data.strip():
        return Keys(path=path)
    if len(data) > MOST_BYTES:
        return Keys(mistakes=(f"The file is longer than {MOST_BYTES} bytes: is it the right one?",), path=path)
    text = text_of(data)
    tables = tables_of(text) if isinstance(text, str) else text
    if isinstance(tables, Problems):
        return Keys(mistakes=tuple(_at(each.line, each.sentence) for each in tables.all), path=path)
    assert isinstance(text, str)
    return replace(_given(tables, places(text)), path=path)


def mistakes_told(keys: Keys) -> str:
    """What is wrong with the file, and that the rest of it works."""
    where = literal(str(keys.path)) if keys.path else "the file of keys"
    rest = "All other lines work." if keys.changed else "The usual keys hold."
    return "\n\n".join([f"In {where}:", *keys.mistakes, rest])


def keys_toml(actions: tuple[Action, ...]) -> str:
    """A whole file that gives every action with a key the keys it has."""
    lines = ["# The keys of railskirt, action by action. Delete a line to get the usual keys back.", ""]
    for action in (each for each in actions if each.keys):
        names = [f'"{shown_key(each)}"' for each in action.keys.split(",")]
        keys = names[0] if len(names) == 1 else f"[{', '.join(names)}]"
        lines += [f"# {action.words}. {action.says}", f"{action.id} = {keys}", ""]
    return "\n".join(lines)


def _given(tables: Mapping[str, Any], where: Places) -> Keys:
    mistakes: list[tuple[int, str]] = []
    wishes = {id: Wish(action) for id, action in USUAL.items()}
    known = {id: action for id, action in USUAL.items() if action.keys}
    for name, value in tables.items():
        line = where.line((name,)) or 1
        try:
            if name not in known:
                raise NoKey(_unknown(name, tuple(known)))
            wishes[name] = Wish(_with_keys(known[name], value), line)
        except NoKey as no:
            mistakes.append((line, f"{no} For example: {_example(name, known)}"))
    mistakes += without_clashes(wishes)
    return Keys(
        tuple(each.action for each in wishes.values()),
        tuple(_at(line, sentence) for line, sentence in sorted(mistakes)),
    )


def _with_keys(action: Action, value: object) -> Action:
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list) or not all(isinstance(each, str) for each in names):
        raise NoKey(f"Found {found(value)} for {action.id}: write a key in quotes, or several between square brackets.")
    if not 1 <= len(names) <= MOST_KEYS:
        raise NoKey(f"{action.id} has {len(names) or 'no'} keys: an action has 1 to {MOST_KEYS}.")
    keys = list(dict.fromkeys(_key(action, each) for each in names))
    same = ",".join(keys) == action.keys
    return action if same else replace(action, keys=",".join(keys), shown=shown_key(keys[0]))


def _key(action: Action, name: str) -> str:
    """Textual's name of a key; the usual key of an action is always allowed."""
    usual = {shown_key(each).casefold(): each for each in action.keys.split(",")}
    return usual.get(name.strip().casefold()) or toolkit_key(name)


def _unknown(name: str, known: tuple[str, ...]) -> str:
    near = get_close_matches(name.casefold().replace("-", "_").replace(" ", "_"), known, 1, 0.6)
    hint = f"The nearest one is {near[0]}." if near else "railskirt keys prints all there are."
    return f"There is no action {found(name)}. {hint}"


def _example(name: str, known: Mapping[str, Action]) -> str:
    """A line that would do, for the action that was meant."""
    action = known.get(name) or known[next(iter(get_close_matches(name.casefold(), tuple(known), 1, 0.6)), "why")]
    return f'{action.id} = "{action.shown}"'


def _at(line: int | None, sentence: str) -> str:
    return f"Line {line}: {sentence}" if line else sentence


def print_keys(named: Path | None, out: TextIO, talk: TextIO) -> bool:
    """Print the keys of a file, or of the usual one; its mistakes on `talk`. False when the file is not a good one."""
    try:
        keys = keys_in_use(named, os.environ)
    except OSError as trouble:
        print(f"railskirt: {unread(named, trouble)}", file=talk)
        return False
    out.write(keys_toml(keys.actions))
    if keys.mistakes:
        print(mistakes_told(keys), file=talk)
    return not keys.mistakes
