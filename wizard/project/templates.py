"""Templates: a workroom's own habits, kept from one job and copied into the next."""

from __future__ import annotations

from msgspec.structs import replace

from wizard.project.draft import Draft, ProgressTable, put, put_many
from wizard.project.draft_bed import SurveyTable
from wizard.project.hand_marks import mark_of
from wizard.project.plain import plain
from wizard.trade.job import LAYERS, Standard


def template_of(draft: Draft) -> Draft:
    """What of a project goes for the next one too: no survey, no work, nothing kept, none of the cloth in hand."""
    usual = ProgressTable(usual_allowances=draft.progress.usual_allowances)
    habits = replace(draft, survey=SurveyTable(), work={}, kept={}, progress=usual)
    ours: dict[str, object] = {"template": True, "began_from": None, "began_mark": None}
    return put_many(habits, ours | {f"cloth.{each}.owned": None for each in LAYERS})


def begin(template: Draft, name: str, standard: Standard | None = None) -> Draft:
    """A new project called `name` with the template's values copied in, so that a later template never changes it.

    Any project may serve as template. Another `standard` than the template's brings its own unit and ruler. Raises
    Unfit when the name is not fit.
    """
    came_from = template.name if template.template or template.survey != SurveyTable() else None
    mark = template_mark(template) if came_from else None
    ours = {"template": None, "name": name, "began_from": came_from, "began_mark": mark}
    other = standard is not None and standard != template.standard
    measured = {"standard": standard, "show": None, "ruler": None} if other else {}
    return put_many(template_of(template), {**ours, **measured})


def template_mark(template: Draft) -> str:
    """A short mark of all that a template gives to a new project; its own name is none of it."""
    return mark_of(plain(put(template_of(template), "name", None)))[:8]
