"""Which cautions a job calls for, and which of them each kind of step does.

Common practice and the advice of public safety bodies. When in doubt a caution is given: a tool that says less
would be unsafe.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, Literal

from wizard.trade.bed import ObstacleKind, Section, Watch
from wizard.trade.caution_words import CAUTIONS
from wizard.trade.corners import sections_on
from wizard.trade.job import LAYERS, Cloth, FixingKind, Job
from wizard.trade.lengths import Length
from wizard.trade.plan import Caution

StepKind = Literal[
    "buy", "wash", "look-over", "square", "cut", "label", "join", "hem", "layers", "stay", "gather", "mark",
    "draw-up", "tape", "fold", "loop", "clear", "hang", "dress", "put-back", "care",
]  # fmt: skip
"""The kinds of step, in the order of doing; a step's id begins with its kind."""

_BY_FIXING: Final[Mapping[str, tuple[FixingKind, ...]]] = {
    "stapler": ("staples",),
    "stapler-jam": ("staples",),
    "stapler-trigger": ("staples",),
    "behind-rail": ("staples", "tacks", "upholstery pins"),
    "points": ("staples", "tacks"),
    "hammer": ("tacks",),
    "glue": ("glue",),
    "fumes": ("glue", "adhesive hook-and-loop"),
    "magnets": ("magnets",),
    "pins-in-rail": ("upholstery pins",),
}
_BY_WATCH: Final[Mapping[str, Watch]] = {
    "old-paint": "old paint",
    "candles": "candles or fire near",
    "adjustable": "adjustable",
    "heated": "heated",
    "public-room": "public room",
}
_BY_THING: Final[Mapping[str, ObstacleKind]] = {"heater-here": "heater", "vent-here": "vent", "socket-here": "socket"}


def _watches(job: Job, what: Watch) -> bool:
    return what in (job.survey.watch or ())


def _fixed_by(job: Job, kinds: tuple[FixingKind, ...]) -> bool:
    return job.cloth.fixing.kind in kinds


def _in_the_way(job: Job, kind: ObstacleKind, run: str | None) -> bool:
    """True when such a thing is on the run of that section; without one, on any that is made."""
    runs = [section for section_id, section in sections_on(job) if run in (None, section_id)]
    return any(thing.kind == kind for section in runs for thing in section.in_the_way.values())


def _layers(job: Job) -> list[Cloth]:
    return [each for each in (getattr(job.cloth, layer) for layer in LAYERS) if each is job.cloth.face or each.use]


def _antique(job: Job) -> bool:
    rails = [job.survey.rail, *(section.rail for _, section in sections_on(job))]
    return _watches(job, "antique") or "heirloom" in rails


def _may_pool(job: Job) -> bool:
    """A hem that is to touch the floor, or whose gap is not known yet; one that follows an uneven floor as well."""
    return any(not _gap(job, each) or each.hem_line == "follow the floor" for _, each in sections_on(job))


def _gap(job: Job, section: Section) -> Length | None:
    """The section's own gap, none at all included; else the whole bed's."""
    return job.survey.floor_gap if section.floor_gap is None else section.floor_gap


def _not_washed(job: Job) -> bool:
    return any(each.wash in (None, "not washed") for each in _layers(job))


_WHEN: Final[Mapping[str, Callable[[Job], bool]]] = {
    "antique": _antique,
    "pooling": _may_pool,
    "layers-together": lambda job: len(_layers(job)) > 1,
    "not-washed": _not_washed,
}
"""Cautions that hang on more than one answer. Those named nowhere here are always called for."""


def called_for(caution: str, job: Job, run: str | None = None) -> bool:
    """True when the job calls for the caution with this id; `run`: id of the one section it is asked about."""
    if caution in _BY_FIXING:
        return _fixed_by(job, _BY_FIXING[caution])
    if caution in _BY_WATCH:
        return _watches(job, _BY_WATCH[caution])
    if caution in _BY_THING:
        return _in_the_way(job, _BY_THING[caution], run)
    return caution not in _WHEN or _WHEN[caution](job)


def cautions_of(job: Job) -> tuple[Caution, ...]:
    """All that the job calls for, each once, in a fixed order."""
    return tuple(Caution(each, words) for each, words in CAUTIONS.items() if called_for(each, job))


BEFORE: Final[Mapping[StepKind, tuple[str, ...]]] = {
    "buy": ("public-room", "layers-together", "cot", "adjustable", "heated", "antique", "heater-here"),
    "wash": ("iron",),
    "look-over": ("not-washed",),
    "cut": ("rotary-cutter", "power-tools"),
    "label": ("count-pins",),
    "join": ("power-tools", "iron", "count-pins"),
    "hem": ("power-tools", "iron", "count-pins", "pooling"),
    "layers": ("count-pins",),
    "stay": ("power-tools", "count-pins"),
    "gather": ("power-tools",),
    "mark": ("iron", "count-pins"),
    "draw-up": ("count-pins",),
    "tape": ("power-tools", "count-pins"),
    "fold": ("power-tools", "iron", "count-pins"),
    "loop": ("power-tools",),
    "clear": ("two-people", "nobody-on-bed", "old-paint", "antique", "adjustable", "heated"),
    "hang": (
        "heater-here", "vent-here", "socket-here", "stapler", "stapler-jam", "stapler-trigger", "behind-rail",
        "points", "hammer", "glue", "fumes", "magnets", "pins-in-rail", "old-paint", "antique",
    ),
    "dress": ("iron", "heaters", "vents", "sockets", "candles", "pooling"),
    "put-back": ("two-people", "nobody-on-bed"),
    "care": ("local-rules", "cot", "not-washed"),
}  # fmt: skip
"""Ids of the cautions said before each kind of step, where the job calls for them."""


def cautions_for(kind: StepKind, job: Job, run: str | None = None) -> tuple[Caution, ...]:
    """Those a step of this kind calls for, in the order they are said; `run`: id of the section it is done to."""
    return tuple(Caution(each, CAUTIONS[each]) for each in BEFORE.get(kind, ()) if called_for(each, job, run))
