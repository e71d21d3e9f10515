"""Which cautions a job calls for, at which kind of step, in which words; and how the finished skirt is cleaned.

Cautions are common practice and the advice of public safety bodies. When in doubt a caution is given: a tool that says
less would be unsafe. They inform; none claims that a skirt meets a rule. The care label is the strictest of the layers:
its five processes and their steps are those of ISO 3758; which step a kind of cloth bears is common practice, on the
strict side."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Final, Literal, get_args

from msgspec import Struct

from wizard.trade.field_names import layer_in_words
from wizard.trade.formatting import in_own_units, is_metric, text_beside, wordings_in
from wizard.trade.job_fields import Cloth, Job
from wizard.trade.plan_records import Caution
from wizard.trade.sections import sections_on
from wizard.trade.stock import cloths_used

CAUTIONS: Final = wordings_in(text_beside(__file__, "cautions.txt"))
"""Id -> one caution as it is read out before the step, with a few words that bring the whole of it to mind, and the
answers that call for it."""


def _may_pool(job: Job) -> bool:
    """A hem that touches the floor, or whose gap is not known yet; one that follows an uneven floor as well."""
    gaps = [(section, section.floor_gap, job.survey.floor_gap) for _, section in sections_on(job)]
    return any(
        not (whole if own is None else own) or section.hem_line == "follow the floor" for section, own, whole in gaps
    )


_WHEN: Final[Mapping[str, Callable[[Job], bool]]] = {
    "antique": lambda job: (
        "antique" in (job.survey.watch or ())
        or "heirloom" in [job.survey.rail, *(section.rail for _, section in sections_on(job))]
    ),
    "pooling": _may_pool,
    "layers-together": lambda job: len(cloths_used(job)) > 1,
    "not-washed": lambda job: any(each.wash in (None, "not washed") for each in cloths_used(job).values()),
}
"""Cautions that depend on more than one answer. Those that name no answer are always called for."""


_ANSWERS: Final = {
    id: (what, frozenset(names.split(", ")))
    for id, each in CAUTIONS.items()
    for what, _, names in [each.more.partition(": ")]
}
"""Id -> which answer calls for the caution, if it is one, and what that has to be."""


def called_for(caution: str, job: Job, run: str | None = None) -> bool:
    """True when the job calls for the caution with this id; `run`: id of the one section it is asked about."""
    what, names = _ANSWERS[caution]
    if what == "fixing":
        return job.cloth.fixing.kind in names
    if what == "watch":
        return not names.isdisjoint(job.survey.watch or ())
    if what == "thing":
        runs = (section for section_id, section in sections_on(job) if run in (None, section_id))
        return any(thing.kind in names for section in runs for thing in section.in_the_way.values())
    return caution not in _WHEN or _WHEN[caution](job)


def called(cautions: Iterable[str], job: Job, run: str | None = None) -> tuple[Caution, ...]:
    """Those of some cautions, by id, that the job calls for, in their order; `run`: id of the one section they are
    asked about."""
    metric = is_metric(job.show, job.standard)
    ids = (each for each in cautions if called_for(each, job, run))
    return tuple(Caution(each, in_own_units(CAUTIONS[each].sentence, metric=metric)) for each in ids)


Process = Literal["wash", "bleach", "dry", "iron", "professional"]
SOURCE: Final = "The words follow the symbols of ISO 3758; what each cloth withstands is common practice"

_STEPS: Final = wordings_in(text_beside(__file__, "care.txt"))
MEANINGS: Final = {process: tuple(_STEPS[process].sentence.split(" | ")) for process in get_args(Process)}
"""Process -> its steps in words, the strictest first."""

UNKNOWN: Final[Mapping[Process, int]] = {"wash": 0, "bleach": 0, "dry": 0, "iron": 1, "professional": 0}
"""What a cloth bears of which nothing is known."""
BEARS: Final[Mapping[str, Mapping[Process, int]]] = {
    "fine silk": {"wash": 1, "bleach": 0, "dry": 0, "iron": 1, "professional": 1},
    "lawn": {"wash": 4, "bleach": 0, "dry": 0, "iron": 2, "professional": 2},
    "plain cotton": {"wash": 5, "bleach": 0, "dry": 1, "iron": 3, "professional": 2},
    "linen": {"wash": 5, "bleach": 0, "dry": 0, "iron": 3, "professional": 2},
    "flannel": {"wash": 3, "bleach": 0, "dry": 0, "iron": 2, "professional": 2},
    "velvet or other heavy cloth": {"wash": 0, "bleach": 0, "dry": 0, "iron": 0, "professional": 1},
}
"""Kind of cloth, washed before it was cut -> the step it bears in each process. Common practice."""


class CareLine(Struct, frozen=True):
    """One process: what the label says, and which layers say so."""

    process: Process
    says: str
    because: tuple[str, ...]
    """The layers in words, each with its reason."""


def care_of(job: Job) -> Iterator[CareLine]:
    """The label, process by process in the order of the standard; total, however little is known."""
    layers = cloths_used(job)
    for process, steps in MEANINGS.items():
        strictest = min(bears(process, cloth) for cloth in layers.values())
        strict = [(layer, cloth) for layer, cloth in layers.items() if bears(process, cloth) == strictest]
        because = tuple(f"{layer_in_words(layer)}: {_reason(process, cloth)}" for layer, cloth in strict)
        yield CareLine(process, steps[strictest], because)


def bears(process: Process, cloth: Cloth) -> int:
    """The step of the process that a cloth bears. One not washed before it was cut is not washed after: it shrinks."""
    return 0 if _may_shrink(process, cloth) else BEARS.get(cloth.kind or "", UNKNOWN)[process]


def _may_shrink(process: Process, cloth: Cloth) -> bool:
    return process in ("wash", "dry") and cloth.wash not in ("washed first", "already washed")


def _reason(process: Process, cloth: Cloth) -> str:
    if process == "bleach":
        return "no bleach unless the cloth's own label allows it"
    if _may_shrink(process, cloth):
        return "not washed before it is cut, so nothing is allowed for shrinking"
    return cloth.kind if cloth.kind in BEARS and cloth.kind is not None else "what it is made of is not known"
