"""Sheets into files: where they usually go, what is there already, and writing them whole or not at all.

For shell, screens and prompts.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Collection, Sequence
from datetime import date
from pathlib import Path
from typing import Final, cast

from msgspec import Struct

from wizard.project.atomic import put, real_path
from wizard.render.formats import Request, render
from wizard.render.plain_text import clipped, literal
from wizard.render.sheet_names import ENDINGS, WITH_SHEETS, Format, SheetId
from wizard.trade.formatting import text_beside, wordings_in
from wizard.trade.plan_records import Plan

_FORMS: Final = {cast("Format", id): each for id, each in wordings_in(text_beside(__file__, "forms.txt")).items()}
"""Form -> what it is, in a few words, and what to do with the file; the one that most people want first."""
FORM_WORDS: Final = {form: each.sentence for form, each in _FORMS.items()}
PROJECTS: Final = ".toml"
"""How the name of a project ends."""
MOST_SHOWN: Final = 40
"""Columns shown of a name that cannot be one: it may be so because it is far too long."""
NAMED: Final = 3
"""How many missing answers a sentence names; the overview names all."""


def usual_target(project: Path, form: Format) -> Path:
    """Beside the project, called like it."""
    return project.with_suffix(ENDINGS[form])


class Target(Struct, frozen=True):
    """The file that a typed name means."""

    path: Path
    in_folder: bool
    """True when the name is a folder's: `path` is the usual name in it."""
    there: Existing | None
    """What is there already, if anything."""


def named_target(project: Path, form: Format, name: str) -> Target | str:
    """The file that `name` means, beside the project unless it leads elsewhere; else, in one sentence, why it can be
    none. As in a shell, `~` is a person's own folder only where there is such a person."""
    usual = usual_target(project, form)
    path = project.parent / os.path.expanduser(name)
    try:
        in_folder = path.is_dir()
        path = path / usual.name if in_folder else path
        return Target(path, in_folder, existing_at(path))
    except OSError as problem:
        why = problem.strerror or str(problem)
    except ValueError:
        # A NUL, or half a character.
        why = "it contains a character that no file name can have"
    shown = clipped(literal(name), MOST_SHOWN)
    return f"“{shown}” cannot be written to: {why}. Choose another name, for example: {usual.name}"


def usual_date(form: Format, today: date) -> str | None:
    """Today's date for what people read. Data carries a date only where one was asked for."""
    return today.isoformat() if form in WITH_SHEETS else None


def save_text(target: Path, text: str, projects: Sequence[Path], *, replace: bool) -> str | None:
    """Write `text` to `target`, whose mode stays as it is; return why not, in one sentence, or None.

    None of `projects` is ever written over, nor any other file that is called like one. Any other file that is no sheet
    is replaced only with `replace`: whoever sets it has said first what kind of file it is.
    """
    name = literal(str(target))
    try:
        there = existing_at(target)
        if there is not None and any(path.exists() and target.samefile(path) for path in projects):
            return f"{name} is the project itself. Give the sheets another name."
        if target.suffix.casefold() == PROJECTS and target.is_file():
            return f"{name} may be a project: its name ends in {PROJECTS}. Give the sheets another name."
        if there is not None and not there.expendable and not replace:
            return f"{name} already exists: {there.words}. Give the sheets another name, or add --replace."
        if there is None or target.is_file():
            put(real_path(target), text.encode())
        else:
            # A pipe or a device cannot be replaced, only written to.
            target.write_bytes(text.encode())
    except OSError as problem:
        return f"could not write {name}: {problem.strerror or problem}."
    return None


def save_sheets(
    plan: Plan, form: Format, only: Collection[SheetId] | None, target: Target, project: Path, today: date
) -> str | None:
    """Write a plan's sheets as the shell does in its usual width. Return why not, in one sentence, or None.

    What `target` says is there already is replaced: ask first.
    """
    return save_text(target.path, sheets_text(plan, form, only, today), (project,), replace=target.there is not None)


def sheets_text(plan: Plan, form: Format, only: Collection[SheetId] | None, today: date) -> str:
    """A plan's sheets as the shell writes them in its usual width."""
    return render(plan, Request(form, only, usual_date(form, today)))


def missing_words(plan: Plan) -> str | None:
    """What keeps the sheets from being whole, in one sentence; None when they are."""
    if plan.complete:
        return None
    if not plan.missing:
        return "a figure cannot be worked out; see Findings on the sheet."
    count = len(plan.missing)
    named = literal("; ".join(need.words for need in plan.missing[:NAMED]))
    more = f"; and {count - NAMED} more, listed in the overview" if count > NAMED else ""
    return f"{count} answer{' is' if count == 1 else 's are'} missing: {named}{more}."


def after_writing(plan: Plan, form: Format) -> list[str]:
    """What to do with a file that was written, and what keeps it from being whole."""
    missing = missing_words(plan)
    return [_FORMS[form].more, *([f"Unfinished: {missing}"] if missing else [])]


_SNIFFED: Final = 1 << 14
"""Bytes looked at to tell what a file is."""
_MARK: Final = r"[0-9A-Z]{4}-[0-9A-Z]{4}\b"
_SHEET: Final = re.compile(
    rf'<!DOCTYPE html>\n<html [^>]*data-mark="{_MARK}'
    rf"|<svg xmlns=.*plan mark {_MARK}"
    rf'|\{{\s*"format": \d+,\s*"plan_mark": "{_MARK}'
    r"|project,plan mark,layer,"
    rf"|.*?\n═{{20,}}\n.*\b[Pp]lan\s+mark\s+{_MARK}",
    re.DOTALL,
)
"""How a sheet begins: HTML, SVG, JSON, CSV and text."""
NOT_OURS: Final = "not a railskirt sheet"


class Existing(Struct, frozen=True):
    """The file that a sheet would replace."""

    words: str
    """What it is: `a hidden text file, not a railskirt sheet`."""
    expendable: bool
    """True when nothing is lost but an earlier sheet."""


def existing_at(path: Path) -> Existing | None:
    """The file at `path`, links followed; None where there is none.

    Raises OSError or ValueError for a name that no file can have.
    """
    try:
        mode = path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return None
    if not stat.S_ISREG(mode):
        # It is written to, not replaced.
        return Existing("a folder" if stat.S_ISDIR(mode) else "a pipe or a device", True)
    try:
        with path.open("rb") as stream:
            head = stream.read(_SNIFFED)
    except PermissionError:
        return Existing(f"a file that you may not read, {NOT_OURS}", False)
    if not head:
        return Existing("an empty file", True)
    text = head.decode("utf-8", "replace")
    if _SHEET.match(text.replace("\r\n", "\n")):
        return Existing("a railskirt sheet", True)
    hidden = "hidden " if path.name.startswith(".") else ""
    # The last character may be cut off.
    kind = "file that is not text" if b"\0" in head or "\ufffd" in text.rstrip("\ufffd") else "text file"
    runs = " that can be run as a program" if mode & 0o111 else ""
    return Existing(f"a {hidden}{kind}{runs}, {NOT_OURS}", False)
