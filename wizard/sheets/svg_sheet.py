"""The drawings of some sheets as one picture, one under the other."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from typing import Final

from wizard.sheets.kinds.catalogue import sheets_of
from wizard.sheets.kinds.names import SheetId
from wizard.sheets.matter import Drawing
from wizard.sheets.stamp import Stamp, stamp_of
from wizard.sheets.svg import LETTERS, MARGIN, WIDTH, height_of, svg_number, svg_text, to_svg
from wizard.trade.plan import Plan

LINE: Final = Fraction(2 * LETTERS)
"""What a line of lettering takes."""


def drawings_svg(plan: Plan, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """Every drawing of the sheets named in `only`, or of the usual ones, each under its title; with the plan's stamp.

    The same plan and date, the same bytes. Without a drawing it is the stamp alone.
    """
    stamp = stamp_of(plan, date)
    scenes = [
        scene
        for sheet in sheets_of(plan, only)
        for each in sheet.matter
        if isinstance(each, Drawing)
        for scene in each.on_paper
    ]
    body, down = [_words(stamp.name, LINE, "bold"), _words(_small(stamp), LINE * 2)], LINE * 3
    for number, scene in enumerate(scenes, start=1):
        body += [_words(scene.title, down + LINE, "bold"), to_svg(scene, f"offcut-{number}", down + LINE).rstrip()]
        down += LINE + height_of(scene)
    size = f'width="{WIDTH}" height="{svg_number(down)}" viewBox="0 0 {WIDTH} {svg_number(down)}"'
    lines = "\n".join(body)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif" font-size="{LETTERS}">\n'
        f"<title>{svg_text(stamp.name)}</title>\n"
        f'<rect width="100%" height="100%" fill="#fff"/>\n{lines}\n</svg>\n'
    )


def _small(stamp: Stamp) -> str:
    return f"{stamp.short_units} · {stamp.short}"


def _words(text: str, down: Fraction, weight: str = "normal") -> str:
    return f'<text x="{MARGIN}" y="{svg_number(down)}" font-weight="{weight}">{svg_text(text)}</text>'
