"""Single values of a plan for JSON: exact, never a float."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from wizard.trade.figures import Figure, Need
from wizard.trade.formatting import Ruler, fraction_text, how_shown, length_json, money, number
from wizard.trade.lengths import Length
from wizard.trade.plan import Caution


def value_json(value: object, ruler: Ruler) -> Any:
    """Any value a figure may have. TypeError for one that has no place in JSON."""
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, Length):
        return length_json(value, ruler)
    if isinstance(value, Fraction):
        return {"exact": fraction_text(value), "text": number(value)}
    if isinstance(value, Decimal):
        return money(value)
    if isinstance(value, tuple):
        return [value_json(each, ruler) for each in value]
    raise TypeError(f"no JSON for {type(value).__name__}")


def figure_json(figure: Figure[Any], ruler: Ruler) -> Any:
    """The value of a figure, a length rounded in its text as that figure is on every sheet."""
    if isinstance(figure.value, Length):
        return length_json(figure.value, ruler, how_shown(figure.id))
    return value_json(figure.value, ruler)


def need_json(need: Need) -> dict[str, str]:
    """What is missing."""
    return {"key": need.key, "words": need.words}


def caution_json(caution: Caution) -> dict[str, str]:
    """A caution."""
    return {"id": caution.id, "sentence": caution.sentence}
