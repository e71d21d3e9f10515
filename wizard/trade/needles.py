"""Needles and stitch lengths by cloth.

A needle's metric number Nm is its blade in hundredths of a millimetre, paired with an older number (a needle maker's
table). Which needle suits which cloth, and the stitch lengths, are common practice.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final, Literal

from wizard.trade.figures import Figure, Ledger, Rule, merged, value_at
from wizard.trade.job import ClothKind, LayerId
from wizard.trade.keynames import layer_in_words
from wizard.trade.printing import number

PAIRS: Final[Mapping[int, int]] = {60: 8, 70: 10, 75: 11, 80: 12, 90: 14, 100: 16, 110: 18, 120: 19}
"""Nm -> the older number printed beside it."""

BY_KIND: Final[Mapping[str, int]] = {
    "fine silk": 70,
    "lawn": 70,
    "plain cotton": 80,
    "linen": 90,
    "flannel": 90,
    "velvet or other heavy cloth": 100,
}
"""Nm by kind of cloth; `other` goes by its weight."""
BY_WEIGHT: Final[Mapping[str, int]] = {"sheer": 60, "light": 70, "medium": 80, "heavy": 100}

Stitch = Literal["join", "gathering", "tape"]
STITCHES: Final[Mapping[Stitch, Fraction]] = {"join": Fraction(5, 2), "gathering": Fraction(4), "tape": Fraction(3)}
"""Stitch length in mm: for joins, hems and stay-stitching; for gathering (or the longest there is); through tape."""

NEEDLE = Rule(
    "needle",
    "{cloth}",
    "Fine silk and lawn take 60 to 70, medium cloth 80, flannel and linen 90, heavy cloth 100 (blade in 1/100 mm).",
)
THROUGH_ALL = Rule(
    "needle through the layers",
    "the greatest of {needles}",
    "Through several layers the needle of the stoutest one goes.",
)


def needle_of(ledger: Ledger, layer: LayerId) -> Figure[int]:
    """The needle (Nm) for one layer, `needle.LAYER`: by its kind, else by its weight."""
    kind: ClothKind | None = value_at(ledger.job, f"cloth.{layer}.kind")
    by_weight = kind == "other" or (kind is None and value_at(ledger.job, f"cloth.{layer}.weight") is not None)
    cloth = ledger.read(f"cloth.{layer}.{'weight' if by_weight else 'kind'}")
    title = f"needle for the {layer_in_words(layer)}"
    return ledger.work(f"needle.{layer}", title, NEEDLE, _needle, cloth=cloth)


def _needle(cloth: str) -> int:
    return BY_KIND[cloth] if cloth in BY_KIND else BY_WEIGHT[cloth]


def needle_through(ledger: Ledger, layers: Sequence[LayerId]) -> Figure[int]:
    """The needle (Nm) that goes through all `layers` at once, `needle.all`."""
    each = {layer: needle_of(ledger, layer) for layer in layers}
    known = [figure.value for figure in each.values() if figure.value is not None]
    needs = merged(figure.needs for figure in each.values())
    value = max(known) if known and not needs else None
    rule = Rule(THROUGH_ALL.id, "the greatest of " + ", ".join(f"{{{layer}}}" for layer in each), THROUGH_ALL.says)
    return ledger.keep(Figure("needle.all", "needle through all layers", value, needs, rule, tuple(each.items())))


def size(nm: int) -> str:
    """A needle's size as printed on its packet: `70/10`. `nm` is a key of PAIRS."""
    return f"{nm}/{PAIRS[nm]}"


def stitches_an_inch(length_mm: Fraction) -> Fraction:
    """Stitches an inch at a stitch length in mm, exactly: 25.4 ÷ length."""
    return Fraction(254, 10) / length_mm


def stitch_in_words(stitch: Stitch) -> str:
    """`stitch length 2.5 mm, about 10 an inch`."""
    length = STITCHES[stitch]
    return f"stitch length {number(length)} mm, about {round(stitches_an_inch(length))} an inch"
