"""Sheets as one HTML file: for the printer, and for a phone beside the bed. It fetches nothing and needs no scripts.

The markup is well-formed XML too. Every text is made literal and escaped on its way in.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection, Iterable, Sequence
from functools import cache
from html import escape
from importlib.resources import files
from itertools import count, pairwise
from string import Template
from typing import Final

from wizard.render.document import (
    Block,
    Card,
    Cards,
    Drawing,
    Heading,
    Note,
    Notes,
    Pairs,
    Para,
    Points,
    Table,
    TrueScale,
    Work,
    WorkStep,
)
from wizard.render.drawings.scene_svg import to_svg
from wizard.render.plain_text import literal, with_whole_lengths
from wizard.render.sheet_header import SheetHeader, header_blocks, header_of
from wizard.render.sheet_kinds import Sheet, sheets_of
from wizard.render.sheet_names import SheetId
from wizard.render.text_sheet import WAY_UP
from wizard.trade.plan_records import Plan


def paper_html(plan: Plan, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """The sheets named in `only`, or the usual ones, as one HTML document. The same plan and date, the same bytes."""
    header, style, script = header_of(plan, date), _part("sheet.css"), _part("ticks.js")
    sheets, markup = sheets_of(plan, only), Markup(header)
    notes = markup.all(header_blocks(plan, header))
    return _filled(
        "printed_page.html",
        mark=header.mark,
        name=text(header.name),
        style=style,
        style_hash=_hash(style),
        script=script,
        script_hash=_hash(script),
        links=" · ".join(f'<a href="#{each.id}">{text(each.title)}</a>' for each in sheets),
        sheets="".join(_sheet(each, number == 0, notes, header, markup) for number, each in enumerate(sheets)),
    )


@cache
def _part(name: str) -> str:
    return (files("wizard.render") / name).read_text(encoding="utf-8")


def _filled(part: str, /, **values: str) -> str:
    """A part with its places filled in; the values are markup already."""
    return Template(_part(part)).substitute(values)


def _hash(content: str) -> str:
    """The hash with which the page's policy allows this text and nothing else."""
    return f"sha256-{base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()}"


def _sheet(sheet: Sheet, first: bool, notes: str, header: SheetHeader, markup: Markup) -> str:
    """A table whose head is the running head: browsers repeat it on every page of the sheet."""
    return _filled(
        "printed_sheet.html",
        kind="sheet first" if first else "sheet",
        id=sheet.id,
        name=text(header.name),
        title=text(sheet.title),
        units=text(header.short_units),
        short=text(header.short),
        blocks=notes + markup.all(sheet.blocks),
    )


def text(words: str) -> str:
    """`words` for a page: literal, with nothing in them that counts as markup, and no length broken between lines."""
    return escape(with_whole_lengths(literal(words)))


class Markup:
    """Writes the blocks of one page, and gives the hatching of each drawing an id that no other has."""

    def __init__(self, header: SheetHeader) -> None:
        self.header = header
        self._drawings = count(1)

    def all(self, blocks: Sequence[Block]) -> str:
        """All of the blocks; those under a smaller heading stay together where they fit on a page."""
        made: list[str] = []
        for group in by_headings(blocks):
            inner = "".join(self._one(each, before) for before, each in zip([None, *group], group, strict=False))
            made.append(f'<section class="whole">\n{inner}</section>\n' if stays_whole(group) else inner)
        return "".join(made)

    def _one(self, each: Block, before: Block | None) -> str:  # noqa: C901  one line for each kind of block
        match each:
            case Heading(words, level, new_page):
                kind = ' class="new-page"' if new_page else ""
                return f"<h{level + 2}{kind}>{text(words)}</h{level + 2}>\n"
            case Para(words):
                return f"<p>{text(words)}</p>\n"
            case Pairs(rows):
                return _pairs(rows)
            case Table():
                return _table(each)
            case Points(kind, words):
                return _list("points", (_POINTS[kind].format(text(one)) for one in words))
            case Work(steps):
                return f'<ol class="steps">\n{"".join(map(_step, steps))}</ol>\n'
            case TrueScale():
                return _part("true_scale.html")
            case Notes(notes):
                return "".join(map(_note, notes))
            case Cards(cards):
                return f'<div class="cards">\n{"".join(self._card(card) for card in cards)}</div>\n'
            case Drawing():
                return self._drawing(each)

    def _drawing(self, drawing: Drawing) -> str:
        picture = to_svg(drawing.scene, f"offcut-{next(self._drawings)}")
        kind = ' class="to-scale"' if drawing.scene.to_scale else ""
        legend = f'<p class="small">{text(drawing.legend)}</p>\n' if drawing.legend else ""
        return f"<figure{kind}><figcaption>{text(drawing.scene.title)}</figcaption>\n{picture}</figure>\n{legend}"

    def _card(self, card: Card) -> str:
        up = f"<p><b>{WAY_UP}</b></p>" if card.way_up else ""
        whose = f'<p class="small">{text(self.header.name)}, <span class="mark">{text(self.header.short)}</span></p>'
        return f'<div class="card"><h4>{text(card.title)}</h4>{_paras(card.lines)}{up}{whose}</div>\n'


def _pairs(rows: Iterable[tuple[str, str]]) -> str:
    made = "".join(f'<tr><th scope="row">{text(label)}</th><td>{text(value)}</td></tr>\n' for label, value in rows)
    return f'<table class="pairs"><tbody>\n{made}</tbody></table>\n'


def _table(table: Table) -> str:
    boxes = [f"<td>{_box(each, '')}</td>" for each in table.boxes] or [""] * len(table.rows)
    heads = ('<th aria-label="done"></th>' if table.boxes else "") + _cells("th", table.heads, table)
    rows = "".join(f"<tr>{box}{_cells('td', row, table)}</tr>\n" for box, row in zip(boxes, table.rows, strict=True))
    kind = "figures large" if table.large else "figures"
    return (
        f'<div class="wide"><table class="{kind}">\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>'
        "</div>\n"
    )


def _cells(tag: str, row: Sequence[str], table: Table) -> str:
    return "".join(f"<{tag}{_marked(tag, table, at)}>{text(words)}</{tag}>" for at, words in enumerate(row))


def _marked(tag: str, table: Table, at: int) -> str:
    """The attributes of a cell. Cells of a large table name their head: a phone shows each row as a block of lines."""
    kinds = " ".join(kind for kind, which in (("at-left", table.left), ("afar", table.large)) if at in which)
    kind = f' class="{kinds}"' if kinds else ""
    return f'{kind} data-head="{text(table.heads[at])}"' if table.large and tag == "td" else kind


def _list(kind: str, items: Iterable[str]) -> str:
    made = "".join(f'<li class="whole">{item}</li>\n' for item in items)
    return f'<ul class="{kind}">\n{made}</ul>\n'


def _box(id: str, inner: str, *, ticked: bool = False) -> str:
    state = ' checked=""' if ticked else ""
    return f'<label><input type="checkbox" data-tick="{text(id)}" autocomplete="off"{state} />{inner}</label>'


_POINTS: Final = {
    "caution": '<p class="caution"><b>!</b>{}</p>',
    "changed": '<p class="caution"><b>{}</b></p>',
    "missing": "<p>? {}</p>",
}
"""How a caution, a change in a finished step and a missing answer are written."""


def _step(each: WorkStep) -> str:
    """Cautions and title always stay on one page; the whole step does where it fits on one."""
    points = [*(("caution", words) for words in each.cautions), *(("changed", words) for words in each.changed)]
    before = "".join(_POINTS[kind].format(text(words)) for kind, words in points)
    mark = f'<p class="caution as-before"><b>!</b>{text(each.as_before)}</p>' if each.as_before else ""
    title = f"<b>{text(each.title)}</b>" + (f" <small>({text(each.time)})</small>" if each.time else "")
    if len(each.boxes) == 1:
        head = _box(each.boxes[0].id, title, ticked=each.boxes[0].ticked)
    else:
        boxes = "".join(_box(box.id, text(box.label), ticked=box.ticked) for box in each.boxes)
        head = f'<p class="title">{title}</p><div class="boxes">{boxes}</div>'
    notes = "".join(f'<p class="kit">note: {text(words)}</p>' for words in each.notes)
    body = "".join(_table(part) if isinstance(part, Table) else f"<p>{text(part)}</p>" for part in each.body)
    return f'<li class="step whole"><div class="before">{before}{mark}{head}</div>{body}{notes}</li>\n'


def _paras(texts: Iterable[str]) -> str:
    return "".join(f"<p>{text(each)}</p>" for each in texts)


def _note(each: Note) -> str:
    words = f"<p><b>{text(each.title)}:</b> {text(each.text)}</p>{_paras(each.lines)}"
    return f'<div class="whole reason">{words}<p class="small">{text(each.small)}</p></div>\n'


def by_headings(blocks: Sequence[Block]) -> list[Sequence[Block]]:
    """The blocks in order: each heading with what follows it up to the next one."""
    starts = [at for at, each in enumerate(blocks) if at == 0 or isinstance(each, Heading)]
    return [blocks[start:end] for start, end in pairwise((*starts, len(blocks)))]


def stays_whole(group: Sequence[Block]) -> bool:
    """True under a smaller heading, but not for steps: they would leave half a page empty."""
    first = group[0]
    return isinstance(first, Heading) and first.level > 1 and not any(isinstance(each, Work) for each in group)
