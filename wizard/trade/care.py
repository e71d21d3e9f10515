"""How a finished skirt may be cleaned: the strictest of its layers, by the meanings of the care symbols, in words.

The five processes and their steps are those of ISO 3758. Which step a kind of cloth bears is common practice, and
always on the strict side: a cloth maker's own label comes first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from msgspec import Struct

from wizard.trade.job import LAYERS, Cloth, Job, LayerId
from wizard.trade.keynames import layer_in_words

Process = Literal["wash", "bleach", "dry", "iron", "professional"]
SOURCE: Final = "The words mean what the symbols of ISO 3758 mean; which cloth bears what is common practice"

MEANINGS: Final[Mapping[Process, tuple[str, ...]]] = {
    "wash": (
        "Do not wash.",
        "Wash by hand, 40 °C at most.",
        "Wash at 30 °C at most, very mild process.",
        "Wash at 30 °C at most, mild process.",
        "Wash at 40 °C at most, mild process.",
        "Wash at 40 °C at most.",
    ),
    "bleach": ("Do not bleach.",),
    "dry": ("Do not tumble dry; dry on a line.", "Tumble dry at a low temperature, 60 °C at most."),
    "iron": (
        "Do not iron.",
        "Iron at 110 °C at most, without steam.",
        "Iron at 150 °C at most.",
        "Iron at 200 °C at most.",
    ),
    "professional": (
        "Do not dry clean before the cloth's own label is read.",
        "Professional dry cleaning, mild process.",
        "Professional dry cleaning, normal process.",
    ),
}
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


class Line(Struct, frozen=True):
    """One process: what the label says, and which layers say so."""

    process: Process
    says: str
    because: tuple[str, ...]
    """The layers in words, each with its reason."""


def care_of(job: Job) -> tuple[Line, ...]:
    """The label, process by process in the order of the standard; total, however little is known."""
    layers = [each for each in LAYERS if each == "face" or getattr(job.cloth, each).use]
    return tuple(_line(process, layers, job) for process in MEANINGS)


def _line(process: Process, layers: Sequence[LayerId], job: Job) -> Line:
    steps = {layer: bears(process, getattr(job.cloth, layer)) for layer in layers}
    strictest = min(steps.values())
    because = tuple(
        f"{layer_in_words(layer)}: {_reason(process, getattr(job.cloth, layer))}"
        for layer, step in steps.items()
        if step == strictest
    )
    return Line(process, MEANINGS[process][strictest], because)


def bears(process: Process, cloth: Cloth) -> int:
    """The step of the process that a cloth bears. One not washed before it was cut is not washed after: it shrinks."""
    step = BEARS.get(cloth.kind or "", UNKNOWN)[process]
    return min(step, 0) if process in ("wash", "dry") and not _may_be_washed(cloth) else step


def _may_be_washed(cloth: Cloth) -> bool:
    return cloth.wash in ("washed first", "already washed")


def _reason(process: Process, cloth: Cloth) -> str:
    if process == "bleach":
        return "no bleach on any cloth whose own label does not allow it"
    if process in ("wash", "dry") and not _may_be_washed(cloth):
        return "not washed before it is cut, so nothing is allowed for shrinking"
    return cloth.kind if cloth.kind in BEARS and cloth.kind is not None else "what it is made of is not said"
