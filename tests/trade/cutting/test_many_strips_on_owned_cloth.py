"""More strips than are searched as one, on lengths in hand: planned in batches, with nothing left out."""

from __future__ import annotations

import pytest

from tests.outside.jobs import inches
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import total

RULES = Rules(join_cost=inches(1), least_piece=inches(6), mark=inches("1/16"), step=inches(9), squaring=inches(1))


@pytest.mark.parametrize("count", [9, 12, 15])
@pytest.mark.parametrize("more", [Stretch("long", inches(2000), inches(54)), Stretch("roll", None, inches(54))])
def test_every_strip_is_cut_in_full(count: int, more: Stretch) -> None:
    strips = [Strip(f"s{n}", f"s{n}", "face", inches(20 + 13 * n), inches(12 + n % 3)) for n in range(count)]
    answer = lay_out(strips, [Stretch("short", inches(100), inches(54)), more], RULES)
    assert isinstance(answer, Cutting)
    for strip in strips:
        widths = [piece.width for piece in answer.best.pieces if piece.strip == strip.id]
        assert total(widths) - inches(len(widths) - 1) == strip.flat
