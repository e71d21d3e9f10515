"""The project file as a value: what the maker says and did. Frozen; every key may be missing.

A change gives a new draft, checked throughout; undo is a list of drafts.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Annotated, Any, ClassVar, Final, Literal

from wizard.project.changing import changed
from wizard.project.draft_bed import SurveyTable
from wizard.project.draft_cloth import ClothsTable
from wizard.project.draft_rules import AllowancesTable, FullnessTable
from wizard.project.faults import Fault, fault_of, misread_at, unknown_key, with_example
from wizard.project.keys import Path, is_item, is_known, split
from wizard.project.notes import AtMost, Reads
from wizard.project.plain import plain, put_in, put_item
from wizard.project.straight import Crooked
from wizard.project.tables import (
    MOST_LENGTHS,
    Currency,
    FigureId,
    FindingId,
    Flag,
    Marks,
    Moment,
    Name,
    Note,
    StepId,
    Table,
    Whole,
)
from wizard.project.typed import Misread
from wizard.project.typed.fields import RulerField, ToldField
from wizard.project.unusable import unusable_at, why_unusable
from wizard.trade import job
from wizard.trade.formatting import is_metric

FORMAT: Final = 1
"""The format this railskirt writes, and the highest it reads."""


def _this_format(value: object) -> Literal[1]:
    if isinstance(value, bool) or not isinstance(value, int) or value != FORMAT:
        raise Misread(f"The format written here is {FORMAT}.", str(FORMAT))
    return FORMAT


class ProgressTable(Table, frozen=True):
    """Where the work stopped: `progress`."""

    at: Note | None = None
    """Key of the question in hand, or `work.STEP`."""
    usual_allowances: Flag | None = None
    """false asks for each allowance in turn; otherwise they are only reached by their keys."""
    rails_alike: Flag | None = None
    """false asks for each section's own rail."""
    turned_posts: Flag | None = None
    """true asks which posts are turned or tapered."""
    written: Marks | None = None
    """Short marks of every part as it was saved last; after an edit by hand some are others, and are made anew."""


class DoneTable(Table, frozen=True):
    """What was done of one step: `work.STEP`."""

    done: Moment | None = None
    """When it was ticked, universal time."""
    note: Note | None = None
    """What the maker wants to remember."""
    minutes: Whole | None = None
    """How long it took."""
    told: Note | None = None
    """A short mark of what the step told when it was ticked: another one now means that the plan has changed."""
    lengths: Annotated[Mapping[FigureId, ToldField], AtMost(MOST_LENGTHS)] = {}
    """The lengths it named then, each under the id of its figure: what is different now can be told."""


class Draft(Table, frozen=True):
    """A bed skirt project. Lengths are text with their unit, like "12 1/2 in" or "29.2 cm"."""

    builds: ClassVar[Callable[..., Any] | None] = job.Job

    format: Annotated[Literal[1], Reads(_this_format, {"type": "integer", "const": FORMAT})] = 1
    """Format of this file."""
    name: Name | None = None
    """What the project is called."""
    show: job.Unit | None = None
    """The unit lengths are shown in, and taken in where none is typed."""
    ruler: RulerField | None = None
    """The finest mark one goes by."""
    standard: job.Standard | None = None
    """Which usual allowances stand in for what is not said."""
    currency: Currency | None = None
    """Put before sums of money."""
    began_from: Name | None = None
    """The template this project was begun from; its values were copied in."""
    began_mark: Name | None = None
    """A short mark of that template as it was then: another one now means that it has changed."""
    template: Flag | None = None
    """true in a template: it has no survey and no work, and projects are begun from it."""
    survey: SurveyTable = SurveyTable()
    """The bed."""
    allowances: AllowancesTable = AllowancesTable()
    """What the cuts allow for."""
    cloth: ClothsTable = ClothsTable()
    """All that is bought."""
    fullness: FullnessTable = FullnessTable()
    """How full, and how the widths are joined."""
    progress: ProgressTable = ProgressTable()
    """Where the work stopped."""
    kept: Mapping[FindingId, Note] = {}
    """Findings looked at and kept, with the values they were kept for."""
    work: Mapping[StepId, DoneTable] = {}
    """What was done of the work, step by step."""

    @property
    def is_metric(self) -> bool:
        """True for a job in metric units, as far as is said."""
        return is_metric(self.show, self.standard)


FILE_ONLY: Final = frozenset({"format", "began_from", "began_mark", "template", "progress", "work"})
"""Keys of the file the arithmetic is not told of."""


class Unfit(ValueError):  # noqa: N818  (the word of this house for a value that cannot be put in)
    """An answer that cannot be put in. `str()` gives the sentence with its example."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.key, fault.sentence, fault.example)
        self.key = fault.key
        """Dotted key it was meant for."""
        self.sentence = fault.sentence
        """What was found and what is wanted."""
        self.example = fault.example
        """What would do; may be empty."""
        self.readings = fault.readings
        """What may have been meant, where two things may be."""

    def __str__(self) -> str:
        return with_example(self.sentence, self.example)


def put(draft: Draft, key: str, value: object) -> Draft:
    """`draft` with `value` at the dotted `key`, as in the file: text, true or false, a list, a table, a moment.

    None takes it out; "" in a list is a reading not taken. Raises Unfit for an unknown key or a value that is not fit.
    """
    return put_many(draft, {key: value})


def put_many(draft: Draft, values: Mapping[str, object]) -> Draft:
    """All of `values` put in at once, in order; raises Unfit for the first that is not fit, and then nothing is."""
    paths = {split(key): value for key, value in values.items()}
    for path in paths:
        if not is_known(Draft, path):
            raise Unfit(unknown_key(Draft, path))
    try:
        new = changed(draft, paths)
    except Crooked as crooked:
        if crooked.misread and len(paths) == 1:
            raise Unfit(misread_at(crooked.path, crooked.value, crooked.misread)) from None
        new = _checked_throughout(draft, paths)
    _refuse_unusable(draft, new, paths)
    return new


def _refuse_unusable(draft: Draft, new: Draft, paths: Iterable[Path]) -> None:
    """What a file may hold since an earlier version took it cannot be put in anew; it may only move within a list."""
    for path in paths:
        for place, each in unusable_at(new, path):
            if all(each != other for _, other in unusable_at(draft)):
                why = why_unusable(Draft, place, each.text, metric=new.is_metric)
                raise Unfit(misread_at(place, each.text, why))


def _checked_throughout(draft: Draft, paths: Mapping[Path, object]) -> Draft:
    """The same, every table checked anew: that tells which of several faults comes first."""
    # Only here: what it needs would take a sixth of every start, and hardly any answer comes to this.
    from pydantic import ValidationError

    from wizard.project.checking import checked

    table = plain(draft)
    for path, value in paths.items():
        (put_item if is_item(Draft, path) else put_in)(table, path, value)
    try:
        return checked(Draft, table)
    except ValidationError as error:
        raise Unfit(fault_of(error.errors(include_url=False)[0], Draft)) from None
