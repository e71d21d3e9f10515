"""The names of the sheets and of their forms. Loads nothing, so that the command line can name them too."""

from __future__ import annotations

from typing import Final, Literal

SheetId = Literal[
    "overview", "shop", "table", "making-up", "marks", "hanging", "care", "labels", "survey", "survey-empty",
    "choosing", "workings",
]  # fmt: skip
TITLES: Final[dict[SheetId, str]] = {
    "overview": "Overview",
    "shop": "Shop",
    "table": "Cutting table",
    "making-up": "Making up",
    "marks": "Marks",
    "hanging": "Hanging",
    "care": "Care",
    "labels": "Labels",
    "survey": "Survey",
    "survey-empty": "Survey, to fill in",
    "choosing": "Choosing fullness and cutting",
    "workings": "Workings",
}
"""Sheet -> its title."""
ALSO: Final[dict[str, SheetId]] = {"buying": "shop", "cutting": "table"}
"""An earlier name -> the sheet."""
BY_NAME: Final[tuple[SheetId, ...]] = ("labels", "survey", "survey-empty", "choosing", "workings")
"""What is written only when it is named."""
USUAL: Final[tuple[SheetId, ...]] = tuple(each for each in TITLES if each not in BY_NAME)
"""What is written when no sheet is named."""
Format = Literal["text", "html", "svg", "json", "csv"]
ENDINGS: Final[dict[Format, str]] = {"text": ".txt", "html": ".html", "svg": ".svg", "json": ".json", "csv": ".csv"}
"""Form -> how a file in it is called."""
WITH_SHEETS: Final[tuple[Format, ...]] = ("text", "html", "svg")
"""The forms that are read sheet by sheet. JSON is data of the whole plan, CSV always the cut list."""
SOME_ONLY: Final[tuple[Format, ...]] = (*WITH_SHEETS, "json")
"""The forms of which some sheets only can be asked for."""
PaperId = Literal["a4", "letter"]
PAPERS: Final[dict[PaperId, str]] = {"a4": "A4", "letter": "Letter"}
"""Paper -> its name, as printers have it."""
LabelGrid = Literal["cut", "3x10", "2x7", "2x5", "3x8", "3x7", "2x4"]
LABEL_GRIDS: Final[dict[LabelGrid, str]] = {
    "cut": "plain paper, to cut apart",
    "3x10": "Letter, 3 by 10 labels of 2 5/8 in × 1 in",
    "2x7": "Letter, 2 by 7 labels of 4 in × 1 1/3 in",
    "2x5": "Letter, 2 by 5 labels of 4 in × 2 in",
    "3x8": "A4, 3 by 8 labels of 70 mm × 37 mm",
    "3x7": "A4, 3 by 7 labels of 63.5 mm × 38.1 mm",
    "2x4": "A4, 2 by 4 labels of 99.1 mm × 67.7 mm",
}
"""Grid of labels -> what it is."""
