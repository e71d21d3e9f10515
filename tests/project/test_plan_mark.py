"""The plan mark: the same for the same job, another for another."""

from __future__ import annotations

import re

import pytest

from tests.sheets.jobs import WHOLE, draft_of
from wizard.project.draft import Draft, put, put_many
from wizard.project.jobs import job_of
from wizard.project.plan_mark import plan_mark
from wizard.project.reading import read
from wizard.project.writing import write


def mark(draft: Draft) -> str:
    return plan_mark(job_of(draft))


def whole() -> Draft:
    return draft_of(WHOLE)


def test_a_mark_is_two_groups_of_four_letters_that_are_not_mistaken_for_one_another() -> None:
    assert re.fullmatch(r"[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}", mark(whole()))


def test_the_mark_of_a_job_never_changes_from_one_version_to_the_next() -> None:
    # Printed on paper that hangs on walls: a change here parts every sheet from its file.
    assert mark(draft_of('format = 1\nname = "Juniper loft"\n[cloth.face]\nwidth = "54 in"\n')) == "MX5G-CJ5W"


def test_progress_ticks_and_kept_findings_leave_the_mark_alone() -> None:
    more = put_many(whole(), {"progress.at": "cloth.face.width", "progress.rails_alike": False})
    assert mark(put(more, "kept.run-differs:left:right", "1 | 2")) == mark(whole())
    ticked = read((WHOLE + "\n[work.buy]\ndone = 2026-03-02 10:42:00+00:00\n").encode())
    assert isinstance(ticked, Draft)
    assert mark(ticked) == mark(whole())


def test_a_file_written_anew_keeps_its_mark() -> None:
    again = read(write(whole()))
    assert isinstance(again, Draft)
    assert mark(again) == mark(whole())


def test_the_same_length_typed_in_another_unit_keeps_the_mark() -> None:
    assert mark(put(whole(), "cloth.face.width", "1397 mm")) == mark(put(whole(), "cloth.face.width", "55 in"))


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("name", "Juniper loft two"),
        ("show", "mm"),
        ("survey.section.left.drop.2", "12 1/16 in"),
        ("survey.section.left.left_return", None),
        ("survey.slatted", False),
        ("cloth.face.owned.first.length", "1 1/2 yd"),
        ("cloth.face.price", "18.51"),
        ("fullness.want", "2.4"),
    ],
)
def test_whatever_is_measured_chosen_or_named_changes_the_mark(key: str, value: object) -> None:
    assert mark(put(whole(), key, value)) != mark(whole())


def test_a_value_never_passes_for_another_at_the_next_key() -> None:
    one, other = put(Draft(), "cloth.face.name", "silk"), put(Draft(), "cloth.lining.name", "silk")
    assert mark(one) != mark(other)
    marks = {
        mark(put_many(Draft(), {"survey.section.left.drop": drops}))
        for drops in (["1 in", "", "2 in"], ["1 in", "2 in"])
    }
    assert len(marks) == 2
