"""Templates: a workroom's own habits, kept from one job and copied into the next."""

from __future__ import annotations

from msgspec.structs import replace

from wizard.project.encode import plain
from wizard.project.hand_edits import mark_of
from wizard.project.project import Progress, Project, put, put_many
from wizard.trade.fields import Standard
from wizard.trade.job_fields import LAYERS, Survey


def template_of(project: Project) -> Project:
    """What of a project goes for the next one too: no survey, no work, nothing kept, none of the cloth in hand."""
    usual = Progress(usual_allowances=project.progress.usual_allowances)
    habits = replace(project, survey=Survey(), work={}, kept={}, progress=usual)
    ours: dict[str, object] = {"template": True, "began_from": None, "began_mark": None}
    return put_many(habits, ours | {f"cloth.{each}.owned": None for each in LAYERS})


def begin(template: Project, name: str, standard: Standard | None = None) -> Project:
    """A new project called `name` with the template's values copied in, so that a later template never changes it.

    Any project may serve as template. Another `standard` than the template's brings its own unit and ruler. Raises
    Unfit when the name is not fit.
    """
    came_from = template.name if template.template or template.survey != Survey() else None
    mark = template_mark(template) if came_from else None
    ours = {"template": None, "name": name, "began_from": came_from, "began_mark": mark}
    other = standard is not None and standard != template.standard
    measured = {"standard": standard, "show": None, "ruler": None} if other else {}
    return put_many(template_of(template), {**ours, **measured})


def template_mark(template: Project) -> str:
    """A short mark of all that a template gives to a new project; its own name is none of it."""
    return mark_of(plain(put(template_of(template), "name", None)))[:8]
