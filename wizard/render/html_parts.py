"""Parts of an HTML sheet that are the same wherever they are: tables, boxes to tick, and the steps of the work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from html import escape
from itertools import zip_longest
from typing import Final

from wizard.render.document import Note, Table, WorkStep
from wizard.render.plain_text import literal, with_whole_lengths

FEW: Final = 4
"""Columns that fit beside each other on a phone, and in half a page."""
FEW_STEPS: Final = 6
"""Steps that fill no page: they may go on from one column into the next."""
LONG: Final = 32
"""Letters of a label that leaves no space for figures beside it."""
POINTS: Final = {
    "caution": '<p class="caution"><b>!</b>{}</p>',
    "changed": '<p class="caution"><b>{}</b></p>',
    "missing": "<p>? {}</p>",
}
"""How a caution, a change in a finished step and a missing answer are written."""


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
    points = [*(("caution", words) for words in each.cautions), *(("changed", words) for words in each.changed)]
    before = "".join(POINTS[kind].format(text(words)) for kind, words in points)
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
