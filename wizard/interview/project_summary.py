"""A project in one line of a list: how far it is and what comes next, told without working out its plan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from msgspec import Struct

from wizard.interview.pages.texts import title_named
from wizard.project.plan_of_project import job_of
from wizard.project.project import Project
from wizard.trade.field_names import first_up, in_words
from wizard.trade.job_fields import Job
from wizard.trade.missing import holes
from wizard.trade.plan_records import Stage

_STAGES: Final[dict[str, Stage]] = {
    **dict.fromkeys(("cloth", "face", "washing", "fixing"), "Cloth"),
    "fullness": "Fullness",
    "ways": "Cutting",
}
"""First name of a file key -> the stage it is asked in; all others are asked in the survey."""

_WORK: Final[tuple[tuple[Stage, frozenset[str]], ...]] = (
    ("Hanging", frozenset({"clear", "hang", "dress", "put-back", "care"})),
    (
        "Making up",
        frozenset({"join", "hem", "layers", "stay", "gather", "mark", "draw-up", "try", "tape", "fold", "loop"}),
    ),
    ("Cutting", frozenset({"look-over", "measure", "square", "cut", "label"})),
    ("Cloth", frozenset({"buy", "wash"})),
)
"""Kinds of step by the stage they are done in, the last stage first; a step's id begins with its kind."""


_LAST: Final = "care"
"""The kind of the last step."""


class Summary(Struct, frozen=True):
    """What a list of projects says of one."""

    stage: Stage
    next_action: str


def summary_of(project: Project) -> Summary:
    """How far a project is: while answers are missing the question in hand, or the first of them; else the work."""
    job = job_of(project)
    missing = tuple(holes(job, project.progress.later))
    if missing:
        at = project.progress.at or ""
        key = at if at in missing or title_named(at) else missing[0]
        return Summary(_STAGES.get(key.partition(".")[0], "Survey"), f"{first_up(_words(key, job))}.")
    done = [each.partition(":")[0] for each, kept in project.work.items() if kept.done is not None]
    return Summary(_stage_of(set(done)), _work_words(done))


def _words(key: str, job: Job) -> str:
    """What is asked at a key of the file or at the name of a question; unchanged where nothing is."""
    return title_named("sides.on" if key == "survey.section" else key) or in_words(key, job)


def _stage_of(kinds: set[str]) -> Stage:
    return next((stage for stage, of_stage in _WORK if kinds & of_stage), "Cloth")


def _work_words(done: Sequence[str]) -> str:
    if not done:
        return "Nothing is left to answer: start the work."
    begins = "The last step is done" if _LAST in done else "Continue the work"
    return f"{begins}: {len(done)} step{' is' if len(done) == 1 else 's are'} done."
