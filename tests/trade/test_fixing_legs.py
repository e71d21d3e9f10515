"""Staple and tack legs, and what looks wrong about the fixings."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import small, with_face, with_section
from wizard.trade.figures import Ledger
from wizard.trade.findings.checker import Checker
from wizard.trade.findings.fixing_findings import SUITS, fixing_findings
from wizard.trade.fixings import leg_figure, shortest
from wizard.trade.formatting import Ruler
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.model import (
    Cloth,
    Cloths,
    Fixing,
    FixingKind,
    Fullness,
    Job,
    Owned,
    RailMaterial,
    Section,
    Survey,
    Weight,
)

RULER = Ruler("in", Length(Fraction(1, 16)))


def inches(text: str) -> Length:
    return Length(sum(Fraction(each) for each in text.split()))


def job(rail: str | None = "1 1/8", weight: Weight | None = "light", legs: tuple[str, ...] = (), **cloth: Any) -> Job:
    survey = Survey(rail_thickness=inches(rail) if rail else None, section={"left": Section(side="left")})
    fixing = Fixing(kind="staples", legs=tuple(inches(each) for each in legs))
    return Job(
        survey=survey,
        cloth=Cloths(face=Cloth(weight=weight), fixing=fixing, **cloth),
        fullness=Fullness(want=Fraction(5, 2)),
    )


def test_the_leg_goes_from_tape_layers_and_a_quarter_inch_to_the_rail_less_an_eighth() -> None:
    ledger = Ledger(job())
    assert leg_figure(ledger).value == inches("3/8")
    assert ledger.figures["fixing.leg_least"].value == inches("1/16") + inches("3/64") + inches("1/4")
    assert ledger.figures["fixing.leg_most"].value == inches("1")


def test_more_layers_take_a_longer_leg() -> None:
    inner: Any = {"interlining": Cloth(use=True, weight="medium"), "lining": Cloth(use=True, weight="light")}
    assert leg_figure(Ledger(job(**inner))).value == inches("1/2")


def folds(given: Job) -> tuple[Any, Any]:
    """(fullness, thickness of gathers) of the plan."""
    figures = make_plan(given).figures
    return figures["fullness"].value, figures["fixing.folds"].value


def test_gathers_are_as_thick_as_the_fullness_the_cloth_in_hand_gives_whatever_was_wanted_before() -> None:
    owned = with_face(small(), owned={"bolt": Owned(length=inches("182"))})
    assert folds(owned) == (Fraction(5, 2), 3)
    full, layers = folds(replace(owned, fullness=Fullness("all the cloth I own", Fraction(3, 2))))
    assert 3 < full < 4
    assert layers == 4


def test_gathers_are_taken_as_usual_ones_while_the_cloth_in_hand_makes_no_skirt() -> None:
    scrap = with_face(small(), owned={"bolt": Owned(length=inches("20"))})
    assert folds(replace(scrap, fullness=Fullness("all the cloth I own", Fraction(6)))) == (None, 3)


def test_a_surplus_that_is_kept_lies_under_the_fixings_with_the_rest() -> None:
    # whole widths: 152 and 116 in at fullness 2 come out as 161 and 161 in on 76 and 58 in
    kept = Fullness(want=Fraction(2), joins="whole widths", surplus="keep")
    assert folds(replace(small(), fullness=kept)) == (2, 3)
    assert folds(replace(small(), fullness=replace(kept, surplus="trim"))) == (2, 2)


def test_rounding_to_the_ruler_mark_is_no_surplus() -> None:
    thirds = with_section(small(), "foot", run=(inches("58 1/48"),) * 2)
    assert folds(replace(thirds, fullness=Fullness(want=Fraction(2), surplus="keep"))) == (2, 2)


def test_a_leg_at_either_bound_will_do() -> None:
    legs = tuple(inches(each) for each in ("1/4", "3/8", "1/2"))
    assert shortest(legs, inches("3/8"), inches("1")) == inches("3/8")
    assert shortest(legs, inches("7/16"), inches("1/2")) == inches("1/2")
    assert shortest(legs, inches("7/16"), inches("15/32")) is None


def test_the_thinnest_rail_decides_for_the_whole_bed() -> None:
    survey = Survey(
        rail_thickness=inches("1 1/8"),
        section={
            "left": Section(side="left"),
            "foot": Section(side="foot", rail_thickness=inches("1/2")),
            "head": Section(side="head", on=False, rail_thickness=inches("1/4")),
        },
    )
    ledger = Ledger(Job(survey=survey, cloth=Cloths(face=Cloth(weight="light"), fixing=Fixing(kind="staples"))))
    leg_figure(ledger)
    assert ledger.figures["fixing.leg_most"].value == inches("3/8")


def test_what_the_leg_waits_for_is_named() -> None:
    needs = leg_figure(Ledger(job(rail=None, weight=None))).needs
    assert {each.key for each in needs} == {"survey.rail_thickness", "cloth.face.weight"}


def _leg_finding(given: Job) -> Any:
    ledger = Ledger(given)
    leg_figure(ledger)
    return next(fixing_findings(Checker(ledger, RULER)), None)


def test_no_leg_that_can_be_had_is_a_finding_with_the_way_out() -> None:
    found = _leg_finding(job(legs=("1/4", "5/16")))
    assert found.key == "cloth.fixing.legs"
    assert_says(found, "fixing-leg")
    assert found.values == "23/64 in | 1 in | 1/4 in | 5/16 in"


def test_a_rail_too_thin_for_any_leg_sends_to_another_fixing() -> None:
    found = _leg_finding(job(rail="1/16"))
    assert found.key == "cloth.fixing.kind"
    assert found.sentence.endswith("but at this rail only 0 in stays inside.")


def test_a_leg_that_lies_between_is_no_finding_and_neither_is_a_leg_still_waited_for() -> None:
    assert _leg_finding(job()) is None
    assert _leg_finding(job(rail=None)) is None


def _rail(material: RailMaterial, kind: FixingKind, **survey: Any) -> list[str]:
    given = Job(
        survey=Survey(rail=material, section={"left": Section(side="left")}, **survey),
        cloth=Cloths(fixing=Fixing(kind=kind)),
    )
    return [each.id for each in fixing_findings(Checker(Ledger(given), RULER))]


@pytest.mark.parametrize(
    ("material", "good", "bad"),
    [
        ("solid wood", "tacks", "upholstery pins"),
        ("veneered board", "staples", "tacks"),
        ("metal", "magnets", "staples"),
        ("upholstered", "upholstery pins", "glue"),
        ("heirloom", "hook-and-loop", "adhesive hook-and-loop"),
    ],
)
def test_a_fixing_that_does_not_suit_the_rail_is_a_finding(
    material: RailMaterial, good: FixingKind, bad: FixingKind
) -> None:
    assert _rail(material, good) == []
    assert _rail(material, bad) == ["fixing-unsuited:left"]
    assert good in SUITS[material]


def test_a_section_of_another_material_is_looked_at_by_itself() -> None:
    survey = Survey(rail="solid wood", section={"left": Section(), "foot": Section(rail="metal", name="end")})
    given = Job(survey=survey, cloth=Cloths(fixing=Fixing(kind="staples")))
    (found,) = fixing_findings(Checker(Ledger(given), RULER))
    assert found.id == "fixing-unsuited:foot"
    assert_says(found, "fixing-unsuited")


def test_a_skirt_that_comes_off_often_is_asked_about_before_it_is_stapled() -> None:
    assert _rail("solid wood", "staples", taken_off="often") == ["fixing-cleaning"]
    assert _rail("solid wood", "staples", taken_off="stays on") == []
    assert _rail("solid wood", "adhesive hook-and-loop", taken_off="often") == []


def test_nothing_is_found_while_the_fixing_is_not_chosen() -> None:
    bare = Job(survey=Survey(rail="metal", section={"left": Section()}))
    assert list(fixing_findings(Checker(Ledger(bare), RULER))) == []
