"""What is taken and asked about: a unit foreign to the job, a drop unlike the others, a repeat of unusual length."""

from __future__ import annotations

import pytest

from wizard.project.plan_mark import plan_mark
from wizard.project.plans import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.plan import Finding

METRIC = {"show": "cm", "standard": "metric"}
INCHES = {"show": "in", "standard": "inches"}


def asked(of: dict[str, str], **given: str) -> dict[str, Finding]:
    """What is asked about a job of which this is given: `left_drop_1` for `survey.section.left.drop.1`."""
    draft = put_many(Project(), of | {f"survey.section.{key.replace('_', '.')}": text for key, text in given.items()})
    return {each.id: each for each in plan_of(draft).findings if each.level == "ask"}


def drops(left: str, right: str, foot: str) -> dict[str, str]:
    sections = {"left": left, "right": right, "foot": foot}
    return {f"{section}_drop_{n}": text for section, text in sections.items() for n in (1, 2, 3)}


def test_a_drop_of_72_cm_beside_31_cm_is_asked_about() -> None:
    finding = asked(METRIC, **drops("31 cm", "31 cm", "72 cm"))["drop-beside:foot:left"]
    assert finding.sentence == "foot section: a drop of 72 cm, and 31 cm at the left section: 41 cm apart on one bed."
    assert (finding.key, finding.other) == ("survey.section.foot.drop.1", "survey.section.left.drop.1")


@pytest.mark.parametrize(
    ("left", "right", "foot", "id"),
    [
        ("12 in", "15 in", "12 in", None),
        ("12 in", "15 1/8 in", "12 in", "drop-beside:right:left"),
        ("12 in", "12 in", "4 in", None),
        ("12 in", "12 in", "3 7/8 in", "drop-beside:left:foot"),
    ],
)
def test_the_two_sides_hang_more_alike_than_a_side_and_the_foot(
    left: str, right: str, foot: str, id: str | None
) -> None:
    found = [each for each in asked(INCHES, **drops(left, right, foot)) if each.startswith("drop-beside")]
    assert found == ([id] if id else [])


@pytest.mark.parametrize(
    ("of", "key", "text", "would"),
    [
        (METRIC, "cloth.face.repeat", "64 in", "64 cm"),
        (METRIC, "cloth.face.repeat", "24 1/2 in", "24.5 cm"),
        (METRIC, "survey.section.left.run.1", "195 in", "195 cm"),
        (METRIC, "survey.section.left.drop.2", "31 in", "31 cm"),
        (METRIC, "cloth.face.width", "140 in", "140 cm"),
        (METRIC, "survey.section.left.run.1", '76"', "76 cm"),
        (INCHES, "survey.section.left.run.1", "76 cm", "76 in"),
        (INCHES, "survey.section.left.drop.1", "12,5 cm", "12 1/2 in"),
        # Usual in the other system, or no likely length in the job's own unit.
        (METRIC, "cloth.face.width", "54 in", None),
        (METRIC, "allowances.join", "1/2 in", None),
        (METRIC, "survey.section.left.run.1", "6 ft 8 in", None),
        (METRIC, "survey.section.left.run.1", "195 cm", None),
        (METRIC, "survey.section.left.run.1", "1.95 m", None),
        (INCHES, "survey.section.left.run.1", "195 cm", None),
        ({}, "survey.section.left.run.1", "76 cm", None),
    ],
)
def test_a_unit_foreign_to_the_job_is_asked_about_where_its_own_would_do(
    of: dict[str, str], key: str, text: str, would: str | None
) -> None:
    finding = asked({**of, key: text}).get(f"unit:{key}")
    assert (finding is not None) == (would is not None)
    if finding:
        assert f"{text}, though this job is in " in finding.sentence
        assert finding.way_out == f"If {would} was meant, type that; if {text} is right, keep it."


def test_it_can_be_kept_and_is_asked_again_when_the_length_changes() -> None:
    key = "survey.section.left.run.1"
    draft = put_many(Project(), {**METRIC, key: "76 in"})
    (finding,) = [each for each in plan_of(draft).findings if each.id == f"unit:{key}"]
    kept = put_many(draft, {f"kept.{finding.id}": finding.values})
    assert [each.kept for each in plan_of(kept).findings if each.id == finding.id] == [True]
    again = put_many(kept, {key: "77 in"})
    assert [each.kept for each in plan_of(again).findings if each.id == finding.id] == [False]


def test_the_unit_a_length_was_typed_in_leaves_the_plan_mark_alone() -> None:
    inches, metric = ({**METRIC, "survey.section.left.run.1": text} for text in ("76 in", "193.04 cm"))
    plans = [plan_of(put_many(Project(), given)) for given in (inches, metric)]
    assert plans[0].job.foreign
    assert not plans[1].job.foreign
    assert len({plan_mark(each.job) for each in plans}) == 1


def test_a_repeat_longer_than_cloths_have_is_asked_about() -> None:
    assert "size:cloth.face.repeat" in asked({**METRIC, "cloth.face.repeat": "162.56 cm"})
    assert "size:cloth.face.repeat" not in asked({**METRIC, "cloth.face.repeat": "64 cm"})
