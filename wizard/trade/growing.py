"""A layer as its cut widths grow with the fullness."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting.quick_bound import QuickBound
from wizard.trade.cutting.strips import Cutting, Refusal, Rules, Stretch, Strip
from wizard.trade.lengths import Length, round_up
from wizard.trade.searching import Grows, Ladder


class Growing(Struct, frozen=True, dict=True):
    """All that the fullness of one layer rests on; equal when nothing of it has changed."""

    templates: tuple[Strip, ...]
    """Its strips, whatever their cut widths."""
    widths: tuple[Grows, ...]
    """How each strip's cut width grows."""
    mark: Length
    rules: Rules
    owned: tuple[Stretch, ...]
    roll: Stretch

    @cached_property
    def ladder(self) -> Ladder:
        """The fullnesses that matter."""
        return Ladder(self.widths, self.mark)

    def at(self, fullness: Fraction) -> tuple[Length, ...]:
        """The cut widths at a fullness."""
        return tuple(grows.at(fullness, self.mark) for grows in self.widths)

    @cached_property
    def bound(self) -> QuickBound:
        """What the layer buys at the least."""
        return QuickBound(self.templates, (*self.owned, self.roll), self.rules)

    def cut(self, fullness: Fraction, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """The layer laid out at a fullness."""
        return self._laid(self.at(fullness), cloth)

    def behind(self, face: Growing, made: Cutting, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """An inner layer laid out as wide as the face comes out, its kept surplus included, less the end setbacks."""
        wide = dict(made.best.flats)
        less = [before.stays - own.stays for before, own in zip(face.widths, self.widths, strict=True)]
        pairs = zip(self.templates, less, strict=True)
        return self._laid(tuple(round_up(wide[strip.id] - each, self.mark) for strip, each in pairs), cloth)

    def _laid(self, flats: tuple[Length, ...], cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        pairs = zip(self.templates, flats, strict=True)
        return cut_plan(tuple(replace(strip, flat=flat) for strip, flat in pairs), cloth, self.rules)

    def most(self) -> Fraction:
        """No fullness above this fits on the owned cloth: its area is used up."""
        have = sum((each.length.inches * each.usable.inches for each in self.owned if each.length), Fraction(0))
        pairs = list(zip(self.widths, self.templates, strict=True))
        stays = sum((grows.stays.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
        return (have - stays) / sum((grows.gathers.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
