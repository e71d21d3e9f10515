"""Your own keys: their names, the file that gives them to actions, its clashes, and `railskirt keys`."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from itertools import permutations
from operator import itemgetter
from pathlib import Path
from string import ascii_lowercase
from typing import Any, Final, TextIO

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.parse.misread import shortened
from wizard.project.problems import Problems
from wizard.project.toml_lines import Places, places, tables_of, text_of
from wizard.project.value_faults import found
from wizard.render.plain_text import literal
from wizard.screens.actions import ACTIONS, Action, shown_key

_NAMED: Final = {
    "esc": "escape", "ins": "insert", "pgup": "pageup", "pgdn": "pagedown", "return": "enter", "del": "delete",
    "control": "ctrl",
}  # fmt: skip
"""Other names of keys -> Textual's."""
_ANSWERING: Final = frozenset(
    {"up", "down", "left", "right", "home", "end", "pageup", "pagedown", "enter", "tab", "space", "backspace", "delete"}
)
"""Keys that move or edit in every answer, most of them with a modifier too."""
_SAME_AS: Final = {"h": "Backspace", "i": "Tab", "j": "Enter", "m": "Enter"}
"""Letters that a terminal cannot tell from another key when Ctrl is held."""
_EDITS: Final = frozenset("acdefkuvwx")
"""Letters that edit the field when Ctrl is held."""
_FREE: Final = frozenset(
    {
        *("escape", "insert", "ctrl+up", "ctrl+down", "alt+up", "alt+down", "alt+pageup", "alt+pagedown"),
        *(f"{held}f{number}" for held in ("", "ctrl+", "shift+", "alt+") for number in range(1, 13)),
        *(f"ctrl+{letter}" for letter in ascii_lowercase if letter not in _EDITS.union(_SAME_AS)),
    }
)
"""Every key that can be given to an action."""

USUAL: Final = {each.id: each for each in ACTIONS}
"""Action id -> the action with its usual keys."""


class NoKey(ValueError):  # noqa: N818
    """A name that no action can have as its key. Its text is a clear sentence."""


class NoKeysError(Exception):
    """The key file that was named cannot be read. Its text is a clear sentence."""


def toolkit_key(name: str) -> str:
    """Textual's name of a key: `ctrl+g` for `Ctrl+G`. Raises NoKey for one that no action can have."""
    words = [each.strip().casefold() for each in name.split("+")]
    *held, base = (_NAMED.get(each, each) for each in words)
    if not base or len(held) > 1 or not {*held} <= {"ctrl", "shift", "alt"}:
        raise NoKey(f"{name!r} is not a key: give one key, or one with Ctrl, Shift or Alt.")
    key = "+".join([*held, base])
    if key not in _FREE:
        raise NoKey(f"{name!r} {_why_not(''.join(held), base)}")
    return key


def _why_not(held: str, base: str) -> str:
    """Why such a key cannot be given away."""
    one, with_ctrl = len(base) == 1, held == "ctrl"
    reasons = (
        (base in _ANSWERING and not held, "already moves or edits in every field."),
        (base in _ANSWERING, "moves or edits in the field, or is not sent by every terminal."),
        (one and not held, "is typed into fields: use Ctrl with a letter."),
        (with_ctrl and base in _SAME_AS, f"is sent as {_SAME_AS.get(base)} by every terminal."),
        (with_ctrl and base in _EDITS, "edits in the field."),
        (one and not with_ctrl, f"arrives as the bare {base!r}, which is typed into fields."),
        (True, "is not a key that a terminal sends."),
    )
    return next(why for holds, why in reasons if holds)


EARLIER: Final = {"more": "menu"}
"""What an action was called before -> its name."""
Actions = dict[str, Action]
"""Action id -> the action with the keys it is to have."""


def without_clashes(actions: Actions, lines: dict[str, int]) -> Iterator[tuple[int, str]]:
    """Gives an action whose key another one of its context has its usual keys, last line first; yields line and why.

    `lines`: action id -> the line of the file that gives it its keys.
    """
    while clash := _clash(actions, lines):
        line, lost, kept, key = clash
        del lines[lost]
        actions[lost] = USUAL[lost]
        hint = f"Give {kept} another key too, or choose a free one, such as {_free(actions)}."
        yield line, f"{shown_key(key)} is the key of {kept} already, so {lost} keeps its usual one. {hint}"


def _clash(actions: Actions, lines: Mapping[str, int]) -> tuple[int, str, str, str] | None:
    """The last line of the file that clashes, its action, the one it clashes with, and the key."""
    clashes = (
        (lines[lost.id], lost.id, kept.id, min(shared))
        for kept, lost in permutations(actions.values(), 2)
        if lines.get(kept.id, 0) < lines.get(lost.id, 0) and _meet(lost, kept)
        if (shared := {*lost.keys.split(",")} & {*kept.keys.split(",")})
    )
    return max(clashes, key=itemgetter(0), default=None)


def _meet(one: Action, other: Action) -> bool:
    """True when both work in one place: everything but the list of projects is shown over the job."""
    contexts = {one.context, other.context}
    return "list" not in contexts or contexts <= {"list", "anywhere"}


def _free(actions: Actions) -> str:
    taken = {key for each in actions.values() for key in each.keys.split(",")}
    return next((f"Shift+F{number}" for number in range(1, 9) if f"shift+f{number}" not in taken), "Ctrl+B")


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
    return base / "railskirt" / "keys.toml"


def keys_in_use(named: Path | None, environ: Mapping[str, str]) -> Keys:
    """The keys of the file that was named, else of the one in its usual place, else the usual keys.

    NoKeysError when a file that was named cannot be read; one that was not is a mistake to be told.
    """
    path = named or usual_place(environ)
    try:
        return read_keys(path)
    except OSError as trouble:
        missing = isinstance(trouble, FileNotFoundError)
        if named:
            file, why = shortened(repr(str(path))), "there is no such file" if missing else trouble.strerror
            hint = "railskirt keys prints one to start from."
            raise NoKeysError(f"the key file {file} cannot be read: {why}. {hint}") from None
        return Keys() if missing else Keys(mistakes=(f"The file cannot be read: {trouble.strerror}.",), path=path)


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
        return Keys(mistakes=tuple(tables.lines), path=path)
    assert isinstance(text, str)
    return replace(_given(tables, places(text)), path=path)


def mistakes_told(keys: Keys) -> str:
    """What is wrong with the file, and that the rest of it works."""
    where = literal(str(keys.path)) if keys.path else "the key file"
    rest = "All other lines work." if keys.changed else "The usual keys apply."
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
    actions, lines = dict(USUAL), dict[str, int]()
    for given, value in tables.items():
        line, name = where.line((given,)) or 1, EARLIER.get(given, given)
        near = _nearest(name)
        try:
            if name not in USUAL:
                hint = f"The nearest one is {near}." if near else "railskirt keys prints them all."
                raise NoKey(f"There is no action {found(name)}. {hint}")
            actions[name] = replace(USUAL[name], keys=_keys(USUAL[name], value))
            lines[name] = line
        except NoKey as no:
            meant = USUAL[near or "why"]
            mistakes.append((line, f'{no} For example: {meant.id} = "{meant.shown}"'))
    mistakes += without_clashes(actions, lines)
    return Keys(tuple(actions.values()), tuple(f"Line {line}: {sentence}" for line, sentence in sorted(mistakes)))


def _keys(action: Action, value: object) -> str:
    """The keys that a line gives to an action, as Textual names them; its usual ones are always allowed."""
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list) or not all(isinstance(each, str) for each in names):
        raise NoKey(f"Found {found(value)} for {action.id}: write a key in quotes, or several between square brackets.")
    if not 1 <= len(names) <= MOST_KEYS:
        raise NoKey(f"{action.id} has {len(names) or 'no'} keys: an action has 1 to {MOST_KEYS}.")
    usual = {shown_key(each).casefold(): each for each in action.keys.split(",")}
    return ",".join(dict.fromkeys(usual.get(each.strip().casefold()) or toolkit_key(each) for each in names))


def _nearest(name: str) -> str:
    """The action that was meant by a name; empty for none."""
    alike = get_close_matches(name.casefold().replace("-", "_").replace(" ", "_"), tuple(USUAL), 1, 0.6)
    return alike[0] if alike else ""


def print_keys(named: Path | None, out: TextIO, talk: TextIO) -> bool:
    """Print the keys of a file, or of the usual one; its mistakes on `talk`. False when the file is not a good one."""
    try:
        keys = keys_in_use(named, os.environ)
    except NoKeysError as no:
        print(f"railskirt: {no}", file=talk)
        return False
    out.write(keys_toml(keys.actions))
    if keys.mistakes:
        print(mistakes_told(keys), file=talk)
    return not keys.mistakes
