"""Every kind of value that is typed, with its limits. They are so wide that no bed, cloth or curtain is refused; what
is only surprising is asked about by the findings. A length in a file must name its unit."""

from __future__ import annotations

from typing import Final

from wizard.trade.fields import Limits, Scale, length

RULER: Final = length("a ruler mark", ("1/128 in", "4 in", "1/16 in"), ("0.1 mm", "10 cm", "1 mm"))
RUN: Final = length("a run", ("1/2 in", "200 ft", "76 5/8 in"), ("1 cm", "60 m", "194.5 cm"))
DROP: Final = length("a drop", ("1/4 in", "400 in", "12 1/4 in"), ("5 mm", "10 m", "31 cm"))
ALONG: Final = length("a place along a run", ("0 in", "200 ft", "38 in"), ("0 cm", "60 m", "97 cm"), "")
RAIL: Final = length("a rail", ("1/64 in", "40 in", "1 1/8 in"), ("0.3 mm", "1 m", "28 mm"))
"""How thick a rail is."""
GAP: Final = length("a gap under the hem", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "5 mm"), "")
HEIGHT: Final = length("a height", ("0 in", "400 in", "2 in"), ("0 cm", "10 m", "5 cm"), "")
THING_HEIGHT: Final = length("a height", ("0 in", "400 in", "8 in"), ("0 cm", "10 m", "20 cm"), "")
THING: Final = length("a thing in the way", ("1/16 in", "200 ft", "3 in"), ("1 mm", "60 m", "8 cm"))
OVERLAP: Final = length("an overlap", ("0 in", "200 in", "2 in"), ("0 cm", "5 m", "5 cm"), "")
RETURN: Final = length("a return", ("1/16 in", "200 in", "1 1/2 in"), ("1 mm", "5 m", "4 cm"))
SHORT: Final = length("a gap beside a post", ("1/16 in", "200 in", "11 in"), ("1 mm", "5 m", "28 cm"))
POST: Final = length("a post", ("1/16 in", "200 in", "2 1/2 in"), ("1 mm", "5 m", "6.5 cm"))
AT_POST: Final = length("a measure at a post", ("0 in", "200 in", "1/2 in"), ("0 cm", "5 m", "1 cm"), "")
WIDTH: Final = length("a cloth width", ("1 in", "400 in", "54 in"), ("2 cm", "10 m", "140 cm"))
REPEAT: Final = length(
    "a pattern repeat", ("1/8 in", "200 in", "25 1/4 in"), ("3 mm", "5 m", "64 cm"), "in for no pattern"
)
OWNED: Final = length("a length of cloth", ("1/2 in", "1100 yd", "3 yd"), ("1 cm", "1000 m", "2.7 m"))
DAMAGE_FROM: Final = length("a place on the cloth", ("0 in", "1100 yd", "1 yd"), ("0 cm", "1000 m", "90 cm"), "")
DAMAGE_TO: Final = length("a place on the cloth", ("0 in", "1100 yd", "1 yd"), ("0 cm", "1000 m", "90 cm"))
SHOP_STEP: Final = length("what a shop cuts in", ("1/16 in", "1100 yd", "1/8 yd"), ("1 mm", "1000 m", "10 cm"))
LAP: Final = length("a lap", ("1/64 in", "40 in", "1/2 in"), ("0.3 mm", "1 m", "1 cm"))
ALLOWANCE: Final = length("an allowance", ("0 in", "40 in", "1/2 in"), ("0 cm", "1 m", "1.5 cm"), "")
TOLERANCE: Final = length("a tolerance", ("0 in", "40 in", "1/4 in"), ("0 cm", "1 m", "6 mm"), "")
PIECE: Final = length("a least piece", ("0 in", "400 in", "6 in"), ("0 cm", "10 m", "15 cm"), "")
TAPE: Final = length("a tape", ("1/8 in", "40 in", "2 in"), ("3 mm", "1 m", "5 cm"))
SPOOL: Final = length("a spool", ("1 yd", "100000 yd", "100 yd"), ("1 m", "100000 m", "100 m"))
SPACING: Final = length("a spacing", ("1/8 in", "400 in", "2 in"), ("3 mm", "10 m", "5 cm"))
LEG: Final = length("a staple leg", ("1/32 in", "10 in", "3/8 in"), ("1 mm", "25 cm", "10 mm"))

_NARROWER: Final = "is under 1: the skirt would be narrower than its rail."
FULLNESS: Final = Limits("a fullness", "fullness", (Scale("1", "20", "2.5"),), too_little=_NARROWER)
THREAD: Final = Limits("thread over seam", "number", (Scale("1/4", "100", "2 1/2"),))
SHRINKAGE: Final = Limits("a shrinkage", "percent", (Scale("0 %", "75 %", "3 %"),))
WASTE: Final = Limits("waste", "percent", (Scale("0 %", "95 %", "15 %"),))
PRICE: Final = Limits("a price", "money", (Scale("0", "1000000", "18.50"),))
