"""A floor that slopes two ways is asked about: one side is read from head to foot, the other from foot to head."""

from __future__ import annotations

import pytest

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import inches, small, with_section
from wizard.trade.make_plan import make_plan
from wizard.trade.plan import Finding


def found(left: tuple[str, str, str], right: tuple[str, str, str]) -> list[Finding]:
    job = small()
    for section, drops in (("left", left), ("right", right)):
        job = with_section(job, section, drop=tuple(inches(each) for each in drops))
    return [each for each in make_plan(job).findings if each.id == "floor-slopes:left:right"]


def test_drops_given_from_head_to_foot_on_both_sides_are_asked_about() -> None:
    [finding] = found(("12 1/8", "12 1/4", "12 9/16"), ("12 1/8", "12 1/4", "12 9/16"))
    assert finding.level == "ask"
    assert finding.key == "survey.section.right.drop.1"
    assert_says(finding, "floor-slopes")


@pytest.mark.parametrize(
    ("left", "right"),
    [
        (("12 1/8", "12 1/4", "12 9/16"), ("12 9/16", "12 1/4", "12 1/8")),
        (("12", "12", "12 1/4"), ("12", "12", "12 1/4")),
        (("12", "12", "12"), ("12", "12", "13")),
    ],
    ids=["the same way", "within tolerance", "one side level"],
)
def test_other_floors_are_not(left: tuple[str, str, str], right: tuple[str, str, str]) -> None:
    assert found(left, right) == []
