"""The names of the sheets and of their forms. Loads nothing, so that the command line can name them too."""

from __future__ import annotations

from typing import Final, Literal

SheetId = Literal["overview", "buying", "cutting", "making-up", "hanging", "marks", "labels", "care", "workings"]

TITLES: Final[dict[SheetId, str]] = {
    "overview": "Overview",
    "buying": "Buying list",
    "cutting": "Cutting sheet",
    "making-up": "Making-up sheet",
    "hanging": "Hanging sheet",
    "marks": "Marks strip",
    "labels": "Labels",
    "care": "Care label",
    "workings": "Workings",
}
"""Sheet -> its title."""

USUAL: Final[tuple[SheetId, ...]] = tuple(each for each in TITLES if each != "workings")
"""What is written when no sheet is named. The workings are long, and are had by their name."""

Form = Literal["text", "html", "svg", "json", "csv"]

ENDINGS: Final[dict[Form, str]] = {"text": ".txt", "html": ".html", "svg": ".svg", "json": ".json", "csv": ".csv"}
"""Form -> how a file in it is called."""
WITH_SHEETS: Final[tuple[Form, ...]] = ("text", "html", "svg")
"""The forms that take some sheets only. JSON is always the whole plan, CSV always the cut list."""
