"""The work: only the steps that apply, in the order of doing, each with its own figures and its caution before it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace

from tests.trade.sample_jobs import inches, small, with_face
from tests.trade.worked_bed import BED, FACE, INNER, SIDE, bed, ledger_of, steps
from wizard.trade.cutting import Cutting, Piece
from wizard.trade.job_fields import Cloths, Fixing, FixingKind, Fullness, Job, Obstacle, Owned, Post
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import STAGES
from wizard.trade.purchases import purchases_of
from wizard.trade.steps import work_of

PLAIN = [
    "buy", "look-over:face", "square:face", "cut:face", "label:face", "join:face:left", "hem:face:left", "stay:left",
    "gather:left", "mark:left", "draw-up:left", "try:left", "tape:left", "fold:left", "clear", "hang:left", "dress",
    "put-back", "care",
]  # fmt: skip


def said(step: Any) -> str:
    return " ".join(step.lines)


def test_a_plain_bed_in_the_order_of_doing() -> None:
    assert list(steps(BED)) == PLAIN


def test_stages_follow_one_another() -> None:
    stages = [STAGES.index(each.stage) for each in steps(bed(interlining=replace(INNER, wash="washed first"))).values()]
    assert all(before <= after for before, after in pairwise(stages))


def test_ids_rest_on_fixed_ids_and_never_on_names() -> None:
    named = bed(section={"left": replace(SIDE, name="by the window")}, face=replace(FACE, name="other cloth"))
    assert list(steps(named)) == PLAIN
    assert "by the window" in steps(named)["hang:left"].title


def test_names_stand_as_they_were_typed() -> None:
    typed = "[b]silk[/b] \x1b[31m {0}"
    assert typed in steps(bed(face=replace(FACE, name=typed)))["cut:face"].title


def test_only_cloth_that_is_washed_first_has_a_wash_step() -> None:
    assert "wash:face" not in steps(BED)
    washed = steps(bed(face=replace(FACE, wash="washed first", warp_shrink=Fraction(3, 100))))
    assert list(washed)[:2] == ["buy", "wash:face"]
    assert "3 % along the roll and 0 % across it" in said(washed["wash:face"])


def test_a_length_that_is_washed_already_is_left_out_of_the_wash() -> None:
    owned = {"shelf": Owned(length=Length.of(1, "yd"), washed=True), "new": Owned(length=Length.of(1, "yd"))}
    lines = said(steps(bed(face=replace(FACE, wash="washed first", owned=owned)))["wash:face"])
    assert "Own length “shelf” is washed already: leave it out." in lines
    assert "new" not in lines


def test_a_part_cut_whole_has_no_join_step() -> None:
    short = bed(section={"left": replace(SIDE, run=(inches("16"), inches("16")))})
    assert not [each for each in steps(short) if each.startswith("join")]


def test_fullness_one_drops_the_gathering_steps() -> None:
    flat = steps(replace(BED, fullness=Fullness(want=Fraction(1))))
    assert not {"gather:left", "draw-up:left"} & set(flat)
    assert {"stay:left", "mark:left", "tape:left"} <= set(flat)


def test_a_flat_run_that_the_ruler_mark_rounds_up_is_not_gathered() -> None:
    odd = replace(SIDE, run=(Length(Fraction(40 * 32 + 1, 32)),) * 2)
    job = replace(bed(section={"left": odd}), fullness=Fullness(want=Fraction(1)))
    assert "gather:left" not in steps(job)


def test_each_inner_layer_is_hemmed_by_itself_and_laid_behind_the_face() -> None:
    lined = steps(bed(interlining=INNER))
    order = list(lined)
    assert order.index("hem:face:left") < order.index("hem:interlining:left") < order.index("layers:left")
    assert "layers:left" not in steps(BED)
    assert (
        "Lay the fleece on it, wrong sides together, raw tops level. It ends 1/2 in short of the face at both ends, "
        "and its hem is 1/2 in above the face's."
    ) in lined["layers:left"].lines


def test_the_hem_gives_its_folds_and_what_it_finishes_at() -> None:
    lined = steps(bed(interlining=INNER))
    assert lined["hem:face:left"].lines == (
        "At both ends turn in 1/2 in twice (1 in altogether), press, and stitch.",
        "Along the bottom turn up 1/2 in twice (1 in altogether), and press.",
        "Stitch close to the upper fold.",
        "Finished width: 100 in.",
        "From the raw top to the hem: 12 1/2 in.",
        "Press.",
    )
    assert "turn up 1 1/2 in twice (3 in altogether)" in said(lined["hem:interlining:left"])
    assert "Finished width: 99 in. From the raw top to the hem: 12 in." in said(lined["hem:interlining:left"])


def test_a_single_hem_gives_its_turn_under_first() -> None:
    single = bed(face=replace(FACE, hem=inches("1"), hem_kind="single", hem_turn=inches("1/4")))
    assert "turn under 1/4 in, then turn up 1 in (1 1/4 in altogether)" in said(steps(single)["hem:face:left"])


def test_the_cut_list_runs_from_the_squared_end() -> None:
    found = steps(BED)["cut:face"]
    assert found.lines == (
        "Cut across in the order of the cut list, at each “to”, and then slit what is listed.",
        "As you cut each piece, chalk an arrow on its wrong side that points up.",
    )
    assert found.listed == (
        "No. 1, 13 1/2 in long × 49 in wide: left section 1/2, from 0 in to 13 1/2 in.",
        "No. 2, 13 1/2 in long × 54 in wide: left section 2/2, from 13 1/2 in to 27 in.",
    )


def test_numbers_run_on_over_all_cloths() -> None:
    lined = steps(bed(interlining=INNER))
    cuts = [line.partition(",")[0] for id in ("cut:face", "cut:interlining") for line in lined[id].listed]
    assert cuts == ["No. 1", "No. 2", "No. 3", "No. 4"]
    assert lined["label:interlining"].lines[1] == (
        "Lay each section's pieces together in order from its left end, as you see it from the room: "
        "left section no. 3 and 4."
    )
    assert lined["join:interlining:left"].lines[0] == (
        "Join in this order from the left end, arrows up, tops level: no. 3 and 4."
    )


def test_cloth_laid_along_the_roll_is_cut_in_lanes() -> None:
    """Laid out by hand: one strip of 102 in as one lane of 13 1/2 in, 2 in from the left edge."""
    ledger, plan = ledger_of(BED)
    layer = plan.layers[0]
    lane = Piece("left", 1, inches("102"), inches("13 1/2"), "roll", inches("0"), inches("2"), 1)
    best = replace(layer.cutting.best, way="along", pieces=(lane,))
    laid = replace(layer, cutting=Cutting(best))
    cut = next(each for each in work_of(ledger, plan.parts, (laid,)) if each.id == "cut:face")
    assert cut.lines[:2] == (
        "First slit the roll to buy at 2 in and 15 1/2 in from its left edge, from end to end.",
        "Cut across in the order of the cut list, at each “to”.",
    )
    assert cut.listed == (
        "No. 1, 13 1/2 in long × 102 in wide: left section 1/1, from 0 in to 102 in, 2 in from the left edge.",
    )


def test_no_lane_is_slit_through_a_wider_piece_of_it() -> None:
    """Laid out by hand: a piece of 13 in and one of 13 1/2 in on end in one lane. At 13 in only the first is slit."""
    ledger, plan = ledger_of(BED)
    layer = plan.layers[0]
    narrow = Piece("left", 1, inches("50"), inches("13"), "roll", inches("0"), inches("0"), 1)
    wider = Piece("left", 2, inches("52"), inches("13 1/2"), "roll", inches("50"), inches("0"), 1)
    laid = replace(layer, cutting=Cutting(replace(layer.cutting.best, way="along", pieces=(narrow, wider))))
    cut = next(each for each in work_of(ledger, plan.parts, (laid,)) if each.id == "cut:face")
    assert cut.lines[:2] == (
        "First slit the roll to buy at 13 1/2 in from its left edge, from end to end.",
        "Cut across in the order of the cut list, at each “to”, and then slit what is listed.",
    )


def test_one_way_cloth_is_said_to_be() -> None:
    assert "one-way" in said(steps(bed(face=replace(FACE, one_way=True)))["cut:face"])
    assert "one-way" not in said(steps(BED)["cut:face"])


def test_a_shorter_piece_beside_a_longer_one_is_cut_down() -> None:
    low = replace(SIDE, run=(inches("6"),) * 2, drop=(inches("9"),) * 3)
    high = replace(SIDE, run=(inches("12"),) * 2)
    listed = steps(bed(section={"left": high, "foot": low}))["cut:face"].listed
    cut = "10 1/2 in long × 17 in wide: foot section 1/1, from 0 in to 10 1/2 in, 32 in from the left edge."
    assert [line.partition(", ")[2] for line in listed if "foot" in line] == [cut]


def test_damage_is_pointed_out_before_cutting() -> None:
    owned = Owned(length=Length.of(3, "yd"), damage_from=inches("10"), damage_to=inches("12"))
    lines = said(steps(bed(face=replace(FACE, owned={"shelf": owned})))["look-over:face"])
    assert "Own length “shelf”: no piece may touch the damage from 10 in to 12 in." in lines


def test_matched_joins_are_said_to_match() -> None:
    patterned = bed(face=replace(FACE, repeat=inches("9")))
    loose = bed(face=replace(FACE, repeat=inches("9"), match=False))
    assert "Match the pattern" in said(steps(patterned)["join:face:left"])
    assert "Match the pattern" not in said(steps(loose)["join:face:left"])


def test_a_lapped_join_gives_its_lap() -> None:
    lapped = bed(interlining=replace(INNER, join="lap"))
    assert "Lap each edge 1/2 in over the next" in said(steps(lapped)["join:interlining:left"])


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
    assert steps(BED)["mark:left"].listed == (
        "Mark 1: 10 in on the tape, 25 in on the skirt.",
        "Mark 2: 20 in on the tape, 50 in on the skirt.",
        "Mark 3: 30 in on the tape, 75 in on the skirt.",
    )


def test_marks_of_the_right_side_are_measured_from_the_head_as_well() -> None:
    flat_return = replace(SIDE, left_end="returns", left_return=inches("2"), returns_flat=True)
    found = steps(bed(section={"right": flat_return}))["mark:right"]
    assert found.lines[-1] == "Measure every mark from the same end, never from the mark before: the head."
    assert found.listed == (
        "Mark 1: 10 in on the tape, 25 in on the skirt.",
        "Mark 2: 20 in on the tape, 50 in on the skirt.",
        "Mark 3: 30 in on the tape, 75 in on the skirt.",
        "Mark 4: 40 in on the tape, 100 in on the skirt.",
    )
    assert "Fold the gathered part of the tape and the flat skirt into equal parts: 4." in found.lines


UNEVEN = replace(SIDE, hem_line="follow the floor", drop=(inches("11"), inches("12"), inches("13")))


def test_a_hem_that_follows_the_floor_is_folded_at_every_mark() -> None:
    found = steps(bed(section={"left": UNEVEN}))["hem:face:left"]
    assert found.lines[1:3] == (
        "This hem follows the floor. Along the flat top, from the head, measure down from the raw edge at each place: "
        "1/2 in of top allowance and the drop.",
        "Draw a line through these points, fold on it, and trim the cloth to 1 in below the fold.",
    )
    assert found.listed == (
        "0 in: 11 1/2 in down.",
        "25 in: 12 in down.",
        "50 in: 12 1/2 in down.",
        "75 in: 13 in down.",
        "100 in: 13 1/2 in down.",
    )


def test_on_the_right_side_the_folds_are_measured_from_the_head() -> None:
    listed = steps(bed(section={"right": UNEVEN}))["hem:face:right"].listed
    assert listed[:2] == ("0 in: 13 1/2 in down.", "25 in: 13 in down.")


def test_an_inner_layer_follows_the_floor_at_its_setback() -> None:
    found = steps(bed(section={"left": UNEVEN}, interlining=INNER))["hem:interlining:left"]
    assert found.listed == (
        "0 in: 11 in down.",
        "24 1/2 in: 11 1/2 in down.",
        "49 1/2 in: 12 in down.",
        "74 1/2 in: 12 1/2 in down.",
        "99 in: 13 in down.",
    )
    assert found.lines[1].endswith("1/2 in of top allowance and the drop, less the setback.")


def test_the_drop_at_each_mark_is_given_only_when_the_hem_follows_the_floor() -> None:
    assert steps(bed(section={"left": UNEVEN}))["mark:left"].listed[0] == (
        "Mark 1: 10 in on the tape, 25 in on the skirt; the drop there is 11 1/2 in."
    )
    assert not any("drop" in line for line in steps(BED)["mark:left"].listed)


def test_needle_and_stitch_length_go_with_the_cloth() -> None:
    lined = steps(bed(face=replace(FACE, kind="fine silk"), interlining=INNER))
    assert lined["hem:face:left"].settings == ("needle 70/10", "stitch length 2.5 mm (about 10 stitches per inch)")
    assert lined["hem:interlining:left"].settings[0] == "needle 90/14"
    assert lined["gather:left"].settings == ("needle 90/14", "stitch length 4 mm (about 6 stitches per inch)")


def test_the_gathering_row_stops_at_joins_only_where_there_are_some() -> None:
    short = bed(section={"left": replace(SIDE, run=(inches("16"), inches("16")))})
    assert "Stop at every join" in said(steps(BED)["gather:left"])
    assert "Stop at every join" not in said(steps(short)["gather:left"])
    assert "cord" in said(steps(BED)["gather:left"])
    assert "cord" not in said(steps(short)["gather:left"])


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


def test_the_raise_and_the_face_of_the_rail_are_said() -> None:
    footboard = replace(SIDE, fixing_face="lower back edge", raised=inches("1/4"))
    assert steps(bed(section={"foot": footboard}))["hang:foot"].lines[:2] == (
        "On the rail's lower back edge, lay the tape's lower edge 1/4 in above the rail's lower edge.",
        "Measure along the tape, from inside the bed: from the bed's left.",
    )


def test_what_turns_in_behind_a_post_is_said_and_whether_it_hangs_free() -> None:
    section = replace(SIDE, right_end="returns", right_return=inches("1"))
    free = bed(section={"left": section}, survey={"post": {"foot-left": Post(may_fix=False)}})
    fixed = bed(section={"left": section}, survey={"post": {"foot-left": Post(may_fix=True)}})
    words = "At the foot end: the last 1 in turns in behind the post"
    assert f"{words}, and hangs free there." in steps(free)["hang:left"].lines
    assert f"{words}." in steps(fixed)["hang:left"].lines


def test_what_is_in_the_way_is_named_where_it_is() -> None:
    leg = Obstacle(name="middle leg", at=inches("20"), width=inches("3"), do="no fixing")
    vent = Obstacle(kind="vent", at=inches("30"), do="keep clear")
    lines = steps(bed(section={"left": replace(SIDE, in_the_way={"leg": leg, "v": vent})}))["hang:left"].lines
    where = "In the way, from the head along the whole run:"
    assert f"{where} middle leg, its middle at 20 in, 3 in wide; set no fixing there." in lines
    kept = "set no fixing there, and tie or stitch the cloth back by hand so that it stays clear."
    assert f"{where} vent, its middle at 30 in; {kept} It is not cut shorter there." in lines
    assert "Leave out, because something is in the way: 20 in." in lines
    # Those of the even row are near enough to it.
    assert not any(line.startswith("Set close beside it") for line in lines)


def test_what_is_set_beside_a_wide_thing_is_said() -> None:
    """A leg 5 in wide about 20 in: the even row has none within 1/2 in of its edges at 17 1/2 in and 22 1/2 in."""
    leg = Obstacle(name="middle leg", at=inches("20"), width=inches("5"), do="no fixing")
    lines = steps(bed(section={"left": replace(SIDE, in_the_way={"leg": leg})}))["hang:left"].lines
    assert "Set close beside it instead: 17 in, 23 in." in lines


def test_a_split_section_is_made_and_hung_in_its_parts() -> None:
    leg = Obstacle(name="middle leg", at=inches("20"), width=inches("3"), do="split here", overlap=inches("4"))
    found = steps(bed(section={"left": replace(SIDE, in_the_way={"leg": leg})}))
    assert [each for each in found if each.startswith("hang")] == ["hang:left/1", "hang:left/2"]
    assert "Measure along the tape, from inside the bed: from the end nearer the head." in said(found["hang:left/2"])
    assert "they overlap; fix the outer one last" in said(found["hang:left/1"])


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
    assert words in said(found["hang:left"])
    assert ("loop:left" in found) == ("loop" in kind)


def test_no_hook_side_is_cut_for_where_it_is_left_out() -> None:
    """A return of 1 in hangs free behind a post that one may not fix into: 41 in of tape, 40 in on the rail."""
    free = replace(SIDE, right_end="returns", right_return=inches("1"))
    survey = {"post": {"foot-left": Post(may_fix=False)}}
    found = bed(section={"left": free}, survey=survey, fixing=Fixing(kind="adhesive hook-and-loop"))
    told = said(steps(found)["hang:left"])
    assert "Stick the hook side to the clean, dry rail: 40 in altogether." in told
    assert "Leave it out along the tape: 40 in to 41 in." in told
    assert "Turn the ends in at the posts" in said(steps(found)["dress"])
    assert "Turn the ends in" not in said(steps(BED)["dress"])


def test_a_section_that_stops_short_is_hung_so_far_from_the_post() -> None:
    short = replace(SIDE, left_end="stops short", left_short=inches("11"))
    assert "At the head end: it ends 11 in short of the post." in said(steps(bed(section={"left": short}))["hang:left"])
    assert "short of the post" not in said(steps(BED)["hang:left"])


def test_what_squaring_may_take_is_less_once_the_cloth_has_shrunk() -> None:
    washed = steps(bed(face=replace(FACE, wash="washed first", warp_shrink=Fraction(5, 100))))
    assert "may take 1 in of cloth as bought, ≈ 15/16 in once washed, off the end" in said(washed["square:face"])
    assert "may take 1 in off the end" in said(steps(BED)["square:face"])


def test_slats_are_numbered_only_where_there_are_some() -> None:
    slatted = steps(bed(survey={"slatted": True}))
    assert "Number the slats" in said(slatted["clear"])
    assert "Lay the slats back" in said(slatted["put-back"])
    assert "slats" not in said(steps(BED)["clear"]) + said(steps(BED)["put-back"])


def test_the_label_says_which_cloth_was_not_washed() -> None:
    assert "not washed first" in said(steps(bed(face=replace(FACE, wash="not washed")))["care"])
    assert "not washed" not in said(steps(BED)["care"])


@pytest.mark.parametrize(
    ("tools", "caution"),
    [(("iron", "steam iron"), "iron"), (("pins",), "count-pins"), (("sewing machine",), "power-tools")],
)
def test_each_step_that_takes_a_tool_has_its_caution_before_it(tools: tuple[str, ...], caution: str) -> None:
    washed = bed(face=replace(FACE, wash="washed first"), lining=INNER)
    taking = {
        key: {each.id for each in step.cautions}
        for key, step in steps(washed).items()
        if any(re.search(rf"\b{tool}\b", each) for tool in tools for each in step.tools)
    }
    assert len(taking) > 2
    assert [key for key, cautions in taking.items() if caution not in cautions] == []


def test_what_is_on_one_run_is_cautioned_about_before_that_run_is_hung_and_no_other() -> None:
    hot = replace(SIDE, in_the_way={"stove": Obstacle(kind="heater", at=inches("20"), do="keep clear")})
    found = steps(bed(section={"left": hot, "right": SIDE}))
    before = [key for key, step in found.items() if "heater-here" in {each.id for each in step.cautions}]
    assert before == ["buy", "hang:left"]


def test_both_parts_of_a_run_that_is_split_are_cautioned_about_what_is_on_it() -> None:
    split = {
        "leg": Obstacle(kind="centre leg", at=inches("25"), do="split here", overlap=inches("2")),
        "plug": Obstacle(kind="socket", at=inches("10"), do="keep clear"),
    }
    found = steps(bed(section={"left": replace(SIDE, in_the_way=split)}))
    before = [key for key, step in found.items() if "socket-here" in {each.id for each in step.cautions}]
    assert before == ["hang:left/1", "hang:left/2"]


def test_the_caution_stands_before_the_step_that_needs_it() -> None:
    found = {key: {each.id for each in step.cautions} for key, step in steps(BED).items()}
    assert {"stapler", "stapler-jam", "behind-rail", "points"} <= found["hang:left"]
    assert "rotary-cutter" in found["cut:face"]
    assert "iron" in found["hem:face:left"]
    assert {"two-people", "nobody-on-bed"} <= found["clear"] & found["put-back"]
    assert "heaters" in found["dress"]


def test_every_step_has_words_and_a_time_to_five_minutes() -> None:
    for step in steps(bed(section={"left": UNEVEN, "foot": SIDE}, interlining=INNER)).values():
        assert step.lines
        assert all(line[-1] in ".:" for line in step.lines)
        assert step.minutes > 0
        assert step.minutes % 5 == 0


def test_every_figure_a_step_rests_on_is_in_the_plan() -> None:
    ledger, plan = ledger_of(bed(interlining=INNER))
    found = work_of(ledger, plan.parts, plan.layers)
    assert {figure for step in found for figure in step.figures} <= set(ledger.figures)
    assert "part.left.mark_spacing_flat" in next(step for step in found if step.id == "mark:left").figures


def test_nothing_is_to_do_for_an_empty_job() -> None:
    assert steps(Job()) == {}


def test_steps_come_as_their_figures_come() -> None:
    measured = replace(BED, cloth=Cloths(fixing=Fixing(kind="magnets")))
    assert list(steps(measured)) == ["clear", "hang:left", "dress", "put-back", "care"]
    unfixed = steps(bed(fixing=Fixing()))
    assert "hang:left" not in unfixed
    assert "fold:left" in unfixed


def test_the_same_job_gives_the_same_work() -> None:
    assert list(steps(BED).values()) == list(steps(BED).values())


def test_along_the_roll_nobody_is_told_to_match_a_pattern_that_cannot_meet() -> None:
    patterned = replace(FACE, repeat=inches("9"), match=True)
    across = said(steps(bed(face=patterned))["join:face:left"])
    along = said(steps(bed(face=replace(patterned, lay="along")))["join:face:left"])
    assert "Match the pattern at the seam line" in across
    assert "Match the pattern" not in along
    assert "The pattern does not meet at the joins" in along


# The work and the buying list are total: a hole or an odd answer leaves steps out and raises nothing.
THINGS = {"leg": Obstacle(kind="centre leg", at=inches("20"), width=inches("3"), do="no fixing")}
SPLIT = {"leg": replace(THINGS["leg"], do="split here", overlap=inches("4"))}
UNEVEN_FLOOR = (inches("11"), inches("12"), inches("13"))
FULL = bed(
    section={
        "left": replace(SIDE, in_the_way=THINGS, hem_line="follow the floor", drop=UNEVEN_FLOOR),
        "right": replace(SIDE, in_the_way=SPLIT),
    },
    interlining=replace(INNER, wash="washed first", owned={"shelf": Owned(length=inches("90"), washed=True)}),
    fixing=Fixing(kind="staples", pack=20),
)


def holes(value: Any) -> Iterator[Any]:
    """Every copy of a job with one leaf taken out."""
    if isinstance(value, Struct):
        for name in value.__struct_fields__:
            inner = getattr(value, name)
            if inner is not None and not isinstance(inner, Length):
                yield from (replace(value, **{name: other}) for other in holes(inner))
            if inner is not None and not isinstance(inner, Struct) and not isinstance(inner, dict):
                yield replace(value, **{name: () if isinstance(inner, tuple) else None})
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from ({**value, key: other} for other in holes(inner))
            yield {other: kept for other, kept in value.items() if other != key}


def plan_again(job: Job) -> tuple[Any, Any]:
    ledger, plan = ledger_of(job)
    return work_of(ledger, plan.parts, plan.layers), purchases_of(ledger, plan.parts, plan.layers)


def test_any_one_hole_leaves_a_plan_that_says_no_more_than_the_whole_one() -> None:
    whole = {each.id.split("/")[0] for each in plan_again(FULL)[0]}
    jobs = list(holes(FULL))
    assert len(jobs) > 40
    for job in jobs:
        work, purchases = plan_again(job)
        assert {each.id.split("/")[0] for each in work} <= whole | {"gather:right", "hang:right", "try:right"}
        assert all(each.amount for each in purchases)


@pytest.mark.parametrize("run", ["1/64", "3", "241"])
def test_an_odd_run_raises_nothing(run: str) -> None:
    job = bed(section={"left": replace(SIDE, run=(inches(run), inches(run)))})
    assert [each.id for each in plan_again(job)[0]][-1] == "care"


@pytest.mark.parametrize("ruler", [Length(1000), Length.of(1, "mm")])
def test_an_odd_ruler_raises_nothing(ruler: Length) -> None:
    assert [each.id for each in plan_again(replace(BED, ruler=ruler))[0]][-1] == "care"


@pytest.mark.parametrize(
    "thing",
    [
        Obstacle(at=ZERO, width=ZERO, do="no fixing"),
        Obstacle(at=inches("500"), width=inches("3"), do="no fixing"),
        Obstacle(at=inches("20"), width=inches("500"), do="no fixing"),
        Obstacle(at=inches("500"), width=inches("3"), do="split here", overlap=inches("2")),
        Obstacle(do="no fixing"),
    ],
)
def test_an_odd_thing_in_the_way_raises_nothing(thing: Obstacle) -> None:
    job = bed(section={"left": replace(SIDE, in_the_way={"thing": thing})})
    assert [each.id for each in plan_again(job)[0]][-1] == "care"


def test_of_a_damaged_length_the_squaring_is_told_as_it_is_after_washing() -> None:
    damaged = Owned(length=inches(120), damage_from=inches(40), damage_to=inches(44), washed=False)
    job = with_face(
        small(), wash="washed first", warp_shrink=Fraction(3, 100),
        owned={"chest": damaged, "attic": replace(damaged, washed=True)},
    )  # fmt: skip
    lines = next(each.lines for each in make_plan(job).work if each.id == "square:face")
    assert [each for each in lines if "take off exactly" in each] == [
        "Own length “chest”: take off exactly 1 in of cloth as bought, ≈ 15/16 in once washed, because its damage is "
        "measured from there.",
        "Own length “attic”: take off exactly 1 in, because its damage is measured from there.",
    ]
