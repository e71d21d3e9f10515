"""The work: only the steps that apply, in the order of doing, each with its own figures and its caution before it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from msgspec.structs import replace

from tests.trade.sample_jobs import (
    BED,
    FACE,
    INNER,
    SIDE,
    bed,
    inches,
    leaves,
    ledger_of,
    side,
    small,
    steps,
    with_face,
    without,
)
from wizard.trade.cutting import Cutting, Piece
from wizard.trade.cutting.cut_records import LayoutWay
from wizard.trade.job_fields import Cloths, Fixing, FixingKind, Fullness, Job, Obstacle, Owned, Post
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import STAGES, Step
from wizard.trade.purchases import purchases_of
from wizard.trade.steps import work_of

PLAIN = [
    "buy", "look-over:face", "square:face", "cut:face", "label:face", "join:face:left", "hem:face:left", "stay:left",
    "gather:left", "mark:left", "draw-up:left", "try:left", "tape:left", "fold:left", "clear", "hang:left", "dress",
    "put-back", "care",
]  # fmt: skip
LINED = bed(interlining=INNER)
UNEVEN = {"hem_line": "follow the floor", "drop": (inches("11"), inches("12"), inches("13"))}


def said(job: Job, *ids: str) -> str:
    found = steps(job)
    return " ".join(line for id in ids for line in found[id].lines)


def with_cloth(**more: Any) -> Job:
    return bed(face=replace(FACE, **more))


def in_the_way(*things: Obstacle) -> Job:
    return side(in_the_way={f"thing-{number}": thing for number, thing in enumerate(things)})


def cautioned(job: Job, caution: str) -> list[str]:
    """The steps that a caution is said before."""
    return [id for id, step in steps(job).items() if caution in {each.id for each in step.cautions}]


def test_a_plain_bed_in_the_order_of_doing_by_fixed_ids_whatever_it_is_called() -> None:
    assert list(steps(BED)) == PLAIN
    typed = "[b]silk[/b] \x1b[31m {0}"
    named = steps(bed(section={"left": replace(SIDE, name="by the window")}, face=replace(FACE, name=typed)))
    assert list(named) == PLAIN
    assert "by the window" in named["hang:left"].title
    assert typed in named["cut:face"].title
    stages = [STAGES.index(each.stage) for each in steps(bed(interlining=replace(INNER, wash="washed first"))).values()]
    assert all(before <= after for before, after in pairwise(stages))
    assert list(steps(BED).values()) == list(steps(BED).values())


SHORT = side(run=(inches(16),) * 2)
FLAT = replace(BED, fullness=Fullness(want=Fraction(1)))
FOOTBOARD = bed(section={"foot": replace(SIDE, fixing_face="lower back edge", raised=inches("1/4"))})
PATTERNED = with_cloth(repeat=inches(9), match=True)


@pytest.mark.parametrize(
    ("step", "words", "job", "others"),
    [
        ("wash:face", "3 % along the roll and 0 % across it",
         with_cloth(wash="washed first", warp_shrink=Fraction(3, 100)), [BED]),
        ("hem:face:left", "turn under 1/4 in, then turn up 1 in (1 1/4 in altogether)",
         with_cloth(hem=inches(1), hem_kind="single", hem_turn=inches("1/4")), [BED]),
        ("cut:face", "one-way", with_cloth(one_way=True), [BED]),
        ("look-over:face", "Your length “shelf”: no piece may touch the damage from 10 in to 12 in.",
         with_cloth(owned={"shelf": Owned(inches(108), damage_from=inches(10), damage_to=inches(12))}), [BED]),
        ("join:face:left", "Match the pattern at the seam line", PATTERNED,
         [with_cloth(repeat=inches(9), match=False), with_cloth(repeat=inches(9), match=True, lay="along")]),
        ("join:face:left", "The pattern does not meet at the joins", with_cloth(repeat=inches(9), lay="along"),
         [PATTERNED]),
        ("join:interlining:left", "Lap each edge 1/2 in over the next", bed(interlining=replace(INNER, join="lap")),
         [LINED]),
        ("gather:left", "Stop at every join", BED, [SHORT]),
        ("gather:left", "cord", BED, [SHORT]),
        ("hang:left", "At the head end: it ends 11 in short of the post.",
         side(left_end="stops short", left_short=inches(11)), [BED]),
        ("clear", "Number the slats", bed(survey={"slatted": True}), [BED]),
        ("put-back", "Lay the slats back", bed(survey={"slatted": True}), [BED]),
        ("care", "not washed first", with_cloth(wash="not washed"), [BED]),
        ("square:face", "may take 1 in of cloth as bought, ≈ 15/16 in once washed, off the end",
         with_cloth(wash="washed first", warp_shrink=Fraction(5, 100)), [BED]),
        ("square:face", "may take 1 in off the end", BED, []),
        ("layers:left", "Lay the fleece on it, wrong sides together, raw tops level. It ends 1/2 in short of the face "
         "at both ends, and its hem is 1/2 in above the face's.", LINED, [BED]),
        ("hem:interlining:left", "turn up 1 1/2 in twice (3 in altogether)", LINED, []),
        ("hem:interlining:left", "Finished width: 99 in. From the raw top to the hem: 12 in.", LINED, []),
        ("hang:foot", "On the rail's lower back edge, lay the tape's lower edge 1/4 in above the rail's lower edge.",
         FOOTBOARD, []),
        ("hang:foot", "Measure along the tape, from inside the bed: from the bed's left.", FOOTBOARD, []),
        ("try:left", "check that the hem just touches the floor and that both ends are where they belong.", BED, []),
    ],
)  # fmt: skip
def test_a_step_says_what_its_job_calls_for_and_no_other(step: str, words: str, job: Job, others: list[Job]) -> None:
    assert words in said(job, step)
    assert [words in " ".join(each.lines) for other in others if (each := steps(other).get(step))].count(True) == 0


def test_steps_that_do_not_apply_are_left_out() -> None:
    assert not [each for each in steps(SHORT) if each.startswith("join")], "cut whole"
    assert not {"gather:left", "draw-up:left"} & set(steps(FLAT))
    assert {"stay:left", "mark:left", "tape:left"} <= set(steps(FLAT))
    odd = side(run=(Length(Fraction(40 * 32 + 1, 32)),) * 2)
    assert "gather:left" not in steps(replace(odd, fullness=FLAT.fullness)), "rounding to the mark is no gathering"
    assert list(steps(with_cloth(wash="washed first", warp_shrink=Fraction(3, 100))))[:2] == ["buy", "wash:face"]
    assert "slats" not in said(BED, "clear", "put-back")


def test_a_length_that_is_washed_already_is_left_out_of_the_wash() -> None:
    owned = {"shelf": Owned(length=Length.of(1, "yd"), washed=True), "new": Owned(length=Length.of(1, "yd"))}
    lines = said(with_cloth(wash="washed first", owned=owned), "wash:face")
    assert "Your length “shelf” is washed already: leave it out." in lines
    assert "new" not in lines


def test_each_inner_layer_is_hemmed_by_itself_and_laid_behind_the_face_and_numbers_run_on_over_all_cloths() -> None:
    lined = steps(LINED)
    order = list(lined)
    assert order.index("hem:face:left") < order.index("hem:interlining:left") < order.index("layers:left")
    cuts = [line.partition(",")[0] for id in ("cut:face", "cut:interlining") for line in lined[id].listed]
    assert cuts == ["No. 1", "No. 2", "No. 3", "No. 4"]
    assert lined["label:interlining"].lines[1] == (
        "Lay each section's pieces together in order from its left end, as you see it from the room: "
        "left section no. 3 and 4."
    )
    joined = lined["join:interlining:left"].lines[0]
    assert joined == "Join in this order from the left end, arrows up, tops level: no. 3 and 4."


def test_the_hem_gives_its_folds_and_what_it_finishes_at() -> None:
    assert steps(LINED)["hem:face:left"].lines == (
        "At both ends turn in 1/2 in twice (1 in altogether), press, and stitch.",
        "Along the bottom turn up 1/2 in twice (1 in altogether), and press.",
        "Stitch close to the upper fold.",
        "Finished width: 100 in.",
        "From the raw top to the hem: 12 1/2 in.",
        "Press.",
    )


# Cutting.
def cut(*pieces: Piece, way: LayoutWay = "along") -> Step:
    """The cutting of the bed; as laid out by hand, where pieces are given."""
    ledger, plan = ledger_of(BED)
    layer = plan.layers[0]
    if pieces:
        layer = replace(layer, cutting=Cutting(replace(layer.cutting.best, way=way, pieces=pieces)))
    return next(each for each in work_of(ledger, plan.parts, (layer,)) if each.id == "cut:face")


def lane(order: int, width: str, cut: str, start: str = "0", across: str = "0") -> Piece:
    return Piece("left", order, inches(width), inches(cut), "roll", inches(start), inches(across), order)


def test_the_cut_list_runs_from_the_squared_end() -> None:
    assert cut().lines == (
        "Cut across at each “to”, in the order of the cut list, and then slit what is listed.",
        "As you cut each piece, chalk an arrow on its wrong side that points up.",
    )
    assert cut().listed == (
        "No. 1, 13 1/2 in long × 49 in wide: left section, 1 of 2, from 0 in to 13 1/2 in.",
        "No. 2, 13 1/2 in long × 54 in wide: left section, 2 of 2, from 13 1/2 in to 27 in.",
    )
    low, high = replace(SIDE, run=(inches(6),) * 2, drop=(inches(9),) * 3), replace(SIDE, run=(inches(12),) * 2)
    beside = steps(bed(section={"left": high, "foot": low}))["cut:face"].listed
    down = "10 1/2 in long × 17 in wide: foot section, 1 of 1, from 0 in to 10 1/2 in, 32 in from the left edge."
    assert [line.partition(", ")[2] for line in beside if "foot" in line] == [down]


def test_cloth_laid_along_the_roll_is_cut_in_lanes_and_none_is_slit_through_a_wider_piece_of_it() -> None:
    """By hand: a strip of 102 in, 2 in from the left edge; then pieces of 13 and 13 1/2 in on end in one lane."""
    one = cut(lane(1, "102", "13 1/2", across="2"))
    assert one.lines[:2] == (
        "First slit the roll to buy at 2 in and 15 1/2 in from its left edge, up to the largest “to”.",
        "Cut across at each “to”, in the order of the cut list.",
    )
    assert one.listed == (
        "No. 1, 13 1/2 in long × 102 in wide: left section, 1 of 1, from 0 in to 102 in, 2 in from the left edge.",
    )
    assert cut(lane(1, "50", "13"), lane(2, "52", "13 1/2", "50")).lines[:2] == (
        "First slit the roll to buy at 13 1/2 in from its left edge, up to the largest “to”.",
        "Cut across at each “to”, in the order of the cut list, and then slit what is listed.",
    )


SLIT_FIRST = "First slit the roll to buy at 20 in from its left edge, up to the largest “to”."
ENDS = "Cut across at each “to”, in the order of the cut list"
BOTH_ENDS = "Cut across at each “from” and each “to”, in the order of the cut list"
BESIDE = "Where pieces lie side by side, first cut across where the last of them ends, then slit"


@pytest.mark.parametrize(
    ("way", "pieces", "told"),
    [
        ("cross-cut", [(1, "20", "13"), (2, "54", "13", "20"), (3, "54", "13", "40")], [BOTH_ENDS]),
        ("slit", [(1, "20", "13"), (1, "20", "13", "22"), (2, "30", "12", "0", "20")], [SLIT_FIRST, BOTH_ENDS]),
        ("slit", [(1, "10", "13"), (1, "10", "12", "0", "10"), (2, "30", "12", "0", "20")], [SLIT_FIRST, ENDS, BESIDE]),
        # What is stacked beside one width would be slit through the next.
        (
            "stacked",
            [(1, "20", "13"), (2, "30", "6", "0", "20"), (3, "30", "6", "6", "20"), (4, "54", "13", "13")],
            [ENDS, BESIDE],
        ),
    ],
)
def test_cloth_is_cut_at_both_ends_of_waste_and_slit_through_no_piece(
    way: LayoutWay, pieces: Sequence[tuple[Any, ...]], told: Sequence[str]
) -> None:
    lines = cut(*(lane(*each) for each in pieces), way=way).lines
    assert [line.partition(", and")[0] for line in lines if "chalk" not in line] == told


# Measured once more before dear cloth is cut, tried on the rail before the tape is stitched.
@pytest.mark.parametrize(
    ("face", "why"),
    [
        ({"kind": "fine silk"}, "is silk"),
        ({"price": Decimal(40)}, "costs 40.00 a yd"),
        ({"price": Decimal("39.99")}, None),
        ({"price": Decimal(40), "sold_by": "m"}, "costs 40.00 a m"),
        ({"owned": {"chest": Owned(length=inches(400))}}, "may be hard to buy again"),
        ({"owned": {"chest": Owned(length=inches(400))}, "price": Decimal(5)}, None),
        ({"owned": {"chest": Owned(length=inches(20))}}, None),
        ({}, None),
    ],
)
def test_dear_cloth_is_measured_for_once_more_before_it_is_cut(face: dict[str, Any], why: str | None) -> None:
    found = steps(with_cloth(**face))
    assert ("measure" in found) == (why is not None)
    if why is not None:
        assert found["measure"].lines[0] == f"The reed cloth {why}: measure once more before you cut it."
        assert found["measure"].lines[1] == "Left section: run 40 in; drops 12 in, 12 in, 12 in."
        assert found["measure"].stage == "Cutting"
        assert list(found).index("measure") == list(found).index("look-over:face") + 1


def test_it_is_measured_once_however_many_layers_are_dear_and_one_section_is_tried_on_the_rail() -> None:
    silk = replace(FACE, kind="fine silk", use=True)
    order = list(steps(bed(face=silk, lining=silk)))
    assert order.count("measure") == 1
    assert order.index("look-over:face") < order.index("measure") < order.index("cut:face")
    order = [each.id for each in make_plan(small()).work]
    assert [each for each in order if each.startswith("try")] == ["try:left"]
    assert order.index("try:left") == order.index("tape:left") - 1


# Marks and hems, measured from the head or from the bed's left.
def test_the_marks_stand_with_both_spacings_and_both_places() -> None:
    assert steps(BED)["mark:left"].lines == (
        "Cut the tape, and press it in half along its length: 42 in.",
        "Mark 1 in at each end to turn under.",
        "Finished tape, between those marks: 40 in.",
        "Fold the tape and the flat skirt into equal parts: 4.",
        "Each part on the tape: 10 in.",
        "Each part on the skirt: 25 in.",
        "Measure every mark from the same end, never from the mark before: the head.",
    )
    flat_return = replace(SIDE, left_end="returns", left_return=inches("2"), returns_flat=True)
    right = steps(bed(section={"right": flat_return}))["mark:right"]
    assert right.lines[-1] == "Measure every mark from the same end, never from the mark before: the head."
    assert "Fold the gathered part of the tape and the flat skirt into equal parts: 4." in right.lines
    marks = [f"Mark {n}: {n * 10} in on the tape, {n * 25} in on the skirt." for n in range(1, 5)]
    assert (list(steps(BED)["mark:left"].listed), list(right.listed)) == (marks[:3], marks)
    along = steps(side(**UNEVEN))["mark:left"].listed[0]
    assert along == "Mark 1: 10 in on the tape, 25 in on the skirt; the drop there is 11 1/2 in."


def test_a_hem_that_follows_the_floor_is_folded_at_every_mark() -> None:
    found = steps(bed(section={"left": replace(SIDE, **UNEVEN)}, interlining=INNER))
    assert found["hem:face:left"].lines[1:3] == (
        "This hem follows the floor. Along the flat top, from the head, measure down from the raw edge at each place: "
        "1/2 in of top allowance and the drop.",
        "Draw a line through these points, fold on it, and trim the cloth to 1 in below the fold.",
    )
    assert found["hem:face:left"].listed == (
        "0 in: 11 1/2 in down.", "25 in: 12 in down.", "50 in: 12 1/2 in down.", "75 in: 13 in down.",
        "100 in: 13 1/2 in down.",
    )  # fmt: skip
    assert found["hem:interlining:left"].listed == (
        "0 in: 11 in down.", "24 1/2 in: 11 1/2 in down.", "49 1/2 in: 12 in down.", "74 1/2 in: 12 1/2 in down.",
        "99 in: 13 in down.",
    )  # fmt: skip
    inner = found["hem:interlining:left"].lines[1]
    assert inner.endswith("1/2 in of top allowance and the drop, less the setback.")
    right = steps(bed(section={"right": replace(SIDE, **UNEVEN)}))["hem:face:right"].listed
    assert right[:2] == ("0 in: 13 1/2 in down.", "25 in: 13 in down.")


# Hanging.
def test_hanging_gives_the_first_five_from_inside_the_bed() -> None:
    hang = steps(BED)["hang:left"]
    assert hang.lines == (
        "On the rail's inner face, lay the tape's lower edge level with the rail's lower edge.",
        "Measure along the tape, from inside the bed: from the head.",
        "Number of staples: 21.",
        "Set them in this order, one end, the other end, the middle, then outwards: 1/2 in, 39 1/2 in, 20 in, "
        "≈ 18 1/16 in, ≈ 21 15/16 in.",
        "Spacing of the others, from the middle outwards: ≈ 1 15/16 in.",
        "After the first one, feel the outside of the rail: no point may come through.",
    )
    assert hang.settings == ("staples with a 3/8 in leg",)


def test_what_turns_in_behind_a_post_is_said_and_whether_it_hangs_free() -> None:
    """A return of 1 in hangs free behind a post that one may not fix into: 41 in of tape, 40 in on the rail."""
    turned = {"left": replace(SIDE, right_end="returns", right_return=inches("1"))}
    for may, end in ((False, ", and hangs free there."), (True, ".")):
        survey = {"post": {"foot-left": Post(may_fix=may)}}
        lines = steps(bed(section=turned, survey=survey))["hang:left"].lines
        assert f"At the foot end: the last 1 in turns in behind the post{end}" in lines
        hooked = bed(section=turned, survey=survey, fixing=Fixing(kind="adhesive hook-and-loop"))
        told = said(hooked, "hang:left", "dress")
        assert ("Stick the hook side to the clean, dry rail: 40 in altogether." in told) is not may
        assert ("Leave these stretches of the tape free: 40 in to 41 in." in told) is not may
        assert "Turn the ends in at the posts" in told
    assert "Turn the ends in" not in said(BED, "dress")


def test_what_is_in_the_way_is_named_where_it_is_with_what_is_set_beside_it() -> None:
    leg = Obstacle(name="middle leg", at=inches("20"), width=inches("3"), do="no fixing")
    lines = steps(in_the_way(leg, Obstacle(kind="vent", at=inches("30"), do="keep clear")))["hang:left"].lines
    where = "In the way, from the head along the whole run:"
    assert f"{where} middle leg, its middle at 20 in, 3 in wide; set no fixing there." in lines
    kept = "set no fixing there. Tie or stitch the cloth back by hand so that it stays clear:"
    assert f"{where} vent, its middle at 30 in; {kept} it is not cut shorter there." in lines
    assert "Leave out, because something is in the way: 20 in." in lines
    # Those of the even row are near enough to it; about 5 in none is within 1/2 in of its edges at 17 1/2 and 22 1/2.
    assert not any(line.startswith("Set close beside it") for line in lines)
    wide = steps(in_the_way(replace(leg, width=inches(5))))["hang:left"].lines
    assert "Set close beside it instead: 17 in, 23 in." in wide


def test_a_split_section_is_made_and_hung_in_its_parts() -> None:
    leg = Obstacle(name="middle leg", at=inches("20"), width=inches("3"), do="split here", overlap=inches("4"))
    job = in_the_way(leg)
    assert [each for each in steps(job) if each.startswith("hang")] == ["hang:left/1", "hang:left/2"]
    assert "Measure along the tape, from inside the bed: from the end nearer the head." in said(job, "hang:left/2")
    assert "The two parts overlap where they meet; fix the outer one last" in said(job, "hang:left/1")


@pytest.mark.parametrize(
    ("kind", "tool", "words"),
    [
        ("tacks", "tack hammer", "Number of tacks: 14."),
        ("magnets", "pencil", "Number of magnets: 14."),
        ("upholstery pins", "pencil", "Number of upholstery pins: 14."),
        ("adhesive hook-and-loop", "cleaning cloth", "Stick the hook side to the clean, dry rail: 40 in."),
        ("hook-and-loop", "needle and strong thread", "to a band tied round the rail: 40 in."),
        ("glue", "glue gun", "Tape to hold with clips, one end, the other end, the middle, then outwards: 40 in."),
    ],
)
def test_each_fixing_has_its_own_way(kind: FixingKind, tool: str, words: str) -> None:
    found = steps(bed(fixing=Fixing(kind=kind)))
    assert tool in found["hang:left"].tools
    assert words in " ".join(found["hang:left"].lines)
    assert ("loop:left" in found) == ("loop" in kind)


# Cautions stand before the step that needs them.
@pytest.mark.parametrize(
    ("tools", "caution"),
    [(("iron", "steam iron"), "iron"), (("pins",), "count-pins"), (("sewing machine",), "power-tools")],
)
def test_each_step_that_takes_a_tool_has_its_caution_before_it(tools: tuple[str, ...], caution: str) -> None:
    washed = bed(face=replace(FACE, wash="washed first"), lining=INNER)
    taking = {
        id
        for id, step in steps(washed).items()
        if any(re.search(rf"\b{tool}\b", each) for tool in tools for each in step.tools)
    }
    assert len(taking) > 2
    assert taking <= {*cautioned(washed, caution)}


def test_what_is_on_one_run_is_cautioned_about_before_that_run_is_hung_in_all_its_parts_and_no_other() -> None:
    hot = replace(SIDE, in_the_way={"stove": Obstacle(kind="heater", at=inches("20"), do="keep clear")})
    assert cautioned(bed(section={"left": hot, "right": SIDE}), "heater-here") == ["buy", "hang:left"]
    leg = Obstacle(kind="centre leg", at=inches("25"), do="split here", overlap=inches("2"))
    plug = Obstacle(kind="socket", at=inches("10"), do="keep clear")
    assert cautioned(in_the_way(leg, plug), "socket-here") == ["hang:left/1", "hang:left/2"]


def test_the_caution_stands_before_the_step_that_needs_it() -> None:
    found = {key: {each.id for each in step.cautions} for key, step in steps(BED).items()}
    assert {"stapler", "stapler-jam", "behind-rail", "points"} <= found["hang:left"]
    assert "rotary-cutter" in found["cut:face"]
    assert "iron" in found["hem:face:left"]
    assert {"two-people", "nobody-on-bed"} <= found["clear"] & found["put-back"]
    assert "heaters" in found["dress"]


def test_every_step_has_words_and_a_time_to_five_minutes_and_its_figures_are_in_the_plan() -> None:
    ledger, plan = ledger_of(bed(section={"left": replace(SIDE, **UNEVEN), "foot": SIDE}, interlining=INNER))
    found = work_of(ledger, plan.parts, plan.layers)
    for step in found:
        assert all(line[-1] in ".:" for line in step.lines)
        assert step.lines
        assert (step.minutes > 0, step.minutes % 5) == (True, 0)
    assert {figure for step in found for figure in step.figures} <= set(ledger.figures)
    assert "part.left.mark_spacing_flat" in next(step for step in found if step.id == "mark:left").figures


def test_of_a_damaged_length_the_squaring_is_told_as_it_is_after_washing() -> None:
    damaged = Owned(length=inches(120), damage_from=inches(40), damage_to=inches(44), washed=False)
    owned = {"chest": damaged, "attic": replace(damaged, washed=True)}
    job = with_face(small(), wash="washed first", warp_shrink=Fraction(3, 100), owned=owned)
    lines = next(each.lines for each in make_plan(job).work if each.id == "square:face")
    assert [each for each in lines if "take off exactly" in each] == [
        "Your length “chest”: take off exactly 1 in of cloth as bought, ≈ 15/16 in once washed, because its damage is "
        "measured from there.",
        "Your length “attic”: take off exactly 1 in, because its damage is measured from there.",
    ]


# The work and the buying list are total: a hole or an odd answer leaves steps out and raises nothing.
THINGS = {"leg": Obstacle(kind="centre leg", at=inches("20"), width=inches("3"), do="no fixing")}
SPLIT = {"leg": replace(THINGS["leg"], do="split here", overlap=inches("4"))}
FULL = bed(
    section={"left": replace(SIDE, in_the_way=THINGS, **UNEVEN), "right": replace(SIDE, in_the_way=SPLIT)},
    interlining=replace(INNER, wash="washed first", owned={"shelf": Owned(length=inches("90"), washed=True)}),
    fixing=Fixing(kind="staples", pack=20),
)


def test_any_one_hole_leaves_a_plan_that_says_no_more_than_the_whole_one() -> None:
    whole = {each.split("/")[0] for each in steps(FULL)} | {"gather:right", "hang:right", "try:right"}
    paths = list(leaves(FULL))
    assert len(paths) > 40
    for path in paths:
        ledger, plan = ledger_of(without(FULL, path))
        work = work_of(ledger, plan.parts, plan.layers)
        assert {each.id.split("/")[0] for each in work} <= whole
        assert all(each.amount for each in purchases_of(ledger, plan.parts, plan.layers))


ODD = {
    **{f"run {run}": side(run=(inches(run),) * 2) for run in ("1/64", "3", "241")},
    **{f"ruler {ruler}": replace(BED, ruler=ruler) for ruler in (Length(1000), Length.of(1, "mm"))},
    **{
        f"thing {number}": in_the_way(thing)
        for number, thing in enumerate(
            (
                Obstacle(at=ZERO, width=ZERO, do="no fixing"),
                Obstacle(at=inches("500"), width=inches("3"), do="no fixing"),
                Obstacle(at=inches("20"), width=inches("500"), do="no fixing"),
                Obstacle(at=inches("500"), width=inches("3"), do="split here", overlap=inches("2")),
                Obstacle(do="no fixing"),
            )
        )
    },
}


@pytest.mark.parametrize("job", ODD.values(), ids=ODD)
def test_an_odd_answer_raises_nothing(job: Job) -> None:
    assert [*steps(job)][-1] == "care"


def test_steps_come_as_their_figures_come() -> None:
    assert steps(Job()) == {}
    measured = replace(BED, cloth=Cloths(fixing=Fixing(kind="magnets")))
    assert list(steps(measured)) == ["clear", "hang:left", "dress", "put-back", "care"]
    unfixed = steps(bed(fixing=Fixing()))
    assert "hang:left" not in unfixed
    assert "fold:left" in unfixed
