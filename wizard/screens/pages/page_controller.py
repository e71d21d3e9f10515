"""What the keys do on a page: showing, moving, and passing on what is typed and chosen."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Final

from msgspec.structs import replace
from textual.timer import Timer

from wizard.interview.outcome import Refused
from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.render.drawings.page_drawing import draw_page
from wizard.screens.job_context import JobContext
from wizard.screens.pages.answering import Answering
from wizard.screens.pages.form_layout import COPY, MORE, OFFER, Form, Place
from wizard.screens.pages.live_tables import LiveTables
from wizard.screens.pages.page_hand import Choosing, PageHand
from wizard.screens.pages.page_pane import PagePane

REST: Final = 0.05
"""Seconds without a key after which work may be done ahead."""
UNSEEN: Final = "Keys pressed before this was on the screen were ignored."


class PageController:
    """Listens to the pane of the current page."""

    ON_A_PAGE = ("walk", "step", "turn", "enter", "space", "rub_out")
    ACTIONS = ("copy_side", "take_out", *ON_A_PAGE)

    def __init__(self, job: JobContext) -> None:
        self.job, self.session = job, job.session
        self.hand = PageHand(job.session)
        self._tables = LiveTables(job, self.redraw)
        self._choosing = Choosing(self.hand, self._tables, self.redraw)
        self.letter, self.rub_out = self._choosing.letter, self._choosing.rub_out
        self._answering = Answering(job, self.hand, self._go_on)
        self.pane = PagePane(self)
        self._resting = Timer(self.pane, 0)
        job.arrived = self._forget

    @property
    def question(self) -> Question | None:
        """The question in hand; None where something else is."""
        return self.hand.question

    @property
    def text(self) -> str:
        """The text of the current field."""
        return self.session.text(self.session.at)

    @property
    def page(self) -> Page:
        """The page in hand: its keys come only while there is one."""
        page = self.session.page()
        assert page is not None
        return page

    # Showing.

    def remind(self, lines: Sequence[str]) -> None:
        """Say where the work stopped, until the first key."""
        if lines:
            self.hand.say("\n".join(lines), "note")

    def show(self) -> None:
        """Show the page in hand."""
        question = self.session.current()
        assert question is not None
        if question in self.page.more:
            self.hand.opened.add(self.page.id)
        self.hand.follow()
        if not self.hand.said.text:
            self._answering.look()
        self.redraw()
        if not self.hand.edited:
            self.hand.edited = True
            # What is typed next takes the place of what is there; a name is rather added to.
            whole = bool(self.text) and question.kind != "text" and not self._half_typed(question.key)
            self.pane.edit(self.text, question.usual or "", whole=whole)

    def _half_typed(self, key: str) -> bool:
        text, offered = self.session.pending.get(key), key in self.session.pending.offered
        return text is not None and (not offered or isinstance(self.session.echo(key, text), Refused))

    def redraw(self) -> None:
        """The page with what is known now; what is in the editor stays."""
        page, question = self.page, self.session.current()
        assert question is not None
        # What is measured is on the drawing; what only adds a length, once there is one.
        lengths = [each for each in page.fields if each.kind.startswith("length")]
        on_it = (each.key for each in lengths if not each.extra or self.session.state(each.key) == "answered")
        keys = (question.key,) if self.job.large else tuple(on_it)
        draw = partial(draw_page, page.picture, page.subject, keys, self.session.plan, question.key)
        self.pane.tell(self._form(page, question), draw)

    def _form(self, page: Page, question: Question) -> Form:
        key, own = question.key, self._own(page)
        names = page.more_words or ", ".join(each.called for each in page.more)
        picked = question.kind in ("choice", "choices", "yes-no")
        echo = "" if picked or not self.text.strip() else self.session.echo(key, self.text, typing=True)
        more = page.more if page.id in self.hand.opened else ()
        in_sight = [each.key for each in (*page.fields, *more)]
        number = in_sight.index(key) + 1 if key in in_sight else 1
        return Form(
            page,
            question,
            tuple(self._choosing.view(each, page) for each in page.fields),
            tuple(self._choosing.view(each, page) for each in more),
            f"{names}{f' ({own} of your own)' if own else ''}",
            self.hand.place,
            replace(self.hand.said, echo="" if isinstance(echo, Refused) else echo),
            self.hand.cursor,
            f"field {number} of {len(in_sight)}",
        )

    def _own(self, page: Page) -> int:
        """How many answers behind More differ from what is usual and from what one field gives to several."""
        if page.picture == "thing":
            return 0  # Its name and kind came with it.
        shared = {key for each in self.session.questions for key in each.keys}
        own = [each for each in page.more if each.kind != "add" and each.key not in shared]
        return sum(
            self.session.state(each.key) == "answered" and self.session.text(each.key) != each.usual for each in own
        )

    # Typing and choosing.

    def typed(self, text: str) -> None:
        """Say how the text would be understood; an unfinished one is kept for coming back to."""
        if self._typed_ahead():
            self.pane.editor.put(self.text)
        else:
            self.hand.pend(text)
            self.job.keep_soon()
            self.redraw()
            self._resting.stop()
            self._resting = self.pane.set_timer(REST, partial(self.job.from_thread, "ahead", self._ahead(text)))

    def _ahead(self, text: str) -> Iterator[Callable[[], object]]:
        """Work out the result of the text while no key is pressed, so that Enter shows the next field at once."""
        self.session.foresee(self.session.at, text)
        yield from ()

    def _typed_ahead(self) -> bool:
        ahead = self.hand.typed_ahead()
        if ahead:
            self.job.tell(UNSEEN)
        return ahead

    def turn(self, by: int) -> None:
        """Another choice; on *More*, open and close."""
        if self.hand.place == MORE:
            self._open_more(opened=by > 0)
        elif self.hand.place.startswith(OFFER):
            self.walk(by)
        else:
            self._choosing.turn(by)

    def space(self) -> None:
        """Tick the current line; press what is not a field."""
        (self._choosing.space if self.question else self.enter)()

    def enter(self) -> None:
        """Enter the current field and go on; open *More*; do what is offered."""
        question, place = self.question, self.hand.place
        if place == MORE:
            self._open_more(opened=self.page.id not in self.hand.opened)
        elif place == COPY:
            self._copy()
        elif place.startswith(OFFER):
            self.hand.aside = ""
            self.hand.offers[int(place.removeprefix(OFFER))][1]()
        elif question is not None and not self._typed_ahead():
            # The editor may have been emptied, which the session would take for nothing typed.
            text = self.pane.editor.value if self.pane.laid.editor else self.text
            self._answering.take(question, self._choosing.view(question, self.page), text)

    def copy_side(self) -> None:
        """Copy what the page offers; from elsewhere, go to the first page that offers something."""
        there = next((each for each in self.session.pages if each.copy), None)
        if self.job.view == "page" and self.page.copy:
            self._copy()
        elif there is None:
            self.job.tell("Nothing to copy: the other side, or the face cloth, is not known yet, or is the same.")
        else:
            self.job.go(there.fields[0].key)
            self.hand.aside = COPY
            self.job.show()

    def _copy(self) -> None:
        self.job.do(self.session.copy, f"Copied. {self.job.key('undo')} undoes it.")

    def _open_more(self, *, opened: bool) -> None:
        if opened:
            self.hand.opened.add(self.page.id)
            self._to(self.page.more[0].key)
        else:
            self._close_more()

    def _close_more(self) -> None:
        self.hand.opened.discard(self.page.id)
        if self.session.current() in self.page.more:
            self.session.go(self.page.fields[-1].key)
        self.hand.follow()
        self.hand.aside = MORE
        self.job.show()

    def take_out(self) -> None:
        """Remove what was added here."""
        if self.job.view != "page" or self.session.removable(self.session.at) is None:
            self.job.tell("Nothing here was added. Only added sections, things, lengths and drops can be removed.")
        else:
            undo = self.job.key("undo")
            self.job.do(lambda: self.session.remove(self.session.at), f"Removed. {undo} brings it back.")

    # Moving.

    def next(self) -> None:
        """F8: accept the page as it is filled in, and go to the next; at an offer to copy, copy."""
        if self.hand.place == COPY:
            self._copy()
            return
        view = self._choosing.view(self._choosing.listed(self.page), self.page)
        chosen = view.key in self.session.pending or self._answering.take_row(view)
        if chosen and self._answering.take_page():
            self._move(self.session.next)

    def back(self) -> None:
        """Esc: close what is open, else go to the page before."""
        self._answering.leave()
        if self.page.id in self.hand.opened:
            self._close_more()
            return
        if not self.session.previous_page():
            self.job.tell("This is the first page.")
        self.job.go(None)

    def walk(self, by: int) -> None:
        """Tab: go to the next place, from the last to the first."""
        place = self.hand.place
        # What is typed may bring up another field, or rule the next one out.
        self._answering.leave()
        order = self.hand.places(self.page)
        here = next((order.index(each) for each in (place, self.session.at) if each in order), 0)
        self._to(order[(here + by) % len(order)])

    def step(self, by: int) -> None:
        """Up and down: move within a list, else to the nearest place."""
        places = self.pane.laid.places
        here = [each for each in places if each.id == self.hand.place]
        if (len({each.row for each in here}) > 1 and self._choosing.step(by)) or not here:
            return
        edge, before = here[-1 if by > 0 else 0], self._keys
        beyond = [each for each in places if each.id != edge.id and (each.row - edge.row) * by > 0]
        middle = edge.column + edge.width // 2
        near = min(beyond, key=lambda each: ((each.row - edge.row) * by, abs(each.column - middle)), default=None)
        if near and not near.id.startswith(OFFER):
            self._answering.leave()
        if near and self._keys == before:
            self._to(near.id)
        elif near:
            self.walk(by)

    def point(self, place: Place) -> None:
        """Go to the place that was clicked, or pick the choice."""
        if place.id.startswith("@"):
            self.hand.aside = place.id
            self.enter()
            return
        if place.id != self.hand.place:
            self._to(place.id)
        if place.value is not None:
            self._choosing.point(place.value)

    def _to(self, place: str) -> None:
        if not place.startswith(OFFER):
            self._answering.leave()
        if place in self._keys:
            self.session.go(place)
        self.hand.follow()
        self.hand.aside = place if place.startswith("@") else ""
        self.job.show()

    @property
    def _keys(self) -> tuple[str, ...]:
        """Of all fields of the page in hand."""
        return tuple(each.key for each in self.page.questions)

    def _go_on(self) -> None:
        """To the next field; behind *More* to the next there, then to what is open on the page, then past it."""
        at = self.session.at
        order = self.hand.places(self.page) if self.session.current() in self.page.more else []
        following = order[order.index(at) + 1 :] if at in order else []
        if order and not following:
            state = self.session.state
            open_yet = (each for each in self.page.fields if not each.optional or each.later)
            following = [each.key for each in open_yet if state(each.key) in ("missing", "skipped")]
        self._move(partial(self.session.go, following[0]) if following else self.session.next)

    def _move(self, move: Callable[[], bool]) -> None:
        at = self.session.at
        if not move():
            self.job.tell(self.session.next_action())
        if self.session.current() is None:
            # The cutting plan comes between the last page and the work.
            self.session.go(at)
            self._forget()
            self.job.look_at("cutting")
        else:
            self.job.go(None)

    def _forget(self) -> None:
        self._tables.look_at(None)
        self.hand.forget()
