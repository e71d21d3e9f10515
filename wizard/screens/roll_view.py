"""Looking over a roll to scale: which length, how near, and where; pure, so that a key only makes another view."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.screens.figure_words import running
from wizard.sheets.drawings.roll import Detail, rolls, squared_end, way_up
from wizard.sheets.scene import Scene
from wizard.sheets.window import Window, part_in_cells, rows_of
from wizard.trade.compare_ways import held
from wizard.trade.formatting import Ruler, ruler_of, shown
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Plan

MARGIN: Final = 11
"""Columns for the running measure."""
MORE: Final = "…"
"""After a measure: others lie in the same line."""
TALL: Final = 2
"""A character is about twice as high as it is wide: so much more of the roll lies in a line than in a column."""
NEARER: Final = Fraction(3, 2)
NEAREST: Final = Fraction(12)
"""How much nearer than the whole width one may come."""


class View(Struct, frozen=True):
    """Where one looks. Measures are those of the scene."""

    number: int = 0
    """Which length of cloth, from 0."""
    zoom: Fraction | None = None
    """1 shows the whole width; None shows the whole length."""
    left: Length = ZERO
    top: Length = ZERO


def scenes_of(plan: Plan) -> tuple[Scene, ...]:
    """Every length that is cut, of every layer, as the sheets draw it, with each piece's size."""
    names, ruler = {part.id: part.name for part in plan.parts}, ruler_of(plan.job)
    found: list[Scene] = []
    for layer in plan.layers:
        if layer.cutting is not None:
            best = layer.cutting.best
            up = way_up(best, held(plan, layer, "match_from") or "hem")
            found += rolls(layer, best, names, detail=Detail(ruler, up))
    return tuple(found)


class Looker(Struct, frozen=True):
    """One scene in a place of `columns` by `rows` characters."""

    scene: Scene
    columns: int
    rows: int

    @property
    def across(self) -> int:
        """Columns of the drawing itself."""
        return max(self.columns - MARGIN, 8)

    def column_at(self, zoom: Fraction | None) -> Length:
        """How much one column shows."""
        whole_width = self.scene.width / (self.across - 1)
        if zoom is not None:
            return whole_width / zoom
        return max(whole_width, self.scene.height / (max(self.rows - 1, 1) * TALL))

    def window(self, view: View) -> Window:
        """What the view shows, kept on the cloth."""
        column = self.column_at(view.zoom)
        line = column * TALL
        left = _within(view.left, self.scene.width - column * (self.across - 1))
        top = _within(view.top, self.scene.height - line * (self.rows - 1))
        return Window(left, top, column, line)

    def kept(self, view: View) -> View:
        """The view, moved back on the cloth where it looked beside it."""
        window = self.window(view)
        return replace(view, left=window.left, top=window.top)

    def nearer(self, view: View, times: Fraction) -> View:
        """So many times nearer, about the same middle; never farther than the whole length."""
        old, column = self.window(view), self.column_at(view.zoom) / times
        least, most = self.column_at(Fraction(1)) / NEAREST, self.column_at(None)
        if column >= most:
            return View(view.number)
        column = max(column, least)
        half = Fraction(self.across - 1, 2), Fraction(self.rows - 1, 2)
        left = old.left + (old.column - column) * half[0]
        top = old.top + (old.line - column * TALL) * half[1]
        return self.kept(replace(view, zoom=self.column_at(Fraction(1)) / column, left=left, top=top))

    def moved(self, view: View, columns: int, rows: int) -> View:
        """So many columns to the right and lines down."""
        window = self.window(view)
        return self.kept(replace(view, left=window.left + window.column * columns, top=window.top + window.line * rows))

    def lines(self, view: View, ruler: Ruler) -> Iterator[tuple[str, str]]:
        """Running measure and drawing of each line."""
        window = self.window(view)
        measures = rows_of(self.scene, window, self.rows)
        for number, line in enumerate(part_in_cells(self.scene, window, self.across, self.rows)):
            yield f"{self._beside(measures.get(number, []), ruler).rjust(MARGIN - 1)} ", line

    def _beside(self, measures: list[Length], ruler: Ruler) -> str:
        """The first of what begins or ends in a line, with dots after it where there is more to be seen from nearer."""
        if not measures:
            return ""
        more = MORE if len(measures) > 1 else ""
        return running(measures[0] - squared_end(self.scene), ruler, MARGIN - 1 - len(more)) + more

    def seen(self, view: View, ruler: Ruler) -> str:
        """What part is seen, in words: `all of it`, or from where to where. So far off that the width takes only a part
        of the room, numbers of small pieces may be left out: it says how they are had."""
        window = self.window(view)
        wide, high = window.column * (self.across - 1), window.line * (self.rows - 1)
        if wide >= self.scene.width and high >= self.scene.height:
            return "all of it" if window.column == self.column_at(Fraction(1)) else "all; nearer shows more"
        start = squared_end(self.scene)
        along = _range(window.top - start, min(window.top + high, self.scene.height) - start, ruler)
        if wide >= self.scene.width:
            return f"{along} along"
        return f"{along} along, {_range(window.left, min(window.left + wide, self.scene.width), ruler)} across"


def _within(at: Length, most: Length) -> Length:
    return max(ZERO, min(at, most))


def _range(start: Length, end: Length, ruler: Ruler) -> str:
    inches = Ruler(ruler.unit, max(ruler.mark, Length.of(1, ruler.unit)) if ruler.unit in ("in", "cm") else ruler.mark)
    texts = [shown(each, inches).removeprefix("≈ ") for each in (start, end)]
    return f"{texts[0]} to {texts[1]}"
