"""The guide to fullness by cloth and layers: what is offered, what a finding holds a fullness against, and its words.

Common practice, no source. A guide, never a wall.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from wizard.trade.job import Job, Weight
from wizard.trade.printing import number

Range = tuple[Fraction, Fraction]
"""Least and greatest usual fullness."""

BY_WEIGHT: Final[dict[Weight, Range]] = {
    "heavy": (Fraction(2), Fraction(2)),
    "medium": (Fraction(2), Fraction(5, 2)),
    "light": (Fraction(5, 2), Fraction(3)),
    "sheer": (Fraction(3), Fraction(3)),
}
"""By the weight of the face cloth."""
THICK: Final[tuple[Weight, ...]] = ("medium", "heavy")
LAYERED: Final[Range] = (Fraction(2), Fraction(2))
"""Interlined or lined, and any of the layers thick: whatever the face alone would take."""
MEAN: Final = Fraction(3, 2)
"""Below this a gathered skirt looks mean."""
MOST: Final = Fraction(3)
"""Above this, what is called lavish, cloth hardly gathers."""
MIDDLING: Final = Fraction(5, 2)
"""What most skirts take; the offer is as near to it as the guide allows."""


def guide_for(weight: Weight, inner: tuple[Weight | None, ...]) -> Range:
    """For a face of a weight with inner layers of theirs."""
    thick = any(each in THICK for each in (weight, *inner))
    return LAYERED if inner and thick else BY_WEIGHT[weight]


def inner_weights(job: Job) -> tuple[Weight | None, ...]:
    """The weights of the inner layers in use, None where one is not known."""
    return tuple(each.weight for each in (job.cloth.interlining, job.cloth.lining) if each.use)


def guide_of(job: Job) -> Range:
    """For this job's cloth and layers; a face whose weight is not known counts as medium."""
    return guide_for(job.cloth.face.weight or "medium", inner_weights(job))


def offered(job: Job) -> Fraction:
    """What is offered: as near to 2.5 as the guide allows; where cloth is owned, as full as it allows."""
    least, most = guide_of(job)
    return most if job.cloth.face.owned else min(max(MIDDLING, least), most)


def range_words(guide: Range) -> str:
    """`2`, `2.5 to 3`."""
    least, most = guide
    return number(least) if least == most else f"{number(least)} to {number(most)}"


def guide_words(job: Job) -> str:
    """The whole guide, and what it says of this job's cloth and layers."""
    weights = ", ".join(f"{weight} {range_words(each)}" for weight, each in BY_WEIGHT.items())
    weight, layers = job.cloth.face.weight, " with these inner layers" if inner_weights(job) else ""
    here = f" This {weight} cloth{layers}: {range_words(guide_of(job))}." if weight else ""
    return (
        f"How much wider the cloth is, laid flat, than the run. Usual by weight: {weights}; {range_words(LAYERED)} "
        f"with thick inner layers.{here} Below {number(MEAN)} it looks mean, above {number(MOST)} it hardly gathers."
    )
