"""The whole interview: every question that applies to a job, in the order of asking."""

from __future__ import annotations

from wizard.interview.allowance_questions import questions_of_allowances
from wizard.interview.ask import About, asked
from wizard.interview.bed_questions import ANOTHER_SECTION, THE_BED, THE_JOB, WHICH_SECTIONS
from wizard.interview.cloth_questions import questions_of_cloths
from wizard.interview.corner_questions import questions_of_posts
from wizard.interview.cutting_questions import FULLNESS, questions_of_cutting
from wizard.interview.notion_questions import NOTIONS
from wizard.interview.question import Question
from wizard.interview.section_questions import questions_of_daylight, questions_of_sections
from wizard.project.project import Project
from wizard.trade.plan_records import Plan


def interview(project: Project, plan: Plan) -> tuple[Question, ...]:
    """Every question that applies, quiet ones too. Pure: the same project and plan give the same questions."""
    job = About(project, plan, "Survey", "", "the job")
    bed = About(project, plan, "Survey", "", "the bed")
    notions = About(project, plan, "Cloth", "", "notions")
    fullness = About(project, plan, "Fullness", "", "fullness")
    return (
        *asked(THE_JOB, job),
        *asked((*THE_BED, *WHICH_SECTIONS), bed),
        *questions_of_sections(project, plan),
        *asked(ANOTHER_SECTION, bed),
        *questions_of_posts(project, plan),
        *questions_of_daylight(project, plan),
        *questions_of_cloths(project, plan),
        *asked(NOTIONS, notions),
        *questions_of_allowances(project, plan),
        *asked(FULLNESS, fullness),
        *questions_of_cutting(project, plan),
    )
