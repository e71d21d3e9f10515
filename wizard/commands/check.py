"""`railskirt check FILE...`: what is wrong with a file; and telling it for any command."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TextIO

from msgspec.structs import replace

from wizard.commands.exits import Exit, gravest
from wizard.project.finished_steps import as_done, as_ticked, changed_in_words
from wizard.project.parse.misread import shortened
from wizard.project.plan_of_project import plan_of
from wizard.project.problems import Problems
from wizard.project.project import Project
from wizard.project.store import open_project
from wizard.render.plain_text import literal
from wizard.trade.formatting import counted
from wizard.trade.plan_records import Plan


def tell_problems(path: Path, problems: Problems, stream: TextIO) -> None:
    """Write every problem, a line each: `juniper.toml:12: survey.section.left.drop.2: sentence`."""
    name = shortened(literal(str(path)))
    for each in problems.all:
        where = name if each.line is None else f"{name}:{each.line}"
        print(": ".join(filter(None, (where, literal(each.key), literal(each.sentence)))), file=stream)


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
    print(f"{literal(str(path))}: {_verdict(plan, project)}", file=out)
    for line in report(plan):
        print(f"  {literal(line)}", file=out)
    return _status(plan)


def _verdict(plan: Plan, project: Project) -> str:
    if plan.complete and project.template:
        return "a template"
    if plan.complete and plan.changed:
        return f"complete, but {counted(len(plan.changed), 'finished step')} changed"
    if plan.complete:
        return "complete"
    return f"{counted(len(plan.missing), 'answer')} missing" if plan.missing else "a figure cannot be worked out"


def report(plan: Plan) -> Iterator[str]:
    """What is missing, what is found out later, each finished step that has changed, each open finding with its way
    out, a line each."""
    for how, needs in (("missing", plan.missing), ("to find out", plan.later)):
        yield from (f"{how}: {each.key}: {each.words}" for each in needs)
    for step, said in zip(plan.changed, changed_in_words(plan.changed), strict=True):
        yield f"changed: work.{step.id}: {said}"
    for each in plan.findings:
        if not each.kept:
            yield f"{each.level}: {each.key}: {each.sentence} {each.way_out}".rstrip()


def _status(plan: Plan) -> Exit:
    """The status of one file. A note needs no correction, so it does not count as found."""
    if plan.changed or any(each.level != "note" and not each.kept for each in plan.findings):
        return Exit.FOUND
    return Exit.OK if plan.complete else Exit.UNFINISHED
