"""Two lines of known length, to check that a printer prints at full size."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.sheets.svg import svg_number
from wizard.trade.lengths import Length

LINES: Final = (
    ("10 cm", Length.of(10, "cm"), tuple(Length.of(at, "cm") for at in range(11))),
    ("4 in", Length.of(4, "in"), tuple(Length(Fraction(at, 2)) for at in range(9))),
)
"""Label, length, and where its ticks are."""
WIDE, HIGH, LEFT, THICK = Fraction(104), Fraction(11), Fraction(1), Fraction(1, 2)
"""The drawing in millimetres; the style sheet gives it this size on paper."""
_SAYS: Final = (
    "Lay a ruler on these lines. If they are not 10 cm and 4 in long, print again at 100 %, not fitted to the page."
)


def true_scale() -> str:
    """Both lines, drawn in millimetres; shown on paper only."""
    drawn = "".join(_line(top, *line) for top, line in zip((Fraction(1), Fraction(6)), LINES, strict=True))
    size = f'width="{WIDE}mm" height="{HIGH}mm" viewBox="0 0 {WIDE} {HIGH}"'
    return (
        f'<figure class="scale"><svg xmlns="http://www.w3.org/2000/svg" role="img" {size} font-family="sans-serif" '
        f'font-size="2.8"><title>Lines of 10 cm and 4 in</title>{drawn}</svg>'
        f'<p class="small">{_SAYS}</p></figure>\n'
    )


def _line(top: Fraction, label: str, length: Length, ticks: tuple[Length, ...]) -> str:
    place = f'x="{svg_number(LEFT)}" y="{svg_number(top)}"'
    bar = f'<rect {place} width="{svg_number(length.mm)}" height="{svg_number(THICK)}"/>'
    upright = "".join(
        f'<path d="M{svg_number(LEFT + at.mm)} {svg_number(top)} v1.6" stroke="#000" stroke-width="0.2"/>'
        for at in ticks[1:-1]
    )
    words = (
        f'<text x="{svg_number(LEFT + length.mm / 2)}" y="{svg_number(top + 4)}" text-anchor="middle">{label}</text>'
    )
    return bar + upright + words
