"""The care label: the strictest of the layers, process by process."""

from __future__ import annotations

from typing import Any

import pytest

from wizard.trade.cautions import BEARS, MEANINGS, UNKNOWN, Line, care_of
from wizard.trade.model import Cloth, Cloths, Job


def label(**layers: Any) -> dict[str, Line]:
    return {each.process: each for each in care_of(Job(cloth=Cloths(**layers)))}


def says(**layers: Any) -> dict[str, str]:
    return {process: line.says for process, line in label(**layers).items()}


COTTON = Cloth(kind="plain cotton", wash="washed first")
FLANNEL = Cloth(use=True, kind="flannel", wash="already washed")


def test_cotton_that_was_washed_first_may_be_washed() -> None:
    assert says(face=COTTON) == {
        "wash": "Wash at 40 °C at most.",
        "bleach": "Do not bleach.",
        "dry": "Tumble dry at a low temperature, 60 °C at most.",
        "iron": "Iron at 200 °C at most.",
        "professional": "Professional dry cleaning, normal process.",
    }


def test_the_stricter_layer_decides_each_process_and_is_named() -> None:
    both = label(face=COTTON, lining=FLANNEL)
    assert both["wash"].says == "Wash at 30 °C at most, mild process."
    assert both["wash"].because == ("lining: flannel",)
    assert both["iron"].says == "Iron at 150 °C at most."
    assert both["professional"].because == ("face cloth: plain cotton", "lining: flannel")


def test_a_layer_that_is_not_in_use_says_nothing() -> None:
    assert says(face=COTTON, lining=Cloth(use=False, kind="fine silk")) == says(face=COTTON)


@pytest.mark.parametrize("wash", [None, "not washed"])
def test_cloth_not_washed_before_it_is_cut_is_not_washed_after(wash: str | None) -> None:
    line = label(face=Cloth(kind="linen", wash=wash))["wash"]  # type: ignore[arg-type]
    assert line.says == "Do not wash."
    assert line.because == ("face cloth: not washed before it is cut, so nothing is allowed for shrinking",)


@pytest.mark.parametrize("kind", [None, "other"])
def test_cloth_of_which_nothing_is_known_is_treated_as_the_most_delicate(kind: str | None) -> None:
    line = label(face=Cloth(kind=kind, wash="washed first"))  # type: ignore[arg-type]
    assert line["wash"].says == "Do not wash."
    assert line["professional"].says == "Do not dry clean before the cloth's own label is read."
    assert line["iron"].because == ("face cloth: what it is made of is not said",)


def test_every_kind_of_cloth_has_a_step_in_every_process() -> None:
    for steps in (*BEARS.values(), UNKNOWN):
        assert set(steps) == set(MEANINGS)
        assert all(0 <= step < len(MEANINGS[process]) for process, step in steps.items())


def test_a_layer_more_never_makes_the_label_milder() -> None:
    for kind in BEARS:
        alone = label(face=COTTON)
        more = label(face=COTTON, interlining=Cloth(use=True, kind=kind, wash="washed first"))  # type: ignore[arg-type]
        for process, words in MEANINGS.items():
            assert words.index(more[process].says) <= words.index(alone[process].says)
