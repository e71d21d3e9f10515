"""The names of the sheets and of their forms. Loads nothing, so that the command line can name them too."""

from __future__ import annotations

from typing import Final, Literal

SheetId = Literal[
    "overview", "buying", "cutting", "making-up", "hanging", "marks", "labels", "care", "choosing", "workings"
]
TITLES: Final[dict[SheetId, str]] = {
    "overview": "Overview",
    "buying": "Buying list",
    "cutting": "Cutting sheet",
    "making-up": "Making-up sheet",
    "hanging": "Hanging sheet",
    "marks": "Marks strip",
    "labels": "Labels",
    "care": "Care label",
    "choosing": "Choosing fullness and cutting",
    "workings": "Workings",
}
"""Sheet -> its title."""
ALSO: Final[dict[str, SheetId]] = {"shop": "buying"}
"""Another name -> the sheet."""
BY_NAME: Final[tuple[SheetId, ...]] = ("choosing", "workings")
"""What is written only when it is named: the one is of use before the cloth is bought and lays it out many times, the
other is long."""
USUAL: Final[tuple[SheetId, ...]] = tuple(each for each in TITLES if each not in BY_NAME)
"""What is written when no sheet is named."""
Format = Literal["text", "html", "svg", "json", "csv"]
ENDINGS: Final[dict[Format, str]] = {"text": ".txt", "html": ".html", "svg": ".svg", "json": ".json", "csv": ".csv"}
"""Form -> how a file in it is called."""
WITH_SHEETS: Final[tuple[Format, ...]] = ("text", "html", "svg")
"""The forms that are read sheet by sheet. JSON is data of the whole plan, CSV always the cut list."""
SOME_ONLY: Final[tuple[Format, ...]] = (*WITH_SHEETS, "json")
"""The forms of which some sheets only can be asked for."""
