"""What the maker can mend. A finding informs and asks; it never blocks an answer."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Level = Literal["stop", "warn", "ask", "note"]
"""`stop`: a figure cannot be worked until it is mended. `warn`: will likely go wrong. `ask`: read again, or keep.
`note`: worth knowing."""


class Finding(Struct, frozen=True):
    """Something that looks wrong or wants a choice."""

    id: str
    """Fixed id, never from a display name: `run-differs:left:right`."""
    level: Level
    key: str
    """The file key whose answer would mend it."""
    sentence: str
    """What was found, with its figures."""
    way_out: str
    """What would do."""
    values: str
    """The values it rests on, as text; a kept finding is asked again when they change."""
    other: str = ""
    """The file key of the other answer it rests on, where it holds one against another: either may be the slip."""
    kept: bool = False
    """True when it was looked at and kept for these very values."""
