"""What a plan waits for, told from the job alone: the same as the plan says."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import everything, inches, leaves, section, small, with_face, with_section, without
from wizard.trade.make_plan import make_plan
from wizard.trade.missing import first_hole
from wizard.trade.model import Fixing, FixingKind, Fullness, Job

KINDS: tuple[FixingKind, ...] = ("tacks", "hook-and-loop", "adhesive hook-and-loop", "magnets", "glue")


def alike(job: Job) -> bool:
    """True when both say the same of a job."""
    missing, hole = [each.key for each in make_plan(job).missing], first_hole(job)
    return hole in missing if missing else hole is None


def fixed_by(kind: FixingKind) -> Job:
    job = everything()
    return replace(job, cloth=replace(job.cloth, fixing=Fixing(kind=kind)))


@pytest.mark.parametrize("job", [everything(), *map(fixed_by, KINDS)], ids=["staples", *KINDS])
def test_of_a_job_with_answers_taken_out_both_say_the_same(job: Job) -> None:
    random, paths = Random(5), list(leaves(job))
    for _ in range(25):
        less = job
        for path in random.sample(paths, 2):
            less = without(less, path)
        assert alike(less)


@pytest.mark.parametrize(
    ("job", "hole"),
    [
        (Job(), "survey.floor"),
        (small(), None),
        (small(fullness=Fullness()), "fullness.want"),
        (small(fullness=Fullness(aim="all the cloth I own")), "cloth.face.owned"),
        (with_section(small(), "left", left_end="returns"), "survey.section.left.left_return"),
        (with_section(small(), "left", drop=(inches(9), inches(12), inches(12))), "survey.section.left.hem_line"),
        (with_section(small(), "left", run=(inches(76),)), "survey.section.left.run.2"),
        (with_face(small(), width=None), "cloth.face.width"),
        (with_face(small(fullness=Fullness(want=Fraction(2))), kind="other", weight=None), "cloth.face.weight"),
    ],
)
def test_the_first_answer_that_is_missing_is_named(job: Job, hole: str | None) -> None:
    assert first_hole(job) == hole
    assert alike(job)


def test_a_section_on_no_side_waits_for_its_side() -> None:
    job = small()
    job = replace(job, survey=replace(job.survey, section={"desk": section(40, 12)}))
    assert first_hole(job) == "survey.section.desk.side"
    assert alike(job)
