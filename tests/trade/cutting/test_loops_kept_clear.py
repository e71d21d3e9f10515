"""Two strips that share two widths, with spans in which no join may fall."""

from __future__ import annotations

from tests.trade.cutting.geometry import faults
from tests.trade.cutting.jobs import best, rules_of
from wizard.trade.cutting import Stretch, Strip
from wizard.trade.lengths import Length

PAIR = [
    Strip("a", "a", "face", Length(169) / 4, Length(47) / 4),
    Strip("b", "b", "face", Length(135) / 4, Length(25) / 2, no_join=((Length(29), Length(71) / 2),)),
]
HELD = Stretch("held", Length(129) / 4, Length(39), squared=True)
ROLL = Stretch("roll", None, Length(39), squared=True)


def test_two_strips_share_two_widths_where_only_so_a_length_gives_them() -> None:
    plan = best(PAIR, rules_of(), [HELD])
    assert (plan.used, plan.joins) == (Length(25), 2)
    assert faults(plan, PAIR, [HELD], rules_of()) == []


def test_nothing_is_bought_where_two_widths_shared_twice_give_all() -> None:
    assert (best(PAIR, rules_of(), [HELD, ROLL]).roll, best(PAIR, rules_of(), [ROLL]).used) == (Length(0), Length(25))
