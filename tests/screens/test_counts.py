"""An ordinary bed typed in from an empty start, in a real terminal: how many pages and keys it takes, and how soon the
first cut length is on the screen.

A key counts that puts no character into a field: Enter, F8, Space, arrows, and what picks a choice. The dialog for a
new project is a page; the work is none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from tests.screens.screen_texts import worded
from tests.screens.terminals import KEYS, Terminal

MOST_PAGES, MOST_KEYS, FIELDS_TO_THE_FIRST_LENGTH = 22, 100, 20
FIELDS_OF_F8 = {"The bed from above": 2, "The rails": 2, "Floor and top edge": 2}
"""Page -> fields that F8 takes at once on it."""
FIRST_LENGTH = worded("usual cut", "13 1/4 in")


class Maker:
    """Types a script, and counts. `pick:` is a letter or a figure that picks a choice; what is no key is text."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.keys = 0
        self.fields = 0
        self.first_length_at = 0
        self.pages = list[int]()
        self.totals = list[int]()

    def on(self, title: str, script: str) -> None:
        """On the page of that title: the words of a script with commas between."""
        self.terminal.sees(title)
        self._look()
        for each in script.split(", "):
            if each == "length":
                self.terminal.sees(FIRST_LENGTH)
                self.first_length_at = self.fields
                continue
            if each.startswith("pick:"):
                self.terminal.type(each.removeprefix("pick:"))
            elif each in KEYS:
                self.terminal.press(each)
            else:
                self.terminal.type(each)
                self.terminal.sees(each)
                continue
            self.keys += 1
            self.fields += FIELDS_OF_F8.get(title, 1) if each == "F8" else each == "Enter"
            self._look()

    def _look(self) -> None:
        self.terminal.read()
        heading = re.search(r"page (\d+) of about (\d+)", self.terminal.text())
        if heading and (not self.pages or self.pages[-1] != int(heading[1])):
            self.pages.append(int(heading[1]))
            self.totals.append(int(heading[2]))


def script_for_heron() -> Iterator[tuple[str, str]]:
    """Page by page, by somebody who knows F8."""
    yield worded("no project"), "F8"
    yield "A new project", "Heron loft, Enter"
    yield "The bed from above", "F8"
    yield "The rails", "pick:s, Enter, 1 1/8, F8"
    yield "Floor and top edge", "pick:h, Enter, 1/8, F8"
    yield "What to watch", "F8"
    yield (
        "Left section, seen",
        ("76 3/4, Enter, 76 5/8, Enter, 11 7/8, Enter, 12, Enter, 12 1/4, Enter, length, centre leg, Enter"),
    )
    yield "Left section: centre leg", "38, Enter, 3, F8"
    yield "Foot section, seen", "58 1/8, Enter, 58 1/8, Enter, 12, Enter, 12 1/8, Enter, 12 1/16, F8"
    yield "Right section, seen", "77, Enter, 77, Enter, 12 1/4, Enter, 12, Enter, 11 15/16, F8"
    yield "Hem line", "F8"
    yield "The corners", "pick:2, F8"
    yield "The posts, from above", "3, Enter, 3, Enter, 1/2, Enter, 1/2, Enter, pick:y, F8"
    yield "Face cloth", "54, Enter, pick:2, Enter, Enter, Enter, Space, F8"
    yield worded("owned"), "4 1/2 yd + 3 yd, F8"
    yield "Interlining", "45, Enter, pick:5, F8"
    yield "Washing", "F8"
    yield "How it is fixed", "F8"
    yield "What the pieces allow for", "F8"
    yield "How full?", "F8"
    yield "Ways of cutting", "F8"


def test_an_ordinary_bed_takes_few_pages_and_keys_and_the_first_cut_length_comes_soon(tmp_path: Path) -> None:
    with Terminal(cwd=tmp_path) as terminal:
        maker = Maker(terminal)
        for title, script in script_for_heron():
            maker.on(title, script)
        terminal.sees("widths")
        assert len(set(maker.pages) | {1}) <= MOST_PAGES
        assert maker.keys <= MOST_KEYS
        assert 0 < maker.first_length_at <= FIELDS_TO_THE_FIRST_LENGTH
