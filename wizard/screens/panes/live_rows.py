"""A table to choose from whose rows arrive while it is looked at: fullness steps, ways of cutting."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar, Final

from msgspec.structs import replace
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard.render.plain_text import cell_len
from wizard.screens.screen_text import plain
from wizard.screens.widgets.option_lists import LineList, nobody
from wizard.trade.field_names import first_up
from wizard.trade.plan_records import Offer, Offers

GAP: Final = 2
"""Blanks between columns."""
LEAST: Final = 30
"""Fewest columns a table is laid out for."""
EDGE: Final = 2
"""Columns of the signs before and behind the row in hand."""


class Rows(LineList):
    """The rows. Below the last one is the field, and a figure typed here goes there."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("down", "further", show=False)]
    typed: Callable[[str], None] = staticmethod(nobody)
    """Told at once of a figure typed here, or of nothing typed below the last row."""

    def action_further(self) -> None:
        """The next row; below the last one the field."""
        if self.highlighted is None or self.highlighted == self.option_count - 1:
            self.typed("")
        else:
            self.action_cursor_down()

    def on_key(self, event: events.Key) -> None:
        """A figure is the beginning of a number of one's own."""
        if event.character and event.character.isdigit():
            event.stop()
            self.typed(event.character)


class LiveRows(Vertical):
    """The table, what is said of the row in hand, and why one is recommended. The first row in hand is the usual one;
    once another is, it stays in hand whatever rows arrive."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("up", "back_to_rows", show=False)]

    @dataclass
    class Moved(Message):
        """Another row is in hand."""

        row: Offer

    @dataclass
    class Taken(Message):
        """A row was chosen."""

        entries: dict[str, str]
        """Key of the file -> value, of which a typed one may not be fit."""

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.offers = Offers(("",), ())
        self.moved = False
        """True once another row than the usual one was gone to."""
        self.refused = ""
        """Why what was typed will not do."""

    def compose(self) -> ComposeResult:
        """Headings, rows, a row to type in, and what is said."""
        yield Static(id="live-heads")
        yield Rows(id="live-rows", markup=False)
        with HorizontalGroup(id="live-free"):
            yield Static(id="live-before")
            yield Input(id="live-field", compact=True, select_on_focus=False)
            yield Static(id="live-behind")
        with VerticalScroll(id="live-said", can_focus=False):
            yield Static(id="live-said-text")

    def on_mount(self) -> None:
        """A figure typed among the rows begins a number in the field."""
        self.query_one(Rows).typed = self._type

    @property
    def field(self) -> Input:
        """What is on no row may be typed in it."""
        return self.query_one("#live-field", Input)

    @property
    def row(self) -> Offer | None:
        """The row in hand; what is typed, where the field is."""
        free = self.offers.free
        if self.field.has_focus and free is not None:
            typed = self.field.value.strip()
            entries = {key: value or typed for key, value in free.entries.items()}
            return replace(free, name=typed, entries=entries) if typed else None
        at = self.query_one(Rows).highlighted
        return None if at is None or at >= len(self.offers.rows) else self.offers.rows[at]

    def begin(self, offers: Offers) -> None:
        """Show a table with the usual row in hand."""
        self.moved = False
        self.tell(offers)

    def tell(self, offers: Offers) -> None:
        """Show the rows found so far."""
        held = self.row if self.moved else offers.usual
        self.offers = offers
        self._write(held)

    def take_focus(self) -> None:
        """The arrow keys move along the rows."""
        (self.query_one(Rows) if self.offers.rows else self.field).focus()

    def take_usual(self) -> None:
        """Choose the row that was chosen before, else the recommended one. Nothing while there is none."""
        if self.offers.usual is not None:
            self.post_message(self.Taken(self.offers.usual.entries))

    def refuse(self, sentence: str) -> None:
        """Say why what was typed will not do."""
        self.refused = sentence
        self._say()
        self.field.focus()

    def on_resize(self) -> None:
        """The columns are laid out for the new width."""
        self._write(self.row)

    def _write(self, held: Offer | None) -> None:
        offers, rows = self.offers, self.query_one(Rows)
        places = [place for place, each in enumerate(offers.rows) if held is not None and each.entries == held.entries]
        with rows.prevent(OptionList.OptionHighlighted):
            rows.set_options(Option("") for _ in offers.rows)
            rows.highlighted = places[0] if places else None
        rows.display = self.query_one("#live-heads").display = bool(offers.rows)
        self.query_one("#live-free").display = offers.free is not None
        self._rewrite()

    def _rewrite(self) -> None:
        """Put what is in hand between its signs."""
        rows, table, typing = self.query_one(Rows), self._columns(), self.field.has_focus
        self.query_one("#live-heads", Static).update(table.heads())
        for place, each in enumerate(self.offers.rows):
            in_hand = place == rows.highlighted and not typing
            rows.replace_option_prompt_at_index(place, table.line(each, in_hand=in_hand))
        free = plain(self.offers.free.note) if self.offers.free else ""
        self.query_one("#live-before", Static).update(Content("» [ " if typing else "  [ "))
        self.query_one("#live-behind", Static).update(Content(f" ]  {free}{' «' if typing else ''}"))
        self._say()

    def _columns(self) -> Columns:
        return Columns(self.offers, max(self.query_one(Rows).scrollable_content_region.width, LEAST))

    def _say(self) -> None:
        """Everything under the rows."""
        offers, row = self.offers, self.row
        lines = [Content.styled(plain(self.refused), "$warning")] if self.refused else []
        if row is not None and row.cells:
            hidden = self._columns().hidden(row)
            said = " ".join(each for each in (hidden, row.said) if each)
            lines += [Content.assemble((plain(row.name), "bold"), f": {plain(said)}")] if said else []
        if offers.reason:
            best = next((each.name for each in offers.rows if each.recommended), "")
            lines.append(Content.assemble(("Recommended: ", "bold $accent"), f"{plain(best)}. {plain(offers.reason)}"))
        waiting = offers.waits or ("" if offers.whole else "Working out the others…")
        lines += [Content.styled(plain(waiting), "$quiet")] if waiting else []
        self.query_one("#live-said-text", Static).update(Content("\n").join(lines))

    @on(OptionList.OptionHighlighted)
    def _moved(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self.moved, self.refused = True, ""
        self._rewrite()
        self._post_moved()

    def _post_moved(self) -> None:
        if self.row is not None:
            self.post_message(self.Moved(self.row))

    @on(OptionList.OptionSelected)
    @on(Input.Submitted)
    def _taken(self, event: Message) -> None:
        event.stop()
        if self.row is not None:
            self.post_message(self.Taken(self.row.entries))

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self.refused = ""
        self._say()
        self._post_moved()

    def _type(self, typed: str) -> None:
        """Go to the field, to type `typed` anew or to go on with what is there."""
        if self.offers.free is not None:
            self.screen.set_focus(self.field)
            if typed:
                self.field.value = typed
                self.field.cursor_position = len(typed)

    def action_back_to_rows(self) -> None:
        """From the field up to the last row."""
        if self.field.has_focus:
            self.query_one(Rows).focus()

    def on_descendant_focus(self) -> None:
        """Rows or field: what is in hand is marked."""
        self._rewrite()
        if self.moved or self.field.has_focus:
            self._post_moved()


class Columns:
    """A table in lines of a width. What has no room in a row is said of the row in hand."""

    def __init__(self, offers: Offers, columns: int) -> None:
        table = list(zip(offers.heads, *(each.cells for each in offers.rows), strict=True))
        self.head_words = offers.heads
        self.widths = [max(map(cell_len, column)) for column in table]
        filled = [number for number, column in enumerate(table) if any(column[1:])]
        space = columns - EDGE * 2 - max((cell_len(state_words(each)) for each in offers.rows), default=0)
        # The first columns that find room beside the longest state.
        self.shown = [each for each in filled if sum(self.widths[one] + GAP for one in filled if one <= each) <= space]
        self.left_out = [each for each in filled if each not in self.shown]
        self.space = columns - EDGE * 2 - sum(self.widths[each] + GAP for each in self.shown)
        """Columns for the words at the end of a row."""

    def heads(self) -> Content:
        """The headings."""
        return Content.styled(f"{' ' * EDGE}{self._cells(self.head_words)}", "$quiet")

    def line(self, row: Offer, *, in_hand: bool) -> Content:
        """A row; the one in hand between two signs."""
        before, behind = ("» ", " «") if in_hand else ("  ", "")
        tail = tail_words(row) if self._has_room(row) else state_words(row)
        style = "$accent" if row.in_use or row.recommended else "$quiet"
        return Content.assemble(
            before, (self._cells(row.cells), "bold" if in_hand else ""), (f"{' ' * GAP}{plain(tail)}", style), behind
        )

    def hidden(self, row: Offer) -> str:
        """What of a row has no room in it, in a sentence; nothing where all has."""
        cells = [f"{self.head_words[each]} {row.cells[each]}" for each in self.left_out]
        words = ", ".join((*cells, *([row.note] if row.note and not self._has_room(row) else [])))
        return f"{first_up(words)}." if words else ""

    def _has_room(self, row: Offer) -> bool:
        return cell_len(tail_words(row)) <= self.space

    def _cells(self, cells: Sequence[str]) -> str:
        return (" " * GAP).join(self._padded(cells[each], each) for each in self.shown)

    def _padded(self, text: str, number: int) -> str:
        blanks = " " * (self.widths[number] - cell_len(text))
        return f"{text}{blanks}" if number == 0 else f"{blanks}{text}"


def state_words(row: Offer) -> str:
    """`in use, recommended`."""
    states = {"in use": row.in_use, "recommended": row.recommended}
    return ", ".join(each for each, holds in states.items() if holds)


def tail_words(row: Offer) -> str:
    """The same, and what is noted of the row."""
    return ": ".join(each for each in (state_words(row), row.note) if each)
