"""Cautions against what public safety bodies say. They inform; none is a claim that a skirt meets a rule."""

from __future__ import annotations

import pytest

from wizard.trade.bed import Obstacle, Section, Survey
from wizard.trade.cautions import StepKind, cautions_for, cautions_of
from wizard.trade.job import Cloth, Cloths, Fixing, Job
from wizard.trade.lengths import Length

STAPLED = Job(cloth=Cloths(fixing=Fixing(kind="staples")))
HEATED = Job(survey=Survey(section={"left": Section(in_the_way={"h": Obstacle(kind="heater")})}))
LINED = Job(cloth=Cloths(lining=Cloth(use=True)))
PUBLIC = Job(survey=Survey(watch=("public room",)))


@pytest.mark.parametrize(
    ("job", "kind", "words"),
    [
        # US CPSC: heaters at least 3 ft from bedding and drapes
        (Job(), "dress", "at least 3 ft (1 m) from any heater"),
        (HEATED, "hang", "at least 3 ft (1 m) away"),
        # Cal/OSHA section 1704: disconnect the air before clearing a jam
        (STAPLED, "hang", "Before clearing a jam, pull the plug or release the air"),
        # OSHA/NIOSH (2011): a full sequential trigger is preferred
        (STAPLED, "hang", "a full sequential trigger is the safer one"),
        # WAC 296-807-14040: eye protection within 12 ft of an air stapler
        (STAPLED, "hang", "eye protection, and so does everyone within 12 ft"),
        # NISTIR 89-4138: layers that each pass may be a serious fire hazard together
        (LINED, "buy", "Layers that each pass a flame test may still burn badly together"),
        # US CPSC: in an infant's cot a fitted sheet only
        (Job(), "buy", "a fitted sheet is all that belongs"),
        # NFPA 701 is a flame test for hanging textiles; bed skirts are not named in the list seen, so ask locally
        (PUBLIC, "buy", "Ask locally before buying"),
    ],
)
def test_the_caution_is_said_before_the_step_and_on_the_sheet(job: Job, kind: StepKind, words: str) -> None:
    assert any(words in each.sentence for each in cautions_for(kind, job))
    assert any(words in each.sentence for each in cautions_of(job))


def test_one_metre_is_no_nearer_than_three_feet() -> None:
    """US CPSC says 3 ft; the metre beside it must not allow less."""
    assert Length.of(1, "m") >= Length.of(3, "ft")


def test_four_metres_are_no_nearer_than_twelve_feet() -> None:
    """WAC 296-807-14040 says 12 ft."""
    assert Length.of(4, "m") >= Length.of(12, "ft")
