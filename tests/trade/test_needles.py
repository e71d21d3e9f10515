"""Needles and stitch lengths by cloth."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, get_args

import pytest

from wizard.trade.figures import Ledger
from wizard.trade.model import Cloth, ClothKind, Cloths, Job, Weight
from wizard.trade.notions import PAIRS, STITCHES, needle_of, needle_through, size, stitch_in_words


def face(**cloth: Any) -> Ledger:
    return Ledger(Job(cloth=Cloths(face=Cloth(**cloth))))


@pytest.mark.parametrize("kind", [each for each in get_args(ClothKind) if each != "other"])
@pytest.mark.parametrize("weight", [None, *get_args(Weight)])
def test_the_kind_decides_whatever_the_weight(kind: ClothKind, weight: Weight | None) -> None:
    assert needle_of(face(kind=kind, weight=weight), "face").value == needle_of(face(kind=kind), "face").value


@pytest.mark.parametrize(("weight", "nm"), [("sheer", 60), ("light", 70), ("medium", 80), ("heavy", 100)])
@pytest.mark.parametrize("kind", [None, "other"])
def test_another_kind_or_none_goes_by_weight(kind: Any, weight: Any, nm: int) -> None:
    assert needle_of(face(kind=kind, weight=weight), "face").value == nm


def test_the_kind_is_asked_for_when_nothing_is_said() -> None:
    assert [each.key for each in needle_of(face(), "face").needs] == ["cloth.face.kind"]


def test_through_several_layers_goes_the_needle_of_the_stoutest() -> None:
    ledger = Ledger(Job(cloth=Cloths(face=Cloth(kind="fine silk"), interlining=Cloth(kind="flannel", use=True))))
    assert needle_through(ledger, ["face", "interlining"]).value == 90


def test_a_layer_not_known_leaves_the_needle_through_all_open() -> None:
    found = needle_through(face(kind="fine silk"), ["face", "lining"])
    assert (found.value, [each.key for each in found.needs]) == (None, ["cloth.lining.kind"])


def test_a_size_is_written_as_on_its_packet() -> None:
    assert [size(nm) for nm in (70, 90)] == ["70/10", "90/14"]
    assert all(size(nm) == f"{nm}/{older}" for nm, older in PAIRS.items())


def test_stitches_are_given_in_millimetres_and_about_an_inch() -> None:
    assert stitch_in_words("join") == "stitch length 2.5 mm, about 10 an inch"
    assert stitch_in_words("gathering") == "stitch length 4 mm, about 6 an inch"
    assert STITCHES["gathering"] == max(STITCHES.values())
    assert all(isinstance(each, Fraction) for each in STITCHES.values())
