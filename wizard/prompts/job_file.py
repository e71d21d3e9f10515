"""The job's file: where it is, the sheets and the template made of it, and leaving."""

from __future__ import annotations

import shlex

from wizard.interview.job_files import keep_template
from wizard.project.finished_steps import as_done
from wizard.prompts.console import command_in, numbered
from wizard.prompts.conversation import Conversation
from wizard.render.plain_text import literal
from wizard.render.sheet_files import (
    FORM_WORDS,
    NEXT_STEPS,
    Target,
    missing_words,
    named_target,
    save_sheets,
    usual_target,
)
from wizard.render.sheet_names import TITLES, USUAL, WITH_SHEETS, Format, SheetId


def file(talk: Conversation, _: str) -> None:
    """Where the job is kept, and when it was saved last."""
    saved = talk.session.file.saved_at
    # On a line of its own and never broken, so that it can be copied.
    talk.lines.put([f"File: {literal(str(talk.path))}"])
    talk.say(f"Saved: {saved.astimezone():%H:%M}" if saved else "Nothing was changed since it was opened.")
    if talk.session.file.conflict:
        talk.say(f"Not saved: {talk.session.file.conflict.sentence}")


def template(talk: Conversation, name: str) -> None:
    """Keep the choices for later jobs."""
    usual = f"{talk.session.project.name or ''} template".strip()
    name = name or talk.lines.ask(f"Name of the template, or an empty line for {usual}:").strip() or usual
    talk.say(keep_template(talk.path.parent, talk.session.project, name))


def projects(talk: Conversation, _: str) -> None:
    """Back to the list of projects."""
    talk.ending = "list"


def leave(talk: Conversation, _: str) -> None:
    """Leave railskirt."""
    talk.ending = "leave"


def brief(talk: Conversation, _: str) -> None:
    """Leave out how to measure, or bring it back."""
    talk.brief = not talk.brief
    talk.say("How to measure is left out from here." if talk.brief else "How to measure is read out again.")


def parting(talk: Conversation) -> None:
    """Keep the place and the minutes of a step that is timed, and say where everything is."""
    talk.timing.end()
    talk.session.leave()
    left = talk.session.pending.left(talk.session.at)
    if left:
        talk.say(left)
    if talk.session.file.conflict:
        talk.say(f"Not saved: {talk.session.file.conflict.sentence}")
    talk.lines.put([f"Saved in: {literal(str(talk.path))}"])
    talk.lines.put([f"To go on: railskirt --plain {literal(shlex.quote(str(talk.path)))}"])


NAMES: tuple[SheetId, ...] = tuple(TITLES)


def write(talk: Conversation, _: str) -> None:
    """Ask what is wanted, write it, and say where it is."""
    form = _form(talk)
    only = _sheets(talk) if form in WITH_SHEETS else None
    target = _target(talk, form) if form is not None and only != () else None
    if form is None or target is None:
        if not talk.lines.waiting:
            talk.say("Nothing was written.")
        return
    plan = as_done(talk.best_plan(), talk.session.project)
    trouble = save_sheets(plan, form, only, target, talk.path, talk.clock().astimezone().date())
    if trouble:
        talk.say(f"Not written: {trouble}")
        return
    # On a line of its own and never broken, so that it can be copied.
    talk.lines.put([f"Written: {literal(str(target.path.resolve()))}"])
    talk.say(NEXT_STEPS[form])
    missing = missing_words(plan)
    if missing:
        talk.say(f"Unfinished: {missing}")


def _form(talk: Conversation) -> Format | None:
    forms = tuple(FORM_WORDS)
    picked = talk.lines.choose("Number of a form, or an empty line:", tuple(FORM_WORDS.values()))
    return None if picked is None else forms[picked]


def _sheets(talk: Conversation) -> tuple[SheetId, ...] | None:
    """The sheets named by their numbers; None for the usual ones, none at all when an order is given instead."""
    for number, each in enumerate(NAMES, 1):
        talk.say(f"{number}. {TITLES[each]}{'' if each in USUAL else ', only when it is named'}")
    while True:
        line = talk.lines.ask("Numbers with commas between, or an empty line for the usual ones:").strip()
        if not line:
            return None
        if command_in(line):
            talk.lines.put_back(line)
            return ()
        picked = {numbered(each.strip(), len(NAMES)) for each in line.split(",")}
        if None not in picked:
            return tuple(each for at, each in enumerate(NAMES) if at in picked)
        talk.say(f"Not in the list: “{line}”. Give numbers from 1 to {len(NAMES)}, such as 2, 3.")


def _target(talk: Conversation, form: Format) -> Target | None:
    """The file, once it is sure; None when it is not to be written."""
    usual = usual_target(talk.path, form)
    while True:
        line = talk.lines.ask(f"Name of the file, or an empty line for {literal(usual.name)}:").strip()
        if command_in(line):
            talk.lines.put_back(line)
            return None
        target = named_target(talk.path, form, line or usual.name)
        if not isinstance(target, str):
            return _sure(talk, target)
        talk.say(f"Not taken: {target}")


def _sure(talk: Conversation, target: Target) -> Target | None:
    if target.there is None:
        return target
    sure = talk.lines.ask(f"{literal(target.path.name)} is there already: {target.there.words}. Replace it? yes or no:")
    return target if sure.strip().casefold() in ("yes", "y") else None
