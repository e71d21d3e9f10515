"""A scene as SVG: one picture by itself or inside a page, black on white, no scripts, nothing fetched."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from html import escape
from typing import Final

from wizard.render.drawings.scene import Anchor, Box, Label, Scene, Size, Stroke
from wizard.render.plain_text import cell_len, literal
from wizard.render.text_page import wrapped
from wizard.trade.lengths import Length

# In hundredths of the letters' height: the wider of what the usual sans-serif faces take, so that a line set by it
# stays inside whichever of them a browser has.
_USUAL: Final = 62
_CAPITAL: Final = 76
_BROAD: Final = 100
_BOLD: Final = Fraction(11, 10)
"""How much wider bold lettering is."""
_OF_KIND: Final = {
    **dict.fromkeys(" .,:;'|!/\\ijlI`", 34),
    **dict.fromkeys("()[]{}ftr-", 42),
    **dict.fromkeys("mMW%@…—", _BROAD),
    **dict.fromkeys("0123456789", 64),
    **dict.fromkeys("w≈×+<>=~^#&", 84),
}


def lettering_width(text: str, height: int, *, bold: bool = False) -> Fraction:
    """How wide `text`, as it is shown, may come out in letters of that height; in the units of the height."""
    return Fraction(sum(map(_letter, literal(text))) * height, 100) * (_BOLD if bold else 1)


def _letter(letter: str) -> int:
    if letter in _OF_KIND:
        return _OF_KIND[letter]
    if cell_len(letter) != 1:
        return cell_len(letter) * _BROAD // 2
    return _CAPITAL if letter.isupper() or not letter.isalnum() else _USUAL


def wrapped_lettering(text: str, width: int, height: int, *, bold: bool = False) -> list[str]:
    """`text` in lines of at most `width`, broken at blanks, and longer words anywhere; one line at least."""
    return list(wrapped(literal(text), width, lambda part: lettering_width(part, height, bold=bold))) or [""]


WIDTH: Final = 720
"""Width of the picture in its own units."""
HALF: Final = 400
"""Width of one of two pictures beside each other: their lettering is as large."""
ROLL: Final = 480
"""Width of one with its legend beside it."""
SKETCH_HEIGHT: Final = 240
"""Height of a picture that is not to scale."""
MARGIN: Final = 14
INNER: Final = WIDTH - 2 * MARGIN
"""Width of what is drawn, between the margins."""
LETTERS: Final = 14
"""Height of the lettering."""
SIZES: Final[dict[Size, int]] = {"usual": LETTERS, "large": 20, "largest": 34}
"""Height of the lettering of each size."""
TIP: Final = 8
"""How long and wide the tip of a measuring line is."""
HATCHING: Final = "offcut"
"""What the hatching is called; a page with several pictures gives each its own name."""
_PENS: Final = {
    "line": "1.2",
    "heavy": "3",
    "fine": '0.8" stroke-dasharray="4 3',
    "picked": "4",
}
_HATCH: Final = (
    '<defs><pattern id="{name}" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<path d="M0 6 L6 0" stroke="#777" stroke-width="0.8"/></pattern></defs>'
)


def to_svg(
    scene: Scene,
    hatching: str = HATCHING,
    at: Fraction | None = None,
    wide: int = WIDTH,
    sketch_height: int = SKETCH_HEIGHT,
) -> str:
    """The scene as one `svg` element, with its title for whoever cannot see it. The same scene, the same bytes.

    `hatching` is a name that nothing else on the page has; `at` places it that far down inside another picture; `wide`
    is its width in its own units, and `sketch_height` its height where it is not to scale.
    """
    scale = _Scale(scene, hatching, wide, sketch_height)
    title = f"<title>{svg_text(scene.title)}</title>"
    # Lettering comes last: no line is drawn through it.
    ordered = sorted(scene.shapes, key=lambda shape: isinstance(shape, Label))
    body = "\n".join(map(scale.drawn, ordered))
    high = svg_number(scale.high)
    size = f'viewBox="0 0 {wide} {high}"'
    if at is not None:
        size += f' y="{svg_number(at)}" width="{wide}" height="{high}"'
    lettering = f'font-family="sans-serif" font-size="{LETTERS}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} {lettering}>\n{title}\n'
        f'{_HATCH.format(name=hatching)}\n<rect width="100%" height="100%" fill="#fff"/>\n{body}\n</svg>\n'
    )


def height_of(scene: Scene) -> Fraction:
    """How high its picture is, in the picture's own units."""
    return _Scale(scene, HATCHING, WIDTH, SKETCH_HEIGHT).high


class _Scale:
    """The scale in both directions, and every shape drawn to it."""

    def __init__(self, scene: Scene, hatching: str, wide: int, sketch_height: int) -> None:
        self.hatching = hatching
        self.across = Fraction(wide - 2 * MARGIN) / scene.width.inches
        self.down = self.across if scene.to_scale else Fraction(sketch_height - 2 * MARGIN) / scene.height.inches
        self.high = scene.height.inches * self.down + 2 * MARGIN

        # Most lines share an edge with another.
        self.x: Callable[[Length], str] = cache(lambda at: svg_number(MARGIN + at.inches * self.across))
        self.y: Callable[[Length], str] = cache(lambda at: svg_number(MARGIN + at.inches * self.down))

    def drawn(self, shape: Box | Stroke | Label) -> str:
        if isinstance(shape, Box):
            return self._box(shape)
        return self._stroke(shape) if isinstance(shape, Stroke) else self._words(shape)

    def _box(self, box: Box) -> str:
        fill = f"url(#{self.hatching})" if box.fill == "hatched" else "none"
        wide, high = svg_number(box.width.inches * self.across), svg_number(box.height.inches * self.down)
        place = f'x="{self.x(box.x)}" y="{self.y(box.y)}" width="{wide}" height="{high}"'
        return f'<rect {place} fill="{fill}" {_pen(box.pen)}/>'

    def _stroke(self, stroke: Stroke) -> str:
        """A straight line; at what it measures a solid triangle at each end."""
        start, end = self._at(stroke.x1, stroke.y1), self._at(stroke.x2, stroke.y2)
        level, backwards = stroke.y1 == stroke.y2, (stroke.x2, stroke.y2) < (stroke.x1, stroke.y1)
        first, last = (end, start) if backwards else (start, end)
        tips = _tip(first, level, 1) + _tip(last, level, -1) if stroke.tips else ""
        return _line(stroke.pen, start, end) + tips

    def _at(self, x: Length, y: Length) -> str:
        return f"{self.x(x)} {self.y(y)}"

    def _words(self, words: Label) -> str:
        weight = ' font-weight="bold"' if words.pen == "picked" else ""
        # A white edge keeps the lettering readable where it crosses a line.
        edge = 'stroke="#fff" stroke-width="3" paint-order="stroke"'
        letters = SIZES[words.size]
        place = f'x="{self.x(words.x)}" y="{self.y(words.y)}" dy="{letters // 3}"'
        if letters != LETTERS:
            weight += f' font-size="{letters}"'
        ground = self._ground(words, letters)
        return f'{ground}<text {place} text-anchor="{words.anchor}" {edge}{weight}>{svg_text(words.text)}</text>'

    def _ground(self, words: Label, letters: int) -> str:
        """White under words with blanks around them, which are in a line or across several."""
        if not words.text.startswith(" "):
            return ""
        wide = lettering_width(words.text, letters)
        left = MARGIN + words.x.inches * self.across - wide * _LEFT_OF[words.anchor]
        top = MARGIN + words.y.inches * self.down - Fraction(letters, 2)
        place = f'x="{svg_number(left)}" y="{svg_number(top)}" width="{svg_number(wide)}" height="{letters}"'
        return f'<rect {place} fill="#fff"/>'


_LEFT_OF: Final[dict[Anchor, Fraction]] = {"start": Fraction(0), "middle": Fraction(1, 2), "end": Fraction(1)}
"""How much of a label is to the left of its place."""


def _line(pen: str, start: str, end: str) -> str:
    return f'<path d="M{start} L{end}" fill="none" {_pen(pen)}/>'


def _tip(at: str, level: bool, sign: int) -> str:
    """A solid triangle as long as it is wide; `sign` is -1 for one that points right or down."""
    half = TIP // 2
    sides = f"{TIP * sign} -{half} 0 {TIP}" if level else f"-{half} {TIP * sign} {TIP} 0"
    return f'<path d="M{at} l{sides} z" fill="#000"/>'


def _pen(pen: str) -> str:
    return f'stroke="#000" stroke-width="{_PENS[pen]}"'


def svg_text(text: str) -> str:
    """`text` for a picture: literal, and with nothing in it that counts as markup."""
    return escape(literal(text))


def svg_number(value: Fraction) -> str:
    """To the nearest hundredth, ties to even, without a float."""
    whole, rest = divmod(abs(round(value * 100)), 100)
    sign = "-" if value < 0 and (whole or rest) else ""
    return f"{sign}{whole}" + (f".{rest:02}".rstrip("0") if rest else "")
