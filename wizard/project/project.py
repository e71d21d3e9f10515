"""The project file as a value: the job, and what else the file keeps. Frozen; every key may be missing.

A change gives a new project, checked throughout; undo is a list of projects. A template is a project too: a workroom's
own habits, kept from one job and copied into the next.
"""

# Annotations are not postponed here: they are read as they are, at every start.

from collections.abc import Mapping
from datetime import datetime
from typing import Annotated, ClassVar, Final, Literal

from msgspec.structs import replace

from wizard.project.decode import DecodeError, put_at
from wizard.project.encode import mark_of, plain
from wizard.project.keys import kind_at, split
from wizard.project.parse import Misread, read_length
from wizard.project.value_faults import Fault, misread_at, not_taken_at, unknown_key, why_not_taken, with_example
from wizard.trade.fields import AtMost, Count, Ident, Reads, Record, Standard, Text
from wizard.trade.formatting import is_metric
from wizard.trade.job_fields import LAYERS, Job, Name, Note, Side, Survey
from wizard.trade.lengths import Length

FORMAT: Final = 1
"""The format this railskirt writes, and the highest it reads."""


def _this_format(value: object) -> Literal[1]:
    if isinstance(value, bool) or not isinstance(value, int) or value != FORMAT:
        raise Misread(f"The format written here is {FORMAT}.", str(FORMAT))
    return FORMAT


def _any_length(value: object) -> Length:
    text = value.text if isinstance(value, Length) else value
    if not isinstance(text, str):
        raise Misread("Write a length as text with its unit.", "12 1/2 in")
    return read_length(text, None, zero=True)


Marks = Annotated[str, Text(10_000, "job=3f2a survey=91c0")]
_STEP_ID_IS: Final = "small letters a to z and digits, then also : / -"
_FIGURE_ID_IS: Final = "small letters a to z and digits, then also . _ : / -"
_KEY_IS: Final = "small letters a to z and digits, then also . _ -"
FileKey = Annotated[str, Ident(r"[a-z0-9][a-z0-9_.-]*", 200, _KEY_IS, "survey.post.foot-left.along_side")]
StepId = Annotated[str, Ident(r"[a-z0-9][a-z0-9:/-]*", 120, _STEP_ID_IS, "hem:face:left")]
FigureId = Annotated[str, Ident(r"[a-z0-9][a-z0-9_.:/-]*", 200, _FIGURE_ID_IS, "layer.face.cut.left")]
PlanLength = Annotated[
    Length, Reads(_any_length, {"type": "string", "description": "A length.", "examples": ["12 1/2 in"]})
]
"""A length of the plan, which nobody types: without limits."""


MOST_KEYS: Final = 400
"""In a list of keys."""


class Progress(Record, frozen=True):
    """Where the work stopped: `progress`."""

    at: Note | None = None
    """Key of the current question, or `work.STEP`."""
    usual_allowances: bool | None = None
    """true once you have accepted the page of allowances."""
    rails_alike: bool | None = None
    """false asks for each section's own rail."""
    turned_posts: bool | None = None
    """Whether any post is turned or tapered."""
    posts_alike: bool | None = None
    """false asks for the sizes of each post; otherwise one answer is for all."""
    later: Annotated[tuple[FileKey, ...], AtMost(MOST_KEYS)] = ()
    """Keys of what is found out later: listed as such, not as missing. They change no plan."""
    unlinked: Side | None = None
    """The side that was changed last, after it was the same as the side across the bed: either may be copied again."""
    written: Marks | None = None
    """Short marks of every part as it was last saved. After an edit by hand some differ; the next save renews them."""


class FinishedStep(Record, frozen=True):
    """The record of one step: `work.STEP`."""

    done: datetime | None = None
    """When it was ticked, universal time."""
    note: Note | None = None
    """A note to remember."""
    minutes: Annotated[int | None, Count()] = None
    """How long it took."""
    told: Note | None = None
    """A short mark of what the step said when it was ticked. A different mark now means that the plan has changed."""
    lengths: Annotated[Mapping[FigureId, PlanLength], AtMost(400)] = {}
    """The lengths it named then, each under the id of its figure, to show what has changed since."""


class Project(Job, frozen=True):
    """A bed skirt project. Lengths are text with their unit, like "12 1/2 in" or "29.2 cm"."""

    order: ClassVar[tuple[str, ...]] = (
        *("format", "name", "client", "show", "ruler", "standard", "currency", "began_from", "began_mark", "template"),
        *("survey", "allowances", "cloth", "fullness", "progress", "kept", "work"),
    )

    format: Annotated[Literal[1], Reads(_this_format, {"type": "integer", "const": FORMAT})] = 1
    """Format of this file."""
    began_from: Name | None = None
    """The template this project was begun from; its values were copied in."""
    began_mark: Name | None = None
    """A short mark of that template as it was then. A different mark now means that it has changed."""
    template: bool | None = None
    """true in a template: it has no survey and no work, and projects are begun from it."""
    progress: Progress = Progress()
    """Where the work stopped."""
    work: Mapping[StepId, FinishedStep] = {}
    """What was done of the work, step by step."""

    @property
    def is_metric(self) -> bool:
        """True for a job in metric units, as far as is said."""
        return is_metric(self.show, self.standard)


class Unfit(ValueError):  # noqa: N818  (an answer is refused, which is no error of the program)
    """An answer that cannot be put in. `str()` gives the sentence with its example."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.key, fault.sentence, fault.example)
        self.key = fault.key
        """Dotted key it was meant for."""
        self.sentence = fault.sentence
        """What was found and what is needed."""
        self.example = fault.example
        """What would do; may be empty."""
        self.readings = fault.readings
        """What may have been meant, where two things may be."""

    def __str__(self) -> str:
        return with_example(self.sentence, self.example)


def put(project: Project, key: str, value: object) -> Project:
    """`project` with `value` at the dotted `key`, as in the file: text, true or false, a list, a table, a moment.

    None takes it out; "" in a list is a reading not taken. Raises Unfit for an unknown key or a value that is not fit.
    """
    return put_many(project, {key: value})


def put_many(project: Project, values: Mapping[str, object]) -> Project:
    """All of `values` put in at once, in order; raises Unfit for the first that is not fit, and then nothing is."""
    paths = {split(key): value for key, value in values.items()}
    for path in paths:
        if kind_at(Project, path) is None:
            raise Unfit(unknown_key(Project, path))
    new = project
    try:
        for path, value in paths.items():
            new = put_at(new, path, value)
    except DecodeError as error:
        raise Unfit(error.faults[0]) from None
    # What a file may hold since an earlier version took it cannot be put in anew; it may only move within a list.
    for path in paths:
        for place, each in not_taken_at(new, path):
            if all(each != other for _, other in not_taken_at(project)):
                why = why_not_taken(Project, place, each.text, metric=new.is_metric)
                raise Unfit(misread_at(place, each.text, why))
    return new


def template_of(project: Project) -> Project:
    """The part of a project that is reused in the next one: no survey, work, kept findings or owned cloth."""
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
