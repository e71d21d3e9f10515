"""A slip in typing that would take acres of cloth is told, not laid out."""

from __future__ import annotations

import pytest

from tests.outside.jobs import cloth, plain_job, planned, straight
from tests.trade.finding_texts import assert_says


@pytest.mark.parametrize(("run", "fullness"), [("9" * 12, "2.5"), ("1" + "0" * 30, "2.5"), ("80", "1" + "0" * 30)])
def test_acres_of_cloth_are_refused_with_a_sentence_that_says_what_to_read_again(run: str, fullness: str) -> None:
    plan, face = planned(plain_job({"left": straight("left", run, "11")}, fullness=fullness, cloth=cloth("54")))
    assert face.refused is not None
    assert face.refused.reason == "too much"
    told = next(finding for finding in plan.findings if finding.id == "refused:face")
    assert told.level == "stop"
    assert "far more cloth than a bed skirt takes" in told.sentence
    assert_says(told, "refused, too much")
    assert not plan.complete


def test_a_long_wall_of_beds_is_still_laid_out() -> None:
    sections = {f"s{number}": straight("left", "240", "11") for number in range(12)}
    _, face = planned(plain_job(sections, fullness="3", cloth=cloth("45")))
    assert face.cutting is not None
