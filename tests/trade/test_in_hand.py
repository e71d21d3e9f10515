"""Cloth in hand: what fits on which length, what is left of it, and how full it makes the skirt without buying."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from tests.outside.jobs import cloth, inches, plain_job, planned, straight
from wizard.trade.formatting import SIXTEENTHS
from wizard.trade.model import Fullness, Job, Owned
from wizard.trade.offers import in_hand_lines, in_hand_of, without_buying

SECTIONS = {"left": straight("left", "60", "12"), "foot": straight("foot", "40", "12")}
OWNED = {
    "chest": Owned(length=inches(60), lot="A7"),
    "attic": Owned(length=inches(40), width=inches(30), damage_from=inches(10), damage_to=inches(13)),
    "scrap": Owned(length=inches(9)),
}


def job(**owned: Owned) -> Job:
    return plain_job(SECTIONS, fullness="2", cloth=cloth("54", owned=owned))


def test_each_length_says_what_it_is_what_is_cut_from_it_and_what_is_left() -> None:
    plan, face = planned(job(**OWNED))
    names = {part.id: part.name for part in plan.parts}
    chest, attic, scrap = in_hand_lines(plan.job, face, names, SIXTEENTHS)
    assert chest.startswith("Own length “chest”: 60 in long, 54 in of its width can be used, dye lot A7. Pieces cut")
    assert "only 30 in of its width can be used, damaged from 10 in to 13 in" in attic
    assert scrap == "Own length “scrap”: 9 in long, 54 in of its width can be used. Nothing is cut from it."


def test_every_piece_that_lies_on_a_length_in_hand_is_counted_there() -> None:
    _, face = planned(job(**OWNED))
    assert face.cutting is not None
    told = sum(count for each in in_hand_of(face) for _, count in each.pieces)
    roll = sum(piece.stretch == "roll" for piece in face.cutting.best.pieces)
    assert told + roll == len(face.cutting.best.pieces)
    assert told > 0


def test_the_fullness_without_buying_is_the_greatest_that_buys_nothing() -> None:
    plan, face = planned(job(chest=Owned(length=inches(60))))
    full = plan.fullness_in_hand
    assert full is not None
    assert face.buy.value is not None
    assert (face.buy.value > inches(0)) is (full < Fraction(2))
    at = replace(plan.job, fullness=Fullness(aim="a number", want=full, joins="part widths", surplus="trim"))
    assert planned(at)[1].buy.value == inches(0)
    assert without_buying(full, plan.layers).startswith("Without buying any face cloth, the skirt can be ")


def test_without_cloth_in_hand_nothing_is_said_and_too_little_is_told() -> None:
    plan, face = planned(job())
    assert plan.fullness_in_hand is None
    assert without_buying(None, plan.layers) == ""
    assert in_hand_of(face) == ()
    short, _ = planned(job(scrap=Owned(length=inches(9))))
    assert without_buying(short.fullness_in_hand, short.layers).endswith(
        "no way was found of making even a flat skirt."
    )
