"""Nominal sizes of beds. Frames are not standardised, so a size only ever prompts a second reading."""

from __future__ import annotations

from typing import Final

from wizard.trade.bed import BedSize
from wizard.trade.lengths import Length


def _inches(width: int, length: int) -> tuple[Length, Length]:
    return Length(width), Length(length)


def _cm(width: int, length: int) -> tuple[Length, Length]:
    return Length.of(width, "cm"), Length.of(length, "cm")


NOMINAL: Final[dict[BedSize, tuple[Length, Length]]] = {
    "US twin": _inches(39, 75),
    "US long twin": _inches(39, 80),
    "US full": _inches(54, 75),
    "US queen": _inches(60, 80),
    "US king": _inches(78, 80),
    "US California king": _inches(72, 84),
    "UK 75": _cm(75, 190),
    "UK 90": _cm(90, 190),
    "UK 120": _cm(120, 190),
    "UK 135": _cm(135, 190),
    "UK 150": _cm(150, 200),
    "UK 180": _cm(180, 200),
    "EU 80": _cm(80, 200),
    "EU 90": _cm(90, 200),
    "EU 100": _cm(100, 200),
    "EU 140": _cm(140, 200),
    "EU 160": _cm(160, 200),
    "EU 170": _cm(170, 200),
    "EU 180": _cm(180, 200),
    "EU 200": _cm(200, 200),
}
"""(width, length) of each, as the trade gives them."""

FAR: Final = Length(6)
"""A run further from the nominal length than this is worth a second reading: posts and frames account for less."""
