"""A layer as its cut widths grow with the fullness."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wizard.trade.cut_plans import cut_plan
from wizard.trade.cutting.strips import Cutting, Refusal, Rules, Stretch, Strip
from wizard.trade.lengths import Length
from wizard.trade.searching import Grows, Ladder


class Growing(Struct, frozen=True):
    """All that the fullness of one layer rests on; equal when nothing of it has changed."""

    templates: tuple[Strip, ...]
    """Its strips, whatever their cut widths."""
    widths: tuple[Grows, ...]
    """How each strip's cut width grows."""
    mark: Length
    rules: Rules
    owned: tuple[Stretch, ...]
    roll: Stretch

    @property
    def ladder(self) -> Ladder:
        """The fullnesses that matter."""
        return Ladder(self.widths, self.mark)

    def at(self, fullness: Fraction) -> tuple[Length, ...]:
        """The cut widths at a fullness."""
        return tuple(grows.at(fullness, self.mark) for grows in self.widths)

    def cut(self, fullness: Fraction, cloth: tuple[Stretch, ...]) -> Cutting | Refusal:
        """The layer laid out at a fullness."""
        pairs = zip(self.templates, self.at(fullness), strict=True)
        strips = tuple(replace(strip, flat=flat) for strip, flat in pairs)
        return cut_plan(strips, cloth, self.rules)

    def most(self) -> Fraction:
        """No fullness above this fits on the owned cloth: its area is used up."""
        have = sum((each.length.inches * each.usable.inches for each in self.owned if each.length), Fraction(0))
        pairs = list(zip(self.widths, self.templates, strict=True))
        stays = sum((grows.stays.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
        return (have - stays) / sum((grows.gathers.inches * strip.cut.inches for grows, strip in pairs), Fraction(0))
