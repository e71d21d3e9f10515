"""Why a figure is what it is: its formula, the values put in, the rule and where the rule is from."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import Any, Final

from msgspec import Struct

from wizard.trade.figures import Figure
from wizard.trade.formatting import (
    METRIC,
    Ruler,
    exact,
    how_shown,
    in_own_units,
    money,
    number,
    readable,
    readable_length,
    shown,
    text_beside,
    wordings_in,
)
from wizard.trade.lengths import Length

NOT_YET = "not known yet"
REASONS: Final = wordings_in(text_beside(__file__, "reasons.txt"))
"""What each rule says, by its id."""


class Explanation(Struct, frozen=True):
    """The answer to *why?*, in text."""

    title: str
    formula: str
    """The rule with the names of what goes in: `drop reading + drop line above the rail − gap under the hem`."""
    values: str
    """The same with the values put in: `11 1/2 in + 0 in − 1/2 in`."""
    result: str
    says: str
    """The rule in a sentence."""
    source: str


def explained(figure: Figure[Any], ruler: Ruler) -> Explanation:
    """Why one figure is what it is, in the job's unit. A figure that is not known yet names what it waits for."""
    names = {"value": figure.title, **_apart({name: part.title for name, part in figure.inputs})}
    values = {"value": figure.value, **{name: part.value for name, part in figure.inputs}}
    formula, says = (
        in_own_units(each, metric=ruler.unit in METRIC)
        for each in (figure.rule.formula, figure.rule.says or REASONS[figure.rule.id].sentence)
    )
    return Explanation(
        title=figure.title,
        formula=_filled(formula, names),
        values=_filled(formula, {name: spoken(value, ruler) for name, value in values.items()}),
        result=_result(figure, ruler),
        says=says,
        source=figure.rule.source,
    )


def _filled(formula: str, words: dict[str, str]) -> str:
    """The formula with every name replaced. Names may be anything; what is put in is never a pattern."""
    return re.sub(r"\{([^{}]*)\}", lambda found: words.get(found[1], found[1]), formula)


def _apart(titles: dict[str, str]) -> dict[str, str]:
    """Titles by name, without the place before the colon; where two would read alike, each says its place or name."""
    short = {name: title.rpartition(": ")[2] for name, title in titles.items()}
    return {name: _told_apart(name, titles[name], short) for name in titles}


def _told_apart(name: str, title: str, short: dict[str, str]) -> str:
    if list(short.values()).count(short[name]) == 1:
        return short[name]
    return title if title != short[name] else f"{title} ({name.replace('_', ' ')})"


def _result(figure: Figure[Any], ruler: Ruler) -> str:
    if figure.value is None and figure.needs:
        return f"{NOT_YET}: needs " + "; ".join(need.words for need in figure.needs)
    if isinstance(figure.value, Length):
        return shown(figure.value, ruler, how_shown(figure.id))
    return spoken(figure.value, ruler)


def spoken(value: object, ruler: Ruler) -> str:
    """Any value of a figure in text that reads with ease: rounded, with ≈, where it would be a riddle."""
    if isinstance(value, tuple):
        return ", ".join(spoken(each, ruler) for each in value)
    if isinstance(value, Fraction):
        return readable(value)
    return readable_length(value, ruler.unit) if isinstance(value, Length) else value_text(value, ruler)


def value_text(value: object, ruler: Ruler) -> str:
    """Any value of a figure in text, exactly; lengths in the job's unit."""
    if value is None:
        return NOT_YET
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Length):
        return exact(value, ruler.unit)
    if isinstance(value, Fraction):
        return number(value)
    if isinstance(value, Decimal):
        return money(value)
    if isinstance(value, tuple):
        return ", ".join(value_text(each, ruler) for each in value)
    return str(value)
