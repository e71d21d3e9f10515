"""Cautions against what public safety bodies say. They inform; none is a claim that a skirt meets a rule.

That a caution is read before its step on every face is held in tests/test_cautions_on_every_face.py. The year and the
place in a publication are given where they are known.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from wizard.trade.cautions import CAUTIONS
from wizard.trade.job_fields import Cloth, Cloths, Fixing, Job, Obstacle, Section, Survey
from wizard.trade.lengths import Length
from wizard.trade.steps.step_writer import StepKind, cautions_for

STAPLED = Job(cloth=Cloths(fixing=Fixing(kind="staples")))
HEATED = Job(survey=Survey(section={"left": Section(in_the_way={"h": Obstacle(kind="heater")})}))
OLD_PAINT = Job(survey=Survey(watch=("old paint",)))


@pytest.mark.parametrize(
    ("job", "kind", "caution"),
    [
        # US CPSC, safety advice on portable heaters (year unknown): at least 3 ft from bedding and drapes
        (Job(), "dress", "heaters"),
        (HEATED, "hang", "heater-here"),
        # Cal/OSHA, California Code of Regulations, title 8, section 1704: disconnect the air before clearing a jam
        (STAPLED, "hang", "stapler-jam"),
        # OSHA and NIOSH, Nail Gun Safety: a Guide for Construction Contractors (2011): a full sequential trigger
        (STAPLED, "hang", "stapler-trigger"),
        # Washington Administrative Code, WAC 296-807-14040: eye protection within 12 ft of an air stapler
        (STAPLED, "hang", "stapler"),
        # NISTIR 89-4138 (1989): layers that each pass a flame test may be a serious fire hazard together
        (Job(cloth=Cloths(lining=Cloth(use=True))), "buy", "layers-together"),
        # US CPSC, advice on safe sleep (year unknown): in an infant's cot a fitted sheet only
        (Job(), "buy", "cot"),
        # NFPA 701 is a flame test for hanging textiles; bed skirts are not named in the list seen, so ask locally
        (Job(survey=Survey(watch=("public room",))), "buy", "public-room"),
        # Common practice, no source: the bed is cleared before the rail is fixed to, and both may disturb old paint
        (OLD_PAINT, "clear", "old-paint"),
        (OLD_PAINT, "hang", "old-paint"),
    ],
)
def test_what_a_safety_body_warns_of_is_said_before_the_step_it_is_about(
    job: Job, kind: StepKind, caution: str
) -> None:
    assert caution in [each.id for each in cautions_for(kind, job)]


@pytest.mark.parametrize(
    ("caution", "feet"),
    [
        ("heaters", 3),  # US CPSC
        ("heater-here", 3),  # US CPSC
        ("stapler", 12),  # WAC 296-807-14040
    ],
)
def test_a_distance_is_the_published_one_in_feet_and_no_less_in_metres(caution: str, feet: int) -> None:
    found = re.search(r"\[(\d+) ft\|(\d+) m\]", CAUTIONS[caution].sentence)
    assert found
    in_feet, in_metres = (
        Length.of(Fraction(number), unit) for number, unit in zip(found.groups(), ("ft", "m"), strict=True)
    )
    assert in_feet == Length.of(feet, "ft")
    assert in_metres >= in_feet
