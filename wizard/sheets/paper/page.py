"""Sheets as one HTML file: for the printer, and for a phone beside the bed. It fetches nothing and needs no scripts."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection
from importlib.resources import files
from typing import Final

from wizard.sheets.blocks.head import head
from wizard.sheets.kinds.catalogue import Sheet, sheets_of
from wizard.sheets.kinds.names import SheetId
from wizard.sheets.paper.markup import Markup, text
from wizard.sheets.paper.true_scale import true_scale
from wizard.sheets.stamp import Stamp, stamp_of
from wizard.trade.plan import Plan

_HEAD: Final = """<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" lang="en" data-mark="{mark}">
<head>
<meta charset="utf-8" />
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src '{style_hash}'; \
script-src '{script_hash}'" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta name="referrer" content="no-referrer" />
<title>{name}</title>
<style>{style}</style>
</head>
<body>
"""


def paper_html(plan: Plan, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """The sheets named in `only`, or the usual ones, as one HTML document. The same plan and date, the same bytes."""
    stamp, style, script = stamp_of(plan, date), _part("sheet.css"), _part("ticks.js")
    sheets, markup = sheets_of(plan, only), Markup(stamp)
    opening = _HEAD.format(
        mark=stamp.mark, name=text(stamp.name), style=style, style_hash=_hash(style), script_hash=_hash(script)
    )
    notes = markup.all(head(plan, stamp))
    body = "".join(_sheet(each, number == 0, notes, stamp, markup) for number, each in enumerate(sheets))
    return f"{opening}{_contents(stamp, sheets)}{body}<script>{script}</script>\n</body>\n</html>\n"


def _part(name: str) -> str:
    return (files("wizard.sheets.paper") / name).read_text(encoding="utf-8")


def _hash(content: str) -> str:
    """What the page's own policy lets run: this very text and nothing else."""
    return f"sha256-{base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()}"


def _contents(stamp: Stamp, sheets: tuple[Sheet, ...]) -> str:
    links = " · ".join(f'<a href="#{each.id}">{text(each.title)}</a>' for each in sheets)
    return f"<h1>{text(stamp.name)}</h1>\n<nav>{links}</nav>\n"


def _sheet(sheet: Sheet, first: bool, notes: str, stamp: Stamp, markup: Markup) -> str:
    """A table with the running head for its head: browsers print that again on every page the sheet runs over."""
    kind = "sheet first" if first else "sheet"
    whose = f"<span><b>{text(stamp.name)}</b> · {text(sheet.title)}</span>"
    what = f"<span>{text(stamp.short_units)} · {text(stamp.short)}</span>"
    return (
        f'<table class="{kind}" id="{sheet.id}" role="presentation">\n'
        f'<thead><tr><td><div class="running">{whose} {what}</div></td></tr></thead>\n<tbody><tr><td>\n'
        f"<h2>{text(sheet.title)}</h2>\n{notes}{true_scale()}{markup.all(sheet.matter)}</td></tr></tbody></table>\n"
    )
