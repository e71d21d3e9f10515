"""How lengths, numbers, money and fixed sentences are written, and the ruler a job is written for.

:func:`exact` writes the very value, so that reading it back gives the same length; :func:`shown` rounds to the ruler
mark, and puts ≈ in front when it had to round.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Final, Literal, NamedTuple, cast

from msgspec import Struct

from wizard.trade.job_fields import Job, usual_of
from wizard.trade.lengths import ZERO, Length, round_down, round_nearest, round_up

How = Literal["nearest", "up", "down", "given", "sum"]
"""How a length is rounded to the ruler mark: marks to the nearest, cuts and purchases up, usable and owned lengths
down. A length that nobody marks off, only adds up, stays exact where it takes few figures; else a `given` one is
rounded to the nearest, a `sum` up."""


def how_shown(figure_id: str) -> How:
    """How the length of a figure is rounded to the ruler mark: up for a cut or purchase, as its parts for the sum that
    the roll must give, to the nearest for all else."""
    kind, *names = figure_id.split(".")
    if figure_id == "allowances.squaring":
        return "given"
    if kind == "layer" and names[1:] == ["roll"]:
        return "sum"
    cut = kind == "layer" and names[1:2] and names[1] in ("used", "buy", "cut", "width")
    return "up" if cut or (kind == "part" and names[-1:] == ["tape"]) else "nearest"


ROUNDED: Final = "≈ "
"""Stands before a length that was rounded to be shown."""

DECIMALS: Final = 12
"""Most figures behind the point; a number that needs more is written as a mixed fraction, which is as exact."""
FEW_DECIMALS: Final = 4
"""Most figures behind the point that are read with ease."""

YARD_PARTS: Final = (1, 2, 3, 4, 8)
"""Parts of a yard a shop sells in; a length that is not a whole number of one is written in yards and inches."""

REMEMBERED: Final = 4096
"""Lengths whose text is remembered: steps, sheets and screens write the same ones over and over."""

METRIC: Final = ("mm", "cm", "dm", "m")
UNIT_WORDS: Final = {
    "in": "inches", "ft": "feet", "yd": "yards", "mm": "millimetres", "cm": "centimetres", "m": "metres",
}  # fmt: skip

PARTS: Final = (64, 100, 12)
"""What an inch is divided into on the tools people measure with: on rulers, in decimals, in thirds."""

_ROUNDINGS: Final[dict[How, Callable[[Length, Length], Length]]] = {"up": round_up, "down": round_down, "sum": round_up}
_FEW: Final = (Length.of(Fraction(1, 10), "mm"), Length(Fraction(1, 64)))
"""A length that is whole in these takes few figures, in a metric unit and in the others."""


class Ruler(Struct, frozen=True):
    """What this job measures with."""

    unit: str
    """The job's unit, one of the keys of UNITS."""
    mark: Length
    """The finest mark that is used, more than nothing."""


WHOLE_MM: Final = Ruler("mm", Length.of(1, "mm"))
"""What an inch job's lengths are shown to in the other system."""

SIXTEENTHS: Final = Ruler("in", Length(Fraction(1, 16)))
"""What a metric job's lengths are shown to in the other system."""


def exact(length: Length, unit: str) -> str:
    """`length` written in `unit` with nothing lost: `12 1/2 in`, `6 ft 8 1/2 in`, `4 1/3 yd`, `29.2 cm`, `29 1/3 cm`.

    Reading the text gives the same length again. A difference below zero carries a leading minus sign and can only be
    printed. KeyError for a unit that is not one of the keys of UNITS.
    """
    size = abs(length)
    sign = "-" if length < size else ""
    amount = size.in_unit(unit)
    if unit == "ft" or (unit == "yd" and amount.denominator not in YARD_PARTS):
        return sign + _in_two(size, unit)
    return f"{sign}{number(amount) if unit in METRIC else mixed(amount)} {unit}"


def _in_two(size: Length, unit: str) -> str:
    """Whole `unit` and the rest in inches, leaving out whichever is nothing."""
    whole = size.in_unit(unit).__floor__()
    rest = size - Length.of(whole, unit)
    if not rest:
        return f"{whole} {unit}"
    inches = f"{mixed(rest.inches)} in"
    return f"{whole} {unit} {inches}" if whole else inches


def shown(length: Length, ruler: Ruler, how: How = "nearest") -> str:
    """`length` at the ruler mark, in the job's unit, with ≈ in front when that rounded it.

    The nearest mark, ties to the even one (the rule of ASTM E29); `up` for cuts, `down` for what is there to use.
    """
    return _shown(length, ruler.unit, ruler.mark, how)


@lru_cache(maxsize=REMEMBERED)
def _shown(length: Length, unit: str, mark: Length, how: How) -> str:
    few = how in ("given", "sum") and round_down(length, _FEW[unit not in METRIC]) == length
    at_mark = length if few else rounded(length, mark, how)
    return ("" if at_mark == length else ROUNDED) + exact(at_mark, unit)


def rounded(length: Length, mark: Length, how: How = "nearest") -> Length:
    """`length` at the ruler mark, as :func:`shown` prints it unless it stays as it is."""
    return _ROUNDINGS.get(how, round_nearest)(length, mark)


def both(length: Length, ruler: Ruler) -> str:
    """`length` in both systems, the job's first: `12 1/2 in · ≈ 318 mm`, `29.2 cm · ≈ 11 1/2 in`.

    The other system is whole millimetres or sixteenths of an inch, with ≈ only when that rounded.
    """
    return f"{shown(length, ruler)} · {shown(length, SIXTEENTHS if ruler.unit in METRIC else WHOLE_MM)}"


def length_json(length: Length, ruler: Ruler, how: How = "nearest") -> dict[str, str]:
    """`length` for a machine and a person: `{"in": "25/2", "mm": "635/2", "text": "12 1/2 in"}`.

    `in` and `mm` are exact fractions in lowest terms; `text` is what :func:`shown` prints.
    """
    return {"in": str(length.inches), "mm": str(length.mm), "text": shown(length, ruler, how)}


def number(value: Fraction) -> str:
    """A plain number with nothing lost: `2.5`, or `2 1/3` where decimals do not end (or need more than DECIMALS)."""
    places = next((places for places in range(DECIMALS + 1) if 10**places % value.denominator == 0), None)
    if places is None:
        return mixed(value)
    return f"{Decimal(f'{value.numerator * 10**places // value.denominator}E-{places}'):f}"


def floored(value: Fraction) -> Fraction:
    """A number down to two decimals: cloth that allows a fullness of 3.487 does not allow one of 3.49."""
    return Fraction((value * 100).__floor__(), 100)


def two_decimals(value: Fraction) -> str:
    """A number down to at most two decimals, with ≈ in front when that rounded it."""
    return ("" if floored(value) == value else ROUNDED) + number(floored(value))


def readable(value: Fraction) -> str:
    """A number for people: as it is where few decimals are enough, else two of them with ≈: `2.5`, `≈ 2.25`."""
    return number(value) if 10**FEW_DECIMALS % value.denominator == 0 else two_decimals(value)


def mixed(value: Fraction) -> str:
    """A whole number and a proper fraction, leaving out whichever is nothing: `12 1/2`, `12`, `1/2`, `0`, `-1 1/4`."""
    whole, rest = divmod(abs(value.numerator), value.denominator)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest}/{value.denominator}")
    return ("-" if value < 0 else "") + " ".join(parts)


def is_short(length: Length, *, metric: bool) -> bool:
    """True for a length with a mark on a tape, or nearly: hundredths of a millimetre, or parts of an inch."""
    return 100 % length.mm.denominator == 0 if metric else any(each % length.inches.denominator == 0 for each in PARTS)


def readable_length(length: Length, unit: str) -> str:
    """A length for people: as it is where that is short, else to a hundredth of an inch or centimetre, with ≈."""
    metric = unit in METRIC
    if is_short(length, metric=metric):
        return exact(length, unit)
    small = unit if unit in ("in", "mm") else "cm" if metric else "in"
    hundredth = round_nearest(length, Length.of(Fraction(1, 100), small))
    return f"{'' if hundredth == length else ROUNDED}{number(hundredth.in_unit(small))} {small}"


def money(amount: Decimal) -> str:
    """A sum of money with nothing lost and at least two decimals: `18.50`, `0.125`."""
    whole, _, decimals = f"{amount:f}".partition(".")
    return f"{whole}.{decimals.rstrip('0').ljust(2, '0')}"


def counted(count: int, one: str) -> str:
    """`1 join`, `8 joins`."""
    return f"{count} {one}{'' if count == 1 else 's'}"


def listed(words: Sequence[str]) -> str:
    """`one`, `one and two`, `one, two and three`."""
    return " and ".join([*([", ".join(words[:-1])] if words[:-1] else []), words[-1]])


def is_metric(show: object, standard: object) -> bool:
    """True for a job that shows its lengths in metric units, else follows the metric standard; whatever a file says."""
    return show in METRIC if show else standard == "metric"


def ruler_of(job: Job) -> Ruler:
    """The job's unit and ruler mark, else the usual ones of its standard. A mark of nothing counts as not given."""
    standard = job.standard or "inches"
    unit = job.show or cast("str", usual_of("show", standard))
    usual = cast("Length", usual_of("ruler", standard))
    return Ruler(unit, job.ruler if job.ruler is not None and job.ruler > ZERO else usual)


_EITHER: Final = re.compile(r"\[([^|\]]*)\|([^\]]*)\]")


def in_own_units(text: str, *, metric: bool) -> str:
    """A text with a length that no figure holds, `[3 ft|1 m]`, as a job says it: `3 ft`, or `1 m` if it is metric."""
    return _EITHER.sub(r"\2" if metric else r"\1", text) if "[" in text else text


class Wording(NamedTuple):
    """One text of a file of sentences: a few words beside it, what it says, and what more there is to it."""

    note: str
    sentence: str
    more: str
    """Of a finding the way out, of a caution the answers that call for it."""


def text_beside(module: str, name: str) -> str:
    """The text of a file beside a module, which is given by its `__file__`."""
    with open(re.sub(r"[^/\\]+$", name, module), encoding="utf-8") as file:
        return file.read()


def wordings_in(text: str) -> Mapping[str, Wording]:
    """Every wording in a text, by its id and in order: `ID (NOTE) = sentence > more`.

    Lines of one text are joined by a space. `ID/VARIANT` is another wording of `ID`, and takes from it what it leaves
    out.
    """
    wordings: dict[str, Wording] = {}
    for entry in re.split(r"^(?=\S)", text, flags=re.MULTILINE)[1:]:
        heading, _, said = " ".join(entry.split()).partition(" =")
        id, _, note = heading.partition(" (")
        sentence, _, more = said.strip().partition("> ")
        base = wordings.get(id.partition("/")[0], Wording(note.rstrip(")"), "", ""))
        wordings[id] = Wording(base.note, sentence.rstrip() or base.sentence, more or base.more)
    return wordings
