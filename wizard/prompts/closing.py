"""The job's file: where it is, a template made of it, and leaving."""

from __future__ import annotations

import shlex

from wizard.prompts.talk import Talk
from wizard.questions.jobs import keep_template
from wizard.render.plain_text import literal


def file(talk: Talk, _: str) -> None:
    """Where the job is kept, and when it was saved last."""
    saved = talk.session.saved_at
    # On a line of its own and never broken, so that it can be copied.
    talk.lines.put([f"File: {literal(str(talk.path))}"])
    talk.say(f"Saved: {saved.astimezone():%H:%M}" if saved else "Nothing was changed since it was opened.")
    if talk.session.conflict:
        talk.say(f"Not saved: {talk.session.conflict.sentence}")


def template(talk: Talk, name: str) -> None:
    """Keep the choices for later jobs."""
    usual = f"{talk.session.draft.name or ''} template".strip()
    name = name or talk.lines.ask(f"Name of the template, or an empty line for {usual}:").strip() or usual
    talk.say(keep_template(talk.path.parent, talk.session.draft, name))


def projects(talk: Talk, _: str) -> None:
    """Back to the list of projects."""
    talk.ending = "list"


def leave(talk: Talk, _: str) -> None:
    """Leave railskirt."""
    talk.ending = "leave"


def brief(talk: Talk, _: str) -> None:
    """Leave out how to measure, or bring it back."""
    talk.brief = not talk.brief
    talk.say("How to measure is left out from here." if talk.brief else "How to measure is read out again.")


def parting(talk: Talk) -> None:
    """Keep the place and the minutes of a step that is timed, and say where everything is."""
    talk.timing.end()
    talk.session.leave()
    left = talk.session.pending.left(talk.session.at)
    if left:
        talk.say(left)
    if talk.session.conflict:
        talk.say(f"Not saved: {talk.session.conflict.sentence}")
    talk.lines.put([f"Saved in: {literal(str(talk.path))}"])
    talk.lines.put([f"To go on: railskirt --plain {literal(shlex.quote(str(talk.path)))}"])
