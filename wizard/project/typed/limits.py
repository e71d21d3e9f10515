"""Limits: how much may be typed at a kind of field, at the least and at the most, with an example that is likely there.

The file, its JSON Schema, the screens, the plain prompts and `check` all read by them; which there are stands in
:mod:`wizard.project.typed.fields`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, Final

from msgspec import Struct

from wizard.project.typed.misread import Misread, quoted
from wizard.project.typed.numbers import fullness_text
from wizard.project.typed.unit_words import is_metric
from wizard.project.typed.values import TypedLength, TypedMoney, TypedNumber, TypedPercent, Value
from wizard.trade.formatting import METRIC


class Kind(Struct, frozen=True):
    """What is typed there."""

    read: Callable[[str, str | None, bool], Value]
    """From the text, the unit of a length that names none, and whether that may be nothing."""
    written: str
    """How it stands in a file: `a length as text with its unit`."""


class Scale(Struct, frozen=True):
    """The least, the most and an example, as one would type them."""

    least: str
    most: str
    example: str


class Limits(Struct, frozen=True, dict=True):
    """What may be typed at one kind of field."""

    noun: str
    """With its article: `a pattern repeat`."""
    kind: Kind
    scales: tuple[Scale, ...]
    """Of a length in inches and in metric, of which the wider holds; of anything else one."""
    none: str | None = None
    """What zero says: `for no pattern`. None where nothing, or less than the least, is not taken."""
    too_little: str = ""
    """Why less is too little, where that is more than a matter of sense; it follows the text."""

    def of(self, text: str, unit: str | None = None, *, metric: bool | None = None) -> Value:
        """The value that `text` says, a length in `unit` (None: it must name its own).

        Raises Misread, whose readings are all taken here. It speaks in the system of `unit`, else as `metric` says,
        else as the text does.
        """
        if unit is not None or metric is None:
            metric = unit in METRIC if unit is not None else is_metric(text)
        scale = self.scales[metric and len(self.scales) > 1]
        try:
            value = self.kind.read(text, unit, self.none is not None)
        except Misread as misread:
            raise misread.at_field(lambda each: self._takes(each, unit), scale.example, self._range(scale)) from None
        least, most = self._bounds
        if least <= value.value <= most or (self.none is not None and not value.value):
            return value
        if value.value < least and self.too_little:
            raise Misread(f"{quoted(value.text)} {self.too_little}", scale.example)
        much = "much" if value.value > most else "little"
        says = f"{quoted(value.text)} is too {much} for {self.noun}. {self._range(scale)}"
        raise Misread(says, scale.example, once_taken=True)

    def example(self, *, metric: bool) -> str:
        """A text that is taken, and likely."""
        return self.scales[metric and len(self.scales) > 1].example

    def shape(self) -> Mapping[str, Any]:
        """What may stand in a file, as JSON Schema."""
        ranges = " or ".join(self._span(scale) for scale in self.scales) + self._zero()
        says = f"{ranges[:1].upper()}{ranges[1:]}."
        return {"type": "string", "description": says, "examples": [each.example for each in self.scales]}

    @cached_property
    def _bounds(self) -> tuple[Any, Any]:
        spans = [[self.kind.read(each, None, True).value for each in (one.least, one.most)] for one in self.scales]
        return min(least for least, _ in spans), max(most for _, most in spans)

    def _takes(self, offer: str, unit: str | None) -> bool:
        try:
            self.of(offer, unit)
        except Misread:
            return False
        return True

    def _range(self, scale: Scale) -> str:
        return f"It can be {self._span(scale)}{self._zero()}."

    def _span(self, scale: Scale) -> str:
        return f"{scale.least} to {scale.most}" if self._bounds[0] else f"up to {scale.most}"

    def _zero(self) -> str:
        return f", or 0 {self.none}" if self.none and self._bounds[0] else ""


LENGTH: Final = Kind(lambda text, unit, zero: TypedLength.of(text, unit, zero=zero), "a length as text with its unit")
NUMBER: Final = Kind(lambda text, *_: TypedNumber.of(text), "a number as text between quotes")
FULLNESS: Final = Kind(lambda text, *_: TypedNumber.of(fullness_text(text)), "a number as text between quotes")
PERCENT: Final = Kind(lambda text, *_: TypedPercent.of(text), "a percentage as text between quotes")
MONEY: Final = Kind(lambda text, *_: TypedMoney.of(text), "money as text between quotes")
