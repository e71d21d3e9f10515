"""Writing the sheets into a file: in what form, which, and where."""

from __future__ import annotations

from wizard.project.finished_steps import as_done
from wizard.prompts.order import order_in
from wizard.prompts.talk import Talk
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

NAMES: tuple[SheetId, ...] = tuple(TITLES)


def write(talk: Talk, _: str) -> None:
    """Ask what is wanted, write it, and say where it is."""
    form = _form(talk)
    only = _sheets(talk) if form in WITH_SHEETS else None
    target = _target(talk, form) if form is not None and only != () else None
    if form is None or target is None:
        if not talk.lines.waiting:
            talk.say("Nothing was written.")
        return
    plan = as_done(talk.best_plan(), talk.session.draft)
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


def _form(talk: Talk) -> Format | None:
    forms = tuple(FORM_WORDS)
    talk.say(*(f"{number}. {FORM_WORDS[each]}" for number, each in enumerate(forms, 1)))
    picked = talk.lines.pick("Number of a form, or an empty line:", len(forms))
    return None if picked is None else forms[picked]


def _sheets(talk: Talk) -> tuple[SheetId, ...] | None:
    """The sheets named by their numbers; None for the usual ones, none at all when an order is given instead."""
    for number, each in enumerate(NAMES, 1):
        talk.say(f"{number}. {TITLES[each]}{'' if each in USUAL else ', only when it is named'}")
    while True:
        line = talk.lines.ask("Numbers with commas between, or an empty line for the usual ones:").strip()
        if not line:
            return None
        if order_in(line):
            talk.lines.put_back(line)
            return ()
        numbers = [each.strip() for each in line.split(",")]
        if all(each.isdecimal() and len(each) < 4 and 1 <= int(each) <= len(NAMES) for each in numbers):
            wanted = {NAMES[int(each) - 1] for each in numbers}
            return tuple(each for each in NAMES if each in wanted)
        talk.say(f"Not in the list: “{line}”. Give numbers from 1 to {len(NAMES)}, such as 2, 3.")


def _target(talk: Talk, form: Format) -> Target | None:
    """The file, once it is sure; None when it is not to be written."""
    usual = usual_target(talk.path, form)
    while True:
        line = talk.lines.ask(f"Name of the file, or an empty line for {literal(usual.name)}:").strip()
        if order_in(line):
            talk.lines.put_back(line)
            return None
        target = named_target(talk.path, form, line or usual.name)
        if not isinstance(target, str):
            return _sure(talk, target)
        talk.say(f"Not taken: {target}")


def _sure(talk: Talk, target: Target) -> Target | None:
    if target.there is None:
        return target
    sure = talk.lines.ask(f"{literal(target.path.name)} is there already: {target.there.words}. Replace it? yes or no:")
    return target if sure.strip().casefold() in ("yes", "y") else None
