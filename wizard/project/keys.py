"""Dotted keys of the project file, the type at each, told from the records themselves; and ids for what is added."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container, Iterator
from itertools import count
from typing import Any, Final

from wizard.project.parse.misread import quoted
from wizard.trade.fields import Limits, Path, Record, bare, kind_of, type_at
from wizard.trade.job_fields import LONGEST_ID

_PLAIN: Final = re.compile(r"[A-Za-z0-9_:/-]+")


def split(key: str) -> Path:
    """The names in a dotted key. What follows `kept.` is one name: a finding's id may hold dots."""
    first, dot, rest = key.partition(".")
    return (first, rest) if first == "kept" and dot else tuple(key.split("."))


def joined(path: Path) -> str:
    """The dotted key; a name no key should have is put between quotes, so that it can be shown."""
    names = [name if _PLAIN.fullmatch(name) else quoted(name) for name in path]
    return ".".join(path if path[:1] == ("kept",) and path[1:] and path[1].isprintable() else names)


def kind_at(root: type[Record], path: Path) -> Any:
    """The type at `path` without its notes: a record, a mapping, a list or a value; None when the key is not known."""
    return bare(type_at(root, path))


def limits_at(root: type[Record], path: Path) -> Limits | None:
    """What may be typed at `path`; None where no length, number, percentage or sum of money is."""
    kind = kind_of(type_at(root, path))
    return kind if isinstance(kind, Limits) else None


LONGEST_FILE_NAME: Final = 60
"""Most characters of a file's name, its ending left out: no file system minds, and a list can show it."""


def slug(text: str, otherwise: str, longest: int = LONGEST_ID) -> str:
    """`text` in small letters a to z, figures and hyphens, accents taken off; `otherwise` when nothing is left."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(each for each in apart if not unicodedata.combining(each))
    return re.sub(r"[^a-z0-9]+", "-", bare)[: longest + 1].strip("-")[:longest].strip("-") or otherwise


def new_id(text: str, taken: Container[str], otherwise: str) -> str:
    """An id for what is called `text` that is not in `taken`: `centre-leg`, `centre-leg-2`."""
    return next(each for each in numbered(slug(text, otherwise, LONGEST_ID - 4)) if each not in taken)


def numbered(first: str) -> Iterator[str]:
    """Names to choose one from that is not taken: `loft`, `loft-2`, `loft-3`."""
    yield first
    yield from (f"{first}-{number}" for number in count(2))
