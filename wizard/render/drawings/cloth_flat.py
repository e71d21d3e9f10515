"""A layer's cloth laid flat: its width between the selvedges, what is trimmed, the pattern's repeat."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.render.drawings.scene import Box, Label, Pen, Scene, Shape, Stroke
from wizard.render.drawings.sketch import length_at, value_label
from wizard.trade.figures import value_at
from wizard.trade.formatting import ruler_of
from wizard.trade.lengths import ZERO, Length
from wizard.trade.model import Job

WIDTH, HEIGHT = Length(60), Length(30)


EDGE: Final = Length(5)
"""How wide a trimmed selvedge is drawn: wider than it is, so that it can be seen."""


RIGHT: Final = Length(50)
"""Where the right selvedge is drawn."""


def cloth_flat(job: Job, layer: str, picked: str | None = None) -> Scene:
    """The cloth of `layer` (face, interlining, lining), with what `picked` names picked out: `width`, `trim`,
    `repeat` and how it matches, `one_way`, `warp_shrink`, `weft_shrink`. A sketch: nothing is to scale."""
    return _Cloth(job, f"cloth.{layer}", layer, picked or "").scene()


class _Cloth:
    def __init__(self, job: Job, key: str, layer: str, picked: str) -> None:
        self.layer, self.picked, self.ruler = layer, picked, ruler_of(job)
        leaves = ("width", "trim", "repeat")
        self.half_drop = value_at(job, f"{key}.repeat_kind") == "half-drop" or picked == "repeat_kind"
        self.lengths = {leaf: length_at(job, f"{key}.{leaf}") for leaf in leaves}

    def scene(self) -> Scene:
        shapes = (*self._selvedges(), *self._widths(), *self._along())
        return Scene(f"{self.layer} cloth laid flat", WIDTH, HEIGHT, shapes, to_scale=False)

    def pen(self, leaf: str) -> Pen:
        return "picked" if leaf == self.picked else "line"

    def _selvedges(self) -> list[Shape]:
        inner = [Stroke(x, ZERO, x, HEIGHT, "fine") for x in (EDGE, RIGHT - EDGE)]
        outer = [Stroke(x, ZERO, x, HEIGHT, "heavy") for x in (ZERO, RIGHT)]
        end = Stroke(ZERO, HEIGHT, RIGHT, HEIGHT)
        return [*inner, *outer, end, Label(RIGHT, HEIGHT / 2, " selvedge", "start")]

    def _widths(self) -> list[Shape]:
        shapes = self._across("width", ZERO, RIGHT, HEIGHT / 4)
        if self.lengths["trim"] or self.picked == "trim":
            for start, end in ((ZERO, EDGE), (RIGHT - EDGE, RIGHT)):
                shapes += self._across("trim", start, end, HEIGHT / 2)
        return shapes

    def _across(self, leaf: str, start: Length, end: Length, y: Length) -> list[Shape]:
        value, pen = self.lengths[leaf], self.pen(leaf)
        if value is None and leaf != self.picked:
            return []
        middle = (start + end) / 2 if leaf == "width" else (end + Length(1) if start == ZERO else start - Length(1))
        anchor = "middle" if leaf == "width" else ("start" if start == ZERO else "end")
        label = Label(middle, y, f" {value_label(value, self.ruler)} ", anchor, pen)  # type: ignore[arg-type]
        return [Stroke(start, y, end, y, pen, "both"), label]

    def _along(self) -> list[Shape]:
        """The repeat between two motifs, the way up, or which way washing takes."""
        x = WIDTH * Fraction(2, 5)
        if self.picked in ("one_way", "lay"):
            return [Stroke(x, HEIGHT / 4, x, HEIGHT * Fraction(7, 8), "picked", "both"), self._words("way up?")]
        if self.picked == "warp_shrink":
            return [Stroke(x, HEIGHT / 4, x, HEIGHT * Fraction(7, 8), "picked", "both"), self._words("along the roll")]
        if self.picked == "weft_shrink":
            y = HEIGHT * Fraction(3, 4)
            return [Stroke(EDGE, y, RIGHT - EDGE, y, "picked", "both"), self._words("across the roll")]
        asked = self.picked in ("repeat", "repeat_kind", "match", "match_from")
        return self._repeat(x) if self.lengths["repeat"] or asked else []

    def _words(self, text: str) -> Shape:
        return Label(WIDTH * Fraction(2, 5) + Length(2), HEIGHT * Fraction(5, 8), text, "start", "picked")

    def _repeat(self, x: Length) -> list[Shape]:
        """Two motifs one under the other; beside them the next width's, half a repeat lower where it drops."""
        top, bottom = HEIGHT * Fraction(3, 8), HEIGHT * Fraction(7, 8)
        motifs = [Box(x - Length(4), y - Length(1), Length(8), Length(2)) for y in (top, bottom)]
        if self.half_drop:
            aside = EDGE + Length(4)
            motifs.append(Box(aside, (top + bottom) / 2 - Length(1), Length(8), Length(2), self.pen("repeat_kind")))
        pen: Pen = "picked" if self.picked in ("repeat", "repeat_kind", "match", "match_from") else "line"
        label = Label(x + Length(2), (top + bottom) / 2, value_label(self.lengths["repeat"], self.ruler), "start", pen)
        return [*motifs, Stroke(x, top, x, bottom, pen, "both"), label]
