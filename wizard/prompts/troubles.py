"""When the file cannot be written: another hand was in it, or the disk does not allow it."""

from __future__ import annotations

from wizard.project.problems import Problems
from wizard.prompts.talk import Talk
from wizard.questions.outcome import Conflict

WAYS = (
    "1. Read the file again, and let my change go.",
    "2. Write my change over it; what stands there is kept beside it.",
)
TRY = "1. Try again, once that is put right."
AGAIN = "1, or an empty line to go on without:"
WHOSE = "Number, or an empty line to leave both as they are:"


def met(talk: Talk, conflict: Conflict | None) -> bool:
    """True when a change could not be saved; it is asked about at once."""
    if conflict is None:
        return False
    if not conflict.by_hand:
        return _cannot_be_written(talk, conflict)
    talk.say(f"Not saved: {conflict.sentence}", *WAYS)
    picked = talk.lines.pick(WHOSE, len(WAYS))
    if picked == 0:
        _read_again(talk)
    elif picked == 1:
        _write_over(talk)
    else:
        talk.say("Left as it is: this change is not in the file.")
    talk.arrive()
    return True


def _cannot_be_written(talk: Talk, conflict: Conflict) -> bool:
    talk.say(f"Not saved: {conflict.sentence}", TRY)
    if talk.lines.pick(AGAIN, 1) == 0:
        _write_over(talk)
    else:
        talk.say("Left as it is: this change is not in the file.")
    talk.arrive()
    return True


def _write_over(talk: Talk) -> None:
    again, kept = talk.session.overwrite(), talk.session.kept_file
    talk.say(f"Not saved: {again.sentence}" if again else "Saved: my change stands.")
    if kept and not again:
        talk.say(f"What stood there is kept as {kept.name}.")


def _read_again(talk: Talk) -> None:
    problems = talk.session.reload()
    if isinstance(problems, Problems):
        talk.say("The file cannot be read:", *problem_lines(problems))
    else:
        talk.say("Read again: the job stands as the file says. .undo brings mine back.")


def problem_lines(problems: Problems) -> list[str]:
    """Every problem of a file, with its line and key as far as they are known."""
    return [
        ": ".join(part for part in (f"Line {each.line}" if each.line else "", each.key, each.sentence) if part)
        for each in problems.all
    ]
