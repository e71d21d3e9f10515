"""A page laid out in lines: its drawing with fields on it, its rows, and where each field is. Pure functions."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace
from rich.segment import Segment
from textual.content import Content

from wizard.interview.job_state import STATE_WORDS
from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.render.drawings.page_drawing import PageDrawing, Slot
from wizard.render.plain_text import cell_len
from wizard.screens.pages.field_view import LATER, FieldView
from wizard.screens.screen_text import cut_to, filled, in_lines, plain
from wizard.trade.field_names import first_up
from wizard.trade.plan_records import Offers

COPY, MORE, OFFER = "@copy", "@more", "@offer."
"""Places on a page that are not fields."""

IN_HAND: Final = "bold $accent"
QUIET: Final = "$quiet"
LEAST_DRAWN, MOST_DRAWN = 6, 15
"""Lines of a drawing."""
SAID: Final = 3
"""Lines kept free for the message under the current field, so that nothing moves when it appears."""
SAID_IN_FULL: Final = 6
"""Lines that a finding takes at most, with its offers."""
TOLD: Final = 4
"""Lines of the text below a table."""
PICKED: Final = re.compile("[║═╔╗╚╝╠╣╦╩╬╫╪╨╥]+|[»«]")
"""The double lines of the selected pen, and the signs around the current slot."""


class Place(Struct, frozen=True):
    """Where a place is that can be selected: a field, one of its choices, an offer."""

    id: str
    row: int
    column: int
    width: int
    value: str | None = None
    """Of a choice."""


class Said(Struct, frozen=True):
    """The message under the current field."""

    text: str = ""
    level: str = ""
    """`refused`, or the level of a finding; empty for a hint."""
    offers: tuple[str, ...] = ()
    echo: str = ""


class Form(Struct, frozen=True):
    """Everything a page shows."""

    page: Page
    question: Question
    """The current one, which the message is about."""
    fields: tuple[FieldView, ...]
    more: tuple[FieldView, ...]
    """Empty while *More* is closed."""
    more_words: str
    at: str
    """Key of the current field, or one of the other places."""
    said: Said
    cursor: int = 0
    """Current line of a list of ticks."""
    step: str = ""
    """`field 5 of 6`."""


class Laid(Struct, frozen=True):
    """A page in lines."""

    lines: tuple[Content, ...]
    places: tuple[Place, ...]
    editor: Place | None
    """Where the editor of the current field is; None where nothing is typed."""
    keep: tuple[int, int]
    """First line, and the line after the last, of what must be visible."""


Draw = Callable[[int, int], PageDrawing]
"""Columns and lines -> the drawing in that size."""


def lay_out(
    form: Form, columns: int, rows: int, draw: Draw, *, low: bool = False, above: Sequence[Content] = ()
) -> Laid:
    """The page in `columns`, with a drawing as high as `rows` leaves room for. `low`: the question is in the head;
    `above`: lines before all else."""
    return _Layout(form, columns, above, low=low or not form.page.words).laid(rows, draw)


def head_lines(form: Form, columns: int, *, low: bool) -> list[Content]:
    """Title and sentences; in a low window the question of the current field instead."""
    space = columns - cell_len(form.step) - 1
    title = Content.assemble((filled(form.page.title, space), "bold"), (form.step, QUIET)) if low else None
    words = form.question.words if low or not form.page.words else form.page.words
    return [title or Content.styled(cut_to(form.page.title, columns), "bold"), *_wrapped(words, columns)]


def _wrapped(text: str, columns: int, style: str = "") -> list[Content]:
    return [Content.styled(each, style) for each in in_lines(plain(text), max(columns, 10))]


class _Layout:
    def __init__(self, form: Form, columns: int, above: Sequence[Content], *, low: bool) -> None:
        self.form, self.columns = form, columns
        question, later = form.question, f", {LATER[form.question.optional]}" if form.question.later else ""
        example = f"For example {question.example}{later}." if question.example and question.usual is None else ""
        self.hint = example if low else f"{question.words} {example}".strip()
        self.lines = [*above]
        self.places: list[Place] = []
        self.editor: Place | None = None
        self.keep = (0, 0)
        self.rows = 0
        shown = (*form.fields, *form.more)
        widest = max((cell_len(each.label) + 2 * each.extra for each in shown), default=0)
        self.labels = min(widest, max(columns - 36, columns // 2))

    def laid(self, rows: int, draw: Draw) -> Laid:
        form, self.rows = self.form, rows
        if form.page.copy:
            self._button(COPY, f"{form.page.copy.words}: {'' if form.at == COPY else '↑, then '}Space copies it")
        picture = self._drawn(rows, draw)
        on_it = {each.key for each in picture.slots}
        if form.question.key in on_it:
            self.keep = (self.keep[0], self._say(2))
        self.labels += 2 if picture.letters else 0
        for each in form.fields:
            if picture.letters:
                each = replace(each, label=f"{picture.letters.get(each.key, ' ')} {each.label}")
            if each.key not in on_it:
                self._row(each)
        if form.more_words:
            self._button(MORE, f"{'▾' if form.more else '▸'} More: {form.more_words}")
        for each in form.more:
            self._row(each)
        return Laid(tuple(self.lines), tuple(self.places), self.editor, self.keep)

    def _drawn(self, rows: int, draw: Draw) -> PageDrawing:
        """The drawing, with the texts of its fields in their slots."""
        form = self.form
        lists = max((self._list_height(each) for each in form.fields), default=0)
        taken = len(self.lines) + SAID + lists + bool(form.more_words)
        drawn = len(draw(self.columns, LEAST_DRAWN).slots)
        # Where most fields are on it, it keeps its size, whatever appears below it.
        most = rows - len(self.lines) - SAID_IN_FULL
        high = (
            most
            if drawn > sum(not each.extra for each in form.fields) // 2
            else min(most, rows - taken - len(form.fields) + drawn)
        )
        high = min(max(high, LEAST_DRAWN), MOST_DRAWN)
        tables = any(each.table for each in form.fields) and rows - taken < LEAST_DRAWN
        picture = PageDrawing() if tables else draw(self.columns, high)
        top, lines = len(self.lines), list(picture.lines)
        fields = {each.key: each for each in form.fields}
        for slot in picture.slots:
            field = fields[slot.key]
            lines[slot.row] = _written(lines[slot.row], slot, field)
            place = Place(slot.key, top + slot.row, slot.column, slot.width)
            self.places.append(place)
            if form.at == slot.key:
                self.editor, self.keep = place, (place.row, place.row + 1)
        self.lines += [Content(each).highlight_regex(PICKED, style=IN_HAND) for each in lines]
        return picture

    def _row(self, field: FieldView) -> None:
        """`label [ value ] usual`; the choices of the current field in full."""
        if field.table and field.rows:
            self._table(field, field.table)
            return
        top, in_hand = len(self.lines), self.form.at == field.key
        label = in_lines(plain(f"+ {field.label}" if field.extra else field.label), max(self.labels, 12)) or [""]
        rest = [Content(each) for each in label[1:]]
        begin = self.labels + 1
        before, behind = ("»", "«") if in_hand else (" ", " ")
        style = IN_HAND if in_hand else ""
        if in_hand and field.choices and self._fits(field):
            self._in_a_row(field, label[0], begin)
            self.lines += rest
        else:
            width = max(field.width, min(cell_len(field.shown), 40)) if field.choices else field.width
            width = min(width, self.columns - begin - 7)
            value = filled(plain(field.shown).replace("\n", " "), width)
            space = self.columns - begin - width - 8 - cell_len(field.mark)
            note = next((each for each in (field.note, field.note.partition(" (")[0]) if cell_len(each) <= space), "")
            parts = ((value, "bold" if field.text else QUIET), (f" ]{behind}", style), (f" {field.mark}", "$warning"))
            noted, named = (f" {note}" if note else "", QUIET), f"{filled(label[0], self.labels)} "
            self._add(Content.assemble(named, (f"{before}[ ", style), *parts, noted), field.key, begin + 3, width)
            self.lines += rest
            if in_hand and not field.choices:
                self.editor = self.places[-1]
            if in_hand and field.choices:
                self._list(field)
        if field.table and field.table.waits:
            self.lines += _wrapped(field.table.waits, self.columns, QUIET)
        if self.form.question.key == field.key:
            lit, end = self.keep[0], self._say(4)
            # Of a list longer than the window, keep the current line visible.
            self.keep = (top, end) if end - top <= self.rows else (max(lit, top), max(lit, top) + 1)

    def _list_height(self, field: FieldView) -> int:
        """Add the lines of its table or its choices, where they are not in its row."""
        if field.table:
            return len(field.rows) + TOLD
        return 0 if self._fits(field) else sum(len(_wrapped(each.words, self.columns - 10)) for each in field.choices)

    def _fits(self, field: FieldView) -> bool:
        """True for few choices, that have room behind the label."""
        space = self.columns - self.labels - 3 - (6 if field.usual else 0)
        return not field.several and sum(cell_len(each.words) + 7 for each in field.choices) <= space

    def _in_a_row(self, field: FieldView, label: str, begin: int) -> None:
        """All choices behind the label."""
        parts: list[Content | tuple[str, str] | str] = [filled(label, self.labels), " ", ("» ", IN_HAND)]
        column = begin + 2
        for number, each in enumerate(field.choices):
            chosen = number == field.picked
            sign = f"{'(•)' if chosen else '( )'} {plain(each.words)}"
            self.places.append(Place(field.key, len(self.lines), column, cell_len(sign), each.value))
            usual = " usual" if each.value == field.usual else ""
            parts += [(sign, "bold reverse" if chosen else ""), (usual, QUIET), "   "]
            column += cell_len(sign + usual) + 3
        parts[-1] = (" « ", IN_HAND)
        if field.picked is None and field.shown:
            space = max(self.columns - column - 8, 0)
            parts.append((cut_to(f"[ {field.shown} ] {field.mark}", space), "bold" if field.text else QUIET))
        self.lines.append(Content.assemble(*parts))

    def _list(self, field: FieldView) -> None:
        """The choices, one below the other."""
        for number, choice in enumerate(field.choices):
            chosen = choice.value in field.ticked if field.several else number == field.picked
            in_hand = number == self.form.cursor if field.several else chosen
            signs = ("[x]", "[ ]") if field.several else ("(•)", "( )")
            usual = "  usual" if field.usual and choice.value == field.usual else ""
            for at, each in enumerate(_wrapped(choice.words + usual, self.columns - 10)):
                sign = f"  {'»' if in_hand else ' '} {signs[0 if chosen else 1]} " if at == 0 else " " * 8
                line = Content.assemble((sign, IN_HAND if in_hand else ""), each)
                if in_hand:
                    line = line.stylize("bold reverse" if not field.several else "bold", 2)
                self._add(line, field.key, 4, self.columns - 4, choice.value, in_hand=in_hand)

    def _table(self, field: FieldView, offers: Offers) -> None:
        """Add the rows worked out for this job, the text of the current one, and why one is recommended."""
        from wizard.screens.panes.live_rows import Columns

        table, here = Columns(offers, self.columns), self.form.at == field.key
        self.lines.append(table.heads())
        for number, row in enumerate(offers.rows):
            in_hand = here and not field.text_typed and row is field.row
            line = table.line(row, in_hand=in_hand)
            self._add(line, field.key, 0, self.columns, str(number), in_hand=in_hand)
        if offers.free:
            typed = filled(field.text if field.text_typed else "", 8)
            before, behind = ("» ", " «") if here and field.text_typed else ("  ", "")
            parts = ((typed, "bold"), " ]  ", (offers.free.note, QUIET))
            self.lines.append(Content.assemble(f"{before}[ ", *parts, behind))
        if self.form.said.text:
            self._say(2)
        if field.row and not field.text_typed:
            said = " ".join(each for each in (table.hidden(field.row), field.row.said) if each)
            self.lines += _wrapped(f"{first_up(field.row.name)}: {said}", self.columns) if said else []
        if offers.reason:
            best = next((each.name for each in offers.rows if each.recommended), "")
            self.lines += _wrapped(f"Recommended: {best}. {offers.reason}", self.columns, "$accent")
        elif not offers.whole:
            self.lines.append(Content.styled("Working out the others…", QUIET))

    def _say(self, indent: int) -> int:
        """Add the message under the current field, its offers and its echo; return the line after the last."""
        said, top = self.form.said, len(self.lines)
        style = {"": QUIET, "refused": "$error", "stop": "$error", "warn": "$warning"}.get(said.level, "$accent")
        sign = {"": " ", "note": " ", "refused": "!"}.get(said.level, "?")
        told = f"{said.text}\n{self.hint}" if said.level == "note" else said.text or self.hint
        lines = [each for text in told.split("\n") for each in in_lines(plain(text), self.columns - indent - 3)]
        for number, each in enumerate(lines):
            self.lines.append(Content.assemble(" " * indent, (f"{' ' if number else sign} {each}", style)))
        if said.offers:
            self._offers(said.offers, indent + 2)
        if said.echo:
            self._echo(f"= {said.echo}".replace("= ≈", "≈"), indent + 2, len(self.lines) > top)
        self.lines += [Content("")] * (SAID - (len(self.lines) - top))
        return len(self.lines)

    def _echo(self, echo: str, indent: int, below: bool) -> None:
        """After the last line where there is space."""
        space = self.columns - cell_len(self.lines[-1].plain) - cell_len(echo) if below else 0
        if space >= 2:
            self.lines[-1] = Content.assemble(self.lines[-1], " " * min(space, 3), (echo, "$success"))
        else:
            self.lines.append(Content.assemble(" " * indent, (cut_to(echo, self.columns - indent), "$success")))

    def _offers(self, offers: Sequence[str], indent: int) -> None:
        """Buttons beside each other; one that has no room left begins a line."""
        for number, each in enumerate(offers):
            label, in_hand = cut_to(plain(each), self.columns - indent - 6), self.form.at == f"{OFFER}{number}"
            words = f"»[ {label} ]«" if in_hand else f" [ {label} ] "
            if number == 0 or cell_len(self.lines[-1].plain) + cell_len(words) > self.columns:
                self.lines.append(Content(" " * indent))
            column = cell_len(self.lines[-1].plain)
            self.places.append(Place(f"{OFFER}{number}", len(self.lines) - 1, column, cell_len(words)))
            self.lines[-1] = Content.assemble(self.lines[-1], (words, IN_HAND if in_hand else "bold"))

    def _button(self, id: str, words: str) -> None:
        in_hand = self.form.at == id
        for number, each in enumerate(in_lines(plain(words), self.columns - 2)):
            sign = "» " if in_hand and not number else "  "
            line = Content.assemble((sign, IN_HAND), (each, "bold reverse" if in_hand else QUIET))
            self._add(line, id, 0, cell_len(each) + 2, in_hand=in_hand)

    def _add(
        self, line: Content, id: str, column: int, width: int, value: str | None = None, *, in_hand: bool = False
    ) -> None:
        """Add a line with a place on it; the current one (`in_hand`) is kept visible."""
        self.places.append(Place(id, len(self.lines), column, width, value))
        self.lines.append(line)
        if in_hand:
            self.keep = (len(self.lines) - 1, len(self.lines))


def _written(line: str, slot: Slot, field: FieldView) -> str:
    """A line of a drawing with the text of a field in its slot."""
    before, rest = Segment(line).split_cells(slot.column)
    _, behind = rest.split_cells(slot.width)
    text = filled(field.shown or ("later" if field.note == STATE_WORDS["later"] else ""), slot.width)
    if field.mark and text.endswith(" "):
        text = text[:-1] + field.mark
    return f"{before.text}{text}{behind.text}"
