"""A sheet's matter as HTML that is also well-formed XML. Every text is made literal and escaped on its way in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from itertools import count

from wizard.sheets.figure_text import time_text
from wizard.sheets.lines import CHANGED, WAY_UP, worked_by
from wizard.sheets.matter import (
    Card,
    Cards,
    Drawing,
    Findings,
    Heading,
    Matter,
    Pairs,
    Para,
    Points,
    Reasons,
    Steps,
    Table,
    Tick,
    Ticks,
)
from wizard.sheets.paper.alike import alike
from wizard.sheets.paper.together import by_smaller_headings, stays_whole
from wizard.sheets.plain import literal
from wizard.sheets.remark_words import level_words
from wizard.sheets.scene import Scene
from wizard.sheets.stamp import Stamp
from wizard.sheets.svg import to_svg
from wizard.sheets.told import Told, told
from wizard.sheets.whole import glued
from wizard.trade.explain import Why
from wizard.trade.plan import Finding


def text(words: str) -> str:
    """`words` for a page: literal, with nothing in them that counts as markup, and no length broken between lines."""
    return escape(glued(literal(words)))


class Markup:
    """The pen for one page: it gives every drawing's hatching a name of its own."""

    def __init__(self, stamp: Stamp) -> None:
        self.stamp = stamp
        self._drawings = count(1)
        self._heading = ""

    def all(self, matter: Iterable[Matter]) -> str:
        """All of it, a part after the other; what stands under a smaller heading together, where a page holds it."""
        made: list[str] = []
        for group in by_smaller_headings(matter):
            inner = "".join(map(self._next, group))
            made.append(f'<section class="whole">\n{inner}</section>\n' if stays_whole(group) else inner)
        return "".join(made)

    def _next(self, each: Matter) -> str:
        made = self._one(each)
        self._heading = each.text if isinstance(each, Heading) else ""
        return made

    def _one(self, each: Matter) -> str:  # noqa: C901  one line for each kind of matter
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
                return _list("ticks", (_tick(item) for item in items))
            case Points(kind, words):
                return _list("points", (_point(kind, one) for one in words))
            case Steps(steps):
                return f'<ol class="steps">\n{"".join(map(_step, told(steps)))}</ol>\n'
            case Findings(findings):
                return "".join(_finding(finding) for finding in findings)
            case Reasons(reasons):
                return "".join(_reason(reason) for reason in reasons)
            case Cards(cards):
                return f'<div class="cards">\n{"".join(self._card(card) for card in cards)}</div>\n'
            case Drawing():
                return "".join(self._drawing(scene) for scene in each.on_paper)

    def _drawing(self, scene: Scene) -> str:
        picture = to_svg(scene, f"offcut-{next(self._drawings)}")
        # A drawing right under a heading of its own name needs no second one.
        title = "" if scene.title == self._heading else f"<figcaption>{text(scene.title)}</figcaption>\n"
        kind = ' class="to-scale"' if scene.to_scale else ""
        return f"<figure{kind}>{title}{picture}</figure>\n"

    def _card(self, card: Card) -> str:
        lines = "".join(f"<p>{text(line)}</p>" for line in card.lines)
        up = f"<p><b>{WAY_UP}</b></p>" if card.way_up else ""
        whose = f'<p class="small">{text(self.stamp.name)}, <span class="mark">{text(self.stamp.short)}</span></p>'
        return f'<div class="card"><h4>{text(card.title)}</h4>{lines}{up}{whose}</div>\n'


def _pairs(rows: Iterable[tuple[str, str]]) -> str:
    made = "".join(f'<tr><th scope="row">{text(label)}</th><td>{text(value)}</td></tr>\n' for label, value in rows)
    return f'<table class="pairs"><tbody>\n{made}</tbody></table>\n'


def _table(table: Table) -> str:
    heads = _cells("th", table.heads, table)
    rows = "".join(f"<tr>{_cells('td', row, table)}</tr>\n" for row in table.rows)
    kind = "figures large" if table.afar else "figures"
    return (
        f'<div class="wide"><table class="{kind}">\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody></table>'
        "</div>\n"
    )


def _cells(tag: str, row: Sequence[str], table: Table) -> str:
    return "".join(f"<{tag}{_marked(tag, table, at)}>{text(words)}</{tag}>" for at, words in enumerate(row))


def _marked(tag: str, table: Table, at: int) -> str:
    """What a cell is; those of a large table carry their head with them: a phone shows each row as a block of lines."""
    kinds = " ".join(kind for kind, which in (("at-left", table.left), ("afar", table.afar)) if at in which)
    kind = f' class="{kinds}"' if kinds else ""
    return f'{kind} data-head="{text(table.heads[at])}"' if table.afar and tag == "td" else kind


def _list(kind: str, items: Iterable[str]) -> str:
    made = "".join(f'<li class="whole">{item}</li>\n' for item in items)
    return f'<ul class="{kind}">\n{made}</ul>\n'


def _tick(tick: Tick) -> str:
    return _box(tick.id, text(tick.text))


def _box(id: str, inner: str, *, ticked: bool = False) -> str:
    state = ' checked=""' if ticked else ""
    return f'<label><input type="checkbox" data-tick="{text(id)}" autocomplete="off"{state} />{inner}</label>'


def _point(kind: str, words: str) -> str:
    if kind == "changed":
        return _changed(words)
    return _caution(words) if kind == "caution" else f"<p>? {text(words)}</p>"


def _changed(words: str) -> str:
    return f'<p class="caution"><b>{text(words)}</b></p>'


def _caution(words: str) -> str:
    return f'<p class="caution"><b>!</b>{text(words)}</p>'


def _step(each: Told) -> str:
    """Its cautions and its title stay together whatever happens; the whole step does where a page holds it."""
    step = each.step
    cautions = "".join(map(_caution, each.before))
    changed = _changed(f"{CHANGED} {' '.join(step.changed)}") if step.changed else ""
    time = f" <small>({time_text(step)})</small>" if time_text(step) else ""
    title = _box(step.id, f"<b>{text(step.title)}</b>{time}", ticked=step.done)
    lines = "".join(map(_lines, alike(step.lines)))
    kit = "".join(
        f'<p class="kit">{label}: {text("; ".join(things))}</p>'
        for label, things in (("tools", step.tools), ("settings", step.settings), ("note", (step.note or "",)))
        if any(things)
    )
    return f'<li class="step whole"><div class="before">{cautions}{changed}{title}</div>{lines}{kit}</li>\n'


def _lines(group: tuple[str, ...]) -> str:
    made = "".join(f"<p>{text(line)}</p>" for line in group)
    return f'<div class="alike">{made}</div>' if len(group) > 1 else made


def _finding(each: Finding) -> str:
    way_out = f"<p>{text(each.way_out)}</p>" if each.way_out else ""
    words = f"<p><b>{text(level_words(each))}:</b> {text(each.sentence)}</p>"
    return f'<div class="whole">{words}{way_out}<p class="small">in the file: {text(each.key)}</p></div>\n'


def _reason(each: Why) -> str:
    lines = "".join(f"<p>{text(line)}</p>" for line in worked_by(each))
    says = f'<p class="small">{text(each.says)} ({text(each.source)})</p>'
    return f'<div class="whole reason"><p><b>{text(each.title)}:</b> {text(each.result)}</p>{lines}{says}</div>\n'
