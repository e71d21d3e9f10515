"""`railskirt check FILE...` and `railskirt schema`: what is wrong with a file, and what a file may hold."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TextIO

from msgspec.structs import replace

from wizard.commands.exits import Exit, gravest
from wizard.commands.print_problems import open_project, tell_problems
from wizard.project.file_schema import schema
from wizard.project.finished_steps import as_done, as_ticked, changed_in_words
from wizard.project.plan_of_project import plan_of
from wizard.project.problems import Problems
from wizard.render.figure_text import counted
from wizard.render.plain_text import literal
from wizard.trade.plan_records import ChangedStep, Plan


def run_check(files: Iterable[Path], out: TextIO) -> Exit:
    """Check each file, report it on `out`, and give the gravest status met. One bad file does not stop the rest."""
    return gravest(_check(path, out) for path in files)


def _check(path: Path, out: TextIO) -> Exit:
    project = open_project(path)
    if isinstance(project, Problems):
        tell_problems(path, project, out)
        return Exit.BAD_FILE
    plan = as_done(as_ticked(plan_of(project), project), project)
    if project.template:
        # What a job has to answer is no answer missing in a template.
        plan = replace(plan, holes=())
    print(f"{literal(str(path))}: {_verdict(plan, is_template=project.template is True)}", file=out)
    for line in report(plan):
        print(f"  {line}", file=out)
    return _status(plan)


def _verdict(plan: Plan, *, is_template: bool) -> str:
    if plan.complete and is_template:
        return "a template"
    if plan.complete and plan.changed:
        return f"complete, but {counted(len(plan.changed), 'finished step')} changed"
    if plan.complete:
        return "complete"
    return f"{counted(len(plan.missing), 'answer')} missing" if plan.missing else "a figure cannot be worked out"


def report(plan: Plan) -> tuple[str, ...]:
    """What is missing, what is found out later, each finished step that has changed, each open finding with its way
    out, a line each."""
    asked = (("missing", plan.missing), ("to find out", plan.later))
    missing = (f"{how}: {literal(each.key)}: {literal(each.words)}" for how, needs in asked for each in needs)
    findings = (
        f"{each.level}: {literal(each.key)}: {literal(each.sentence)} {literal(each.way_out)}".rstrip()
        for each in plan.findings
        if not each.kept
    )
    changed = (f"changed: {literal(f'work.{each.id}: {said}')}" for each, said in _changed(plan))
    return (*missing, *changed, *findings)


def _changed(plan: Plan) -> Iterator[tuple[ChangedStep, str]]:
    return zip(plan.changed, changed_in_words(plan.changed), strict=True)


def _status(plan: Plan) -> Exit:
    """The status of one file. A note needs no correction, so it does not count as found."""
    if plan.changed or any(each.level != "note" and not each.kept for each in plan.findings):
        return Exit.FOUND
    return Exit.OK if plan.complete else Exit.UNFINISHED


def run_schema(out: TextIO) -> Exit:
    """Write the schema on `out`."""
    print(json.dumps(schema(), ensure_ascii=False, indent=2), file=out)
    return Exit.OK
