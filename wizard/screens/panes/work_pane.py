"""The work as a checklist: the steps on one side, the selected one on the other, its caution before what to do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import groupby
from typing import ClassVar

from msgspec import Struct
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import HorizontalGroup, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Button, OptionList, Static
from textual.widgets.option_list import Option

from wizard.screens.actions import quiet_keys
from wizard.screens.dialogs.base_dialogs import plain_button, relabel
from wizard.screens.option_lists import Hanging, LineList
from wizard.screens.screen_text import CAUTION, POINT, plain, words
from wizard.trade.cautions import CAUTIONS
from wizard.trade.field_names import first_up
from wizard.trade.plan_records import Stage, Step


class Kept(Struct, frozen=True):
    """What file and clock know of a step."""

    done: str | None = None
    """When it was ticked, in words."""
    note: str | None = None
    taken: int | None = None
    """Minutes it took so far, those that run counted."""
    runs: bool = False
    """True while it is timed."""
    changed: tuple[str, ...] = ()
    """What is different now from what it told when it was ticked."""
    first: str = ""
    """What to find out before, in a sentence."""


def told(step: Step, kept: Kept, before: Sequence[str]) -> Content:
    """Everything about a step; `before` are its cautions, in full or named."""
    parts: list[Content] = [Content.styled(plain(step.title), "bold")]
    parts += [Content.styled(f"{CAUTION} {plain(each)}", "bold $warning") for each in before]
    parts += [Content("")] if before or step.lines else []
    parts += [Content(f"{POINT} {plain(each)}") for each in (*step.lines, *step.listed)]
    parts.append(Content(""))
    tools, settings = ", ".join(step.tools), ", ".join(step.settings)
    pairs = (("Tools", tools), ("Settings", settings), ("Time", time_words(step, kept)), ("Note", kept.note or ""))
    parts += [Content.assemble((f"{label:<9} ", "$quiet"), plain(value)) for label, value in pairs if value]
    parts.append(Content.styled(done_words(kept), "$success" if kept.done else "$quiet"))
    text = Content("\n").join(parts)
    top = f"Changed since you ticked it: {' '.join(kept.changed)} Enter ticks it again." if kept.changed else kept.first
    return Content.assemble((f"{plain(top)}\n", "bold $warning"), text) if top else text


def cautions_before(steps: Sequence[Step]) -> dict[str, tuple[str, ...]]:
    """Id of a step -> its cautions: in full before the first step of a kind in its stage, named before each later
    one."""
    seen: set[tuple[str, str, str]] = set()
    before: dict[str, tuple[str, ...]] = {}
    for step in steps:
        kind = step.stage, step.id.partition(":")[0]
        new = [each for each in step.cautions if (*kind, each.id) not in seen]
        named = "; ".join(CAUTIONS[each.id].note for each in step.cautions if (*kind, each.id) in seen)
        seen |= {(*kind, each.id) for each in new}
        before[step.id] = (*(each.sentence for each in new), *([f"As before: {named}."] if named else []))
    return before


def done_words(kept: Kept) -> str:
    """Whether it is ticked, and since when."""
    return f"Ticked {kept.done}." if kept.done else "Not done yet."


def time_words(step: Step, kept: Kept) -> str:
    """`20 min of about 25 min, timer running`; nothing where nothing is known."""
    spent = spent_words(step.minutes, kept.taken)
    return ", ".join(each for each in (spent, "timer running" if kept.runs else "") if each)


def spent_words(expected: int, taken: int | None) -> str:
    """`40 min of about 9 h`, `about 9 h`, `40 min`; nothing where nothing is known."""
    parts = (minutes_words(taken) if taken else "", f"about {minutes_words(expected)}" if expected else "")
    return " of ".join(each for each in parts if each)


def state_words(step: Step, kept: Kept) -> str:
    """Whether it is ticked and how long it takes: `Not done yet. 20 min of about 25 min, timer running.`"""
    times = time_words(step, kept)
    return f"{done_words(kept)} {first_up(times)}." if times else done_words(kept)


def minutes_words(minutes: int) -> str:
    """`25 min`, `1 h`, `2 h 10 min`."""
    hours, rest = divmod(minutes, 60)
    return " ".join(f"{number} {unit}" for number, unit in ((hours, "h"), (rest, "min")) if number) or "0 min"


class StepList(LineList):
    """The steps. Enter ticks and goes on; Space ticks or unticks; a page is one of the step's text."""

    BINDINGS: ClassVar[list[BindingType]] = quiet_keys("space=screen.tick")
    beside = "#step-body"

    def on_resize(self) -> None:
        """The selected step stays in sight."""
        self.call_after_refresh(self.scroll_to_highlight)


Times = Mapping[Stage, tuple[int, int | None]]
"""Stage -> minutes expected and taken."""


class WorkPane(HorizontalGroup):
    """The checklist. It knows steps and whether they are ticked; ticking is the session's affair."""

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.before: dict[str, tuple[str, ...]] = {}
        """Step id -> its cautions: in full before the first step of a kind, named before each later one."""
        self.shown = ""
        """Id of the step that is shown."""

    def compose(self) -> ComposeResult:
        """List, text, buttons."""
        yield StepList(id="steps", markup=False)
        with Vertical(id="step"):
            with VerticalScroll(id="step-body"):
                yield Static(id="work-resumed", classes="note")
                yield Static(id="step-text")
            with HorizontalGroup(id="step-buttons"):
                yield plain_button("Tick", "tick", "screen.tick")
                yield plain_button("Note", "note", "screen.note")
                yield plain_button("Start timer", "timer", "screen.timer")

    def tell(
        self, steps: tuple[Step, ...], ticked: Collection[str], stale: Collection[str], at: str, times: Times
    ) -> None:
        """Show all steps. `ticked`: their ids; `stale`: of those that changed since; `at`: of the selected one."""
        self.before = cautions_before(steps)
        lines = self.query_one(StepList)
        with self.prevent(OptionList.OptionHighlighted):
            lines.set_options(_options(steps, ticked, stale, times))
            ids = [each.id for each in lines.options]
            lines.highlighted = ids.index(at) if at in ids else None
        lines.scroll_to_highlight()

    def tell_step(self, step: Step, kept: Kept, *, from_top: bool = True) -> None:
        """Show one step, from its beginning; the one shown already stays where it was scrolled to."""
        other = step.id != self.shown
        if other:
            self.remind(())
        self.shown = step.id
        text = told(step, kept, self.before.get(step.id, ()))
        self.query_one("#step-text", Static).update(Hanging(text, 2, apart=True))
        if from_top and other:
            self.query_one("#step-body", VerticalScroll).scroll_home(animate=False)
        relabel(self.query_one("#tick", Button), words("Untick" if kept.done else "Tick"))
        relabel(self.query_one("#timer", Button), words("Stop timer" if kept.runs else "Start timer"))

    def remind(self, lines: Sequence[str]) -> None:
        """Say where the work stopped, above the selected step, until another is selected; nothing for no lines."""
        place = self.query_one("#work-resumed", Static)
        place.update(words("\n".join(lines)))
        place.display = bool(lines)


def _options(
    steps: tuple[Step, ...], ticked: Collection[str], stale: Collection[str], times: Times
) -> Iterator[Option]:
    for stage, own in groupby(steps, key=lambda each: each.stage):
        spent = spent_words(*times.get(stage, (0, None)))
        yield Option(Content.assemble((stage, "bold $accent"), (f"  {spent}", "$quiet")), disabled=True)
        for step in own:
            mark = "[x]" if step.id in ticked else "[ ]"
            changed = (" changed since" if step.id in stale else "", "$warning")
            yield Option(Hanging(Content.assemble(f"{mark} {plain(step.title)}", changed), len(mark) + 1), id=step.id)
