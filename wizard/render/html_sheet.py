"""Sheets as one HTML file: for the printer, and for a phone beside the bed. It fetches nothing and needs no scripts.

The markup is well-formed XML too. Every text is made literal and escaped on its way in.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection, Iterable, Sequence
from functools import cache, lru_cache
from html import escape
from importlib.resources import files
from itertools import count, pairwise, zip_longest
from string import Template
from typing import Final

from wizard.render.document import (
    Block,
    Card,
    Cards,
    Drawing,
    Heading,
    Note,
    Pairs,
    Para,
    Points,
    Table,
    TrueScale,
    Work,
    WorkStep,
)
from wizard.render.drawings.scene_svg import HALF, ROLL, WIDTH, to_svg
from wizard.render.plain_text import literal, with_whole_lengths
from wizard.render.sheet_header import SheetHeader, header_blocks, header_of, header_of_all
from wizard.render.sheet_kinds import Sheet, order_sheet, sheets_of
from wizard.render.sheet_names import LABEL_GRIDS, PAPERS, LabelGrid, PaperId, SheetId
from wizard.render.text_sheet import WAY_UP
from wizard.trade.formatting import is_metric
from wizard.trade.plan_records import Plan

FEW: Final = 4
"""Columns that fit beside each other on a phone, and in half a page."""
FEW_STEPS: Final = 6
"""Steps that fill no page: they may go on from one column into the next."""
LONG: Final = 32
"""Letters of a label that leaves no space for figures beside it."""
POINTS: Final = {
    "caution": '<p class="caution"><b>!</b>{}</p>',
    "changed": '<p class="caution"><b>*</b>{}</p>',
    "missing": "<p>? {}</p>",
}
"""How a caution, a change in a finished step and a missing answer are written."""


def paper_html(
    plan: Plan,
    only: Collection[SheetId] | None = None,
    date: str | None = None,
    paper: PaperId | None = None,
    labels: LabelGrid = "cut",
) -> str:
    """The sheets named in `only`, or the usual ones, as one HTML document. The same plan and date, the same bytes.

    `paper` is what the job's units go with unless it is given; `labels` the grid that labels are printed on.
    """
    header = header_of(plan, date)
    units, *state = header_blocks(plan, header)
    return _document(header, sheets_of(plan, only), units, state, _sizes(plan, paper, labels), labels)


def orders_html(plans: Sequence[Plan], date: str | None = None, paper: PaperId | None = None) -> str:
    """One order list for several jobs as an HTML document."""
    header = header_of_all(plans, date)
    units, *_ = header_blocks(plans[0], header)
    return _document(header, (order_sheet(plans),), units, [], _sizes(plans[0], paper, "cut"), "cut")


def _document(
    header: SheetHeader, sheets: Sequence[Sheet], units: Block, state: Sequence[Block], sizes: str, labels: LabelGrid
) -> str:
    style, script, markup = _part("sheet.css") + sizes, _part("ticks.js"), Markup(header, labels)
    return _filled(
        "printed_page.html",
        mark=header.mark,
        name=text(header.name),
        style=style,
        style_hash=_hash(style),
        script=script,
        script_hash=_hash(script),
        units=markup.all([units]),
        links=" · ".join(f'<a href="#{each.id}">{text(each.title)}</a>' for each in sheets),
        sheets="".join(markup.sheet(each, state, first=each is sheets[0]) for each in sheets),
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


def _sizes(plan: Plan, paper: PaperId | None, labels: LabelGrid) -> str:
    """The rules for the paper of the sheets and for that of the labels, which may be another."""
    usual: PaperId = "a4" if is_metric(plan.job.show, plan.job.standard) else "letter"
    cells = LABEL_GRIDS[labels].partition(",")[0]
    named = f"@page cells {{ size: {cells}; }}\n" if cells in PAPERS.values() else ""
    return f"@page {{ size: {PAPERS[paper or usual]}; }}\n{named}"


OF_A_SHEET: Final = 2
"""The level of a sheet's own heading."""


class Markup:
    """Writes the blocks of one page, and gives each drawing and each table a name that no other has."""

    def __init__(self, header: SheetHeader, labels: LabelGrid) -> None:
        self.header, self.labels = header, labels
        self._numbers, self._title, self._depth = count(1), "", OF_A_SHEET

    def sheet(self, sheet: Sheet, state: Sequence[Block], *, first: bool) -> str:
        """A table whose head is the running head: browsers repeat it on every page of the sheet."""
        self._title, self._depth, header = sheet.title, OF_A_SHEET, self.header
        blocks = self.all([*state, *sheet.blocks])
        if sheet.id == "labels" and self.labels != "cut":
            return f'<section class="sheet" id="{sheet.id}">\n<h2>{text(sheet.title)}</h2>\n{blocks}</section>\n'
        return _filled(
            "printed_sheet.html",
            kind="sheet first" if first else "sheet",
            id=sheet.id,
            job=" · ".join(text(each) for each in (header.name, header.client) if each),
            title=text(sheet.title),
            units=text(header.short_units),
            short=text(header.short),
            blocks=blocks,
        )

    def all(self, blocks: Sequence[Block]) -> str:
        """All of the blocks; those under a smaller heading stay together where they fit on a page."""
        made: list[str] = []
        for group in by_headings(blocks):
            inner = "".join(map(self._one, group))
            made.append(f'<section class="whole">\n{inner}</section>\n' if stays_whole(group) else inner)
        return "".join(made)

    def _one(self, each: Block) -> str:  # noqa: C901  one line for each kind of block
        match each:
            case Heading():
                return self._heading(each)
            case Para(words):
                return f"<p>{text(words)}</p>\n"
            case Pairs(rows):
                return pair_table(rows)
            case Table():
                return self._wide(each)
            case Points(kind, words):
                made = "".join(f'<li class="whole">{POINTS[kind].format(text(one))}</li>\n' for one in words)
                return f'<ul class="points">\n{made}</ul>\n'
            case Work(steps):
                return work_list(steps)
            case TrueScale():
                return _part("true_scale.html")
            case Note():
                return note_block(each)
            case Cards(cards):
                return self._cards(cards)
            case Drawing():
                return self._drawing(each)

    def _heading(self, each: Heading) -> str:
        """Never more than one level below the heading before it, whatever its size: those who listen count on that.

        The first one of a sheet begins no page: the sheet does.
        """
        kind = f"size-{each.level}{' new-page' if each.new_page and self._depth > OF_A_SHEET else ''}"
        self._title, self._depth = each.text, min(each.level + 2, self._depth + 1)
        return f'<h{self._depth} class="{kind}">{text(each.text)}</h{self._depth}>\n'

    def _wide(self, table: Table) -> str:
        """A table that a phone shows row by row; or, where rows are compared, one that can be pushed sideways there."""
        if table.boxes or table.blank or len(table.heads) <= FEW:
            return row_table(table, "figures large" if table.large else "figures")
        kind = "figures roomy" if len(table.heads) <= MANY else "figures"
        name = text(f"{self._title}, table {next(self._numbers)}")
        return f'<div class="wide" role="region" tabindex="0" aria-label="{name}">{row_table(table, kind)}</div>\n'

    def _drawing(self, drawing: Drawing) -> str:
        number, scene = next(self._numbers), drawing.scene
        kind, wide = ("half", HALF) if drawing.half else ("roll", ROLL) if scene.to_scale else ("sketch", WIDTH)
        row = LOW_ROW if drawing.half else ROW
        picture = to_svg(scene, f"offcut-{number}", wide=wide, sketch_height=row * drawing.rows)
        caption = f"<figcaption>{text(scene.title)}</figcaption>"
        figure = f'<figure class="{kind}" tabindex="0">{caption}\n{picture}</figure>\n'
        legend = f"<div>{paragraphs(drawing.legend)}</div>" if drawing.legend else ""
        return f"{figure}{legend}" if drawing.half else f'<div class="drawn">{figure}{legend}</div>\n'

    def _cards(self, cards: Sequence[Card]) -> str:
        """To be cut apart, or on as many pages of a label sheet as they take."""
        kind, a_page = "cards", len(cards)
        if self.labels != "cut":
            across, down = self.labels.split("x")
            kind, a_page = f"cells cells-{self.labels}", int(across) * int(down)
        pages = (cards[at : at + a_page] for at in range(0, len(cards), a_page))
        return "".join(f'<div class="{kind}">\n{"".join(map(self._card, page))}</div>\n' for page in pages)

    def _card(self, card: Card) -> str:
        up = f'<p class="up">{WAY_UP}</p>' if card.way_up else ""
        whose = f'<p class="small"><span class="mark">{text(self.header.mark)}</span> {text(self.header.name)}</p>'
        return f'<div class="card"><h3>{text(card.title)}</h3>{up}{paragraphs(card.lines)}{whose}</div>\n'


MANY: Final = 7
"""Columns that fit beside each other on paper in letters read at arm's length."""
ROW, LOW_ROW = 23, 16
"""What a line that a drawing takes in characters is in a picture, and in one of half the width."""


def by_headings(blocks: Sequence[Block]) -> list[Sequence[Block]]:
    """The blocks in order: each heading with what follows it up to the next one."""
    starts = [at for at, each in enumerate(blocks) if at == 0 or begins(each, blocks[at - 1])]
    return [blocks[start:end] for start, end in pairwise((*starts, len(blocks)))]


def begins(each: Block, before: Block) -> bool:
    """True for a heading; but after a list to tick a smaller one goes on with it, down to the drawing of them all."""
    return isinstance(each, Heading) and not (each.level > 1 and isinstance(before, Table) and before.boxes)


def stays_whole(group: Sequence[Block]) -> bool:
    """True under a smaller heading, but not for steps: half a page would be left empty."""
    first = group[0]
    return isinstance(first, Heading) and first.level > 1 and not any(isinstance(each, Work) for each in group)


@lru_cache(maxsize=2048)
def text(words: str) -> str:
    """`words` for a page: literal, with nothing in them that counts as markup, and no length broken between lines."""
    return escape(with_whole_lengths(literal(words)))


def paragraphs(texts: Iterable[str]) -> str:
    """A paragraph for each text."""
    return "".join(f"<p>{text(each)}</p>" for each in texts)


def pair_table(rows: Iterable[tuple[str, str]]) -> str:
    """Labels, each with its value."""
    made = "".join(f'<tr><th scope="row">{text(label)}</th><td>{text(value)}</td></tr>\n' for label, value in rows)
    return f'<table class="pairs"><tbody>\n{made}</tbody></table>\n'


def row_table(table: Table, kind: str, before: Sequence[str] = ()) -> str:
    """Rows under their heads; `before`: a row of its own before each row."""
    boxes = [f'<td class="tick">{_box(id, "", row[0])}</td>' for id, row in zip(table.boxes, table.rows, strict=False)]
    heads = ('<th scope="col"><span class="hidden">done</span></th>' if boxes else "") + "".join(
        f'<th scope="col"{_class(table, at)}>{text(words)}</th>' if words else "<td></td>"
        for at, words in enumerate(table.heads)
    )
    rows = "".join(
        f"{over}<tr>{box}{''.join(_cell(table, at, words) for at, words in enumerate(row))}</tr>\n"
        for over, box, row in zip_longest(before, boxes, table.rows, fillvalue="")
    )
    return f'<table class="{kind}">\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>\n'


def _cell(table: Table, at: int, words: str) -> str:
    """A cell, which names its head: a phone shows each row as a block of lines."""
    if words and not table.heads[at]:
        return f'<th scope="row"{_class(table, at)}>{text(words)}</th>'
    return f'<td{_class(table, at)} data-head="{text(table.heads[at])}">{text(words)}</td>'


def _class(table: Table, at: int) -> str:
    which = (("at-left", table.left), ("afar", table.large), ("blank", table.blank))
    kinds = " ".join(kind for kind, columns in which if at in columns)
    return f' class="{kinds}"' if kinds else ""


def _box(id: str, inner: str, label: str = "", *, ticked: bool = False) -> str:
    state = ' checked=""' if ticked else ""
    named = f' aria-label="{text(label)}"' if label else ""
    return f'<label><input type="checkbox" data-tick="{text(id)}"{named} autocomplete="off"{state} />{inner}</label>'


def work_list(steps: Sequence[WorkStep]) -> str:
    """In one column on paper where tables have many; else in two, or a few steps without tables in three."""
    tables = [part for each in steps for part in each.body if isinstance(part, Table)]
    columns = max((len(each.heads) for each in tables if not each.heads[0]), default=len(tables))
    kind = "one" if columns > FEW else "two" if columns or len(steps) > FEW_STEPS else "three"
    return f'<ol class="steps {kind}">\n{"".join(map(_step, steps))}</ol>\n'


def _step(each: WorkStep) -> str:
    """Cautions and title always stay on one page; the whole step does where it fits on one."""
    before = "".join(POINTS["caution"].format(text(words)) for words in each.cautions)
    before += POINTS["changed"].format(text(each.changed)) if each.changed else ""
    mark = f'<p class="caution as-before"><b>!</b>{text(each.as_before)}</p>' if each.as_before else ""
    title = f"<b>{text(each.title)}</b>" + (f" <small>({text(each.time)})</small>" if each.time else "")
    if len(each.boxes) == 1:
        head = _box(each.boxes[0].id, title, ticked=each.boxes[0].ticked)
    else:
        boxes = "".join(_box(box.id, text(box.label), ticked=box.ticked) for box in each.boxes)
        group = f'<div class="boxes" role="group" aria-label="{text(each.title)}">{boxes}</div>'
        head = f'<p class="title">{title}</p>{group}'
    body = "".join(_beside(part) if isinstance(part, Table) else f"<p>{text(part)}</p>" for part in each.body)
    notes = "".join(f'<p class="kit">note: {text(words)}</p>' for words in each.notes)
    how = f'<details open=""><summary>How</summary>{body}{notes}</details>' if body or notes else ""
    return f'<li class="step whole"><div class="before">{before}{mark}{head}</div>{how}</li>\n'


def _beside(table: Table) -> str:
    """Sections beside each other, with long labels on lines of their own; or the places of one, which run on."""
    if table.heads[0]:
        pairs = (pair for row in table.rows for pair in zip(table.heads[1:], row[1:], strict=True))
        return f"<p><b>{text(table.heads[0])}</b></p>{pair_table(pairs)}"
    if max(len(row[0]) for row in table.rows) <= LONG:
        return row_table(table, "beside")
    label = f'<tr><th scope="rowgroup" colspan="{len(table.heads) - 1}">{{}}</th></tr>\n'
    of_each = Table(table.heads[1:], tuple(row[1:] for row in table.rows))
    return row_table(of_each, "beside", [label.format(text(row[0])) for row in table.rows])


def note_block(each: Note) -> str:
    """A finding or a figure in full."""
    words = f"<p><b>{text(each.title)}:</b> {text(each.text)}</p>{paragraphs(each.lines)}"
    return f'<div class="whole reason">{words}<p class="small">{text(each.small)}</p></div>\n'
