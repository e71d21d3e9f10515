"""Lengths in a unit that is foreign to the job, where the same figures would do in its own: read again, or kept.

Bounds: common practice. They lie close, so that what is usually typed in the other system (a cloth 54 in wide in a
metric job) is not asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.trade.figures import value_at
from wizard.trade.findings import Finding
from wizard.trade.keynames import first_up, in_words
from wizard.trade.lengths import Length
from wizard.trade.printing import exact
from wizard.trade.saying import Sayer

LIKELY: Final[tuple[tuple[re.Pattern[str], Length, Length], ...]] = (
    (re.compile(r"survey\.section\.[^.]+\.run\.\d+"), Length(20), Length(110)),
    (re.compile(r"survey\.section\.[^.]+\.drop\.\d+"), Length(4), Length(30)),
    (re.compile(r"survey\.(section\.[^.]+\.)?rail_thickness"), Length(Fraction(1, 2)), Length(3)),
    (re.compile(r"survey\.post\.[^.]+\.along_(side|end)"), Length(Fraction(3, 2)), Length(8)),
    (re.compile(r"cloth\.[^.]+\.repeat"), Length(1), Length(40)),
    (re.compile(r"cloth\.(face|interlining|lining)\.(owned\.[^.]+\.)?width"), Length(30), Length(130)),
)
"""Keys, and from what to what their lengths nearly always are."""
UNIT_WORDS: Final = {
    "in": "inches", "ft": "feet", "yd": "yards", "mm": "millimetres", "cm": "centimetres", "m": "metres",
}  # fmt: skip


def unit_findings(say: Sayer) -> Iterator[Finding]:
    """One for each length whose unit may be the slip."""
    job, unit = say.ledger.job, say.ruler.unit
    for key, foreign in job.foreign.items():
        value, would = value_at(job, key), foreign.would
        if not isinstance(value, Length) or not _is_likely(key, would):
            continue
        yield say.finding(
            f"unit:{key}", "ask", key,
            f"{first_up(in_words(key, job))}: {foreign.text}, though this job is in {UNIT_WORDS[unit]}.",
            f"If {exact(would, unit)} was meant, type that; if {foreign.text} is right, keep it.", value, would,
        )  # fmt: skip


def _is_likely(key: str, length: Length) -> bool:
    return any(keys.fullmatch(key) and least <= length <= most for keys, least, most in LIKELY)
