"""The drawings of some sheets as one picture, one under the other."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from typing import Final

from wizard.project.finished_steps import changed_in_words
from wizard.render.document import Drawing
from wizard.render.drawings.scene_svg import (
    INNER,
    LETTERS,
    MARGIN,
    WIDTH,
    height_of,
    svg_number,
    svg_text,
    to_svg,
    wrapped_lettering,
)
from wizard.render.sheet_header import header_of
from wizard.render.sheet_kinds import changed_for, sheets_of
from wizard.render.sheet_names import SheetId
from wizard.trade.plan_records import Plan

LINE: Final = 20
"""From one line of lettering to the next."""
ABOVE: Final = LETTERS
"""Space above a heading."""
BELOW: Final = LETTERS // 2
"""Space under the last line of a heading, for letters that reach below the line."""


def drawings_svg(plan: Plan, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """Every drawing of the sheets named in `only`, or of the usual ones, each under its title; with the plan's header.

    The same plan and date, the same bytes. Without a drawing it is the header alone.
    """
    header = header_of(plan, date)
    sheets = sheets_of(plan, only)
    blocks = [each for sheet in sheets for each in sheet.blocks if isinstance(each, Drawing)]
    body, down = _block(header.name, Fraction(0), bold=True)
    legends = dict.fromkeys(words for each in blocks for words in each.legend)
    notes = [f"{header.short_units} · {header.short}", *legends]
    notes += dict.fromkeys(changed_in_words(each for sheet in sheets for each in changed_for(plan, sheet.id)))
    for note in notes:
        lines, down = _block(note, down)
        body += lines
    for number, scene in enumerate((each.scene for each in blocks), start=1):
        heading, down = _block(scene.title, down + ABOVE, bold=True)
        body += [*heading, to_svg(scene, f"offcut-{number}", down).rstrip()]
        down += height_of(scene)
    return _whole(header.name, body, svg_number(down))


def _block(text: str, down: Fraction, *, bold: bool = False) -> tuple[list[str], Fraction]:
    """The text in lines as wide as the picture, from `down` on; and where what comes after it may begin."""
    weight = "bold" if bold else "normal"
    lines = wrapped_lettering(text, INNER, LETTERS, bold=bold)
    made = [
        f'<text x="{MARGIN}" y="{svg_number(down + LINE * number)}" font-weight="{weight}">{svg_text(line)}</text>'
        for number, line in enumerate(lines, start=1)
    ]
    return made, down + LINE * len(lines) + BELOW


def _whole(title: str, body: list[str], high: str) -> str:
    size = f'width="{WIDTH}" height="{high}" viewBox="0 0 {WIDTH} {high}"'
    lines = "\n".join(body)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif" font-size="{LETTERS}">\n'
        f"<title>{svg_text(title)}</title>\n"
        f'<rect width="100%" height="100%" fill="#fff"/>\n{lines}\n</svg>\n'
    )
