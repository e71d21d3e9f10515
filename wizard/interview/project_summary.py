"""A project in one line of a list: how far it is and what comes next, told without working out its plan."""

from __future__ import annotations

from typing import Final

from msgspec import Struct

from wizard.interview.pages.texts import title_named
from wizard.project.plan_of_project import job_of
from wizard.project.project import Project
from wizard.trade.field_names import first_up, in_words
from wizard.trade.missing import holes
from wizard.trade.plan_records import STAGES, Stage
from wizard.trade.steps.step_writer import KINDS

_STAGES: Final[dict[str, Stage]] = {
    **dict.fromkeys(("cloth", "face", "washing", "fixing"), "Cloth"),
    "fullness": "Fullness",
    "ways": "Cutting",
}
"""First name of a file key -> the stage it is asked in; all others are asked in the survey."""


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
        # What is asked at a key of the file or at the name of a question; the key itself where nothing is.
        words = title_named("sides.on" if key == "survey.section" else key) or in_words(key, job)
        return Summary(_STAGES.get(key.partition(".")[0], "Survey"), f"{first_up(words)}.")
    done = [each.partition(":")[0] for each, kept in project.work.items() if kept.done is not None]
    # The last stage that anything was done of; a step's id begins with its kind.
    stages = [about.stage for kind, about in KINDS.items() if kind in done]
    stage: Stage = max(stages, key=STAGES.index, default="Cloth")
    if not done:
        return Summary(stage, "All answered: start the work.")
    begins = "The last step is done" if "care" in done else "Continue the work"
    return Summary(stage, f"{begins}: {len(done)} step{' is' if len(done) == 1 else 's are'} done.")
