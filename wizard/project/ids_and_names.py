"""Names for files and ids out of what people call things."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Container
from pathlib import Path
from typing import Final

from wizard.trade.job_fields import LONGEST_ID

LONGEST_FILE_NAME: Final = 60
"""Most characters of a file's name, its ending left out: no file system minds, and a list can show it."""

_ENDLESS: Final = 1_000_000


def slug(text: str, otherwise: str, longest: int = LONGEST_ID) -> str:
    """`text` in small letters a to z, figures and hyphens, accents taken off; `otherwise` when nothing is left."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(each for each in apart if not unicodedata.combining(each))
    return re.sub(r"[^a-z0-9]+", "-", bare)[: longest + 1].strip("-")[:longest].strip("-") or otherwise


def new_id(text: str, taken: Container[str], otherwise: str) -> str:
    """An id for what is called `text` that is not in `taken`: `centre-leg`, `centre-leg-2`."""
    first = slug(text, otherwise, LONGEST_ID - 4)
    return (
        first
        if first not in taken
        else next(each for number in range(2, _ENDLESS) if (each := f"{first}-{number}") not in taken)
    )


def new_path(folder: Path, name: str) -> Path:
    """A file for a project called `name` that is not there yet: `juniper-loft.toml`, `juniper-loft-2.toml`."""
    first = slug(name, "project", LONGEST_FILE_NAME)
    names = (first, *(f"{first}-{number}" for number in range(2, 1000)))
    # A link that leads nowhere is there too: what is written to it would be elsewhere.
    return next(path for each in names if not os.path.lexists(path := folder / f"{each}.toml"))
