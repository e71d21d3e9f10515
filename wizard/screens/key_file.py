"""Keys of one's own: a small TOML file, deed by deed. What is wrong with it is said, and the rest of it works."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.faults import found
from wizard.project.places import Places, places
from wizard.project.problems import Problems
from wizard.project.toml_text import tables_of, text_of
from wizard.project.typed.misread import shortened
from wizard.screens.deeds import DEEDS, Deed
from wizard.screens.key_clashes import Wish, without_clashes
from wizard.screens.key_names import NoKey, shown_key, toolkit_key
from wizard.sheets.plain import literal

NAME: Final = "keys.toml"
MOST_BYTES: Final = 65_536
"""A longer file is hardly one of keys."""
MOST_KEYS: Final = 4
"""Keys that one deed may have."""


class Keys(Struct, frozen=True):
    """The deeds with the keys they have now, and what was wrong with the file."""

    deeds: tuple[Deed, ...] = DEEDS
    mistakes: tuple[str, ...] = ()
    """A sentence each, with the line."""
    path: Path | None = None

    @property
    def changed(self) -> dict[str, str]:
        """Deed id -> its keys as the toolkit names them, for those that differ from the usual ones."""
        usual = {each.id: each.keys for each in DEEDS}
        return {each.id: each.keys for each in self.deeds if each.keys != usual[each.id]}


def usual_place(environ: Mapping[str, str]) -> Path:
    """Where the file is looked for: `railskirt/keys.toml` in XDG_CONFIG_HOME, else in ~/.config."""
    given = environ.get("XDG_CONFIG_HOME", "")
    # The standard says that a path that is not absolute is to be ignored.
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
    tables = text if isinstance(text, Problems) else tables_of(text)
    if isinstance(text, Problems) or isinstance(tables, Problems):
        problems = text if isinstance(text, Problems) else tables
        assert isinstance(problems, Problems)
        return Keys(mistakes=tuple(_at(each.line, each.sentence) for each in problems.all), path=path)
    return replace(_given(tables, places(text)), path=path)


def mistakes_told(keys: Keys) -> str:
    """What is wrong with the file, and that the rest of it works."""
    where = literal(str(keys.path)) if keys.path else "the file of keys"
    rest = "All other lines work." if keys.changed else "The usual keys hold."
    return "\n\n".join([f"In {where}:", *keys.mistakes, rest])


def keys_toml(deeds: tuple[Deed, ...]) -> str:
    """A whole file that gives every deed the keys it has."""
    lines = ["# The keys of railskirt, deed by deed. A line that is taken out leaves its deed the usual keys.", ""]
    for deed in deeds:
        names = [f'"{shown_key(each)}"' for each in deed.keys.split(",")]
        keys = names[0] if len(names) == 1 else f"[{', '.join(names)}]"
        lines += [f"# {deed.words}. {deed.says}", f"{deed.id} = {keys}", ""]
    return "\n".join(lines)


def settable() -> tuple[Deed, ...]:
    """The deeds whose keys the file may change."""
    return tuple(each for each in DEEDS if each.keys)


def _given(tables: Mapping[str, Any], where: Places) -> Keys:
    mistakes: list[tuple[int, str]] = []
    wishes: dict[str, Wish] = {}
    known = {each.id: each for each in settable()}
    for name, value in tables.items():
        line = where.line((name,)) or 1
        try:
            if name not in known:
                raise NoKey(_unknown(name, tuple(known)))
            wishes[name] = Wish(_with_keys(known[name], value), line)
        except NoKey as no:
            mistakes.append((line, f"{no} For example: {_example(name, known)}"))
    mistakes += without_clashes(wishes)
    deeds = tuple(wishes[each.id].deed if each.id in wishes else each for each in DEEDS)
    return Keys(deeds, tuple(_at(line, sentence) for line, sentence in sorted(mistakes)))


def _with_keys(deed: Deed, value: object) -> Deed:
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list) or not all(isinstance(each, str) for each in names):
        raise NoKey(f"Found {found(value)} for {deed.id}: write a key in quotes, or several between square brackets.")
    if not 1 <= len(names) <= MOST_KEYS:
        raise NoKey(f"{deed.id} has {len(names) or 'no'} keys: a deed keeps 1 to {MOST_KEYS}.")
    keys = list(dict.fromkeys(_key(deed, each) for each in names))
    same = ",".join(keys) == deed.keys
    return deed if same else replace(deed, keys=",".join(keys), shown=shown_key(keys[0]))


def _key(deed: Deed, name: str) -> str:
    """A key that the deed has by itself is always allowed."""
    usual = {shown_key(each).casefold(): each for each in deed.keys.split(",")}
    return usual.get(name.strip().casefold()) or toolkit_key(name)


def _unknown(name: str, known: tuple[str, ...]) -> str:
    near = get_close_matches(name.casefold().replace("-", "_").replace(" ", "_"), known, 1, 0.6)
    hint = f"The nearest one is {near[0]}." if near else "railskirt keys prints all there are."
    return f"There is no deed {found(name)}. {hint}"


def _example(name: str, known: Mapping[str, Deed]) -> str:
    """A line that would do, for the deed that was meant."""
    deed = known.get(name) or known[next(iter(get_close_matches(name.casefold(), tuple(known), 1, 0.6)), "why")]
    return f'{deed.id} = "{deed.shown}"'


def _at(line: int | None, sentence: str) -> str:
    return f"Line {line}: {sentence}" if line else sentence
