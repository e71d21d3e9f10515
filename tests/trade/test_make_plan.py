"""The whole plan: total at every stage of filling, and true to what it is given."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.sample_jobs import (
    everything,
    inches,
    known,
    leaves,
    section,
    small,
    surveyed,
    with_face,
    with_section,
    without,
)
from wizard.trade.field_names import in_words
from wizard.trade.figures import value_at
from wizard.trade.job_fields import Fixing, FixingKind, Fullness, Job, Obstacle
from wizard.trade.lengths import Length, total
from wizard.trade.make_plan import make_plan
from wizard.trade.missing import holes, may_be_later

FULL = everything()
LEAVES = tuple(leaves(FULL))


def test_an_empty_job_wants_a_section_first_of_all_things_to_make_and_a_full_one_nothing() -> None:
    plan = make_plan(Job())
    assert [need.key for need in plan.missing] == [
        "survey.floor", "survey.section", "cloth.face.width", "fullness.want", "cloth.face.kind", "cloth.fixing.kind",
    ]  # fmt: skip
    assert (plan.complete, plan.parts) == (False, ())
    plan = make_plan(FULL)
    assert (plan.complete, plan.missing) == (True, ())
    assert [layer.id for layer in plan.layers] == ["face", "interlining", "lining"]
    assert plan.work
    assert plan.purchases
    assert plan.cautions
    assert plan.layers == make_plan(everything()).layers
    assert make_plan(with_face(small(), width=inches(55))) == make_plan(small())


def test_whether_a_floor_is_uneven_waits_for_every_drop_that_is_to_be_read() -> None:
    """Three readings that differ ask for the hem line; a fourth that is not taken yet may differ too."""
    fallen = (inches(12), inches("12 1/8"), inches("12 1/2"))
    for drops, asked in ((fallen, True), ((*fallen, None), False), (fallen[:2], False)):
        missing = {need.key for need in make_plan(with_section(small(), "left", drop=drops)).missing}
        assert ("survey.section.left.hem_line" in missing) is asked


@pytest.mark.parametrize("path", LEAVES[::3], ids=".".join)
def test_one_answer_taken_out_is_named_or_its_usual_value_stands(path: tuple[str, ...]) -> None:
    plan = make_plan(without(FULL, path))
    key = ".".join(path)
    assert {need.key for need in plan.missing if not need.key.startswith(key)} == set()


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sets(st.sampled_from(LEAVES), max_size=len(LEAVES)), st.booleans())
def test_a_half_filled_job_has_a_plan_and_names_only_what_is_not_there(
    taken: set[tuple[str, ...]], the_rest: bool
) -> None:
    job = FULL
    for path in set(LEAVES) - taken if the_rest else taken:
        job = without(job, path)
    plan = make_plan(job)
    for need in plan.missing:
        assert need.words
        assert value_at(job, need.key) in (None, {}) or need.key == "survey.section"
    for figure in plan.figures.values():
        assert figure.value is None or not figure.needs or not figure.inputs, figure.id


def test_every_key_of_a_job_has_words_of_its_own_that_name_the_section_and_the_end() -> None:
    keys = [".".join(path) for path in LEAVES]
    entries = [key for key in keys if key.count(".") == 2 and key.startswith(("survey.section.", "survey.post."))]
    named = {key for key in keys if in_words(key, FULL) == key}
    assert named <= {"name", "client", "currency", *entries}
    for job, words in ((small(), OF_SMALL), (FULL, OF_FULL)):
        assert {key: in_words(f"survey.section.{key}", job) for key in words} == words
    assert in_words("no.such.key", small()) == "no.such.key"


OF_SMALL = {
    "right.drop.2": "right section: drop in the middle",
    "right.drop.1": "right section: drop at the foot end",
    "foot.left_end": "foot section: what happens at the bed's left",
}
OF_FULL = {
    "left.right_return": "window side: return at the foot end",
    "foot.left_return": "foot section: overlap at the bed's left",
    "left.run.2": "window side: run near the floor",
}


def needed(job: Job) -> Fraction:
    used = make_plan(job).layers[0].used.value
    assert used is not None
    return used.inches


def bed(left: int, foot: int, drop: int, fullness: int) -> Job:
    """A job from whole numbers: runs in eighths, a drop in sixteenths, fullness in twentieths."""
    sides = {"left": (left, str(Fraction(drop, 16))), "foot": (foot, "10")}
    sections = {id: section(str(Fraction(run, 8)), each) for id, (run, each) in sides.items()}
    return replace(surveyed(small(), section=sections), fullness=Fullness(want=Fraction(fullness, 20)))


@settings(max_examples=12, deadline=None)
@given(st.integers(200, 640), st.integers(200, 480), st.integers(130, 240), st.integers(30, 58), st.integers(1, 40))
def test_a_larger_run_drop_or_fullness_never_needs_less_cloth(
    left: int, foot: int, drop: int, fullness: int, more: int
) -> None:
    said = [left, foot, drop, fullness]
    least = needed(bed(*said))
    for at in range(4):
        assert least <= needed(bed(*(each + more * (number == at) for number, each in enumerate(said))))


@settings(max_examples=15, deadline=None)
@given(
    run=st.integers(300, 900), returned=st.integers(0, 64), overlap=st.integers(1, 64), flat=st.booleans(),
    split=st.one_of(st.none(), st.integers(80, 220)), side=st.sampled_from(("left", "right", "foot", "head")),
)  # fmt: skip
def test_every_mark_piece_and_fixing_lies_inside_its_section(
    run: int, returned: int, overlap: int, flat: bool, split: int | None, side: str
) -> None:
    def eighths(count: int) -> Length:
        return Length(Fraction(count, 8))

    leg = Obstacle(kind="centre leg", at=eighths(split or 0), width=inches(3), do="split here", overlap=inches(2))
    one = section(
        str(Fraction(run, 8)), 12, left_end="returns", left_return=eighths(returned), right_end="overlaps",
        right_return=eighths(overlap), returns_flat=flat, in_the_way={} if split is None else {"leg": leg},
    )  # fmt: skip
    plan = make_plan(surveyed(small(), section={side: one}))
    layout = plan.layers[0].cutting
    assert layout is not None
    for part in plan.parts:
        gathered, made = part.gathered.value, part.flat_made.value
        assert gathered is not None
        assert made is not None
        assert all(inches(0) <= each.at <= gathered for each in known(part.fixings).positions)
        assert [mark.tape for mark in part.marks] == sorted(mark.tape for mark in part.marks)
        assert (part.marks[0].tape, part.marks[0].flat) == (inches(0), inches(0))
        assert (part.marks[-1].tape, part.marks[-1].flat) == (gathered, made)
        pieces = [piece.width for piece in layout.best.pieces if piece.strip == part.id]
        assert total(pieces) - inches(1) * (len(pieces) - 1) == made + inches(2)


# What a plan waits for, told from the job alone: the same as the plan says.
KINDS: tuple[FixingKind, ...] = ("tacks", "hook-and-loop", "adhesive hook-and-loop", "magnets", "glue")


def alike(job: Job) -> bool:
    """True when both say the same of a job."""
    missing, hole = [each.key for each in make_plan(job).missing], next(holes(job), None)
    return hole in missing if missing else hole is None


@pytest.mark.parametrize("kind", ["staples", *KINDS])
def test_of_a_job_with_answers_taken_out_both_say_the_same(kind: FixingKind) -> None:
    job = FULL if kind == "staples" else replace(FULL, cloth=replace(FULL.cloth, fixing=Fixing(kind=kind)))
    random, paths = Random(5), list(leaves(job))
    for _ in range(25):
        less = job
        for path in random.sample(paths, 2):
            less = without(less, path)
        assert alike(less)


SIX_MM: dict[str, object] = {"drop": (inches(11), inches(11) + Length.of(Fraction(62, 10), "mm"), inches(11))}
"""6.2 mm is more than 0.6 cm and less than a quarter of an inch: beyond the tolerance of a metric job alone."""


@pytest.mark.parametrize(
    ("job", "hole"),
    [
        (with_section(small(standard="metric"), "left", **SIX_MM), "survey.section.left.hem_line"),
        *((with_section(small(standard=standard), "left", **SIX_MM), None) for standard in ("inches", None)),
        (Job(), "survey.section"),
        (small(), None),
        (small(fullness=Fullness()), "fullness.want"),
        (small(fullness=Fullness(aim="all the cloth I own")), "cloth.face.owned"),
        (surveyed(small(), section={"desk": section(40, 12)}), "survey.section.desk.side"),
        (with_section(small(), "left", left_end="returns"), "survey.section.left.left_return"),
        (with_section(small(), "left", drop=(inches(9), inches(12), inches(12))), "survey.section.left.hem_line"),
        (with_section(small(), "left", run=(inches(76),)), "survey.section.left.run.2"),
        (with_face(small(), width=None), "cloth.face.width"),
        (with_face(small(fullness=Fullness(want=Fraction(2))), kind="other", weight=None), "cloth.face.weight"),
    ],
)
def test_the_first_answer_that_is_missing_is_named(job: Job, hole: str | None) -> None:
    assert next(holes(job), None) == hole
    assert alike(job)


def test_only_what_may_be_found_out_later_is_passed_over_where_it_is_put_off() -> None:
    job = surveyed(small(), slatted=True, floor=None)
    missing = [*holes(job)]
    assert missing == ["survey.section.left.free_height", "survey.section.right.free_height", "survey.floor"]
    assert [may_be_later(key) for key in missing] == [True, True, False]
    assert [*holes(job, missing)] == ["survey.floor"]
