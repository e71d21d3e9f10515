"""A conversation about one job: what was just said of it, what happens when it cannot be saved, its sheets, leaving."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import wraps
from pathlib import Path
from typing import Literal, TypeVar

from wizard.interview.job_files import keep_template
from wizard.interview.outcome import Conflict
from wizard.interview.session import Session
from wizard.interview.step_timer import StepTimer
from wizard.project.finished_steps import as_done
from wizard.project.plan_of_project import at_best
from wizard.project.problems import Problems
from wizard.prompts.console import Console, Do, numbered, said
from wizard.render.plain_text import literal
from wizard.render.sheet_files import (
    FORM_WORDS,
    Target,
    after_writing,
    named_target,
    save_sheets,
    usual_target,
)
from wizard.render.sheet_names import TITLES, USUAL, WITH_SHEETS, Format, SheetId
from wizard.trade.plan_records import Finding, Offers, Plan, Remedy

Ending = Literal["list", "leave"]
"""What follows a job: the list of projects, or the end."""


T = TypeVar("T")
About = Callable[["Conversation", T, str], None]


@dataclass
class Conversation:
    """What the orders of a job are done to."""

    lines: Console
    session: Session
    path: Path
    page: str = ""
    """Id of the page that was read out last."""
    aside: str = ""
    """Key of the field from which one behind *More* was gone to."""
    held: tuple[Finding, ...] = ()
    """What the last answer made look wrong; an empty line goes on all the same."""
    offers: tuple[str | Remedy, ...] = ()
    """What may have been meant by the last answer, which was not taken, or what settles what looks wrong."""
    before: Mapping[tuple[str, str], str] | None = None
    """Name of a figure in the plan so far -> its words before the last answer; None after any other change."""
    line: str = ""
    """The plan so far in a line, as it was said last."""
    tables: dict[str, Offers] = field(default_factory=dict)
    """Key of a list -> the rows worked out for it, on the page that was read out last."""
    told: set[str] = field(default_factory=set)
    """What is said only once, and was."""
    moved: bool = True
    """True when the place in hand has to be read out."""
    ending: Ending | None = None

    def __post_init__(self) -> None:
        self.timing = StepTimer(self.session)

    def say(self, *texts: str) -> None:
        """Print each text, a sentence a line."""
        self.lines.say(*texts)

    def once(self, text: str) -> tuple[str, ...]:
        """The text, the first time it is asked for."""
        new = text not in self.told
        self.told.add(text)
        return (text,) if new else ()

    def best_plan(self) -> Plan:
        """The best plan that can be found; the job keeps it. What is read out, written or ticked is asked for, so it
        may take its tenths of a second, and reads as the sheets of the shell do."""
        best = at_best(self.session.plan)
        if best is not self.session.plan:
            self.session.take(best)
        return self.session.plan

    def arrive(self) -> None:
        """Have the new place read out, and drop what was said of the last one."""
        self.moved, self.held, self.offers = True, (), ()


def about(get: Callable[[Session], T | None], otherwise: str) -> Callable[[About[T]], Do[Conversation]]:
    """A decorator for orders about what `get` gives; where there is none they only say what is at that key."""

    def order_of(do: About[T]) -> Do[Conversation]:
        @wraps(do)
        def order(talk: Conversation, text: str) -> None:
            what = get(talk.session)
            talk.say(said(otherwise)) if what is None else do(talk, what, text)

        return order

    return order_of


at_question = about(Session.current, "a step")
at_page = about(Session.page, "a step")
at_step = about(Session.current_step, "no step")


def saved(talk: Conversation, conflict: Conflict | None, *says: str) -> bool:
    """True when a change was saved, and says so; where it was not, that is asked about at once."""
    if conflict is None:
        talk.say(*says)
        return True
    prompt, *ways = said("ways by hand" if conflict.by_hand else "ways blocked").split("|")
    talk.say(f"Not saved: {conflict.sentence}")
    talk.arrive()
    picked = talk.lines.choose(prompt, ways)
    if picked is None:
        talk.say("This change is not in the file.")
    elif conflict.by_hand and picked == 0:
        _read_again(talk)
    else:
        _write_over(talk)
    return False


def _write_over(talk: Conversation) -> None:
    again, kept = talk.session.overwrite(), talk.session.file.kept
    talk.say(f"Not saved: {again.sentence}" if again else "Saved: your change is in the file.")
    if kept and not again:
        talk.say(f"The file as it was before is kept as {kept.name}.")


def _read_again(talk: Conversation) -> None:
    problems = talk.session.reload()
    if isinstance(problems, Problems):
        talk.say("The file cannot be read:", *problems.lines)
    else:
        talk.say("Read again from the file. “undo” brings your change back.")


def file(talk: Conversation, _: str) -> None:
    """Say where the job is kept, and when it was saved."""
    saved = talk.session.file.saved_at
    _uncut(talk, f"File: {talk.path}")
    talk.say(f"Saved: {saved.astimezone():%H:%M}" if saved else "Nothing has changed since it was opened.")
    _unsaved(talk)


def _uncut(talk: Conversation, text: str) -> None:
    """Print a text on a line of its own and never broken, so that it can be copied."""
    talk.lines.put([literal(text)])


def _unsaved(talk: Conversation) -> None:
    if talk.session.file.conflict:
        talk.say(f"Not saved: {talk.session.file.conflict.sentence}")


def parting(talk: Conversation) -> None:
    """Keep the place and the minutes of a step that is timed, and say where everything is."""
    talk.timing.end()
    talk.session.leave()
    talk.say(talk.session.pending.left(talk.session.at))
    _unsaved(talk)
    _uncut(talk, f"Saved in: {talk.path}")
    _uncut(talk, f"To go on: railskirt --plain {shlex.quote(str(talk.path))}")


def template(talk: Conversation, name: str) -> None:
    """Save the choices as a template for later jobs."""
    usual = f"{talk.session.project.name or ''} template".strip()
    given = name or talk.lines.name(f"Name of the template [{usual}]:") or usual
    talk.say(keep_template(talk.path.parent, talk.session.project, given))


def sheets(talk: Conversation, _: str) -> None:
    """Write the sheets to print, or to carry to the bed, into a file."""
    picked = talk.lines.choose("Number of a format, or Enter to write nothing:", tuple(FORM_WORDS.values()))
    form = None if picked is None else tuple(FORM_WORDS)[picked]
    only = _sheets(talk) if form in WITH_SHEETS else None
    target = _target(talk, form) if form is not None else None
    if form is None or target is None:
        talk.say("Nothing was written.")
        return
    plan = as_done(talk.best_plan(), talk.session.project)
    trouble = save_sheets(plan, form, only, target, talk.path, talk.session.now().astimezone().date())
    if trouble:
        talk.say(f"Not written: {trouble}")
        return
    _uncut(talk, f"Written: {target.path.resolve()}")
    talk.say(*after_writing(plan, form))


def _sheets(talk: Conversation) -> tuple[SheetId, ...] | None:
    """The sheets named by their numbers; None for the usual ones."""
    names = tuple(TITLES)
    aside = ", only when named"
    talk.say(*(f"{at}. {TITLES[each]}{'' if each in USUAL else aside}" for at, each in enumerate(names, 1)))
    while line := talk.lines.name("Numbers with commas between, or Enter for the usual ones:"):
        picked = {numbered(each.strip(), len(names)) for each in line.split(",")}
        if None not in picked:
            return tuple(each for at, each in enumerate(names) if at in picked)
        talk.say(f"Not in the list: “{line}”. Type numbers from 1 to {len(names)}, such as 2, 3.")
    return None


def _target(talk: Conversation, form: Format) -> Target | None:
    """The file, once it is sure; None when it is not to be written."""
    usual = usual_target(talk.path, form).name
    while True:
        name = talk.lines.name(f"Name of the file [{literal(usual)}]:") or usual
        target = named_target(talk.path, form, name)
        if isinstance(target, str):
            talk.say(f"Not accepted: {target}")
        else:
            there = target.there and f"{literal(target.path.name)} is there already: {target.there.words}."
            sure = not there or talk.lines.ask(f"{there} Replace it? yes or no:").strip().casefold() in ("yes", "y")
            return target if sure else None
