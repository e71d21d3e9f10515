"""Findings about the bed: each is raised by what calls for it, mended by its way out, and kept for its values."""

from __future__ import annotations

import re
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import everything, inches, section, small, with_face, with_section
from wizard.project.file_schema import meanings
from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.scene import Stroke
from wizard.render.drawings.sketch import PageSketch
from wizard.trade.job_fields import Allowances, BedSize, Job, Obstacle, Owned, Post, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Finding
from wizard.trade.sections import along_side, goes_on, post_at


def found(job: Job) -> dict[str, Finding]:
    return {each.id: each for each in make_plan(job).findings}


def surveyed(job: Job, **more: Any) -> Job:
    return replace(job, survey=replace(job.survey, **more))


def at_post(post: Post, **more: Any) -> Job:
    """The left section of a bed with rails 1 in thick, at a foot post of these measures."""
    return surveyed(with_section(small(), "left", **more), post={"foot-left": post})


SQUARE = Post(inches(3), inches(3), inches("1/2"), inches("1/2"), may_fix=True, turned=False)
"""Its step is 3 - 1/2 - 1 = 1 1/2 in both ways."""
RETURNS = {"right_end": "returns"}


def test_an_uneven_floor_is_spoken_of_with_both_ways_out() -> None:
    finding = found(with_section(small(), "left", drop=(inches(12), inches("12 1/8"), inches("12 1/2"))))[
        "floor-uneven:left"
    ]
    assert finding.level == "note"
    assert finding.key == "survey.section.left.hem_line"
    choices = [{finding.key: "level"}, {finding.key: "follow the floor"}]
    assert [each.entries for each in finding.offers] == choices
    assert_says(finding, "floor-uneven")


def test_a_chosen_level_hem_over_an_uneven_floor_says_its_daylight_and_a_following_one_says_nothing() -> None:
    fallen = {"drop": (inches(12), inches("12 1/8"), inches("12 1/2"))}
    level = found(with_section(small(), "left", hem_line="level", **fallen))
    assert "floor-uneven:left" not in level
    assert "shows gaps of 0 in, 1/8 in, 1/2 in" in level["hem-daylight:left"].sentence
    follows = found(with_section(small(), "left", hem_line="follow the floor", **fallen))
    assert not {"floor-uneven:left", "hem-daylight:left"} & set(follows)


@pytest.mark.parametrize(
    ("id", "wrong", "right"),
    [
        ("drop-apart:left", {"drop": (inches(12), inches("14 1/16"))}, {"drop": (inches(12), inches(14))}),
        ("run-lean:left", {"run": (inches(76), inches("76 3/8"))}, {"run": (inches(76), inches("76 1/4"))}),
        ("run-differs:left:right", {"run": (inches("76 9/16"),) * 2}, {"run": (inches("76 1/2"),) * 2}),
        ("run-long:left", {"run": (inches("240 1/16"),) * 2}, {"run": (inches(240),) * 2}),
        ("run-short:left", {"run": (inches(11),) * 2}, {"run": (inches(12),) * 2}),
        ("drop-size:left:1", {"drop": (inches(2),) * 3}, {"drop": (inches(3),) * 3}),
        ("drop-size:left:3", {"drop": (inches(31),) * 3}, {"drop": (inches(30),) * 3}),
        ("reading-order:left", {"drop_at": (inches(50),)}, {"drop_at": (inches(5),)}),
        ("reading-outside:left", {"drop_at": (None, None, inches(80))}, {"drop_at": (None, None, inches(70))}),
        ("drop-none:left", {"floor_gap": inches(12)}, {"floor_gap": inches(1)}),
        ("hook:left:right", {"right_hook": inches(2)}, {"right_hook": inches(0)}),
    ],
)
def test_a_reading_that_looks_wrong_is_spoken_of_until_it_is_mended(
    id: str, wrong: dict[str, Any], right: dict[str, Any]
) -> None:
    finding = found(with_section(small(), "left", **wrong))[id]
    assert finding.sentence.endswith(".")
    assert finding.way_out.endswith(".")
    assert finding.key.startswith("survey.section.")
    assert id not in found(with_section(small(), "left", **right))


def test_a_run_of_exactly_twenty_feet_is_no_surprise_in_any_unit() -> None:
    assert "run-long:left" not in found(with_section(small(), "left", run=(Length.of(6096, "mm"),) * 2))
    assert "run-long:left" in found(with_section(small(), "left", run=(Length.of(6097, "mm"),) * 2))


def test_a_run_far_from_the_nominal_bed_is_read_again() -> None:
    queen = surveyed(small(), bed_size="US queen")
    assert not [each for each in found(queen) if each.startswith("run-nominal")]
    assert set(found(with_section(queen, "foot", run=(inches(53),) * 2))) >= {"run-nominal:foot"}
    assert set(found(with_section(queen, "left", run=(inches(87),) * 2))) >= {"run-nominal:left"}


@pytest.mark.parametrize(("size", "words"), [("EU 170", "an EU 170 bed"), ("UK 150", "a UK 150 bed")])
def test_the_nominal_bed_is_told_with_its_article(size: BedSize, words: str) -> None:
    odd = with_section(surveyed(small(), bed_size=size), "foot", run=(inches(40),) * 2)
    assert words in found(odd)["run-nominal:foot"].sentence


def test_lengths_held_against_each_other_are_said_in_the_unit_of_the_job_whatever_tape_they_were_read_with() -> None:
    job = replace(small(), show="cm", standard="metric")
    job = with_section(
        job, "left", run=(inches("20 1/16"),) * 2, drop=(inches(12), inches("12 1/16"), inches("14 1/8"))
    )
    job = with_section(job, "right", run=(inches("30 5/16"), Length.of(75, "cm")))
    raised = found(job)
    assert_says(raised["run-differs:left:right"], "run-differs, metric")
    for id in ("run-lean:right", "drop-apart:left", "floor-uneven:left"):
        assert not re.search(r"[0-9] in\b", raised[id].sentence)


def test_lengths_held_against_each_other_are_said_as_they_were_read_where_all_are_short_in_the_unit_of_the_job() -> (
    None
):
    job = with_section(small(), "right", run=(inches("77 1/16"),) * 2)
    assert_says(found(job)["run-differs:left:right"], "run-differs, as read")


def test_a_side_in_two_sections_is_compared_as_one() -> None:
    halves = {"a": section(38, 12, side="left"), "b": section(38, 12, side="left"), "right": section(76, 12)}
    assert "run-differs:left:right" not in found(surveyed(small(), section=halves))


def test_a_post_that_ends_short_of_the_rails_inner_face_leaves_nothing_to_fix_to() -> None:
    thin = replace(SQUARE, along_end=inches("1 1/4"))
    assert "ends 1/4 in short" in found(at_post(thin))["step-below:left:right"].sentence
    assert "step-below:left:right" not in found(at_post(replace(SQUARE, along_end=inches("1 1/2"))))


def test_the_sizes_of_a_post_change_places_round_the_corner() -> None:
    # along the side rail it is thin: that is its size across the foot run, so the foot section is spoken of
    thin = found(at_post(replace(SQUARE, along_side=inches(1))))
    assert "step-below:foot:left" in thin
    assert "step-below:left:right" not in thin


def test_a_return_goes_as_far_as_both_steps_and_no_further() -> None:
    assert "return-long:left:right" not in found(at_post(SQUARE, **RETURNS, right_return=inches(3)))
    long = found(at_post(SQUARE, **RETURNS, right_return=inches("3 1/16")))["return-long:left:right"]
    assert long.level == "warn"
    assert_says(long, "return-long")


def test_a_return_is_not_fixed_into_a_post_that_may_not_be_fixed_into() -> None:
    kept_whole = replace(SQUARE, may_fix=False)
    assert "return-unfixed:left:right" in found(at_post(kept_whole, **RETURNS, right_return=inches(1)))
    assert "return-unfixed:left:right" not in found(at_post(SQUARE, **RETURNS, right_return=inches(1)))
    assert "return-unfixed:left:right" not in found(at_post(kept_whole))


def test_a_return_at_a_post_that_is_not_measured_says_so_and_asks_for_nothing() -> None:
    plan = make_plan(with_section(small(), "left", **RETURNS, right_return=inches(1)))
    assert "return-unmeasured:left:right" in {each.id for each in plan.findings if each.level == "note"}
    assert plan.missing == ()


def test_of_two_returns_at_one_post_the_second_lies_inside_the_first() -> None:
    job = with_section(small(), "left", **RETURNS, right_return=inches(1))
    assert "two-returns:foot-left" not in found(job)
    assert "two-returns:foot-left" in found(with_section(job, "foot", left_end="returns", left_return=inches(1)))


def test_a_turned_leg_asks_for_the_daylight_beside_it() -> None:
    turned = replace(SQUARE, turned=True)
    asks = found(at_post(turned))["turned-leg:left:right"]
    assert asks.key == "survey.section.left.right_daylight_top"
    read = {"right_daylight_top": inches(0), "right_daylight_floor": inches("1/2")}
    assert "turned-leg:left:right" not in found(at_post(turned, **read))


def test_a_ledger_must_leave_room_for_half_the_tape_and_the_raise() -> None:
    slatted = surveyed(small(), slatted=True)
    low = with_section(slatted, "left", free_height=inches("1 1/8"), raised=inches("1/4"))
    assert "The folded tape needs 1 1/4 in" in found(low)["ledger-low:left"].sentence
    assert "ledger-low:left" not in found(with_section(low, "left", free_height=inches("1 1/4")))
    assert "ledger-low:left" not in found(with_section(low, "left", fixing_face="lower back edge"))


@pytest.mark.parametrize(
    ("free", "raised", "case"),
    [
        ("3/4", "0", "ledger-low, tape"),
        ("1", "1/4", "ledger-low, tape"),
        ("1/2", "0", "ledger-low, narrow tape"),
        ("7/16", "0", "ledger-low, no tape"),
        ("0", "0", "ledger-low, no tape"),
        ("1 1/8", "3/4", "ledger-low, raised"),
    ],
)
def test_the_way_out_of_a_low_ledger_is_one_that_works(free: str, raised: str, case: str) -> None:
    slatted = surveyed(small(), slatted=True)
    low = with_section(slatted, "left", free_height=inches(free), raised=inches(raised))
    assert_says(found(low)["ledger-low:left"], case)


def test_a_deep_top_allowance_grows_smaller_with_the_tape_below_a_low_ledger() -> None:
    job = replace(surveyed(small(), slatted=True), allowances=Allowances(top=inches(1)))
    low = with_section(job, "left", free_height=inches("3/4"))
    assert_says(found(low)["ledger-low:left"], "ledger-low, deep top")
    tape = replace(low.cloth.tape, width=inches("1 1/2"))
    mended = replace(low, allowances=Allowances(top=inches("3/4")), cloth=replace(low.cloth, tape=tape))
    assert not {"ledger-low:left", "tape-top"} & set(found(mended))


@pytest.mark.parametrize("kind", ["heater", "vent", "socket"])
def test_heater_vent_and_socket_are_always_spoken_of(kind: Any) -> None:
    for choice in ("no fixing", "keep clear", None):
        job = with_section(small(), "left", in_the_way={"it": Obstacle(kind=kind, at=inches(20), do=choice)})
        assert found(job)["danger:left:it"].level == "warn"


def test_a_thing_beyond_the_end_of_the_run_is_read_again() -> None:
    job = with_section(small(), "left", in_the_way={"it": Obstacle(kind="bracket", at=inches(80), do="no fixing")})
    assert "outside-run:left:it" in found(job)


def test_a_hard_floor_without_daylight_and_wide_daylight_are_asked_about() -> None:
    assert "gap-none" in found(surveyed(small(), floor="hard floor"))
    assert "gap-none" not in found(surveyed(small(), floor="hard floor", floor_gap=inches("1/8")))
    assert "gap-wide" in found(surveyed(small(), floor_gap=inches("5/8")))
    assert "gap-wide" not in found(surveyed(small(), floor_gap=inches("1/2")))


def test_a_section_with_daylight_of_its_own_is_looked_at_by_itself() -> None:
    hard = surveyed(small(), floor="hard floor", floor_gap=inches("1/4"))
    none = found(with_section(hard, "left", floor_gap=ZERO))["gap-none:left"]
    assert_says(none, "gap-none")
    assert none.key == "survey.section.left.floor_gap"
    wide = found(with_section(hard, "foot", floor_gap=inches(3)))["gap-wide:foot"]
    assert_says(wide, "gap-wide")
    for job in (
        hard,
        with_section(hard, "left", floor_gap=inches("3/8")),
        with_section(hard, "left", floor_gap=ZERO, on=False),
    ):
        assert not [each for each in found(job) if each.startswith("gap-")]


def test_the_daylight_of_the_whole_bed_is_not_asked_about_where_every_section_has_its_own() -> None:
    job = surveyed(small(), floor="hard floor")
    for section_id in ("left", "right", "foot"):
        job = with_section(job, section_id, floor_gap=inches("1/4"))
    assert not [each for each in found(job) if each.startswith("gap-")]


def test_a_kept_finding_stays_kept_until_its_values_change() -> None:
    leaning = with_section(small(), "left", run=(inches(76), inches(77)))
    open_one = found(leaning)["run-lean:left"]
    kept = replace(leaning, kept={open_one.id: open_one.values})
    assert found(kept)["run-lean:left"].kept
    assert make_plan(kept).findings[-1].id == "run-lean:left"
    assert not found(with_section(kept, "left", run=(inches(76), inches(78))))["run-lean:left"].kept


def test_findings_come_in_the_order_of_their_weight() -> None:
    order = ("stop", "warn", "ask", "note")
    levels = [order.index(each.level) for each in make_plan(everything()).findings]
    assert levels == sorted(levels)


@pytest.mark.parametrize("end", ["left", "right"])
def test_a_section_meets_no_corner_post_where_another_goes_on_unless_one_is_named_there(end: str) -> None:
    """Entered along a side, they lie from the head to the foot: the first one's foot end is at no corner."""
    loose = replace(SQUARE, may_fix=False)
    part = {f"{end}_end": "returns", f"{end}_return": inches(1)}
    alone = surveyed(
        with_section(small(), "left", **part), post=dict.fromkeys(("head-left", "foot-left", "middle leg"), loose)
    )
    beside = surveyed(alone, section={**alone.survey.section, "more": section(20, 12, side="left")})
    named = with_section(beside, "left", **{f"{end}_post": "middle leg"})
    hangs_free = f"return-unfixed:left:{end}"
    assert hangs_free in found(alone)
    assert (hangs_free in found(beside)) is (end == "left")
    assert hangs_free in found(named)


SHORT = {"right_end": "stops short", "right_short": inches(11), "run": (inches(65),) * 2}


def test_a_side_that_stops_short_of_a_post_is_as_long_as_the_other_with_what_it_leaves() -> None:
    """65 in and 11 in short are the 76 in of the other side; and it meets no post there."""
    loose = {"head-right": replace(SQUARE, may_fix=False)}
    short = surveyed(with_section(small(), "right", **SHORT), post=loose)
    assert "run-differs:left:right" not in found(short)
    assert "run-differs:left:right" in found(with_section(short, "right", right_short=inches(10)))
    assert (
        "say so at its end" in found(with_section(short, "right", right_end="stops"))["run-differs:left:right"].way_out
    )
    assert not [each for each in found(short) if each.endswith(":right:right")]


@pytest.mark.parametrize(
    ("owned", "which"),
    [
        (Owned(length=inches("1 13/16")), "size:cloth.face.owned.chest.length"),
        (Owned(length=inches(90), width=inches(181)), "size:cloth.face.owned.chest.width"),
    ],
)
def test_a_length_in_hand_in_the_wrong_unit_is_asked_again(owned: Owned, which: str) -> None:
    finding = found(with_face(small(), owned={"chest": owned}))[which]
    assert finding.level == "ask"
    assert found(with_face(small(), owned={"chest": Owned(length=inches(90), width=inches(50))})).get(which) is None


def test_hems_that_meet_at_a_corner_and_hang_unlike_are_spoken_of() -> None:
    """Left: level at 12, with 12 3/8 read at the foot: 3/8 of daylight there. Foot: level, none."""
    fallen = with_section(small(), "left", drop=(inches(12), inches(12), inches("12 3/8")), hem_line="level")
    finding = found(fallen)["hems-apart:foot-left"]
    assert finding.level == "note"
    assert_says(finding, "hems-apart")
    assert finding.key == "survey.section.foot.hem_line"
    follows = with_section(fallen, "left", hem_line="follow the floor")
    quarter = with_section(fallen, "left", drop=(inches(12), inches(12), inches("12 1/4")))
    assert not [each for job in (follows, quarter) for each in found(job) if each.startswith("hems-apart")]


def test_an_end_that_is_to_lie_over_the_next_section_wants_one() -> None:
    """Left, right and foot: nothing stands at the head, so there is nothing to lie over there."""
    over = with_section(small(), "left", left_end="overlaps", left_return=inches(2))
    assert found(over)["overlap-none:left:left"].level == "ask"
    beside = surveyed(over, section={"more": section(20, 12, side="left"), **over.survey.section})
    foot = with_section(small(), "left", right_end="overlaps", right_return=inches(2))
    for job in (beside, foot):
        assert not [each for each in found(job) if each.startswith("overlap-none")]


def test_how_far_short_an_end_stops_is_needed_before_the_plan_is_complete() -> None:
    unsaid = with_section(small(), "right", right_end="stops short", run=(inches(76),) * 2)
    plan = make_plan(unsaid)
    assert not plan.complete
    assert [each.key for each in plan.missing] == ["survey.section.right.right_short"]
    assert "run-differs:left:right" not in found(with_section(unsaid, "right", run=(inches(60),) * 2))
    assert make_plan(with_section(unsaid, "right", right_short=inches(11))).complete


def test_a_side_whose_run_was_read_past_where_it_stops_is_told_with_how_far_short_it_stops() -> None:
    """76 in were read post to post, and 11 in short said as well."""
    finding = found(with_section(small(), "right", **SHORT | {"run": (inches(76),) * 2}))["run-differs:left:right"]
    assert_says(finding, "run-differs, short")
    assert "the run only as far as the section goes" in finding.way_out


def test_there_is_nothing_to_lie_over_where_the_next_section_stops_short() -> None:
    over = with_section(small(), "foot", right_end="overlaps", right_return=inches(2))
    assert not [each for each in found(over) if each.startswith("overlap-none")]
    short = with_section(over, "right", left_end="stops short", left_short=inches(11))
    assert "overlap-none:foot:right" in found(short)


# A floor that slopes two ways is asked about: one side is read from head to foot, the other from foot to head.
def slopes_found(left: tuple[str, str, str], right: tuple[str, str, str]) -> list[Finding]:
    job = small()
    for side, drops in (("left", left), ("right", right)):
        job = with_section(job, side, drop=tuple(inches(each) for each in drops))
    return [each for each in make_plan(job).findings if each.id == "floor-slopes:left:right"]


def test_drops_given_from_head_to_foot_on_both_sides_are_asked_about() -> None:
    [finding] = slopes_found(("12 1/8", "12 1/4", "12 9/16"), ("12 1/8", "12 1/4", "12 9/16"))
    assert finding.level == "warn"
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
    assert slopes_found(left, right) == []


# Sections that share a side: run, rail and drawing mean the same lengths, whichever posts the ends stop short of.
FOOT_PART = section(54, 12, side="right", right_end="stops short", right_short=inches(22))
HEAD_PART = section(8, 12, side="right", left_end="stops short", left_short=inches(68))
"""76 in of rail, 14 in of it bare between them."""


def ladder(**more: Section) -> Job:
    """A bed whose right side is made of two sections, a ladder between them."""
    job = small()
    left = {"left": job.survey.section["left"]}
    return surveyed(job, section={**left, "foot-part": FOOT_PART, "head-part": HEAD_PART, **more})


def test_sections_read_past_one_another_to_the_corner_posts_are_not_added_up() -> None:
    assert "run-differs:left:right" not in found(ladder())
    assert "size:survey.section.head-part.left_short" not in found(ladder())


def test_the_one_that_was_misread_is_named_with_what_its_side_is_reckoned_from() -> None:
    finding = found(with_section(ladder(), "head-part", left_short=inches(78)))["run-differs:left:right"]
    assert_says(finding, "run-differs, past others")
    assert finding.key == "survey.section.head-part.run.1"


@pytest.mark.parametrize(
    ("halves", "rail"),
    [
        ({}, 76),
        ({"right_end": "stops short", "right_short": inches(6)}, 82),
    ],
)
def test_sections_that_begin_where_the_one_before_ends_are_added_up(halves: dict[str, Any], rail: int) -> None:
    """A post stands between them, up to which both go."""
    both = {"a": section(38, 12, side="right"), "b": section(38, 12, side="right", **halves)}
    job = surveyed(small(), section={"left": small().survey.section["left"], **both})
    raised = found(job).get("run-differs:left:right")
    assert (raised is None) == (rail == 76)
    if raised:
        assert f"the right {rail} in (a section and b section: runs of 76 in together, and 6 in" in raised.sentence


def test_a_side_that_is_far_from_the_bed_size_is_told_by_its_rail() -> None:
    queen = surveyed(ladder(), bed_size="US queen", section=with_section(
        ladder(), "foot-part", right_short=inches(42)).survey.section)  # fmt: skip
    assert found(queen)["run-nominal:right"].sentence.startswith(
        "From post to post the right side is 96 in (foot-part section: a run of 54 in, and 42 in from there to the post"
    )


def test_they_lie_where_they_say_whatever_the_order_they_were_entered_in() -> None:
    survey = ladder().survey
    assert [each for each, _ in along_side(survey, "right")] == ["head-part", "foot-part"]
    assert (goes_on(survey, "foot-part", "left"), post_at(survey, "foot-part", "left")) == (False, "foot-right")
    assert post_at(survey, "head-part", "right") == "head-right"
    assert goes_on(survey, "foot-part", "right")


def test_the_drawing_shows_the_sections_as_long_as_they_are() -> None:
    """8 in and 54 in of a rail of 76 in."""
    scene = bed_view(PageSketch(make_plan(ladder()), (), "", 761, 761), "")
    lines = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy" and each.x1 == each.x2]
    rail = next(each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "fine")
    runs = sorted(round(abs(each.y2 - each.y1) / abs(rail.y2 - rail.y1) * 76) for each in lines)
    assert runs == [8, 54, 76]


def test_the_schema_says_what_a_run_is_and_where_it_stops_short() -> None:
    says = {key: " ".join(words.split()) for key, words in meanings(Section).items()}
    assert says["run"].startswith("Length of the skirt along the rail, as you see it: post to post, unless")
    assert "bed's corner post" in says["right_short"]
