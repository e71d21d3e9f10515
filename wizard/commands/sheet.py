"""`railskirt sheet FILE`: the whole plan as text or JSON."""

from __future__ import annotations

import io
import json
import shutil
from pathlib import Path
from typing import Final, TextIO

from wizard.commands.exits import Exit
from wizard.commands.reading import open_draft, tell_problems
from wizard.project.atomic import put
from wizard.project.jobs import plan_of
from wizard.project.problems import Problems
from wizard.sheets.json_sheet import plan_json
from wizard.sheets.plain import literal
from wizard.sheets.text import write_text
from wizard.trade.plan import Plan

USUAL_COLUMNS: Final = 80
"""Width of the text where no terminal says otherwise."""
READABLE: Final = (60, 120)
"""The least and greatest width taken from a terminal; longer lines are hard to read."""


def run(path: Path, form: str, columns: int | None, target: Path | None, out: TextIO, talk: TextIO) -> Exit:
    """Write the plan of the file at `path` in `form` (text or json) on `out`, or to the file `target`."""
    draft = open_draft(path)
    if isinstance(draft, Problems):
        tell_problems(path, draft, talk)
        return Exit.BAD_FILE
    plan = plan_of(draft)
    text = written(plan, form, columns or _columns_of(out, target))
    if target is not None:
        refused = _save(path, target, text, talk)
        if refused:
            return refused
    else:
        out.write(text)
    return _say_what_is_missing(plan, talk)


def written(plan: Plan, form: str, columns: int) -> str:
    """The plan in `form`, ending in a line feed."""
    if form == "json":
        return json.dumps(plan_json(plan), ensure_ascii=False, indent=2) + "\n"
    stream = io.StringIO()
    write_text(plan, stream, columns)
    return stream.getvalue()


def _columns_of(out: TextIO, target: Path | None) -> int:
    if target is not None or not out.isatty():
        return USUAL_COLUMNS
    least, greatest = READABLE
    return max(least, min(greatest, shutil.get_terminal_size().columns))


def _save(path: Path, target: Path, text: str, talk: TextIO) -> Exit | None:
    """Write the sheet to `target`; the status when it was refused. The project itself is never written over."""
    if target.exists() and target.samefile(path):
        print(f"railskirt: {literal(str(target))} is the project itself; give another name to --out.", file=talk)
        return Exit.NOT_SAVED
    try:
        if target.exists() and not target.is_file():
            # A pipe or a device cannot be replaced, only written to.
            target.write_bytes(text.encode())
        else:
            put(target, text.encode())
    except OSError as problem:
        print(f"railskirt: could not write {literal(str(target))}: {problem.strerror or problem}.", file=talk)
        return Exit.NOT_SAVED
    print(f"railskirt: written to {literal(str(target))}", file=talk)
    return None


def _say_what_is_missing(plan: Plan, talk: TextIO) -> Exit:
    if plan.complete:
        return Exit.OK
    count = len(plan.missing)
    if count:
        what = f"{count} answer{' is' if count == 1 else 's are'} missing; the end of the sheet says which."
    else:
        what = "something stops a figure; see Findings on the sheet."
    print(f"railskirt: unfinished: {what}", file=talk)
    return Exit.UNFINISHED
