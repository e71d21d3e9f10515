"""Sheets as one HTML file: for the printer, and for a phone beside the bed. It fetches nothing and needs no scripts.

The markup is well-formed XML too. Every text is made literal and escaped on its way in.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import cache
from html import escape
from importlib.resources import files
from itertools import count, groupby, pairwise
from string import Template
from typing import Final

from wizard.render.document import (
    Block,
    Card,
    Cards,
    CautionedStep,
    Drawing,
    Heading,
    Note,
    Notes,
    Pairs,
    Para,
    Points,
    Steps,
    Table,
    Ticks,
    with_cautions,
)
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_svg import to_svg
from wizard.render.figure_text import time_text
from wizard.render.plain_text import cell_len, literal, with_whole_lengths
from wizard.render.sheet_header import SheetHeader, header_blocks, header_of
from wizard.render.sheet_kinds import Sheet, sheets_of
from wizard.render.sheet_names import SheetId
from wizard.render.text_sheet import WAY_UP
from wizard.trade.plan_records import Plan


def paper_html(plan: Plan, only: Collection[SheetId] | None = None, date: str | None = None) -> str:
    """The sheets named in `only`, or the usual ones, as one HTML document. The same plan and date, the same bytes."""
    header, style, script = header_of(plan, date), _part("sheet.css"), _part("ticks.js")
    sheets, markup = sheets_of(plan, only), Markup(header)
    # What holds for all sheets, and two lines of known length to check on paper that a printer prints at full size.
    notes = markup.all(header_blocks(plan, header)) + _part("true_scale.html")
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
            case Ticks(items):
                return _list("ticks", (_box(id, text(words)) for id, words in items))
            case Points(kind, words):
                return _list("points", (_POINTS[kind].format(text(one)) for one in words))
            case Steps(steps):
                return f'<ol class="steps">\n{"".join(map(_step, with_cautions(steps)))}</ol>\n'
            case Notes(notes):
                return "".join(map(_note, notes))
            case Cards(cards):
                return f'<div class="cards">\n{"".join(self._card(card) for card in cards)}</div>\n'
            case Drawing():
                named = before.text if isinstance(before, Heading) else ""
                return "".join(self._drawing(scene, named) for scene in each.on_paper)

    def _drawing(self, scene: Scene, named: str) -> str:
        picture = to_svg(scene, f"offcut-{next(self._drawings)}")
        # A drawing right under a heading with its title needs no caption.
        title = "" if scene.title == named else f"<figcaption>{text(scene.title)}</figcaption>\n"
        kind = ' class="to-scale"' if scene.to_scale else ""
        return f"<figure{kind}>{title}{picture}</figure>\n"

    def _card(self, card: Card) -> str:
        up = f"<p><b>{WAY_UP}</b></p>" if card.way_up else ""
        whose = f'<p class="small">{text(self.header.name)}, <span class="mark">{text(self.header.short)}</span></p>'
        return f'<div class="card"><h4>{text(card.title)}</h4>{_paras(card.lines)}{up}{whose}</div>\n'


def _pairs(rows: Iterable[tuple[str, str]]) -> str:
    made = "".join(f'<tr><th scope="row">{text(label)}</th><td>{text(value)}</td></tr>\n' for label, value in rows)
    return f'<table class="pairs"><tbody>\n{made}</tbody></table>\n'


def _table(table: Table) -> str:
    heads = _cells("th", table.heads, table)
    rows = "".join(f"<tr>{_cells('td', row, table)}</tr>\n" for row in table.rows)
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


def _step(each: CautionedStep) -> str:
    """Cautions and title always stay on one page; the whole step does where it fits on one."""
    step, time = each.step, time_text(each.step)
    points = [*(("caution", words) for words in each.before), *([("changed", each.changed)] if each.changed else [])]
    before = "".join(_POINTS[kind].format(text(words)) for kind, words in points)
    title = f"<b>{text(step.title)}</b>" + (f" <small>({time})</small>" if time else "")
    lines = "".join(map(_lines, alike(step.lines)))
    kit = "".join(f'<p class="kit">{label}: {text(words)}</p>' for label, words in each.kit)
    box = _box(step.id, title, ticked=step.done)
    return f'<li class="step whole"><div class="before">{before}{box}</div>{lines}{kit}</li>\n'


def _lines(group: tuple[str, ...]) -> str:
    return f'<div class="alike">{_paras(group)}</div>' if len(group) > 1 else _paras(group)


def _paras(texts: Iterable[str]) -> str:
    return "".join(f"<p>{text(each)}</p>" for each in texts)


def _note(each: Note) -> str:
    kind = "whole reason" if each.kind == "reason" else "whole"
    words = f"<p><b>{text(each.title)}:</b> {text(each.text)}</p>{_paras(each.lines)}"
    return f'<div class="{kind}">{words}<p class="small">{each.label}{text(each.small)}</p></div>\n'


LEAST_ALIKE: Final = 4
"""Fewer lines than this stay as they are."""
LONGEST_ALIKE: Final = 36
"""Letters in a line that fits in half the width of a page."""


def alike(lines: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """The lines in order, those of a run together, every other alone: a run has one first word, and short lines."""
    for word, group in groupby(lines, _begins):
        run = tuple(group)
        if word and len(run) >= LEAST_ALIKE:
            yield run
        else:
            yield from ((line,) for line in run)


def _begins(line: str) -> str:
    """The first word of a short line; nothing for a long one."""
    return line.partition(" ")[0] if cell_len(line) <= LONGEST_ALIKE else ""


def by_headings(blocks: Sequence[Block]) -> list[Sequence[Block]]:
    """The blocks in order: each heading with what follows it up to the next one."""
    starts = [at for at, each in enumerate(blocks) if at == 0 or isinstance(each, Heading)]
    return [blocks[start:end] for start, end in pairwise((*starts, len(blocks)))]


def stays_whole(group: Sequence[Block]) -> bool:
    """True under a smaller heading, but not for steps or a drawing in parts: they would leave half a page empty."""
    first = group[0]
    long = any(isinstance(each, Steps) or (isinstance(each, Drawing) and len(each.on_paper) > 1) for each in group)
    return isinstance(first, Heading) and first.level > 1 and not long
